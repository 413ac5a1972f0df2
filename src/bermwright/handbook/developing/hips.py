"""Hip and groin ribs: the same heights over a longer run."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def hip_run(run: ArrayLike, turn: ArrayLike) -> Array:
    """Run of a hip rib at the place where the common rib has a run and the same height.

    x_h = x/cos(g)

    Parameters
    ----------
    run : float or array
        Run of the common rib from mid-span, x [m].
    turn : float or array
        Angle in plan between the common rib and the hip, g [rad]; from 0 to below a right angle.

    Returns
    -------
    float or array
        Run of the hip [m].

    Notes
    -----
    The same as dividing both runs into the same number of equal parts and carrying the heights over. It
    holds for two vaults of the same curve and rise, whose hips stand upright over a straight line.

    References
    ----------
    [GILLY1797] the hip rib by equal parts.

    Examples
    --------
    >>> round(float(hip_run(1.0, np.radians(45.0))), 4)
    1.4142
    """
    within("turn", turn, 0.0, 0.5 * np.pi - 1e-6, unit="rad")
    return np.asarray(np.asarray(run, dtype=float) / np.cos(np.asarray(turn, dtype=float)))
