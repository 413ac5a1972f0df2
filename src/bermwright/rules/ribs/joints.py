"""Whether the nails lead the cut layer's share past its butt joint, and whether they find room."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict
from bermwright.data.timber_classes import GAMMA_CONNECTION
from bermwright.handbook import timber as ec5
from bermwright.rules.analysis.halves import FEWEST
from bermwright.rules.analysis.joint import ROWS_ALONG
from bermwright.rules.analysis.strength import joint_forces, nail_ratio
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs import common
from bermwright.rules.ribs.common import step, timber_cite

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.house import Nail
    from bermwright.rules.analysis.halves import Half
    from bermwright.rules.analysis.joint import NailedJoint
    from bermwright.rules.ribs.common import Worst
    from bermwright.rules.study import Study

AT_FOOT = 1e-6
"""A piece that begins or ends nearer to a foot than this begins or ends there (m)."""
LONGER = "Write a longer [vault] board_length, thinner nails, or fewer layers."
FULL = "|(N + M·y/J, V + M·x/J)| / (n·m), M with its peak"
RELIEVED = "|(N, V)| / (n·m); the other layers take M"
UNKNOWN_NAILS = Said(
    verdict=Verdict.UNKNOWN,
    template="The file does not give the nails, their number at a butt joint and their spacing.",
    advice=common.NAILS_ASKED,
)
BENT = Said(
    verdict=Verdict.DOES_NOT_APPLY,
    template="The ribs are bent boards; see what is said of the nails that tie them.",
)


def _carry(study: Study) -> Iterator[Said]:
    joint, nail = study.strength.joint, study.vault.nails
    if study.strength.bent:
        yield BENT
    elif not study.strength.joint_nodes.size:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="No layer of the ribs is cut.")
    elif joint is None or nail is None:
        yield UNKNOWN_NAILS
    elif not math.isfinite(joint.resistance):
        yield _too_short(joint, nail)
    elif joint.halves.bare is not None:
        yield _bare(study, joint.halves.bare)
    else:
        worst = common.worst_of(study, nail_ratio, every_run=True)
        if worst is not None:
            yield common.not_known(worst) if worst.ratio is None else _said(study, worst, joint, nail)


def _too_short(joint: NailedJoint, nail: Nail) -> Said:
    needed = float(ec5.pointside_penetration(nail.diameter))
    return Said(
        verdict=Verdict.FAILS,
        template="The nails reach {point} into the next board; they must reach 8 diameters, {needed}.",
        values={"point": Shown(joint.point, "mm", 0), "needed": Shown(needed, "mm", 0)},
        demand=needed,
        capacity=joint.point,
        unit="mm",
        advice="Write longer or thinner [vault] nails.",
    )


def _bare(study: Study, half: Half) -> Said:
    """Half a piece that passes nothing on, and where it is."""
    node = int(np.argmin(np.abs(study.form.mesh.s - half.joint)))
    return Said(
        verdict=Verdict.FAILS,
        template="{place}: half of piece {piece} has room for {drawn}; its layer ends there.",
        values={
            "place": common.place_of(study, node).capitalize(),
            "piece": half.piece,
            "drawn": "one nail" if half.along.size else "no nail",
        },
        demand=float(FEWEST),
        capacity=float(half.along.size),
        unit="",
        place=common.place_of(study, node),
        spot=common.spot_of(study, node),
        advice=LONGER,
    )


def _governing(study: Study, worst: Worst, joint: NailedJoint) -> Half | None:
    """The half with few nails that carries more there than a usual one would; None where none does."""
    number = int(worst.peak.place[0])
    moment, axial, shear = (
        force[worst.peak.index] for force in joint_forces(worst.peak.analysis, study.strength.joint_nodes)
    )
    layers = study.strength.layers
    usual = float(joint.force(moment, axial, shear, layers)) / joint.effective
    found = [
        (float(joint.half_force(half, moment, axial, shear, layers)) / half.effective, half)
        for at, half in joint.weaker
        if at == number and not half.bare
    ]
    most, half = max(found, key=lambda one: one[0], default=(0.0, None))
    return half if most > usual else None


def _said(study: Study, worst: Worst, joint: NailedJoint, nail: Nail) -> Said:
    ratio = worst.ratio or 0.0
    kmod = common.kmod_of(study, worst)
    half = _governing(study, worst, joint)
    effective = joint.effective if half is None else half.effective
    limit = float(ec5.design_strength(joint.resistance * effective, kmod, gamma=GAMMA_CONNECTION.value))
    node = int(study.strength.joint_nodes[worst.peak.place[0]])
    said = Said(
        verdict=worst.verdict,
        template="{when}: one nail at a butt joint carries {force} of {limit}.",
        values={"force": Shown(ratio * limit, "N", 0), "limit": Shown(limit, "N", 0)},
        demand=ratio * limit,
        capacity=limit,
        unit="N",
        advice="Write more [vault] nails_each_side, a smaller nail_spacing, or thicker nails.",
        steps=(
            *_force_steps(study, worst, joint, ratio * limit, half),
            *_nail_steps(study, joint, nail),
            common.factor_step(study, worst),
            _limit_step(joint, effective, kmod, limit),
            common.ratio_step("Strength used", "F / F_v,d", f"{ratio * limit:.1f} / {limit:.1f}", ratio),
        ),
    )
    return common.at_worst(study, worst, node, said)


def _force_steps(
    study: Study, worst: Worst, joint: NailedJoint, force: float, half: Half | None
) -> tuple[Step, ...]:
    forces = joint_forces(worst.peak.analysis, study.strength.joint_nodes)
    moment, axial, shear = (float(one[worst.peak.index]) for one in forces)
    which = f"{joint.places[0].size} on half a piece"
    if half is not None:
        which = f"{half.along.size} drawn on half of piece {half.piece}"
    lane, situation, *_joint = worst.peak.index
    analysis = worst.peak.analysis
    model = float(analysis.model[situation]) if analysis.bends[lane, situation] else 1.0
    return (
        step(
            f"Bending of the rib at the joint, {worst.peak.corner.run} soil run, × {model:g} for the model",
            "M",
            "plane frame",
            "",
            Shown(moment, "kNm", 3),
        ),
        step("Thrust of the rib there", "N", "plane frame", "", Shown(axial, "kN", 3)),
        step("Shear of the rib there", "V", "plane frame", "", Shown(shear, "kN", 3)),
        step(
            f"The middle of a piece, {joint.piece:.2f} m long, carries more than its equal share",
            "peak",
            "pieces as beams on their nails",
            "",
            Shown(float(joint.pieces.moment_peak), "", 3),
        ),
        step(
            f"Nail that carries most of the {which}, {study.strength.layers} layers",
            "F",
            RELIEVED if half is not None and half.relieved else FULL,
            "",
            Shown(force, "N", 1),
        ),
    )


def _nail_steps(study: Study, joint: NailedJoint, nail: Nail) -> tuple[Step, ...]:
    diameter, density = nail.diameter * 1e3, study.strength.timber.density_low
    embedment = (
        ("0.082·(1 − 0.01·d)·ρ_k, predrilled", f"0.082 · (1 − 0.01 · {diameter:g}) · {density:g}")
        if study.vault.predrilled
        else ("0.082·ρ_k·d^−0.3", f"0.082 · {density:g} · {diameter:g}^−0.3")
    )
    wire = study.vault.nail_strength / 1e6
    return (
        step(
            "Timber pressed by the nail",
            "f_h,k",
            *embedment,
            Shown(joint.embedment, "N/mm2", 2),
            timber_cite("8.3.1.1"),
        ),
        step(
            "Nail bent to yielding",
            "M_y,k",
            "0.3·f_u·d^2.6",
            f"0.3 · {wire:g} · {diameter:g}^2.6",
            Shown(joint.yield_moment, "Nmm", 0),
            timber_cite("8.3.1.1, eq. 8.14"),
        ),
        step(
            f"One shear plane, mode {joint.mode}, {joint.head * 1e3:.0f} mm under the head and "
            f"{joint.point * 1e3:.0f} mm of point",
            "F_v,k",
            "least of modes a to f",
            "",
            Shown(joint.resistance, "N", 0),
            timber_cite("8.2.2, eq. 8.6"),
        ),
    )


def _limit_step(joint: NailedJoint, effective: float, kmod: float, limit: float) -> Step:
    return step(
        "Design resistance of one nail in a row",
        "F_v,d",
        "k_mod·(n_ef/n)·F_v,k / γ_M",
        f"{kmod:g} · {effective:.4f} · {joint.resistance:.0f} / {GAMMA_CONNECTION.value:g}",
        Shown(limit, "N", 1),
        timber_cite("2.4.3 and 8.3.1.1, eq. 8.17"),
    )


NAILS_CARRY = Rule(
    name="nails-carry-the-cut-layer",
    title="Nails lead the cut layer past its butt joint",
    why="At every butt joint one layer ends. Its force goes through the nails into its neighbours, or the "
    "rib is a layer weaker than it looks.",
    cites=(timber_cite("8.2.2 and 8.3.1"),),
    decide=_carry,
    asks=("vault.nails", "vault.nails_each_side", "vault.nail_spacing", "vault.predrilled"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What the nails need in one direction, and what there is."""

    where: str
    needed: float
    there: float
    advice: str
    place: str = "8.3.1.2, table 8.2"
    """Where the standard asks for it."""


