"""Every work by its key, gathered from the modules of this folder."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache
from typing import TYPE_CHECKING

from bermwright.base.sources import Work
from bermwright.data import works

if TYPE_CHECKING:
    from collections.abc import Mapping
    from types import ModuleType


@cache
def all_works() -> Mapping[str, Work]:
    """Every work by its key; a key that two different works claim is refused."""
    found: dict[str, Work] = {}
    for module in _modules():
        for value in vars(module).values():
            if isinstance(value, Work) and found.setdefault(value.key, value) != value:
                raise ValueError(f"Two different works are called {value.key}; see {module.__name__}.")
    return found


def _modules() -> list[ModuleType]:
    names = sorted(info.name for info in pkgutil.iter_modules(works.__path__))
    return [importlib.import_module(f"{works.__name__}.{name}") for name in names if name != "catalogue"]
