"""What is cut from which board: figures first, then boards to saw, pieces, offcuts, jig and nails."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Points, Table, plain
from bermwright.base.units import show
from bermwright.book.sheets.cutting import (
    board_patterns,
    board_sheets,
    jig_sheet,
    log_sheet,
    nail_sheet,
    nest_sheet,
    pair_sheet,
)
from bermwright.book.sheets.cutting.boards import code_of
from bermwright.book.sheets.cutting.jig import block_places
from bermwright.takeoff.cutting.nouns import Part

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.book.templates import Nailing
    from bermwright.form.shapes import VaultForm
    from bermwright.takeoff.cutting import CutList, HousePlan, LogYield

SAWING = (
    (
        "*Look for nails first.* Run a magnet or a detector over every salvaged board, and pull what you "
        "find; a saw that meets a nail throws it."
    ),
    (
        "Guard on, eyes, ears and lungs covered, the board clamped. Paint of old houses may hold lead: do "
        "not saw or sand it dry. Local rules come first."
    ),
)
BOUND = (
    "*What is optimised:* in one dimension lengths are laid out, each blank in a board at least as wide as "
    "itself. Two searches are run and the better is given; the bound is certified: no plan for these blanks "
    "from these boards can use less. *In two dimensions* one thing more is tried, without a bound of its "
    "own: equal outlines beside each other in a wide blank, two unlike ones of what is left, and planks "
    "ripped from one wide board."
)


WAY_OUT = (
    "Way out: add boards to [[stock]], or write a shorter board_length, so that ribs are cut from shorter "
    "pieces."
)
BUY = "Way out: buy or find timber of this size, and add it to [[stock]]."


@dataclass(frozen=True, slots=True, kw_only=True)
class VaultCut:
    """A vault whose ribs are cut."""

    form: VaultForm
    nailing: Nailing | None


def cutting_pages(
    plan: HousePlan, vaults: tuple[VaultCut, ...], *, log_kerf: float, system: str
) -> Iterator[Block]:
    """Everything about the boards."""
    yield Heading(text="Cutting", lead="Every piece, the board it comes from, and what is left over.")
    if not plan.lists and not plan.logs:
        return
    yield from _invented(plan)
    for cut in plan.lists:
        yield from _list(plan, cut, system)
    yield Para(BOUND, small=True)
    remarks = (*plan.saw.assumed, *plan.remarks, *(one for cut in plan.lists for one in cut.remarks))
    if remarks:
        yield Points(items=tuple(map(plain, remarks)))
    yield Notice(kind="caution", lines=SAWING)
    if plan.logs:
        yield from _logs(plan.logs, log_kerf, system)
    for vault in vaults:
        yield from _rib(plan, vault, system)


def _invented(plan: HousePlan) -> Iterator[Block]:
    if plan.invented:
        yield Para(
            "The file lists no boards ([[stock]]). Boards of the wanted length are counted in any number; "
            "write down what lies in the yard and cut again."
        )


def headline(cut: CutList, system: str) -> str:
    """What comes out of the boards of one thickness."""
    used, taken = (show(area, "m2", 1, system) for area in (cut.used, cut.taken))
    words = (
        f"{cut.pieces} pieces from {len(cut.boards)} board{'' if len(cut.boards) == 1 else 's'} "
        f"{show(cut.thickness, 'mm', 0, system)} thick: "
        f"{taken} of board, {used} of it clear stretches that are cut into."
    )
    if cut.missing:
        short = sum(len(one.labels) for one in cut.missing)
        return f"{words} *{short} pieces find no board.*"
    if cut.excess is not None:
        bound = show(cut.bound or 0.0, "m2", 1, system)
        near = "uses no more" if cut.excess < SAME else f"lies at most {cut.excess:.2%} above"
        words += f" None for these blanks can use less than {bound}; this one {near}."
    return f"{words} Found {cut.found_by}."


def _list(plan: HousePlan, cut: CutList, system: str) -> Iterator[Block]:
    thick = show(cut.thickness, "mm", 0, system)
    yield Heading(text=f"Boards {thick} thick", level=2)
    yield Para(headline(cut, system))
    if cut.missing:
        yield Points(
            items=tuple(
                f"{len(one.labels)} of {plan.codes[one.kind.key]} ({plain(one.kind.name)}): {plain(one.why)}."
                for one in cut.missing
            )
        )
        yield Para(WAY_OUT if any(kind.part is Part.RIBS for kind in cut.kinds) else BUY)
    yield _pieces(plan, cut, system)
    yield _boards(plan, cut, system)
    for sheet in board_sheets(cut, plan.codes, system=system):
        yield Figure(sheet=sheet)
    yield from _offcuts(cut, plan.saw.keep, system)
    yield from _money(cut)


def _pieces(plan: HousePlan, cut: CutList, system: str) -> Table:
    rows = tuple(
        (
            plan.codes[kind.key],
            plain(f"{kind.part}s of {kind.vault}" if kind.vault else str(kind.part)),
            plain(kind.name),
            show(kind.length, "mm", 0, system),
            show(kind.width, "mm", 0, system),
            str(kind.count),
        )
        for kind in cut.kinds
    )
    return Table(
        head=("code", "for", "pieces", "blank length", "blank width", "wanted"),
        rows=rows,
        align="lllrrr",
        strong=(3,),
        widths=(0, 0, 1, 0, 0, 0),
    )


def _boards(plan: HousePlan, cut: CutList, system: str) -> Table:
    rows = []
    for pattern in board_patterns(cut):
        board = pattern.first
        pieces = ", ".join(
            f"{code_of(one, plan.codes)} to {show(one.end, 'mm', 0, system)}" for one in board.placed
        )
        keep = ", ".join(show(offcut.length, "mm", 0, system) for offcut in board.offcuts)
        rows.append((str(pattern.number), plain(pattern.names), str(len(pattern.boards)), pieces, keep))
    return Table(
        head=("way", "boards", "times", "saw at, from the marked end", "keep"),
        rows=tuple(rows),
        align="llrll",
        widths=(0, 0.8, 0, 1, 0),
        caption="Each mark is the end of a piece; the saw cut lies beyond it.",
    )


def _offcuts(cut: CutList, keep: float, system: str) -> Iterator[Block]:
    offcuts = cut.offcuts
    if not offcuts:
        yield Para(f"No offcut reaches {show(keep, 'm', 2, system)}.")
        return
    total = show(sum(one.length for one in offcuts), "m", 1, system)
    longest = show(max(one.length for one in offcuts), "m", 2, system)
    names = "; ".join(
        f"{one.name} {show(one.length, 'mm', 0, system)} × {show(one.width, 'mm', 0, system)}"
        for one in sorted(offcuts, key=lambda one: -one.length)[:MOST_NAMED]
    )
    more = f"; and {len(offcuts) - MOST_NAMED} shorter ones" if len(offcuts) > MOST_NAMED else ""
    yield Para(f"*Offcuts to keep:* {len(offcuts)}, {total} in all, the longest {longest}. {names}{more}.")
    if cut.left:
        left = ", ".join(f"{count} × {plain(name)}" for name, count in cut.left)
        yield Para(f"*Left in the yard:* {left}.")


SAME = 5e-5
"""Share above the bound that shows as nothing."""
MOST_NAMED = 12
"""So many offcuts are named; the list file has all."""


def _money(cut: CutList) -> Iterator[Block]:
    yield Para(
        f"*Work:* {cut.sawcuts} cuts across boards, then each rib piece to its line. Nobody has published "
        "hours for this: time ten pieces and multiply."
    )
    if cut.cost:
        sums = " and ".join(str(money) for money in cut.cost)
        rest = f"; {cut.unpriced} boards have no price" if cut.unpriced else ""
        yield Para(f"*Boards cut into cost* {sums} at the prices of the file{rest}.")


def _logs(logs: tuple[LogYield, ...], kerf: float, system: str) -> Iterator[Block]:
    yield Heading(text="Logs to boards", level=2)
    yield Figure(sheet=log_sheet(logs, kerf, system=system))
    rows = tuple(
        (
            plain(log.name),
            str(log.count),
            show(log.diameter, "mm", 0, system),
            show(log.length, "m", 2, system),
            show(log.volume, "m3", 3, system) if log.volume is not None else "not known",
            f"{len(log.widths)} × {show(log.thickness, 'mm', 0, system)}",
            f"{log.yields:.0%}",
            show(log.mill, "m3", 3, system),
        )
        for log in logs
    )
    head = ("logs", "count", "thin end", "length", "wood in one", "boards of one", "yield", "mill's rule")
    yield Table(head=head, rows=rows, align="lrrrrrrr")
    yield Para(
        "Boards follow from the circle of the thin end, with a board or a cut on the heart, whichever gives "
        "more, and dry to the thickness wanted. Yield is the share of that circle. The mill's rule is the "
        "International rule for a saw cut of a quarter inch, in boards. Taper, sweep and rot take more.",
        small=True,
    )


def _rib(plan: HousePlan, vault: VaultCut, system: str) -> Iterator[Block]:
    form = vault.form
    if form.rib.bent:
        return
    yield Heading(text=f"Putting the ribs of {plain(form.name)} together", level=2)
    yield Figure(sheet=jig_sheet(form, system=system))
    rows = tuple(
        (str(place.number), *(show(one, "mm", 0, system) for one in (*place.inside, *place.outside)))
        for place in block_places(form.rib)
    )
    yield Table(
        head=("block", "inside: along", "inside: up", "outside: along", "outside: up"),
        rows=rows,
        caption="Where the faces of the blocks touch the rib, from the left foot of its middle line "
        f"(±{show(0.001, 'mm', 0, system)}).",
    )
    if vault.nailing is not None:
        sheet = nail_sheet(form, vault.nailing, system=system)
        if sheet is not None:
            yield Figure(sheet=sheet)
    yield from _nested(plan, vault, system)


def _nested(plan: HousePlan, vault: VaultCut, system: str) -> Iterator[Block]:
    """The widest stack that is cut, and the longest pair of unlike outlines, each drawn once."""
    rib = vault.form.rib
    found = [
        placed
        for cut in plan.lists
        for board in cut.boards
        for placed in board.placed
        if len(placed.labels) > 1 and placed.kind.vault == vault.form.name and placed.kind.part is Part.RIBS
    ]
    alike = [placed for placed in found if placed.other is None]
    if alike:
        placed = max(alike, key=lambda one: (len(one.labels), one.kind.length))
        name = placed.kind.name.split(", ", maxsplit=1)[0]
        piece = next(one for one in rib.pieces if one.name == name)
        yield Figure(sheet=nest_sheet(rib, piece, placed.kind, len(placed.labels), system=system))
    pair = max((one for one in found if one.other is not None), key=lambda one: one.kind.length, default=None)
    if pair is not None and pair.other is not None:
        yield Figure(sheet=pair_sheet(pair.kind, pair.other, system=system))
