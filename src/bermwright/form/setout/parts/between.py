"""Vaults and domes set out to each other: baselines and diagonals between their pegs, one datum for all."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations, product
from typing import TYPE_CHECKING

import shapely

from bermwright.form.setout.nouns import CheckLength

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.form.setout.nouns import Spot
    from bermwright.house import House, Vault
    from bermwright.house.making.dome import Dome

OVER = 0.01
"""Parts that share more of the ground than this lie over each other (m2)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedPart:
    """A vault or dome where it stands, to the east and north of the middle of the first (m)."""

    name: str
    middle: Spot
    axis: float | None
    """The way one looks walking into a vault, from north (rad); None: a dome."""
    pegs: tuple[tuple[str, Spot], ...]
    """Names as in its own plan: corners of a vault, the middle of a dome."""
    outline: tuple[Spot, ...]
    """Feet of a vault, inner edge of a dome."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Between:
    """Everything by which the parts of a house are set out to each other."""

    parts: tuple[PlacedPart, ...]
    """Empty where the file does not say how they lie."""
    lengths: tuple[CheckLength, ...]
    open: tuple[str, ...]
    """What the file leaves open, and what cannot be as it is placed."""


def parts_between(house: House) -> Between | None:
    """Lengths from part to part; None where the house is of one part."""
    tables: list[tuple[str, Vault | Dome]] = [("vault", one) for one in house.vaults]
    tables += [("dome", one) for one in house.domes]
    if len(tables) < 2:  # noqa: PLR2004  (one part stands for itself)
        return None
    missing = [words for number, (table, one) in enumerate(tables) if (words := _missing(number, table, one))]
    if missing:
        return Between(parts=(), lengths=(), open=(_asked(missing),))
    parts = tuple(_placed(table, one) for table, one in tables)
    pairs = list(combinations(parts, 2))
    lengths = tuple(length for one, other in pairs for length in _lengths(one, other))
    return Between(parts=parts, lengths=lengths, open=tuple(_overlaps(house, pairs)))


def _missing(number: int, table: str, one: Vault | Dome) -> str:
    """What is not said of the place of a part; the first part is where the others count from."""
    names = [] if number == 0 else [name for name in ("east", "north") if getattr(one, name) is None]
    names += ["axis"] if table == "vault" and one.axis is None else []
    return f'"{one.name}": {", ".join(f"{table}.{name}" for name in names)}' if names else ""


def _asked(missing: Sequence[str]) -> str:
    return (
        f"How do the parts lie to each other? Not given for {'; '.join(missing)}. Measure from the middle of "
        "the first part to the middle of each other one, to the east and to the north."
    )


def _placed(table: str, one: Vault | Dome) -> PlacedPart:
    middle = (one.east or 0.0, one.north or 0.0)
    if table == "dome":
        return PlacedPart(
            name=one.name,
            middle=middle,
            axis=None,
            pegs=(("M", middle),),
            outline=_ring(middle, 0.5 * one.span),
        )
    axis, half, long = one.axis or 0.0, 0.5 * one.span, 0.5 * getattr(one, "length", 0.0)
    corners = {"A": (-long, -half), "B": (-long, half), "C": (long, half), "D": (long, -half)}
    pegs = tuple((name, on_ground(middle, axis, spot)) for name, spot in corners.items())
    return PlacedPart(
        name=one.name, middle=middle, axis=axis, pegs=pegs, outline=tuple(spot for _, spot in pegs)
    )


def on_ground(middle: Spot, axis: float, spot: Spot) -> Spot:
    """A place along and across a vault, counted from its middle, to the east and to the north (m)."""
    along, across = spot
    east = middle[0] + along * math.sin(axis) + across * math.cos(axis)
    return east, middle[1] + along * math.cos(axis) - across * math.sin(axis)


def _ring(middle: Spot, radius: float) -> tuple[Spot, ...]:
    turns = (2.0 * math.pi * number / 48 for number in range(48))
    return tuple((middle[0] + radius * math.cos(turn), middle[1] + radius * math.sin(turn)) for turn in turns)


def _lengths(one: PlacedPart, other: PlacedPart) -> Iterator[CheckLength]:
    """Two baselines and two diagonals between the nearest corners; two lengths to the middle of a dome."""
    near, far = _nearest(one, other.middle), _nearest(other, one.middle)
    if len(near) == len(far) == 2 and _sum(near, far) > _sum(near, far[::-1]):  # noqa: PLR2004  (two corners)
        far = far[::-1]
    for (number, start), (place, end) in product(enumerate(near), enumerate(far)):
        straight = number == place or min(len(near), len(far)) == 1
        yield CheckLength(
            between=f"{one.name} {start[0]} – {other.name} {end[0]}",
            length=math.dist(start[1], end[1]),
            words="baseline" if straight else "diagonal",
        )


def _nearest(part: PlacedPart, spot: Spot) -> list[tuple[str, Spot]]:
    return sorted(part.pegs, key=lambda peg: (round(math.dist(peg[1], spot), 6), peg[0]))[:2]


def _sum(near: Sequence[tuple[str, Spot]], far: Sequence[tuple[str, Spot]]) -> float:
    return sum(math.dist(start[1], end[1]) for start, end in zip(near, far, strict=True))


def _overlaps(house: House, pairs: Sequence[tuple[PlacedPart, PlacedPart]]) -> Iterator[str]:
    """Parts that stand on the same ground, though no crossing says that they meet."""
    meeting = {frozenset((one.of, one.into)) for one in house.crossings}
    for one, other in pairs:
        shared = shapely.Polygon(one.outline).intersection(shapely.Polygon(other.outline)).area
        if shared > OVER and frozenset((one.name, other.name)) not in meeting:
            yield (
                f'"{one.name}" and "{other.name}" share {shared:.1f} m² of ground as they are placed. Look '
                "at east and north, or write a [[crossing]] where they meet."
            )
