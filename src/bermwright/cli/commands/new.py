"""`bermwright new`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli.terminal import say

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(
        "file", metavar="FILE", nargs="?", default="house.toml", help="file to write (house.toml)"
    )
    parser.add_argument("--name", default="My house", help="name of the house")


def run(args: argparse.Namespace) -> int:
    """Write a starter file; never over one that is there."""
    from bermwright.app.outside.files import write_new
    from bermwright.formats.house_file import starter

    path = write_new(args.file, starter(args.name))
    say(f"Wrote {path}. Its values are invented: replace them with yours, then run: bermwright check {path}")
    return 0
