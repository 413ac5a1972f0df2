"""Heat loss of panes: what passes the gaps by gas and by radiation."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.data.glasses import AIR, Gap, Gas, Glass

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

STEFAN_BOLTZMANN = 5.67e-8
MEAN_TEMPERATURE = 283.0
"""Of the gap (K)."""
DIFFERENCE = 15.0
"""Between the outermost and innermost gap faces (K)."""
GLASS_CONDUCTIVITY = 1.0
INSIDE, OUTSIDE = 0.13, 0.04
"""Surface resistances of upright glass (m²K/W)."""
GRAVITY = 9.81
ROUNDS_TOLERANCE_STEPS = 30
_TILTS = (0.0, 0.25 * np.pi, 0.5 * np.pi)
_FACTORS = (0.16, 0.10, 0.035)
_EXPONENTS = (0.28, 0.31, 0.38)
"""Lying flat with heat going up, at 45 degrees, upright."""


def gas_conductance(gap: Gap, *, difference: float = DIFFERENCE, tilt: float = 0.5 * np.pi) -> float:
    """Heat that the gas of a gap passes.

    h = Nu·λ/s, Nu = max(1, A·(Gr·Pr)^n), Gr = 9.81·s³·ΔT·ρ²/(T·μ²), Pr = μ·c/λ

    Parameters
    ----------
    gap : Gap
        Width s and what fills it.
    difference : float
        Between the faces of the gap, ΔT [K], from 0 to 60.
    tilt : float
        Of the glass from lying flat [rad], from 0 to π/2; A, n of 0°, 45° and 90° are joined straight.

    Returns
    -------
    float
        Conductance, h [W/m2K].

    References
    ----------
    [EN673] : 5.3, gas conductance.
    """
    within("width of the gap", gap.width, 0.002, 0.3, unit="m")
    within("difference", difference, 0.0, 60.0, unit="K")
    within("tilt", tilt, 0.0, 0.5 * np.pi, unit="rad")
    gas = _mixed(gap)
    grashof = GRAVITY * gap.width**3 * difference * gas.density**2 / (MEAN_TEMPERATURE * gas.viscosity**2)
    prandtl = gas.viscosity * gas.capacity / gas.conductivity
    factor, exponent = np.interp(tilt, _TILTS, _FACTORS), np.interp(tilt, _TILTS, _EXPONENTS)
    nusselt = max(1.0, float(factor * (grashof * prandtl) ** exponent))
    return nusselt * gas.conductivity / gap.width


def _mixed(gap: Gap) -> Gas:
    within("share of the gas", gap.share, 0.0, 1.0)
    rest = 1.0 - gap.share
    return Gas(
        name=gap.gas.name,
        density=gap.share * gap.gas.density + rest * AIR.density,
        viscosity=gap.share * gap.gas.viscosity + rest * AIR.viscosity,
        conductivity=gap.share * gap.gas.conductivity + rest * AIR.conductivity,
        capacity=gap.share * gap.gas.capacity + rest * AIR.capacity,
    )


def radiant_conductance(first: float, second: float) -> float:
    """Heat that passes a gap by radiation.

    h = 4·σ·T³/(1/ε₁ + 1/ε₂ − 1)

    Parameters
    ----------
    first : float
        Emissivity of one face, ε₁ [-], above 0 to 1.
    second : float
        Emissivity of the other, ε₂ [-], above 0 to 1.

    Returns
    -------
    float
        Conductance, h [W/m2K].

    References
    ----------
    [EN673] : 5.2, radiation conductance at 283 K.

    Examples
    --------
    >>> round(float(radiant_conductance(0.837, second=0.837)), 1)
    3.7
    """
    within("emissivity", (first, second), 0.0, 1.0, open_low=True)
    return 4.0 * STEFAN_BOLTZMANN * MEAN_TEMPERATURE**3 / (1.0 / first + 1.0 / second - 1.0)


def gap_resistances(glass: Glass, *, tilt: float = 0.5 * np.pi) -> tuple[float, ...]:
    """Resistance of each gap, the difference shared out by the resistances themselves.

    R_i = 1/(h_gas(ΔT_i) + h_rad), ΔT_i = 15·R_i/ΣR

    Parameters
    ----------
    glass : Glass
        Panes and gaps from outside to inside.
    tilt : float
        Of the glass from lying flat [rad], from 0 to π/2.

    Returns
    -------
    tuple of float
        Resistances [m2K/W].

    References
    ----------
    [EN673] : 6, multiple glazing.
    """
    within("tilt", tilt, 0.0, 0.5 * np.pi, unit="rad")
    return _resistances(glass, tilt)


@cache
def _resistances(glass: Glass, tilt: float) -> tuple[float, ...]:
    rows = tuple(zip(glass.gaps, glass.panes[:-1], glass.panes[1:], strict=True))
    first_guess = np.full(len(rows), 1.0 / max(len(rows), 1))
    shares = first_guess
    found = np.zeros(len(rows))
    for _ in range(ROUNDS_TOLERANCE_STEPS):
        found = np.array(
            [
                1.0
                / (
                    gas_conductance(gap, difference=float(DIFFERENCE * share), tilt=tilt)
                    + radiant_conductance(out.emissivity_inside, inner.emissivity_outside)
                )
                for (gap, out, inner), share in zip(rows, shares, strict=True)
            ]
        )
        shares = found / np.sum(found) if rows else shares
    return tuple(float(one) for one in found)


def glass_u(glass: Glass, *, tilt: float = 0.5 * np.pi) -> float:
    """Heat loss of a glazing.

    1/U = 0.13 + ΣR_gap + Σd/λ + 0.04; lying flat 0.10 instead of 0.13

    Parameters
    ----------
    glass : Glass
        Panes and gaps from outside to inside.
    tilt : float
        From lying flat [rad], from 0 to π/2.

    Returns
    -------
    float
        Thermal transmittance, U [W/m2K].

    References
    ----------
    [EN673] : 5 and 6; 10077 rounds the result to one place.

    Examples
    --------
    >>> from bermwright.data.glasses import GLASSES
    >>> round(glass_u(GLASSES["double"]), 2)
    2.85
    """
    gaps = gap_resistances(glass, tilt=tilt)
    solid = sum(pane.thickness for pane in glass.panes) / GLASS_CONDUCTIVITY
    return 1.0 / (_inside(tilt) + sum(gaps) + solid + OUTSIDE)


def _inside(tilt: float) -> float:
    """Surface resistance inside: 0.10 where heat goes up, 0.13 upright."""
    within("tilt", tilt, 0.0, 0.5 * np.pi, unit="rad")
    return float(np.interp(tilt, (0.0, np.pi / 6.0, np.pi / 3.0), (0.10, 0.10, INSIDE)))
