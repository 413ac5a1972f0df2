"""Works on frames, arches and buried flexible vaults."""

from __future__ import annotations

from bermwright.base.sources import Work

TIMOSHENKO1961 = Work(
    key="TIMOSHENKO1961",
    authors="S. P. Timoshenko and J. M. Gere",
    title="Theory of elastic stability",
    year=1961,
    edition="2nd edition",
    publisher="McGraw-Hill",
    locator="not opened; chapters 1, 2 and 7 from memory, the equations were derived again",
)
KARNOVSKY2012 = Work(
    key="KARNOVSKY2012",
    authors="I. A. Karnovsky",
    title="Theory of arched structures",
    year=2012,
    publisher="Springer",
    locator="appendix, table A.19, in the stored page issuhub.com/view/index?id=4936&pageIndex=603",
)
DUNCAN1979 = Work(
    key="DUNCAN1979",
    authors="J. M. Duncan",
    title="Behavior and design of long-span metal culverts, Journal of the Geotechnical Engineering Division 105",
    year=1979,
    publisher="American Society of Civil Engineers",
    locator="abstract read",
)
FILLINGMODEL2026 = Work(
    key="FILLINGMODEL2026",
    authors="The bermwright developers",
    title="A rib vault while it is filled: a staged frame against a staged continuum (own calculation, not published)",
    year=2026,
    locator="vault, soil and stages stand with the values in the evidence of this work; no measurement of a timber rib exists",
)
