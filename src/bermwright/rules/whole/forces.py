"""All forces on the shell at every stage, and that they are in balance: nothing pushes into nowhere."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.frames import FILLINGMODEL2026
from bermwright.handbook.frames import GROUND
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import EXPECTED, STIFFER, step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

CLOSES = 1e-6
"""Share of the weight by which forces may fail to close before something is wrong (-)."""
STATICS = Cite(work=FILLINGMODEL2026, place="equilibrium of the section", provenance=Provenance.DERIVED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Force:
    """One force on the shell, per metre of vault, and where it acts."""

    name: str
    across: float
    """To the right (N/m)."""
    up: float
    x: float
    z: float
    """A point on its line (m)."""

    @property
    def moment(self) -> float:
        """Counter-clockwise about the middle of the floor (N m per m)."""
        return self.x * self.up - self.z * self.across


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """The forces of one stage and case in one soil run."""

    stage: str
    case: str
    run: str
    forces: tuple[Force, ...]
    couple: float
    """Moments that are no force's: fixed feet, loads off the centreline (N m per m)."""

    @property
    def down(self) -> float:
        """All that presses down (N/m)."""
        return -sum(one.up for one in self.forces if one.up < 0.0)

    @property
    def open_across(self) -> float:
        """What is left over sideways (N/m)."""
        return sum(one.across for one in self.forces)

    @property
    def open_up(self) -> float:
        """What is left over upwards (N/m)."""
        return sum(one.up for one in self.forces)

    @property
    def open_moment(self) -> float:
        """What is left over as moment (N m per m)."""
        return sum(one.moment for one in self.forces) + self.couple

    @property
    def closing(self) -> float:
        """The largest of what is left over, as a share of the weight (metres of lever count as one) (-)."""
        left = max(abs(self.open_across), abs(self.open_up), abs(self.open_moment))
        return left / max(self.down, 1.0)

    def named(self, name: str) -> Force | None:
        """The force of that name."""
        return next((one for one in self.forces if one.name == name), None)


def balances(study: Study) -> tuple[Balance, ...]:
    """The own state of every stage, all factors 1, in the expected soil run."""
    analysis, found = study.service, []
    lane = next(i for i, one in enumerate(analysis.lanes) if one.run == EXPECTED)
    for place, now in enumerate(analysis.situations):
        if now.case is now.stage.cases[0] and analysis.response.converged[lane, place]:
            found.append(balance_of(study, analysis, lane, place))
    return tuple(found)


def balance_of(study: Study, analysis: Analysis, lane: int, place: int) -> Balance:
    """All forces on one rib in one state, shared out over its spacing."""
    frame, states, response = analysis.frame, analysis.states, analysis.response
    corner, now, width = analysis.lanes[lane], analysis.situations[place], study.form.spacing
    pressed = np.maximum(
        corner.unit_weight * analysis.factors.permanent * states.depth[place]
        + states.surcharge[place]
        - states.pore[place],
        0.0,
    )
    upper = np.where(frame.plan >= 0.0, corner.vertical, corner.soil[5])
    soil_down = upper * pressed * frame.plan
    soil_across = response.pressure[lane, place] * frame.rise
    moved = response.displacement[lane, place]
    x, z = bent_shape(frame.x, frame.z, moved)
    left = np.arange(x.size) <= study.form.mesh.crown
    parts = [
        _sum("weight and loads on the shell", 0.0 * x, -states.down[place], x, z),
        _sum("soil on top", 0.0 * x, -soil_down, x, z),
        _sum("soil from the left", np.where(left, soil_across, 0.0), 0.0 * x, x, z),
        _sum("soil from the right", np.where(left, 0.0, soil_across), 0.0 * x, x, z),
        _sum("water and wind across", states.across[place], 0.0 * x, x, z),
        *_supports(analysis, lane, place, x, z),
    ]
    feet = response.feet[lane, place]
    couple = np.sum(states.moment[place] - frame.lever_x * soil_down - frame.lever_z * soil_across)
    return Balance(
        stage=now.stage.name,
        case=now.case.name,
        run=corner.run,
        forces=tuple(_shared(one, width) for one in parts if one is not None),
        couple=float(couple - feet[0, 2] + feet[1, 2]) / width,
    )


