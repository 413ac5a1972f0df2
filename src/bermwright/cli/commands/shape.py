"""`bermwright shape`."""

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
    options.out(parser, "the pages (PDF)")
    options.date(parser)
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Print the table, the recommendation and the order of work; 0 when what is advised holds."""
    from bermwright.app.shaping import ShapeWishes, shape_file
    from bermwright.formats.shape_json import shape_data
    from bermwright.formats.shape_text import shape_text

    wishes = ShapeWishes(vault=args.vault, out=args.out, date=args.date, system=args.units)
    with Progress() as progress:
        shaped = shape_file(args.file, wishes, progress)
        path = shaped.write()
    if args.json:
        say_json(shape_data(shaped.house, shaped.advices, args.units))
    else:
        say(shape_text(shaped.house, shaped.advices, args.units))
        if path is not None:
            say(f"Wrote {path}. Calculation aid, not reviewed.")
    return 0 if shaped.holds else 1
