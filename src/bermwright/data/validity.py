"""The validity envelope: outside it every verdict that would hold is unknown. Engineering judgement."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One edge of the envelope (SI)."""

    says: str
    value: float
    unit: str
    most: bool = True
    """Whether it is the most (else the least) that is allowed."""


LIMITS: Mapping[str, Limit] = MappingProxyType(
    {
        "span": Limit(says="Span of a rib vault", value=8.0, unit="m"),
        "length": Limit(says="Length of the vault over its span", value=1.0, unit="", most=False),
        "crown cover": Limit(says="Soil over the crown", value=1.2, unit="m"),
        "crown cover least": Limit(says="Soil over the crown", value=0.1, unit="m", most=False),
        "mound slope": Limit(
            says="Steepest slope of the fill", value=float(np.arctan(1 / 1.5)), unit="slope"
        ),
        "ground acceleration": Limit(says="Ground acceleration", value=0.25 * 9.80665, unit="g"),
        "fill friction": Limit(
            says="Least friction angle of the fill (peat, swelling clay, loose fill)",
            value=float(np.radians(22.0)),
            unit="deg",
            most=False,
        ),
    }
)
