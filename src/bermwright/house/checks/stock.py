"""What does not fit together of boards, logs and salvaged windows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.house.checks.common import Check, Contradiction, Key, bound, clash, each, metres, names_once

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.model import House
    from bermwright.house.parts.stock import Log, Saw, Stock

NEAR = 1e-9


def stock_checks(house: House) -> Iterator[Check]:
    """The checks of everything that lies in the yard."""
    yield names_once(("stock",), house.stock)
    yield names_once(("log",), house.logs)
    yield names_once(("salvaged",), house.salvaged)
    for count, board in enumerate(house.stock):
        here: Key = ("stock", count)
        yield Check(here, ("length", "faults"), bound(_faults, here, board))
    if house.saw is not None:
        lengths = each(("stock",), house.stock, "length")
        yield Check(("saw",), ("trim",), bound(_trimmed, house.stock, house.saw), lengths)
    for count, log in enumerate(house.logs):
        here = ("log", count)
        yield Check(here, ("diameter", "thick_end", "thickness"), bound(_log, here, log))


def _faults(here: Key, board: Stock) -> Iterator[Contradiction]:
    for number, (first, last) in enumerate(board.faults, 1):
        if not -NEAR <= first < last <= board.length + NEAR:
            yield clash(
                here,
                "faults",
                f"number {number}: {metres(first)} to {metres(last)}",
                f"must run from its nearer to its farther end within the board of {metres(board.length)}.",
                "Measure both ends from the marked end of the board.",
            )
    if len(board.faults) > 1 and board.faults != tuple(sorted(board.faults)):
        yield clash(
            here,
            "faults",
            f"{len(board.faults)} faults",
            "do not stand in order from the marked end.",
            "Write the nearest first.",
        )


def _trimmed(boards: tuple[Stock, ...], saw: Saw) -> Iterator[Contradiction]:
    for count, board in enumerate(boards):
        if 2.0 * saw.trim >= board.length:
            yield clash(
                ("stock", count),
                "length",
                metres(board.length),
                f"leaves nothing once {metres(saw.trim)} are cut off each end (saw.trim).",
                "Write a smaller trim, or take the board out of the list.",
            )


def _log(here: Key, log: Log) -> Iterator[Contradiction]:
    if log.thick_end is not None and log.thick_end < log.diameter - NEAR:
        yield clash(
            here,
            "thick_end",
            metres(log.thick_end),
            f"is thinner than the thin end, {metres(log.diameter)}.",
            "Swap the two.",
        )
    if log.thickness >= log.diameter - NEAR:
        yield clash(
            here,
            "thickness",
            metres(log.thickness),
            f"gives no board out of a log of {metres(log.diameter)}.",
            "Write the thickness of one board.",
        )
