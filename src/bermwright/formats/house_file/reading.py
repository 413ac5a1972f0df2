"""TOML text to a House: every mistake is collected, none stops the reading of the rest."""

from __future__ import annotations

import tomllib
from dataclasses import MISSING, dataclass, field, fields, replace
from typing import TYPE_CHECKING, Any

from bermwright.base.errors import HouseFileError, Mistake, QuantityError
from bermwright.formats.house_file.scan import lines_of
from bermwright.formats.house_file.syntax import syntax_error
from bermwright.formats.house_file.unknown import unknown_key
from bermwright.formats.house_file.values import value_of
from bermwright.formats.house_file.writing import as_toml
from bermwright.house import Assumption, House, contradictions, questions
from bermwright.house.fields import Said, Table, Tables, said_of
from bermwright.house.model import FORMAT, NOT_READ_YET, ONLY_KEPT

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.base.findings import Question
    from bermwright.house.checks import Key

_DEEPEST = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A house file that has been read: the house, what it leaves open, and the text itself."""

    house: House
    questions: tuple[Question, ...]
    not_read: tuple[str, ...]
    """Tables that are planned, or kept, and that change nothing yet."""
    document: str
    """The text, for saving with its comments and its order."""


def read(text: str, name: str) -> Opened:
    """Read a house file's text; `name` is what messages call it.

    Raises `HouseFileError` with everything that is wrong at once.
    """
    text = text.removeprefix("\ufeff")
    document = _parsed(text, name)
    _refuse_newer(document, name, text)
    reading = _Reading()
    house: House = reading.table(House, document, ())
    reading.contradict(house)
    if reading.mistakes:
        raise HouseFileError(name, _sorted(reading.mistakes, lines_of(text), document))
    house = replace(house, assumptions=tuple(reading.assumptions))
    not_read = *reading.not_read, *(key for key in ONLY_KEPT if key in document)
    return Opened(house=house, questions=questions(house), not_read=not_read, document=text)


def parsed(text: str, name: str) -> dict[str, Any]:
    """The plain tables of a house file's text, for `tried`."""
    return _parsed(text.removeprefix("\ufeff"), name)


@dataclass(frozen=True, slots=True)
class _Known:
    """A table that was read without a mistake, and what was assumed in it."""

    raw: object
    table: object
    assumptions: tuple[Assumption, ...]
    not_read: tuple[str, ...]


@dataclass(slots=True)
class Trials:
    """A document that is tried with other values again and again: what does not change is read once."""

    document: Mapping[str, Any]
    known: dict[tuple[int, type], _Known] = field(default_factory=dict)

    def house(self, changes: Mapping[Key, Any], name: str = "") -> House:
        """The house with these values; raises `HouseFileError` as `tried` does."""
        if not self.known:
            _Reading(known=self.known, keeps=True).table(House, self.document, ())
        return _tried(self.document, changes, name, self.known)


def tried(document: Mapping[str, Any], changes: Mapping[Key, Any], name: str) -> House:
    """The house with other values than its text has, quicker than writing and reading the text.

    Raises `HouseFileError` with everything that would be wrong, its lines not known.
    """
    return _tried(document, changes, name, None)


def _tried(
    document: Mapping[str, Any],
    changes: Mapping[Key, Any],
    name: str,
    known: dict[tuple[int, type], _Known] | None,
) -> House:
    whole: dict[str, Any] = dict(document)
    for key, value in changes.items():
        whole = _with(whole, key, value)
    reading = _Reading(known=known)
    house: House = reading.table(House, whole, ())
    reading.contradict(house)
    if reading.mistakes:
        raise HouseFileError(name, _sorted(reading.mistakes, {}, whole))
    return replace(house, assumptions=tuple(reading.assumptions))


def _with(table: Any, key: Key, value: object) -> Any:  # noqa: ANN401  (plain tables and lists)
    """A copy with one value set or, with None, taken out; the rest is shared."""
    first, *rest = key
    many = isinstance(table, list)
    copy: Any = list(table) if many else dict(table)
    if rest:
        inner = copy[first] if many else copy.get(first, {})
        copy[first] = _with(inner, tuple(rest), value)
    elif value is None and not many:
        copy.pop(first, None)
    else:
        copy[first] = value
    return copy


def _parsed(text: str, name: str) -> dict[str, Any]:
    if not text.strip():
        raise _alone(
            name, "The file is empty.", "`bermwright new` writes a starter file with everything explained."
        )
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise syntax_error(text, name, error) from None
    except RecursionError:
        raise _too_deep(name) from None
    if _depth(document) > _DEEPEST:
        raise _too_deep(name)
    return document


