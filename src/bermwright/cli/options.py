"""Options that several commands share."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import argparse


def house(parser: argparse.ArgumentParser) -> None:
    """The house file."""
    parser.add_argument("file", metavar="FILE", help="the house file (TOML)")


def units(parser: argparse.ArgumentParser) -> None:
    """Metric or imperial output."""
    parser.add_argument(
        "--units", choices=("metric", "imperial"), default="metric", help="units of the output"
    )


def as_json(parser: argparse.ArgumentParser) -> None:
    """Machine-readable output."""
    parser.add_argument(
        "--json", action="store_true", help="print JSON (documented in docs/reference/json.md)"
    )


def out(parser: argparse.ArgumentParser, what: str) -> None:
    """Where to write."""
    parser.add_argument("-o", "--out", metavar="FILE", help=f"where to write {what}")


def date(parser: argparse.ArgumentParser) -> None:
    """The day that is printed on every sheet."""
    parser.add_argument(
        "--date",
        metavar="YYYY-MM-DD",
        help="day on the sheets (today); with the same day come the same bytes",
    )


def paper(parser: argparse.ArgumentParser, *, roll: bool = False) -> None:
    """The paper of the full-size templates."""
    choices = ("A4", "A3", "roll") if roll else ("A4", "A3")
    what = " (a roll is 610 mm wide)" if roll else ""
    parser.add_argument(
        "--paper", choices=choices, default="A4", help=f"paper of the full-size templates{what}"
    )


def printer_bar(parser: argparse.ArgumentParser) -> None:
    """What corrects a printer that does not print true."""
    parser.add_argument(
        "--printer-bar",
        metavar="X,Y",
        help="what the 100 mm check of a printed sheet measures, across and up, in millimetres",
    )
