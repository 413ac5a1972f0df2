"""The rows of a cut list: one table of everything that is sawn, and smaller ones beside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.units import convert
from bermwright.formats.tables import Table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.formats.tables import Cell
    from bermwright.takeoff.cutting import HousePlan, Placed, SawnBoard

Row = tuple["Cell", ...]


@dataclass(frozen=True, slots=True)
class Measure:
    """Lengths as plain numbers, in millimetres or inches."""

    system: str

    @property
    def unit(self) -> str:
        """The unit that stands in every head."""
        return "mm" if self.system == "metric" else "in"

    def of(self, metres: float) -> float:
        """A length, to a tenth of a millimetre or a hundredth of an inch."""
        return round(convert(metres, self.unit), 1 if self.system == "metric" else 2)


def cut_tables(plan: HousePlan, system: str = "metric") -> tuple[Table, ...]:
    """Cuts, pieces, offcuts, what is missing and what is left in the yard."""
    measure = Measure(system)
    unit = measure.unit
    size = (f"length {unit}", f"width {unit}", f"thickness {unit}")
    return (
        Table(
            name="cuts",
            head=(
                "what", "board", f"thickness {unit}", f"board width {unit}", f"board length {unit}", "label",
                "code", f"from {unit}", f"to {unit}", f"width {unit}", "beside",
            ),
            rows=tuple(
                row for cut in plan.lists for board in cut.boards for row in _cuts(plan, board, measure)
            ),
        ),
        Table(
            name="pieces",
            head=("code", "part", "vault", "pieces", *size, "wanted"),
            rows=tuple(
                (
                    plan.codes[kind.key], str(kind.part), kind.vault, kind.name, measure.of(kind.length),
                    measure.of(kind.width), measure.of(kind.thickness), kind.count,
                )
                for cut in plan.lists
                for kind in cut.kinds
            ),
        ),
        Table(
            name="offcuts",
            head=("offcut", "board", *size),
            rows=tuple(
                (one.name, one.board, *map(measure.of, (one.length, one.width, one.thickness)))
                for one in plan.offcuts
            ),
        ),
        Table(
            name="missing",
            head=("code", "pieces", "number", "why"),
            rows=tuple(
                (plan.codes[one.kind.key], one.kind.name, len(one.labels), one.why)
                for cut in plan.lists
                for one in cut.missing
            ),
        ),
        Table(
            name="left in the yard",
            head=("boards", "number"),
            rows=tuple((name, count) for cut in plan.lists for name, count in cut.left),
        ),
    )  # fmt: skip


def _cuts(plan: HousePlan, board: SawnBoard, measure: Measure) -> Iterator[Row]:
    """Everything on a board in order from its marked end."""
    sizes = (measure.of(board.thickness), measure.of(board.width), measure.of(board.length))
    found: list[tuple[float, Row]] = []
    for placed in board.placed:
        found += [(placed.start, row) for row in _piece(plan, board, placed, measure)]
    for start, end in board.faults:
        row = ("fault or end", board.name, *sizes, "", "", measure.of(start), measure.of(end), sizes[1], "")
        found.append((start, row))
    for one in board.offcuts:
        ends = (measure.of(one.start), measure.of(one.end))
        found.append((one.start, ("offcut", board.name, *sizes, one.name, "", *ends, sizes[1], "")))
    yield from (row for _, row in sorted(found, key=lambda entry: entry[0]))


def _piece(plan: HousePlan, board: SawnBoard, placed: Placed, measure: Measure) -> Iterator[Row]:
    for label, kind in zip(placed.labels, placed.kinds, strict=True):
        yield (
            "piece",
            board.name,
            measure.of(board.thickness),
            measure.of(board.width),
            measure.of(board.length),
            label,
            plan.codes[kind.key],
            measure.of(placed.start),
            measure.of(placed.end),
            measure.of(kind.width),
            len(placed.labels),
        )
