"""Which curve to take, why, what to write into the house file, and in which order to fill it."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.adapt.shape.candidate import Candidate, candidate
from bermwright.adapt.shape.corridor import Corridor, corridor_of
from bermwright.adapt.shape.envelope import bending_envelope, ribs_of
from bermwright.adapt.shape.families import RADII, Stand
from bermwright.adapt.shape.order import order_of_work
from bermwright.adapt.shape.search import Comparison, compare_curves, top_of
from bermwright.base.errors import OutOfRangeError
from bermwright.base.findings import Shown
from bermwright.house import CurveKind
from bermwright.stages import FILLING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from bermwright.adapt.shape.order import OrderOfWork
    from bermwright.adapt.shape.search import Map
    from bermwright.base.ranges import Range
    from bermwright.house import House, Vault

    Progress = Callable[[str], None]

EQUAL = 1.1
"""Curves whose bending is within a tenth of the least count as equal: soil is not known better (-)."""
KEPT = 1.25
"""The file's own curve is kept where it holds and none bends less by more than a fifth: that is how far a
frame may lie from a continuum of the same soil, and new templates are work (-)."""
NAMES: Mapping[CurveKind, str] = MappingProxyType(
    {
        CurveKind.UNDER_COVER: 'curve "under cover"',
        CurveKind.LEVEL_SOIL: 'curve for "level soil"',
        CurveKind.POINTED: "pointed arch",
        CurveKind.THREE_CENTRED: "three-centred arch",
        CurveKind.SEGMENT: "segment of a circle",
        CurveKind.DRAWN: "drawn curve",
    }
)
"""Families whose bare name reads badly in a sentence."""
WORTH_SAYING = 1.5
"""A bending this many times another's is said as such (-)."""
NOTICED = 0.05
"""Share of the fill by which less of it is worth a word (-)."""
LITTLE = 1e3
"""Push of a foot that any footing takes (N/m)."""


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence with `{name}` for each of its values."""

    template: str
    values: Mapping[str, Shown | str] = field(default_factory=dict)

    def says(self, system: str = "metric") -> str:
        """With its numbers filled in."""
        texts = {k: v.text(system) if isinstance(v, Shown) else v for k, v in self.values.items()}
        return self.template.format_map(texts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """Everything that the advice pages say of one vault."""

    comparison: Comparison
    chosen: Candidate
    """The curve to take, rounded as it is written into the file, with every corner of the soil."""
    why: tuple[Sentence, Sentence]
    order: OrderOfWork
    curve_writes: Mapping[str, str]
    """What to write under `[[vault]]` for it; empty where the file's curve stays."""
    takes_out: tuple[str, ...]
    """What has to go from `[[vault]]`."""
    corridor: Corridor
    """What the ribs can take of bending alone."""

    @property
    def keeps(self) -> bool:
        """Whether the advice is to keep the curve of the file."""
        return self.chosen.stand is None

    @property
    def holds(self) -> bool:
        """Whether the chosen curve holds at every stage, filled in the order that is advised."""
        after = self.chosen.envelope.used_but(FILLING)
        return self.order.chosen.holds and after is not None and after <= 1.0

    @property
    def vault(self) -> Vault:
        """The vault as the file has it, or as advised where the file's curve cannot be had."""
        return self.chosen.vault


def advise(
    house: House,
    vault: Vault,
    *,
    progress: Progress = lambda _step: None,
    share: Map = map,
) -> Advice:
    """Compare all curves of one vault, choose one, and find the order of work for it."""
    comparison = compare_curves(house, vault, progress=progress, share=share)
    return advice_from(comparison, vault, progress=progress, share=share)


