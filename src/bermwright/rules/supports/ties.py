"""How much what joins the feet under the floor holds on a metre of vault, pressed and pulled."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.supports import GAMMA_CONCRETE, GAMMA_ROD, LONG_CONCRETE, PLAIN_CONCRETE
from bermwright.data.timber_classes import GAMMA_TIMBER, strength_class
from bermwright.handbook import timber as ec5
from bermwright.handbook.holding import bar_area, pressed_strut
from bermwright.house.parts.support_words import TieKind

if TYPE_CHECKING:
    from bermwright.house.parts.holds import FloorTie
    from bermwright.rules.study import Study

BED_LEAN = 0.1
"""A slab is pressed this share of its thickness out of its middle (-); EN 1992-1-1, 5.2 asks for less."""
SLAB_FREE = 12.0
"""A slab lies on the ground under soil's weight: between what keeps it from bowing up it counts this many
times its thickness, and no more than its width (-); judgement."""
DAMP_CLASS = 3
"""Service class of timber in or under a floor on the ground."""


def pressed(study: Study, tie: FloorTie) -> float | None:
    """What it holds when both feet press it (N/m); 0 for a rod, None where the file does not say enough."""
    match tie.kind:
        case TieKind.ROD:
            return 0.0
        case TieKind.SLAB:
            return _slab(study, tie)
        case TieKind.TIMBER:
            return _timber(study, tie)


def pulled(tie: FloorTie) -> float | None:
    """What it holds when the feet spread (N/m); 0 where nothing pulls, None where too little is said."""
    if tie.kind is TieKind.TIMBER:
        if tie.hold is None:
            return 0.0
        return None if tie.spacing is None else tie.hold / tie.spacing
    if tie.rod is None:
        return None if tie.kind is TieKind.ROD else 0.0
    if tie.spacing is None:
        return None
    return float(bar_area(tie.rod)) * tie.steel / GAMMA_ROD.value / tie.spacing


def free_length(study: Study, tie: FloorTie) -> float:
    """Length over which it may bow out (m)."""
    span = study.form.span
    if tie.kind is TieKind.SLAB:
        return min(span, SLAB_FREE * (tie.thickness or 0.0))
    return min(span, tie.propped or span)


def slab_strength(tie: FloorTie) -> float:
    """Design strength of plain concrete that is pressed for good (Pa)."""
    share = PLAIN_CONCRETE.value * LONG_CONCRETE.value
    return share * (tie.concrete or 0.0) / GAMMA_CONCRETE.value


def _slab(study: Study, tie: FloorTie) -> float | None:
    if tie.thickness is None or tie.concrete is None:
        return None
    return float(
        pressed_strut(
            tie.thickness,
            length=free_length(study, tie),
            strength=slab_strength(tie),
            eccentricity=BED_LEAN * tie.thickness,
        )
    )


def _timber(study: Study, tie: FloorTie) -> float | None:
    if tie.section is None or tie.timber is None or tie.spacing is None:
        return None
    grade = strength_class(tie.timber)
    thin, wide = sorted((tie.section.thickness, tie.section.width))
    area = thin * wide
    slender = ec5.slenderness(free_length(study, tie), wide * thin**3 / 12.0, area=area)
    relative = ec5.relative_slenderness(slender, grade.compression, modulus_low=grade.modulus_low)
    factor = float(np.minimum(ec5.buckling_factor(relative, straightness=0.2), 1.0))
    kmod = float(ec5.modification_factor(DAMP_CLASS, "permanent"))
    return factor * kmod * grade.compression / GAMMA_TIMBER.value * area / tie.spacing
