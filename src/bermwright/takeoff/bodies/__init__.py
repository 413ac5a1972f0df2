"""The take-off held against the closed bodies of the house."""

from __future__ import annotations

from bermwright.takeoff.bodies.comparing import AGREES, Compared, compared, differing

__all__ = ["AGREES", "Compared", "compared", "differing"]
