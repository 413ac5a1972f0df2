"""What does not fit together of ends, openings, posts, beams and floors."""

from __future__ import annotations

import difflib
from itertools import combinations
from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.house.checks.common import Check, Contradiction, Key, bound, clash, each, metres, names_once
from bermwright.house.choices import CurveKind
from bermwright.house.parts.choices import EndKind, OpeningSide
from bermwright.house.parts.posts import Floor

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.house.model import House
    from bermwright.house.parts.ends import End
    from bermwright.house.parts.openings import Opening
    from bermwright.house.parts.posts import Beam, Post
    from bermwright.house.vault import Vault

NEAR = 1e-9


def opening_checks(house: House) -> Iterator[Check]:
    """The checks of every end, opening, post, beam and floor."""
    for key, rows in (
        ("opening", house.openings),
        ("post", house.posts),
        ("beam", house.beams),
        ("floor", house.floors),
        ("graded", house.graded),
    ):
        yield names_once((key,), rows)
    yield from _end_checks(house)
    yield from _hole_checks(house)
    yield from _timber_checks(house)


def _end_checks(house: House) -> Iterator[Check]:
    yield Check(("end",), (), bound(_same_end, house.ends), each(("end",), house.ends, "vault", "at"))
    soils, grounds = [soil.name for soil in house.site.soil], each(("site", "soil"), house.site.soil, "name")
    for count, end in enumerate(house.ends):
        here: Key = ("end", count)
        yield Check(here, ("vault",), bound(_known, here, "vault", end.vault, _vaults(house)), _named(house))
        yield Check(here, ("soil",), bound(_known, here, "soil", end.soil, soils), grounds)
        yield Check(here, ("post", "post_diameter"), bound(_both, here, end, ("post", "post_diameter")))
        yield Check(here, ("kind", "post_spacing"), bound(_posts_of_nothing, here, end))


def _hole_checks(house: House) -> Iterator[Check]:
    yield Check((), ("opening",), bound(_overlaps, house.openings))
    for count, opening in enumerate(house.openings):
        here: Key = ("opening", count)
        vault = _vault(house, opening.vault)
        known = bound(_known, here, "vault", opening.vault, _vaults(house))
        yield Check(here, ("vault",), known, _named(house))
        yield Check(here, ("hanger", "header_nails"), bound(_both, here, opening, ("hanger", "header_nails")))
        for name, hole in (("clear_width", "width"), ("clear_height", "height")):
            yield Check(here, (name, hole), bound(_wider_than_hole, here, opening, name, hole))
        if vault is not None and _has_size(vault):
            yield Check(here, ("in", "width", "along", "across"), bound(_wide, here, opening, vault))
            yield Check(here, ("in", "sill", "height"), bound(_high, here, opening, vault))


def _timber_checks(house: House) -> Iterator[Check]:
    floors, beams = [row.name for row in house.floors], [row.name for row in house.beams]
    for key, rows in (("post", house.posts), ("beam", house.beams)):
        for count, row in enumerate(rows):
            here: Key = (key, count)
            yield Check(here, ("section", "diameter"), bound(_both, here, row, ("section", "diameter")))
            yield Check(here, ("diameter", "thick_end"), bound(_thin_thick_end, here, row))
            yield Check(here, ("section", "diameter", "notch"), bound(_deep_notch, here, row))
    for count, beam in enumerate(house.beams):
        here = ("beam", count)
        above = each(("floor",), house.floors, "name")
        yield Check(here, ("carries",), bound(_known, here, "carries", beam.carries, floors), above)
    for count, post in enumerate(house.posts):
        here = ("post", count)
        above = each(("beam",), house.beams, "name")
        yield Check(here, ("under",), bound(_known, here, "under", post.under, beams), above)
    for count, floor in enumerate(house.floors):
        here = ("floor", count)
        yield Check(
            here, ("vault",), bound(_known, here, "vault", floor.vault, _vaults(house)), _named(house)
        )
        yield Check(here, ("joist", "notch"), bound(_deep_notch, here, floor))
        yield Check(here, ("joist", "spacing"), bound(_joists_touch, here, floor))
        vault = _vault(house, floor.vault)
        if vault is not None and _has_size(vault):
            yield Check(here, ("level",), bound(_floor_in_the_roof, here, floor, vault))


