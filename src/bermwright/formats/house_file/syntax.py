"""Text that is no TOML: on which line and column, and the usual cause."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from bermwright.base.errors import HouseFileError, Mistake

if TYPE_CHECKING:
    import tomllib

_PLACE = re.compile(r"\(at line (\d+), column (\d+)\)")
_KEY = r"(?P<key>[\w.-]+)"
_VALUE_WITH_UNIT = r"[+-]?\d[\d.,:/ ]*\s*[^\W\d_%°'\"].*?|[+-]?\d[\d.]*\s*[%°'\":.].*?"
_BARE_UNIT = re.compile(rf"\s*{_KEY}\s*=\s*(?P<value>{_VALUE_WITH_UNIT})\s*(?:#.*)?$")
_BARE_WORD = re.compile(rf"\s*{_KEY}\s*=\s*(?P<value>[A-Za-z][^\"'#]*?)\s*(?:#.*)?$")
_NO_EQUALS = re.compile(r"\s*[\w.-]+\s*:?\s+[\"'\d].*$|\s*[\w.-]+\s*:\s*\S.*$")
_FEET = re.compile(r"=\s*\"[^\"]*\d\s*'[^\"]*\d\s*\"\s*\"?")
_CURLY = re.compile(r"[“”„‘‚«»]")


def syntax_error(text: str, name: str, error: tomllib.TOMLDecodeError) -> HouseFileError:
    """The one mistake that keeps a text from being read."""
    line, column = _place(text, str(error))
    written = text.split("\n")[line - 1].rstrip("\r")
    cause, advice = _cause(text, line, written, str(error))
    mistake = Mistake(
        place=f"column {column}", line=line, given=_shortened(written), allowed=cause, advice=advice
    )
    return HouseFileError(name, (mistake,))


def _place(text: str, message: str) -> tuple[int, int]:
    found = _PLACE.search(message)
    if found:
        return int(found[1]), int(found[2])
    lines = text.rstrip().split("\n")
    return len(lines), len(lines[-1]) + 1


def _shortened(line: str) -> str:
    plain = line.strip()
    return plain if len(plain) <= 60 else plain[:57] + "..."


def _cause(text: str, line: int, written: str, message: str) -> tuple[str, str]:
    if "\r" in written:
        return "The lines end as on machines of long ago, so that all are one.", _LINE_ENDS
    if "at end of document" in message and not _PLACE.search(message):
        return _never_closed(text)
    for twice in ("Cannot overwrite a value", "Cannot declare", "Cannot mutate", "Cannot redefine"):
        if twice in message:
            return _second_time(text, line, written)
    return _of_line(written) or (
        f"This is no TOML: {_plain(message)}.",
        "Compare the line with a starter file.",
    )


def _plain(message: str) -> str:
    return _PLACE.sub("", message).strip().rstrip(".")


def _of_line(written: str) -> tuple[str, str] | None:
    """The cause that the line itself shows."""
    curly = _CURLY.search(written)
    if curly:
        return f"The quote {curly.group()} is a curly one.", 'Use straight quotes: "4.8 m".'
    if _FEET.search(written):
        return "The inch sign ended the text.", _OTHER_FORM
    bare = _BARE_UNIT.match(written)
    if bare:
        quoted = f'{bare["key"]} = "{bare["value"]}"'
        advice = _OTHER_FORM if '"' in bare["value"] else f"Put it in quotes: {quoted}."
        return "A value with a unit stands without quotes.", advice
    word = _BARE_WORD.match(written)
    if word:
        return "A word stands without quotes.", f'Put it in quotes: {word["key"]} = "{word["value"]}".'
    if _NO_EQUALS.match(written):
        return "The sign = is missing between the key and its value.", 'Write it: span = "4.8 m".'
    return next(((cause, advice) for sign, cause, advice in _SIGNS if sign.search(written)), None)


_LINE_ENDS = "Save the file in your editor with line ends of Unix (LF) or Windows (CRLF)."
_OTHER_FORM = """Write "5 ft 3 1/2 in", or three single quotes on each side: '''5' 3 1/2"'''."""
_SIGNS = (
    (
        re.compile(r"^\s*\["),
        "A table's name is not closed, or something follows it.",
        "Write [site], or [[vault]] for one of several.",
    ),
    (
        re.compile(r"^\s*[\w.-]+[ \t]+[\w-][\w. -]*="),
        "A key is one word.",
        "Write it without a blank, with _ between its parts: ground_snow.",
    ),
    (
        re.compile(r"^\s*[\w.-]+\s*$"),
        "A key stands without = and a value.",
        'Write it: span = "4.8 m". Put # before a remark.',
    ),
    (
        re.compile(r"^\s*[\w.-]+\s*=\s*(#.*)?$"),
        "There is no value after the sign =.",
        "Write one, or put # before the line if it is not known.",
    ),
    (
        re.compile(r"=\s*\"[^\"]*\\[^\"]*\"?"),
        "A backslash between double quotes means something else.",
        "Write / instead, or single quotes around the text.",
    ),
    (
        re.compile(r"=\s*(\"[^\"]*|'[^']*)$"),
        "A quote is opened and not closed.",
        'Close it on the same line: "4.8 m".',
    ),
    (
        re.compile(r"=\s*[+-]?(0\d|\.\d|\d+\.(\D|$))"),
        "A number has a digit before its point, one after it, and no zero in front.",
        "Write 0.5 or 5, not .5, 5. or 05.",
    ),
    (
        re.compile(r"=\s*(\[|\{)"),
        "A list or table in a line is not closed, or a comma is missing in it.",
        "Each [ needs its ], each { its } on the same line, and commas stand between.",
    ),
    (
        re.compile(r"=\s*\S+\s+\S"),
        "Something follows the value.",
        "Put it in quotes if it is one text, or # before it if it is a remark.",
    ),
)


def _second_time(text: str, line: int, written: str) -> tuple[str, str]:
    head = re.match(r"\s*\[+\s*([^\]]+?)\s*\]", written)
    if head:
        return (
            f"The table [{head[1]}] stands here a second time.",
            "Join both; where several are meant, as with [[vault]], double brackets stand each time.",
        )
    key = re.match(r"\s*([\w.-]+)\s*=", written)
    if not key:
        return "Something stands here a second time.", "Take one of both out."
    before = [
        count
        for count, earlier in enumerate(text.split("\n")[: line - 1], 1)
        if re.match(rf"\s*{re.escape(key[1])}\s*=", earlier)
    ]
    first = f"; first on line {before[-1]}" if before else ""
    return f"The key {key[1]} stands in this table a second time{first}.", "Keep one of both."


def _never_closed(text: str) -> tuple[str, str]:
    for quotes in ('"""', "'''"):
        if text.count(quotes) % 2:
            line = text[: text.rindex(quotes)].count("\n") + 1
            return (
                f"The text opened with {quotes} on line {line} is never closed.",
                f"Close it with {quotes}.",
            )
    last = text.rstrip().split("\n")[-1]
    return _of_line(last) or (
        "The file ends in the middle of a value: a bracket or a quote is never closed.",
        "Look for a [ or { without its partner above.",
    )
