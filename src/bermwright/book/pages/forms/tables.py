"""Tables of slats, meeting points, cords, and what the file does not say."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Heading, Table, plain
from bermwright.base.units import lengths_in, show

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.developed import ArchForm, CordTable, Waiting


def slat_table(arch: ArchForm, system: str) -> Table:
    """Every batten of one half; the other half is alike where the wall is."""
    half = arch.slats[: math.ceil(len(arch.slats) / 2)]
    return Table(
        head=("batten", "from the inner end", "length"),
        rows=tuple(
            (
                _pair(slat.number, len(arch.slats)),
                show(slat.start, "mm", 0, system),
                show(slat.length, "mm", 0, system),
            )
            for slat in half
        ),
        caption=f"{len(arch.slats)} battens {show(arch.slat_thickness, 'mm', 0, system)} thick over "
        f"{arch.faces} faces of radius {show(arch.radius, 'mm', 0, system)}, from the left springing to "
        f"the crown; "
        "the same number counted from the right is alike.",
    )


def _pair(number: int, count: int) -> str:
    other = count + 1 - number
    return str(number) if other == number else f"{number} and {other}"


def levels_table(rows: tuple[tuple[float, float], ...], system: str, caption: str) -> Table:
    """Level and angle at which a small vault meets a dome."""
    return Table(
        head=("level", "beside the middle"),
        rows=tuple((show(level, "level", 3, system), f"{math.degrees(turn):.1f}°") for level, turn in rows),
        align="rr",
        caption=f"{caption} Angles at the dome's axis.",
    )


def cord_table(cords: CordTable, system: str) -> Iterator[Block]:
    """Guide cords of one vault."""
    yield Heading(text=f"Guide cord of {plain(cords.part)}", level=2)
    yield Table(
        head=("along the face from the crown", "across", "over the springing", "cord"),
        rows=tuple(tuple(show(value, "m", 3, system) for value in row) for row in cords.rows),
        align="rrrr",
        strong=(3,),
        caption=cords.note,
    )


def waiting_table(waiting: tuple[Waiting, ...], system: str) -> Iterator[Block]:
    """What is not drawn, where to write what is missing, and how to learn it."""
    if waiting:
        yield Heading(text="Not drawn: the file does not say enough, or it does not fit", level=2)
        yield Table(
            head=("what", "where to write it", "what to do"),
            rows=tuple(
                (plain(lengths_in(one.what, system)), plain(one.place), plain(one.cheapest_way))
                for one in waiting
            ),
            align="lll",
        )
