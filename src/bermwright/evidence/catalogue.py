"""All rows of evidence, gathered from the modules of this folder and those below."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from types import ModuleType

    from bermwright.evidence.rows import Row

NOT_EVIDENCE = ("bermwright.evidence.catalogue", "bermwright.evidence.rows")
"""Modules of this folder that hold the machinery, not values."""


@cache
def all_rows() -> tuple[Row, ...]:
    """Every row, by module and then as written; an id that stands twice is refused."""
    found: dict[str, Row] = {}
    for module in evidence_modules():
        for row in module.ROWS:
            if row.id in found:
                raise ValueError(f"Two rows of evidence are called {row.id}; see {module.__name__}.")
            found[row.id] = row
    return tuple(found.values())


def evidence_modules() -> list[ModuleType]:
    """The modules that hold rows, in alphabetical order; each must expose `ROWS`."""
    folder = importlib.import_module("bermwright.evidence")
    found = pkgutil.walk_packages(folder.__path__, f"{folder.__name__}.")
    names = sorted(info.name for info in found if not info.ispkg and info.name not in NOT_EVIDENCE)
    return [importlib.import_module(name) for name in names]
