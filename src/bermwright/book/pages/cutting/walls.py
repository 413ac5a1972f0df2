"""End walls from offcuts: the drawing, the list of its pieces, and what is missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Para, Points, Table, plain
from bermwright.base.units import show
from bermwright.book.sheets.cutting import end_wall_sheet
from bermwright.takeoff.cutting.end_wall import LEAST, STAGGER

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.form.shapes import VaultForm
    from bermwright.takeoff.cutting import EndWall


def wall_pages(walls: Sequence[EndWall], forms: Sequence[VaultForm], system: str) -> Iterator[Block]:
    """Every end that was filled."""
    if not walls:
        return
    yield Heading(text="End walls from offcuts", level=2)
    yield Points(
        items=(
            (
                f"Rows lie level from the floor. Joints of neighbouring rows lie "
                f"{show(STAGGER, 'mm', 0, system)} apart or more; no piece is shorter than "
                f"{show(LEAST, 'mm', 0, system)}, but where the wall itself is."
            ),
            (
                "Every piece is nailed to two uprights or battens, two nails at each. Scribe the outer ends "
                "to the rib."
            ),
            (
                "Short pieces are a lining or a second layer. What was checked of an end are whole planks "
                "from post to post: soil never leans on these."
            ),
        )
    )
    for wall in walls:
        form = next(one for one in forms if one.name == wall.vault)
        yield Figure(sheet=end_wall_sheet(form, wall, system=system))
        yield from _missing(wall, system)
        yield from _holed(wall)
        yield _list(wall, system)


def _missing(wall: EndWall, system: str) -> Iterator[Block]:
    if not wall.gaps:
        yield Para(f"The {wall.side} end is full; {len(wall.left)} offcuts are left.")
        return
    rows = "; ".join(
        f"row {gap.row}: {show(gap.length, 'm', 2, system)} of {show(gap.width, 'mm', 0, system)}"
        for gap in wall.gaps
    )
    total = show(wall.missing, "m", 1, system)
    yield Para(f"*Missing in the {wall.side} end:* {total} of board. {rows}. Take new boards for these.")


def _holed(wall: EndWall) -> Iterator[Block]:
    holed = [str(piece.number) for piece in wall.pieces if piece.holes]
    if holed:
        word = "Piece" if len(holed) == 1 else "Pieces"
        yield Para(
            f"*To cut out:* an opening lies within one row. {word} {', '.join(holed)}: mark it on the wall, "
            "take the piece down and saw the hole."
        )


def _list(wall: EndWall, system: str) -> Table:
    rows = tuple(
        (
            str(piece.number),
            str(piece.row),
            plain(piece.offcut),
            show(piece.length, "mm", 0, system) if piece.ripped_with is None else f"with {piece.ripped_with}",
            *(show(size, "mm", 0, system) for size in (piece.below, piece.above)),
        )
        for piece in wall.pieces
    )
    return Table(
        head=("no.", "row", "offcut", "cut to", "lower edge", "upper edge"),
        rows=rows,
        align="rrlrrr",
        strong=(3,),
    )
