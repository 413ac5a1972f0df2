"""How flat a buried plastic pipe is pressed."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

SOIL_SHARE = 0.061
"""Share of E' with which the soil beside the pipe holds it (Iowa formula)."""


def pipe_flattening(
    pressure: ArrayLike,
    stiffness: ArrayLike,
    reaction: ArrayLike,
    *,
    bedding: ArrayLike = 0.1,
    lag: ArrayLike = 1.0,
) -> Array:
    """How much narrower soil presses a flexible pipe, over its diameter (modified Iowa formula).

    Δ/D = D_L·K·p/(8·S + 0.061·E')

    Parameters
    ----------
    pressure : float or array
        Weight of the soil straight over the pipe, p [Pa], 0 to 5e5.
    stiffness : float or array
        Ring stiffness of the pipe, S = E·I/D³ [Pa], 50 to 1e6; SN 8 is 8000.
    reaction : float or array
        Modulus of the soil's reaction beside the pipe, E' [Pa], 0 to 3e7.
    bedding : float or array
        Bedding constant, K [-], 0.083 to 0.11.
    lag : float or array
        How much more it becomes with the years, D_L [-], 1 to 6.

    Returns
    -------
    array
        Change of the diameter over the diameter [-].

    Notes
    -----
    Written with p·D for the load on a metre and S for E·I/D³; 0.149 of the pipe stiffness F/Δy of a plate
    test is 8·S. Good while the result is small: a pipe that comes to 0.2 folds.

    References
    ----------
    [SPANGLER1941] Iowa formula, with the modulus of soil reaction of Watkins.
    [BURIEDPIPES] the modified formula as printed.

    Examples
    --------
    >>> round(float(pipe_flattening(40e3, 8000.0, 3.45e6, bedding=0.1, lag=1.5)), 4)
    0.0219
    """
    within("pressure over the pipe", pressure, 0.0, 5e5, unit="Pa")
    within("ring stiffness", stiffness, 50.0, 1e6, unit="Pa")
    within("modulus of soil reaction", reaction, 0.0, 3e7, unit="Pa")
    within("bedding constant", bedding, 0.083, 0.11)
    within("deflection lag", lag, 1.0, 6.0)
    held = 8.0 * np.asarray(stiffness, dtype=float) + SOIL_SHARE * np.asarray(reaction, dtype=float)
    load = np.asarray(lag, dtype=float) * np.asarray(bedding, dtype=float) * np.asarray(pressure, dtype=float)
    return np.asarray(load / held)
