"""What every test shares: where the repository is, and Hypothesis that gives the same cases each time."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import settings

# Derandomised, so that a green run stays green; `HYPOTHESIS_PROFILE=explore` looks for new cases.
settings.register_profile("steady", derandomize=True, deadline=None, max_examples=60, print_blob=True)
settings.register_profile("explore", deadline=None, max_examples=1000)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))


FIRST = ("browser", "faces", "docs")
"""Folders whose files take longest: begun first, so that at the end no processor waits for another."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Long files first; otherwise as they were found."""
    tests = Path(__file__).parent

    def place(item: pytest.Item) -> int:
        folder = item.path.relative_to(tests).parts[0] if tests in item.path.parents else ""
        return FIRST.index(folder) if folder in FIRST else len(FIRST)

    items.sort(key=place)


@pytest.fixture(scope="session")
def repository() -> Path:
    """The folder of the project file."""
    return Path(__file__).resolve().parent.parent
