"""`bermwright check`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.house(parser)
    options.as_json(parser)
    options.units(parser)
    parser.add_argument("--accept-tight", action="store_true", help="let through what is tight")
    parser.add_argument("--no-stop-marks", action="store_true", help="leave out the stop marks (quicker)")


def run(args: argparse.Namespace) -> int:
    """Print what was found, worst first; 0 when all of it holds or does not apply."""
    from bermwright.app.assessing import assess_file, holds
    from bermwright.formats.assessment_json import assessment_data
    from bermwright.formats.assessment_text import assessment_text

    with Progress() as progress:
        found = assess_file(args.file, stop_marks=not args.no_stop_marks, progress=progress).assessment
    if args.json:
        say_json(assessment_data(found, args.units))
    else:
        say(assessment_text(found, args.units))
    return 0 if holds(found, accept_tight=args.accept_tight) else 1
