"""`bermwright templates`."""

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
        choices=("pieces", "curve"),
        help="the pieces of the ribs (usual), or the whole curve for forms and end walls",
    )
    options.out(
        parser,
        "the templates; .pdf is cut into sheets, .svg and .dxf are uncut at 1:1 (default: beside the house "
        "file, ending in -templates.pdf)",
    )
    options.date(parser)
    options.paper(parser, roll=True)
    options.printer_bar(parser)
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Say how many sheets the templates take and what is quicker, then make and write them."""
    from bermwright.app.making.templating import (
        TemplateWishes,
        make_templates,
        plan_templates,
        templates_data,
    )
    from bermwright.data.setting_out import LARGE_CURVE
    from bermwright.formats.making import written_data

    wishes = TemplateWishes(
        what=args.what, out=args.out, date=args.date, paper=args.paper, printer_bar=args.printer_bar,
        system=args.units,
    )  # fmt: skip
    with Progress() as progress:
        planned = plan_templates(args.file, wishes)
        if planned.tiled and not args.json:
            say(f"{planned.sheets} full-size sheets on {args.paper}.")
        if planned.tiled and planned.sheets > LARGE_CURVE.value and not args.json:
            say(f"Quicker for so large a curve: ordinates and a string, `bermwright setout {args.file}`.")
        made = make_templates(planned, progress)
    paths = made.write()
    if args.json:
        say_json(written_data(planned.opened.house.name, paths, templates_data(planned, made)))
        return 0
    for path in paths:
        say(f"Wrote {path}.")
    if planned.tiled:
        say(
            f"{made.pages} pages. Print at 100 % and measure the check square. Calculation aid, not reviewed."
        )
    else:
        say("Full size, 1:1, in millimetres. Calculation aid, not reviewed.")
    return 0
