"""What is looked at, and what the last full run leaves for the quick one."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.base.findings import Finding, Question, Verdict
    from bermwright.rules.analysis.lanes import Lane

LaneName = tuple[str, float, float, float, str]
"""Soil run, unit weight, friction angle, vertical factor, pressure from below: a corner by its values."""


def lane_name(lane: Lane) -> LaneName:
    """By what a corner is found again after the shape has changed."""
    return (lane.run, lane.unit_weight, lane.friction_angle, lane.vertical, lane.underside)


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What one window shows, and how."""

    vault: int = 0
    """Which vault, counted from 0."""
    stage: str | None = None
    """Name of the stage; the last one where it is not given or not there."""
    case: str | None = None
    """Name of the case; the stage's own state where it is not given or not there."""
    theme: str = "day"
    system: str = "metric"
    width: int = 968
    """Width of the drawing (px)."""
    height: int = 0
    """Height that there is for it (px); 0 where it may be as tall as it needs."""
    view: str = "section"
    week: int | None = None
    """Week of the year (1 to 52) in which the ground is shown; left out where it is not given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Corners:
    """The corners that govern one case, by the name of each set of partial factors."""

    lanes: Mapping[str, frozenset[LaneName]]
    ratio: float | None
    """Strength of the ribs used (-); None where it is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseFound:
    """One case of one stage after a full run."""

    name: str
    title: str
    corners: Corners


@dataclass(frozen=True, slots=True, kw_only=True)
class StageFound:
    """One stage after a full run."""

    name: str
    kind: str
    title: str
    left: float | None
    right: float | None
    """Level of the fill (m)."""
    ratio: float | None
    """Largest strength of the ribs used in all its cases (-)."""
    stops: tuple[float, ...]
    """Level that neither side may pass while the other stands at this stage's start (m)."""
    cases: tuple[CaseFound, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Everything that a full run leaves behind; it travels between processes."""

    house: str
    verdict: Verdict
    findings: tuple[Finding, ...]
    questions: tuple[Question, ...]
    not_checked: tuple[str, ...]
    not_read: tuple[str, ...]
    vaults: Mapping[str, tuple[StageFound, ...]]
    """By the name of the vault; a vault about which too little is known has none."""
    mendable: frozenset[int] = field(default_factory=frozenset)
    """Which findings, by position, somebody can look for remedies for."""