def _vaults(house: House) -> list[str]:
    return [vault.name for vault in house.vaults]


def _named(house: House) -> tuple[Key, ...]:
    return each(("vault",), house.vaults, "name")


def _vault(house: House, name: str | None) -> Vault | None:
    return next((vault for vault in house.vaults if vault.name == name), None)


def _has_size(vault: Vault) -> bool:
    """Whether its own measures were read without a mistake."""
    return all(isinstance(size, float) for size in (vault.span, vault.length, vault.springing))


def _crown(vault: Vault) -> float | None:
    """Level of the crown on the middle line of the ribs; None where the curve must tell it."""
    rise = vault.span / 2 if vault.curve is CurveKind.SEMICIRCLE else vault.rise
    return None if rise is None else vault.springing + rise


def _known(here: Key, key: str, wanted: str | None, names: Sequence[str]) -> Iterator[Contradiction]:
    if wanted is None or wanted in names:
        return
    near = difflib.get_close_matches(wanted, names, n=1, cutoff=0.0)
    known = f'known are: {", ".join(names)}. Did you mean "{near[0]}"?' if near else "there is none."
    yield clash(here, key, f'"{wanted}"', f"is not a name in this file; {known}", "Write one of these names.")


def _same_end(ends: Sequence[End]) -> Iterator[Contradiction]:
    seen: dict[tuple[str, str], int] = {}
    for count, end in enumerate(ends):
        first = seen.setdefault((end.vault, str(end.at)), count)
        if first < count:
            yield clash(
                ("end", count),
                "at",
                f'"{end.at}" of "{end.vault}"',
                f"is described by end number {first + 1} already.",
                "Keep one of the two; windows and doors in it are [[opening]] tables.",
            )


def _both(here: Key, row: End | Opening | Post | Beam, names: tuple[str, str]) -> Iterator[Contradiction]:
    first, second = names
    if getattr(row, first) is not None and getattr(row, second) is not None:
        yield clash(
            here, second, f"beside {first}", f"says what {first} says already.", f"Keep {first} or {second}."
        )


def _posts_of_nothing(here: Key, end: End) -> Iterator[Contradiction]:
    if end.post_spacing is not None and end.kind not in {EndKind.PLANKS, EndKind.LOGS}:
        yield clash(
            here,
            "post_spacing",
            metres(end.post_spacing),
            f'belongs to planks or logs; this end is "{end.kind}".',
            "Take it out, or change kind.",
        )


def _wider_than_hole(here: Key, opening: Opening, name: str, hole: str) -> Iterator[Contradiction]:
    clear, whole = getattr(opening, name), getattr(opening, hole)
    if clear is not None and clear > whole + NEAR:
        yield clash(
            here,
            name,
            metres(clear),
            f"is more than the hole: {metres(whole)}.",
            "The clear opening is the hole less its frames.",
        )


def _wide(here: Key, opening: Opening, vault: Vault) -> Iterator[Contradiction]:
    if opening.in_end:
        if opening.along is not None:
            yield clash(
                here,
                "along",
                metres(opening.along),
                "counts along the shell; this is in an end.",
                "Write across.",
            )
        if abs(opening.across) + opening.width / 2 > vault.span / 2 + NEAR:
            yield clash(
                here,
                "width",
                metres(opening.width),
                f"does not fit into an end that is {metres(vault.span)} wide at its foot.",
                "Write a smaller width, or move it nearer to the middle: across.",
            )
        return
    if opening.across:
        yield clash(
            here,
            "across",
            metres(opening.across),
            "counts across an end; this is in the shell.",
            "Write along.",
        )
    at = vault.length / 2 if opening.along is None else opening.along
    if at - opening.width / 2 < -NEAR or at + opening.width / 2 > vault.length + NEAR:
        yield clash(
            here,
            "along" if opening.width <= vault.length else "width",
            metres(at),
            f"with a width of {metres(opening.width)} does not fit into a vault {metres(vault.length)} long.",
            "along counts from the front end to the middle of the opening.",
        )


