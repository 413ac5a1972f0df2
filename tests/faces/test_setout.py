"""`setout` and `templates` at the terminal: numbers, sheets, surveys; what is refused leaves nothing."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from bermwright.app.booking import page_count

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
DAY = ("--date", "2026-11-30")
MARK = "calculation aid, not reviewed"
SURVEY = """\
name,x [m],y [m],z [m]
M,0,0,100.0
A,-6,-6,98.2
B,6,-6,100.1
C,6,6,101.7
D,-6,6,99.8
E,0,8,101.0
F,0,-8,98.9
"""


@pytest.fixture
def house(tmp_path):
    return Path(shutil.copy(EXAMPLES / "sedge-bank.toml", tmp_path / "sedge-bank.toml"))


def test_the_numbers_are_printed_with_the_mark(run, house):
    code, out, _ = run("setout", house)
    assert code == 0
    for words in (
        MARK,
        "Pegs and lengths to check",
        "Heights from one mark",
        "Cut, heaps and fill",
        "Ordinates near the crown",
        "Three nails, two boards",
        "Fairing table",
        "Soil is missing",
    ):
        assert words in out
    assert list(house.parent.iterdir()) == [house]


def test_feet_and_inches(run, house):
    out = run("setout", house, "--units", "imperial")[1]
    assert "13 ft 9 3/8 in" in out
    assert "4.200 m" not in out


def test_json_has_what_the_table_has(run, house):
    data = json.loads(run("setout", house, "--json")[1])
    (vault,) = data["vaults"]
    assert data["mark"] == MARK
    assert [peg["name"] for peg in vault["pegs"]] == list("ABCDEFH")
    assert len(vault["boards"]) == 8
    assert vault["dig"]["by_grid_m3"] == pytest.approx(vault["dig"]["by_other_route_m3"], rel=2e-3)
    assert vault["balance"]["spare_m3"]["high"] < 0.0
    assert vault["near_feet"][0]["right_m"]["centreline"] == pytest.approx(2.1, abs=0.01)
    assert len(vault["curve"]["arcs"]) == 5


def test_the_sheets_are_counted_and_the_same_day_gives_the_same_bytes(run, house):
    first, second = house.with_name("a.pdf"), house.with_name("b.pdf")
    code, out, _ = run("setout", house, *DAY, "-o", first)
    assert code == 0
    assert f"{page_count(first.read_bytes())} sheets, each marked" in out
    run("setout", house, *DAY, "-o", second)
    assert second.read_bytes() == first.read_bytes()


def test_every_sheet_bears_mark_and_day_and_there_is_one_for_each_day_and_tool(run, house):
    assert run("setout", house, *DAY, "-o", house.with_name("s.svg"))[0] == 0
    said = [path.read_text(encoding="utf-8") for path in sorted(house.parent.glob("s-*.svg"))]
    assert all(MARK in text and "2026-11-30" in text for text in said)
    whole = " ".join(said)
    for words in (
        "Day 1: pegs",
        "Day 2: the dig",
        "Day 6: mound",
        "Gauge stick",
        "Slope boards",
        "Rib jig",
        "Springing shoe",
        "Water level",
        "Hand rammer",
        "overhead lines",
        "cables, pipes",
    ):
        assert words in whole


def test_sheets_for_other_programs(run, house):
    assert run("setout", house, *DAY, "-o", house.with_name("s.dxf"))[0] == 0
    assert house.with_name("s.dxf").read_bytes().startswith(b"  0")


def test_a_survey_beside_the_house_is_read_and_compared(run, house):
    (house.parent / "points.csv").write_text(SURVEY, encoding="utf-8")
    text = house.read_text(encoding="utf-8")
    house.write_text(text + '\n[survey]\npoints = "points.csv"\nmiddle = "M"\n', encoding="utf-8")
    code, out, _ = run("setout", house)
    assert code == 0
    assert "A plane through 7 surveyed points" in out
    assert "The points fall" in out


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("98.2", "88.2"), '"A" in line 3'),
        (("M,0", "Q,0"), 'no point is called "M"'),
        (("6,6,101.7", "6,6"), "height is missing"),
        (("x [m]", "u"), "no x (east)"),
    ],
)
def test_a_survey_that_is_wrong_is_refused(run, house, change, words):
    (house.parent / "points.csv").write_text(SURVEY.replace(*change), encoding="utf-8")
    text = house.read_text(encoding="utf-8")
    house.write_text(text + '\n[survey]\npoints = "points.csv"\nmiddle = "M"\n', encoding="utf-8")
    code, out, err = run("setout", house, "-o", house.with_name("out.pdf"))
    assert (code, out) == (2, "")
    assert words in err
    assert not house.with_name("out.pdf").exists()


def test_readings_and_ordinates_are_reduced(run, house, tmp_path):
    readings, table = tmp_path / "r.csv", tmp_path / "o.csv"
    readings.write_text("from,to,back,fore\nH,A,1.0,1.25\nA,B,1.1,1.302\nB,H,1.4,0.95\n", encoding="utf-8")
    table.write_text("x,z\n-1,1.0\n-0.5,1.25\n0,1.335\n0.5,1.26\n1,1.0\n", encoding="utf-8")
    code, out, _ = run("setout", house, "--levels", readings, "--ordinates", table)
    assert code == 0
    assert "The loop misses by -2.0 mm" in out
    assert "Measured ordinates" in out
    code, out, err = run("setout", house, "--levels", tmp_path / "none.csv")
    assert (code, out) == (2, "")
    assert "cannot be read" in err


@pytest.mark.parametrize(
    ("option", "asks"), [("--datum", "give --levels FILE too"), ("--middle", "give --points FILE")]
)
def test_a_point_of_a_list_that_is_not_given_is_refused(run, house, option, asks):
    code, out, err = run("setout", house, option, "A")
    assert (code, out) == (2, "")
    assert asks in err


def test_a_house_of_which_nothing_is_known_is_refused(run, bare):
    code, out, err = run("setout", bare)
    assert (code, out) == (2, "")
    assert "missing" in err


# -------------------------------------------------------------------------------------------- templates
def test_sheets_are_counted_before_and_ordinates_offered_first(run, house):
    code, out, _ = run("templates", house, "--what", "curve", *DAY)
    lines = out.splitlines()
    assert code == 0
    assert lines[0].endswith("full-size sheets on A4.")
    assert "ordinates and a string" in lines[1]
    assert lines[2].startswith("Wrote ")


def test_a_template_that_could_not_print_true_is_never_written(run, house):
    code, out, err = run("templates", house, "--printer-bar", "94,94")
    assert (code, out) == (2, "")
    assert "100 %" in err
    assert list(house.parent.iterdir()) == [house]


def test_uncut_templates_at_full_size(run, house):
    assert run("templates", house, "--what", "curve", "-o", house.with_name("c.dxf"))[0] == 0
    assert run("templates", house, "--what", "curve", "-o", house.with_name("c.svg"))[0] == 0
    assert house.with_name("c.svg").read_text(encoding="utf-8").startswith("<svg")
    assert house.with_name("c.dxf").stat().st_size > 1000


def test_the_workbench_sets_out_with_the_same_numbers(run, house, tmp_path):
    from bermwright.workbench.tasks import JOBS

    made = JOBS["setout"](str(house), tmp_path, {}, lambda _step: None)
    assert (tmp_path / made["name"]).read_bytes().startswith(b"%PDF")
    printed = json.loads(run("setout", house, "--json")[1])
    assert made["data"]["setout"]["vaults"] == printed["vaults"]


def test_a_dome_is_set_out_from_its_middle(run, tmp_path):
    ring = Path(shutil.copy(EXAMPLES / "domes" / "rowan-ring.toml", tmp_path / "ring.toml"))
    code, out, _ = run("setout", ring, *DAY, "-o", ring.with_name("r.pdf"))
    assert code == 0
    assert "Setting out round room from its middle" in out
    assert "2 sheets, each marked" in out
    data = json.loads(run("setout", ring, "--json")[1])
    (dome,) = data["domes"]
    assert dome["circles"][0] == {"what": "inner face", "radius_m": 2.1, "chain_m": 2.06}
    assert dome["triangle_m"][2] == pytest.approx(5.0)
    code, out, err = run("setout", ring, "--vault", "hall")
    assert (code, out) == (2, "")
    assert 'no vault or dome "hall"' in err
    assert '"round room"' in err


def test_points_that_are_asked_for_by_name_may_lie_anywhere(run, house, tmp_path):
    points = tmp_path / "elsewhere" / "points.csv"
    points.parent.mkdir()
    points.write_text(SURVEY, encoding="utf-8")
    code, out, _ = run("setout", house, "--points", points, "--middle", "M")
    assert code == 0
    assert "A plane through 7 surveyed points" in out
    code, out, err = run("setout", house, "--points", points)
    assert (code, out) == (2, "")
    assert "--middle" in err
