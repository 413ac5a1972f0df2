"""To last: where each timber lies and how long it lasts there, what is renewed, pipes, what was found."""

from __future__ import annotations

from itertools import count
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Columns, Figure, Heading, Notice, Para, Points, Table, plain
from bermwright.book.pages.found import found
from bermwright.book.sheets.lasting import pipe_sheet, places_sheet
from bermwright.data.durability import LEAST_SERVICE, YEAR
from bermwright.house import Timbers
from bermwright.rules.lasting.pipes import pressed
from bermwright.rules.lasting.wood import lasting_timbers

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import House
    from bermwright.rules.assess import Assessment
    from bermwright.rules.lasting.wood import Lasting

RULES = (
    "wood-fits-its-place", "pipes-keep-their-shape", "drains-stay-open", "insulation-is-not-crushed",
    "insulation-in-the-ground-carries",
    "ribs-stand-a-leak", "neighbours-carry-a-lost-rib", "a-lost-plank-lets-nothing-through",
    "frost-stays-under-the-footings", "water-stays-below-the-floor",
)  # fmt: skip
IN_SECTION = (Timbers.RIBS, Timbers.PLANKS, Timbers.PLATES, Timbers.SOCKETS)
AIRED = (
    "Every end of a timber: a finger wide of air around it, open to the room; never mortared in.",
    "Every plate and foot: a strip of tar felt under it, turned up at the sides, never folded into a cup.",
    "Cuts and notches in treated wood: brush the maker's preservative on before the piece is set.",
    "The sheet: past the foot of the ribs and down the outside of the wall by a forearm at least.",
)
YEARLY = (
    "Every spring: press a knife into the wood at each place of the table. Where it goes in easily, it rots.",
    "Rotting wood: find the water first, then the extent; then decide with somebody who is licensed.",
    "Every autumn: lift the lids, rinse the drains from their upper ends, see the water run out below.",
    "After the first winter and then every fifth year: plumb line and level at the crown marks.",
)
CAUTIONS = (
    "Digging out a wall to renew it: one pace of its length at a time, propped from inside first.",
    "A trench deeper than a person's waist is shored or sloped. Nobody is in it alone; local rules first.",
    "Never burn treated wood, and wear a mask when you saw it.",
    "Foul smell, a damp streak or a new sag: everybody out from under it until somebody licensed has looked.",
)


def lasting_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """Picture first, then who lasts how long, then pipes, then what was found."""
    house = assessment.house
    if not house.vaults:
        return
    yield Heading(text="To last", lead="What nobody sees again must be right the first time, or be reached.")
    timbers = lasting_timbers(house)
    if timbers:
        yield from _drawn(assessment, timbers, system)
        yield _table(timbers)
        yield from _renewed(timbers)
        yield Heading(text="Ends, feet and cuts", level=2)
        yield Points(items=AIRED)
    else:
        yield Para("Of which wood the timbers are is not known yet; the findings below say what is missing.")
    yield from _pipes(house, system)
    yield Heading(text="Looking after it", level=2)
    yield Points(items=YEARLY)
    yield Notice(kind="caution", lines=CAUTIONS)
    yield Heading(text="What was found", level=2)
    yield from found(assessment.findings, RULES, system)


def _drawn(assessment: Assessment, timbers: tuple[Lasting, ...], system: str) -> Iterator[Block]:
    numbers = dict(zip(_numbered(timbers), count(1), strict=False))
    for study in assessment.studies.values():
        mine = {one: number for one, number in numbers.items() if one in IN_SECTION}
        sheet = places_sheet(study, mine, len(numbers) + 1, system=system)
        named = "; ".join(f"{number} {words}" for words, number in mine.items())
        yield Figure(
            sheet=sheet,
            caption=f"{named}; {len(numbers) + 1} the sheet that keeps them dry. Numbers as in the table.",
        )


def _numbered(timbers: tuple[Lasting, ...]) -> tuple[Timbers, ...]:
    """Kinds of timbers, each once, in the order of the table."""
    return tuple(dict.fromkeys(one.place.timbers for one in timbers))


def _table(timbers: tuple[Lasting, ...]) -> Table:
    order = _numbered(timbers)
    rows = tuple(_row(order.index(one.place.timbers) + 1, one) for one in timbers)
    return Table(
        head=("", "timbers", "lie", "use class", "service class", "wood", "years", "look at it"),
        rows=rows,
        align="llllllll",
        widths=(0, 3, 3, 0, 0, 3, 3, 5),
        caption="Use classes of EN 335: 1 dry, 2 under cover, 3 in the weather, 4 in the ground. Service "
        "class: the least with which the strength may be reckoned there. The years are the least that the "
        "sources name; some rest on memory, as the working says.",
    )


def _row(number: int, one: Lasting) -> tuple[str, ...]:
    years = "while it stays dry" if one.life is None else f"{one.life / YEAR:.0f}"
    if one.wood.renewed_every is not None and one.life is not None:
        years += f", renewed every {one.wood.renewed_every / YEAR:.0f}"
    return (
        str(number),
        plain(one.place.title),
        plain(one.place.lies),
        str(one.use_class),
        str(LEAST_SERVICE[one.use_class]),
        plain(one.attested),
        years,
        plain(one.wood.looked_at or "nowhere"),
    )


def _renewed(timbers: tuple[Lasting, ...]) -> Iterator[Block]:
    """What fails within the life of the house."""
    short = [one for one in timbers if one.life is not None and one.life < one.place.design_life]
    if not short:
        yield Para("Nothing of wood is expected to rot within the life of the house while it stays dry.")
        return
    yield Heading(text="What fails within the life of the house", level=2)
    yield Points(items=tuple(_fate(one) for one in short))


def _fate(one: Lasting) -> str:
    life, stands = (one.life or 0.0) / YEAR, one.place.design_life / YEAR
    words = f"{plain(one.place.title)}: {plain(one.attested)} is good for {life:.0f} of {stands:.0f} years."
    if one.wood.renewed_every is None:
        return f"{words} No plan to renew it: it fails before the house does."
    every = one.wood.renewed_every / YEAR
    return f"{words} Renew it every {every:.0f} years; look at it every year from year {0.5 * every:.0f} on."


def _pipes(house: House, system: str) -> Iterator[Block]:
    drawn = [(pipe, one) for pipe in house.pipes if (one := pressed(house, pipe)) is not None]
    if not drawn:
        return
    yield Heading(text="Pipes under the earth", level=2)
    figures = [Figure(sheet=pipe_sheet(pipe, one, system=system)) for pipe, one in drawn]
    for left, right in zip(figures[::2], figures[1::2], strict=False):
        yield Columns(left=(left,), right=(right,), left_share=0.5)
    if len(figures) % 2:
        yield figures[-1]
    yield Para(
        "A plastic pipe is held by what stands beside it: bed first, then tread and tamp on both sides in "
        "step, then fill. The dashed line is what soaked soil makes of it in fifty years.",
        small=True,
    )
