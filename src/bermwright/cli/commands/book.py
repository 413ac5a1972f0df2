"""`bermwright book`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.house(parser)
    options.out(parser, "the book (default: beside the house file, ending in -book.pdf)")
    options.date(parser)
    options.paper(parser)
    options.units(parser)
    parser.add_argument(
        "--with",
        dest="also",
        action="append",
        choices=("shape", "winter", "mend", "plans"),
        default=[],
        help="a chapter that takes work of its own: shape, the curve that the ground allows; winter, the "
        "year by the hour; mend, what would make it hold; plans, the house from above, along and from "
        "both ends",
    )
    parser.add_argument("--no-templates", action="store_true", help="leave out the full-size templates")


def run(args: argparse.Namespace) -> int:
    """Make the book, say how much paper it is, write it."""
    from bermwright.app.booking import Wishes, make_book

    wishes = Wishes(
        out=args.out,
        date=args.date,
        paper=args.paper,
        system=args.units,
        templates=not args.no_templates,
        also=tuple(dict.fromkeys(args.also)),
    )
    with Progress() as progress:
        made = make_book(args.file, wishes, progress)
    say(f"{made.pages} pages, {made.template_sheets} of them full-size templates on {made.paper}.")
    if not made.holds:
        say("Not everything in it holds or is known: read its first pages before anything is dug or built.")
    say(f"Wrote {made.write()}. Calculation aid, not reviewed.")
    return 0
