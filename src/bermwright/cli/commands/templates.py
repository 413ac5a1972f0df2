"""`bermwright templates`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.house(parser)
    options.out(parser, "the templates (default: beside the house file, ending in -templates.pdf)")
    options.date(parser)
    options.paper(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Make the templates, say how many sheets they take, write them."""
    from bermwright.app.booking import Wishes, make_templates

    wishes = Wishes(out=args.out, date=args.date, paper=args.paper, system=args.units)
    with Progress() as progress:
        made = make_templates(args.file, wishes, progress)
    say(f"{made.template_sheets} full-size sheets on {made.paper}, {made.pages} pages in all.")
    say(f"Wrote {made.write()}. Print at 100 % and measure the check square. Calculation aid, not reviewed.")
    return 0
