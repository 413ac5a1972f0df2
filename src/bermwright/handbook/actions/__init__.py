"""Actions that come and go: snow on curved and pitched surfaces, people on the cover.

Start reading at `snow.py`.
"""

from __future__ import annotations

from bermwright.handbook.actions.people import spread_pressure
from bermwright.handbook.actions.snow import mu_curved_roof, mu_pitched_roof, peak_mu_curved_roof

__all__ = ["mu_curved_roof", "mu_pitched_roof", "peak_mu_curved_roof", "spread_pressure"]
