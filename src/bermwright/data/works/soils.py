"""Works on soil as it presses."""

from __future__ import annotations

from bermwright.base.sources import Work

DAS = Work(
    key="DAS", authors="B. M. Das", title="Principles of Foundation Engineering", year=2011, edition="7th edition"
)
