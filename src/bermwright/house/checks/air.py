"""What does not fit together of the air."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.house.checks.common import Check, Contradiction, Key, bound, clash, metres
from bermwright.house.living.air import Drive, Supply

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.living.air import Air, Tube
    from bermwright.house.model import House

HERE: Key = ("air",)
TUBE: Key = ("air", "tube")
LONG = 10.0
"""Diameters: a shorter piece is a hole."""


def air_checks(house: House) -> Iterator[Check]:
    """The checks of the air and its tube."""
    if house.air is None:
        return
    yield Check(HERE, ("supply", "tube"), bound(_tube_is_used, house.air))
    tube = house.air.tube
    if tube is not None:
        yield Check(TUBE, ("depth", "diameter"), bound(_is_buried, tube))
        yield Check(TUBE, ("length", "diameter"), bound(_is_a_tube, tube))
        yield Check(TUBE, ("drive", "fan_pressure", "stack_height"), bound(_one_drive, tube))


def _tube_is_used(air: Air) -> Iterator[Contradiction]:
    if air.tube is not None and air.supply in {Supply.WINDOWS, Supply.OPENINGS}:
        yield clash(
            HERE,
            "supply",
            f'"{air.supply}"',
            "does not use the tube of [air.tube].",
            'Write supply = "tube", or take the tube out.',
        )


def _is_buried(tube: Tube) -> Iterator[Contradiction]:
    if tube.depth is not None and tube.depth <= 0.5 * tube.diameter:
        yield clash(
            TUBE,
            "depth",
            metres(tube.depth),
            f"is no more than half the diameter of {metres(tube.diameter)}: it sticks out of the ground.",
            "Write the depth of its middle below the ground.",
        )


def _is_a_tube(tube: Tube) -> Iterator[Contradiction]:
    if tube.length < LONG * tube.diameter:
        yield clash(
            TUBE,
            "length",
            metres(tube.length),
            f"is less than ten diameters of {metres(tube.diameter)}.",
            "Write the whole length in the ground; the diameter is in millimetres.",
        )


def _one_drive(tube: Tube) -> Iterator[Contradiction]:
    if tube.drive is Drive.STACK and tube.fan_pressure is not None:
        yield clash(
            TUBE,
            "fan_pressure",
            f"{tube.fan_pressure:g} Pa",
            "is a fan's, but the file says that the tube is driven by a stack.",
            'Write drive = "fan", or take fan_pressure out.',
        )
    if tube.drive is Drive.FAN and tube.stack_height is not None:
        yield clash(
            TUBE,
            "stack_height",
            metres(tube.stack_height),
            "is a stack's, but the file says that a fan drives the tube.",
            'Write drive = "stack", or take stack_height out.',
        )
