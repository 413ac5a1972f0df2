"""`bermwright cut`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.house(parser)
    options.out(parser, "it; ends in .pdf, .svg, .dxf, .csv or .xlsx (default: only the terminal)")
    parser.add_argument("--no-labels", action="store_true", help="leave the sheets of labels out of a PDF")
    options.date(parser)
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Print the cut list; 0 when every piece has its board. Stopped early, nothing is kept or written."""
    from bermwright.app.cutting import CutWishes, cut_file
    from bermwright.formats.documents import text

    wishes = CutWishes(out=args.out, date=args.date, system=args.units, labels=not args.no_labels)
    with Progress() as progress:
        cut = cut_file(args.file, wishes, progress)
        progress("writing")
        written = cut.write()
    if args.json:
        say_json(cut.data)
    else:
        say(text(cut.document))
        for path in written:
            say(f"Wrote {path}. Calculation aid, not reviewed.")
    return 0 if cut.plan.complete else 1