def _alone(
    name: str, allowed: str, advice: str, *, place: str = "the file", line: int | None = None
) -> HouseFileError:
    return HouseFileError(name, (Mistake(place=place, line=line, given="", allowed=allowed, advice=advice),))


def _too_deep(name: str) -> HouseFileError:
    return _alone(
        name,
        "Lists or tables lie too deep within each other.",
        f"A house file needs at most {_DEEPEST} levels.",
    )


def _depth(document: dict[str, Any]) -> int:
    """How deep tables and lists lie within each other, without recursion."""
    level: list[Any] = [document]
    depth = 0
    while level and depth <= _DEEPEST:
        inner = [value.values() if isinstance(value, dict) else value for value in level]
        level = [part for parts in inner for part in parts if isinstance(part, dict | list)]
        depth += 1
    return depth


def _refuse_newer(document: Mapping[str, Any], name: str, text: str) -> None:
    given = document.get("format", FORMAT)
    if isinstance(given, int) and not isinstance(given, bool) and given > FORMAT:
        raise _alone(
            name,
            f"The file has format {given}; this version reads up to format {FORMAT}.",
            "Get a newer version of bermwright.",
            place="format",
            line=_line(("format",), lines_of(text)),
        )


@dataclass
class _Found:
    """A mistake before its line is known."""

    path: Key
    given: str
    allowed: str
    advice: str


@dataclass
class _Reading:
    """What has been gathered so far."""

    mistakes: list[_Found] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)
    not_read: list[str] = field(default_factory=list)
    known: dict[tuple[int, type], _Known] | None = None
    """Tables that were read before, by the object that holds them; None where nothing is kept."""
    keeps: bool = False
    """Whether more tables are added to them."""

    def table(self, model: type, raw: Mapping[str, Any], path: Key) -> Any:  # noqa: ANN401  (an instance of `model`)
        """One table, from what was read before where that is the same one."""
        if self.known is None or not raw:
            return self._table(model, raw, path)
        kept = self.known.get((id(raw), model))
        if kept is None:
            return self._kept(self.known, model, raw, path) if self.keeps else self._table(model, raw, path)
        self.assumptions += kept.assumptions
        self.not_read += kept.not_read
        return kept.table

    def _kept(
        self, known: dict[tuple[int, type], _Known], model: type, raw: Mapping[str, Any], path: Key
    ) -> object:
        """Read a table, and keep it where nothing in it is wrong."""
        counts = len(self.mistakes), len(self.assumptions), len(self.not_read)
        table = self._table(model, raw, path)
        if len(self.mistakes) == counts[0] and path:
            said, left = tuple(self.assumptions[counts[1] :]), tuple(self.not_read[counts[2] :])
            # The table itself is held too, so that no other can ever get its number.
            known[id(raw), model] = _Known(raw, table, said, left)
        return table

    def _table(self, model: type, raw: Mapping[str, Any], path: Key) -> Any:  # noqa: ANN401  (an instance of `model`)
        """One table; a value with a mistake is held as None, and every check that reads it is left out."""
        said = said_of(model)
        self._unknown(model, raw, path)
        values: dict[str, Any] = {}
        for key, one in said.items():
            if key in raw:
                values[one.attribute] = self._given(one, raw[key], (*path, key))
            else:
                values[one.attribute] = self._missing(model, one, (*path, key))
        return model(**values)

    def _unknown(self, model: type, raw: Mapping[str, Any], path: Key) -> None:
        for key in raw:
            if key in said_of(model):
                continue
            if key in NOT_READ_YET and isinstance(raw[key], dict | list):
                self.not_read.append(".".join((*(str(part) for part in path if isinstance(part, str)), key)))
                continue
            allowed, advice = unknown_key(key, model)
            self.mistakes.append(_Found((*path, key), "", allowed, advice))

    def _missing(self, model: type, said: Said, path: Key) -> object:
        if said.required:
            example = as_example(said)
            self.mistakes.append(_Found(path, "", "is missing.", f"{said.words} {example}"))
            return self.table(said.kind.of, {}, path) if isinstance(said.kind, Table) else None
        if said.source:
            self.assumptions.append(
                Assumption(place=_dotted(path), value=as_toml(said.default, said.kind), source=said.source)
            )
        if isinstance(said.kind, Table) and said.default is None:
            return self._empty(model, said, path)
        return said.default

    def _empty(self, model: type, said: Said, path: Key) -> object:
        """A table that is not there: read as empty where the model has one in any case."""
        one = next(one for one in fields(model) if one.name == said.attribute)
        if one.default_factory is MISSING or not isinstance(said.kind, Table):
            return None
        return self.table(said.kind.of, {}, path)

    def _given(self, said: Said, raw: Any, path: Key) -> object:  # noqa: ANN401  (whatever TOML holds)
        match said.kind:
            case Table(of=model):
                return self._one_table(model, raw, path)
            case Tables(of=model):
                return self._many_tables(model, raw, path)
            case kind:
                try:
                    return value_of(raw, kind)
                except QuantityError as error:
                    self.mistakes.append(_Found(path, _written(raw), str(error), ""))
                    return None

    def _one_table(self, model: type, raw: object, path: Key) -> object:
        if isinstance(raw, dict):
            return self.table(model, raw, path)
        head = _dotted(path)
        if isinstance(raw, list):
            advice = f"There is only one: write [{head}] with single brackets."
        else:
            advice = f"Write [{head}] on a line of its own, its values below."
        self.mistakes.append(_Found(path, "", "is a table.", advice))
        return _blank(model)

    def _many_tables(self, model: type, raw: object, path: Key) -> tuple[object, ...]:
        head = _dotted(path)
        if isinstance(raw, dict):
            self.mistakes.append(
                _Found(path, "", "may stand several times.", f"Write [[{head}]] with double brackets.")
            )
            return ()
        if not isinstance(raw, list) or not all(isinstance(entry, dict) for entry in raw):
            self.mistakes.append(
                _Found(path, _written(raw), "is a list of tables.", f"Write [[{head}]] on a line of its own.")
            )
            return ()
        return tuple(self.table(model, entry, (*path, count)) for count, entry in enumerate(raw))

    def contradict(self, house: House) -> None:
        """Add what does not fit together, leaving out what has a mistake already."""
        doubtful = frozenset(found.path for found in self.mistakes)
        if not (house.vaults or house.domes) and doubtful.isdisjoint({("vault",), ("dome",)}):
            allowed = "is missing: the file describes no vault and no dome."
            self.mistakes.append(_Found(("vault",), "", allowed, "Write a [[vault]] table."))
        for clash in contradictions(house, doubtful):
            self.mistakes.append(_Found(clash.path, clash.given, clash.allowed, clash.advice))


