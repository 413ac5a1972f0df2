"""The room inside: headroom over the floor."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.curves import Strip, headroom_strip

if TYPE_CHECKING:
    from bermwright.form.shapes import VaultForm


def headroom(form: VaultForm, height: float) -> Strip:
    """The strip of floor with a height free over it, between the inside faces of the ribs.

    Below the feet stand upright walls, at most as far in as the inside faces there.
    """
    inside = form.rib.inside
    x = np.concatenate([inside.x[:1], inside.x, inside.x[-1:]])
    low = min(0.0, float(inside.z[0]), float(inside.z[-1]))
    z = np.concatenate([[low], inside.z, [low]])
    return headroom_strip(x, z, height)


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """What a strip of floor is good for, and the height it needs free over the floor (m)."""

    name: str
    height: float


STANDING = 2.00
"""Free height in which nearly everybody stands upright (m): common practice, no source."""
DOOR = (0.90, 2.00)
"""Width and height of a door leaf (m): common practice, no source."""
BED = (0.90, 0.45)
"""Width and height of a bed (m): common practice, no source."""
DESK = (0.70, 0.74)
"""Depth and height of a desk (m): common practice, no source."""


def uses(standing: float | None) -> tuple[Use, ...]:
    """Strips of floor from the highest to the lowest; `standing` is the headroom that the file asks for.

    The heights to sit and to lie under are common practice, without a source.
    """
    return (
        Use(name="to stand and walk", height=STANDING if standing is None else standing),
        Use(name="to sit at a desk", height=1.40),
        Use(name="to lie in a bed", height=1.00),
    )


def strip_over(form: VaultForm, floor: float, height: float) -> Strip | None:
    """The strip of a floor at a level with a height free over it; None where there is none."""
    try:
        free = headroom(form, floor + height)
        wide = headroom(form, floor) if floor > 0.0 else free
    except OutOfRangeError:
        return None
    strip = Strip(max(free.left, wide.left), min(free.right, wide.right))
    return strip if strip.width > 0.0 else None


def strips_of(
    form: VaultForm, floors: tuple[float, ...], standing: float | None
) -> tuple[tuple[float, Use, Strip | None], ...]:
    """Every floor with every use and its strip; a use that reaches over the next floor has none."""
    above = (*sorted(floors)[1:], float("inf"))
    return tuple(
        (floor, use, strip_over(form, floor, use.height) if floor + use.height <= ceiling else None)
        for floor, ceiling in zip(sorted(floors), above, strict=True)
        for use in uses(standing)
    )
