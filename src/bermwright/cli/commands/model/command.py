"""`bermwright model`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.house(parser)
    options.out(
        parser,
        "it; the ending says what it is: .glb (3D), .ifc (building model), .stl (to print), .geojson (site), "
        ".csv or .xlsx (quantities); default: a .glb beside the house file",
    )
    parser.add_argument("--scale", type=float, default=20.0, metavar="N", help="an .stl at 1:N (20)")
    parser.add_argument(
        "--metres", action="store_true", help="a .geojson in metres round the house instead of degrees"
    )
    options.date(parser)
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Make the model, say what is in it and what is not, write it."""
    from bermwright.app.modelling import ModelOrder, model_file
    from bermwright.formats.making import written_data

    order = ModelOrder(out=args.out, date=args.date, system=args.units, scale=args.scale, metres=args.metres)
    with Progress() as progress:
        made = model_file(args.file, order, progress)
    written = made.write()
    if args.json:
        data = made.data
        say_json(written_data(data["house"], (written,), data))
        return 0
    for line in made.says:
        say(line)
    say(f"Wrote {written}. Calculation aid, not reviewed.")
    return 0
