from __future__ import annotations

from bermwright.data.climates import PLACES
from bermwright.formats.climates_text import climate_rows, climates_text


def test_every_station_has_its_line():
    lines = climates_text().splitlines()
    assert [line.split("  ")[0] for line in lines[1 : len(PLACES) + 1]] == [place.name for place in PLACES]
    estevan = next(line for line in lines if line.startswith("Estevan"))
    assert estevan.split("  ")[0] == "Estevan"
    assert "−14.8" in estevan
    assert "1461" in estevan
    assert estevan.endswith("published")


def test_what_is_low_or_from_memory_is_marked():
    lines = climates_text().splitlines()
    assert next(line for line in lines if line.startswith("Leh")).endswith("memory")
    assert "1693 or more" in next(line for line in lines if line.startswith("Brandon"))


def test_the_data_carry_source_and_doubts():
    rows = {row["name"]: row for row in climate_rows()}
    assert len(rows) == len(PLACES)
    leh = rows["normals:Leh"]
    assert leh["provenance"] == "memory"
    assert any("precipitation" in doubt for doubt in leh["doubts"])
    assert "71862" in rows["normals:Estevan"]["source"]
