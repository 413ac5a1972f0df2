"""`bermwright forms`."""

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
        "--only", metavar="WORDS", help="at full size only patterns whose name or part holds these words"
    )
    parser.add_argument(
        "--full-size", action="store_true", help="add every pattern at full size, in tiles, to the PDF"
    )
    parser.add_argument(
        "--settlement",
        metavar="LENGTH",
        help='how much an end wall of earth tubes still settles, such as "20 mm"; a dome says it in its file',
    )
    options.out(parser, "it; .pdf for pages and tiles, .svg or .dxf for every pattern at 1:1")
    options.date(parser)
    options.paper(parser, roll=True)
    options.printer_bar(parser)
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Print what is cut, with its measures."""
    from bermwright.app.formwork.forming import FormWishes, form_file
    from bermwright.formats.documents import text
    from bermwright.formats.making import forms_data

    wishes = FormWishes(
        only=args.only,
        full_size=args.full_size,
        settlement=args.settlement,
        paper=args.paper,
        printer_bar=args.printer_bar,
        out=args.out,
        date=args.date,
        system=args.units,
    )
    with Progress() as progress:
        made = form_file(args.file, wishes, progress)
        paths = made.write()
    if args.json:
        say_json(forms_data(made.house, made.forms))
    else:
        say(text(made.document))
        for path in paths:
            say(f"Wrote {path}. Print at 100 % and measure the check square. Calculation aid, not reviewed.")
    return 0
