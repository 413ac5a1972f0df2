"""On which line each key of a TOML text stands.

Written for text that `tomllib` has already accepted: it finds places and judges nothing.
"""

from __future__ import annotations

import re

Key = tuple[str | int, ...]

_SPACE = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_BLANK = re.compile(r"[ \t]*")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_BASIC = re.compile(r'"((?:[^"\\]|\\.)*)"')
_LITERAL = re.compile(r"'([^']*)'")
_LONG_BASIC = re.compile(r'"""(?:[^\\]|\\.)*?"{3,5}', re.DOTALL)
_LONG_LITERAL = re.compile(r"'''.*?'{3,5}", re.DOTALL)
_PLAIN = re.compile(r"[^,\]}#\n\r]+")


def lines_of(text: str) -> dict[Key, int]:
    r"""The line (from 1) of every table, key and array entry, by its keys; entries count from 0.

    >>> lines_of("a = 1\n[[b]]\nc = [2,\n3]")[("b", 0, "c", 1)]
    4
    """
    return _Scanner(text).run()


class _Scanner:
    """Walks the text once from start to end."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.lines: dict[Key, int] = {}
        self.counts: dict[Key, int] = {}
        self.line = 1
        self.counted = 0

    def run(self) -> dict[Key, int]:
        here: Key = ()
        self._skip(_SPACE)
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                here = self._header()
            else:
                self._pair(here)
            self._skip(_SPACE)
        return self.lines

    def _skip(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        found = pattern.match(self.text, self.at)
        if found:
            self.at = found.end()
        return found

    def _mark(self, key: Key) -> None:
        self.line += self.text.count("\n", self.counted, self.at)
        self.counted = self.at
        self.lines.setdefault(key, self.line)

    def _header(self) -> Key:
        many = self.text.startswith("[[", self.at)
        start = self.at
        self.at += 2 if many else 1
        names = self._names()
        self.at += 2 if many else 1
        end, self.at = self.at, start
        here = self._resolved(names, many=many)
        self._mark_path(here)
        self.at = end
        return here

    def _resolved(self, names: list[str], *, many: bool) -> Key:
        """The keys with the number of the entry that is open, for each array of tables on the way."""
        here: Key = ()
        for place, name in enumerate(names):
            here = (*here, name)
            if many and place == len(names) - 1:
                self.counts[here] = self.counts.get(here, -1) + 1
            if here in self.counts:
                here = (*here, self.counts[here])
        return here

    def _mark_path(self, here: Key) -> None:
        for size in range(1, len(here) + 1):
            self._mark(here[:size])

    def _names(self) -> list[str]:
        names = []
        while True:
            self._skip(_BLANK)
            names.append(self._name())
            self._skip(_BLANK)
            if self.text[self.at : self.at + 1] != ".":
                return names
            self.at += 1

    def _name(self) -> str:
        bare = self._skip(_BARE)
        if bare:
            return bare.group()
        literal = self._skip(_LITERAL)
        if literal:
            return literal[1]
        basic = self._skip(_BASIC)
        return _unescaped(basic[1]) if basic else ""

    def _pair(self, here: Key) -> None:
        start = self.at
        names = self._names()
        end, self.at = self.at, start
        key: Key = here
        for name in names:
            key = (*key, name)
            self._mark(key)
        self.at = end + 1
        self._skip(_BLANK)
        self._value(key)

    def _value(self, key: Key) -> None:
        self._mark(key)
        for pattern in (_LONG_BASIC, _LONG_LITERAL, _BASIC, _LITERAL):
            if self._skip(pattern):
                return
        match self.text[self.at : self.at + 1]:
            case "[":
                self._entries(key)
            case "{":
                self._inline(key)
            case _:
                # The step on keeps a text that is no TOML after all from standing still for ever.
                self.at = self.at if self._skip(_PLAIN) else self.at + 1

    def _entries(self, key: Key) -> None:
        self.at += 1
        self._skip(_SPACE)
        count = 0
        while self.at < len(self.text) and self.text[self.at] != "]":
            self._value((*key, count))
            count += 1
            self._after_entry()
        self.at += 1

    def _inline(self, key: Key) -> None:
        self.at += 1
        self._skip(_SPACE)
        while self.at < len(self.text) and self.text[self.at] != "}":
            self._pair(key)
            self._after_entry()
        self.at += 1

    def _after_entry(self) -> None:
        self._skip(_SPACE)
        if self.text[self.at : self.at + 1] == ",":
            self.at += 1
        self._skip(_SPACE)


def _unescaped(text: str) -> str:
    import tomllib

    return str(tomllib.loads(f'key = "{text}"')["key"]) if "\\" in text else text
