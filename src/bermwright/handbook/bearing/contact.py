"""Pressure under a base that cannot pull."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]


class Contact(NamedTuple):
    """Pressure under a base, which goes straight from one edge to the other."""

    largest: Array
    """At the edge towards which the force leans (Pa); infinite where it has left the base."""
    least: Array
    """At the other edge (Pa); 0 where the base opens."""
    length: Array
    """How much of the base is pressed (m); 0 where the force has left it."""


def contact_pressure(down: ArrayLike, width: ArrayLike, eccentricity: ArrayLike) -> Contact:
    r"""Contact pressure without tension.

    Inside the middle third :math:`N/b\,(1 \pm 6e/b)`; outside it :math:`2N/(3(b/2 - |e|))` over
    :math:`3(b/2 - |e|)`.

    Parameters
    ----------
    down : float or array
        Force down on the base [N/m], from 0.
    width : float or array
        Width of the base [m], above 0.
    eccentricity : float or array
        From the middle of the base to the force [m]; its sign does not count.

    Returns
    -------
    Contact
        Largest and least pressure [Pa] and the length that is pressed [m].

    References
    ----------
    [DAS] contact pressure under an eccentric load.

    Examples
    --------
    >>> contact = contact_pressure(100e3, 1.0, 0.25)
    >>> [round(float(one), 2) for one in contact]
    [266666.67, 0.0, 0.75]
    """
    within("force down", down, 0.0, unit="N/m")
    within("width of the base", width, 0.0, unit="m", open_low=True)
    within("eccentricity", eccentricity, unit="m")
    force, wide = np.asarray(down, dtype=np.float64), np.asarray(width, dtype=np.float64)
    out = np.abs(np.asarray(eccentricity, dtype=np.float64))
    mean, turn = force / wide, 6.0 * out / wide
    pressed: Array = 3.0 * np.maximum(wide / 2.0 - out, 0.0)
    opens = pressed < wide
    with np.errstate(divide="ignore", invalid="ignore"):
        edge = np.where(force > 0.0, 2.0 * force / pressed, 0.0)
    largest: Array = np.where(opens, edge, mean * (1.0 + turn))
    least: Array = np.where(opens, 0.0, mean * (1.0 - turn))
    return Contact(largest, least, np.minimum(pressed, wide))
