"""`bermwright new`."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from bermwright.cli import options
from bermwright.cli.terminal import complain, say

if TYPE_CHECKING:
    import argparse

    from bermwright.app.asking import Asked

_BEGIN = """A dozen plain questions, and whatever you do not know stays open.
  Enter alone     I do not know: the file then asks it, and nothing is assumed
  Ctrl-D          enough: the file is written with what was answered until then
  Ctrl-C          stop: nothing is written
"""


def add(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(
        "file", metavar="FILE", nargs="?", default="house.toml", help="file to write (house.toml)"
    )
    parser.add_argument("--name", default="My house", help="name of the house")
    parser.add_argument(
        "--ask", action="store_true", help="ask a dozen plain questions first; Enter alone means: not known"
    )
    options.units(parser)


def run(args: argparse.Namespace) -> int:
    """Write a starter file; never over one that is there."""
    from bermwright.app.outside.files import new_file, write_new
    from bermwright.formats.house_file import starter

    if not args.ask:
        path = write_new(args.file, starter(args.name, system=args.units))
        say(f"Wrote {path}. Its values are invented: replace them, then run: bermwright check {path}")
        return 0
    new_file(args.file)
    return _write(args, _asked(args.units))


def _asked(system: str) -> dict[str, str]:
    """The answers, question by question."""
    from bermwright.app.asking import QUESTIONS

    say(_BEGIN)
    answers: dict[str, str] = {}
    for number, question in enumerate(QUESTIONS, 1):
        say(f"{number} of {len(QUESTIONS)}. {question.asks}\n   {question.why}\n   {question.learn}")
        for count, option in enumerate(question.options, 1):
            say(f"   {count:2d}  {option.text}")
        try:
            answer = _answer(question, system)
        except EOFError:
            say("\nEnough. What was not asked stays open.")
            break
        if answer:
            answers[question.name] = answer
    return answers


def _answer(question: Asked, system: str) -> str:
    """What was typed, asked again until it can be read; empty where it is not known."""
    from bermwright.app.asking import AnswerError

    example = question.example if system == "metric" else question.example_imperial
    like = f"1 to {len(question.options)}" if question.options else example
    while True:
        typed = _line(f"   [{like}] ")
        if not typed:
            say("   Left open.")
            return ""
        try:
            question.read(typed)
        except AnswerError as error:
            complain(f"   {error}")
        else:
            return typed


def _line(prompt: str) -> str:
    """One typed line; the prompt goes beside the answer, so that a pipe holds answers only."""
    print(prompt, end="", file=sys.stderr, flush=True)
    line = sys.stdin.readline()
    if not line:
        raise EOFError
    return line.strip()


def _write(args: argparse.Namespace, answers: dict[str, str]) -> int:
    from bermwright.app.asking import filled
    from bermwright.app.outside.files import write_new

    made = filled(args.name, answers, system=args.units)
    path = write_new(args.file, made.text)
    say(f"\nWrote {path}: {len(answers)} answered, {len(made.open)} left open.")
    if made.undrawn:
        names = ", ".join(one.name for one in made.undrawn)
        say(f"The vault stays a remark in it until it has: {names}. Nothing can be checked before.")
    say('What is marked "invented" was not asked: replace it by yours.')
    say(f"Then run: bermwright check {path}")
    return 0
