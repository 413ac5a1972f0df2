"""The string that draws a curve: what its length does to the crown, and which span the centreline has."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.curves import catenary_parameter

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array


def crown_for_length(span: Number, rise: Number) -> Array:
    """How far the crown of a hung string moves for each metre of string that is let out.

    dh/dL = (cosh u − 1 − u·sinh u)/(2·(sinh u − u·cosh u)), u = s/(2·a)

    Parameters
    ----------
    span : float or array
        Distance between the nails, s [m], above 0.
    rise : float or array
        Sag of the string [m], above 0.

    Returns
    -------
    float or array
        Rise of the crown over added length, dh/dL [-].

    References
    ----------
    [ROUTH1891] chapter X; the derivative of both closed forms.

    Examples
    --------
    >>> round(10.0 * float(crown_for_length(5.0, 4.0)), 1)
    5.6
    """
    a = catenary_parameter(span, rise)
    u = 0.5 * np.asarray(span, dtype=float) / a
    return np.asarray((np.cosh(u) - 1.0 - u * np.sinh(u)) / (2.0 * (np.sinh(u) - u * np.cosh(u))))


def shell_span(clear_span: Number, *, thickness: Number, foot_angle: Number) -> Array:
    """Span of the centreline between the nails, for a shell whose inside has a known clear span.

    s_c = s_i + t·sin φ

    Parameters
    ----------
    clear_span : float or array
        Clear span between the inner edges of the feet, s_i [m], above 0.
    thickness : float or array
        Thickness of the shell, t [m], from 0.
    foot_angle : float or array
        Angle of the centreline at its foot from the level, φ [rad], above 0 to π/2.

    Returns
    -------
    float or array
        Distance between the feet of the centreline, s_c [m]; they lie t·cos φ/2 higher than the edges.

    Notes
    -----
    Feet are cut square to the curve. A string traces the centreline; inside and outside are true offsets
    of half the thickness, not strings over other spans.

    References
    ----------
    [DOCARMO1976] chapter 1, parallel curves.

    Examples
    --------
    >>> float(shell_span(4.0, thickness=0.2, foot_angle=np.pi / 2))
    4.2
    """
    within("clear span", clear_span, 0.0, unit="m", open_low=True)
    within("thickness", thickness, 0.0, unit="m")
    within("foot angle", foot_angle, 0.0, 0.5 * np.pi, unit="rad", open_low=True)
    lean = np.sin(np.asarray(foot_angle, dtype=float))
    return np.asarray(np.asarray(clear_span, dtype=float) + np.asarray(thickness, dtype=float) * lean)
