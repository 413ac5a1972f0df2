"""The butt joint of a nail-laminated rib: one layer is cut, nails carry its share into the others."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class NailGroup:
    """The nails on one side of a butt joint, about their middle."""

    x: Array
    """(k,) along the grain (m)."""
    y: Array
    """(k,) across the grain (m)."""
    columns: int
    rows: int

    @property
    def polar(self) -> float:
        """Sum of the squared distances from the middle (m2)."""
        return float(np.sum(self.x**2 + self.y**2))

    @property
    def length(self) -> float:
        """From the first to the last nail along the grain (m)."""
        return float(np.ptp(self.x))


def nail_group(count: int, rows: int, *, along: float, height: float) -> NailGroup:
    r"""Nails in equal rows, filled column by column, spread over a height.

    Parameters
    ----------
    count : int
        Nails [-], from 1.
    rows : int
        Rows across the grain [-], from 1 to `count`.
    along : float
        Spacing of the columns along the grain [m], above 0.
    height : float
        From the lowest to the highest row [m], from 0.

    Returns
    -------
    NailGroup
        Places about the group's middle [m].

    References
    ----------
    [NAIL-JOINT] geometry of the group.

    Examples
    --------
    >>> round(nail_group(4, 2, along=0.05, height=0.10).polar, 6)
    0.0125
    """
    within("number of nails", count, 1, 1e4)
    within("rows", rows, 1, count)
    within("spacing", along, 0.0, 10.0, unit="m", open_low=True)
    within("height of the group", height, 0.0, 5.0, unit="m")
    place = np.arange(count)
    x = along * (place // rows).astype(float)
    y = height / max(rows - 1, 1) * (place % rows)
    columns = -(-count // rows)
    return NailGroup(x=x - x.mean(), y=y - y.mean(), columns=columns, rows=rows)


def largest_nail_force(axial: ArrayLike, shear: ArrayLike, moment: ArrayLike, group: NailGroup) -> Array:
    r"""Force on the nail of a group that carries most.

    :math:`F_i = \sqrt{(N/k + M|y_i|/I_p)^2 + (V/k + M|x_i|/I_p)^2}`, :math:`I_p = \sum(x_i^2 + y_i^2)`

    Parameters
    ----------
    axial : float or array
        Axial force that the group passes on [N].
    shear : float or array
        Shear force that the group passes on [N].
    moment : float or array
        Moment that the group passes on [N m].
    group : NailGroup
        The nails [m].

    Returns
    -------
    array
        Largest force on one nail [N]; signs are taken the worst way round.

    References
    ----------
    [NAIL-JOINT] elastic group of equal nails.

    Examples
    --------
    >>> four = nail_group(4, 2, along=0.06, height=0.08)
    >>> (
    ...     float(largest_nail_force(400.0, 0.0, 0.0, four)),
    ...     round(float(largest_nail_force(0.0, 0.0, 20.0, four)), 6),
    ... )
    (100.0, 100.0)
    """
    count = group.x.size
    polar = group.polar
    within("polar second moment of the group", polar, 0.0, open_low=count > 1)
    lever = 1.0 / polar if polar > 0 else np.inf
    n, v, m = (np.abs(np.asarray(value, dtype=float))[..., None] for value in (axial, shear, moment))
    turned = np.where(m == 0.0, 0.0, m * lever)
    along = n / count + turned * np.abs(group.y)
    across = v / count + turned * np.abs(group.x)
    return np.max(np.hypot(along, across), axis=-1)


def joint_stiffness(
    layer_stiffness: ArrayLike, layers: int, *, gap: ArrayLike, group_stiffness: ArrayLike = np.inf
) -> Array:
    r"""Least rotational stiffness that a butt joint in one of n layers leaves in a rib.

    :math:`\frac{1}{K_\theta} = \frac{g}{E I_1 n (n - 1)} + \frac{2}{n^2 K_\varphi}`

    Parameters
    ----------
    layer_stiffness : float or array
        EI of one layer [N m2], above 0.
    layers : int
        Number of layers n [-], from 2.
    gap : float or array
        Length g between the middles of the two nail groups, where the cut layer carries nothing [m],
        above 0.
    group_stiffness : float or array
        Rotational stiffness of one group, slip modulus times polar second moment [N m/rad], above 0;
        infinite where no slip counts.

    Returns
    -------
    array
        Stiffness of a rotational spring in an otherwise continuous rib [N m/rad].

    Notes
    -----
    Take as forces: the cut layer carries 1/n of the moment up to the middle of each nail group and nothing
    between; the other layers carry the rest. These forces are in equilibrium, so by the theorem of least
    complementary energy the true joint is at least this stiff.

    References
    ----------
    [NAIL-JOINT] least complementary energy.

    Examples
    --------
    >>> round(float(joint_stiffness(1e5, 4, gap=0.3)))
    4000000
    """
    within("stiffness of one layer", layer_stiffness, 0.0, unit="N m2", open_low=True)
    within("layers", layers, 2, 50)
    within("gap", gap, 0.0, 10.0, unit="m", open_low=True)
    within("stiffness of the nail group", group_stiffness, 0.0, unit="N m/rad", open_low=True)
    through = np.asarray(gap, dtype=float) / (np.asarray(layer_stiffness) * layers * (layers - 1))
    slip = 2.0 / (layers**2 * np.asarray(group_stiffness, dtype=float))
    return 1.0 / (through + slip)
