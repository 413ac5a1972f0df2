"""The load factor at which a rib buckles in its own plane."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

    from bermwright.handbook.frames.nouns import Array, Frame

FARTHEST = 1e6
"""Factor beyond which a frame counts as one that does not buckle."""


def buckling_factor(
    frame: Frame,
    axial: ArrayLike,
    *,
    stiffness: ArrayLike = 1.0,
    joint_stiffness: ArrayLike = 1.0,
    spring: ArrayLike = 0.0,
    tolerance: float = 1e-4,
) -> Array:
    r"""Factor on the axial forces at which a rib buckles in its plane.

    The least :math:`\lambda` with :math:`\det(K_{el} + K_{soil} - \lambda K_g(N)) = 0`, bracketed by the
    number of negative pivots.

    Parameters
    ----------
    frame : Frame
        The rib with its joints and feet, n elements [m, N, N m2].
    axial : float or array
        (..., n) axial force of the elements, + compression [N]; of any sign, such as
        `Response.axial`.
    stiffness : float or array
        (...) factor on EA and EI, creep [-]; above 0.
    joint_stiffness : float or array
        (...) factor on the joints, creep [-]; above 0.
    spring : float or array
        (..., n + 1) stiffness of the soil sideways [Pa/m], such as `Response.spring`; from 0. Left out, the
        rib is not held by the soil.
    tolerance : float
        Width of the bracket over the factor [-]; above 0.

    Returns
    -------
    array
        (...) Factor [-], the lower end of the bracket; infinite when no compression buckles it, NaN when
        a value is missing or the frame cannot stand without load.

    Notes
    -----
    Props and ties are left out: each of them could only raise the factor. The shape before buckling is
    that drawn, its axial forces those given. Loads keep their direction: under a fluid's pressure, which
    stays square to the bent rib, an arch buckles up to a tenth earlier.

    References
    ----------
    [TIMOSHENKO1961] chapters 2 and 7.
    """
    # The compiled kernels load slowly, so that only who calls waits for them.
    from bermwright.handbook.frames.records import bars_of, frame_lacks
    from bermwright.handbook.frames.sturm import critical

    force = np.asarray(axial, dtype=float)
    factors = np.broadcast_arrays(*(np.asarray(v, dtype=float) for v in (stiffness, joint_stiffness)))
    held = np.broadcast_to(np.asarray(spring, dtype=float), (*np.shape(spring)[:-1], frame.x.size))
    lead = np.broadcast_shapes(force.shape[:-1], factors[0].shape, held.shape[:-1])
    if frame_lacks(frame):
        return np.full(lead, np.nan)
    pair = np.stack([np.broadcast_to(v, lead) for v in factors], axis=-1)
    found: Array = critical(
        bars_of(frame),
        _rows(np.broadcast_to(force, (*lead, frame.elements))),
        np.where(_rows(pair) > 0.0, _rows(pair), np.nan),
        np.where(_rows(np.broadcast_to(held, (*lead, frame.x.size))) >= 0.0, 1.0, np.nan)
        * _rows(np.broadcast_to(held, (*lead, frame.x.size))),
        (FARTHEST, tolerance),
    )
    return found.reshape(lead)


def _rows(array: Array) -> Array:
    return np.ascontiguousarray(array.reshape(-1, array.shape[-1]))
