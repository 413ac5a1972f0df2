"""The lanes of an analysis: soil runs, and the corners of the soil's ranges within each run."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown
from bermwright.handbook.frames import Soil
from bermwright.handbook.soils import (
    design_friction_angle,
    passive_ratio,
    soil_runs,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.base.ranges import Range
    from bermwright.data.rule_sets import RuleSet

MOBILISATION = 2.0
"""Share of the passive ratio is 1 / this; it was found not to matter (independent continuum study)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lane:
    """One soil run at one corner of the soil's ranges, design values."""

    run: str
    """low, expected, compacted or heavy."""
    unit_weight: float
    """Characteristic (N/m3)."""
    friction_angle: float
    """Characteristic (rad)."""
    vertical: float
    """Factor on the vertical pressure."""
    underside: str
    """How soil presses on an undercut face: full, active or none."""
    soil: tuple[float, float, float, float, float, float]
    """K, Ka, Kp over mobilisation, spring (1/m), modulus (Pa), underside factor."""

    @property
    def springy(self) -> bool:
        """Whether the soil's pressure changes with the movement of the ribs."""
        return self.soil[3] > 0.0

    @property
    def corner(self) -> Mapping[str, Shown | str]:
        """The corner in words, for a finding."""
        named: dict[str, Shown | str] = {
            "soil run": self.run,
            "unit weight": Shown(self.unit_weight, "kN/m3", 1),
            "friction angle": Shown(self.friction_angle, "deg", 0),
            "vertical pressure": f"{self.vertical:g} times the soil above",
        }
        if self.underside != "full":
            named["pressure from below"] = self.underside
        return named


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilInput:
    """What the lanes are made of, read from the house once."""

    unit_weight: Range
    friction_angle: Range
    modulus: float | None
    """Least Young's modulus of the fill at 50 kPa; None counts no spring."""
    membrane_friction: float | None
    """Least friction angle between fill and membrane (rad); None: not known."""
    verticals: tuple[float, ...]
    undercut: bool


@lru_cache(maxsize=64)
def build_lanes(given: SoilInput, factors: RuleSet) -> tuple[Lane, ...]:
    """Every soil run at every corner of the ranges; searches ask for the same ones again and again."""
    undersides = ("full", "active", "none") if given.undercut else ("full",)
    lanes = []
    for weight, angle in product(given.unit_weight.ends, given.friction_angle.ends):
        design = float(design_friction_angle(angle, factors.friction))
        for run in soil_runs(design, membrane_friction=given.membrane_friction):
            for vertical, underside in product(given.verticals, undersides):
                below = {"full": 1.0, "active": run.active, "none": 0.0}[underside]
                spring = run.spring if given.modulus else 0.0
                lanes.append(
                    Lane(
                        run=run.name,
                        unit_weight=weight,
                        friction_angle=angle,
                        vertical=vertical,
                        underside=underside,
                        soil=(
                            run.ratio,
                            run.active,
                            float(passive_ratio(design)) / MOBILISATION,
                            spring,
                            given.modulus or 0.0,
                            below,
                        ),
                    )
                )
    return tuple(lanes)


def frame_soil(lanes: tuple[Lane, ...], weight_factor: float) -> Soil:
    """The lanes as arrays for the frame, the soil's weight times its partial factor."""
    table = np.array([lane.soil for lane in lanes], dtype=float)
    return Soil(
        ratio=table[:, 0],
        active=table[:, 1],
        passive=table[:, 2],
        spring=table[:, 3],
        modulus=table[:, 4],
        underside=table[:, 5],
        weight=weight_factor * np.array([lane.unit_weight for lane in lanes]),
        vertical=np.array([lane.vertical for lane in lanes]),
    )
