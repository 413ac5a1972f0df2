"""`bermwright lesson`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import Progress, say, say_json

if TYPE_CHECKING:
    import argparse


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("name", metavar="NAME", nargs="?", help="the lesson; without it, all are listed")
    parser.add_argument("--reveal", action="store_true", help="run both houses and show the answer")
    options.as_json(parser)
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """List the lessons, tell one, or reveal it; 0 when that could be done."""
    from bermwright.app.lessons import all_lessons, lesson_named, reveal
    from bermwright.formats.lessons import lesson_data, lesson_text, lessons_data, lessons_text

    if args.name is None:
        lessons = all_lessons()
        if args.json:
            say_json(lessons_data(lessons))
        else:
            say(lessons_text(lessons))
        return 0
    lesson, found = lesson_named(args.name), None
    if args.reveal:
        with Progress() as progress:
            found = reveal(lesson, progress).found
    if args.json:
        say_json(lesson_data(lesson, found, args.units))
    else:
        say(lesson_text(lesson, found, args.units))
    return 0
