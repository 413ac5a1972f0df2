"""Whether each timber is of a wood that lasts where it lies, and can be looked at."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.data.durability import (
    CLASSES_CITE,
    ENOUGH,
    ENOUGH_CITE,
    LEAST_LIFE,
    LEAST_SERVICE,
    LIVES_CITE,
    LONGEST_TREATED,
    SAPWOOD,
    SERVICE_CITE,
    TREATED_CITE,
    USE_CITE,
    YEAR,
    Enough,
    durability_of,
)
from bermwright.rules.lasting.places import DRY, GROUND, WEATHER, timber_places, wood_of
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.ribs.common import ratio_step, step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.base.sources import Cite
    from bermwright.house import House, WoodPart
    from bermwright.rules.lasting.places import TimberPlace
    from bermwright.rules.nouns import Whole

WALLED_IN = 1
"""Use classes that an end without air around it counts worse."""
BETTER = (
    "Take wood treated for that use class, or heartwood of robinia; or keep the soil and the wet off it; or "
    "plan to renew it: [[wood_part]] treated_for, species, renewed_every."
)
SEE_IT = (
    "Leave a place where a knife can be pressed into it every year, such as a lining on screws: "
    "[[wood_part]] looked_at."
)
WOODS = "Write a [[wood_part]] table: part, species, treated_for, ends_aired, looked_at."


@dataclass(frozen=True, slots=True, kw_only=True)
class Lasting:
    """How some timbers come through the years."""

    place: TimberPlace
    wood: WoodPart
    use_class: int
    """With ends walled in or standing wet counted."""
    durability: int
    """1 to 5."""
    life: float | None
    """Until the wood must be expected to fail (s); None: as long as it stays as dry as it is."""
    attested: str
    """By what it lasts, in words."""
    cite: Cite

    @property
    def wanted(self) -> float:
        """How long it is to last (s)."""
        return self.wood.renewed_every or self.place.design_life

    @property
    def ratio(self) -> float | None:
        """Years wanted over years expected."""
        return None if self.life is None else self.wanted / self.life

    @property
    def seen(self) -> bool:
        """Whether somebody can look at it."""
        return bool(self.wood.looked_at)


def lasting_timbers(house: House) -> tuple[Lasting, ...]:
    """Of all timbers about which enough is said."""
    return tuple(
        lasting_of(place, wood)
        for place in timber_places(house)
        if (wood := wood_of(house, place)) is not None and not _missing(place, wood)
    )


def lasting_of(place: TimberPlace, wood: WoodPart) -> Lasting:
    """Needs what `_missing` names."""
    use_class = place.use_class or GROUND
    if place.stands and not wood.damp_course:
        use_class = GROUND
    elif wood.ends_aired is False:
        use_class = min(use_class + WALLED_IN, GROUND)
    natural, where = (SAPWOOD, CLASSES_CITE)
    if wood.species is not None:
        natural, where = durability_of(str(wood.species), heartwood_only=wood.heartwood_only)
    enough = ENOUGH[use_class][natural - 1]
    ages = use_class == GROUND or enough in {Enough.DOUBTFUL, Enough.HARDLY, Enough.NO}
    bare = Lasting(
        place=place, wood=wood, use_class=use_class, durability=natural,
        life=LEAST_LIFE[natural].value if ages else None, attested=_called(wood),
        cite=LIVES_CITE if ages else where,
    )  # fmt: skip
    return _treated(bare, unaided=not ages and (enough is Enough.YES or bool(wood.looked_at)))


def _treated(bare: Lasting, *, unaided: bool) -> Lasting:
    """What a treatment adds: nothing where the wood lasts without it, or where it is made for less."""
    wood, use_class = bare.wood, bare.use_class
    if unaided or wood.treated_for is None or wood.treated_for < use_class:
        return bare
    life = min(wood.treated_years or 0.0, LONGEST_TREATED[use_class].value)
    if life < (bare.life or 0.0):
        return bare
    return replace(bare, life=life, attested=f"{_called(wood)} treated for it", cite=TREATED_CITE)


def _called(wood: WoodPart) -> str:
    name = "wood" if wood.species is None else str(wood.species)
    return f"heartwood of {name}" if wood.heartwood_only else name


def _missing(place: TimberPlace, wood: WoodPart) -> tuple[str, ...]:
    """What must be known of it first."""
    lacks = []
    if wood.species is None and wood.treated_for is None:
        lacks.append("species")
    if wood.treated_for is not None and wood.treated_years is None:
        lacks.append("treated_years")
    if place.stands and wood.damp_course is None:
        lacks.append("damp_course")
    if (place.use_class or GROUND) > DRY and wood.ends_aired is None:
        lacks.append("ends_aired")
    return tuple(lacks)


def _decide(whole: Whole) -> Iterator[Said]:
    places = timber_places(whole.house)
    if not places:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="The file names no timber.")
    for place in places:
        yield replace(_of_place(whole.house, place), part=place.part, place=None)


def _of_place(house: House, place: TimberPlace) -> Said:
    wood = wood_of(house, place)
    if wood is None:
        return _unknown(place, "of which wood they are", WOODS)
    if place.use_class is None:
        return _unknown(
            place, "what lies over them", "Answer the questions about the cover, soil_to and service_class."
        )
    lacks = _missing(place, wood)
    if lacks:
        return _unknown(place, ", ".join(lacks).replace("_", " "), f"Write [[wood_part]] {', '.join(lacks)}.")
    return _said(lasting_of(place, wood))


def _unknown(place: TimberPlace, what: str, write: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="{timbers}: the file does not say {what}, so how long they last is not known.",
        values={"timbers": place.title, "what": what},
        advice=write,
    )


def _said(found: Lasting) -> Said:
    place, served = found.place, found.place.service_class
    values: dict[str, Shown | str] = {
        "timbers": place.title, "lies": place.lies, "use": str(found.use_class), "wood": found.attested,
        "wanted": _years(found.wanted), "served": "not known" if served is None else str(served),
    }  # fmt: skip
    base = Said(verdict=Verdict.HOLDS, template="", values=values, steps=_steps(found), cites=(found.cite,))
    if served is not None and served < LEAST_SERVICE[found.use_class]:
        least = LEAST_SERVICE[found.use_class]
        return replace(
            base, verdict=Verdict.FAILS,
            template="{timbers}, {lies}: use class {use}; their strength is reckoned for service class "
            "{served}.",
            advice=f"Write service_class = {least} for them, or keep them drier.",
        )  # fmt: skip
    if found.ratio is None:
        return _dry(found, base)
    return _aging(found, base, found.ratio)


def _dry(found: Lasting, base: Said) -> Said:
    """Wood that lasts as long as it stays as dry as it is."""
    enough = ENOUGH[found.use_class][found.durability - 1]
    if enough is Enough.MOSTLY and not found.seen:
        return replace(
            base, verdict=Verdict.FAILS, advice=SEE_IT,
            template="{timbers}, {lies}: {wood} lasts only where it is looked at, and nobody can.",
        )  # fmt: skip
    return replace(base, template="{timbers}, {lies}: use class {use}; {wood} lasts while it stays dry.")


def _aging(found: Lasting, base: Said, ratio: float) -> Said:
    """Wood whose years are numbered."""
    values = {**base.values, "life": _years(found.life or 0.0)}
    reached = ratio_step(
        "Years wanted over years expected", "t_w/t",
        f"{found.wanted / YEAR:.0f}/{(found.life or 0.0) / YEAR:.0f}", ratio,
    )  # fmt: skip
    said = replace(
        base, values=values, demand=found.wanted, capacity=found.life, unit="a", ratio=ratio,
        steps=(*base.steps, reached),
    )  # fmt: skip
    verdict = verdict_of(ratio)
    if verdict is not Verdict.FAILS and found.use_class >= WEATHER and not found.seen:
        return replace(
            base, verdict=Verdict.FAILS, values=values, advice=SEE_IT,
            template="{timbers}, {lies}: use class {use}; {wood} lasts {life}, and nobody can look at it.",
        )  # fmt: skip
    planned = found.wood.renewed_every is not None
    end = "they are renewed every {wanted}." if planned else "the house is to stand {wanted}."
    return replace(
        said, verdict=verdict, template="{timbers}, {lies}: {wood} lasts {life} there; " + end,
        advice="" if verdict is Verdict.HOLDS else BETTER,
    )  # fmt: skip


def _years(seconds: float) -> str:
    return f"{seconds / YEAR:.0f} years"


def _steps(found: Lasting) -> tuple[Step, ...]:
    lines = [
        step(f"Use class where they lie: {found.place.lies}", "use class", "EN 335", "",
             Shown(found.use_class, "", 0), USE_CITE),
        step("Service class that goes with it, at least", "service class", "annex A", "",
             Shown(LEAST_SERVICE[found.use_class], "", 0), SERVICE_CITE),
        step(f"Durability of {_called(found.wood)}, 1 the best, 5 the worst", "durability class", "EN 350",
             "", Shown(found.durability, "", 0), CLASSES_CITE),
    ]  # fmt: skip
    if found.life is not None:
        lines.append(step(f"Years of {found.attested} there, the least that is named", "t", "", "",
                          Shown(found.life / YEAR, "", 0), found.cite))  # fmt: skip
    return tuple(lines)


WOOD_FITS = HouseRule(
    name="wood-fits-its-place",
    title="Every timber is of a wood that lasts where it lies",
    why="Wood in damp earth lasts five to thirty years, a dwelling twice that. What rots unseen falls "
    "without a word: it must be of the right wood, in air, and where somebody looks.",
    cites=(USE_CITE, SERVICE_CITE, ENOUGH_CITE),
    decide=_decide,
    asks=(
        "wood_part", "wood_part.species", "wood_part.treated_years", "wood_part.damp_course",
        "wood_part.ends_aired", "end.soil_to", "vault.cover",
    ),
)  # fmt: skip
