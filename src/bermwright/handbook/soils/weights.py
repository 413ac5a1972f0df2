"""Weight of soil from its grains, its voids and the water in them."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within
from bermwright.handbook.soils.pressure import WATER

Array = NDArray[np.float64]

LIGHTEST_GRAINS, HEAVIEST_GRAINS = 2.0, 3.5
LOOSEST = 5.0


def moist_unit_weight(grain_gravity: ArrayLike, void_ratio: ArrayLike, *, water: ArrayLike = 0.0) -> Array:
    r"""Unit weight of soil that holds some water.

    :math:`\gamma = \frac{G_s (1 + w)}{1 + e}\,\gamma_w`

    Parameters
    ----------
    grain_gravity : float or array
        Weight of the grains over that of water Gs [-], 2 to 3.5.
    void_ratio : float or array
        Volume of the voids over that of the grains e [-], above 0 to 5.
    water : float or array
        Weight of the water over that of the dry soil w [-], from 0 up to full voids e/Gs.

    Returns
    -------
    array
        Unit weight [N/m3]; dry where no water is given.

    References
    ----------
    [DAS] weight-volume relations.

    Examples
    --------
    >>> round(float(moist_unit_weight(2.65, 0.6, water=0.10)) / 1e3, 2)
    17.87
    """
    _check(grain_gravity, void_ratio)
    gravity, voids = np.asarray(grain_gravity, dtype=np.float64), np.asarray(void_ratio, dtype=np.float64)
    wet = np.asarray(water, dtype=np.float64)
    within("water content", wet, 0.0)
    within("water over full voids", gravity * wet / voids, 0.0, 1.0 + 1e-9)
    return gravity * (1 + wet) / (1 + voids) * WATER


def saturated_unit_weight(grain_gravity: ArrayLike, void_ratio: ArrayLike) -> Array:
    r"""Unit weight of soil with all voids full of water.

    :math:`\gamma_{sat} = \frac{G_s + e}{1 + e}\,\gamma_w`

    Parameters
    ----------
    grain_gravity : float or array
        Weight of the grains over that of water Gs [-], 2 to 3.5.
    void_ratio : float or array
        Volume of the voids over that of the grains e [-], above 0 to 5.

    Returns
    -------
    array
        Saturated unit weight [N/m3].

    References
    ----------
    [DAS] weight-volume relations.

    Examples
    --------
    >>> round(float(saturated_unit_weight(2.65, 0.6)) / 1e3, 2)
    19.93
    """
    _check(grain_gravity, void_ratio)
    voids = np.asarray(void_ratio, dtype=np.float64)
    return (np.asarray(grain_gravity, dtype=np.float64) + voids) / (1 + voids) * WATER


def void_ratio_of(dry: ArrayLike, grain_gravity: ArrayLike) -> Array:
    r"""Void ratio of a soil whose dry unit weight is known, such as from a compaction test.

    :math:`e = G_s\,\gamma_w / \gamma_d - 1`

    Parameters
    ----------
    dry : float or array
        Dry unit weight [N/m3], above 0, lighter than solid grains.
    grain_gravity : float or array
        Weight of the grains over that of water Gs [-], 2 to 3.5.

    Returns
    -------
    array
        Void ratio [-].

    References
    ----------
    [DAS] weight-volume relations.

    Examples
    --------
    >>> round(float(void_ratio_of(16.25e3, 2.65)), 2)
    0.6
    """
    within("dry unit weight", dry, 0.0, unit="N/m3", open_low=True)
    within("weight of the grains over that of water", grain_gravity, LIGHTEST_GRAINS, HEAVIEST_GRAINS)
    voids = np.asarray(grain_gravity, dtype=np.float64) * WATER / np.asarray(dry, dtype=np.float64) - 1
    within("void ratio", voids, 0.0, LOOSEST, open_low=True)
    return voids


def _check(grain_gravity: ArrayLike, void_ratio: ArrayLike) -> None:
    within("weight of the grains over that of water", grain_gravity, LIGHTEST_GRAINS, HEAVIEST_GRAINS)
    within("void ratio", void_ratio, 0.0, LOOSEST, open_low=True)
