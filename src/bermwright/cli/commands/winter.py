"""`bermwright winter`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.house(parser)
    parser.add_argument("--vault", metavar="NAME", help="only this vault (default: every vault)")
    parser.add_argument(
        "--weather",
        metavar="FILE",
        help="a year by the hour (EPW, TMY3 or CSV) instead of the file's climate",
    )
    options.out(parser, "the pages (PDF)")
    options.date(parser)
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Print the year in sentences, with the working; 0 when everything holds."""
    from bermwright.app.wintering import WinterWishes, winter_file
    from bermwright.formats.winter_json import winter_data
    from bermwright.formats.winter_text import winter_text

    wishes = WinterWishes(
        vault=args.vault, weather=args.weather, out=args.out, date=args.date, system=args.units
    )
    with Progress() as progress:
        wintered = winter_file(args.file, wishes, progress)
        path = wintered.write()
    if args.json:
        say_json(winter_data(wintered.house, wintered.years, args.units))
    else:
        say(winter_text(wintered.house, wintered.years, args.units))
        if path is not None:
            say(f"Wrote {path}. Calculation aid, not reviewed.")
    return 0 if wintered.holds else 1