def _room(study: Study) -> Iterator[Said]:
    joint, nail = study.strength.joint, study.vault.nails
    if study.strength.bent:
        yield BENT
        return
    if joint is None or nail is None:
        yield UNKNOWN_NAILS
        return
    for room in _rooms(study, joint, nail):
        yield _room_said(room, joint)
    fewest = joint.halves.bare or joint.halves.fewest
    if fewest is not None:
        yield _bare(study, fewest) if fewest.bare else _drawn(joint, fewest)


def _drawn(joint: NailedJoint, half: Half) -> Said:
    """The half with the fewest nails as it is drawn, and how its strength is reckoned."""
    usual = joint.places[0].size
    template = "Half of piece {piece} has room for {drawn} of {usual} nails"
    template += ". The other layers take its bending." if half.relieved else "; they are reckoned with."
    return Said(
        verdict=Verdict.HOLDS,
        template=template
        if half.along.size < usual
        else "Every half of a piece has room for {drawn} nails or more.",
        values={
            "piece": half.piece,
            "drawn": Shown(float(half.along.size), "", 0),
            "usual": Shown(float(usual), "", 0),
        },
        steps=tuple(_sharing(joint, half)),
    )


def _sharing(joint: NailedJoint, half: Half) -> Iterator[Step]:
    """How much the other layers take beside short pieces at a foot."""
    if not half.relieved:
        return
    most, peak = joint.halves.most_beside(half.piece), float(joint.pieces.moment_peak)
    yield step(
        "Largest bending of one layer beside the short pieces at that foot, over its equal share; no layer "
        f"may take more than the peak, {peak:.3f}",
        "n·w/Σw",
        "w grows from 0 at a layer's own joint to 1 half a piece away; 0 in short pieces",
        "",
        Shown(most, "", 3),
    )


