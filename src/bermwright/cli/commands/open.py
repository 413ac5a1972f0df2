"""`bermwright open`."""

from __future__ import annotations

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


def run(args: argparse.Namespace) -> int:
    """Serve the workbench until Ctrl-C."""
    from bermwright.workbench.serving import OpenWishes, serve

    serve(OpenWishes(file=args.file, port=args.port, browser=not args.no_browser), say)
    return 0