def advice_from(
    comparison: Comparison,
    vault: Vault,
    *,
    progress: Progress = lambda _step: None,
    share: Map = map,
) -> Advice:
    """The advice on a vault of the file, once its curves are compared."""
    house, best = comparison.house, choose(comparison)
    if best is None:
        raise OutOfRangeError(f"No curve of {vault.name} stands under this ground at all.")
    progress(f"{vault.name}: the chosen curve with every corner of the soil")
    ready = ribs_of(house, _rounded(best), share=share)
    envelope = bending_envelope(house, ready.vault, share=share)
    measured = candidate(house, envelope, stand=best.stand, standing=comparison.limits.standing)
    chosen = replace(measured, alike=best.alike)
    keeps = best.stand is None
    return Advice(
        comparison=comparison,
        chosen=chosen,
        why=(_bends_least(comparison, chosen), _costs(comparison, chosen)),
        order=order_of_work(ready, progress),
        curve_writes={} if keeps else dict(_curve_writes(chosen.vault)),
        takes_out=() if keeps else tuple(_takes_out(vault, chosen.vault)),
        corridor=corridor_of(ready),
    )


def choose(comparison: Comparison) -> Candidate | None:
    """The curve to take.

    First those that hold with the crown where it is, then those that hold with it lower, then any. Of each
    group the least bending; of what is within a tenth of it the fewest hours. The file's own curve stays
    where it holds and nothing is much better.
    """
    own = () if comparison.own is None else (comparison.own,)
    every = [one for one in (*own, *comparison.others) if one.can_be_cut]
    groups = (
        [one for one in every if one.holds and one.stand is not Stand.LOWER],
        [one for one in every if one.holds],
        every,
        [*own, *comparison.others],
    )
    group: list[Candidate] = next((group for group in groups if group), [])
    if not group:
        return None
    least = min(one.envelope.bending for one in group)
    for one in own:
        if one.holds and one in group and one.envelope.bending <= KEPT * least:
            return one
    equal = [one for one in group if one.envelope.bending <= EQUAL * least]
    return min(equal, key=lambda one: (one.hours.high, one.envelope.bending))


def _rounded(one: Candidate) -> Vault:
    """The vault with its curve as it is written: to the centimetre."""
    if one.stand is None:
        return one.vault
    vault = one.vault
    crown = round(top_of(vault), 2)
    springing = round(vault.springing, 2)
    radii = {name: round(value, 2) for name in RADII if (value := getattr(vault, name)) is not None}
    rise = 0.5 * vault.span if vault.curve is CurveKind.SEMICIRCLE else round(crown - springing, 2)
    if vault.curve is CurveKind.SEMICIRCLE:
        springing = vault.springing
    return replace(vault, rise=rise, springing=springing, **radii)


def _curve_writes(vault: Vault) -> Iterator[tuple[str, str]]:
    yield "curve", str(vault.curve)
    if vault.curve is not CurveKind.SEMICIRCLE:
        yield "rise", f"{vault.rise:.2f} m"
    yield "springing", f"{vault.springing:.2f} m"
    for name in RADII:
        value = getattr(vault, name)
        if value is not None:
            yield name, f"{value:.2f} m"


def _takes_out(before: Vault, after: Vault) -> Iterator[str]:
    for name in (*RADII, "points"):
        if getattr(before, name) not in {None, ()} and getattr(after, name) in {None, ()}:
            yield name
    if after.curve is CurveKind.SEMICIRCLE and before.rise is not None:
        yield "rise"


def named(kind: CurveKind) -> str:
    """A family as it stands in a sentence, after "the"."""
    return NAMES.get(kind, str(kind))


def _bends_least(comparison: Comparison, chosen: Candidate) -> Sentence:
    """What is gained in bending."""
    envelope, own = chosen.envelope, comparison.own
    values: dict[str, Shown | str] = {
        "curve": named(chosen.vault.curve),
        "rise": Shown(chosen.form.rise, "m", 2),
        "wall": Shown(chosen.wall.height, "m", 2),
        "bends": Shown(envelope.bending, "kNm/m", 1),
    }
    if chosen.stand is None:
        return Sentence(
            "Keep the {curve} of the file: it bends at most {bends}, and no curve on walls as high bends so "
            "much less that the soil would notice.",
            values,
        )
    on = "on walls of {wall}" if chosen.wall.height > 0.0 else "from the floor"
    take = f"Take the {{curve}}, {{rise}} high {on}: it bends at most {{bends}}"
    if own is None:
        return Sentence(f"{take}; the curve of the file cannot be had at all.", values)
    values |= {"own": named(own.vault.curve), "own_bends": bending_shown(own.envelope.bending)}
    times = _times(own.envelope.bending, envelope.bending)
    return Sentence(f"{take}, where the {{own}} of the file bends {{own_bends}}{times}.", values)


