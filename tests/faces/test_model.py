"""`bermwright model` and the new drawings at the terminal."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from bermwright.app.making.templating import MadeTemplates, TemplateWishes, plan_templates, templates_data
from bermwright.cli.main import main

EXAMPLE = Path(__file__).parents[2] / "examples" / "larch-bank.toml"
STARTS = {
    "glb": b"glTF",
    "stl": b"bermwright model 1:20",
    "csv": b"what,vault,group",
    "xlsx": b"PK",
    "geojson": b"{",
    "ifc": b"ISO-10303-21;",
}


def run(capsys, *words):
    code = main([str(word) for word in words])
    out = capsys.readouterr()
    return code, out.out, out.err


@pytest.mark.parametrize("ending", sorted(STARTS))
def test_every_kind_of_file_is_written_and_replaced(ending, tmp_path, capsys):
    if ending == "ifc":
        pytest.importorskip("ifcopenshell")
    target = tmp_path / f"house.{ending}"
    words = ("model", EXAMPLE, "-o", target, "--date", "2026-11-30", "--metres")
    code, out, err = run(capsys, *words)
    assert (code, err) == (0, "")
    assert f"Wrote {target}. Calculation aid, not reviewed." in out
    first = target.read_bytes()
    assert first.startswith(STARTS[ending])
    assert run(capsys, *words)[0] == 0
    assert target.read_bytes() == first


def test_what_is_printed_small_says_its_thinnest_wall(tmp_path, capsys):
    target = tmp_path / "house.stl"
    _, out, _ = run(capsys, "model", EXAMPLE, "-o", target, "--scale", "50")
    assert "Parts at 1:50: 5" in out
    assert "Thinnest wall 1.2 mm" in out
    assert target.read_bytes().startswith(b"bermwright model 1:50")


def test_everything_in_a_model_is_told_as_data(tmp_path, capsys):
    target = tmp_path / "house.csv"
    code, out, err = run(capsys, "model", EXAMPLE, "-o", target, "--json")
    assert (code, err) == (0, "")
    data = json.loads(out, parse_constant=pytest.fail)
    assert data["files"] == [str(target)]
    assert target.read_bytes().startswith(STARTS["csv"])
    (part,) = data["parts"]
    ribs = next(layer for layer in part["layers"] if layer["kind"] == "rib")
    row = next(one for one in data["compared"] if one["what"] == "ribs, finished")
    assert sum(body["volume_m3"] for body in ribs["bodies"]) == pytest.approx(row["as_built"])
    assert all(one["agrees"] for one in data["compared"])


def test_drawings_and_templates_are_told_as_data(tmp_path, capsys):
    code, out, _ = run(capsys, "draw", EXAMPLE, "-o", tmp_path / "section.svg", "--json")
    data = json.loads(out)
    assert code == 0
    assert data["files"] == [str(tmp_path / "section.svg")]
    assert len(data["sheets"]) == 1
    planned = plan_templates(str(EXAMPLE), TemplateWishes(out=str(tmp_path / "ribs.dxf")))
    data = templates_data(planned, MadeTemplates(files=(), pages=17))
    (vault,) = data["vaults"]
    pieces = [piece for pattern in vault["patterns"] for piece in pattern["pieces"]]
    assert len(pieces) == len(set(pieces)) == sum(pattern["each_rib"] for pattern in vault["patterns"])
    assert data["paper"] is None


def test_take_off_and_bodies_are_told_where_they_differ(tmp_path, capsys):
    hill = EXAMPLE.with_name("kettle-hill.toml")
    _, out, _ = run(capsys, "model", hill, "-o", tmp_path / "house.xlsx")
    assert "great room: spruce planks, area is" in out
    assert "as drawn and 92.6 m² as counted: openings are cut out of it" in out


def test_a_wrong_ending_a_wrong_scale_and_a_strange_file_are_refused(tmp_path, capsys):
    code, _, err = run(capsys, "model", EXAMPLE, "-o", tmp_path / "house.obj")
    assert code == 2
    assert ".glb or .ifc or .stl" in err
    code, _, err = run(capsys, "model", EXAMPLE, "-o", tmp_path / "house.stl", "--scale", "2")
    assert code == 2
    assert "between 1:5 and 1:500" in err
    strange = tmp_path / "house.glb"
    strange.write_text("a letter", encoding="utf-8")
    code, _, err = run(capsys, "model", EXAMPLE, "-o", strange)
    assert code == 2
    assert strange.read_text(encoding="utf-8") == "a letter"
    assert "it was left as it is" in err


def test_an_unknown_form_says_what_is_missing(tmp_path, capsys):
    text = EXAMPLE.read_text(encoding="utf-8").replace('board_length = "1.4 m"', "")
    house = tmp_path / "open.toml"
    house.write_text(text, encoding="utf-8")
    for words in (("model", house, "-o", tmp_path / "a.glb"), ("draw", house, "--what", "set")):
        code, _, err = run(capsys, *words)
        assert code == 2
        assert "vault.board_length" in err
        assert "Traceback" not in err
    assert [path.name for path in tmp_path.iterdir()] == ["open.toml"]


@pytest.mark.parametrize(
    ("what", "count"),
    [("site", "1 sheet"), ("plan", "1 sheet"), ("elevations", "2 sheets"), ("details", "2 sheets")],
)
def test_parts_of_the_set_are_drawn_alone(what, count, tmp_path, capsys):
    target = tmp_path / "drawing.svg"
    code, out, _ = run(capsys, "draw", EXAMPLE, "--what", what, "-o", target, "--date", "2026-11-30")
    assert code == 0
    assert f"{count}, each marked as not reviewed." in out
    drawn = [path.read_text(encoding="utf-8") for path in sorted(tmp_path.glob("*.svg"))]
    assert all("not reviewed" in text for text in drawn)
