"""`bermwright schema`."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.out(parser, "the schema (default: the terminal)")
    parser.add_argument(
        "--climates", action="store_true", help="list the packaged weather stations instead of the schema"
    )
    options.as_json(parser)


def run(args: argparse.Namespace) -> int:
    """Print or write the JSON Schema of the house file, or list the packaged climates."""
    if args.climates:
        return _climates(as_json=args.json)
    from pathlib import Path

    from bermwright.app.outside.files import output, write_text
    from bermwright.formats.house_file import schema

    text = json.dumps(schema(), indent=2, ensure_ascii=False)
    if args.out:
        say(f"Wrote {write_text(output(args.out, Path(args.out), ('.json',)), text + chr(10))}.")
    else:
        say(text)
    return 0


def _climates(*, as_json: bool) -> int:
    from bermwright.formats.climates_text import climate_rows, climates_text

    if as_json:
        say_json(climate_rows())
    else:
        say(climates_text())
    return 0
