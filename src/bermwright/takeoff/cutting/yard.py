"""The yard as clear stretches: ends trimmed, faults cut out, logs sawn to boards."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.handbook.boards.sawing import Heart, cone_volume, international_volume, live_sawn
from bermwright.house import Saw
from bermwright.takeoff.cutting.nouns import LogYield, SawWords

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from bermwright.base.units import Money
    from bermwright.house import House, Log

SAME = 0.0015
"""Boards whose thickness differs by less than this are one thickness (m)."""
LEAST_WIDTH = 0.075
"""Narrower boards from a log are not kept (m); as in the tables of yields that were compared."""
FIVE = 0.005
"""Widths of boards from logs count in steps of this (m)."""
TENTH = 1e-4
"""Saw cuts are counted in whole steps of this, rounded up (m)."""
LIMIT = 6.09
"""Longer logs are counted as several by the mill's rule (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class YardBoard:
    """A line of boards in the yard."""

    name: str
    length: float
    width: float
    thickness: float
    count: int | None
    """None where any number can be had."""
    faults: tuple[tuple[float, float], ...]
    price: Money | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearStretch:
    """A clear stretch that every board of a line has."""

    board: YardBoard
    start: float
    end: float

    @property
    def length(self) -> float:
        """Length (m)."""
        return self.end - self.start


def saw_words(house: House, system: str = "metric") -> SawWords:
    """The saw of the file, and what is assumed where it says nothing."""
    saw = house.saw or Saw()
    silent = {one.place for one in house.assumptions}
    says = {
        "kerf": f"The saw cut counts as {show(saw.kerf, 'mm', 1, system)} (saw.kerf): measure one.",
        "trim": f"Each end of a board loses {show(saw.trim, 'mm', 0, system)} first (saw.trim).",
        "keep": f"Offcuts from {show(saw.keep, 'm', 2, system)} on are kept (saw.keep).",
    }
    assumed = [text for name, text in says.items() if house.saw is None or f"saw.{name}" in silent]
    kerf = math.ceil(saw.kerf / TENTH - 1e-6) * TENTH
    if kerf > saw.kerf + 1e-9:
        assumed.append(
            f"Saw cuts count in tenths of a millimetre: the one of {show(saw.kerf, 'mm', 3, system)} "
            f"(saw.kerf) as {1e3 * kerf:.1f} mm."
        )
    return SawWords(kerf=kerf, trim=saw.trim, keep=saw.keep, assumed=tuple(assumed))


def boards_of(house: House, system: str = "metric") -> Iterator[YardBoard]:
    """Boards of the yard, then those that the logs give."""
    for line in house.stock:
        yield YardBoard(
            name=line.name,
            length=line.length,
            width=line.section.width,
            thickness=line.section.thickness,
            count=line.count,
            faults=line.faults,
            price=line.price,
        )
    for log, sawn in zip(house.logs, log_yields(house), strict=True):
        yield from _log_boards(log, sawn, system)


def _log_boards(log: Log, sawn: LogYield, system: str) -> Iterator[YardBoard]:
    widths = [math.floor(width / FIVE + 1e-9) * FIVE for width in sawn.widths]
    for width in sorted(set(widths), reverse=True):
        yield YardBoard(
            name=f"{log.name}, {_wide(width, system)} wide",
            length=log.length,
            width=width,
            thickness=log.thickness,
            count=widths.count(width) * log.count,
            faults=(),
            price=None,
        )


def _wide(width: float, system: str) -> str:
    return f"{round(width * 1e3)}" if system == "metric" else show(width, "mm", 0, system)


def log_yields(house: House) -> tuple[LogYield, ...]:
    """What each line of logs gives, with a board or a cut on the heart, whichever gives more."""
    saw = house.saw or Saw()
    return tuple(_yield_of(log, saw) for log in house.logs)


def _yield_of(log: Log, saw: Saw) -> LogYield:
    wet = log.thickness / (1.0 - saw.shrinks)
    patterns = [
        live_sawn(
            log.diameter,
            thickness=wet,
            kerf=saw.log_kerf,
            least=LEAST_WIDTH / (1.0 - saw.shrinks),
            heart=heart,
        )
        for heart in Heart
    ]
    best = max(patterns, key=lambda pattern: pattern.yields)
    parts = math.ceil(log.length / LIMIT)
    mill = parts * float(international_volume(log.diameter, log.length / parts))
    return LogYield(
        name=log.name,
        count=log.count,
        diameter=log.diameter,
        length=log.length,
        volume=None if log.thick_end is None else float(cone_volume(log.diameter, log.thick_end, log.length)),
        heart=str(best.heart),
        widths=tuple(width * (1.0 - saw.shrinks) for width in best.widths),
        places=best.places,
        thickness=log.thickness,
        shrinks=saw.shrinks,
        yields=best.yields,
        mill=mill,
    )


def stretches_of(boards: Iterable[YardBoard], saw: SawWords) -> Iterator[ClearStretch]:
    """The clear stretches of each line, from the marked end."""
    for board in boards:
        yield from _clear(board, saw.trim)


def _clear(board: YardBoard, trim: float) -> Iterator[ClearStretch]:
    """Between trimmed ends and faults; a fault that reaches into a trimmed end takes the place of it."""
    at, last = trim, board.length - trim
    for start, end in board.faults:
        if min(start, last) > at:
            yield ClearStretch(board=board, start=at, end=min(start, last))
        at = max(at, end)
    if last > at:
        yield ClearStretch(board=board, start=at, end=last)


def lost_of(board: YardBoard, trim: float) -> tuple[tuple[float, float], ...]:
    """Trimmed ends and faults of a board."""
    ends = ((0.0, trim), (board.length - trim, board.length)) if trim > 0.0 else ()
    return tuple(sorted((*ends, *board.faults)))
