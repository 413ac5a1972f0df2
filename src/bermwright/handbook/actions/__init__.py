"""Actions that come and go: snow by two families of codes, wind, people and wheels on the cover.

Start reading at `snow.py`.
"""

from __future__ import annotations

from bermwright.handbook.actions.american_snow import (
    drift_height,
    drift_unit_weight,
    flat_roof_snow,
    mu_arch_american,
    roof_slope_factor,
)
from bermwright.handbook.actions.people import pressure_under_patch, spread_pressure
from bermwright.handbook.actions.snow import mu_curved_roof, mu_pitched_roof, peak_mu_curved_roof
from bermwright.handbook.actions.wind import VaultWind, gust_pressure, wind_on_arch_american, wind_on_vault

__all__ = [
    "VaultWind",
    "drift_height",
    "drift_unit_weight",
    "flat_roof_snow",
    "gust_pressure",
    "mu_arch_american",
    "mu_curved_roof",
    "mu_pitched_roof",
    "peak_mu_curved_roof",
    "pressure_under_patch",
    "roof_slope_factor",
    "spread_pressure",
    "wind_on_arch_american",
    "wind_on_vault",
]
