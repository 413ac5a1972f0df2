"""`bermwright schema`."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import say, say_json

if TYPE_CHECKING:
    import argparse
    from pathlib import Path


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.out(parser, "the schema (default: the terminal)")
    parser.add_argument(
        "--climates", action="store_true", help="list the packaged weather stations instead of the schema"
    )
    options.as_json(parser)


def run(args: argparse.Namespace) -> int:
    """Print or write the JSON Schema of the house file, or list the packaged climates."""
    if args.climates and not args.out and not args.json:
        from bermwright.formats.climates_text import climates_text

        say(climates_text())
        return 0
    data = _data(climates=args.climates)
    if args.out:
        say(f"Wrote {_written(args.out, data)}.")
    else:
        say_json(data)
    return 0


def _data(*, climates: bool) -> object:
    if climates:
        from bermwright.formats.climates_text import climate_rows

        return climate_rows()
    from bermwright.formats.house_file import schema

    return schema()


def _written(out: str, data: object) -> Path:
    from pathlib import Path

    from bermwright.app.outside.files import output, write_text

    text = json.dumps(data, indent=2, ensure_ascii=False)
    return write_text(output(out, Path(out), (".json",)), text + "\n")
