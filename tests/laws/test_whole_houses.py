"""True of whole houses: mirrored ones use as much of everything, and more load never uses less."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bermwright.adapt.mend.writing import changed
from bermwright.base.findings import Verdict
from bermwright.formats.house_file import load
from bermwright.rules.assess import assess

if TYPE_CHECKING:
    from bermwright.adapt.mend.nouns import Writes
    from bermwright.base.findings import Finding

HOUSE = load(Path(__file__).parents[2] / "examples" / "larch-bank.toml").house
DIGITS = 2e-3
"""The curve under cover is found to a tenth of a millimetre only."""
MOUND = ("vault", 0, "mound")
BEHIND = {"spacing": "0.3 m", "length": "3 m", "strength": "20 kN/m", "soft_gives": "60 mm",
          "soft_passes": "4 kPa", "name": "steps", "vault": "day room"}  # fmt: skip
BUTTRESS = {"depth": "1.4 m", "width": "0.6 m", "spacing": "1.5 m", "unit_weight": "21 kN/m3",
            "bond": "100 kPa", "name": "heavy ones", "vault": "day room"}  # fmt: skip


def table(name: str, said: dict[str, str]) -> Writes:
    return tuple(((name, 0, key), text) for key, text in said.items())


def mound(left: str, right: str) -> Writes:
    return (((*MOUND, "left"), left), ((*MOUND, "right"), right), ((*MOUND, "crown"), "0.7 m"))


def hill(faces: str) -> Writes:
    return ((("site", "slope"), "8 deg"), (("site", "faces"), faces))


MIRRORED: dict[str, tuple[Writes, Writes]] = {
    "a lopsided mound": (mound("1:1.7", "1:4"), mound("1:4", "1:1.7")),
    "a hillside": (hill("165 deg"), hill("345 deg")),
    "geogrid on one side": (
        table("geogrid", BEHIND | {"behind": "left"}), table("geogrid", BEHIND | {"behind": "right"}),
    ),
    "buttresses on one side": (
        table("buttress", BUTTRESS | {"side": "left"}), table("buttress", BUTTRESS | {"side": "right"}),
    ),
}  # fmt: skip
TURNED: Writes = (
    (("stages", "order"), "right first"), (("opening", 0, "across"), "0.6 m"),
    (("opening", 1, "across"), "-0.6 m"),
)  # fmt: skip
MORE: dict[str, Writes] = {
    "snow": ((("site", "ground_snow"), "6 kN/m2"),),
    "people": ((("site", "accessible_roof"), "yes"),),
    "water behind a blocked drain": ((("site", "overflow"), "0.8 m"),),
    "ground water": ((("site", "water_depth"), "0.6..3.0 m"),),
    "shaking": ((("site", "ground_acceleration"), "0.2 g"),),
    "wind": ((("site", "wind"), "32 m/s"),),
    "a lead of one lift": ((("stages", "lead"), "0.3 m"),),
    "fill that does not drain": ((("vault", 0, "fill", "drained"), "no"),),
}


def used(writes: Writes = ()) -> dict[tuple[str, str], float]:
    """The most that each rule uses of each part; infinite where it fails or is not known without a number."""
    found: dict[tuple[str, str], float] = {}
    for finding in assess(changed(HOUSE, writes) if writes else HOUSE, stop_marks=False).findings:
        key = (finding.rule, finding.part)
        found[key] = max(found.get(key, 0.0), share(finding))
    return found


@cache
def as_it_is() -> dict[tuple[str, str], float]:
    return used()


def share(finding: Finding) -> float:
    if finding.ratio is not None:
        return finding.ratio
    return math.inf if finding.verdict in {Verdict.FAILS, Verdict.UNKNOWN} else 0.0


@pytest.mark.parametrize("name", MIRRORED)
def test_a_mirrored_house_uses_as_much_of_everything(name: str) -> None:
    one, other = MIRRORED[name]
    here, there = used(one), used((*other, *TURNED))
    assert here.keys() == there.keys()
    unlike = {key: (here[key], there[key]) for key in here if not same(here[key], there[key])}
    assert not unlike


@pytest.mark.parametrize("name", MORE)
def test_more_load_never_uses_less(name: str) -> None:
    before, after = as_it_is(), used(MORE[name])
    less = {key: (before[key], after[key]) for key in before.keys() & after.keys()
            if after[key] < before[key] and not same(before[key], after[key])}  # fmt: skip
    assert not less
    assert any(after.get(key, 0.0) > value * 1.01 for key, value in before.items())


def same(one: float, other: float) -> bool:
    return one == other or math.isclose(one, other, rel_tol=DIGITS, abs_tol=DIGITS * 0.02)
