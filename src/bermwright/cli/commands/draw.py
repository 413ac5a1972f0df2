"""`bermwright draw`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.house(parser)
    parser.add_argument(
        "--what",
        choices=(
            "section",
            "ribs",
            "stages",
            "supports",
            "openings",
            "set",
            "site",
            "plan",
            "elevations",
            "details",
        ),
        default="section",
        help="which drawing (section); set is all of a drawing set, with the list of its sheets",
    )
    options.out(parser, "it; ends in .pdf, .svg or .dxf (default: a PDF beside the house file)")
    options.date(parser)
    options.as_json(parser)
    options.units(parser)
    parser.add_argument(
        "--full-size", action="store_true", help="a DXF of the section at 1:1 for other programs"
    )


def run(args: argparse.Namespace) -> int:
    """Make the drawing and write it."""
    from bermwright.app.drawing import Order, draw_file
    from bermwright.formats.making import written_data

    order = Order(what=args.what, out=args.out, date=args.date, system=args.units, full_size=args.full_size)
    with Progress() as progress:
        drawn = draw_file(args.file, order, progress)
    paths = drawn.write()
    if args.json:
        say_json(written_data(drawn.house, paths, drawn.data))
        return 0
    say(f"{drawn.sheets} sheet{'' if drawn.sheets == 1 else 's'}, each marked as not reviewed.")
    for path in paths:
        say(f"Wrote {path}.")
    return 0
