"""Whether everybody gets out: two ways from every bed, short ones, and an alarm that wakes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.data.fire import (
    ESCAPE_AREA,
    ESCAPE_HEIGHT,
    ESCAPE_SILL,
    ESCAPE_WIDTH,
    TRAVEL,
    escape_cite,
    irc_cite,
)
from bermwright.house import OpeningKind, OpeningSide
from bermwright.rules.nouns import HouseRule, Said

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import House, Opening, Vault
    from bermwright.house.living.fire import Bedroom
    from bermwright.rules.nouns import Whole

ASK_BEDS = (
    "Write a [[bedroom]] table for every place where somebody sleeps: name, vault, people, begins, ends, "
    "closed."
)
FAR_NOT_KNOWN = 'How far it is to a way out of "{vault}" is not known.'
SECOND = (
    "Give this room a second way out: a window or hatch that opens from inside without a key, "
    f"at least {ESCAPE_WIDTH.value:.2f} m wide, {ESCAPE_HEIGHT.value:.2f} m high and "
    f"{ESCAPE_AREA.value:.2f} m² clear, its sill not over {ESCAPE_SILL.value:.2f} m, clear of snow outside."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Exit:
    """One opening as a way out."""

    opening: Opening
    passable: bool | None
    """None while its clear size or whether it opens is not known."""
    lacks: str = ""
    """What it is too small or too high for."""


def exit_of(opening: Opening, floor: float) -> Exit:
    """Whether a grown person gets out by an opening; measured against the stricter of two codes."""
    if opening.kind is OpeningKind.FLUE or opening.opens is False:
        return Exit(opening=opening, passable=False, lacks="it does not open")
    wide, high = opening.clear_width, opening.clear_height
    if opening.opens is None or wide is None or high is None:
        return Exit(opening=opening, passable=None)
    lacks = []
    if wide < ESCAPE_WIDTH.value:
        lacks.append(f"{wide:.2f} m is narrower than {ESCAPE_WIDTH.value:.2f} m")
    if high < ESCAPE_HEIGHT.value:
        lacks.append(f"{high:.2f} m is lower than {ESCAPE_HEIGHT.value:.2f} m")
    if wide * high < ESCAPE_AREA.value:
        lacks.append(f"{wide * high:.2f} m² is less than {ESCAPE_AREA.value:.2f} m²")
    if opening.kind is not OpeningKind.DOOR and opening.side is not OpeningSide.CROWN:
        if opening.sill is None:
            return Exit(opening=opening, passable=None)
        if opening.sill - floor > ESCAPE_SILL.value:
            lacks.append(f"its sill is {opening.sill - floor:.2f} m over the floor")
    if opening.side is OpeningSide.CROWN:
        lacks.append("a hole in the crown needs a fixed ladder, which the file does not say")
    return Exit(opening=opening, passable=not lacks, lacks=", ".join(lacks))


def place_along(opening: Opening, vault: Vault) -> float | None:
    """Where an opening is, from the front end along the axis (m)."""
    match opening.side:
        case OpeningSide.FRONT:
            return 0.0
        case OpeningSide.BACK:
            return vault.length
        case _:
            return opening.along


def _rooms(house: House) -> Iterator[tuple[Bedroom, Vault]]:
    vaults = {vault.name: vault for vault in house.vaults}
    for room in house.bedrooms:
        if room.vault in vaults:
            yield room, vaults[room.vault]


def _two_ways(whole: Whole) -> Iterator[Said]:
    if not whole.house.bedrooms:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Where people sleep is not known, so whether they have two ways out is not either.",
            advice=ASK_BEDS,
        )
    for room, vault in _rooms(whole.house):
        yield _ways_of(whole.house, room, vault)


def _ways_of(house: House, room: Bedroom, vault: Vault) -> Said:
    exits = [
        exit_of(one, room.level)
        for one in house.openings
        if one.vault == vault.name and _reached(one, room, vault)
    ]
    ways = [one for one in exits if one.passable]
    doubtful = [one for one in exits if one.passable is None]
    # The door of a closed room leads into the rest of the vault, and from there out: one more way.
    inner = 1 if room.closed and _ways_beside(house, room, vault) else 0
    count = len(ways) + inner
    names = [f'"{one.opening.name}"' for one in ways] + (
        ["its own door to the rest of the vault"] if inner else []
    )
    values: dict[str, Shown | str] = {
        "room": room.name,
        "count": str(count),
        "names": ", ".join(names) or "none",
    }
    if count >= 2:  # noqa: PLR2004  (two ways)
        return Said(
            verdict=Verdict.HOLDS,
            part=f'bedroom "{room.name}"',
            values=values,
            ratio=2 / count,
            template='"{room}" has {count} ways out: {names}.',
        )
    if doubtful:
        values["doubtful"] = ", ".join(f'"{one.opening.name}"' for one in doubtful)
        return Said(
            verdict=Verdict.UNKNOWN,
            part=f'bedroom "{room.name}"',
            values=values,
            template='Whether "{room}" has two ways out is not known: can one get out by {doubtful}?',
            advice="Answer the questions about these openings: opens, clear_width, clear_height, sill.",
        )
    lacking = [f'"{one.opening.name}": {one.lacks}' for one in exits if one.lacks]
    values["lacks"] = f" ({'; '.join(lacking)})" if lacking else ""
    return Said(
        verdict=Verdict.FAILS,
        part=f'bedroom "{room.name}"',
        values=values,
        ratio=2 / count if count else float("inf"),
        template='"{room}" has {count} of the two ways out: {names}{lacks}.',
        advice=SECOND,
    )


def _reached(opening: Opening, room: Bedroom, vault: Vault) -> bool:
    """Whether an opening is in the room: anywhere in the vault where nothing parts it off."""
    if not room.closed:
        return True
    at = place_along(opening, vault)
    return at is not None and room.begins - 1e-9 <= at <= room.ends + 1e-9


def _ways_beside(house: House, room: Bedroom, vault: Vault) -> bool:
    """Whether the rest of the vault has a way out."""
    others = [one for one in house.openings if one.vault == vault.name and not _reached(one, room, vault)]
    return any(exit_of(one, 0.0).passable for one in others)


def _short(whole: Whole) -> Iterator[Said]:
    if not whole.house.vaults:
        return
    for vault in whole.house.vaults:
        yield _travel(whole.house, vault)


def _travel(house: House, vault: Vault) -> Said:
    part = f'vault "{vault.name}"'
    exits = [exit_of(one, 0.0) for one in house.openings if one.vault == vault.name]
    places = [place_along(one.opening, vault) for one in exits if one.passable]
    known = [place for place in places if place is not None]
    if not known:
        doubtful = any(one.passable is None for one in exits) or not exits
        return Said(
            verdict=Verdict.UNKNOWN if doubtful else Verdict.FAILS,
            part=part,
            values={"vault": vault.name},
            ratio=None if doubtful else float("inf"),
            template=FAR_NOT_KNOWN if doubtful else 'Nothing in "{vault}" leads out.',
            advice="Write an [[opening]] table for every door and window: opens, clear_width, clear_height.",
        )
    # The farthest corner: along the vault to the nearest exit, and half the width across.
    ends = [min(abs(at - place) for place in known) for at in (0.0, vault.length)]
    between = [0.5 * (b - a) for a, b in zip(sorted(known), sorted(known)[1:], strict=False)]
    far = max([*ends, *between]) + 0.5 * vault.span
    ratio = far / TRAVEL.value
    return Said(
        verdict=verdict_of(ratio),
        part=part,
        demand=far,
        capacity=TRAVEL.value,
        unit="m",
        ratio=ratio,
        values={"vault": vault.name, "far": Shown(far, "m", 1), "most": Shown(TRAVEL.value, "m", 0)},
        template='From the farthest corner of "{vault}" it is {far} to a way out; {most} are the most.',
        advice="" if ratio <= 0.9 else "Open another way out at the far end.",  # noqa: PLR2004  (tight)
    )


def _alarms(whole: Whole) -> Iterator[Said]:
    house = whole.house
    asked = house.fire
    smoke = max(len(house.bedrooms) + len(house.vaults), 1)
    yield _alarm_said(
        "smoke alarms",
        None if asked is None else asked.smoke_alarms,
        smoke,
        "one in every bedroom and one on the way out of every vault",
    )
    if house.stoves:
        rooms = len({stove.vault for stove in house.stoves})
        yield _alarm_said(
            "carbon monoxide alarms",
            None if asked is None else asked.co_alarms,
            rooms,
            "one in every vault with a stove",
        )


def _alarm_said(what: str, has: int | None, needs: int, where: str) -> Said:
    known = "not known" if has is None else str(has)
    values: dict[str, Shown | str] = {"what": what, "needs": str(needs), "where": where, "has": known}
    if has is None:
        return Said(
            verdict=Verdict.UNKNOWN,
            values=values,
            template="How many {what} there are is not known.",
            advice="Answer the question in [fire].",
        )
    ratio = needs / has if has else float("inf")
    enough = has >= needs
    one = {"what": what.removesuffix("s")} if has == 1 else {}
    there = "There is {has} {what}" if has == 1 else "There are {has} {what}"
    return Said(
        verdict=Verdict.HOLDS if enough else Verdict.FAILS,
        values=values | one,
        ratio=ratio,
        demand=needs,
        capacity=has,
        template=there + ("; {needs} is asked: {where}." if needs == 1 else "; {needs} are asked: {where}."),
        advice="" if enough else f"Put up {needs - has} more, and test them every month.",
    )


TWO_WAYS_OUT = HouseRule(
    name="every-bed-has-two-ways-out",
    title="Every place to sleep has two ways out",
    why="An earth house has few holes. When the one door burns, a bed without a second way out is a trap.",
    cites=(irc_cite(), escape_cite()),
    decide=_two_ways,
    asks=("bedroom", "opening.opens", "opening.clear_width", "opening.clear_height", "opening.sill"),
)
WAY_OUT_IS_SHORT = HouseRule(
    name="the-way-out-is-short",
    title="The way out is short",
    why="In smoke one finds the door for a few breaths only.",
    cites=(TRAVEL.cite,),
    decide=_short,
    asks=("opening", "opening.opens"),
)
ALARMS_WAKE = HouseRule(
    name="alarms-wake-everybody",
    title="Alarms wake everybody",
    why="Smoke and carbon monoxide put sleepers deeper to sleep.",
    cites=(irc_cite("R314 and R315"),),
    decide=_alarms,
    asks=("fire", "fire.smoke_alarms", "fire.co_alarms"),
)
