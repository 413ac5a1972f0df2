"""Levers on wood, pipes, frost, stove air and the air tube: each mends what it is there for."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bermwright.adapt.mend.levers import LEVERS
from bermwright.adapt.mend.nouns import Target
from bermwright.adapt.mend.solving import Inverse, reach
from bermwright.adapt.mend.trying import Bench
from bermwright.formats.house_file import load
from bermwright.house import Bedding, StoveAir, Timbers
from bermwright.rules.registry import EVERY_RULE
from bermwright.rules.study import study_vault

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.house import House

WITHOUT: Mapping[str, str] = {
    "actions-are-known": "a value that nobody gave is asked, not mended",
    "forces-on-the-shell-close": "forces that do not close are a mistake of the program",
    "within-the-methods": "beyond the methods nothing is known, so no step can be looked at",
    "domes-stand": "no lever changes a dome yet",
    "ground-as-surveyed": "ground is measured, not mended: the finding says what to write",
}
EXAMPLE = Path(__file__).parents[4] / "examples" / "larch-bank.toml"


@pytest.fixture(scope="module")
def bank() -> House:
    return load(EXAMPLE).house


@pytest.fixture(scope="module")
def bench(bank: House) -> Bench:
    vault = bank.vaults[0]
    return Bench(house=bank, studies={vault.name: study_vault(bank, vault, stop_marks=False)})


def test_every_rule_that_a_change_can_help_has_a_lever() -> None:
    helped = {rule for lever in LEVERS for rule in lever.helps}
    assert {rule.name for rule in EVERY_RULE} - helped <= set(WITHOUT)


def _pipe(**changes: object) -> Callable[[House], House]:
    return lambda house: replace(house, pipes=(replace(house.pipes[0], **changes), *house.pipes[1:]))


def _wood(**changes: object) -> Callable[[House], House]:
    def spoiled(house: House) -> House:
        parts = tuple(
            replace(one, **changes) if one.part is Timbers.END_POSTS else one for one in house.wood_parts
        )
        return replace(house, wood_parts=parts)

    return spoiled


def _tube(**changes: object) -> Callable[[House], House]:
    def spoiled(house: House) -> House:
        assert house.air is not None
        assert house.air.tube is not None
        return replace(house, air=replace(house.air, tube=replace(house.air.tube, **changes)))

    return spoiled


def _smoky(house: House) -> House:
    assert house.air is not None
    stoves = tuple(replace(one, air=StoveAir.ROOM, burn=5400.0) for one in house.stoves)
    return replace(house, stoves=stoves, air=replace(house.air, extract=400.0 / 3600.0, leakage=0.6))


CASES = (
    ("pipes-keep-their-shape", 'pipe "foot drain"', _pipe(bedding=Bedding.SOIL, tamped=False),
     {"better bed"}),
    ("drains-stay-open", 'pipe "foot drain"', _pipe(filter=False), {"fleece round the bed"}),
    ("drains-stay-open", 'pipe "foot drain"', _pipe(fall=0.001), {"steeper drain"}),
    ("wood-fits-its-place", 'end "day room", back', _wood(renewed_every=None), {"a plan to renew it"}),
    ("wood-fits-its-place", 'end "day room", back', _wood(treated_for=None, treated_years=None),
     {"wood treated for the ground"}),
    ("stove-has-its-air", 'stove "bench stove"', _smoky, {"air of its own for the stove", "weaker fans"}),
    ("intake-tube-drains-and-does-not-freeze", "air tube", _tube(drain=False, slope=0.0),
     {"tube with fall and drain"}),
)  # fmt: skip


@pytest.mark.parametrize(("rule", "part", "spoil", "works"), CASES)
def test_what_was_spoiled_is_mended_by_its_levers(
    bank: House, bench: Bench, rule: str, part: str, spoil: Callable[[House], House], works: set[str]
) -> None:
    house = spoil(bank)
    target = Target(rule=rule, part=part, vault="day room")
    before = bench.outcome(target, house)
    assert bench.outcome(target, bank).holds
    assert not before.holds
    inverse = Inverse(bench=bench, target=target, house=house, before=before.ratio)
    found = {
        lever.name
        for lever in LEVERS
        if rule in lever.helps and (one := reach(inverse, lever)) is not None and one.at is not None
    }
    assert works <= found
