"""`bermwright open`."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from bermwright.cli.terminal import say

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(
        "file", metavar="FILE", nargs="?", help="the house file (TOML); a start page where it is left out"
    )
    parser.add_argument("--port", type=int, default=0, help="port on this machine (default: any free one)")
    parser.add_argument("--no-browser", action="store_true", help="print the address and open no browser")
    parser.add_argument(
        "--share",
        action="store_true",
        help="let phones in the same network look too, each by a key that opens once",
    )
    parser.add_argument("--share-edit", action="store_true", help="the same, and let them change the house")


def _said(text: str) -> None:
    """A line that is seen at once, also by a program that waits for it."""
    say(text)
    sys.stdout.flush()


def run(args: argparse.Namespace) -> int:
    """Serve the workbench until Ctrl-C."""
    from bermwright.workbench.serving import OpenWishes, serve

    wishes = OpenWishes(
        file=args.file,
        port=args.port,
        browser=not args.no_browser,
        share=args.share,
        share_edit=args.share_edit,
    )
    serve(wishes, _said)
    return 0
