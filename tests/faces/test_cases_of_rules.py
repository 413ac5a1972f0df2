"""Every rule holds, fails and is unknown somewhere among the examples and small variations of them.

What these houses do not show is listed in `NOT_HERE`, for the tests of each rule to show: that list may only
shrink, and a case that these houses do show must not stand in it.
"""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path
from typing import Any

import pytest

from bermwright.adapt.lessons import Built, changed, drawn
from bermwright.app.lessons import all_lessons, ordinary
from bermwright.formats.house_file import read
from bermwright.formats.lessons import house_tables, house_text
from bermwright.rules.assess import assess
from bermwright.rules.registry import EVERY_RULE

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
VARIATIONS = (
    ("larch-bank", BAD),
    ("larch-bank", WORSE),
    ("larch-bank", SHAKEN),
    ("larch-bank", WEAKLY_PROPPED),
    ("alder-loft", LOFT_TOO_LIGHT),
    ("alder-loft", FORGOTTEN),
    ("rowan-ring", {"dome.0.course": "300 mm"}),
)
WANTED = ("holds", "fails", "unknown")
NOT_HERE: frozenset[tuple[str, str]] = frozenset(
    {
        ("actions-are-known", "fails"),
        ("boards-bend-to-the-curve", "fails"),
        ("boards-bend-to-the-curve", "holds"),
        ("bond-beam-holds", "fails"),
        ("bond-beam-holds", "holds"),
        ("domes-stand", "holds"),  # nothing is known of the strength of domes: it can never hold
        ("floor-tie-holds-the-feet", "fails"),
        ("forces-on-the-shell-close", "fails"),
        ("house-stands-an-earthquake", "fails"),
        ("layers-dry-out", "fails"),
        ("nails-tie-the-bent-boards", "fails"),
        ("nails-tie-the-bent-boards", "holds"),
        ("openings-fit-under-the-ribs", "fails"),
        ("pieces-can-be-lifted", "fails"),
        ("ribs-stand-a-fire", "fails"),
        ("salvaged-boards-are-graded", "fails"),
        ("salvaged-boards-are-graded", "holds"),
        ("salvaged-boards-are-graded", "unknown"),
        ("soil-runs-fit-the-membrane", "fails"),
        ("stove-has-its-air", "fails"),
        ("within-the-methods", "fails"),
    }
)


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
    assert lacking == NOT_HERE
