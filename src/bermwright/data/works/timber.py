"""Works on timber."""

from __future__ import annotations

from bermwright.base.sources import Work

EN338 = Work(
    key="EN338", authors="CEN", title="EN 338 Structural timber, strength classes", year=2016,
    locator="values read in the open package materialclasses, file solidtimber.py",
)  # fmt: skip
EN1995 = Work(
    key="EN1995", authors="CEN", title="EN 1995-1-1 Design of timber structures, common rules", year=2004,
    edition="with A1:2008 and A2:2014", locator="extracts read at eurocode.us; worked values in open test files",
)  # fmt: skip
NAIL_JOINT = Work(
    key="NAIL-JOINT", authors="bermwright", title="Lower bound to the stiffness of a butt joint in a nailed rib", year=2026,
    locator="derived from least complementary energy; see the notes of handbook.timber.joint",
)  # fmt: skip
