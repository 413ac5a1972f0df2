"""Which handbook functions stand behind a rule, read from the rule's own code.

Nobody keeps a list beside the rule that could lag: names in its function, and in whatever of the rules it
calls, are followed down to the handbook.
"""

from __future__ import annotations

import dis
import importlib
from functools import cached_property
from inspect import unwrap
from types import CodeType, FunctionType, ModuleType
from typing import TYPE_CHECKING

from bermwright.rules.analysis.joint import NailedJoint, nailed_joint
from bermwright.rules.analysis.model import RibModel
from bermwright.rules.analysis.response import Analysis
from bermwright.rules.analysis.strength import RibStrength
from bermwright.stages.sequence import building_sequence

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.rules.nouns import AnyRule

HANDBOOK = "bermwright.handbook."
FOLLOWED = ("bermwright.rules.", "bermwright.stages.")
"""Folders whose functions are looked into on the way down."""
_OWNERS: tuple[type, ...] = (RibStrength, NailedJoint, Analysis)
"""Classes whose methods the rules call on what a study holds."""
_SOLVED = {"analyses", "service", "marks", "stage_ratio"}
"""What a study holds of the solved frames: the stages' loads and the frame stand behind it."""


def functions_behind(rule: AnyRule) -> tuple[str, ...]:
    """Full names of the handbook functions that a rule rests on, in alphabetical order."""
    todo: list[FunctionType] = [_plain(rule.decide)]
    seen: set[FunctionType] = set()
    found: set[str] = set()
    while todo:
        function = todo.pop()
        if function in seen:
            continue
        seen.add(function)
        for called in _called(function):
            if called.__module__.startswith(HANDBOOK):
                found.add(f"{called.__module__}.{called.__name__}")
            elif called.__module__.startswith(FOLLOWED):
                todo.append(called)
    return tuple(sorted(found))


def _called(function: FunctionType) -> Iterator[FunctionType]:
    """Functions that stand in a function's code by name, also behind a module or in a class of the study."""
    names = set(_names(function.__code__))
    spaces: list[Mapping[str, object]] = [function.__globals__]
    spaces += [vars(importlib.import_module(name)) for name in names if name.startswith("bermwright.")]
    for name in names:
        for space in spaces:
            value = space.get(name)
            if isinstance(value, ModuleType):
                yield from _of_space(vars(value), names)
            else:
                yield from _functions(value, names)
    for owner in _OWNERS:
        yield from _of_space(vars(owner), names)
    if names & _SOLVED:
        yield _plain(building_sequence)
        yield from _of_space(vars(RibModel), set(vars(RibModel)))
    if "joint" in names:
        yield _plain(nailed_joint)


def _names(code: CodeType) -> Iterator[str]:
    """Every name in a code, also in the functions within it."""
    yield from code.co_names
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            yield from _names(constant)
    yield from (str(one.argval) for one in dis.get_instructions(code) if one.opname == "IMPORT_NAME")


def _of_space(space: Mapping[str, object], names: set[str]) -> Iterator[FunctionType]:
    for name, value in space.items():
        if name in names:
            yield from _functions(value, names)


def _functions(value: object, names: set[str]) -> Iterator[FunctionType]:
    """The function itself, a property's, or those of a class of the rules that are named too."""
    match value:
        case FunctionType():
            yield unwrap(value)
        case property(fget=FunctionType() as getter):
            yield getter
        case cached_property():
            yield _plain(value.func)
        case classmethod() | staticmethod():
            yield _plain(value.__func__)
        case type() if value.__module__.startswith(FOLLOWED):
            for name, inner in vars(value).items():
                if name in names and not isinstance(inner, type):
                    yield from _functions(inner, names)
        case _:
            return


def _plain(function: object) -> FunctionType:
    assert isinstance(function, FunctionType), function  # noqa: S101  (rules are plain functions)
    return function
