"""Fill that is held by layers of geogrid: what pulls at a layer, what holds it, how far its face bulges.

Start reading at `layer_pull`: each layer holds the soil of its own lift, and must reach far enough behind
the wedge that would slide to be held there.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

GRIP = 0.67
"""Friction of soil on a grid over that of the soil (-), where no pull-out test is at hand."""
BULGE = (11.81, -42.25, 57.16, -35.45, 9.471)
"""Relative bulge by the length of the layers over the height, from its fourth power down (-)."""
BULGE_SHARE = 1.0 / 75.0
"""Bulge of grids that stretch over the height of the face, where the relative bulge is 1 (-)."""
BULGE_LOAD = 0.25 / 20e3
"""How much more the face bulges for a load on top (1/Pa)."""
SHORTEST = 0.3
LONGEST = 1.175
"""Length over height between which the relative bulge is published (-)."""


def long_term_strength(
    ultimate: ArrayLike, *, creep: ArrayLike, damage: ArrayLike, ageing: ArrayLike
) -> Array:
    r"""Strength of a grid that is left after decades in the ground.

    :math:`T_{al} = T_{ult} / (RF_{CR}\,RF_{ID}\,RF_D)`

    Parameters
    ----------
    ultimate : float or array
        Strength in a quick test [N/m], 0 to 1e6.
    creep : float or array
        Reduction for pull that lasts [-], 1 to 10.
    damage : float or array
        Reduction for damage while the fill is tamped [-], 1 to 5.
    ageing : float or array
        Reduction for ageing in the ground [-], 1 to 5.

    Returns
    -------
    array
        Long-term strength [N/m].

    References
    ----------
    [FHWANHI10025] table E1-7.3.

    Examples
    --------
    >>> round(float(long_term_strength(43.8e3, creep=1.85, damage=1.3, ageing=1.15)))
    15837
    """
    within("strength of a grid", ultimate, 0.0, 1e6, unit="N/m")
    within("reduction for creep", creep, 1.0, 10.0)
    within("reduction for damage", damage, 1.0, 5.0)
    within("reduction for ageing", ageing, 1.0, 5.0)
    reduced = np.asarray(creep, dtype=np.float64) * np.asarray(damage, dtype=np.float64)
    kept: Array = np.asarray(ultimate, dtype=np.float64) / (reduced * np.asarray(ageing, dtype=np.float64))
    return kept


def layer_pull(
    depth: ArrayLike, *, spacing: ArrayLike, weight: ArrayLike, ratio: ArrayLike, surcharge: ArrayLike = 0.0
) -> Array:
    r"""Pull in one layer of grid, which holds the soil of its own lift.

    :math:`T = K\,(\gamma z + q)\,S_v`

    Parameters
    ----------
    depth : float or array
        Depth of the layer below the surface [m], 0 to 20.
    spacing : float or array
        Upright distance of the layers [m], 0.05 to 1.
    weight : float or array
        Unit weight of the soil [N/m3], 5e3 to 30e3.
    ratio : float or array
        Sideways over upright pressure; the active ratio for grids that stretch [-], 0.05 to 1.
    surcharge : float or array
        Load on the surface [Pa], from 0.

    Returns
    -------
    array
        Pull [N/m].

    References
    ----------
    [FHWANHI10024] simplified method, grids that stretch; [DAS] walls with geotextile.

    Examples
    --------
    >>> round(float(layer_pull(4.0, spacing=0.5, weight=15.7e3, ratio=0.26)))
    8164
    """
    within("depth of a layer", depth, 0.0, 20.0, unit="m")
    within("distance of the layers", spacing, 0.05, 1.0, unit="m")
    within("unit weight", weight, 5e3, 30e3, unit="N/m3")
    within("pressure ratio", ratio, 0.05, 1.0)
    within("surcharge", surcharge, 0.0, unit="Pa")
    upright = np.asarray(weight, dtype=np.float64) * np.asarray(depth, dtype=np.float64)
    pressure = np.asarray(ratio, dtype=np.float64) * (upright + np.asarray(surcharge, dtype=np.float64))
    pull: Array = pressure * np.asarray(spacing, dtype=np.float64)
    return pull


def beyond_wedge(length: ArrayLike, *, height: ArrayLike, angle: ArrayLike) -> Array:
    r"""Length of a layer behind the wedge that would slide; 0 where it ends inside the wedge.

    :math:`L_e = L - h \tan(45° - \varphi / 2)`

    Parameters
    ----------
    length : float or array
        Length of the layer from the face [m], 0 to 50.
    height : float or array
        Height of the layer over the foot of the face [m], 0 to 20.
    angle : float or array
        Angle of friction of the soil [rad], 0.1 to 0.873.

    Returns
    -------
    array
        Length behind the wedge [m].

    References
    ----------
    [FHWANHI10024] grids that stretch: the wedge of Rankine; [DAS] walls with geotextile.

    Examples
    --------
    >>> round(float(beyond_wedge(2.5, height=2.0, angle=np.radians(36.0))), 3)
    1.481
    """
    within("length of a layer", length, 0.0, 50.0, unit="m")
    within("height of a layer", height, 0.0, 20.0, unit="m")
    within("angle of friction", angle, 0.1, 0.873, unit="rad")
    wedge = np.asarray(height, dtype=np.float64) * np.tan(np.pi / 4.0 - np.asarray(angle) / 2.0)
    left: Array = np.maximum(np.asarray(length, dtype=np.float64) - wedge, 0.0)
    return left


def layer_hold(
    embedment: ArrayLike, *, depth: ArrayLike, weight: ArrayLike, angle: ArrayLike, scale: ArrayLike = 0.8
) -> Array:
    r"""Pull at which a layer slips out of the soil behind the wedge, held on both faces.

    :math:`P = 2 \cdot 0.67\tan\varphi\,\alpha\,\gamma z\,L_e`

    Parameters
    ----------
    embedment : float or array
        Length of the layer behind the wedge [m], 0 to 50.
    depth : float or array
        Depth of the soil over that length, without what comes and goes [m], 0 to 20.
    weight : float or array
        Unit weight of the soil [N/m3], 5e3 to 30e3.
    angle : float or array
        Angle of friction of the soil [rad], 0.1 to 0.873.
    scale : float or array
        Correction for grids that stretch: 0.8 for geogrids, 0.6 for woven cloth [-], 0.1 to 1.

    Returns
    -------
    array
        Pull that it holds [N/m].

    References
    ----------
    [FHWANHI10025] page E8-6 and appendix B: the least values without a pull-out test.

    Examples
    --------
    >>> round(float(layer_hold(1.5, depth=1.0, weight=18e3, angle=np.radians(34.0))))
    19523
    """
    within("length behind the wedge", embedment, 0.0, 50.0, unit="m")
    within("depth of a layer", depth, 0.0, 20.0, unit="m")
    within("unit weight", weight, 5e3, 30e3, unit="N/m3")
    within("angle of friction", angle, 0.1, 0.873, unit="rad")
    within("correction for stretch", scale, 0.1, 1.0)
    pressed = np.asarray(weight, dtype=np.float64) * np.asarray(depth, dtype=np.float64)
    faces = 2.0 * np.asarray(embedment, dtype=np.float64)
    held: Array = faces * GRIP * np.tan(angle) * np.asarray(scale, dtype=np.float64) * pressed
    return held


def face_bulge(length: ArrayLike, *, height: ArrayLike, surcharge: ArrayLike = 0.0) -> Array:
    r"""How far the face of a block with layers that stretch moves out while it is built.

    :math:`\delta = \delta_R\,H / 75 \cdot (1 + 0.25\,q / 20\,\mathrm{kPa})`, with :math:`x = L / H` and
    :math:`\delta_R = 11.81 x^4 - 42.25 x^3 + 57.16 x^2 - 35.45 x + 9.471`

    Parameters
    ----------
    length : float or array
        Length of the layers [m]; 0.3 heights and more.
    height : float or array
        Height of the face [m], 0.1 to 20.
    surcharge : float or array
        Load on top of the block [Pa], from 0 to 100e3.

    Returns
    -------
    array
        Movement of the face [m].

    Notes
    -----
    The curve was fitted to walls up to 6 m high on firm ground. Layers longer than 1.175 heights count as
    so long.

    References
    ----------
    [FHWANHI10024] empirical curve for the movement while it is built.

    Examples
    --------
    >>> round(float(face_bulge(2.1, height=3.0)), 4)
    0.0403
    """
    within("height of the face", height, 0.1, 20.0, unit="m")
    within("load on top", surcharge, 0.0, 100e3, unit="Pa")
    tall = np.asarray(height, dtype=np.float64)
    share = np.asarray(length, dtype=np.float64) / tall
    within("length of the layers over the height", share, SHORTEST)
    relative = np.polyval(BULGE, np.minimum(share, LONGEST))
    more = 1.0 + BULGE_LOAD * np.asarray(surcharge, dtype=np.float64)
    bulge: Array = relative * BULGE_SHARE * tall * more
    return bulge
