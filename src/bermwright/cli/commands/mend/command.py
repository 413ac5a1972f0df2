"""`bermwright mend`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


CODES = (
    "Exit codes: 0 a change was found for all that was looked at, or it holds already; 1 for some of it none "
    "was found, or it is not known. Without --all only one finding is looked at: the others are listed "
    "and do not count."
)


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.epilog = CODES
    options.house(parser)
    parser.add_argument(
        "--finding",
        metavar="NAME",
        help="the finding by its rule's name (default: the first that fails in the order of building)",
    )
    parser.add_argument("--part", metavar="WORDS", help="only parts whose name holds these words")
    parser.add_argument("--all", action="store_true", help="every finding that does not hold (takes long)")
    parser.add_argument("--accept-tight", action="store_true", help="let what is tight count as holding")
    parser.add_argument("--apply", metavar="N", type=int, help="put proposal N into a copy of the file")
    options.out(parser, "the copy (default: beside the house file, ending in -mended.toml)")
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Print what would make it hold; 0 when everything that was looked at can be mended."""
    from bermwright.app.mending import MendWishes, mend_file
    from bermwright.formats.mends import mends_data, mends_text

    wishes = MendWishes(
        finding=args.finding,
        part=args.part,
        every=args.all,
        accept_tight=args.accept_tight,
        apply=args.apply,
        out=args.out,
    )
    with Progress() as progress:
        mended = mend_file(args.file, wishes, progress)
        path = mended.write()
    house = mended.opened.house.name
    if args.json:
        say_json(mends_data(house, mended.mends, mended.waiting, args.units))
    else:
        say(mends_text(house, mended.mends, mended.waiting, args.units))
        if path is not None:
            say(f"Wrote {path}: a copy with the change. Check it whole: bermwright check {path}")
    return 0 if mended.holds else 1
