"""Every family of curves at its best for one span, headroom and ground, and which of them to take.

What is kept: the span, the mound as the file describes it, and the room to stand. The crown stays at its
level, so that room and view stay what the builder drew; the feet go down to the floor or up onto walls. For
the few best families the crown also comes down as far as the floor to stand on stays as wide as it was.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.adapt.shape.candidate import Candidate, candidate, floor_to_stand_on
from bermwright.adapt.shape.envelope import Screen, bending_envelope, ribs_of
from bermwright.adapt.shape.families import FAMILIES, Family, Stand
from bermwright.adapt.shape.least import least
from bermwright.adapt.shape.limits import NARROWER, Limits, limits_of
from bermwright.base.errors import BermwrightError, OutOfRangeError
from bermwright.form import vault_form
from bermwright.form.curve import rise_of
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from numpy.typing import NDArray

    from bermwright.house import House, Vault

    Array = NDArray[np.float64]
    Progress = Callable[[str], None]
    Shares = tuple[float, ...]
    Shaped = tuple[float, float, Shares]
    """Rise, springing, and what else is free of a family."""
    Map = Callable[[Callable[[Any], Any], Iterable[Any]], Iterator[Any]]

LOWERED = 3
"""Families whose crown is also tried lower: the best ones."""
SAME_LEVEL = 1e-6
"""Levels closer than this are one (m)."""
BUILT = 0.01
"""Two curves this near each other everywhere are one on a site (m)."""
LINE_PLACES = 25
SIMPLE = tuple(FAMILIES)
"""Families in the order in which one of several equal ones gives its name."""
FROM_FLOOR = 2
"""Curves from the floor that are shown: the best ones."""
WORTH_LOWERING = 0.1
"""A crown that comes down by less than this is as it was (m)."""
OVERHANG = 0.01
"""Share of the span by which a face may lean out over its foot: soil under more cannot be compacted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The best curve of one family on one stand, before it is measured."""

    family: Family
    stand: Stand
    vault: Vault
    bending: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Same:
    """Curves of several families that are one: a pointed arch of half its span is a semicircle."""

    first: Found
    alike: tuple[CurveKind, ...]
    """The other families that come to it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """The curve of the file and what other curves would leave of its bending."""

    house: House
    limits: Limits
    own: Candidate | None
    """The curve as the file has it; None where it cannot be had at all."""
    own_fault: str
    """Why it cannot."""
    others: tuple[Candidate, ...]
    """Least bending first."""
    left_out: tuple[str, ...] = ()
    """Curves that were found and cannot be looked at in full, each with the reason."""

    def of(self, kind: CurveKind, stand: Stand) -> Candidate | None:
        """The best of one family on one stand."""
        wanted = (one for one in self.others if one.vault.curve is kind and one.stand is stand)
        return next(wanted, None)


def compare_curves(
    house: House,
    vault: Vault,
    *,
    progress: Progress = lambda _step: None,
    share: Map = map,
) -> Comparison:
    """Search every family, then look at each best curve with all stages, cases and soil runs.

    `share` is like `map` and may work side by side. `progress` is told every step; what it raises ends the
    search. Raises `NoRoomError` where the headroom cannot fit under the crown.
    """
    limits = limits_of(house, vault)
    search = Search(
        house=house,
        vault=vault,
        limits=limits,
        screen=_screen(house, vault, limits),
        progress=progress,
    )
    found = [one for pair in share(search.standing, tuple(FAMILIES.values())) for one in pair]
    found += [one for one in share(search.lowered, _best_families(found)) if one is not None]
    own, own_fault = search.own()
    looked = tuple(share(search.measured, search.told_apart(_worth_showing(found), own)))
    return Comparison(
        house=house,
        limits=limits,
        own=own,
        own_fault=own_fault,
        others=tuple(sorted((one for one in looked if isinstance(one, Candidate)), key=_bending)),
        left_out=tuple(one for one in looked if isinstance(one, str)),
    )


def top_of(vault: Vault) -> float:
    """Level of the crown of the centreline (m)."""
    return vault.springing + (rise_of(vault) or 0.0)


def _bending(one: Candidate) -> float:
    return one.envelope.bending


