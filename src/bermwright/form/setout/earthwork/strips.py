"""Walls, footings, ends and openings as edges in plan, and the levels they have."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.house import OpeningSide

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout.nouns import Spot
    from bermwright.house import House, Opening, SettingOut, Vault

BELOW = ("wall", "footing")
"""How the words of an edge begin that carries the feet."""
ENDS = frozenset({OpeningSide.FRONT, OpeningSide.BACK})


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """A face of a wall or footing, from the line of the feet, outward positive (m)."""

    words: str
    offset: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What stands under the feet of one side (m)."""

    edges: tuple[Edge, ...]
    wall_top: float | None = None
    wall_bottom: float | None = None
    footing_bottom: float | None = None

    @property
    def outer(self) -> float:
        """Outermost face, from the line of the feet (m)."""
        return max((edge.offset for edge in self.edges), default=0.0)

    @property
    def footing(self) -> tuple[float, float] | None:
        """Inner and outer face of the footing (m)."""
        found = [edge.offset for edge in self.edges if edge.words.startswith("footing")]
        return (min(found), max(found)) if found else None


def strip_of(house: House, vault: Vault, side: str) -> Strip:
    """The strip under the left or right feet; only the feet where the file says nothing."""
    wall = next((one for one in house.walls if one.vault == vault.name and one.side in {"both", side}), None)
    base = next(
        (one for one in house.footings if one.vault == vault.name and one.side in {"both", side}), None
    )
    edges: list[Edge] = []
    thick = (wall.thickness or 0.0) if wall is not None else 0.0
    inset = wall.foot if wall is not None and wall.foot is not None else 0.5 * thick
    if thick:
        edges += [
            Edge(words="wall, inside", offset=-inset),
            Edge(words="wall, outside", offset=thick - inset),
        ]
    bottom = wall.bottom if wall is not None else vault.springing
    under = None
    if base is not None and base.width is not None:
        toe = base.toe if base.toe is not None else 0.5 * (base.width - thick)
        inner = -inset - toe
        edges += [
            Edge(words="footing, inside", offset=inner),
            Edge(words="footing, outside", offset=inner + base.width),
        ]
        if bottom is not None and base.thickness is not None:
            under = bottom - base.thickness
    for stay in house.buttresses:
        if stay.vault == vault.name and stay.side in {"both", side} and not stay.inside and stay.depth:
            edges.append(Edge(words="buttress, outside", offset=thick - inset + stay.depth))
    if (
        not any(edge.words.startswith(BELOW) for edge in edges)
        and vault.feet is not None
        and vault.feet.wall_width is not None
    ):
        half = 0.5 * vault.feet.wall_width
        edges += [Edge(words="support, inside", offset=-half), Edge(words="support, outside", offset=half)]
    return Strip(
        edges=tuple(edges),
        wall_top=(wall.top if wall.top is not None else vault.springing) if wall is not None else None,
        wall_bottom=wall.bottom if wall is not None else None,
        footing_bottom=under,
    )


def end_thickness(house: House, vault: Vault) -> tuple[float, float]:
    """How far the front and the back wall stand out beyond the end ribs (m)."""
    found = {"front": 0.0, "back": 0.0}
    for end in house.ends:
        if end.vault == vault.name and end.thickness is not None:
            found[str(end.at)] = end.thickness
    return found["front"], found["back"]


def bare_outline(
    vault: Vault, settings: SettingOut, strips: tuple[Strip, Strip], ends: tuple[float, float]
) -> tuple[Spot, ...]:
    """The outline that boards keep clear of where no depth is known: walls and working space."""
    room, half = settings.working_space, 0.5 * vault.span
    first, last = -ends[0] - room, vault.length + ends[1] + room
    left, right = -half - strips[0].outer - room, half + strips[1].outer + room
    return ((first, left), (first, right), (last, right), (last, left))


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningEdges:
    """Where an opening is marked (m)."""

    name: str
    side: str
    in_end: bool
    """Whether its edges count across from the axis; else along from the front rib."""
    low: float
    high: float
    sill: float | None
    """Level of its lower edge."""
    head: float | None


def opening_edges(house: House, vault: Vault) -> tuple[OpeningEdges, ...]:
    """Every opening whose place is known."""
    return tuple(_edges(house, vault))


def _edges(house: House, vault: Vault) -> Iterator[OpeningEdges]:
    for one in house.openings:
        middle = _middle(one) if one.vault == vault.name else None
        if middle is None:
            continue
        half = 0.5 * one.width
        upright = one.side is not OpeningSide.CROWN
        sill = one.sill if upright else None
        yield OpeningEdges(
            name=one.name,
            side=str(one.side),
            in_end=one.side in ENDS,
            low=middle - half,
            high=middle + half,
            sill=sill,
            head=sill + one.height if sill is not None else None,
        )


def _middle(opening: Opening) -> float | None:
    return opening.across if opening.side in ENDS else opening.along
