"""What does not fit together of a vault: its curve, ribs, feet, fill and mound."""

from __future__ import annotations

import difflib
import math
from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.data.timber_classes import HOLES_FROM, needs_holes
from bermwright.house.checks.common import (
    Check,
    Contradiction,
    Key,
    bound,
    clash,
    each,
    lighter_when_wet,
    metres,
    names_once,
)
from bermwright.house.choices import CurveKind, Hold, Structure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.around import Mound
    from bermwright.house.model import House
    from bermwright.house.vault import Vault


def vault_checks(house: House) -> Iterator[Check]:
    """The checks of every vault."""
    yield names_once(("vault",), house.vaults)
    soils = each(("site", "soil"), house.site.soil, "name", "unit_weight", "saturated_unit_weight")
    for count, vault in enumerate(house.vaults):
        here: Key = ("vault", count)
        yield Check(here, ("curve", "span", *_CURVE_KEYS), bound(_curve, here, vault))
        yield Check(here, ("structure", "board", "depth", "layers"), bound(_deeper_than_board, here, vault))
        yield Check(here, ("structure", "board", "layers", "spacing"), bound(_ribs_overlap, here, vault))
        yield Check(here, ("board", "nails"), bound(_short_nail, here, vault))
        yield Check(here, ("feet",), bound(_feet, here, vault))
        yield Check(here, ("timber", "predrilled"), bound(_driven_into_dense, here, vault))
        yield Check(here, ("fill",), bound(_fill, here, vault, house), soils)
        yield Check(here, ("mound", "span", "rise", "springing"), bound(_mound, here, vault))


