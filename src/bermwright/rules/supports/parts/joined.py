"""Whether what joins the feet under the floor holds, pressed and pulled."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.supports import EN1992
from bermwright.data.works.timber import EN1993, EN1995
from bermwright.house.parts.support_words import TieKind
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step
from bermwright.rules.supports import ties
from bermwright.rules.supports.base import bases, sides_of, worst_first
from bermwright.rules.supports.common import (
    acting_steps,
    at,
    does_not_apply,
    feet_lost,
    feet_unknown,
    spot_marks,
)
from bermwright.rules.supports.standing import tie_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.house.parts.holds import FloorTie
    from bermwright.rules.study import Study
    from bermwright.rules.supports.base import Governing

    Array = NDArray[np.float64]

SLAB_CITE = Cite(work=EN1992, place="12.6.5.2", provenance=Provenance.MEMORY)
CITES = {
    TieKind.SLAB: SLAB_CITE,
    TieKind.TIMBER: Cite(work=EN1995, place="6.3.2", provenance=Provenance.MEMORY),
    TieKind.ROD: Cite(work=EN1993, place="6.2.3", provenance=Provenance.MEMORY),
}


def _decide(study: Study) -> Iterator[Said]:
    tie = tie_of(study.house, study.vault.name)
    if tie is None:
        yield does_not_apply("tie or slab that joins the feet under the floor")
        return
    part = f'tie "{tie.name}"'
    lost = _lost(tie)
    known, missing = sides_of(study)
    if lost or missing:
        reason = ", ".join(lost) or "what stands under both feet"
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Not known: the file does not say {places}.",
            values={"places": reason},
            advice=f"Answer the questions about {reason}.",
            part=part,
        )
        return
    found = [base for side in known for base in bases(study, side, balance=False)]
    if feet_lost(found):
        yield feet_unknown(part)
        return
    for inward in (True, False):
        one_way = [base for base in found if base.inward is inward]
        limit = ties.pressed(study, tie) if inward else ties.pulled(tie)
        if not limit:
            continue
        top = worst_first(one_way, lambda base, limit=limit: np.maximum(base.along, 0.0) / limit)  # type: ignore[misc]
        if top is not None:
            yield replace(at(top, _said(study, top, tie, limit)), part=part)


def _lost(tie: FloorTie) -> tuple[str, ...]:
    needed: dict[str, object] = {}
    match tie.kind:
        case TieKind.SLAB:
            needed = {"tie.thickness": tie.thickness, "tie.concrete": tie.concrete}
        case TieKind.TIMBER:
            needed = {"tie.section": tie.section, "tie.timber": tie.timber, "tie.spacing": tie.spacing}
        case TieKind.ROD:
            needed = {"tie.rod": tie.rod}
    if tie.rod is not None:
        needed["tie.spacing"] = tie.spacing
    return tuple(place for place, value in needed.items() if value is None)


def _said(study: Study, top: Governing, tie: FloorTie, limit: float) -> Said:
    force = max(top.at(top.base.along), 0.0)
    return Said(
        verdict=verdict_of(top.ratio),
        template="{when}: both feet {do} {tie} with {force}; it holds {limit}"
        + (", if hard before soil is laid." if top.base.inward else "."),
        values={
            "do": "press" if top.base.inward else "pull",
            "tie": tie.name,
            "force": Shown(force, "kN/m", 1),
            "limit": Shown(limit, "kN/m", 1),
        },
        demand=force,
        capacity=limit,
        unit="kN/m",
        advice="Write a larger [[tie]] thickness or section, or a smaller spacing.",
        steps=(*acting_steps(top), *_steps(study, top, tie, limit, force)),
    )


def _steps(study: Study, top: Governing, tie: FloorTie, limit: float, force: float) -> tuple[Step, ...]:
    formula, filled = _how(study, tie, pressed=top.base.inward)
    return (
        step(
            "Whole push along the base, friction under it left out",
            "T",
            "H ± P",
            f"{top.at(top.base.push) / 1e3:.1f} ± {top.at(top.base.soil.force) / 1e3:.1f}",
            Shown(force, "kN/m", 1),
        ),
        step("It holds on a metre", "T_Rd", formula, filled, Shown(limit, "kN/m", 1), CITES[tie.kind]),
        ratio_step("Strength used", "T / T_Rd", f"{force / 1e3:.1f} / {limit / 1e3:.1f}", top.ratio),
    )


def _how(study: Study, tie: FloorTie, *, pressed: bool) -> tuple[str, str]:
    if not pressed:
        return ("F_end / s", "") if tie.kind is TieKind.TIMBER else ("A_s·f_yd / s", "")
    free = ties.free_length(study, tie)
    if tie.kind is TieKind.SLAB:
        return "t·f_cd,pl·Φ", f"t = {tie.thickness:.2f} m, free over {free:.2f} m"
    return "k_c·f_c,0,d·A / s", f"free over {free:.2f} m, service class {ties.DAMP_CLASS}"


FLOOR_TIE_HOLDS = Rule(
    name="floor-tie-holds-the-feet",
    title="What joins the feet under the floor holds",
    why="Soil presses both feet together while the vault is filled; later its thrust may pull them apart. "
    "What is made to pull bows out when it is pressed.",
    cites=(SLAB_CITE,),
    decide=_decide,
    draws=spot_marks,
    asks=("tie.thickness", "tie.concrete", "tie.section", "tie.timber", "tie.rod", "tie.spacing"),
)
