"""`bermwright COMMAND …`: finds the command, prints mistakes without a traceback, returns an exit code."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from contextlib import suppress
from importlib import import_module
from typing import TYPE_CHECKING

from bermwright import __version__
from bermwright.base.errors import BermwrightError, HouseFileError
from bermwright.cli.terminal import complain, say_json

if TYPE_CHECKING:
    from collections.abc import Sequence

SELDOM = 100_000, 20, 100
"""How often garbage is looked for: a command keeps nearly all it makes, and a house has many small parts."""
BAD_INPUT, OWN_FAULT = 2, 3
"""Exit codes besides 0 and 1, which are the command's own."""
STOPPED, READER_LEFT = 130, 141
"""The codes of a shell for Ctrl-C and for a pipe that nobody reads any more."""

COMMANDS = {
    "new": "write a commented starter house file",
    "open": "open the workbench: one living drawing of the house in the browser",
    "check": "say what holds, what does not and what is not known",
    "sketch": "find the curve in a sketch, a hung chain or an old vault, and what it would bend",
    "explain": "show one rule or finding line by line, with its sources",
    "shape": "compare every curve under this ground, and say which to take and how to fill it",
    "mend": "find the smallest changes that make a finding hold, and put one into a copy of the file",
    "lesson": "tell a published failure, let you predict what fails, and reveal it beside its remedy",
    "winter": "say how warm it stays the year through, how much wood it takes, and where frost goes",
    "book": "write the site book as PDF",
    "setout": "say how it is pegged, levelled, dug and curved, and write a sheet for each day and tool",
    "templates": "write the full-size rib templates as PDF",
    "compass": "set out a dome course by course: chains, rods, crews, openings, a band for the pole",
    "forms": "draw boxes, arch and climbing forms, membranes and meeting lines unrolled, small and full size",
    "draw": "write drawings or the whole drawing set as PDF, SVG or DXF",
    "model": "write the house for other programs: GLB, IFC, STL, GeoJSON, CSV or XLSX",
    "cut": "lay every piece into the boards of the yard: what is sawn from which, and what is left over",
    "count": "count material, soil, hours and money, with the working",
    "evidence": "compare the handbook with published values",
    "schema": "write the JSON Schema of the house file",
}

EPILOG = (
    "Every answer says what was checked, with which values, and what was not; none says more. Exit codes: "
    "0 everything that is checked holds, 1 something does not or is not known, 2 the input is wrong, "
    "3 bermwright itself went wrong."
)


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    gc.set_threshold(*SELDOM)
    _speak_utf8()
    parser = _parser(arguments)
    args = parser.parse_args(arguments)
    if args.command is None:
        parser.print_help()
        return BAD_INPUT
    try:
        return _run(args)
    except BrokenPipeError:
        _forget_output()
        return READER_LEFT
    except KeyboardInterrupt:
        complain("Stopped. Nothing was written.")
        return STOPPED


def _run(args: argparse.Namespace) -> int:
    """The command's exit code; what a person can put right is said without a traceback."""
    try:
        code: int = import_module(f"bermwright.cli.commands.{args.command}").run(args)
        sys.stdout.flush()
    except BermwrightError as error:
        _refuse(args, error)
        return BAD_INPUT
    except BrokenPipeError:
        raise
    except OSError as error:
        _forget_output()
        complain(f"Something could not be read or written: {error.strerror or error}.")
        return BAD_INPUT
    except Exception as error:
        if os.environ.get("BERMWRIGHT_TRACE"):
            raise
        complain(_own_fault(error))
        return OWN_FAULT
    return code


def _refuse(args: argparse.Namespace, error: BermwrightError) -> None:
    """Say what is wrong: as JSON where JSON was asked for and a house file has mistakes."""
    if isinstance(error, HouseFileError) and getattr(args, "json", False):
        from bermwright.formats.assessment_json import mistakes_data

        say_json(mistakes_data(error))
    else:
        complain(error)


def _forget_output() -> None:
    """Nothing more goes to where the answer went, so that nothing complains at the end."""
    with suppress(OSError):  # a stream that is no file needs nothing
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _parser(arguments: Sequence[str]) -> argparse.ArgumentParser:
    """The parser; only the wanted command's own options are loaded."""
    parser = argparse.ArgumentParser(
        prog="bermwright",
        description="From one plain house file to a site book for earth-sheltered vaults.",
        epilog=EPILOG,
    )
    parser.add_argument("--version", action="version", version=f"bermwright {__version__}")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    wanted = next((word for word in arguments if not word.startswith("-")), None)
    for name, help_text in COMMANDS.items():
        sub = commands.add_parser(
            name, help=help_text, description=help_text[0].upper() + help_text[1:] + "."
        )
        if name == wanted:
            import_module(f"bermwright.cli.commands.{name}").add(sub)
    return parser


def _speak_utf8() -> None:
    """Signs and feet marks must print on every terminal; what it lacks becomes a question mark."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="replace")


def _own_fault(error: Exception) -> str:
    return (
        f"bermwright itself went wrong: {type(error).__name__}: {error}\n"
        "This is a fault of the program, not of your file; nothing was changed. Please report it with the "
        "house file. (Set BERMWRIGHT_TRACE=1 to see where.)"
    )


if __name__ == "__main__":
    sys.exit(main())
