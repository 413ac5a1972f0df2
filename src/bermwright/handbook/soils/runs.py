"""The four runs of the soil law on a flexible rib, calibrated against a plane continuum."""

from __future__ import annotations

from dataclasses import dataclass

from bermwright.base.limits import within
from bermwright.handbook.soils.friction import largest_needed_wall_friction
from bermwright.handbook.soils.pressure import active_ratio, at_rest_ratio, compacted_ratio

EXPECTED_SPRING = 0.25
HEAVY_RATIO = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilRun:
    """One run of the soil law."""

    name: str
    """low, expected, compacted or heavy."""
    ratio: float
    """K where nothing moves (-)."""
    active: float
    """Ka (-)."""
    spring: float
    """Spring of the soil per modulus (1/m); 0 where K holds whatever moves."""


def soil_runs(angle: float, *, membrane_friction: float | None = None) -> tuple[SoilRun, ...]:
    r"""The runs of the soil law for one angle of friction.

    low :math:`K_a, k = 0`; expected :math:`1 - \sin\varphi, k = 0.25 E`; compacted
    :math:`1 - \sin\varphi + 0.13, k = 0`; heavy :math:`K = 1, k = 0`.

    Parameters
    ----------
    angle : float
        Angle of friction [rad], 0 to 0.873.
    membrane_friction : float or None
        Least friction angle between soil and membrane [rad]; None where it is not known.

    Returns
    -------
    tuple of SoilRun
        Pressure ratios [-] and spring [1/m] of each run.

    Notes
    -----
    A low run whose needed wall friction exceeds the membrane's cannot be: on such a slippery membrane
    its ratio is 1 - sin(phi) instead of Ka. Where the membrane is not known Ka is kept, and a question
    asked; the compacted run covers the other side. High springs are never the unfavourable end.

    References
    ----------
    [FILLINGMODEL2026] the soil law.

    Examples
    --------
    >>> [(run.name, round(run.ratio, 2)) for run in soil_runs(0.5585)]
    [('low', 0.31), ('expected', 0.47), ('compacted', 0.6), ('heavy', 1.0)]
    """
    active = float(active_ratio(angle))
    at_rest = float(at_rest_ratio(angle))
    low = active
    if membrane_friction is not None:
        within("membrane friction", membrane_friction, 0.0, 0.9, unit="rad")
        if float(largest_needed_wall_friction(active)) > membrane_friction:
            low = at_rest
    ratios = {
        "low": low,
        "expected": at_rest,
        "compacted": float(compacted_ratio(angle)),
        "heavy": HEAVY_RATIO,
    }
    return tuple(
        SoilRun(name=name, ratio=ratio, active=active, spring=EXPECTED_SPRING if name == "expected" else 0.0)
        for name, ratio in ratios.items()
    )
