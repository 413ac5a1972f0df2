"""`bermwright compass`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.house(parser)
    parser.add_argument("--dome", metavar="NAME", help="only this dome (default: every dome)")
    parser.add_argument(
        "--measured",
        metavar="CSV",
        help="radii of the last ring (course,direction,radius): judge it and correct the next courses",
    )
    parser.add_argument("--band", action="store_true", help="add the bands for chain and pole, full size")
    options.printer_bar(parser)
    options.out(parser, "it; ends in .pdf, .svg or .dxf")
    options.date(parser)
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Print the tables; 1 when a ring that was measured is flat or cannot be led back."""
    from bermwright.app.formwork.compassing import CompassWishes, compass_file
    from bermwright.formats.documents import text
    from bermwright.formats.making import compass_data

    wishes = CompassWishes(
        dome=args.dome, measured=args.measured, band=args.band,
        printer_bar=args.printer_bar, out=args.out, date=args.date, system=args.units,
    )  # fmt: skip
    with Progress() as progress:
        made = compass_file(args.file, wishes, progress)
        paths = made.write()
    if args.json:
        say_json(compass_data(made.house, made.forms, made.corrections))
    else:
        say(text(made.document))
        for path in paths:
            say(f"Wrote {path}. Print bands at 100 % and measure the bar. Calculation aid, not reviewed.")
    return 0 if made.goes_on else 1
