"""Lifting in teams: Health and Safety Executive, guidance on the manual handling regulations, as quoted."""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.rates import HSEMHOR
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.lifting import lifters_needed, team_capacity

_TEAMS = Cite(work=HSEMHOR, place="handling in teams: two and three people", provenance=Provenance.READ)
_WORKED = Cite(work=HSEMHOR, place="handling in teams, worked", provenance=Provenance.DERIVED)


def _team(name: str, expected: str, note: str, each: float, people: int) -> Row:
    return Row(
        id=f"HSEMHOR-{name}",
        cite=_WORKED,
        kind=Kind.DERIVED,
        call=team_capacity,
        inputs={"each": each, "people": people},
        expected=expected,
        unit="kg",
        note=note,
    )


def _lifters(name: str, expected: str, note: str, mass: float) -> Row:
    return Row(
        id=f"HSEMHOR-{name}",
        cite=_WORKED,
        kind=Kind.DERIVED,
        call=lifters_needed,
        inputs={"mass": mass, "each": 23.0},
        expected=expected,
        note=note,
    )


ROWS = (
    Row(
        id="HSEMHOR-two-of-twenty",
        cite=_TEAMS,
        kind=Kind.PUBLISHED,
        call=team_capacity,
        inputs={"each": 20.0, "people": 2},
        expected="26.6",
        unit="kg",
        rel=0.003,
        note="26.67 printed as 26.6: cut, not rounded",
    ),
    _team("one", "23.0", "the whole of one", 23.0, 1),
    _team("two", "30.667", "two thirds of 46", 23.0, 2),
    _team("three", "34.5", "half of 69", 23.0, 3),
    _lifters("lifters-23", "1", "23 ≤ 23", 23.0),
    _lifters("lifters-27", "2", "27.1 ≤ 30.7", 27.1),
    _lifters("lifters-33", "3", "33.3 ≤ 34.5", 33.3),
)
