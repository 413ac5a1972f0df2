"""What the trade holds to without anybody having published it as a rule."""

from __future__ import annotations

from bermwright.base.sources import Work

TRADE = Work(
    key="PRACTICE",
    authors="",
    title="common practice, no source",
    year=2026,
    locator="facts of the trade; confirm with whoever signs",
)
