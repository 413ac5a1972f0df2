"""`bermwright evidence`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.as_json(parser)
    parser.add_argument("--work", metavar="KEY", help="only the values of one work, such as EN1995")


def run(args: argparse.Namespace) -> int:
    """Compute every published value and say whether it agrees."""
    from bermwright.app.evidence import evidence_data, evidence_text

    with Progress() as progress:
        rows = evidence_data(args.work, progress)
    if args.json:
        say_json(rows)
    else:
        say(evidence_text(rows))
    return 0 if all(row["agrees"] for row in rows) else 1
