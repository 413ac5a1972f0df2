"""Where the vaults and domes of one model stand: as the file places them, else beside each other."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.form.solids import VaultSolids

BESIDE = 4.0
"""Parts stand so far apart where the file does not place them (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """How a part is moved and turned in the axes of the first one."""

    x: float
    y: float
    turn: float
    """Anticlockwise as seen from above (rad)."""


def are_placed(parts: Sequence[VaultSolids]) -> bool:
    """Whether the file says of every part where it stands and which way it looks."""
    return all(one.axis is not None for one in parts) and all(one.middle is not None for one in parts[1:])


def stands(parts: Sequence[VaultSolids]) -> tuple[Stand, ...]:
    """Where each part stands; the first where it is."""
    if not are_placed(parts):
        return _beside(parts)
    first = parts[0]
    return tuple(_stand(one, first) for one in parts)


def _stand(one: VaultSolids, first: VaultSolids) -> Stand:
    axis, own = first.axis or 0.0, one.axis or 0.0
    east, north = (a - b for a, b in zip(one.middle or (0.0, 0.0), first.middle or (0.0, 0.0), strict=True))
    # The middle of its front end, to the east and north of the middle of the first.
    east -= 0.5 * one.length * math.sin(own)
    north -= 0.5 * one.length * math.cos(own)
    return Stand(
        x=east * math.cos(axis) - north * math.sin(axis),
        y=east * math.sin(axis) + north * math.cos(axis) + 0.5 * first.length,
        turn=axis - own,
    )


def _beside(parts: Sequence[VaultSolids]) -> tuple[Stand, ...]:
    found, edge = [], 0.0
    for number, part in enumerate(parts):
        low = min(float(one.low[0]) for one in part.solids)
        high = max(float(one.high[0]) for one in part.solids)
        shift = 0.0 if number == 0 else edge + BESIDE - low
        found.append(Stand(x=shift, y=0.0, turn=0.0))
        edge = high + shift
    return tuple(found)
