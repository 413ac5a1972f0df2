"""Sockets: a foot let into a log or a beam."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]


def split_capacity(width: ArrayLike, *, kept: ArrayLike, height: ArrayLike) -> Array:
    r"""Force across the grain that splits a softwood log or beam at a socket, characteristic.

    :math:`F_{90} = 14 b \sqrt{\frac{h_e}{1 - h_e/h}}` (N, mm)

    Parameters
    ----------
    width : float or array
        Width of the timber across the force and the grain [m], above 0.
    kept : float or array
        Timber between the socket and the edge that the force pushes to [m], above 0, less than the height.
    height : float or array
        Whole height of the timber along the force [m], above 0.

    Returns
    -------
    array
        Force [N].

    Notes
    -----
    The rule is for fasteners, with h_e to the furthest of them; the timber left beside a socket is less
    and is taken for it. To be set against the larger of the two shears beside the socket.

    References
    ----------
    [EN1995] eq. 8.4, w = 1.

    Examples
    --------
    >>> round(float(split_capacity(0.2, kept=0.06, height=0.2)))
    25923
    """
    within("width of the timber", width, 0.0, unit="m", open_low=True)
    within("timber beside the socket", kept, 0.0, unit="m", open_low=True)
    within("height of the timber", height, 0.0, unit="m", open_low=True)
    edge, whole = np.asarray(kept, dtype=np.float64) * 1e3, np.asarray(height, dtype=np.float64) * 1e3
    left = 1.0 - edge / whole
    within("timber beside the socket, of the height", left, 0.0, 1.0, open_low=True)
    force: Array = 14.0 * np.asarray(width, dtype=np.float64) * 1e3 * np.sqrt(edge / left)
    return force


def lip_shear(force: ArrayLike, *, depth: ArrayLike, kept: ArrayLike) -> Array:
    r"""Shear along the grain in the lip of a socket, a beam held on both sides: :math:`1.5 F / (2 d\,t)`.

    Parameters
    ----------
    force : float or array
        Push of one foot on the lip [N], from 0.
    depth : float or array
        Depth of the socket [m], above 0.
    kept : float or array
        Thickness of the lip [m], above 0.

    Returns
    -------
    array
        Shear stress [Pa].

    References
    ----------
    [EN1995] 6.1.7.

    Examples
    --------
    >>> round(float(lip_shear(4e3, depth=0.08, kept=0.06)))
    625000
    """
    within("push on the lip", force, 0.0, unit="N")
    within("depth of the socket", depth, 0.0, unit="m", open_low=True)
    within("thickness of the lip", kept, 0.0, unit="m", open_low=True)
    area = 2.0 * np.asarray(depth, dtype=np.float64) * np.asarray(kept, dtype=np.float64)
    stress: Array = 1.5 * np.asarray(force, dtype=np.float64) / area
    return stress
