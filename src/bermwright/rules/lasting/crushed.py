"""Whether the insulation carries for good what lies on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.lasting import EN13163
from bermwright.house import CoverKind
from bermwright.rules.analysis.response import first_largest
from bermwright.rules.lasting.accident import finished
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import corner_of, moment_of, place_of, ratio_step, step
from bermwright.rules.ribs.lagging import NO_REST, plank_pressure, square_terms

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import Cover
    from bermwright.rules.study import Study

LONG = Cite(
    work=EN13163,
    place="what creeps under 2 % in 50 years is its long-term strength, about 0.3 of the one at 10 % squeeze",
    provenance=Provenance.MEMORY,
)


def _decide(study: Study) -> Iterator[Said]:
    layers = [one for one in study.vault.cover if one.kind is CoverKind.INSULATION]
    if not layers:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="No insulation lies over the vault.")
    for layer in layers:
        yield _of_layer(study, layer)


def _of_layer(study: Study, layer: Cover) -> Said:
    if layer.strength is None:
        return Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not say what {layer} carries for good.",
            values={"layer": layer.title},
            advice="Write [[vault.cover]] strength: the long-term one of the maker's sheet.",
        )
    service, mesh = study.service, study.form.mesh
    there = service.bends & service.where_situation(finished)
    pressure = plank_pressure(study, service)
    if not there.any() or not np.isfinite(pressure[there]).all():
        return NO_REST
    filled = np.where(there[:, :, None], pressure, 0.0)
    lane, situation, node = first_largest(filled)
    most = float(filled[lane, situation, node])
    ratio, now = most / layer.strength, service.situations[situation]
    verdict = verdict_of(ratio)
    return Said(
        verdict=verdict,
        template="{when}: {pressure} lies on {layer}; for good it carries {strength}.",
        values={
            **moment_of(now),
            "layer": layer.title,
            "pressure": Shown(most, "kPa", 1),
            "strength": Shown(layer.strength, "kPa", 0),
        },
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, node),
        demand=most,
        capacity=layer.strength,
        unit="kPa",
        ratio=ratio,
        corner=corner_of(service, lane),
        advice="" if verdict is Verdict.HOLDS else "Take insulation that carries more ([[vault.cover]] "
        "strength), or less soil ([vault.mound] crown).",
        steps=(
            step("Pressure square to the layer, all factors 1", "p",
                 *square_terms(study, service, (int(lane), int(situation), int(node))),
                 Shown(most, "kPa", 3)),
            ratio_step("Long-term strength used", "p/f", f"{most / 1e3:.3f}/{layer.strength / 1e3:g}", ratio,
                       LONG),
        ),
        spot=Spot(float(mesh.soil_x[node]), float(mesh.soil_z[node])),
    )  # fmt: skip


NOT_CRUSHED = Rule(
    name="insulation-is-not-crushed",
    title="The insulation is not crushed",
    why="Foam under soil creeps. Squeezed flat it keeps less warmth in, the cover sinks, and the sheet on it "
    "is stretched.",
    cites=(LONG,),
    decide=_decide,
    asks=("vault.cover.strength",),
)
