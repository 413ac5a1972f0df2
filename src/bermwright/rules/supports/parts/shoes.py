"""Whether the foot of each rib stays on its support: sliding both ways, lifting, and sockets in logs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.supports import GAMMA_BED
from bermwright.data.timber_classes import GAMMA_TIMBER, strength_class
from bermwright.data.works.timber import EN1995
from bermwright.handbook.holding import lip_shear, split_capacity
from bermwright.house.parts.support_words import SocketKind
from bermwright.rules.analysis.response import first_largest, first_worst
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import corner_of, moment_of, place_of, ratio_step, spot_of, step
from bermwright.rules.supports.common import feet_unknown, spot_marks
from bermwright.rules.supports.standing import SIDES, on_side

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.house.parts.holds import Socket
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

SOCKET_CITE = Cite(work=EN1995, place="6.1.5, 6.1.7 and 8.1.4", provenance=Provenance.MEMORY)
NOTHING_HOLDS = (
    "Write a [[socket]] table: vault, kind, friction of the plate on its support, hold_across for bolts or a "
    "kerb, hold_down."
)
LEAST_CONTACT = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """One way in which a foot may give way: what asks for it and what holds, of one rib."""

    does: str
    """What happens, in a sentence."""
    ratio: Array
    """Lanes by situations."""
    demand: Array
    capacity: Array
    unit: str
    formula: str
    filled: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Top:
    """The worst entry."""

    held: Held
    analysis: Analysis
    lane: int
    situation: int
    side: int
    ratio: float


def _decide(study: Study) -> Iterator[Said]:
    house, name = study.house, study.vault.name
    sockets = [on_side(house.sockets, name, side) for side in (0, 1)]
    if None in sockets:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not say what keeps the feet of the ribs on their supports.",
            advice=NOTHING_HOLDS,
        )
        return
    parts: dict[str, list[int]] = {}
    for side, socket in enumerate(sockets):
        assert socket is not None  # noqa: S101  (looked at above)
        parts.setdefault(socket.name, []).append(side)
    for sides in parts.values():
        socket = sockets[sides[0]]
        assert socket is not None  # noqa: S101  (looked at above)
        yield _one(study, socket, sides)


def _one(study: Study, socket: Socket, sides: list[int]) -> Said:
    part = f'socket "{socket.name}"'
    lost = _lost(socket)
    if lost:
        return Said(
            verdict=Verdict.UNKNOWN,
            template="Not known: the file does not say {places}.",
            values={"places": ", ".join(lost)},
            advice=f"Answer the questions about {', '.join(lost)}.",
            part=part,
        )
    if not all(np.isfinite(one.response.feet).all() for one in study.analyses):
        return feet_unknown(part)
    tops = [
        _top(held, analysis, side)
        for analysis in study.analyses
        for side in sides
        for held in _ways(study, analysis, socket, side)
    ]
    return _said(study, first_worst(tops, lambda top: top.ratio), part)


def _lost(socket: Socket) -> tuple[str, ...]:
    if socket.kind is SocketKind.SHOE:
        return () if socket.friction is not None else ("socket.friction",)
    needed = ("log", "depth", "lip", "timber")
    return tuple(f"socket.{name}" for name in needed if getattr(socket, name) is None)


def _ways(study: Study, analysis: Analysis, socket: Socket, side: int) -> Iterator[Held]:
    feet = analysis.response.feet[:, :, side, :]
    along, down = np.abs(feet[..., 0]), feet[..., 1]
    lift = np.maximum(-down, 0.0)
    held_down = socket.hold_down or 0.0
    yield Held(
        does="lifts off",
        ratio=_share(lift, held_down + 0.0 * lift),
        demand=lift,
        capacity=held_down + 0.0 * lift,
        unit="kN",
        formula="F_down",
        filled="",
    )
    if socket.kind is SocketKind.SHOE:
        yield _sliding(socket, along, down)
    else:
        yield from _in_log(study, analysis, socket, along)


def _sliding(socket: Socket, along: Array, down: Array) -> Held:
    friction = socket.friction.low if socket.friction else np.nan
    rough = np.tan(friction) / GAMMA_BED.value
    across = socket.hold_across or 0.0
    capacity = np.maximum(down, 0.0) * rough + across
    return Held(
        does="slides",
        ratio=_share(along, capacity),
        demand=along,
        capacity=capacity,
        unit="kN",
        formula="V·tan φ / γ + F_across",
        filled=f"φ = {np.degrees(friction):.0f}°, γ = {GAMMA_BED.value:g}, F_across = {across / 1e3:.1f}",
    )


def _in_log(study: Study, analysis: Analysis, socket: Socket, along: Array) -> Iterator[Held]:
    grade = strength_class(socket.timber or "")
    kmod = study.strength.kmods(analysis)[None, :] / GAMMA_TIMBER.value
    depth, lip, log = socket.depth or np.nan, socket.lip or np.nan, socket.log or np.nan
    width = study.strength.width
    pressed = depth * width * kmod * grade.compression_across + 0.0 * along
    yield Held(
        does="crushes the side of its socket",
        ratio=along / pressed,
        demand=along,
        capacity=pressed,
        unit="kN",
        formula="d·b·k_mod·f_c,90,k / γ_M",
        filled=f"d = {depth * 1e3:.0f} mm, b = {width * 1e3:.0f} mm",
    )
    split = 2.0 * float(split_capacity(depth, kept=lip, height=log)) * kmod + 0.0 * along
    yield Held(
        does="splits the log",
        ratio=along / split,
        demand=along,
        capacity=split,
        unit="kN",
        formula="2·k_mod·F_90,k / γ_M",
        filled=f"lip {lip * 1e3:.0f} of {log * 1e3:.0f} mm, {depth * 1e3:.0f} mm deep",
    )
    stress = lip_shear(along, depth=depth, kept=lip)
    limit = kmod * grade.shear + 0.0 * along
    yield Held(
        does="shears off the lip of its socket",
        ratio=stress / limit,
        demand=stress,
        capacity=limit,
        unit="N/mm2",
        formula="k_mod·f_v,k / γ_M",
        filled=grade.name,
    )


def _share(demand: Array, capacity: Array) -> Array:
    with np.errstate(divide="ignore", invalid="ignore"):
        share: Array = np.where(demand > LEAST_CONTACT, demand / capacity, 0.0)
    return share


def _top(held: Held, analysis: Analysis, side: int) -> Top:
    lane, situation = first_largest(held.ratio)
    return Top(
        held=held,
        analysis=analysis,
        lane=lane,
        situation=situation,
        side=side,
        ratio=float(held.ratio[lane, situation]),
    )


def _said(study: Study, top: Top, part: str) -> Said:
    held, now = top.held, top.analysis.situations[top.situation]
    demand, capacity = (float(one[top.lane, top.situation]) for one in (held.demand, held.capacity))
    node = (0, study.form.mesh.x.size - 1)[top.side]
    verdict = verdict_of(top.ratio)
    return Said(
        verdict=verdict,
        template="{when}: a {side} foot {does} under {demand}; {capacity} hold it.",
        values={
            **moment_of(now),
            "side": SIDES[top.side],
            "does": held.does
            if verdict is Verdict.FAILS
            else f"would slide, crush or lift; nearest it {held.does}",
            "demand": Shown(demand, held.unit, 2),
            "capacity": Shown(capacity, held.unit, 2),
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, node),
        demand=demand,
        capacity=capacity,
        unit=held.unit,
        ratio=top.ratio if math.isfinite(top.ratio) else None,
        corner=corner_of(top.analysis, top.lane),
        advice="" if verdict is Verdict.HOLDS else _advice(held),
        steps=_steps(study, top, demand, capacity),
        spot=spot_of(study, node),
        part=part,
    )


def _advice(held: Held) -> str:
    if held.does == "slides":
        return "Write a larger [[socket]] hold_across: bolts through the shoe, or a kerb on both sides of it."
    if held.does == "lifts off":
        return "Write [[socket]] hold_down: straps or bolts into the wall; or lay [stages.ballast]."
    return "Write a thicker [[socket]] log, a larger lip, or a smaller [vault] spacing."


def _steps(study: Study, top: Top, demand: float, capacity: float) -> tuple[Step, ...]:
    feet = top.analysis.response.feet[top.lane, top.situation, top.side]
    outward, down = float(feet[0]), float(feet[1])
    way = "outward" if outward >= 0.0 else "into the room"
    return (
        step(
            f"One foot pushes {way}, {top.analysis.lanes[top.lane].run} soil run",
            "H",
            "plane frame, one rib",
            f"every {study.form.spacing:.2f} m",
            Shown(abs(outward), "kN", 2),
        ),
        step("and presses down", "V", "plane frame, one rib", "", Shown(down, "kN", 2)),
        step("Asked for", "E", top.held.does, "", Shown(demand, top.held.unit, 2)),
        step(
            "It holds", "R", top.held.formula, top.held.filled, Shown(capacity, top.held.unit, 2), SOCKET_CITE
        ),
        ratio_step("Used", "E / R", f"{demand:.0f} / {capacity:.0f}", top.ratio),
    )


FEET_STAY = Rule(
    name="feet-stay-on-their-supports",
    title="The feet stay on their supports",
    why="The foot of a buried rib pushes into the room while soil is laid and outward later. What holds it "
    "must hold both ways, and down.",
    cites=(SOCKET_CITE, GAMMA_BED.cite),
    decide=_decide,
    draws=spot_marks,
    asks=("socket", "socket.friction", "socket.log", "socket.depth", "socket.lip", "socket.timber"),
)
