"""Shape advice for the terminal: the recommendation, one table, the order of work, what to write."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.adapt.shape.works import steps_of
from bermwright.base.findings import Shown
from bermwright.book.pages.shape.advice import order_says, toml_lines
from bermwright.book.pages.shape.rows import CurveRow, curve_rows, lever_rows, unit_of
from bermwright.formats.assessment_text import CLOSING, wrapped

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.adapt.shape.advice import Advice
    from bermwright.book.pages.shape.rows import LeverRow


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
    yield from _columns([_head(system), *(_main(row) for row in rows)])
    yield ""
    yield wrapped(SMALL_PRINT)
    yield ""
    yield from _columns([MORE, *((row.letter, row.where, row.walls) for row in rows)])
    yield from _alike(rows)
    yield from (wrapped(f"Not compared: {one}") for one in advice.comparison.left_out)
    yield ""
    yield from _order(advice, system)
    yield from _writes(advice)


MORE = ("", "bends most at", "what stands under the feet")
SMALL_PRINT = (
    "Bends: largest bending per metre of vault over all stages, cases and soil runs, loads as they are. "
    "Used: strength of boards and nails with all factors, a usual number of nails in every piece (`check` "
    "counts those that are drawn). Feet: least and greatest sideways push. Board: width that the rib pieces "
    "need. Steep: share of the vault's own back over 30 and over 45 degrees. Hours: what has "
    "a published rate, by hand; walls and ribs come on top."
)


def _head(system: str) -> tuple[str, ...]:
    return ("", "curve", "feet at", *(f"{name} {unit_of(unit, system)}".strip() for name, unit in COLUMNS))


COLUMNS = (
    ("rise", "m"),
    ("bends", "kNm/m"),
    ("used", ""),
    ("feet", "kN/m"),
    ("crown", "m"),
    ("board", "mm"),
    ("fill", "m3"),
    ("floor", "m"),
    ("steep %", ""),
    ("hours", ""),
)


def _main(row: CurveRow) -> tuple[str, ...]:
    return (
        row.letter,
        row.curve,
        row.stand,
        row.rise,
        row.bends,
        row.used,
        row.feet,
        row.radius,
        row.board,
        row.fill,
        row.floor,
        row.steep,
        row.hours,
    )


def _columns(rows: Sequence[tuple[str, ...]], words: int = 3) -> Iterator[str]:
    """So many columns of words to the left, the figures behind them to the right."""
    wide = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    for row in rows:
        left = [text.ljust(room) for text, room in zip(row[:words], wide[:words], strict=True)]
        right = [text.rjust(room) for text, room in zip(row[words:], wide[words:], strict=True)]
        yield "  ".join([*left, *right]).rstrip()


def _alike(rows: Sequence[CurveRow]) -> Iterator[str]:
    """Families that come to a curve of another name, and curves that the boards are too narrow for."""
    for row in rows:
        if row.alike:
            yield wrapped(f"{row.letter} is also the best {row.alike}.")
        if row.cut:
            yield wrapped(f"{row.letter}: {row.cut}.")


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
