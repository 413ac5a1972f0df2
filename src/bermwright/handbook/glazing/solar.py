"""Sun through panes: what passes, what is caught and comes in as heat, at any angle."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.glazing.panes import GLASS_CONDUCTIVITY, INSIDE, OUTSIDE, gap_resistances

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from bermwright.data.glasses import Glass, Pane

    Array = NDArray[np.float64]

REFRACTION = 1.526
"""Refractive index of window glass."""
CLEAR_DEPTH = 0.12
"""Absorption of the clear pane whose angles all panes follow: extinction times thickness."""
ANGLE_SAMPLES = 91


def clear_pane(incidence: ArrayLike) -> tuple[Array, Array]:
    """Transmission and reflection of a clear pane by the angle.

    Fresnel for both polarisations, Snell sin θ = 1.526·sin θ′, a = exp(−0.12/cos θ′),
    τ = a·(1 − r)²/(1 − r²·a²), ρ = r·(1 + a·τ), both averaged

    Parameters
    ----------
    incidence : float or array
        Angle of incidence, θ [rad], from 0 to π/2.

    Returns
    -------
    tuple of array
        Transmission and reflection [-].

    References
    ----------
    [DUFFIE2013] : 5.1 to 5.3.
    """
    within("angle of incidence", incidence, 0.0, 0.5 * np.pi + 1e-9, unit="rad")
    angle = np.maximum(np.asarray(incidence, dtype=float), 1e-6)
    bent = np.arcsin(np.sin(angle) / REFRACTION)
    across = (np.sin(bent - angle) / np.sin(bent + angle)) ** 2
    along = (np.tan(bent - angle) / np.tan(bent + angle)) ** 2
    kept = np.exp(-CLEAR_DEPTH / np.cos(bent))
    passed, thrown = [], []
    for r in (across, along):
        t = kept * (1.0 - r) ** 2 / (1.0 - (r * kept) ** 2)
        passed.append(t)
        thrown.append(r * (1.0 + kept * t))
    return np.asarray(0.5 * (passed[0] + passed[1])), np.asarray(0.5 * (thrown[0] + thrown[1]))


def solar_factor(glass: Glass, incidence: ArrayLike = 0.0, *, tilt: float = 0.5 * np.pi) -> Array:
    """Share of the beam that comes in: what passes and what the panes catch and give inwards.

    g = τ + Σ α_i·R_out,i/R; each pane τ(θ) = τ₀·τ_c(θ)/τ_c(0), ρ(θ) = ρ₀·(1 − q) + q,
    q = (ρ_c(θ) − ρ_c(0))/(1 − ρ_c(0))

    Parameters
    ----------
    glass : Glass
        Panes and gaps from outside to inside.
    incidence : float or array
        Angle of incidence, θ [rad], from 0 to π/2.
    tilt : float
        Of the glass from lying flat [rad], from 0 to π/2.

    Returns
    -------
    float or array
        Total solar energy transmittance, g [-].

    References
    ----------
    [EN410] : 5.4, at normal incidence.
    [FINLAYSON1993] : coated panes follow the angle of clear ones.
    """
    caught, passed = absorbed(glass, incidence)
    inwards = _inward_shares(glass, tilt)
    return np.asarray(passed + sum(share * heat for share, heat in zip(inwards, caught, strict=True)))


def absorbed(glass: Glass, incidence: ArrayLike = 0.0) -> tuple[tuple[Array, ...], Array]:
    """What each pane catches of the beam, and what passes all of them.

    the light going in and out between the panes balanced, every reflection counted

    Parameters
    ----------
    glass : Glass
        Panes and gaps from outside to inside.
    incidence : float or array
        Angle of incidence [rad], from 0 to π/2.

    Returns
    -------
    tuple
        Caught by each pane from outside to inside [-], and transmitted [-].

    References
    ----------
    [EN410] : 5.2 and 5.4.3, multiple glazing.
    """
    optics = [_at_angle(pane, incidence) for pane in glass.panes]
    beyond = _reflected_behind(optics)
    down = np.ones_like(np.asarray(incidence, dtype=float))
    caught = []
    for (t, r_out, r_in), behind in zip(optics, beyond, strict=True):
        passed = down * t / (1.0 - r_in * behind)
        up = passed * behind
        caught.append(np.asarray(down * (1.0 - t - r_out) + up * (1.0 - t - r_in)))
        down = passed
    return tuple(caught), np.asarray(down)


def _reflected_behind(optics: list[tuple[Array, Array, Array]]) -> list[Array]:
    """What all panes behind each throw back together."""
    behind = np.zeros_like(optics[-1][0])
    found = [behind]
    for t, r_out, r_in in reversed(optics[1:]):
        behind = r_out + t**2 * behind / (1.0 - r_in * behind)
        found.append(behind)
    return found[::-1]


def _at_angle(pane: Pane, incidence: ArrayLike) -> tuple[Array, Array, Array]:
    within("transmission", pane.transmission, 0.0, 1.0)
    within("what a pane leaves", 1.0 - pane.transmission - pane.reflection_outside, 0.0, 1.0)
    within("what a pane leaves", 1.0 - pane.transmission - pane.reflection_inside, 0.0, 1.0)
    passed, thrown = clear_pane(incidence)
    passed_0, thrown_0 = clear_pane(0.0)
    more = np.maximum((thrown - thrown_0) / (1.0 - thrown_0), 0.0)
    t = pane.transmission * passed / passed_0
    return t, _grown(pane.reflection_outside, more), _grown(pane.reflection_inside, more)


def _grown(reflection: float, more: Array) -> Array:
    """Towards 1 at a grazing angle; what passes falls sooner, so that nothing is left below 0."""
    return np.asarray(reflection * (1.0 - more) + more)


def _inward_shares(glass: Glass, tilt: float) -> list[float]:
    """Share of what each pane catches that goes inwards: the resistance outwards over the whole."""
    gaps = gap_resistances(glass, tilt=tilt)
    solid = [pane.thickness / GLASS_CONDUCTIVITY for pane in glass.panes]
    whole = OUTSIDE + sum(gaps) + sum(solid) + INSIDE
    found, outwards = [], OUTSIDE
    for count, pane in enumerate(solid):
        found.append((outwards + 0.5 * pane) / whole)
        outwards += pane + (gaps[count] if count < len(gaps) else 0.0)
    return found


def diffuse_factor(glass: Glass, *, tilt: float = 0.5 * np.pi) -> float:
    """Share that comes in of light from all sides alike.

    g_d = ∫ g(θ)·sin 2θ dθ from 0 to π/2

    Parameters
    ----------
    glass : Glass
        Panes and gaps from outside to inside.
    tilt : float
        Of the glass from lying flat [rad], from 0 to π/2.

    Returns
    -------
    float
        Diffuse solar factor [-].

    References
    ----------
    [DUFFIE2013] : 5.4, transmission of diffuse light.
    """
    angles = np.linspace(0.0, 0.5 * np.pi, ANGLE_SAMPLES)
    weights = np.sin(2.0 * angles)
    values = solar_factor(glass, angles, tilt=tilt) * weights
    return float(np.sum(values) / np.sum(weights))
