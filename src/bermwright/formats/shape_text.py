"""Shape advice for the terminal: the recommendation, one table, the order of work, what to write."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.adapt.shape.works import steps_of
from bermwright.base.findings import Shown
from bermwright.book.pages.shape.advice import order_says, toml_lines
from bermwright.book.pages.shape.rows import CurveRow, curve_rows, lever_rows
from bermwright.formats.assessment_text import CLOSING, wrapped

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.adapt.shape.advice import Advice
    from bermwright.book.pages.shape.rows import LeverRow

HEAD = ("", "curve", "feet", "rise", "bends", "used", "fill", "floor", "steep")


def shape_text(house: str, advices: Sequence[Advice], system: str = "metric") -> str:
    """Every vault of a house."""
    lines = [f"{house}: the curve that the ground allows"]
    for advice in advices:
        lines += ["", *_vault(advice, system)]
    return "\n".join([*lines, "", CLOSING])


def _vault(advice: Advice, system: str) -> Iterator[str]:
    name = advice.chosen.vault.name
    yield name
    yield "=" * len(name)
    for sentence in advice.why:
        yield wrapped(sentence.says(system))
    yield ""
    rows = curve_rows(advice, system)
    yield from _columns([HEAD, *(_main(row) for row in rows)])
    yield ""
    for row in rows:
        yield from _more(row)
    yield ""
    yield from _order(advice, system)
    yield from _writes(advice)


def _main(row: CurveRow) -> tuple[str, ...]:
    kind = row.curve.split(" (", maxsplit=1)[0]
    return (row.letter, kind, row.stand, row.rise, row.bends, row.used, row.fill, row.floor, row.steep)


def _columns(rows: Sequence[tuple[str, ...]], words: int = 3) -> Iterator[str]:
    """So many columns of words to the left, the figures behind them to the right."""
    wide = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    for row in rows:
        left = [text.ljust(room) for text, room in zip(row[:words], wide[:words], strict=True)]
        right = [text.rjust(room) for text, room in zip(row[words:], wide[words:], strict=True)]
        yield "  ".join([*left, *right]).rstrip()


def _more(row: CurveRow) -> Iterator[str]:
    """What of a curve finds no room in the table."""
    also = row.curve.partition(" (also ")[2].rstrip(")")
    yield wrapped(f"{row.letter}  {row.where}" + (f"; the same curve: {also}" if also else ""))
    yield wrapped(
        f"feet push {row.feet}; {row.walls}; crown radius {row.radius}, board {row.board}; {row.hours}", "   "
    )


def _order(advice: Advice, system: str) -> Iterator[str]:
    yield "Order of work for curve A"
    yield wrapped(order_says(advice, system))
    for number, (says, values) in enumerate(steps_of(advice.order.chosen.works, advice.chosen.form), 1):
        texts = {k: v.text(system) if isinstance(v, Shown) else v for k, v in values.items()}
        yield wrapped(f"{number}. {says.format_map(texts)}", "  ")
    yield ""
    head = ("each lever alone", "bends", "of that", "used", "hours", "carried up")
    yield from _columns([head, *(_lever(row) for row in lever_rows(advice, system))], words=1)


def _lever(row: LeverRow) -> tuple[str, ...]:
    return (row.work, row.bends, row.share, row.used, row.hours, row.lifted)


def _writes(advice: Advice) -> Iterator[str]:
    lines = toml_lines(advice)
    if lines:
        yield ""
        yield "Write into the house file:"
        yield from (f"  {line}" for line in lines)
