"""Do the nails beside a butt joint lead the cut layer's share past the cut, and is there room for them?"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.data.timber_classes import GAMMA_CONNECTION
from bermwright.handbook import timber as ec5
from bermwright.rules.analysis.strength import joint_forces, nail_ratio
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import corner_of, factor_step, not_known, place_of, spot_of, step, timber_cite, worst_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.analysis.joint import NailedJoint
    from bermwright.rules.ribs.common import Worst
    from bermwright.rules.study import Study


def _carry(study: Study) -> Iterator[Said]:
    joint = study.strength.joint
    if not study.strength.joint_nodes.size:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="No layer of the ribs is cut.")
    elif joint is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not give the nails, their number at a butt joint and their spacing.",
            advice="Answer the questions about the nails.",
        )
    elif not math.isfinite(joint.resistance):
        yield Said(
            verdict=Verdict.FAILS,
            template="The nails reach {point} into the next board; less than 8 diameters does not count.",
            values={"point": Shown(joint.point, "mm", 0)},
            advice="Take longer or thinner nails.",
        )
    else:
        worst = worst_of(study, nail_ratio, lambda _now: True)
        if worst is not None:
            yield _said(study, worst, joint)


def _said(study: Study, worst: Worst, joint: NailedJoint) -> Said:
    now = worst.peak.now
    if worst.ratio is None:
        template, values = not_known(worst)
        return Said(verdict=Verdict.UNKNOWN, template=template, values=values, stage=now.stage.name)
    node = int(study.strength.joint_nodes[worst.peak.place[0]])
    limit = _limit(study, worst, joint)
    return Said(
        verdict=worst.verdict,
        template="At {stage} ({case}) the nail that carries most at a butt joint takes {force} of {limit}.",
        values={
            "stage": now.stage.name,
            "case": now.case.name,
            "force": Shown(worst.ratio * limit, "N", 0),
            "limit": Shown(limit, "N", 0),
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, node),
        demand=worst.ratio * limit,
        capacity=limit,
        unit="N",
        ratio=worst.ratio,
        corner=corner_of(worst),
        advice="" if worst.verdict is Verdict.HOLDS else "More nails beside the joints and along the layers, thicker nails, longer boards.",
        steps=_working(study, worst, joint, limit),
        spot=spot_of(study, node),
    )


def _limit(study: Study, worst: Worst, joint: NailedJoint) -> float:
    kmod = float(study.strength.kmods(worst.peak.analysis)[worst.peak.situation])
    return float(ec5.design_strength(joint.resistance * joint.effective, kmod, gamma=GAMMA_CONNECTION.value))


def _working(study: Study, worst: Worst, joint: NailedJoint, limit: float) -> tuple[Step, ...]:
    moment, axial, shear = (
        float(force[worst.peak.index]) for force in joint_forces(worst.peak.analysis, study.strength.joint_nodes)
    )
    nail = study.vault.nails
    diameter = (nail.diameter if nail else math.nan) * 1e3
    kmod = limit * GAMMA_CONNECTION.value / (joint.resistance * joint.effective)
    along, _across = joint.places
    return (
        step("Bending of the rib at the joint, model factor in", "M", "frame", worst.peak.corner.run, moment, "kNm", 2),
        step("Thrust and shear of the rib there", "N", "frame", f"V = {shear / 1e3:.2f} kN", axial, "kN", 2),
        step("The middle of a piece carries more than its equal share", "peak", "pieces as beams on their nails",
             f"pieces of {joint.piece:.2f} m", float(joint.pieces.moment_peak), "", 2),
        step("Nail that carries most of those that tie half a piece", "F", "|(N + M·y/J, V + M·x/J)| / (n·m)",
             f"{along.size} nails in {study.strength.layers} layers", (worst.ratio or math.nan) * limit, "N", 0),
        step("Timber pressed by the nail", "f_h,k", "0.082·ρ_k·d^−0.3, predrilled 0.082·(1 − 0.01·d)·ρ_k",
             f"ρ_k {study.strength.timber.density_low:.0f}, d {diameter:.1f}", joint.embedment, "N/mm2", 1, timber_cite("8.3.1.1")),
        step("Nail bent to yielding", "M_y,k", "0.3·f_u·d^2.6", f"d {diameter:.1f} mm", joint.yield_moment, "Nmm", 0, timber_cite("8.3.1.1, eq. 8.14")),
        step(f"One shear plane, mode {joint.mode}", "F_v,k", "least of modes a to f", f"t₁ {joint.head * 1e3:.0f}, t₂ {joint.point * 1e3:.0f} mm",
             joint.resistance, "N", 0, timber_cite("8.2.2, eq. 8.6")),
        factor_step(study, worst),
        step("Design resistance of one nail in a row", "F_v,d", "k_mod·(n_ef/n)·F_v,k / γ_M",
             f"{kmod:.2f} · {joint.effective:.2f} · {joint.resistance:.0f} / 1.3", limit, "N", 0, timber_cite("2.4.3 and 8.3.1.1, eq. 8.17")),
    )  # fmt: skip


NAILS_CARRY = Rule(
    name="nails-carry-the-cut-layer",
    title="Nails lead the cut layer past its butt joint",
    why="At every butt joint one layer ends. Its force goes through the nails into its neighbours, or the rib is a "
    "layer weaker than it looks.",
    cites=(timber_cite("8.2.2 and 8.3.1"),),
    decide=_carry,
    asks=("vault.nails", "vault.nails_each_side", "vault.nail_spacing", "vault.predrilled"),
)


def _room(study: Study) -> Iterator[Said]:
    joint = study.strength.joint
    if joint is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not give the nails, their number at a butt joint and their spacing.",
            advice="Answer the questions about the nails.",
        )
        return
    needed_along, there_along = _along(study, joint)
    checks = [
        ("along a piece", needed_along, there_along, "longer pieces, or fewer or thinner nails beside a joint"),
        ("over the depth", joint.height, study.form.rib.depth, "thinner nails, fewer rows, or deeper ribs"),
        ("between nails along the layers", float(joint.least.along), 2 * joint.spacing, "a wider nail spacing, or thinner nails"),
    ]
    if not study.vault.predrilled:
        least = _least_thickness(study)
        checks.append(("for the board's thickness", least, study.strength.board, "predrill, or take thinner nails"))
    for where, needed, there, advice in checks:
        ratio = needed / there
        verdict = verdict_of(ratio) if ratio > 1 else Verdict.HOLDS
        yield Said(
            verdict=verdict,
            template="Nails need {needed} {where}; there are {there}.",
            values={"needed": Shown(needed, "mm", 0), "where": where, "there": Shown(there, "mm", 0)},
            place=where,
            demand=needed,
            capacity=there,
            unit="mm",
            ratio=ratio,
            advice="" if verdict is Verdict.HOLDS else advice[0].upper() + advice[1:] + ".",
            steps=(
                step("Least distances at a butt joint", "a₁, a₃,t, a₄,t", "table 8.2, worse of along and across the grain",
                     f"{joint.count} nails in {joint.rows} rows", needed, "mm", 0, timber_cite("8.3.1.2, table 8.2")),
            ),
        )  # fmt: skip


def _along(study: Study, joint: NailedJoint) -> tuple[float, float]:
    """Length that the nails need and that there is, on the piece with least room (m).

    A piece at a foot is cut at one end only.
    """
    length = study.form.rib.centreline.length
    rooms = []
    for piece in study.form.rib.pieces:
        cuts = int(piece.start > 1e-6) + int(piece.end < length - 1e-6)
        rooms.append((cuts * joint.zone, piece.end - piece.start))
    return max(rooms, key=lambda room: room[0] / room[1])


def _least_thickness(study: Study) -> float:
    """Least board thickness against splitting where holes are not predrilled (m)."""
    nail = study.vault.nails
    assert nail is not None
    return float(ec5.splitting_thickness(nail.diameter, study.strength.timber.density_low))


NAILS_FIT = Rule(
    name="nails-find-room",
    title="Nails find room in the boards",
    why="Nails too near to an end, an edge or each other split the board, and then they carry nothing.",
    cites=(timber_cite("8.3.1.2, table 8.2, eq. 8.18"),),
    decide=_room,
    asks=("vault.nails", "vault.nails_each_side", "vault.nail_spacing", "vault.predrilled"),
)
