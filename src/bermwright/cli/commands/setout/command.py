"""`bermwright setout`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.house(parser)
    parser.add_argument("--vault", metavar="NAME", help="only this vault or dome")
    parser.add_argument(
        "--points", metavar="POINTS", help="surveyed points (CSV or GeoJSON) instead of those of the file"
    )
    parser.add_argument("--middle", metavar="NAME", help="the point of the survey that is the house's middle")
    parser.add_argument("--levels", metavar="READINGS", help="readings of a water level (CSV), to be reduced")
    parser.add_argument("--datum", metavar="NAME", help="the point of the readings whose height is 0")
    parser.add_argument(
        "--ordinates", metavar="TABLE", help="ordinates measured on the inside of a rib (CSV), to be compared"
    )
    options.out(parser, "the sheets, one a day and one a tool; ends in .pdf, .svg or .dxf")
    options.date(parser)
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Print every number, write the sheets where that is asked for."""
    from bermwright.app.making.settingout import SetOutWishes, set_out_file
    from bermwright.formats.documents import text
    from bermwright.formats.setout import setout_data

    wishes = SetOutWishes(
        out=args.out, date=args.date, system=args.units, vault=args.vault, points=args.points,
        middle=args.middle, levels=args.levels, datum=args.datum, ordinates=args.ordinates,
    )  # fmt: skip
    with Progress() as progress:
        made = set_out_file(args.file, wishes, progress)
        paths = made.write()
    if args.json:
        say_json(
            setout_data(
                made.house,
                made.outs,
                levels=made.levels,
                measured=made.measured,
                between=made.between,
                rounds=made.rounds,
            )
        )
        return 0
    say(text(made.document))
    if paths:
        say(f"{made.counted}, each marked as not reviewed.")
    for path in paths:
        say(f"Wrote {path}.")
    return 0
