"""`bermwright count`."""

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


def run(args: argparse.Namespace) -> int:
    """Print every amount with its working."""
    from bermwright.app.counting import count_file
    from bermwright.formats.quantities_json import quantities_data
    from bermwright.formats.quantities_text import quantities_text

    with Progress():
        counted = count_file(args.file)
    if args.json:
        say_json(quantities_data(counted.house, counted.vaults, args.units, domes=counted.domes))
    else:
        say(quantities_text(counted.house, (*counted.vaults, *counted.domes), args.units))
    return 0
