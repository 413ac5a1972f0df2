"""`bermwright explain`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(
        "name",
        metavar="NAME",
        nargs="+",
        help="a rule in words, such as ribs-bend or ribs bend; after it a house FILE for its working there",
    )
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Print why a rule is there, what it rests on, and with a file how it comes out."""
    from bermwright.app.explaining import explain
    from bermwright.formats.explanation import explanation_data, explanation_text

    with Progress() as progress:
        found = explain(args.name, progress=progress)
    if args.json:
        say_json(explanation_data(found, args.units))
    else:
        say(explanation_text(found, args.units))
    return 0
