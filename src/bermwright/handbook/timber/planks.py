"""Planks of the lagging: beams from rib to rib under the pressure square to the curve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

COEFFICIENTS = {
    1: (0.125, 0.5, 0.5, 0.0130208),
    2: (0.125, 0.625, 1.25, 0.0054161),
    3: (0.1, 0.6, 1.1, 0.0068842),
}
"""By number of bays: moment/(p·s²), shear/(p·s), largest support/(p·s), deflection·EI/(p·s⁴)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlankDemand:
    """What a strip of lagging one metre wide (along the curve) must carry."""

    moment: Array
    """Largest bending moment (Nm/m)."""
    shear: Array
    """Largest shear force (N/m)."""
    support: Array
    """Largest force on a rib (N/m)."""
    deflection_times_stiffness: Array
    """Divide by EI per metre of width (Nm2/m) for the deflection (m)."""


def plank_demand(pressure: ArrayLike, spacing: ArrayLike, *, spans: int = 1) -> PlankDemand:
    """Forces in planks that run over one, two or three or more bays between ribs.

    M = c_M·p·s², V = c_V·p·s, R = c_R·p·s, w = c_w·p·s⁴/EI

    Parameters
    ----------
    pressure : float or array
        Pressure p square to the planks, its size, the same over all bays [Pa], ≥ 0.
    spacing : float or array
        Spacing s of the ribs from middle to middle [m], > 0.
    spans : int
        Bays that each plank runs over: 1, 2 or 3 (also for more) [-].

    Returns
    -------
    PlankDemand
        Moment [Nm/m], shear and support force [N/m], deflection times stiffness [Nm3/m].

    Notes
    -----
    Planks cut at every rib, or of unknown length, are one bay: the larger moment and deflection.

    References
    ----------
    [TIMOSHENKO] three-moment equation, uniform load on equal bays.

    Examples
    --------
    >>> plank = plank_demand(30e3, 0.6)
    >>> round(float(plank.moment)), round(float(plank.shear))
    (1350, 9000)
    """
    within("pressure", pressure, 0.0, unit="Pa")
    within("spacing", spacing, 0.0, unit="m", open_low=True)
    if spans not in COEFFICIENTS:
        raise OutOfRangeError(f"A plank runs over 1, 2 or 3 bays (3 for more), not {spans}.")
    p, s = np.asarray(pressure, dtype=np.float64), np.asarray(spacing, dtype=np.float64)
    moment, shear, support, deflection = COEFFICIENTS[spans]
    return PlankDemand(
        moment=moment * p * s**2,
        shear=shear * p * s,
        support=support * p * s,
        deflection_times_stiffness=deflection * p * s**4,
    )
