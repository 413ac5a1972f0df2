"""Every public handbook function says its units, its source and nothing that does not exist."""

from __future__ import annotations

import ast
import importlib
import inspect
from pathlib import Path
from types import FunctionType

import pytest

from bermwright.data.works.catalogue import all_works
from docstrings import Described, handbook_packages, plain, public_functions

PUBLIC = public_functions()
EACH = pytest.mark.parametrize("described", PUBLIC, ids=lambda d: d.name.removeprefix("bermwright.handbook."))


def is_number(annotation: object) -> bool:
    """Whether an annotation stands for numbers, which have a unit."""
    text = str(annotation)
    return any(word in text for word in ("float", "Array", "Number", "Floats"))


@EACH
def test_each_parameter_is_described_with_its_unit(described: Described) -> None:
    signature = inspect.signature(described.function)
    assert [entry.name for entry in described.parameters] == list(signature.parameters)
    without = [
        entry.name
        for entry in described.parameters
        if entry.unit is None and is_number(signature.parameters[entry.name].annotation)
    ]
    assert without == []


@EACH
def test_what_it_gives_has_a_unit(described: Described) -> None:
    assert described.returns
    if is_number(inspect.signature(described.function).return_annotation):
        assert "[" in described.returns


@EACH
def test_it_names_a_work_of_the_bibliography(described: Described) -> None:
    assert described.keys
    assert set(described.keys) <= set(all_works())


@EACH
def test_its_first_line_is_a_sentence(described: Described) -> None:
    assert described.summary.endswith(".")


def test_every_subject_says_what_is_public() -> None:
    without = [package.__name__ for package in handbook_packages()[1:] if not getattr(package, "__all__", ())]
    assert without == []


def test_what_the_layers_above_use_is_public(repository: Path) -> None:
    public = {described.name for described in PUBLIC}
    strangers = set()
    for path in sorted((repository / "src" / "bermwright").rglob("*.py")):
        if "handbook" in path.parts:
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("bermwright.handbook"):
                module = importlib.import_module(node.module or "")
                for alias in node.names:
                    function = plain(getattr(module, alias.name, None))
                    if isinstance(function, FunctionType):
                        strangers.add(f"{function.__module__}.{function.__name__}")
    assert sorted(strangers - public) == []
