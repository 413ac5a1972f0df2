"""What does not fit together although each value alone is allowed.

Each check names the keys it reads, so that a file with mistakes elsewhere still gets all of the rest.
"""

from __future__ import annotations

import difflib
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.house.choices import CurveKind, Hold

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from bermwright.base.ranges import Range
    from bermwright.house.around import Fill, Mound
    from bermwright.house.building import Ballast, Prop, Stages, Tie
    from bermwright.house.model import House
    from bermwright.house.site import Soil
    from bermwright.house.vault import Vault

Key = tuple[str | int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """Values that cannot all be true. `path` are the keys in the file, entries counted from 0."""

    path: Key
    given: str
    allowed: str
    advice: str


@dataclass(frozen=True, slots=True)
class _Check:
    """A check of one table: the keys it reads, and what it finds."""

    here: Key
    reads: tuple[str, ...]
    clashes: Callable[[], Iterable[Contradiction]]

    def can_run(self, doubtful: frozenset[Key], above: frozenset[Key]) -> bool:
        """Whether nothing it reads is doubtful, lies in something doubtful or (`above`) holds it."""
        read = [(*self.here, *name.split(".")) for name in self.reads]
        return not any(need in above or doubtful.intersection(_beginnings(need)) for need in read)


def _beginnings(key: Key) -> list[Key]:
    return [key[:size] for size in range(len(key) + 1)]


def contradictions(house: House, doubtful: frozenset[Key] = frozenset()) -> tuple[Contradiction, ...]:
    """Everything that does not fit together; values under `doubtful` keys are not looked at."""
    checks = [*_site_checks(house), *_vault_checks(house), *_stage_checks(house)]
    above = frozenset(beginning for key in doubtful for beginning in _beginnings(key))
    return tuple(clash for check in checks if check.can_run(doubtful, above) for clash in check.clashes())


def _clash(here: Key, name: str, given: str, allowed: str, advice: str) -> Contradiction:
    path = (*here, *name.split(".")) if name else here
    return Contradiction(path=path, given=given, allowed=allowed, advice=advice)


def _metres(value: float) -> str:
    return f"{value:.4g} m"


# ---------------------------------------------------------------- site


def _site_checks(house: House) -> Iterator[_Check]:
    soils = house.site.soil
    yield _Check(("site",), ("soil",), lambda: _twice(("site", "soil"), [soil.name for soil in soils]))
    for count, soil in enumerate(soils):
        here: Key = ("site", "soil", count)
        yield _Check(here, ("unit_weight", "saturated_unit_weight"), _bound(_lighter_when_wet, here, soil))
        if count < len(soils) - 1:
            yield _Check(here, ("thickness",), _bound(_bottomless, here, soil))


def _bound(
    check: Callable[..., Iterable[Contradiction]], *given: object
) -> Callable[[], Iterable[Contradiction]]:
    return lambda: check(*given)


def _twice(here: Key, names: Sequence[str]) -> Iterator[Contradiction]:
    seen: dict[str, int] = {}
    for place, name in enumerate(names):
        first = seen.setdefault(name, place)
        if first < place:
            yield _clash(
                (*here, place),
                "name",
                f'"{name}"',
                f"is the name of number {first + 1} too; every name is used once.",
                "Give this one a name of its own.",
            )


def _lighter_when_wet(here: Key, soil: Soil | Fill) -> Iterator[Contradiction]:
    moist: Range | None = soil.unit_weight
    wet: Range | None = soil.saturated_unit_weight
    if moist is not None and wet is not None and (wet.low < moist.low or wet.high < moist.high):
        yield _clash(
            here,
            "saturated_unit_weight",
            f"{show(wet.low, 'kN/m3', 1)} to {show(wet.high, 'kN/m3', 1)}",
            "is less than the moist unit_weight; a soil full of water is heavier.",
            "Weigh both again, or swap the two.",
        )


def _bottomless(here: Key, soil: Soil) -> Iterator[Contradiction]:
    if soil.thickness is None:
        yield _clash(
            here,
            "thickness",
            "",
            "is missing, but another soil lies below; only the lowest one has no end.",
            "Write how thick this layer is.",
        )


# ---------------------------------------------------------------- vault


def _vault_checks(house: House) -> Iterator[_Check]:
    yield _Check((), ("vault",), lambda: _twice(("vault",), [vault.name for vault in house.vaults]))
    for count, vault in enumerate(house.vaults):
        here: Key = ("vault", count)
        yield _Check(here, ("curve", "span", *_CURVE_KEYS), _bound(_curve, here, vault))
        yield _Check(here, ("board", "depth"), _bound(_deeper_than_board, here, vault))
        yield _Check(here, ("board", "layers", "spacing"), _bound(_ribs_overlap, here, vault))
        yield _Check(here, ("board", "nails"), _bound(_short_nail, here, vault))
        yield _Check(here, ("feet",), _bound(_feet, here, vault))
        yield _Check(here, ("fill",), _bound(_fill, here, vault, house))
        yield _Check(here, ("mound", "span", "rise", "springing"), _bound(_mound, here, vault))


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
            yield _clash(
                here, name, "", f'is missing; a vault with the curve "{vault.curve}" needs it.', "Write it."
            )
    for name in given:
        if name not in needed and name not in _ALLOWED.get(vault.curve, ()):
            users = [str(kind) for kind in CurveKind if name in (*_NEEDED[kind], *_ALLOWED.get(kind, ()))]
            yield _clash(
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
        yield _clash(
            here,
            first,
            "",
            f'is missing; a vault with the curve "{vault.curve}" needs it, or {second}.',
            "Write it.",
        )
    elif not both and set(names) <= given:
        yield _clash(
            here,
            second,
            f"beside {first}",
            f"is one too many: span and {first} already give the curve, and the {second} with it.",
            f"Take out {second} or {first}.",
        )


def _short_chain(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.chain is not None and vault.chain <= vault.span:
        yield _clash(
            here,
            "chain",
            _metres(vault.chain),
            f"does not reach over the span of {_metres(vault.span)}.",
            "Measure the chain between the two nails it hangs from.",
        )


def _drop_arch(here: Key, vault: Vault) -> Iterator[Contradiction]:
    offset = vault.centre_offset
    if offset is not None and offset <= -vault.span / 4:
        yield _clash(
            here,
            "centre_offset",
            _metres(offset),
            f"is too far to the own side: at {_metres(-vault.span / 4)} and below the two arcs do not meet.",
            "Write a larger one; 0 m is the semicircle.",
        )


def _not_half(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.rise is not None and not math.isclose(vault.rise, vault.span / 2, rel_tol=1e-3):
        yield _clash(
            here,
            "rise",
            _metres(vault.rise),
            f"is not that of a semicircle of {_metres(vault.span)}, which rises {_metres(vault.span / 2)}.",
            'Take the rise out, or choose "segment" or "ellipse".',
        )


def _side_radius(here: Key, vault: Vault) -> Iterator[Contradiction]:
    half, rise, side = vault.span / 2, vault.rise, vault.side_radius
    if rise is None or side is None:
        return
    least = (half**2 + rise**2) / (2 * half)
    if rise <= half and side >= min(half, rise):
        yield _clash(
            here,
            "side_radius",
            _metres(side),
            f"is too large: in a low arch it is less than the rise of {_metres(rise)}.",
            "Write a smaller one.",
        )
    if rise > half and side <= least:
        yield _clash(
            here,
            "side_radius",
            _metres(side),
            f"is too small: in an arch taller than half its span it is more than {_metres(least)}.",
            "Write a larger one.",
        )


def _drawn(here: Key, vault: Vault) -> Iterator[Contradiction]:
    (left, left_z), (right, right_z) = vault.points[0], vault.points[-1]
    half = vault.span / 2
    on_feet = all(abs(value) < 1e-3 for value in (left + half, right - half, left_z, right_z))  # noqa: PLR2004  (1 mm)
    if not on_feet:
        yield _clash(
            here,
            "points",
            f"from ({left:.3f}, {left_z:.3f}) to ({right:.3f}, {right_z:.3f}) m",
            f"do not begin and end on the feet, ({-half:.3f}, 0) and ({half:.3f}, 0) m.",
            "Move the first and last point, or change the span.",
        )
    top = max(z for _, z in vault.points)
    if vault.rise is not None and not math.isclose(top, vault.rise, rel_tol=1e-3):
        yield _clash(
            here,
            "rise",
            _metres(vault.rise),
            f"does not agree with the drawn points, whose highest is {_metres(top)} over the feet.",
            "Take the rise out, or move the points.",
        )


def _deeper_than_board(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.depth is not None and vault.depth > vault.board.width + 1e-9:
        yield _clash(
            here,
            "depth",
            f"{vault.depth * 1e3:.0f} mm",
            f"is more than the board is wide ({vault.board.width * 1e3:.0f} mm).",
            "Write a smaller depth or a wider board.",
        )


def _ribs_overlap(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.spacing <= vault.rib_width:
        yield _clash(
            here,
            "spacing",
            _metres(vault.spacing),
            f"leaves no gap between ribs that are {vault.rib_width * 1e3:.0f} mm wide.",
            "The spacing counts from middle to middle; write a larger one.",
        )


def _short_nail(here: Key, vault: Vault) -> Iterator[Contradiction]:
    if vault.nails is not None and vault.nails.length <= vault.board.thickness:
        yield _clash(
            here,
            "nails",
            f"{vault.nails.length * 1e3:.0f} mm long",
            f"do not reach through the first board of {vault.board.thickness * 1e3:.0f} mm.",
            "Write diameter x length, with a longer nail.",
        )


def _feet(here: Key, vault: Vault) -> Iterator[Contradiction]:
    feet = vault.feet
    if feet is not None and feet.stiffness is not None and feet.hold not in {Hold.ELASTIC, None}:
        yield _clash(
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
        yield _clash(
            here,
            "fill.soil",
            f'"{wanted}"',
            f"is not the name of a soil of the site; {known}",
            "Write one of these names.",
        )
    both = house.fill(vault)
    if both is not None:
        yield from _lighter_when_wet((*here, "fill"), both)


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
        yield _clash(
            here,
            "line",
            f"beside {', '.join(names)}",
            "describes the finished ground a second time.",
            "Keep the line, or crown and slopes, not both.",
        )


def _thick_turf(here: Key, mound: Mound) -> Iterator[Contradiction]:
    if mound.turf is not None and mound.crown is not None and mound.turf > mound.crown + 1e-9:
        yield _clash(
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
            yield _clash(
                here,
                name,
                show(toe, "level"),
                f"lies above the top of the vault, {show(top, 'level')}; a toe is where the slope ends.",
                "Levels count from the finished floor.",
            )


def _short_lines(here: Key, vault: Vault, mound: Mound) -> Iterator[Contradiction]:
    for name, line in (("line", mound.line), ("natural", mound.natural)):
        if line and (line[0][0] > -vault.span / 2 or line[-1][0] < vault.span / 2):
            yield _clash(
                here,
                name,
                f"from {line[0][0]:.3g} m to {line[-1][0]:.3g} m",
                f"does not reach over the vault, {_metres(vault.span / 2)} to each side.",
                "Write points out to where the ground is as it was.",
            )


# ---------------------------------------------------------------- stages


def _stage_checks(house: House) -> Iterator[_Check]:
    stages, here = house.stages, ("stages",)
    yield _Check(here, ("lift", "lead"), lambda: _long_lead(here, stages))
    if stages.ballast is not None:
        yield _Check(
            (*here, "ballast"), ("from", "until"), _bound(_upside_down, (*here, "ballast"), stages.ballast)
        )
    for key, rows in (("prop", stages.props), ("tie", stages.ties)):
        for count, row in enumerate(rows):
            yield _Check(
                (*here, key, count), ("from", "until"), _bound(_upside_down, (*here, key, count), row)
            )
    for count, prop in enumerate(stages.props):
        both = ("stiffness", "section")
        yield _Check((*here, "prop", count), both, _bound(_said_twice, (*here, "prop", count), prop, both))
    for count, tie in enumerate(stages.ties):
        both = ("rod", "area")
        yield _Check((*here, "tie", count), both, _bound(_said_twice, (*here, "tie", count), tie, both))


def _long_lead(here: Key, stages: Stages) -> Iterator[Contradiction]:
    if stages.lead is not None and stages.lead > stages.lift + 1e-9:
        yield _clash(
            here,
            "lead",
            _metres(stages.lead),
            f"is more than one lift ({_metres(stages.lift)}); nothing is filled further ahead than one lift.",
            "Write a smaller lead or a thicker lift.",
        )


def _upside_down(here: Key, row: Ballast | Prop | Tie) -> Iterator[Contradiction]:
    if row.until <= row.start:
        yield _clash(
            here,
            "until",
            show(row.until, "level"),
            f"is not above from, {show(row.start, 'level')}; the fill rises from the first to the second.",
            "Swap the two levels, or write a higher one.",
        )


def _said_twice(here: Key, row: Prop | Tie, names: tuple[str, str]) -> Iterator[Contradiction]:
    first, second = names
    if getattr(row, first) is not None and getattr(row, second) is not None:
        yield _clash(
            here,
            second,
            f"beside {first}",
            f"says the same as {first} a second time.",
            f"Keep {first} or {second}.",
        )
