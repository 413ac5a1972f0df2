"""How far the vault moves, and whether its pieces can be lifted."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.timber_classes import DEFLECTION_LIMIT
from bermwright.data.works.rates import NIOSH94110
from bermwright.handbook.lifting import lifters_needed
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import place_of, spot_of, step, timber_cite
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.rules.study import Study

ONE_PERSON = 23.0
"""What nearly all healthy workers may lift, close to the body and at hip height (kg)."""


def _sag(study: Study) -> Iterator[Said]:
    service = study.service
    counted = service.where_situation(lambda now: now.stage.kind is not StageKind.RIBS)
    moved = np.hypot(service.response.displacement[..., 0], service.response.displacement[..., 1])
    moved = np.where(service.bends[:, :, None] & counted[None, :, None], moved, -np.inf)
    if np.isnan(moved).any():
        yield Said(verdict=Verdict.UNKNOWN, template="How far the ribs move is not known: no state of rest was found in some run.")
        return
    lane, situation, node = (int(i) for i in np.unravel_index(int(np.argmax(moved)), moved.shape))
    most, limit = float(moved[lane, situation, node]), DEFLECTION_LIMIT.value * study.form.span
    now = service.situations[situation]
    yield Said(
        verdict=verdict_of(most / limit),
        template="At {stage} ({case}) the ribs have moved by {most} at most; {limit} is allowed.",
        values={
            "stage": now.stage.name, "case": now.case.name, "most": Shown(most, "mm", 1), "limit": Shown(limit, "mm", 0),
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, node),
        demand=most,
        capacity=limit,
        unit="mm",
        ratio=most / limit,
        corner=service.lanes[lane].corner,
        advice="" if most / limit <= 0.9 else "Stiffer ribs, more nails along the layers, longer boards.",
        steps=(
            step("Largest movement, all factors 1, creep in the last stage", "u", "frame, second order", service.lanes[lane].run, most, "mm", 1),
            step("Allowed", "u_max", "span / 150", f"{study.form.span:.2f} m / 150", limit, "mm", 0, DEFLECTION_LIMIT.cite),
        ),
        spot=spot_of(study, node),
    )  # fmt: skip


RIBS_STAY = Rule(
    name="ribs-keep-their-shape",
    title="The ribs keep their shape",
    why="Membrane, doors and plaster follow the ribs; large movement also means that the soil is no longer where it "
    "was thought to be.",
    cites=(timber_cite("7.2, table 7.2"),),
    decide=_sag,
    asks=("vault.service_class", "vault.seasoned"),
)


def _lift(study: Study) -> Iterator[Said]:
    rib, density = study.form.rib, study.strength.timber.density
    board = rib.width / rib.layers
    heaviest = max(piece.blank_length * piece.blank_width for piece in rib.pieces) * board * density
    half = 0.5 * rib.centreline.length * rib.width * rib.depth * density
    team = lifters_needed(half, each=ONE_PERSON)
    who = f"{team} people" if team else "a hoist"
    ratio = heaviest / ONE_PERSON
    yield Said(
        verdict=verdict_of(ratio) if ratio > 1 else Verdict.HOLDS,
        template="The heaviest blank weighs {piece}; half a rib weighs {half} and needs {who}.",
        values={"piece": Shown(heaviest, "kg", 0), "half": Shown(half, "kg", 0), "who": who},
        stage=next((stage.name for stage in study.stages if stage.kind is StageKind.RIBS), None),
        demand=heaviest,
        capacity=ONE_PERSON,
        unit="kg",
        ratio=ratio,
        advice="" if ratio <= 1 else "Two people to a blank, or shorter boards.",
        steps=(
            step("Heaviest blank", "m", "l·b·t·ρ", f"ρ {density:.0f} kg/m³", heaviest, "kg", 1),
            step("Half a rib", "m", "½·s·n·t·h·ρ", f"s {rib.centreline.length:.2f} m", half, "kg", 0),
            step("One person, close to the body", "m", "load constant", "", ONE_PERSON, "kg", 0, NIOSH_CITE),
        ),
    )


NIOSH_CITE = Cite(work=NIOSH94110, place="load constant of the lifting equation", provenance=Provenance.READ)

PIECES_LIFT = Rule(
    name="pieces-can-be-lifted",
    title="Pieces and ribs can be lifted",
    why="Backs are hurt, and ribs dropped, by lifts that looked possible.",
    cites=(NIOSH_CITE,),
    decide=_lift,
)
