"""Soil and water that lean against an end wall: every moment, corner and set of partial factors."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.data.rule_sets import rule_sets
from bermwright.handbook.retaining import sloping_at_rest_ratio
from bermwright.handbook.soils import compacted_ratio, design_friction_angle, passive_ratio
from bermwright.rules import readings
from bermwright.rules.grids.holding import held_end

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.base.ranges import Range
    from bermwright.data.rule_sets import RuleSet
    from bermwright.house import End, Fill, House, Soil

WATER = 9806.65
"""Unit weight of water (N/m3)."""
HEAVY = 1.0
"""Pressure ratio beside a plate that runs near, or of soil placed wet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lean:
    """Design pressure on an end wall at one moment and corner.

    It grows evenly from the top of the soil to the floor; standing water adds its own from its surface down.
    """

    moment: str
    duration: str
    factors: RuleSet
    top: float
    """Pressure at the soil's surface (Pa)."""
    bottom: float
    """Pressure at the floor, water with it (Pa)."""
    even: float
    """The same without what water adds (Pa)."""
    formula: str
    filled: str
    """How the pressure at the floor is reckoned, and the numbers in it (kPa)."""
    height: float
    """Height of the soil over the floor (m)."""
    ratio: float
    angle: float
    """Design angle of friction (rad)."""
    weight: float
    """Characteristic unit weight (N/m3)."""
    water: float
    """Height of standing water over the floor (m)."""
    below: float
    """Unit weight that holds a post's foot: buoyant where water stands (N/m3)."""

    @property
    def passive(self) -> float:
        """Passive pressure ratio of the ground."""
        return float(passive_ratio(self.angle))

    @property
    def wet(self) -> float:
        """What water adds at the floor (Pa)."""
        return self.bottom - self.even

    @property
    def force(self) -> float:
        """N for a metre of wall."""
        return 0.5 * (self.top + self.even) * self.height + 0.5 * self.wet * self.water

    @property
    def corner(self) -> Mapping[str, Shown | str]:
        """The corner in words."""
        return {
            "unit weight": Shown(self.weight, "kN/m3", 1),
            "pressure ratio": Shown(self.ratio, "", 2),
            "factors": self.factors.name,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """The soil behind an end, and what is not known of it."""

    leans: tuple[Lean, ...]
    doubts: tuple[str, ...]
    """What the file does not say and would add a case."""
    lacks: tuple[str, ...]
    """What the file does not say and everything needs."""


def soil_behind(house: House, end: End) -> Soil | Fill | None:
    """The soil that lies against an end: the one named, else the vault's fill."""
    if end.soil is not None:
        return house.soil(end.soil)
    vault = next((one for one in house.vaults if one.name == end.vault), None)
    return None if vault is None else house.fill(vault)


def behind(house: House, end: End) -> Behind:
    """Every design pressure on an end; none where no soil lies over the floor."""
    soil, height = soil_behind(house, end), end.soil_to
    if height is None:
        return Behind(leans=(), doubts=(), lacks=("up to which level soil lies against it (soil_to)",))
    if height <= 0.0:
        return Behind(leans=(), doubts=(), lacks=())
    if soil is None or soil.unit_weight is None or soil.friction_angle is None:
        return Behind(leans=(), doubts=(), lacks=("how heavy and how rough its soil is",))
    leans, block = tuple(_leans(house, end, soil, height)), held_end(house, end)
    if block is not None:
        leans = tuple(_held_off(lean, block.passes) for lean in leans)
    return Behind(leans=leans, doubts=tuple(_doubts(house, end, soil)), lacks=())


def _held_off(lean: Lean, passes: float) -> Lean:
    """The same where the fill stands by itself: a soft layer passes one pressure; water passes as it is."""
    factor = lean.factors.permanent
    pressed, water = factor * passes, factor * WATER * lean.water
    over = lean.weight * lean.height
    return replace(
        lean,
        moment=f"{lean.moment}, held off by geogrid",
        top=pressed,
        bottom=pressed + water,
        even=pressed,
        formula="γ_G·(p_soft + γ_w·w)",
        filled=f"{factor:g} · ({passes / 1e3:.2f} + {WATER / 1e3:.2f} · {lean.water:.2f})",
        ratio=passes / over,
    )


def _doubts(house: House, end: End, soil: Soil | Fill) -> Iterator[str]:
    if house.site.ground_snow is None:
        yield "snow on the soil behind it (site.ground_snow)"
    if house.site.accessible_roof is None:
        yield "people on the soil behind it (site.accessible_roof)"
    if soil.saturated_unit_weight is None:
        yield "the weight of its soil full of water (saturated_unit_weight)"
    if end.drained and house.site.overflow is None:
        yield "the level of the water when its drain is blocked (site.overflow)"


def _leans(house: House, end: End, soil: Soil | Fill, height: float) -> Iterator[Lean]:
    weights: Range | None = soil.unit_weight
    angles: Range | None = soil.friction_angle
    if weights is None or angles is None:
        return
    for factors, weight, angle in product(
        rule_sets(house.rules.approach, house.rules.set), weights.ends, angles.ends
    ):
        turned = float(design_friction_angle(angle, factors.friction))
        resting = float(sloping_at_rest_ratio(turned, end.rises))
        added = float(compacted_ratio(turned)) - float(sloping_at_rest_ratio(turned, 0.0))
        down = factors.permanent * weight * height
        rest = Lean(
            moment="after years",
            duration="permanent",
            factors=factors,
            top=0.0,
            bottom=resting * down,
            even=resting * down,
            formula="γ_G·K·γ·h",
            filled=_dry(factors.permanent, resting, weight, height),
            height=height,
            ratio=resting,
            angle=turned,
            weight=weight,
            water=0.0,
            below=weight,
        )
        yield rest
        yield _tamped(house, rest, resting + added)
        yield _loaded(house, rest)
        stands = _water(house, end, height)
        if soil.saturated_unit_weight is not None and stands > 0.0:
            yield _wet(rest, soil.saturated_unit_weight, stands)


def _tamped(house: House, rest: Lean, tamped: float) -> Lean:
    """While the soil is placed: compaction leaves more pressure than rest."""
    ratio = max(HEAVY if _heavy(house) else tamped, rest.ratio)
    pressed = rest.bottom * ratio / rest.ratio
    return replace(
        rest,
        moment="while it is filled",
        duration="medium-term",
        ratio=ratio,
        bottom=pressed,
        even=pressed,
        filled=_dry(rest.factors.permanent, ratio, rest.weight, rest.height),
    )


def _loaded(house: House, rest: Lean) -> Lean:
    """With the worse of snow and people on the soil behind."""
    load = max(house.site.ground_snow or 0.0, _people(house))
    above = rest.ratio * rest.factors.variable * load
    return replace(
        rest,
        moment="with snow or people on it",
        duration="medium-term",
        top=above,
        bottom=rest.bottom + above,
        even=rest.bottom + above,
        formula="γ_G·K·γ·h + γ_Q·K·q",
        filled=f"{rest.filled} + {rest.factors.variable:g} · {rest.ratio:.3f} · {load / 1e3:.2f}",
    )


def _wet(rest: Lean, full: Range, stands: float) -> Lean:
    """With water up to a height behind it."""
    dry, factor = rest.weight * (rest.height - stands), rest.factors.permanent
    pressed = rest.ratio * (dry + (full.high - WATER) * stands) + WATER * stands
    # Soil that is lighter under water than over it would relieve the wall: not counted on.
    bottom = max(factor * pressed, rest.bottom)
    return replace(
        rest,
        moment=f"with water {stands:.1f} m up behind it",
        duration="medium-term",
        bottom=bottom,
        formula="γ_G·[K·(γ·(h − w) + (γ_sat − γ_w)·w) + γ_w·w]",
        filled=f"{factor:g} · [{rest.ratio:.3f} · ({rest.weight / 1e3:.1f} · {rest.height - stands:.2f} + "
        f"({full.high / 1e3:.1f} − {WATER / 1e3:.2f}) · {stands:.2f}) + {WATER / 1e3:.2f} · {stands:.2f}]",
        water=stands,
        below=full.low - WATER,
    )


def _dry(factor: float, ratio: float, weight: float, height: float) -> str:
    return f"{factor:g} · {ratio:.3f} · {weight / 1e3:.1f} · {height:.2f}"


def _heavy(house: House) -> bool:
    placed = readings.placing(house)
    return placed.plate_near or placed.wet


def _people(house: House) -> float:
    accessible = house.site.accessible_roof
    if accessible is None:
        return 0.0
    return readings.CROWD if accessible else readings.MAINTENANCE


def _water(house: House, end: End, height: float) -> float:
    """Height of standing water over the floor: the soil's whole height where no drain takes it away.

    Ground water that stands higher than the overflow is not drained by a pipe at the foot.
    """
    if end.drained:
        level = max(house.site.overflow or 0.0, readings.ground_water(house) or 0.0)
    else:
        level = height if end.water is None else end.water.high
    return min(max(level, 0.0), height)