def _driven_into_dense(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.predrilled is False and vault.nails is not None and needs_holes(vault.timber):
        yield clash(
            here,
            "predrilled",
            '"no"',
            f"does not go with {vault.timber}, denser than {HOLES_FROM.value:g} kg/m3: nails hold there "
            "through drilled holes only.",
            'Drill eight tenths of the nail, and write "yes"; or take a lighter class.',
        )


_CURVE_KEYS = (
    "rise",
    "chain",
    "centre_offset",
    "side_radius",
    "base_centre",
    "flank_radius",
    "crown_radius",
    "points",
)
_NEEDED: dict[CurveKind, tuple[str, ...]] = {
    CurveKind.CATENARY: (),
    CurveKind.UNDER_COVER: ("rise",),
    CurveKind.PARABOLA: ("rise",),
    CurveKind.SEMICIRCLE: (),
    CurveKind.ELLIPSE: ("rise",),
    CurveKind.SEGMENT: ("rise",),
    CurveKind.POINTED: (),
    CurveKind.THREE_CENTRED: ("rise", "side_radius"),
    CurveKind.EGG: ("rise", "base_centre", "flank_radius", "crown_radius"),
    CurveKind.LEVEL_SOIL: ("rise",),
    CurveKind.DRAWN: ("points",),
}
_ALLOWED: dict[CurveKind, tuple[str, ...]] = {
    CurveKind.CATENARY: ("rise", "chain"),
    CurveKind.SEMICIRCLE: ("rise",),
    CurveKind.POINTED: ("rise", "centre_offset"),
    CurveKind.DRAWN: ("rise",),
}
"""What else a curve may have."""


def _curve(here: Key, vault: Vault) -> Iterator[Contradiction]:
    given = [name for name in _CURVE_KEYS if getattr(vault, name) not in {None, ()}]
    needed = _NEEDED[vault.curve]
    for name in needed:
        if name not in given:
            yield clash(
                here, name, "", f'is missing; a vault with the curve "{vault.curve}" needs it.', "Write it."
            )
    for name in given:
        if name not in needed and name not in _ALLOWED.get(vault.curve, ()):
            users = [str(kind) for kind in CurveKind if name in (*_NEEDED[kind], *_ALLOWED.get(kind, ()))]
            yield clash(
                here,
                name,
                "",
                f'is not part of the curve "{vault.curve}", only of: {", ".join(users)}.',
                "Take it out, or change the curve.",
            )
    if set(needed) <= set(given):
        yield from _shape(here, vault, frozenset(given))


def _shape(here: Key, vault: Vault, given: frozenset[str]) -> Iterator[Contradiction]:
    match vault.curve:
        case CurveKind.CATENARY:
            yield from _one_of(here, vault, given, ("rise", "chain"), both=False)
            yield from _short_chain(here, vault)
        case CurveKind.POINTED:
            yield from _one_of(here, vault, given, ("rise", "centre_offset"), both=True)
            yield from _drop_arch(here, vault)
        case CurveKind.SEMICIRCLE:
            yield from _not_half(here, vault)
        case CurveKind.THREE_CENTRED:
            yield from _side_radius(here, vault)
        case CurveKind.DRAWN:
            yield from _drawn(here, vault)
        case _:
            pass


def _one_of(
    here: Key, vault: Vault, given: frozenset[str], names: tuple[str, str], *, both: bool
) -> Iterator[Contradiction]:
    first, second = names
    if not given & set(names):
        yield clash(
            here,
            first,
            "",
            f'is missing; a vault with the curve "{vault.curve}" needs it, or {second}.',
            "Write it.",
        )
    elif not both and set(names) <= given:
        yield clash(
            here,
            second,
            f"beside {first}",
            f"is one too many: span and {first} already give the curve, and the {second} with it.",
            f"Take out {second} or {first}.",
        )


def _short_chain(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.chain is not None and vault.chain <= vault.span:
        yield clash(
            here,
            "chain",
            metres(vault.chain),
            f"does not reach over the span of {metres(vault.span)}.",
            "Measure the chain between the two nails it hangs from.",
        )


def _drop_arch(here: Key, vault: Vault) -> Iterator[Contradiction]:
    offset = vault.centre_offset
    if offset is not None and offset <= -vault.span / 4:
        yield clash(
            here,
            "centre_offset",
            metres(offset),
            f"is too far to the own side: at {metres(-vault.span / 4)} and below the two arcs do not meet.",
            "Write a larger one; 0 m is the semicircle.",
        )


def _not_half(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.rise is not None and not math.isclose(vault.rise, vault.span / 2, rel_tol=1e-3):
        yield clash(
            here,
            "rise",
            metres(vault.rise),
            f"is not that of a semicircle of {metres(vault.span)}, which rises {metres(vault.span / 2)}.",
            'Take the rise out, or choose "segment" or "ellipse".',
        )


def _side_radius(here: Key, vault: Vault) -> Iterator[Contradiction]:
    half, rise, side = vault.span / 2, vault.rise, vault.side_radius
    if rise is None or side is None:
        return
    least = (half**2 + rise**2) / (2 * half)
    if rise <= half and side >= min(half, rise):
        yield clash(
            here,
            "side_radius",
            metres(side),
            f"is too large: in a low arch it is less than the rise of {metres(rise)}.",
            "Write a smaller one.",
        )
    if rise > half and side <= least:
        yield clash(
            here,
            "side_radius",
            metres(side),
            f"is too small: in an arch taller than half its span it is more than {metres(least)}.",
            "Write a larger one.",
        )


def _drawn(here: Key, vault: Vault) -> Iterator[Contradiction]:
    (left, left_z), (right, right_z) = vault.points[0], vault.points[-1]
    half = vault.span / 2
    on_feet = all(abs(value) < 1e-3 for value in (left + half, right - half, left_z, right_z))  # noqa: PLR2004  (1 mm)
    if not on_feet:
        yield clash(
            here,
            "points",
            f"from ({left:.3f}, {left_z:.3f}) to ({right:.3f}, {right_z:.3f}) m",
            f"do not begin and end on the feet, ({-half:.3f}, 0) and ({half:.3f}, 0) m.",
            "Move the first and last point, or change the span.",
        )
    top = max(z for _, z in vault.points)
    if vault.rise is not None and not math.isclose(top, vault.rise, rel_tol=1e-3):
        yield clash(
            here,
            "rise",
            metres(vault.rise),
            f"does not agree with the drawn points, whose highest is {metres(top)} over the feet.",
            "Take the rise out, or move the points.",
        )


def _deeper_than_board(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.structure is Structure.BENT:
        if vault.depth is not None:
            yield clash(
                here,
                "depth",
                f"{vault.depth * 1e3:.0f} mm",
                f"follows from {vault.layers} bent boards of {vault.board.thickness * 1e3:.0f} mm.",
                "Take it out.",
            )
        return
    if vault.depth is not None and vault.depth > vault.board.width + 1e-9:
        yield clash(
            here,
            "depth",
            f"{vault.depth * 1e3:.0f} mm",
            f"is more than the board is wide ({vault.board.width * 1e3:.0f} mm).",
            "Write a smaller depth or a wider board.",
        )


def _ribs_overlap(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.spacing <= vault.rib_width:
        yield clash(
            here,
            "spacing",
            metres(vault.spacing),
            f"leaves no gap between ribs that are {vault.rib_width * 1e3:.0f} mm wide.",
            "The spacing counts from middle to middle; write a larger one.",
        )


def _short_nail(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.nails is not None and vault.nails.length <= vault.board.thickness:
        yield clash(
            here,
            "nails",
            f"{vault.nails.length * 1e3:.0f} mm long",
            f"do not reach through the first board of {vault.board.thickness * 1e3:.0f} mm.",
            "Write diameter x length, with a longer nail.",
        )


def _feet(here: Key, vault: Vault) -> Iterator[Contradiction]:
    feet = vault.feet
    if feet is not None and feet.stiffness is not None and feet.hold not in {Hold.ELASTIC, None}:
        yield clash(
            here,
            "feet.stiffness",
            "",
            f'belongs to feet that are held "elastic"; these are "{feet.hold}".',
            "Take it out, or change hold.",
        )


def _fill(here: Key, vault: Vault, house: House) -> Iterator[Contradiction]:
    if vault.fill is None:
        return
    names = [soil.name for soil in house.site.soil]
    wanted = vault.fill.soil
    if wanted is not None and wanted not in names:
        near = difflib.get_close_matches(wanted, names, n=1, cutoff=0.0)
        known = (
            f'known are: {", ".join(names)}. Did you mean "{near[0]}"?'
            if near
            else "the file has no [[site.soil]]."
        )
        yield clash(
            here,
            "fill.soil",
            f'"{wanted}"',
            f"is not the name of a soil of the site; {known}",
            "Write one of these names.",
        )
    both = house.fill(vault)
    if both is not None:
        yield from lighter_when_wet((*here, "fill"), both)


def _mound(here: Key, vault: Vault) -> Iterator[Contradiction]:
    mound = vault.mound
    if mound is None:
        return
    yield from _two_grounds((*here, "mound"), mound)
    yield from _thick_turf((*here, "mound"), mound)
    yield from _high_toes((*here, "mound"), vault, mound)
    yield from _short_lines((*here, "mound"), vault, mound)


def _two_grounds(here: Key, mound: Mound) -> Iterator[Contradiction]:
    names = [
        name
        for name in ("crown", "left", "right", "left_toe", "right_toe")
        if getattr(mound, name) is not None
    ]
    if mound.line and names:
        yield clash(
            here,
            "line",
            f"beside {', '.join(names)}",
            "describes the finished ground a second time.",
            "Keep the line, or crown and slopes, not both.",
        )


def _thick_turf(here: Key, mound: Mound) -> Iterator[Contradiction]:
    if mound.turf is not None and mound.crown is not None and mound.turf > mound.crown + 1e-9:
        yield clash(
            here,
            "turf",
            f"{mound.turf * 1e3:.0f} mm",
            f"is more than the whole soil over the crown ({mound.crown * 1e3:.0f} mm), turf included.",
            "Write a thicker crown or thinner turf.",
        )


def _high_toes(here: Key, vault: Vault, mound: Mound) -> Iterator[Contradiction]:
    if vault.rise is None:
        return
    top = vault.springing + vault.rise + (mound.crown or 0.0)
    for name, toe in (("left_toe", mound.left_toe), ("right_toe", mound.right_toe)):
        if toe is not None and toe >= top:
            yield clash(
                here,
                name,
                show(toe, "level"),
                f"lies above the top of the vault, {show(top, 'level')}; a toe is where the slope ends.",
                "Levels count from the finished floor.",
            )


def _short_lines(here: Key, vault: Vault, mound: Mound) -> Iterator[Contradiction]:
    for name, line in (("line", mound.line), ("natural", mound.natural)):
        if line and (line[0][0] > -vault.span / 2 or line[-1][0] < vault.span / 2):
            yield clash(
                here,
                name,
                f"from {line[0][0]:.3g} m to {line[-1][0]:.3g} m",
                f"does not reach over the vault, {metres(vault.span / 2)} to each side.",
                "Write points out to where the ground is as it was.",
            )
