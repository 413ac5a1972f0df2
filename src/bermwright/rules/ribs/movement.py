"""How far the vault moves, and whether its pieces can be lifted."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.timber_classes import DEFLECTION_LIMIT
from bermwright.data.works.rates import NIOSH94110
from bermwright.rules.analysis.response import first_largest
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import (
    RIBS_FIRST,
    corner_of,
    lagged,
    moment_of,
    place_of,
    ratio_step,
    spot_of,
    step,
    timber_cite,
)
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.lifting import rib_lifters
from bermwright.takeoff.nails import rib_nails
from bermwright.takeoff.ribs import rib_volume

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.study import Study

ONE_PERSON = 23.0
"""What nearly all healthy workers may lift, close to the body and at hip height (kg)."""


def _sag(study: Study) -> Iterator[Said]:
    service = study.service
    moved = np.hypot(service.response.displacement[..., 0], service.response.displacement[..., 1])
    counted = service.bends & service.where_situation(lagged)
    moved = np.where(counted[:, :, None], moved, -np.inf)
    if not np.isfinite(moved[counted]).all():
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="How far the ribs move is not known: some soil run finds no state of rest.",
            advice=RIBS_FIRST,
        )
        return
    lane, situation, node = first_largest(moved)
    yield _sag_said(study, float(moved[lane, situation, node]), lane, (situation, node))


def _sag_said(study: Study, most: float, lane: int, at: tuple[int, int]) -> Said:
    (situation, node), service = at, study.service
    now, limit = service.situations[situation], DEFLECTION_LIMIT.value * study.form.span
    ratio = most / limit
    verdict = verdict_of(ratio)
    return Said(
        verdict=verdict,
        template="{when}: the ribs have moved by {most} at most; {limit} is allowed.",
        values={**moment_of(now), "most": Shown(most, "mm", 1), "limit": Shown(limit, "mm", 1)},
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, node),
        demand=most,
        capacity=limit,
        unit="mm",
        ratio=ratio,
        corner=corner_of(service, lane),
        advice=""
        if verdict is Verdict.HOLDS
        else "Write a larger [vault] depth or board_length, or a smaller nail_spacing.",
        steps=_sag_steps(study, service.lanes[lane].run, most, limit),
        spot=spot_of(study, node),
    )


def _sag_steps(study: Study, run: str, most: float, limit: float) -> tuple[Step, ...]:
    share = round(1 / DEFLECTION_LIMIT.value)
    return (
        step(
            f"Largest movement, all factors 1, creep in the last stage, {run} soil run",
            "u",
            "plane frame, second order",
            "",
            Shown(most, "mm", 2),
        ),
        step(
            "Allowed",
            "u_max",
            f"span / {share}",
            f"{study.form.span * 1e3:.0f} / {share}",
            Shown(limit, "mm", 2),
            DEFLECTION_LIMIT.cite,
        ),
        ratio_step("Share used", "u / u_max", f"{most * 1e3:.2f} / {limit * 1e3:.2f}", most / limit),
    )


RIBS_STAY = Rule(
    name="ribs-keep-their-shape",
    title="The ribs keep their shape",
    why="Membrane, doors and plaster follow the ribs. Large movement also means that the soil is no "
    "longer where it was thought to be.",
    cites=(timber_cite("7.2, table 7.2"),),
    decide=_sag,
    asks=("vault.service_class", "vault.seasoned"),
)


def _lift(study: Study) -> Iterator[Said]:
    """A blank is one person's lift; a rib goes up with a team or a hoist, and is only named."""
    rib, density = study.form.rib, study.strength.timber.density
    heaviest = max(rib.pieces, key=lambda piece: piece.blank_length * piece.blank_width)
    blank = heaviest.blank_length * heaviest.blank_width * rib.board * density
    nails = rib_nails(study.form, study.vault)
    wood, steel = rib_volume(rib) * density, nails.mass() if nails else 0.0
    half = 0.5 * (wood + steel)
    team = rib_lifters(half)
    verdict = Verdict.HOLDS if blank <= ONE_PERSON else Verdict.FAILS
    yield Said(
        verdict=verdict,
        template="The heaviest blank weighs {piece}; half a rib weighs {half} and takes {who}.",
        values={
            "piece": Shown(blank, "kg", 0),
            "half": Shown(half, "kg", 0),
            "who": f"{team} people" if team and team > 1 else "one person" if team else "a hoist",
        },
        stage=next((stage.name for stage in study.stages if stage.kind is StageKind.RIBS), None),
        demand=blank,
        capacity=ONE_PERSON,
        unit="kg",
        ratio=blank / ONE_PERSON,
        advice=""
        if verdict is Verdict.HOLDS
        else "Put two people to a blank, or write a shorter [vault] board_length.",
        steps=(
            step(
                "Half a rib, timber and nails" if nails else "Half a rib, its nails not given",
                "m",
                "½·(V·ρ + m_nails)",
                f"0.5 · ({rib_volume(rib):.4f} · {density:g} + {steel:.1f})",
                Shown(half, "kg", 1),
            ),
            step(
                "Heaviest blank",
                "m",
                "l·b·t·ρ",
                f"{heaviest.blank_length:.3f} · {heaviest.blank_width:.3f} · {rib.board:.4f} · {density:g}",
                Shown(blank, "kg", 2),
            ),
            step(
                "One person, close to the body",
                "m₁",
                "load constant",
                "",
                Shown(ONE_PERSON, "kg", 0),
                NIOSH_CITE,
            ),
            ratio_step("Share used", "m / m₁", f"{blank:.2f} / {ONE_PERSON:g}", blank / ONE_PERSON),
        ),
    )


NIOSH_CITE = Cite(work=NIOSH94110, place="load constant of the lifting equation", provenance=Provenance.READ)

PIECES_LIFT = Rule(
    name="pieces-can-be-lifted",
    title="Pieces and ribs can be lifted",
    why="Backs are hurt, and ribs dropped, by lifts that looked possible.",
    cites=(NIOSH_CITE,),
    decide=_lift,
    reads_ribs=False,
)