def _rooms(study: Study, joint: NailedJoint, nail: Nail) -> Iterator[Room]:
    needed, there = _along(study, joint)
    yield Room(
        where="along a piece",
        needed=needed,
        there=there,
        advice="Write a longer [vault] board_length, fewer nails_each_side, or thinner nails.",
    )
    yield Room(
        where="over the depth",
        needed=joint.height,
        there=study.form.rib.depth,
        advice="Write thinner [vault] nails, fewer nails_each_side, or a larger depth.",
    )
    yield Room(
        where="between each other along the layers",
        needed=float(joint.least.along),
        there=ROWS_ALONG * joint.spacing,
        advice="Write a larger [vault] nail_spacing, or thinner nails.",
    )
    if not study.vault.predrilled:
        yield Room(
            where="of board under the head, not predrilled",
            needed=float(ec5.splitting_thickness(nail.diameter, study.strength.timber.density_low)),
            there=study.strength.board,
            advice='Write [vault] predrilled = "yes" and drill, or take thinner nails.',
            place="8.3.1.2, eq. 8.18",
        )


def _room_said(room: Room, joint: NailedJoint) -> Said:
    """There is room or there is none; nothing is tight."""
    ratio = room.needed / room.there
    verdict = Verdict.HOLDS if ratio <= 1 else Verdict.FAILS
    needed, there = Shown(room.needed, "mm", 0), Shown(room.there, "mm", 0)
    distances = step(
        f"Least distances, {joint.count} nails in {joint.rows} rows, worse of along and across the grain",
        "needed",
        room.place,
        "",
        Shown(room.needed, "mm", 1),
        timber_cite(room.place),
    )
    filled = f"{room.needed * 1e3:.1f} / {room.there * 1e3:.1f}"
    return Said(
        verdict=verdict,
        template="Nails need {needed} {where}; there are {there}.",
        values={"needed": needed, "where": room.where, "there": there},
        demand=room.needed,
        capacity=room.there,
        unit="mm",
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else room.advice,
        steps=(distances, common.ratio_step("Room used", "needed / there", filled, ratio)),
    )


def _along(study: Study, joint: NailedJoint) -> tuple[float, float]:
    """Length that the nails need and that there is, on the piece with least room (m).

    A piece at a foot is cut at one end only.
    """
    length = study.form.rib.centreline.length
    rooms = []
    for piece in study.form.rib.pieces:
        cuts = int(piece.start > AT_FOOT) + int(piece.end < length - AT_FOOT)
        rooms.append((cuts * joint.zone, piece.end - piece.start))
    return max(rooms, key=lambda room: room[0] / room[1])


NAILS_FIT = Rule(
    name="nails-find-room",
    title="Nails find room in the boards",
    why="Nails too near to an end, an edge or each other split the board, and then they carry nothing.",
    cites=(timber_cite("8.3.1.2, table 8.2, eq. 8.18"),),
    decide=_room,
    asks=("vault.nails", "vault.nails_each_side", "vault.nail_spacing", "vault.predrilled"),
)
