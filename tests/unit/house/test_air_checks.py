"""What does not fit together of the air is told, each at its place."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from bermwright.base.errors import HouseFileError
from bermwright.formats.house_file import load, read

EXAMPLE = Path(__file__).parents[3] / "examples" / "larch-bank.toml"


def _changed(old: str, new: str) -> str:
    text = EXAMPLE.read_text(encoding="utf-8")
    assert old in text
    return text.replace(old, new, 1)


def test_the_example_has_no_contradiction() -> None:
    house = load(EXAMPLE).house
    assert house.air is not None
    assert house.air.tube is not None
    assert house.moisture is not None


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('supply = "tube"', 'supply = "windows"', "does not use the tube"),
        ('depth = "2.5 m"\nmaterial = "smooth', 'depth = "0.2 m"\nmaterial = "smooth', ""),
        ('length = "60 m"\ndiameter = "200 mm"', 'length = "1.5 m"\ndiameter = "200 mm"', "ten diameters"),
        ('drive = "fan"', 'drive = "stack"', "is a fan's"),
        ('drive = "fan"', 'drive = "fan"\nstack_height = "4 m"', "is a stack's"),
        ('flow = "120 m3/h"', 'flow = "120"', "unit"),
        ("leakage = 1.5", "leakage = 0.0", "0.1"),
    ],
)
def test_a_contradiction_is_told(old: str, new: str, says: str) -> None:
    changed = _changed(old, new)
    if not says:
        assert read(changed, "x.toml").house.air is not None  # just under the ground is no contradiction
        return
    with pytest.raises(HouseFileError, match=says):
        read(changed, "x.toml")


def test_a_tube_that_sticks_out_is_told() -> None:
    changed: Any = _changed('depth = "2.5 m"', 'depth = "0.2 m"').replace(
        'diameter = "200 mm"', 'diameter = "500 mm"', 1
    )
    with pytest.raises(HouseFileError, match="sticks out"):
        read(changed, "x.toml")