def _best_families(found: list[Found]) -> list[Family]:
    """The families that bend least at the crown of the file, each once; a semicircle has no lower crown."""
    best: dict[CurveKind, Found] = {}
    for one in sorted(found, key=lambda one: one.bending):
        if one.family.kind is not CurveKind.SEMICIRCLE:
            best.setdefault(one.family.kind, one)
    return [one.family for one in best.values()][:LOWERED]


def _as_good_as(one: Array, other: Array) -> bool:
    """Whether nobody could build the difference."""
    return bool(np.max(np.hypot(*(one - other))) < BUILT)


def _worth_showing(found: list[Found]) -> list[Found]:
    """Every curve on walls, and the best few of those from the floor."""
    floor = sorted((one for one in found if one.stand is Stand.GROUND), key=lambda one: one.bending)
    return [*(one for one in found if one.stand is not Stand.GROUND), *floor[:FROM_FLOOR]]


def _screen(house: House, vault: Vault, limits: Limits) -> Screen:
    """The quick look, with the joints of the file's curve, or of the first other that can be laid out."""
    fault: BermwrightError | None = None
    rise = 0.5 * min(limits.span, limits.crown - limits.lowest)
    segment = FAMILIES[CurveKind.SEGMENT].vault(vault, rise=rise, springing=limits.crown - rise)
    for one in (vault, segment):
        try:
            if one is not None:
                return Screen.of(ribs_of(house, one))
        except OutOfRangeError as error:
            fault = error
    raise fault or OutOfRangeError("No curve of this span can be laid out.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """One vault of the file whose curve is looked for."""

    house: House
    vault: Vault
    limits: Limits
    screen: Screen
    progress: Progress
    too_tall: dict[float, float] = field(default_factory=dict)
    """For each level of the crown the least rise at which no curve under cover was found: such a curve takes
    long to say that it cannot be had, and no taller one can."""

    def own(self) -> tuple[Candidate | None, str]:
        """The curve of the file, looked at in full; or why it cannot be had."""
        self.progress(f"{self.vault.name}: the curve of the file")
        try:
            envelope = bending_envelope(self.house, self.vault, every_corner=False)
        except OutOfRangeError as error:
            return None, str(error)
        return candidate(self.house, envelope, stand=None, standing=self.limits.standing), ""

    def measured(self, same: Same) -> Candidate | str:
        """A curve that was found, looked at with every stage, case and soil run; or why it cannot be."""
        found = same.first
        self.progress(f"{self.vault.name}: {found.family.kind} {found.stand}, all stages")
        try:
            envelope = bending_envelope(self.house, found.vault, every_corner=False)
        except OutOfRangeError as error:
            return f"{found.family.kind} {found.stand}: {error}"
        one = candidate(self.house, envelope, stand=found.stand, standing=self.limits.standing)
        return replace(one, alike=same.alike)

    def told_apart(self, found: list[Found], own: Candidate | None) -> list[Same]:
        """Each curve once, with the names of the families that come to it; not the file's own again."""
        kept: list[tuple[Found, Array, list[CurveKind]]] = []
        before = None if own is None else self._line(own.vault)
        for one in sorted(found, key=lambda one: SIMPLE.index(one.family.kind)):
            line = self._line(one.vault)
            if before is not None and _as_good_as(line, before):
                continue
            twin = next((kinds for _, other, kinds in kept if _as_good_as(line, other)), None)
            if twin is None:
                kept.append((one, line, []))
            else:
                twin.append(one.family.kind)
        return [Same(first=first, alike=tuple(kinds)) for first, _, kinds in kept]

    def _line(self, vault: Vault) -> Array:
        """The centreline at even steps of its length."""
        line = vault_form(self.house, vault, pieces=False).rib.centreline
        s = np.linspace(0.0, line.length, LINE_PLACES)
        return np.stack(line.at(s)[:2])

    def standing(self, family: Family) -> list[Found]:
        """The best curves of a family with the crown where the file has it: from the floor, and on walls."""
        self.progress(f"{self.vault.name}: {family.kind}")
        found = (self.on_walls(family), self.from_floor(family))
        return [one for one in found if one is not None]

    def from_floor(self, family: Family) -> Found | None:
        """Feet on the floor, or as low as the file has them: only the radii are free."""
        crown, low = self.limits.crown, self.limits.lowest
        return self._least(family, Stand.GROUND, family.free, lambda shares: (crown - low, low, shares))

    def on_walls(self, family: Family) -> Found | None:
        """Feet at any level up to the highest wall; None where the floor is best."""
        crown, low, high = self.limits.crown, self.limits.lowest, self.limits.highest
        rises = family.rises(self.limits.span, crown - high, crown - low)
        found = rises and self._between(family, Stand.WALLS, rises, lambda rise: crown - rise)
        on_floor = found is None or found.vault.springing - low < SAME_LEVEL
        return None if on_floor else found

    def lowered(self, family: Family) -> Found | None:
        """On the highest walls, with the crown as low as the floor to stand on allows."""
        limits, high = self.limits, self.limits.highest
        self.progress(f"{self.vault.name}: {family.kind}, crown lower")
        drawn = self.vault.mound is not None and bool(self.vault.mound.line)
        if limits.lowest_crown > limits.crown or drawn:
            # A drawn ground stays where it was drawn: a lower crown would only lie deeper under it.
            return None
        rises = family.rises(limits.span, limits.lowest_crown - high, limits.crown - high)
        found = rises and self._between(family, Stand.LOWER, rises, lambda _: high, floor=self.floor())
        little = found is None or top_of(found.vault) > limits.crown - WORTH_LOWERING
        return None if little else found

    def _between(
        self,
        family: Family,
        stand: Stand,
        rises: tuple[float, float],
        springing: Callable[[float], float],
        *,
        floor: float = 0.0,
    ) -> Found | None:
        """The best of a family between two rises, with what else is free in it."""
        low, high = rises
        if high - low < SAME_LEVEL:
            return self._least(
                family, stand, family.free, lambda shares: (low, springing(low), shares), floor=floor
            )

        def shaped(point: Shares) -> Shaped:
            rise = low + point[0] * (high - low)
            return rise, springing(rise), point[1:]

        return self._least(family, stand, 1 + family.free, shaped, floor=floor)

    def floor(self) -> float:
        """Width of floor to stand on that the file's curve gives (m); nought where it cannot be had."""
        try:
            form = vault_form(self.house, self.vault, pieces=False)
        except OutOfRangeError:
            return 0.0
        return floor_to_stand_on(form, self.limits.standing)

    def _least(
        self,
        family: Family,
        stand: Stand,
        axes: int,
        shaped: Callable[[Shares], Shaped],
        *,
        floor: float = 0.0,
    ) -> Found | None:
        """The least bending of a family over what is free in it; None where it has no such curve."""

        def vault_at(point: Shares) -> Vault | None:
            rise, springing, shares = shaped(point)
            return family.vault(self.vault, rise=rise, springing=springing, shares=shares)

        at, bending = least(lambda point: self.bending(vault_at(point), floor), axes)
        vault = vault_at(at)
        if vault is None or not math.isfinite(bending):
            return None
        return Found(family=family, stand=stand, vault=vault, bending=bending)

    def bending(self, vault: Vault | None, floor: float = 0.0) -> float:
        """Infinite where there is no such curve, too little room, or soil under an overhang."""
        if vault is None or (vault.rise or 0.0) >= self._reach(vault):
            return math.inf
        try:
            ribs = ribs_of(self.house, vault, quick=True)
        except OutOfRangeError:
            if vault.curve is CurveKind.UNDER_COVER:
                self.too_tall[round(top_of(vault), 6)] = vault.rise or 0.0
            return math.inf
        narrow = floor_to_stand_on(ribs.form, self.limits.standing) < NARROWER * floor
        if narrow or ribs.form.undercut > OVERHANG * vault.span:
            return math.inf
        return self.screen.bending_of(ribs)

    def _reach(self, vault: Vault) -> float:
        """From this rise on the curve is known not to be had (m)."""
        under = vault.curve is CurveKind.UNDER_COVER
        return self.too_tall.get(round(top_of(vault), 6), math.inf) if under else math.inf
