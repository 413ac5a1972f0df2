"""`bermwright schema`."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from bermwright.cli import options

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.out(parser, "the schema (default: the terminal)")


def run(args: argparse.Namespace) -> int:
    """Print or write the JSON Schema of the house file."""
    from bermwright.app.files import write_text
    from bermwright.formats.house_file import schema

    text = json.dumps(schema(), indent=2, ensure_ascii=False) + "\n"
    if args.out:
        write_text(args.out, text)
    else:
        print(text, end="")
    return 0
