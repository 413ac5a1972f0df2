"""Works on slopes: long ones, thin cover on sheets, slip circles."""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance, Work

KOERNER2005 = Work(
    key="KOERNER2005",
    authors="R. M. Koerner and T.-Y. Soong",
    title="Analysis and design of veneer cover soils",
    year=2005,
    publisher="Geosynthetics International 12(1)",
    locator="abstract read; equations set up anew",
)
SMITH2006 = Work(
    key="SMITH2006",
    authors="G. N. Smith and I. G. N. Smith",
    title="Elements of soil mechanics, stability of slopes",
    year=2006,
    edition="8th edition",
    locator="extracts at eurocode.us/soil-mechanics",
)
TAYLOR1937 = Work(
    key="TAYLOR1937",
    authors="D. W. Taylor",
    title="Stability of earth slopes",
    year=1937,
    publisher="Journal of the Boston Society of Civil Engineers 24(3)",
)
ACADS1989 = Work(
    key="ACADS1989",
    authors="P. S. K. Giam and I. B. Donald",
    title="Example problems for testing soil slope stability programs, example 1(a)",
    year=1989,
    publisher="Monash University",
    locator="referee's answer and mean of 18 results by Bishop's method quoted at deepexcavation.com",
)
SLOPECLOSED = Work(
    key="SLOPECLOSED",
    authors="",
    title="Closed forms of a slip on a quarter circle, on a plane and on a long slope",
    year=2026,
    locator="statics; the note of each row gives the equation",
)

_MEMORY = Provenance.MEMORY
CIRCLE_CITE = Cite(work=SMITH2006, place="Bishop's simplified method", provenance=Provenance.READ)
LONG_CITE = Cite(work=SLOPECLOSED, place="long slope", provenance=Provenance.DERIVED)
VENEER_CITE = Cite(work=KOERNER2005, place="cover on a sheet", provenance=Provenance.DERIVED)
