"""The centreline of a vault's ribs, by the family that its builder chose."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.known import known
from bermwright.handbook import curves
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.form.ground import Around
    from bermwright.handbook.curves import CoverCurve, PlaneCurve
    from bermwright.house import Fill, Vault

SEEN = 5e-4
"""What is smaller is drawn as nothing (m)."""


def rise_of(vault: Vault) -> float | None:
    """Rise of the centreline, from whatever describes it; None when nothing does (m)."""
    match vault.curve:
        case CurveKind.SEMICIRCLE:
            return 0.5 * vault.span
        case CurveKind.DRAWN:
            return max((z for _, z in vault.points), default=None)
        case CurveKind.CATENARY if vault.rise is None and vault.chain is not None:
            return float(curves.catenary_rise(vault.span, vault.chain))
        case CurveKind.POINTED if vault.rise is None and vault.centre_offset is not None:
            return float(curves.pointed_rise(vault.span, vault.centre_offset))
    return vault.rise


def missing_for_curve(vault: Vault, fill: Fill | None) -> tuple[str, ...]:
    """What the file does not say and the curve cannot do without, as plain paths."""
    missing = [] if rise_of(vault) is not None else ["vault.rise"]
    if vault.curve is CurveKind.THREE_CENTRED and vault.side_radius is None:
        missing.append("vault.side_radius")
    if vault.curve is CurveKind.EGG:
        radii = ("base_centre", "flank_radius", "crown_radius")
        missing += [f"vault.{name}" for name in radii if getattr(vault, name) is None]
    if vault.curve is CurveKind.UNDER_COVER:
        for name in ("unit_weight", "friction_angle"):
            if fill is None or getattr(fill, name) is None:
                missing.append(f"vault.fill.{name}")
        if any(layer.unit_weight is None for layer in vault.cover):
            missing.append("vault.cover.unit_weight")
    return tuple(missing)


CLOSED: Mapping[CurveKind, Callable[[float, float], PlaneCurve]] = MappingProxyType(
    {
        CurveKind.CATENARY: curves.catenary,
        CurveKind.PARABOLA: curves.parabola,
        CurveKind.SEMICIRCLE: curves.segment,
        CurveKind.SEGMENT: curves.segment,
        CurveKind.ELLIPSE: curves.ellipse,
    }
)
"""Curves that span and rise describe."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Centreline:
    """The curve over its springing line, and what has to be said about it."""

    line: PlaneCurve
    remarks: tuple[str, ...] = ()
    cover: CoverCurve | None = None
    """The curve under cover that it is; None for every other."""


def centreline(
    vault: Vault, rise: float, around: Around, *, name_limit: bool = True, near: CoverCurve | None = None
) -> Centreline:
    """The curve of a vault.

    Where there is none, its error says what there would be, unless nobody reads that (`name_limit`).
    `near` is the curve under cover of a vault that differs a little.
    """
    if vault.curve in CLOSED:
        return Centreline(line=CLOSED[vault.curve](vault.span, rise))
    match vault.curve:
        case CurveKind.POINTED:
            line, remarks = _pointed(vault.span, rise)
            return Centreline(line=line, remarks=remarks)
        case CurveKind.UNDER_COVER:
            return _under_cover(vault.span, rise, around, name_limit=name_limit, near=near)
        case CurveKind.LEVEL_SOIL:
            curve = curves.level_cover(vault.span, rise, around.cover + around.face)
        case CurveKind.DRAWN:
            curve = curves.through_points(*np.array(vault.points).T)
        case _:
            curve = _chain(_arcs(vault, rise))
    return Centreline(line=curve)


def _arcs(vault: Vault, rise: float) -> tuple[curves.Arc, ...]:
    if vault.curve is CurveKind.THREE_CENTRED:
        return curves.three_centred_arcs(vault.span, rise, known(vault.side_radius, "vault.side_radius"))
    return curves.egg_arcs(
        vault.span,
        rise,
        base_centre=known(vault.base_centre, "vault.base_centre"),
        flank_radius=known(vault.flank_radius, "vault.flank_radius"),
        crown_radius=known(vault.crown_radius, "vault.crown_radius"),
    )


def _chain(arcs: tuple[curves.Arc, ...]) -> PlaneCurve:
    return curves.arc_chain(arcs, points=800)


def _pointed(span: float, rise: float) -> tuple[PlaneCurve, tuple[str, ...]]:
    valley = ("The crown of this pointed arch is a valley: water and soil gather in it.",)
    return _chain(curves.pointed_arcs(span, rise)), valley if rise < 0.5 * span else ()


def _under_cover(
    span: float, rise: float, around: Around, *, name_limit: bool, near: CoverCurve | None
) -> Centreline:
    load = known(around.load, "vault.fill")
    line = around.ground.finished
    ground = (line.x, line.z - around.crown_level)
    found = curves.under_cover(span, rise, ground=ground, load=load, name_limit=name_limit, near=near)
    first = (
        f"The curve is free of bending when finished, for soil of {load.unit_weight / 1e3:.1f} kN/m3 "
        f"that pushes sideways with K = {load.sideways:.2f}; in every other state it bends."
    )
    says = [first]
    if found.undercut > SEEN:
        says.append(
            f"The curve under cover bulges {1e3 * found.undercut:.0f} mm past its feet: soil under it cannot "
            "be compacted."
        )
    if abs(found.crown_x) > SEEN:
        side = "right" if found.crown_x > 0 else "left"
        says.append(f"Its crown lies {1e3 * abs(found.crown_x):.0f} mm to the {side} of mid-span.")
    return Centreline(line=found.line, remarks=tuple(says), cover=found)
