"""Setting a pane without a frame of its own: blocks, gaps, cover, drains."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

INCH, FOOT = 0.0254, 0.3048
LEAST_BLOCK = 4.0 * INCH
BLOCK_FOR_AREA = 0.1 * INCH / FOOT**2
"""m for each m2."""
GAP = 0.003
LARGE_GAP = 0.005
LARGE = 2.0
"""m2; larger panes move more."""
COVER = 0.006
SEALED_COVER = 0.012
"""The spacer and its seal must lie in the shade of the bead."""
BED = 0.003


def setting_block(area: ArrayLike) -> Array:
    """Length of each of the two blocks that a pane stands on.

    l = max(0.1 in for each square foot, 4 in)

    Parameters
    ----------
    area : float or array
        Area of the pane [m2], above 0 to 20.

    Returns
    -------
    float or array
        Length, l [m]; their middles stand a quarter of the width in from each end.

    References
    ----------
    [SETTINGBLOCKS] : length and place of setting blocks.

    Examples
    --------
    >>> round(float(setting_block(1.0)), 4), round(float(setting_block(6.0)), 3)
    (0.1016, 0.164)
    """
    within("area of the pane", area, 0.0, 20.0, unit="m2", open_low=True)
    return np.asarray(np.maximum(BLOCK_FOR_AREA * np.asarray(area, dtype=float), LEAST_BLOCK))


@dataclass(frozen=True, slots=True, kw_only=True)
class Rebate:
    """What is cut around a pane (m)."""

    cover: float
    """How far the bead covers the glass."""
    gap: float
    """Between the edge of the glass and the wood, all round; the blocks are as thick at least."""
    depth: float
    """Of the rebate: cover and gap."""
    width: float
    """From the stop to the face: bed, glass, bed, bead."""
    bed: float
    """Tape or sealant on each face."""


def pane_rebate(thickness: float, area: float, *, sealed: bool, bead: float = 0.015) -> Rebate:
    """The rebate for a pane that stands on blocks, drained below.

    d = c + g, w = t + 2·b + bead; c = 6 mm (12 mm over a sealed edge), g = 3 mm (5 mm from 2 m² on), b = 3 mm

    Parameters
    ----------
    thickness : float
        Of the pane, or of the whole sealed unit, t [m], from 0.002 to 0.1.
    area : float
        Of the pane [m2], above 0 to 20.
    sealed : bool
        Whether it is sealed panes with a spacer.
    bead : float
        Width of the bead [m], from 0.005 to 0.1.

    Returns
    -------
    Rebate
        Cover c, gap g, depth d, width w and bed b [m].

    Notes
    -----
    The 3 mm gap was read; the greater cover over a sealed edge, the wider gap of large panes and the bed are
    from memory of usual practice. The maker's sheet goes before all of them.

    References
    ----------
    [GLAZINGGAP] : clearance of 3 mm all round, more for larger pieces.
    [GLASSBITE] : a quarter of an inch as the least cover of sealed panes, by one maker.
    """
    within("thickness of the pane", thickness, 0.002, 0.1, unit="m")
    within("area of the pane", area, 0.0, 20.0, unit="m2", open_low=True)
    within("width of the bead", bead, 0.005, 0.1, unit="m")
    cover = SEALED_COVER if sealed else COVER
    gap = LARGE_GAP if area >= LARGE else GAP
    return Rebate(cover=cover, gap=gap, depth=cover + gap, width=thickness + 2.0 * BED + bead, bed=BED)
