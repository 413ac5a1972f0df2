"""Stage, case and action: the moments of building and what presses on the vault in each."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from bermwright.base.sources import Cite

    Array = NDArray[np.float64]


class Duration(StrEnum):
    """Load-duration class of EN 1995-1-1, table 2.1; a case takes that of its shortest action."""

    PERMANENT = "permanent"
    LONG = "long-term"
    MEDIUM = "medium-term"
    SHORT = "short-term"
    INSTANT = "instantaneous"


class StageKind(StrEnum):
    """What a stage adds."""

    RIBS = "ribs"
    LAGGED = "lagged"
    WRAPPED = "wrapped"
    CROWN_SOIL = "crown soil"
    FILL = "fill"
    COVER = "cover"
    TURF = "turf"
    SETTLED = "settled"
    LONG_TERM = "long term"


FILLING = frozenset({StageKind.CROWN_SOIL, StageKind.FILL, StageKind.COVER})
"""Stages in which soil is laid, so that one side can be ahead of the other."""


class Compaction(StrEnum):
    """Tool of compaction of a stage (it changes bending by 1.3 to 2.1)."""

    NONE = "none"
    HAND = "hand rammer"
    PLATE = "plate"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """One load on the rib in one case, characteristic values, per metre of vault."""

    name: str
    """self-weight, soil, snow, people, ballast, water."""
    permanent: bool
    cite: Cite
    down: Array | None = None
    """(n + 1,) vertical force on each node of the mesh (N/m of vault), + down."""
    across: Array | None = None
    """(n + 1,) horizontal force on each node (N/m), + to the right."""
    on_fill: Array | None = None
    """(n + 1,) pressure on the fill above each node (Pa): goes down as it is and sideways by K."""
    pore: Array | None = None
    """(n + 1,) water pressure at the soil face (Pa)."""
    lever: float = 1.0
    """Where `down` and `across` act: 0 on the rib's centreline, 1 at the soil face."""
    favourable: bool = False
    """Whether a permanent load of its own source helps here, and counts without its partial factor."""
    psi0: float = 1.0
    """Factor when another variable action leads."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One arrangement of actions at one stage."""

    name: str
    title: str
    duration: Duration
    actions: tuple[Action, ...]
    left: float | None
    right: float | None
    """Level of the fill on each side (m); None where there is no fill yet."""
    depth: Array
    """(n + 1,) soil above each node's soil face (m)."""
    springs: bool = True
    """Whether the soil may hold as well as press (not when loose or frozen)."""
    ballast: bool = False
    """Whether ballast lies on the crown while soil is compacted."""
    before: bool = False
    """Whether it comes before this stage's own soil, so that it goes on from the stage before."""

    @property
    def lead(self) -> float:
        """How far the left side is ahead of the right (m); negative when the right leads."""
        return 0.0 if self.left is None or self.right is None else self.left - self.right


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One moment in the building."""

    name: str
    kind: StageKind
    title: str
    do: tuple[str, ...]
    """What to do, step by step."""
    cautions: tuple[str, ...]
    """The usual caution beside a dangerous step; defers to local rules."""
    level: float | None
    """Level both sides reach at the end of this stage (m)."""
    compaction: Compaction
    braced: bool
    """Whether the temporary braces still hold the outer edge of the ribs."""
    long_term: bool
    """Whether creep has softened ribs and joints."""
    cases: tuple[Case, ...]
    """The first case is the stage's own state with permanent actions and level fill."""
    props: tuple[int, ...] = ()
    """Which of the temporary members of the house file stand in this stage, by position."""

    @property
    def filling(self) -> bool:
        """Whether soil is being placed in this stage."""
        return self.kind in {StageKind.FILL, StageKind.COVER, StageKind.TURF}