def bent_shape(x: Array, z: Array, moved: Array) -> tuple[Array, Array]:
    """Nodes as the second-order frame counts levers: each element turned, its stretching left out (m)."""
    run, rise = np.diff(x), np.diff(z)
    length = np.hypot(run, rise)
    aside = (run * np.diff(moved[:, 1]) - rise * np.diff(moved[:, 0])) / length
    start_x, start_z = x[0] + moved[0, 0], z[0] + moved[0, 1]
    along_x = np.cumsum(run - rise / length * aside)
    along_z = np.cumsum(rise + run / length * aside)
    return np.append(start_x, start_x + along_x), np.append(start_z, start_z + along_z)


def _shared(force: Force, width: float) -> Force:
    return Force(name=force.name, across=force.across / width, up=force.up / width, x=force.x, z=force.z)


def _sum(name: str, across: Array, up: Array, x: Array, z: Array) -> Force | None:
    """The resultant of many forces; a level or upright one runs through their middle."""
    total_across, total_up = float(np.sum(across)), float(np.sum(up))
    if not (np.any(across) or np.any(up)):
        return None
    moment = float(np.sum(x * up - z * across))
    if total_up:
        return Force(name=name, across=total_across, up=total_up, x=moment / total_up, z=0.0)
    middle = -moment / total_across if total_across else 0.0
    return Force(name=name, across=total_across, up=0.0, x=0.0, z=middle)


def _supports(analysis: Analysis, lane: int, place: int, x: Array, z: Array) -> Iterator[Force]:
    """What the feet and the props give back."""
    feet, states = analysis.response.feet[lane, place], analysis.states
    for side, name, node, way in ((0, "left foot", 0, 1.0), (1, "right foot", -1, -1.0)):
        yield Force(
            name=name,
            across=way * float(feet[side, 0]),
            up=float(feet[side, 1]),
            x=float(x[node]),
            z=float(z[node]),
        )
    for number, member in enumerate(states.members):
        force = float(analysis.response.member[lane, place, number])
        if member.end == GROUND and force:
            sideways, up = member.towards
            node = member.start
            yield Force(
                name="props", across=force * sideways, up=force * up, x=float(x[node]), z=float(z[node])
            )


def _decide(study: Study) -> Iterator[Said]:
    found = balances(study)
    if len(found) < len(study.stages):
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="In some stage the ribs find no state of rest, so that there is no balance to show.",
            advice=STIFFER,
        )
        return
    worst = max(found, key=lambda one: one.closing)
    heaviest = max(found, key=lambda one: one.down)
    closes = worst.closing <= CLOSES
    yield Said(
        verdict=Verdict.HOLDS if closes else Verdict.UNKNOWN,
        template="In {count} stages forces on the shell close within {error} of the load, at most {down}.",
        values={
            "count": str(len(found)),
            "error": f"{max(worst.closing, 1e-15):.0e}",
            "down": Shown(heaviest.down, "kN/m", 1),
        },
        stage=heaviest.stage,
        demand=worst.closing,
        capacity=CLOSES,
        advice="" if closes else "Something is lost in the computation: do not build from these numbers.",
        steps=tuple(_steps(heaviest)),
    )


def _steps(balance: Balance) -> Iterator[Step]:
    for force in balance.forces:
        for value, axis in ((force.across, "x"), (force.up, "z")):
            if abs(value) > 1.0:
                way = _way(axis, value)
                yield step(
                    f"{balance.stage}: {force.name}, {way}",
                    f"F_{axis}",
                    "sum over the shell",
                    "",
                    Shown(abs(value), "kN/m", 2),
                    STATICS,
                )
    for name, value in (("ΣF_x", balance.open_across), ("ΣF_z", balance.open_up)):
        yield step(f"Left over, {name}", name, "sum of all", "", Shown(value, "kN/m", 9))
    yield step(
        "Left over, ΣM about the middle of the floor",
        "ΣM",
        "sum of all",
        "",
        Shown(balance.open_moment, "kN", 9),
    )


def _way(axis: str, value: float) -> str:
    if axis == "x":
        return "to the right" if value > 0.0 else "to the left"
    return "up" if value > 0.0 else "down"


FORCES_CLOSE = Rule(
    name="forces-on-the-shell-close",
    title="All forces on the shell are in balance",
    why="Every push needs something that pushes back. If a sum does not come to nothing, a force was "
    "forgotten, and the number that forgets it looks just as good.",
    cites=(STATICS,),
    decide=_decide,
)