def _times(before: float, after: float) -> str:
    """How many times as much, where that says more than the two figures."""
    ratio = before / after
    if not WORTH_SAYING <= ratio < math.inf:
        return ""
    return f", {ratio:.0f} times as much"


def bending_shown(bending: float) -> Shown | str:
    """A bending, or that there is none to be had."""
    return Shown(bending, "kNm/m", 1) if math.isfinite(bending) else "until it gives way"


def _costs(comparison: Comparison, chosen: Candidate) -> Sentence:
    """What the choice does to room, soil, walls and feet."""
    own, wall = comparison.own, chosen.wall
    values: dict[str, Shown | str] = {
        "crown": Shown(top_of(chosen.vault), "level", 2),
        "was": Shown(comparison.limits.crown, "level", 2),
        "floor": Shown(chosen.floor_width, "m", 2),
        "standing": Shown(chosen.standing, "m", 2),
        "retained": Shown(wall.retained, "m", 2),
        "push": Shown(wall.soil_push, "kN/m", 0),
    }
    feet, pushes = feet_push(chosen.envelope.outward)
    values |= pushes
    room = {
        Stand.LOWER: "The crown comes down from {was} to {crown}, with {standing} free over {floor} of floor",
        Stand.WALLS: "Crown and mound stay where they are",
        Stand.GROUND: "Crown and mound stay where they are",
        None: "Room, mound and templates stay as they are",
    }[chosen.stand]
    if own is not None and own.fill - chosen.fill > NOTICED * own.fill:
        values["soil"] = Shown(own.fill - chosen.fill, "m3", 0)
        room += " and {soil} less soil to move"
    walls = "the walls hold back {retained} of soil ({push}) and" if wall.retained else "the footings"
    return Sentence(f"{room}; {walls} take {feet} from the ribs.", values)


def feet_words(outward: Range, system: str = "metric") -> str:
    """The range of a foot's push sideways, such as `5 kN/m outward to 21 kN/m inward`."""
    return Sentence(*feet_push(outward)).says(system)


def feet_push(outward: Range) -> tuple[str, dict[str, Shown | str]]:
    """The same as part of a sentence, with its values."""
    if not (math.isfinite(outward.low) and math.isfinite(outward.high)):
        return "an unknown push", {}
    low, high = (Shown(abs(end), "kN/m", 0) for end in (outward.low, outward.high))
    if outward.low < 0.0 < outward.high:
        return "{far} outward to {near} inward", {"far": high, "near": low}
    near, far = sorted((low, high), key=lambda shown: shown.value)
    side = "outward" if outward.high > 0.0 else "inward"
    return f"{{near}} to {{far}} {side}", {"near": near, "far": far}


def wall_words(one: Candidate, system: str = "metric") -> str:
    """What stands under the feet and what it has to do, in a few words."""
    inward, outward = max(-one.envelope.outward.low, 0.0), max(one.envelope.outward.high, 0.0)
    needs = [
        *(["floor strut"] if inward > LITTLE else []),
        *(["mass or tie"] if outward > LITTLE else []),
    ]
    feet = " and ".join(needs) or "little push"
    if one.wall.retained <= 0.0:
        return f"footings: {feet}"
    height = Shown(one.wall.retained, "m", 2).text(system)
    push = Shown(one.wall.soil_push, "kN/m", 0).text(system)
    return f"walls behind {height} of soil, {push}: {feet}"
