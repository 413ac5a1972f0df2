"""Ribs of boards bent over each other: whether the boards bend to the curve, and whether nails tie them."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.timber_classes import GAMMA_CONNECTION
from bermwright.data.works.carpentry import NDS
from bermwright.data.works.timber import SWEDISHWOOD
from bermwright.form.rib.nails import worst_distances
from bermwright.handbook import carpentry
from bermwright.handbook import timber as ec5
from bermwright.rules.analysis.joint import ROWS_ALONG
from bermwright.rules.analysis.strength import slip_ratio
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs import common
from bermwright.rules.ribs.common import ratio_step, step, timber_cite

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.analysis.laminated import Laminations
    from bermwright.rules.ribs.common import Worst
    from bermwright.rules.study import Study

TIGHTEST = Sourced(
    125.0,
    Cite(
        work=NDS, place="5.3.8: radius over thickness of softwood laminations", provenance=Provenance.MEMORY
    ),
    "least inner radius over the thickness of a bent board",
)
CURVING_CITE = Cite(work=SWEDISHWOOD, place="bending a lamination", provenance=Provenance.DERIVED)
PIECES = Said(
    verdict=Verdict.DOES_NOT_APPLY, template="The ribs are pieces sawn to the curve; nothing is bent."
)


def _bends(study: Study) -> Iterator[Said]:
    bent = study.strength.bent
    if bent is None:
        yield PIECES
        return
    timber, inner = study.strength.timber, bent.inner_radius
    share = inner / bent.board
    ratio = math.inf if share <= 0.0 else TIGHTEST.value / share
    verdict = verdict_of(ratio)
    said = Said(
        verdict=Verdict.HOLDS if verdict is Verdict.TIGHT else verdict,
        template="Boards of {board} bend to {radius}, {share} times their thickness; {least} is the least.",
        values={
            "board": Shown(bent.board, "mm", 0),
            "radius": Shown(max(inner, 0.0), "m", 2),
            "share": f"{max(share, 0.0):.0f}",
            "least": f"{TIGHTEST.value:.0f} times",
        },
        demand=TIGHTEST.value,
        capacity=share,
        ratio=ratio if math.isfinite(ratio) else None,
        advice=""
        if ratio <= 1.0
        else "Take thinner boards and more layers, or a curve without a tight place.",
    )
    if inner <= 0.0:
        yield said
        return
    stress = float(carpentry.curving_stress(bent.board, inner, modulus=timber.modulus))
    creep = ec5.deformation_factor(study.strength.service_class, green=study.vault.seasoned is not True)
    kept = float(carpentry.kept_stress(stress, creep))
    lines = (
        step(
            "Stress while the board is bent", "σ", "E·t / (2·R)",
            f"{timber.modulus / 1e6:.0f} · {bent.board * 1e3:.0f} / (2 · {inner * 1e3:.0f})",
            Shown(stress, "N/mm2", 1), CURVING_CITE,
        ),
        step(
            "What is left of it after decades", "σ", "σ / (1 + k_def)",
            f"{stress / 1e6:.1f} / (1 + {creep:g})", Shown(kept, "N/mm2", 1), CURVING_CITE,
        ),
        step(
            "So much of the bending strength counts", "k_r", "0.76 + 0.001·r/t",
            f"0.76 + 0.001 · {share:.0f}", Shown(bent.bend_factor, "", 3), timber_cite("eq. 6.49"),
        ),
        ratio_step(
            "Least radius over that there is", "125·t / r",
            f"{TIGHTEST.value * bent.board:.2f} / {inner:.2f}", ratio, TIGHTEST.cite,
        ),
    )  # fmt: skip
    yield replace(said, steps=lines)


def _ties(study: Study) -> Iterator[Said]:
    bent, nail = study.strength.bent, study.vault.nails
    if bent is None:
        yield PIECES
    elif nail is None or bent.spacing is None:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not give the nails and their spacing.",
            advice="Answer the questions about [vault] nails and nail_spacing.",
        )
    elif not math.isfinite(bent.nail):
        needed = float(ec5.pointside_penetration(nail.diameter))
        yield Said(
            verdict=Verdict.FAILS,
            template="The nails do not reach {needed} into the next board: that is 8 diameters.",
            values={"needed": Shown(needed, "mm", 0)},
            advice="Write longer or thinner [vault] nails, or thicker boards.",
        )
    else:
        yield _room(study, bent)
        worst = common.worst_of(study, slip_ratio, every_run=True)
        if worst is not None:
            yield common.not_known(worst) if worst.ratio is None else _tied(study, bent, worst)


def _room(study: Study, bent: Laminations) -> Said:
    """Whether the nails find room across and along the boards."""
    nail, density = study.vault.nails, study.strength.timber.density_low
    drilled = bool(study.vault.predrilled)
    least = worst_distances(nail.diameter if nail else math.nan, density, predrilled=drilled)
    across = 2 * float(least.loaded_edge) + (ROWS_ALONG - 1) * float(least.across)
    along = float(least.along) / ROWS_ALONG
    used = {"across": across / bent.width, "along": along / (bent.spacing or math.nan)}
    worst = max(used, key=lambda name: used[name])
    good = used[worst] <= 1.0
    return Said(
        verdict=Verdict.HOLDS if good else Verdict.FAILS,
        template="Two rows of nails need {across} of width and {along} apart; there are {wide} and {apart}.",
        values={
            "across": Shown(across, "mm", 0),
            "along": Shown(along, "mm", 0),
            "wide": Shown(bent.width, "mm", 0),
            "apart": Shown(bent.spacing or math.nan, "mm", 0),
        },
        ratio=used[worst],
        advice="" if good else "Write thinner [vault] nails, a wider board, or a larger nail_spacing.",
        steps=(
            ratio_step(
                f"Room used {worst} the boards", "needed / there", "", used[worst], timber_cite("table 8.2")
            ),
        ),
    )


def _tied(study: Study, bent: Laminations, worst: Worst) -> Said:
    kmod = common.kmod_of(study, worst)
    limit = float(ec5.design_strength(bent.nail, kmod, gamma=GAMMA_CONNECTION.value))
    force = (worst.ratio or 0.0) * limit
    said = Said(
        verdict=worst.verdict,
        template="{when}: one nail between two boards carries {force} of {limit}.",
        values={"force": Shown(force, "N", 0), "limit": Shown(limit, "N", 0)},
        demand=force,
        capacity=limit,
        unit="N",
        advice="Write a smaller [vault] nail_spacing, or thicker nails.",
        steps=(
            *_stack_steps(bent),
            common.factor_step(study, worst),
            ratio_step(
                "Strength used",
                "F / F_v,d",
                f"{force:.0f} / {limit:.0f}",
                worst.ratio,
                timber_cite("8.2.2 and annex B"),
            ),
        ),
    )
    return common.at_worst(study, worst, worst.peak.place[0], said)


def _stack_steps(bent: Laminations) -> tuple[Step, ...]:
    annex = timber_cite("annex B, solved for every board")
    return (
        step(
            f"Of {bent.layers} boards {bent.counted} count; stiffness as they slip",
            "EI_ef", "boards coupled by their nails",
            f"γ = {bent.now.efficiency:.2f}, later {bent.later.efficiency:.2f}",
            Shown(bent.now.stiffness, "", 0), annex,
        ),
        step(
            "Shear between two boards per shear of the rib", "τ/V", "k·δ / (EI_ef·β²)", "",
            Shown(bent.flow, "", 2), annex,
        ),
        step(
            "Force along a board per bending of the rib", "N_i/M", "E·A·u_i / EI_ef", "",
            Shown(bent.pulled, "", 2), annex,
        ),
    )  # fmt: skip


BOARDS_BEND = Rule(
    name="boards-bend-to-the-curve",
    title="Bent boards bend to the curve without breaking",
    why="A board bent too sharply breaks over the form, or is half used up before anything rests on it.",
    cites=(TIGHTEST.cite, timber_cite("eq. 6.49")),
    decide=_bends,
    reads_ribs=False,
    asks=("vault.seasoned",),
)
NAILS_TIE = Rule(
    name="nails-tie-the-bent-boards",
    title="Nails keep bent boards from slipping on each other",
    why="Loose boards bend each for itself and carry a small part of what one thick rib carries.",
    cites=(timber_cite("8.2.2, table 8.2 and annex B"),),
    decide=_ties,
    asks=("vault.nails", "vault.nail_spacing", "vault.predrilled"),
)
