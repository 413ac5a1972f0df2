"""Every family of curves at its best for one span, headroom and ground, and which of them to take.

What is kept: the span, the mound as the file describes it, and the room to stand. The crown stays at its level,
so that room and view stay what the builder drew; the feet go down to the floor or up onto walls. For the few best
families the crown also comes down as far as the floor to stand on stays as wide as it was.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from bermwright.adapt.shape.candidate import Candidate, candidate
from bermwright.adapt.shape.envelope import Screen, bending_envelope, ribs_of
from bermwright.adapt.shape.families import FAMILIES, Family, Stand
from bermwright.adapt.shape.least import least
from bermwright.adapt.shape.limits import NARROWER, Limits, limits_of
from bermwright.base.errors import BermwrightError, OutOfRangeError
from bermwright.form import headroom, vault_form
from bermwright.form.curve import rise_of
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from bermwright.house import House, Vault

    Progress = Callable[[str], None]
    Shares = tuple[float, ...]
    Shaped = tuple[float, float, Shares]
    """Rise, springing, and what else is free of a family."""
    Map = Callable[[Callable[[Any], Any], Iterable[Any]], Iterator[Any]]

LOWERED = 3
"""Families whose crown is also tried lower: the best ones."""
SAME_LEVEL = 1e-6
"""Levels closer than this are one (m)."""
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
    others = share(search.measured, found)
    return Comparison(
        house=house,
        limits=limits,
        own=own,
        own_fault=own_fault,
        others=tuple(sorted(others, key=_bending)),
    )


def top_of(vault: Vault) -> float:
    """Level of the crown of the centreline (m)."""
    return vault.springing + (rise_of(vault) or 0.0)


def _bending(one: Candidate) -> float:
    return one.envelope.bending


def _best_families(found: list[Found]) -> list[Family]:
    """The families that bend least at the crown of the file, each once."""
    best: dict[CurveKind, Found] = {}
    for one in sorted(found, key=lambda one: one.bending):
        best.setdefault(one.family.kind, one)
    return [one.family for one in best.values()][:LOWERED]


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

    def own(self) -> tuple[Candidate | None, str]:
        """The curve of the file, looked at in full; or why it cannot be had."""
        self.progress(f"{self.vault.name}: the curve of the file")
        try:
            envelope = bending_envelope(self.house, self.vault)
        except OutOfRangeError as error:
            return None, str(error)
        return candidate(self.house, envelope, stand=None, standing=self.limits.standing), ""

    def measured(self, found: Found) -> Candidate:
        """A curve that was found, looked at with every stage, case and soil run."""
        self.progress(f"{self.vault.name}: {found.family.kind} {found.stand}, all stages")
        envelope = bending_envelope(self.house, found.vault, every_corner=False)
        return candidate(self.house, envelope, stand=found.stand, standing=self.limits.standing)

    def standing(self, family: Family) -> list[Found]:
        """The best curves of a family with the crown where the file has it: from the floor, and on walls."""
        self.progress(f"{self.vault.name}: {family.kind}")
        found = (self.from_floor(family), self.on_walls(family))
        return [one for one in found if one is not None]

    def from_floor(self, family: Family) -> Found | None:
        """Feet on the floor, or as low as the file has them: only the radii are free."""
        crown, low = self.limits.crown, self.limits.lowest
        return self._least(family, Stand.GROUND, family.free, lambda shares: (crown - low, low, shares))

    def on_walls(self, family: Family) -> Found | None:
        """Feet at any level up to the highest wall; None where the floor is best."""
        crown, low, high = self.limits.crown, self.limits.lowest, self.limits.highest
        if family.kind is CurveKind.SEMICIRCLE:
            springing = crown - 0.5 * self.limits.span
            if not low < springing <= high:
                return None
            return self._least(family, Stand.WALLS, 0, lambda _: (crown - springing, springing, ()))

        def shaped(point: Shares) -> Shaped:
            springing = low + point[0] * (high - low)
            return crown - springing, springing, point[1:]

        found = self._least(family, Stand.WALLS, 1 + family.free, shaped)
        on_floor = found is None or found.vault.springing - low < SAME_LEVEL
        return None if on_floor else found

    def lowered(self, family: Family) -> Found | None:
        """On the highest walls, with the crown as low as the floor to stand on allows."""
        limits, high = self.limits, self.limits.highest
        self.progress(f"{self.vault.name}: {family.kind}, crown lower")
        room = limits.crown - limits.lowest_crown
        if room < SAME_LEVEL or family.kind is CurveKind.SEMICIRCLE:
            return None

        def shaped(point: Shares) -> Shaped:
            crown = limits.lowest_crown + point[0] * room
            return crown - high, high, point[1:]

        found = self._least(family, Stand.LOWER, 1 + family.free, shaped, floor=self._floor())
        at_crown = found is None or top_of(found.vault) > limits.crown - SAME_LEVEL
        return None if at_crown else found

    def _floor(self) -> float:
        """Width of floor to stand on that the file's curve gives (m); nought where it cannot be had."""
        try:
            form = vault_form(self.house, self.vault, pieces=False)
        except OutOfRangeError:
            return 0.0
        return float(headroom(form, self.limits.standing).width)

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
            if rise < self.limits.least_rise - SAME_LEVEL:
                return None
            return family.vault(self.vault, rise=rise, springing=springing, shares=shares)

        at, bending = least(lambda point: self._bending(vault_at(point), floor), axes)
        vault = vault_at(at)
        if vault is None or not math.isfinite(bending):
            return None
        return Found(family=family, stand=stand, vault=vault, bending=bending)

    def _bending(self, vault: Vault | None, floor: float) -> float:
        """Infinite where there is no such curve, too little room, or soil under an overhang."""
        if vault is None:
            return math.inf
        try:
            ribs = ribs_of(self.house, vault, quick=True)
        except OutOfRangeError:
            return math.inf
        narrow = float(headroom(ribs.form, self.limits.standing).width) < NARROWER * floor
        if narrow or ribs.form.undercut > OVERHANG * vault.span:
            return math.inf
        return self.screen.bending_of(ribs)