def _blank(model: type) -> object:
    """An empty table in the place of one that cannot be read; nothing looks into it."""
    return model(**{one.attribute: None for one in said_of(model).values() if one.required})


def as_example(said: Said) -> str:
    """How the field is written, as an example."""
    match said.kind:
        case Table() | Tables():
            return ""
        case _:
            return f"Write for example: {said.key} = {_as_written(said)}"


def _as_written(said: Said) -> str:
    plain = said.example
    return plain if plain[:1] == "[" or plain.replace(".", "").isdigit() else f'"{plain}"'


def _dotted(path: Key) -> str:
    return ".".join(str(part) for part in path if isinstance(part, str))


def _written(raw: object) -> str:
    match raw:
        case bool():
            return str(raw).lower()
        case str():
            return f'"{raw}"' if len(raw) <= 40 else f'"{raw[:37]}..."'
        case dict():
            return "a table"
        case list():
            return f"a list of {len(raw)}"
        case _:
            return str(raw)


def _sorted(
    found: list[_Found], lines: Mapping[Key, int], document: Mapping[str, Any]
) -> tuple[Mistake, ...]:
    mistakes = [
        Mistake(
            place=place_of(one.path, document),
            line=_line(one.path, lines),
            given=one.given,
            allowed=one.allowed,
            advice=one.advice,
        )
        for one in found
    ]
    return tuple(sorted(mistakes, key=lambda mistake: mistake.line or 0))


def _line(path: Key, lines: Mapping[Key, int]) -> int | None:
    """The line of the key, or of the table in which it is missing."""
    for size in range(len(path), 0, -1):
        if path[:size] in lines:
            return lines[path[:size]]
    return None


def place_of(path: Key, document: Mapping[str, Any]) -> str:
    """The path as a builder says it: `vault "day room" > mound > left`."""
    words: list[str] = []
    at: Any = document
    for part in path:
        try:
            at = at[part]
        except (KeyError, IndexError, TypeError):
            at = None
        if isinstance(part, int):
            name = at.get("name") if isinstance(at, dict) else None
            words[-1] += f' "{name}"' if isinstance(name, str) and name else f" number {part + 1}"
        else:
            words.append(part)
    return " > ".join(words)
