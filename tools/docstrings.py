"""Reads the docstrings of the handbook: which functions are public, and what each says of itself."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from dataclasses import dataclass
from types import FunctionType, ModuleType

SECTION = re.compile(r"^(?P<name>[A-Z][A-Za-z ]+)\n-{3,}\n", re.MULTILINE)
UNIT = re.compile(r"\[(?P<unit>[^\[\]]+)\]")
KEY = re.compile(r"\[(?P<key>[A-Z][\w.-]*)\]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One parameter or result, as its docstring describes it."""

    name: str
    text: str

    @property
    def unit(self) -> str | None:
        """What stands in the first square brackets."""
        found = UNIT.search(self.text)
        return found["unit"] if found else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Described:
    """A public handbook function and its docstring, taken apart."""

    name: str
    """Module and name, as a row of evidence writes it."""
    function: FunctionType
    summary: str
    parameters: tuple[Entry, ...]
    returns: str
    references: str

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of the works that it cites."""
        return tuple(found["key"] for found in KEY.finditer(self.references))


def handbook_packages() -> list[ModuleType]:
    """The handbook and every folder in it."""
    top = importlib.import_module("bermwright.handbook")
    found = pkgutil.walk_packages(top.__path__, f"{top.__name__}.")
    return [top, *(importlib.import_module(info.name) for info in found if info.ispkg)]


def public_functions() -> list[Described]:
    """Every function that a handbook folder re-exports, by its own name."""
    found = {}
    for package in handbook_packages():
        for name in getattr(package, "__all__", ()):
            function = plain(getattr(package, name))
            if isinstance(function, FunctionType):
                found[f"{function.__module__}.{function.__name__}"] = function
    return [described(name, function) for name, function in sorted(found.items())]


def plain(thing: object) -> object:
    """The Python function under a compiled or cached one."""
    return inspect.unwrap(getattr(thing, "py_func", thing))  # type: ignore[arg-type]


def described(name: str, function: FunctionType) -> Described:
    """Take a docstring apart."""
    text = inspect.getdoc(function) or ""
    parts = _sections(text)
    return Described(
        name=name,
        function=function,
        summary=text.partition("\n")[0],
        parameters=_entries(parts.get("Parameters", "")),
        returns=parts.get("Returns", ""),
        references=parts.get("References", ""),
    )


def _sections(text: str) -> dict[str, str]:
    heads = list(SECTION.finditer(text))
    ends = [head.start() for head in heads[1:]] + [len(text)]
    return {head["name"]: text[head.end() : end] for head, end in zip(heads, ends, strict=True)}


def _entries(text: str) -> tuple[Entry, ...]:
    entries: list[Entry] = []
    for line in text.splitlines():
        if line and not line[0].isspace():
            names = line.partition(":")[0].split(",")
            entries += [Entry(name=name.strip().lstrip("*"), text="") for name in names]
            together = len(names)
        elif entries:
            # Names that share a line share their text.
            entries[-together:] = [
                Entry(name=e.name, text=f"{e.text} {line.strip()}") for e in entries[-together:]
            ]
    return tuple(entries)
