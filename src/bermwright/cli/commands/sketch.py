"""`bermwright sketch`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(
        "sketch",
        metavar="SKETCH",
        help="points of the curve: a table (CSV), a DXF or SVG drawing, or a house file with a drawn vault",
    )
    parser.add_argument("file", metavar="FILE", nargs="?", help="the house file on whose ground")
    parser.add_argument(
        "--known",
        metavar="LENGTH",
        action="append",
        default=[],
        help='a length that is known on the sketch, such as "span 4.8 m", "rise 2.2 m" or "chain 7.2 m"',
    )
    parser.add_argument("--line", metavar="NAME", help="the layer, handle or id of the line that is meant")
    parser.add_argument("--mirror", action="store_true", help="one leg is drawn, the other mirrors it")
    parser.add_argument("--level", action="store_true", help="the picture is tilted: level both ends")
    parser.add_argument("--vault", metavar="NAME", help="the vault of the house that the sketch is for")
    options.out(parser, "the pages (PDF)")
    options.date(parser)
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Say what the sketch is, what it bends and what would mend it; 0 when that could be said."""
    from bermwright.app.sketching import SketchWishes, sketch_file
    from bermwright.formats.documents import text
    from bermwright.formats.sketch_json import sketch_data

    wishes = SketchWishes(
        known=tuple(args.known), line=args.line, mirror=args.mirror, level=args.level, vault=args.vault,
        out=args.out, date=args.date, system=args.units,
    )  # fmt: skip
    with Progress() as progress:
        made = sketch_file(args.sketch, args.file, wishes, progress)
        path = made.write()
    if args.json:
        say_json(sketch_data(made.advice))
    else:
        say(text(made.document))
        if path is not None:
            say(f"The pages: {path}")
    return 0
