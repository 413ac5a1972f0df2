"""The starter file that `bermwright new` writes: an invented house with everything explained."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.errors import QuantityError
from bermwright.formats.house_file.imperial import imperial_example, imperial_points
from bermwright.formats.house_file.writing import as_toml
from bermwright.house import House
from bermwright.house.fields import Number, Said, Table, Tables, Whole, said_of

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping

_INVENTED: Mapping[str, str] = {
    "vault.name": "day room",
    "vault.curve": "under cover",
    "vault.span": "4.8 m",
    "vault.rise": "2.2 m",
    "vault.length": "7.5 m",
    "vault.springing": "0.9 m",
    "vault.structure": "segment ribs",
    "vault.board": "32 x 195 mm",
    "vault.layers": "4",
    "vault.spacing": "0.6 m",
    "vault.timber": "C18",
    "vault.feet.on": "wall",
    "vault.feet.hold": "pinned",
    "vault.cover.kind": "lagging",
    "vault.cover.thickness": "50 mm",
    "vault.mound.crown": "0.35 m",
    "vault.mound.left": "1:2.5",
    "vault.mound.right": "1:2.5",
}
"""The design to begin with. Nothing of what has to be measured on the place is in it."""

_HEAD = """# A house file of bermwright: one text that describes the whole house.
#
# Lines that begin with # are remarks. Every quantity stands in quotes with its unit:
#   "4.8 m", "15 ft 9 in", "18 kN/m3", "2.5 kN/m2", "52 psf"
# A value that is only known roughly is a range, "30..34 deg"; both ends are checked.
# A slope "1:2.5" is 1 up in 2.5 along.
# Left and right are as seen when walking in. Levels count from the finished floor.
#
# What is marked "invented" is there to start with: replace it by your own.
# What you do not know stays a remark. It is then asked, and nothing is assumed in silence.
"""
_WIDTH = 98


def starter(
    name: str = "My house",
    given: Mapping[str, str] | None = None,
    open_places: Collection[str] = (),
    *,
    system: str = "metric",
) -> str:
    """The commented starter file.

    `given` are answers by their path ("site.latitude": "62.9 deg"); they replace what is invented.
    `open_places` were asked and are not known: nothing is invented for them, and a table that cannot do
    without one of them stays a remark as a whole. `system` is that of everything invented and of examples;
    what would be assumed stands as it is assumed.
    """
    answers = {"house.name": name, **(given or {})}
    _refuse_unknown(answers)
    invented = {place: text for place, text in _INVENTED.items() if place not in open_places}
    lines = [
        _HEAD,
        "format = 1",
        *_tables(House, "", _Known(answers, invented, frozenset(open_places), system)),
    ]
    return "\n".join(lines) + "\n"


@dataclass(frozen=True, slots=True)
class _Known:
    """What is written into a starter file."""

    answers: Mapping[str, str]
    invented: Mapping[str, str]
    open_places: frozenset[str]
    system: str

    def example(self, said: Said, text: str) -> str:
        """An example as it is written, in feet and pounds where they are wanted."""
        if self.system == "imperial":
            points = text.startswith("[")
            text = imperial_points(text) if points else imperial_example(text, said.kind)
        return _written(said, text)

    def has(self, path: str) -> bool:
        """Whether something of a table was answered."""
        return any(key.startswith(f"{path}.") for key in self.answers)

    def lacks(self, path: str) -> bool:
        """Whether a table cannot stand because of what is not known."""
        return any(place.rpartition(".")[0] == path and place in _INVENTED for place in self.open_places)


def _refuse_unknown(answers: Mapping[str, str]) -> None:
    for path, text in answers.items():
        model: type = House
        *way, last = path.split(".")
        for key in way:
            kind = said_of(model)[key].kind if key in said_of(model) else None
            if not isinstance(kind, Table | Tables):
                raise QuantityError(f"{path} is no place in a house file.")
            model = kind.of
        if last not in said_of(model):
            raise QuantityError(f"{path} is no place in a house file.")
        if any(sign in text for sign in '"\\\n') and not text.startswith("["):
            raise QuantityError(
                f'{path}: a text in a house file has no " or \\ in it and stands on one line.'
            )


_OPTIONAL = frozenset(
    {"site.horizon", "stages.ballast", "stages.prop", "stages.tie", "prices", "crew", "setting_out"}
)
"""Tables that stand in the starter as remarks only, besides those for which nothing is invented."""


def _tables(model: type, path: str, known: _Known, *, off: bool = False) -> Iterator[str]:
    """Every table with its keys; as remarks where the house does not have to have it, or it cannot begin."""
    for key, said in said_of(model).items():
        if not isinstance(said.kind, Table | Tables):
            continue
        inner = f"{path}.{key}".lstrip(".")
        remark = off or known.lacks(inner) or not (known.has(inner) or _begins(said, inner))
        brackets = f"[[{inner}]]" if isinstance(said.kind, Tables) else f"[{inner}]"
        yield ""
        yield from _remark(said.words if not said.ask else f"{said.words} {said.ask.why}")
        yield f"# {brackets}" if remark else brackets
        yield from _keys(said.kind.of, inner, known, off=remark)
        yield from _tables(said.kind.of, inner, known, off=remark)


def _begins(said: Said, path: str) -> bool:
    """Whether a table may stand there with nothing but what is invented."""
    if path in _OPTIONAL or not isinstance(said.kind, Table | Tables):
        return False
    needed = [key for key, one in said_of(said.kind.of).items() if one.required]
    if isinstance(said.kind, Tables) and not needed:
        return False
    return all(f"{path}.{key}" in _INVENTED or f"{path}.{key}" == "house.name" for key in needed)


def _keys(model: type, path: str, known: _Known, *, off: bool) -> Iterator[str]:
    sign = "# " if off else ""
    for key, said in said_of(model).items():
        if isinstance(said.kind, Table | Tables):
            continue
        here = f"{path}.{key}"
        yield from _explained(said)
        if here in known.answers:
            yield f"{sign}{key} = {_written(said, known.answers[here])}"
        elif here in known.invented:
            yield f"{sign}{key} = {known.example(said, known.invented[here])}  # invented"
        elif here in known.open_places:
            yield f"# {key} is not known yet. Such as: {key} = {known.example(said, said.example)}"
        else:
            # A sourced default stands there as it is assumed; anything else is only an example.
            example = as_toml(said.default, said.kind) if said.source else known.example(said, said.example)
            yield f"# {key} = {example}"


def _explained(said: Said) -> Iterator[str]:
    yield ""
    yield from _remark(said.words)
    if said.ask:
        yield from _remark(f"Not known? {said.ask.why} Cheapest way: {said.ask.cheapest_way}")
    elif said.source:
        yield from _remark(f"Left out: as below, because {said.source}.")
    elif said.missing:
        yield from _remark(f"Left out: {said.missing}.")


def _remark(text: str) -> Iterator[str]:
    yield from textwrap.wrap(text, _WIDTH, initial_indent="# ", subsequent_indent="#   ")


def _written(said: Said, text: str) -> str:
    if isinstance(said.kind, Whole | Number) or text.startswith("["):
        return text
    return f'"{text}"'