def _high(here: Key, opening: Opening, vault: Vault) -> Iterator[Contradiction]:
    crown, head = _crown(vault), opening.head
    if opening.side is OpeningSide.CROWN:
        if opening.sill is not None:
            yield clash(
                here,
                "sill",
                show(opening.sill, "level"),
                "is for walls; a hole in the crown has none.",
                "Take it out.",
            )
        if opening.height >= vault.span:
            yield clash(
                here,
                "height",
                metres(opening.height),
                f"is wider than the vault of {metres(vault.span)}: in the crown it counts across.",
                "Write a smaller one.",
            )
    elif crown is not None and head is not None and head > crown + NEAR:
        yield clash(
            here,
            "height",
            metres(opening.height),
            f"puts its upper edge at {show(head, 'level')}, above the crown at {show(crown, 'level')}.",
            "Write a smaller height or a lower sill.",
        )


def _overlaps(openings: Sequence[Opening]) -> Iterator[Contradiction]:
    for (_, first), (count, second) in combinations(enumerate(openings), 2):
        if _meet(first, second):
            yield clash(
                ("opening", count),
                "along" if not second.in_end else "across",
                f'"{second.name}"',
                f'overlaps with "{first.name}".',
                "Move one of them, or make it smaller.",
            )


def _meet(first: Opening, second: Opening) -> bool:
    if (first.vault, first.side) != (second.vault, second.side):
        return False
    along = [one.across if one.in_end else one.along for one in (first, second)]
    if None in along:
        return False
    apart = abs(float(along[0] or 0.0) - float(along[1] or 0.0))
    if apart >= (first.width + second.width) / 2 - NEAR:
        return False
    if first.sill is None or second.sill is None:
        return first.side is OpeningSide.CROWN
    low, high = sorted((first, second), key=lambda one: one.sill or 0.0)
    return (low.head or 0.0) > (high.sill or 0.0) + NEAR


def _depth(row: Post | Beam | Floor) -> float | None:
    section = row.joist if isinstance(row, Floor) else row.section
    if section is not None:
        return section.width
    return None if isinstance(row, Floor) else row.diameter


def _thin_thick_end(here: Key, row: Post | Beam) -> Iterator[Contradiction]:
    if row.thick_end is None:
        return
    if row.diameter is None:
        yield clash(here, "thick_end", metres(row.thick_end), "is without the thin end.", "Write diameter.")
    elif row.thick_end < row.diameter - NEAR:
        yield clash(
            here,
            "thick_end",
            f"{row.thick_end * 1e3:.0f} mm",
            f"is thinner than the thin end, {row.diameter * 1e3:.0f} mm.",
            "Swap the two.",
        )


def _deep_notch(here: Key, row: Post | Beam | Floor) -> Iterator[Contradiction]:
    notch, depth = row.notch, _depth(row)
    if depth is not None and notch >= depth - NEAR:
        yield clash(
            here,
            "notch",
            f"{notch * 1e3:.0f} mm",
            f"goes through the whole timber, which is {depth * 1e3:.0f} mm deep.",
            "Write a shallower notch.",
        )


def _joists_touch(here: Key, floor: Floor) -> Iterator[Contradiction]:
    if floor.spacing <= floor.joist.thickness:
        yield clash(
            here,
            "spacing",
            metres(floor.spacing),
            f"leaves no gap between joists that are {floor.joist.thickness * 1e3:.0f} mm wide.",
            "The spacing counts from middle to middle; write a larger one.",
        )


def _floor_in_the_roof(here: Key, floor: Floor, vault: Vault) -> Iterator[Contradiction]:
    crown = _crown(vault)
    if crown is not None and floor.level is not None and floor.level >= crown:
        yield clash(
            here,
            "level",
            show(floor.level, "level"),
            f"is above the crown of the vault, {show(crown, 'level')}.",
            "Levels count from the finished floor.",
        )
