"""Whether a stove and its flue keep off the wood, the turf and the snow."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Step, Verdict, verdict_of
from bermwright.data.fire import (
    HEARTH,
    OVER_GROUND,
    OVER_SNOW,
    PIPE_FREE,
    PIPE_SHIELDED,
    SHIELD_GAP,
    SNOW_UNIT_WEIGHT,
    THROUGH,
    flue_cite,
)
from bermwright.house import OpeningKind
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.ribs.common import ratio_step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.sources import Cite
    from bermwright.house import House
    from bermwright.house.living.stove import Stove
    from bermwright.rules.nouns import Whole

NO_STOVE = Said(verdict=Verdict.DOES_NOT_APPLY, template="The file has no [[stove]].")


def _part(stove: Stove) -> str:
    return f'stove "{stove.name}"'


def _measured(  # noqa: PLR0913  (all by name)
    stove: Stove, *, what: str, has: float, needs: float, formula: str, filled: str, cite: Cite, advice: str
) -> Said:
    """A distance that must be at least as large as another."""
    ratio = needs / has if has > 0.0 else float("inf")
    verdict = verdict_of(ratio)
    return Said(
        verdict=verdict,
        part=_part(stove),
        template="{what} is {has}; {needs} are needed.",
        values={"what": what, "has": Shown(has, "m", 2), "needs": Shown(needs, "m", 2)},
        demand=needs,
        capacity=has,
        unit="m",
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else advice,
        steps=(
            Step(
                says="Needed",
                symbol="a",
                formula=formula,
                filled=filled,
                result=Shown(needs, "m", 3),
                cite=cite,
            ),
            ratio_step("Needed over there", "a / there", f"{needs:.3f} / {has:.3f}", ratio),
        ),
    )


def _asked(stove: Stove, what: str, names: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        part=_part(stove),
        template="{what} is not known.",
        values={"what": what},
        advice=f"Answer the question about [[stove]] {names}.",
    )


def _off_wood(whole: Whole) -> Iterator[Said]:
    if not whole.house.stoves:
        yield NO_STOVE
    for stove in whole.house.stoves:
        what = f'From "{stove.name}" and its pipe to the nearest wood it'
        if stove.flue is None or stove.lagging_distance is None:
            yield _asked(stove, what.removesuffix(" it") + ": the distance", "flue and lagging_distance")
            continue
        behind = bool(stove.shield) and (stove.shield_gap or 0.0) >= SHIELD_GAP.value
        times = PIPE_SHIELDED if behind else PIPE_FREE
        yield _measured(
            stove,
            what=what,
            has=stove.lagging_distance,
            needs=times.value * stove.flue,
            formula=f"{times.value:g} · flue diameter",
            filled=f"{times.value:g} · {stove.flue:.3f}",
            cite=times.cite,
            advice="Move it, or set a shield that cannot burn with an open gap of at least 12 mm behind. "
            "The stove's own plate may ask for more: it goes before this.",
        )


def _through(whole: Whole) -> Iterator[Said]:
    """The hole of a flue through planks, foam and membrane leaves the gap that its pipe needs."""
    house = whole.house
    holes = [one for one in house.openings if one.kind is OpeningKind.FLUE]
    if not house.stoves and not holes:
        yield NO_STOVE
    for stove in house.stoves:
        mine = [one for one in holes if one.vault == stove.vault]
        if not mine:
            yield Said(
                verdict=Verdict.UNKNOWN,
                part=_part(stove),
                values={"stove": stove.name},
                template='Where the flue of "{stove}" goes through the shell is not known.',
                advice='Write an [[opening]] with kind = "flue": vault, in, width, height, along, collar.',
            )
            continue
        if stove.flue is None:
            yield _asked(stove, f'The width of the flue of "{stove.name}"', "flue")
            continue
        hole = min(min(one.width, one.height) for one in mine)
        yield _measured(
            stove,
            what=f'The hole for the flue of "{stove.name}"',
            has=hole,
            needs=stove.flue + 2.0 * THROUGH.value,
            formula="flue + 2 · 50 mm",
            filled=f"{stove.flue:.3f} + 2 · {THROUGH.value:.3f}",
            cite=THROUGH.cite,
            advice="Widen the hole. Wood, foam, membrane and turf all end at its edge; fill the gap with "
            "mineral wool that stands 1000 °C only where the chimney's label allows it. Flash the collar.",
        )


def snow_depth(house: House) -> float | None:
    """Depth of the characteristic snow, lying light (m)."""
    return None if house.site.ground_snow is None else house.site.ground_snow / SNOW_UNIT_WEIGHT.value


def _ends_over_snow(whole: Whole) -> Iterator[Said]:
    if not whole.house.stoves:
        yield NO_STOVE
    depth = snow_depth(whole.house)
    for stove in whole.house.stoves:
        what = f'Over the turf the flue of "{stove.name}"'
        if stove.terminal_height is None or depth is None:
            yield _asked(stove, what + " ends at a height that", "terminal_height, or [site] ground_snow,")
            continue
        yield _measured(
            stove,
            what=what + " ends at a height that",
            has=stove.terminal_height,
            needs=max(OVER_GROUND.value, depth + OVER_SNOW.value),
            formula="max(1.0 m; snow + 0.6 m)",
            filled=f"snow {depth:.2f} m = ground snow load / 2 kN/m³",
            cite=OVER_GROUND.cite,
            advice="Make the flue higher, and brace it: drifts behind a mound are deeper than snow on the "
            "level. Keep dry turf 1 m away from it, and fit a spark guard where the local rule asks for one.",
        )


def _hearth(whole: Whole) -> Iterator[Said]:
    if not whole.house.stoves:
        yield NO_STOVE
    for stove in whole.house.stoves:
        what = f'Before the fire door of "{stove.name}" the floor that cannot burn'
        if stove.hearth_depth is None:
            yield _asked(stove, what, "hearth_depth")
            continue
        yield _measured(
            stove,
            what=what,
            has=stove.hearth_depth,
            needs=HEARTH.value,
            formula="hearth of a closed stove",
            filled="",
            cite=HEARTH.cite,
            advice="Lay a larger hearth of stone, tiles or steel.",
        )


_WHY = "Wood that stays hot for years lights at far lower temperatures than fresh wood."

STOVE_KEEPS_OFF = HouseRule(
    name="stove-keeps-off-the-wood",
    title="The stove and its pipe keep off the wood",
    why=_WHY,
    cites=(flue_cite("diagram 17"),),
    decide=_off_wood,
    asks=("stove.flue", "stove.lagging_distance"),
)
FLUE_THROUGH = HouseRule(
    name="flue-goes-through-with-room",
    title="The flue goes through the shell with room around it",
    why=_WHY,
    cites=(THROUGH.cite,),
    decide=_through,
    asks=("opening", "stove.flue"),
)
FLUE_OVER_SNOW = HouseRule(
    name="flue-ends-over-the-snow",
    title="The flue ends over turf and snow",
    why="A flue that snow closes fills the room with carbon monoxide; sparks light dry turf.",
    cites=(OVER_GROUND.cite, OVER_SNOW.cite, SNOW_UNIT_WEIGHT.cite),
    decide=_ends_over_snow,
    asks=("stove.terminal_height", "site.ground_snow"),
)
HEARTH_IS_DEEP = HouseRule(
    name="hearth-catches-embers",
    title="The hearth catches embers",
    why="Embers fall out when wood is laid on.",
    cites=(HEARTH.cite,),
    decide=_hearth,
    asks=("stove.hearth_depth",),
)
