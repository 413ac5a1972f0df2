"""`bermwright evidence`."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from bermwright.cli import options

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    options.as_json(parser)
    parser.add_argument("--work", metavar="KEY", help="only the values of one work, such as EN1995")


def run(args: argparse.Namespace) -> int:
    """Compute every published value and say whether it agrees."""
    from bermwright.app.evidence import evidence_data, evidence_text

    rows = evidence_data(args.work)
    if args.json:
        print(json.dumps(rows, indent=2, ensure_ascii=False))
    else:
        print(evidence_text(rows))
    return 0 if all(row["agrees"] for row in rows) else 1
