"""`bermwright winter`: sentences first, JSON without holes, pages, other weather, and what is refused."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from bermwright.app import wintering
from bermwright.cli.main import main

LARCH_BANK = Path(__file__).resolve().parent.parent.parent / "examples" / "larch-bank.toml"
BARE = """\
[house]
name = "Bare"

[[vault]]
name = "store"
curve = "catenary"
span = "4 m"
rise = "2 m"
length = "6 m"
springing = "1 m"
structure = "segment ribs"
board = "32 x 195 mm"
layers = 4
spacing = "0.6 m"
timber = "C18"
"""
YEARS = wintering.winter_years
DONE: dict[str, object] = {}


@pytest.fixture
def _once(monkeypatch):
    """The year of a file is solved once."""

    def remembered(house, folder, name=None, progress=lambda _step: None):
        key = f"{house.name} {house.site.climate} {name}"
        if key not in DONE:
            DONE[key] = YEARS(house, folder, name, progress)
        return DONE[key]

    monkeypatch.setattr(wintering, "winter_years", remembered)


@pytest.mark.usefixtures("_once")
def test_sentences_come_first_and_say_wood(capsys):
    assert main(["winter", str(LARCH_BANK)]) == 0
    out = capsys.readouterr().out
    first = out.split("- ", maxsplit=2)[1]
    assert re.search(r"\d+\.\d m³\s+of\s+birch", first)
    assert "Calculation aid, not reviewed" in out
    assert "What was assumed" in out
    assert "nan" not in out.lower().split()


@pytest.mark.usefixtures("_once")
def test_json_has_the_year_and_no_holes(capsys):
    main(["winter", str(LARCH_BANK), "--json"])
    said = json.loads(capsys.readouterr().out)
    [vault] = said["vaults"]
    assert len(vault["days"]["room"]) == 365
    assert len(vault["weeks"]) == 52
    assert vault["months"]["balance_error"] < 1e-6
    gains = sum(map(sum, vault["months"]["gains"].values()))
    losses = sum(map(sum, vault["months"]["losses"].values()))
    assert gains == pytest.approx(losses, rel=1e-6)
    assert {one["rule"] for one in vault["findings"]} >= {"stove-carries-the-coldest-day"}


@pytest.mark.usefixtures("_once")
def test_imperial(capsys):
    main(["winter", str(LARCH_BANK), "--units", "imperial"])
    out = capsys.readouterr().out
    assert "°F" in out
    assert "ft³" in out


@pytest.mark.usefixtures("_once")
def test_pages(capsys, tmp_path):
    target = tmp_path / "winter.pdf"
    main(["winter", str(LARCH_BANK), "--out", str(target), "--date", "2026-11-25"])
    first = target.read_bytes()
    assert first.startswith(b"%PDF")
    main(["winter", str(LARCH_BANK), "--out", str(target), "--date", "2026-11-25"])
    assert target.read_bytes() == first
    assert f"Wrote {target}" in capsys.readouterr().out


def test_too_little_is_said_is_no_traceback(capsys, tmp_path):
    bare = tmp_path / "bare.toml"
    bare.write_text(BARE, encoding="utf-8")
    assert main(["winter", str(bare)]) == 2
    assert "names no climate" in capsys.readouterr().err
    bare.write_text(BARE + '\n[site]\nclimate = "normals:Estevan"\n', encoding="utf-8")
    assert main(["winter", str(bare)]) == 2
    assert "heat" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("text", "teaches"),
    [("no weather at all", "no EPW file (LOCATION, first), no TMY3 file and no plain CSV"), ("", "is empty")],
)
def test_a_weather_file_that_is_none(capsys, tmp_path, text, teaches):
    path = tmp_path / "odd.epw"
    path.write_text(text, encoding="utf-8")
    assert main(["winter", str(LARCH_BANK), "--weather", str(path)]) == 2
    error = capsys.readouterr().err
    assert teaches in error
    assert "Traceback" not in error


def test_a_weather_file_that_is_not_there(capsys):
    assert main(["winter", str(LARCH_BANK), "--weather", "nowhere.epw"]) == 2
    assert "nowhere.epw" in capsys.readouterr().err


def test_a_vault_that_is_not_there(capsys):
    assert main(["winter", str(LARCH_BANK), "--vault", "day rom"]) == 2
    assert 'Did you mean "day room"' in capsys.readouterr().err
