"""The compass of a dome: the course in hand, the ring as it was laid, the table, bands for chain and pole."""

from __future__ import annotations

from dataclasses import replace
from itertools import takewhile
from typing import TYPE_CHECKING

from bermwright.app.formwork.compassing import CompassWishes, compass_file
from bermwright.app.handmade.nouns import (
    AskedWrongError,
    Made,
    Shown,
    bar_of,
    system_of,
    ticked,
    typed,
    words_of,
)
from bermwright.app.opening import open_house
from bermwright.base.document import Figure, Heading, Notice, Table
from bermwright.base.errors import QuantityError
from bermwright.base.units import parse_exact
from bermwright.book.pages.compass.tables import course_table
from bermwright.book.sheets.compass import ring_sheet

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from bermwright.app.formwork.compassing import Compassed
    from bermwright.app.handmade.nouns import Options, Progress
    from bermwright.base.document import Block
    from bermwright.form.dome import DomeForm

AS_BUILT = "radii as laid"
"""What the typed radii are called where they cannot be read."""


def wishes_of(house_file: str, folder: Path, out: str | None, options: Options) -> CompassWishes:
    """What the fields ask for; of several domes the first where none was chosen."""
    radii = words_of(options, "radii")
    names = [dome.name for dome in open_house(house_file).house.domes]
    return CompassWishes(
        dome=words_of(options, "dome") or (names[0] if names else None),
        measured=typed(folder, AS_BUILT, None if radii is None else _table(radii, _course(options))),
        band=ticked(options, "band"),
        printer_bar=bar_of(options),
        out=out,
        system=system_of(options),
    )


def _course(options: Options) -> int:
    text = words_of(options, "course") or "1"
    if not (text.isascii() and text.isdigit()):
        raise AskedWrongError(f'course: "{text[:20]}" is no whole number.')
    return int(text)


def _table(radii: str, course: int) -> str:
    """One line a radius, as it was typed: the direction, then the radius. All mistakes at once."""
    pairs = [line.partition(",") for line in radii.splitlines() if line.strip()]
    mistakes = [said for direction, _, radius in pairs for said in _wrong(direction.strip(), radius.strip())]
    if mistakes:
        raise AskedWrongError("\n".join(mistakes))
    lines = (f"{course},{direction.strip()},{radius.strip()}" for direction, _, radius in pairs)
    return "\n".join(["course,direction,radius", *lines])


def _wrong(direction: str, radius: str) -> Iterator[str]:
    """What is wrong with one radius, in the place where it was typed."""
    for text, kind, place in (
        (direction, "angle", "direction"),
        (radius, "length", f"radius at {direction}"),
    ):
        try:
            parse_exact(text, kind)
        except QuantityError as error:
            yield f"{place}: {error}"


def show(house_file: str, folder: Path, options: Options, progress: Progress) -> Shown:
    """The ring as laid, the course in hand, then everything that the compass is set by."""
    wishes = wishes_of(house_file, folder, None, options)
    made = compass_file(house_file, wishes, progress)
    form = made.forms[0]
    number = _course(options)
    if not 1 <= number <= len(form.courses):
        raise AskedWrongError(f"course: {form.name} has courses 1 to {len(form.courses)}, not {number}.")
    return Shown(
        document=replace(made.document, blocks=_ordered(made, number, wishes.system)),
        facts={"courses": len(form.courses), "course": number, "dome": form.name},
        verdict="" if made.goes_on else "fails",  # that a ring is round says nothing of its strength
        says=_says(made, number),
    )


def _says(made: Compassed, number: int) -> str:
    if not made.corrections:
        return f"Course {number} of {len(made.forms[0].courses)} in {made.forms[0].name}."
    return (
        "The ring can be led back: lay the next course by the table."
        if made.goes_on
        else "Stop: nothing is laid on this ring before it is put right."
    )


def _in_hand(form: DomeForm, number: int, system: str) -> Iterator[Block]:
    """The line of one course, and its ring from above."""
    table = course_table(form, system)
    yield Heading(text=f"Course {number}", level=2)
    yield Figure(sheet=ring_sheet(form, form.courses[number - 1], system=system))
    yield replace(table, rows=(table.rows[number - 1],))


def _ordered(made: Compassed, number: int, system: str) -> tuple[Block, ...]:
    """What stops the work, the ring as measured, the course in hand, then the whole dome."""
    head, *rest = made.document.blocks
    measured: list[Block] = []
    if made.corrections:
        # The ring as measured ends with the table of the next courses.
        end = next(at for at, one in enumerate(rest) if isinstance(one, Table)) + 1
        measured, rest = rest[:end], rest[end:]
    stops = list(takewhile(lambda one: isinstance(one, Notice), rest))
    whole = Heading(text="The whole dome", level=2)
    return (head, *stops, *measured, *_in_hand(made.forms[0], number, system), whole, *rest[len(stops) :])


def make(house_file: str, folder: Path, out: str, options: Options, progress: Progress) -> Made:
    """Pages and bands as PDF; drawings and bands as SVG or DXF."""
    made = compass_file(house_file, wishes_of(house_file, folder, out, options), progress)
    return Made(files=made.files, says=("Print bands at 100 % and measure the bar.",))
