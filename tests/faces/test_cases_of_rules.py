"""Every rule holds, fails and is unknown somewhere among the examples and small variations of them.

What no house can show, by the nature of the rule, stands in `NEVER` with its reason; a case that these houses
do show must not stand in it.
"""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from bermwright.adapt.lessons import Built, changed, drawn
from bermwright.app.lessons import all_lessons, ordinary
from bermwright.formats.house_file import read
from bermwright.formats.lessons import house_tables, house_text
from bermwright.rules.assess import assess
from bermwright.rules.registry import EVERY_RULE

if TYPE_CHECKING:
    from collections.abc import Mapping

EXAMPLES = Path(__file__).resolve().parent.parent.parent / "examples"
BARE = {
    "house": {"name": "Bare"},
    "vault": [
        {
            "name": "store", "curve": "catenary", "span": "4 m", "rise": "2 m", "length": "6 m",
            "springing": "1 m", "structure": "segment ribs", "board": "32 x 195 mm", "layers": 4,
            "spacing": "0.6 m", "timber": "C18",
        }
    ],
}  # fmt: skip
BAD = {
    "vault.0.nail_spacing": "10 mm", "vault.0.cover.2.strength": "12 kPa", "vault.0.board_length": "5 m",
    "site.water_depth": "0.1..0.3 m", "opening.3.collar": "0.1 m", "opening.3.width": "0.16 m",
    "end.0.soil_to": "0.9 m", "end.1.post_spacing": "1.8 m", "stove.0.hearth_depth": "0.1 m",
    "stove.0.air": "room", "air.flow": "15 m3/h", "footing.0.thickness": "0.15 m", "footing.0.bars": "-",
    "footing.0.bar_spacing": "-", "tie.0.thickness": "0.05 m", "heat.front_insulation": "0 mm",
}  # fmt: skip
"""Too little of many things."""
WORSE = {
    "fire": {"resists": "60 min", "lining": "none", "smoke_alarms": 0, "co_alarms": 0},
    "opening.1.opens": "no", "opening.2.opens": "no", "opening.1.header": "30 x 60 mm",
    "bedroom.0.closed": "yes", "end.0.soil_to": "1.5 m", "vault.0.cover.0.thickness": "20 mm",
    "vault.0.spacing": "1.2 m", "erection.raised": "whole",
}  # fmt: skip
"""Nothing against fire, no way out, ribs far apart."""
LOFT_TOO_LIGHT = {
    "beam.0.diameter": "100 mm", "beam.0.thick_end": "110 mm", "post.0.diameter": "60 mm",
    "post.0.thick_end": "65 mm", "floor.0.joist": "40 x 90 mm", "floor.0.boards": "15 mm",
}  # fmt: skip
FORGOTTEN = dict.fromkeys(
    (
        "end.1.thickness", "end.1.timber", "end.1.post_depth", "end.0.soil_to", "opening.0.header_timber",
        "opening.0.sill", "beam.0.timber", "post.0.timber", "floor.0.timber", "floor.0.boards",
        "stove.0.lagging_distance", "stove.0.terminal_height", "stove.0.hearth_depth", "stove.0.air",
    ),
    "-",
)  # fmt: skip
BLOCKS = {
    "vault": "day room", "at": "back", "kind": "blocks", "soil_to": "0.8 m", "drained": "yes",
    "unit_weight": "22 kN/m3",
}  # fmt: skip
BUTTRESS = {
    "name": "buttresses", "vault": "day room", "spacing": "1.5 m", "width": "0.6 m", "depth": "1.5 m",
    "unit_weight": "21 kN/m3", "bond": "60 kPa",
}  # fmt: skip
SHAKEN = {
    "site.ground_acceleration": "0.2 g", "stages.unheated_first_winter": "yes",
    "end.1": {**BLOCKS, "thickness": "1.0 m"}, "opening.2.sill": "1.1 m", "buttress": [BUTTRESS],
}  # fmt: skip
WEAKLY_PROPPED = {
    "site.ground_acceleration": "0.09 g", "end.1": BLOCKS,
    "buttress": [{**BUTTRESS, "spacing": "3 m", "width": "0.2 m", "depth": "0.3 m", "bond": "10 kPa"}],
}  # fmt: skip
GRADED = {
    "name": "barn joists", "section": "45 x 195 mm", "counts_as": "C18", "knot": "25 mm",
    "knot_in": "wide side", "grain": "5 deg", "rings": "3 mm", "wane": "5 mm", "cracks": "5 mm",
    "rotten": "no",
}  # fmt: skip
STACKS = [
    GRADED,
    {**GRADED, "name": "rotten joists", "rotten": "yes"},
    {name: value for name, value in {**GRADED, "name": "unmeasured joists"}.items() if name != "knot"},
]
RING = {
    "name": "bond beam", "vault": "day room", "height": "0.25 m", "width": "0.4 m", "concrete": "25 MPa",
    "bars": "12 mm", "count": 2, "lap": "0.75 m", "held_every": "1.2 m",
}  # fmt: skip
GRID = {
    "name": "steps", "vault": "day room", "behind": "left", "spacing": "0.3 m", "length": "2.8 m",
    "strength": "20 kN/m", "soft_gives": "60 mm", "soft_passes": "4 kPa",
}  # fmt: skip
GRIDS = [
    GRID,
    {**GRID, "name": "short steps", "behind": "right", "length": "1.0 m"},
    {
        name: text
        for name, text in {**GRID, "name": "steps back", "behind": "back"}.items()
        if name != "strength"
    },
]
"""Fill in steps of geogrid: one that stands, one too short, one of a grid whose strength nobody knows."""
BENT = {
    "vault.0.structure": "bent laminations", "vault.0.board": "17 x 220 mm", "vault.0.depth": "-",
    "vault.0.layers": 10, "vault.0.board_length": "3.0 m", "vault.0.curve": "segment",
    "vault.0.spacing": "0.3 m", "vault.0.nails": "3.4 x 65 mm", "vault.0.nail_spacing": "12 mm",
    "opening.3": "-", "ring": [RING], "graded": STACKS, "geogrid": GRIDS,
}  # fmt: skip
"""Ribs of bent boards that hold, a bond beam, three stacks of old boards."""
BENT_BADLY = {
    **BENT, "vault.0.board": "32 x 220 mm", "vault.0.layers": 5, "vault.0.nails": "3.4 x 90 mm",
    "vault.0.nail_spacing": "200 mm", "site.ground_acceleration": "0.24 g",
    "ring": [{**RING, "bars": "8 mm", "lap": "0.2 m", "held_every": "7 m"}],
}  # fmt: skip
"""Boards too thick for the curve, too few nails, an earthquake, a bond beam held by nothing."""
WOOL = {
    "kind": "insulation", "name": "wool", "material": "mineral wool", "thickness": "250 mm",
    "unit_weight": "1.0 kN/m3", "strength": "40 kPa", "conductivity": "0.04 W/mK",
}  # fmt: skip
SHEET = {
    "kind": "membrane", "name": "sheet", "material": "rubber sheet", "thickness": "3 mm",
    "unit_weight": "12 kN/m3", "friction": "20..24 deg",
}  # fmt: skip
CARELESS = {
    "opening.3": "-", "vault.0.layers": 3, "vault.0.spacing": "0.7 m", "vault.0.nails": "5.0 x 110 mm",
    "fire": {"resists": "60 min", "lining": "none", "smoke_alarms": 2, "co_alarms": 1},
    "opening.1.height": "1.5 m", "opening.1.across": "1.2 m", "opening.0.across": "-1.35 m",
    "stove.0.air": "room", "stove.0.burn": "1.5 h", "air.extract": "400 m3/h", "air.leakage": 0.6,
    "air.flow": "40 m3/h", "moisture.cooking": "4 h", "moisture.showers": 12, "moisture.laundry": 14,
    "vault.0.cover.1": WOOL, "vault.0.cover.2": SHEET,
    "tie.0": {
        "name": "floor timber", "vault": "day room", "kind": "timber", "level": "-0.08 m",
        "section": "60 x 60 mm", "timber": "C14", "spacing": "2.5 m",
    },
    "pipe.0.filter": "no", "pipe.0.bedding": "fine soil", "pipe.0.tamped": "no",
    "pipe.0.stiffness": "2 kN/m2", "wood_part.2.renewed_every": "-",
    "ground_heat.floor.strength": "20 kPa", "ground_heat.wall.strength": "-",
    "vault.0.cover.0.nail": "2.8 x 65 mm", "vault.0.cover.0.thickness": "30 mm", "site.wind": "36 m/s",
}  # fmt: skip
"""Light ribs, no lining, a stove that fights a fan, wool inside a cold sheet, soft pipes, posts for good."""
HEAVY_PIECES = {
    "opening.3": "-", "vault.0.board": "90 x 450 mm", "vault.0.depth": "300 mm", "vault.0.layers": 3,
    "vault.0.board_length": "5 m", "vault.0.nails": "6.0 x 180 mm", "vault.0.timber": "C30",
    "vault.0.span": "6 m", "vault.0.rise": "1 m", "vault.0.curve": "segment",
}  # fmt: skip
"""Blanks that nobody lifts."""
VARIATIONS = (
    ("larch-bank", BAD),
    ("larch-bank", WORSE),
    ("larch-bank", SHAKEN),
    ("larch-bank", WEAKLY_PROPPED),
    ("larch-bank", BENT),
    ("larch-bank", BENT_BADLY),
    ("larch-bank", CARELESS),
    ("larch-bank", HEAVY_PIECES),
    ("rowan-ring", {"dome.0.thickness": "200 mm"}),
    ("alder-loft", LOFT_TOO_LIGHT),
    ("alder-loft", FORGOTTEN),
)
WANTED = ("holds", "fails", "unknown")
NEVER: Mapping[tuple[str, str], str] = {
    ("domes-stand", "holds"): "no strength of domes is reckoned, so none is said to hold",
    **{
        ("ground-as-surveyed", word): "its points lie in a file beside the house; these houses have none"
        for word in ("holds", "fails", "unknown")
    },
    ("actions-are-known", "fails"): "an action that nobody gave is not known, and nothing can fail by it",
    ("forces-on-the-shell-close", "fails"): "forces that do not close are a mistake of the program: unknown",
    ("soil-runs-fit-the-membrane", "fails"): "a slippery sheet changes the soil runs that are looked at",
    ("within-the-methods", "fails"): "beyond the methods nothing is known, so nothing fails either",
}


def houses() -> list[tuple[dict[str, Any], bool]]:
    """Tables of every house, and whether its stop marks are wanted."""
    tables = {path.stem: house_tables(path.read_text(encoding="utf-8")) for path in EXAMPLES.rglob("*.toml")}
    lessons = [changed(ordinary(), drawn(one, Built.AS_BUILT)) for one in all_lessons()]
    varied = [changed(tables[name], changes) for name, changes in VARIATIONS]
    marked = [(one, name in {"larch-bank", "kettle-hill"}) for name, one in tables.items()]
    return [*marked, *((one, False) for one in (BARE, *varied, *lessons))]


@pytest.mark.slow
def test_every_rule_holds_fails_and_is_unknown_somewhere() -> None:
    seen: dict[str, set[str]] = defaultdict(set)
    for tables, marks in houses():
        for one in assess(read(house_text(tables, "varied"), "varied").house, stop_marks=marks).findings:
            seen[one.rule].add("holds" if one.verdict.value == "tight" else one.verdict.value)
    lacking = {(rule.name, word) for rule in EVERY_RULE for word in WANTED if word not in seen[rule.name]}
    assert lacking == set(NEVER)
