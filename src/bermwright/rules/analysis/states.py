"""Stages and cases as design states of the frame: factors on, loads per rib."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames import States

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.data.rule_sets import RuleSet
    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.frames import Member
    from bermwright.stages.nouns import Action, Case, Stage

    Array = NDArray[np.float64]


LOADS = ("across", "down", "moment", "surcharge", "pore")
"""What the actions of a case come to at every node."""
HELPFUL = 1.0
"""Partial factor of a permanent load of its own source where it helps: EN 1990, table A1.2(B), and DA1 and
DA2 of EN 1997 alike. Soil is one source and keeps its one factor."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """One state: a case of a stage, and the state it goes on from."""

    stage: Stage
    case: Case
    parent: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Softening:
    """Factors on the stiffness of ribs and joints in the long term."""

    ribs: float
    joints: float


def situations_of(stages: Sequence[Stage]) -> tuple[Situation, ...]:
    """Every case of every stage in order; a case branches from its stage's own state.

    What comes before the stage's own soil goes on from the stage before, as the stage's own state does.
    """
    situations: list[Situation] = []
    before = -1
    for stage in stages:
        own = len(situations)
        for i, case in enumerate(stage.cases):
            parent = before if i == 0 or case.before else own
            situations.append(Situation(stage=stage, case=case, parent=parent))
        before = own
    return tuple(situations)


def frame_states(
    form: VaultForm,
    situations: Sequence[Situation],
    factors: RuleSet,
    softening: Softening,
    members: Sequence[Member] = (),
) -> States:
    """Design loads of all states on one rib."""
    loads = np.zeros((len(LOADS), len(situations), form.mesh.x.size))
    levers = (form.mesh.soil_x - form.mesh.x, form.mesh.soil_z - form.mesh.z)
    for number, now in enumerate(situations):
        _add_design_loads(loads[:, number], form.spacing, levers, _factored(now.case, factors))
    long_term = np.array([now.stage.long_term for now in situations])
    depth = np.stack([now.case.depth for now in situations])
    springs = np.array([now.case.springs for now in situations])
    standing = [[i in now.stage.props for i in range(len(members))] for now in situations]
    return States.build(
        form.mesh.x.size,
        parent=[now.parent for now in situations],
        members=members,
        member_on=np.array(standing, dtype=bool).reshape(len(situations), len(members)),
        springs_on=springs[:, None] & (depth > 0),
        depth=depth,
        stiffness=np.where(long_term, softening.ribs, 1.0),
        joint_stiffness=np.where(long_term, softening.joints, 1.0),
        **dict(zip(LOADS, loads, strict=True)),
    )


def _add_design_loads(
    loads: Array, width: float, levers: tuple[Array, Array], actions: Sequence[tuple[Action, float]]
) -> None:
    """Add the factored loads of one case on one rib to its rows of `LOADS` (N, N m, Pa)."""
    across, down, moment, surcharge, pore = loads
    for action, factor in actions:
        if action.down is not None:
            force = factor * width * action.down
            down += force
            moment -= action.lever * levers[0] * force
        if action.across is not None:
            force = factor * width * action.across
            across += force
            moment -= action.lever * levers[1] * force
        if action.on_fill is not None:
            surcharge += factor * action.on_fill
        if action.pore is not None:
            pore += factor * action.pore


def _factored(case: Case, factors: RuleSet) -> list[tuple[Action, float]]:
    """Each action with its partial factor; the first variable action leads."""
    out: list[tuple[Action, float]] = []
    leading = True
    for action in case.actions:
        if action.permanent:
            out.append((action, HELPFUL if action.favourable else factors.permanent))
            continue
        out.append((action, factors.variable * (1.0 if leading else action.psi0)))
        leading = False
    return out
