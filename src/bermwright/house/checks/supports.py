"""What does not fit together of walls, footings, buttresses, bond beams, ties and shoes."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.house.checks.common import (
    Check,
    Contradiction,
    Key,
    bound,
    clash,
    each,
    listed,
    metres,
    names_once,
)
from bermwright.house.parts.support_words import BARRED, Behind, Sides

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.base.ranges import Range
    from bermwright.house.model import House
    from bermwright.house.parts.holds import FloorTie, Geogrid, Ring, Socket
    from bermwright.house.parts.walls import Buttress, Footing, Wall
    from bermwright.house.vault import Vault

    Sided = Wall | Footing | Ring | Socket
    Part = Wall | Footing | Buttress | Ring | FloorTie | Socket | Geogrid

NEAR = 0.005
"""Levels that differ less are one (m)."""


def support_checks(house: House) -> Iterator[Check]:
    """The checks of everything that carries or holds a foot."""
    tables: dict[str, Sequence[Part]] = {
        "wall": house.walls,
        "footing": house.footings,
        "buttress": house.buttresses,
        "ring": house.rings,
        "tie": house.floor_ties,
        "socket": house.sockets,
        "geogrid": house.geogrids,
    }
    named = each(("vault",), house.vaults, "name")
    for key, rows in tables.items():
        yield names_once((key,), rows)
        for count, row in enumerate(rows):
            here: Key = (key, count)
            yield Check(here, ("vault",), bound(_known_vault, here, row.vault, house.vaults), named)
    sided: dict[str, Sequence[Sided]] = {
        "wall": house.walls,
        "footing": house.footings,
        "ring": house.rings,
        "socket": house.sockets,
    }
    for key, parts in sided.items():
        yield Check((key,), (), bound(_same_side, key, parts), each((key,), parts, "vault", "side"))
    yield from _wall_checks(house)
    yield from _footing_checks(house)
    yield from _hold_checks(house)
    yield from _grid_checks(house)


def _vault(house: House, name: str) -> Vault | None:
    return next((vault for vault in house.vaults if vault.name == name), None)


def _stands(house: House) -> tuple[Key, ...]:
    """What says at which level the feet of a vault of this name stand."""
    return each(("vault",), house.vaults, "name", "springing")


def _wall_checks(house: House) -> Iterator[Check]:
    stands, grounds = _stands(house), each(("site", "soil"), house.site.soil, "name")
    for count, wall in enumerate(house.walls):
        here: Key = ("wall", count)
        vault = _vault(house, wall.vault)
        yield Check(here, ("top", "vault"), bound(_not_at_springing, here, wall, vault), stands)
        yield Check(here, ("bottom", "top", "vault"), bound(_upside_down, here, wall, vault), stands)
        yield Check(here, ("friction", "kind"), bound(_slippery_wall, here, wall))
        yield Check(here, ("foot", "thickness"), bound(_foot_beside, here, wall))
        yield Check(here, ("bar_cover", "thickness"), bound(_bars_outside, here, wall))
        yield Check(here, ("soil",), bound(_known_soil, here, wall.soil, house), grounds)
    for count, one in enumerate(house.buttresses):
        here = ("buttress", count)
        yield Check(here, ("width", "spacing"), bound(_buttresses_meet, here, one))


def _footing_checks(house: House) -> Iterator[Check]:
    grounds = each(("site", "soil"), house.site.soil, "name")
    for count, footing in enumerate(house.footings):
        here: Key = ("footing", count)
        yield Check(here, ("soil",), bound(_known_soil, here, footing.soil, house), grounds)
        for wall in house.walls:
            if wall.vault == footing.vault and _meet(wall.side, footing.side):
                yield Check(here, ("width", "toe"), bound(_narrow, here, footing, wall))


def _hold_checks(house: House) -> Iterator[Check]:
    for count, socket in enumerate(house.sockets):
        here: Key = ("socket", count)
        yield Check(here, ("depth", "log"), bound(_deep_socket, here, socket))
        yield Check(here, ("lip", "log"), bound(_thick_lip, here, socket))
        yield Check(here, ("friction",), bound(_slippery_shoe, here, socket))
    for count, ring in enumerate(house.rings):
        here = ("ring", count)
        yield Check(here, ("radius", "held_every"), bound(_round_and_straight, here, ring))
    for count, tie in enumerate(house.floor_ties):
        here, stands = ("tie", count), _stands(house)
        yield Check(
            here, ("level", "vault"), bound(_tie_over_feet, here, tie, _vault(house, tie.vault)), stands
        )


def _grid_checks(house: House) -> Iterator[Check]:
    for count, grid in enumerate(house.geogrids):
        here: Key = ("geogrid", count)
        yield Check(here, ("spacing", "length"), bound(_short_grid, here, grid))
        earlier = house.geogrids[:count]
        places = each(("geogrid",), earlier, "behind", "vault") if earlier else ()
        yield Check(here, ("behind", "vault"), bound(_grid_twice, here, grid, earlier), places)


def _short_grid(here: Key, grid: Geogrid) -> Iterator[Contradiction]:
    if grid.spacing is not None and grid.length is not None and grid.length < 2.0 * grid.spacing:
        yield clash(
            here,
            "length",
            metres(grid.length),
            f"is less than two steps of {metres(grid.spacing)}; such a step is a bag and no wall.",
            "Write longer layers, or lower steps.",
        )


def _grid_twice(here: Key, grid: Geogrid, earlier: Sequence[Geogrid]) -> Iterator[Contradiction]:
    both = {Behind.SIDES, Behind.LEFT}, {Behind.SIDES, Behind.RIGHT}
    for other in earlier:
        same = other.behind is grid.behind or any({other.behind, grid.behind} <= one for one in both)
        if other.vault == grid.vault and same:
            yield clash(
                here,
                "behind",
                f'"{grid.behind}"',
                f'stands where "{other.name}" is already.',
                "Keep one of the two.",
            )


def _known_vault(here: Key, name: str, vaults: Sequence[Vault]) -> Iterator[Contradiction]:
    names = [vault.name for vault in vaults]
    if name in names:
        return
    near = difflib.get_close_matches(name, names, n=1)
    hint = f'Did you mean "{near[0]}"?' if near else "Write the name of a [[vault]]."
    yield clash(here, "vault", f'"{name}"', f"is no vault of this house; there are: {listed(names)}.", hint)


def _known_soil(here: Key, name: str | None, house: House) -> Iterator[Contradiction]:
    names = [soil.name for soil in house.site.soil]
    if name is not None and name not in names:
        yield clash(
            here,
            "soil",
            f'"{name}"',
            f"is no soil of the site; there are: {listed(names)}.",
            "Write one of them, or add a [[site.soil]].",
        )


def _meet(one: Sides, other: Sides) -> bool:
    return Sides.BOTH in {one, other} or one is other


def _same_side(key: str, parts: Sequence[Sided]) -> Iterator[Contradiction]:
    for place, part in enumerate(parts):
        for other in parts[:place]:
            if part.vault == other.vault and _meet(part.side, other.side):
                yield clash(
                    (key, place),
                    "side",
                    f'"{part.side}"',
                    f'stands where "{other.name}" stands already: under the same feet of "{part.vault}".',
                    "Write left for one and right for the other, or take one out.",
                )


def _not_at_springing(here: Key, wall: Wall, vault: Vault | None) -> Iterator[Contradiction]:
    if wall.top is None or vault is None or abs(wall.top - vault.springing) <= NEAR:
        return
    lower = wall.top < vault.springing
    yield clash(
        here,
        "top",
        show(wall.top, "level"),
        f'lies {"below" if lower else "above"} the springing of "{vault.name}", '
        f"{show(vault.springing, 'level')}; "
        + ("the feet would stand on air." if lower else "the ribs would begin inside the wall."),
        "Leave top out, or write the springing of the vault.",
    )


def _upside_down(here: Key, wall: Wall, vault: Vault | None) -> Iterator[Contradiction]:
    top = wall.top if wall.top is not None else vault.springing if vault else None
    if wall.bottom is not None and top is not None and wall.bottom >= top:
        yield clash(
            here,
            "bottom",
            show(wall.bottom, "level"),
            f"is not below the top of the wall, {show(top, 'level')}.",
            "Write a lower level.",
        )


def _slippery(here: Key, friction: Range | None, what: str) -> Iterator[Contradiction]:
    if friction is not None and friction.low <= 0.0:
        yield clash(
            here,
            "friction",
            show(friction.low, "deg"),
            f"says that {what} slides on a level bed by itself; nothing built does.",
            "Measure it: tilt until it slides.",
        )


def _slippery_wall(here: Key, wall: Wall) -> Iterator[Contradiction]:
    if wall.kind not in BARRED:
        yield from _slippery(here, wall.friction, "one course")


def _slippery_shoe(here: Key, socket: Socket) -> Iterator[Contradiction]:
    yield from _slippery(here, socket.friction, "the shoe")


def _foot_beside(here: Key, wall: Wall) -> Iterator[Contradiction]:
    if wall.foot is not None and wall.thickness is not None and wall.foot >= wall.thickness:
        yield clash(
            here,
            "foot",
            metres(wall.foot),
            f"lies beyond the thickness of the wall, {metres(wall.thickness)}: the feet stand beside it.",
            "Write a smaller distance from the face in the room, or a thicker wall.",
        )


def _bars_outside(here: Key, wall: Wall) -> Iterator[Contradiction]:
    if wall.bars is not None and wall.thickness is not None and wall.bar_cover >= 0.5 * wall.thickness:
        yield clash(
            here,
            "bar_cover",
            metres(wall.bar_cover),
            f"lies past the middle of the wall, {metres(wall.thickness)} thick; bars lie near a face.",
            "Write a smaller one.",
        )


def _buttresses_meet(here: Key, one: Buttress) -> Iterator[Contradiction]:
    if one.width is not None and one.spacing is not None and one.width >= one.spacing:
        yield clash(
            here,
            "spacing",
            metres(one.spacing),
            f"is no more than the width of one, {metres(one.width)}: that is a thicker wall.",
            "Write a larger spacing, or a thicker [[wall]].",
        )


def _narrow(here: Key, footing: Footing, wall: Wall) -> Iterator[Contradiction]:
    if footing.width is None or wall.thickness is None:
        return
    needed = wall.thickness + (footing.toe or 0.0)
    if footing.width < needed - 1e-9:
        yield clash(
            here,
            "width",
            metres(footing.width),
            f'is less than its wall "{wall.name}" needs, {metres(needed)} with the toe.',
            "Write a wider footing, or a shorter toe.",
        )


def _deep_socket(here: Key, socket: Socket) -> Iterator[Contradiction]:
    if socket.depth is not None and socket.log is not None and socket.depth >= socket.log:
        yield clash(
            here,
            "depth",
            metres(socket.depth),
            f"is no less than the log is thick, {metres(socket.log)}; the socket would go through it.",
            "Write a shallower socket or a thicker log.",
        )


def _thick_lip(here: Key, socket: Socket) -> Iterator[Contradiction]:
    if socket.lip is not None and socket.log is not None and socket.lip >= socket.log:
        yield clash(
            here,
            "lip",
            metres(socket.lip),
            f"is no less than the log is thick, {metres(socket.log)}; there is no socket beside it.",
            "Measure the wood that is left between socket and outside.",
        )


def _round_and_straight(here: Key, ring: Ring) -> Iterator[Contradiction]:
    if ring.radius is not None and ring.held_every is not None:
        yield clash(
            here,
            "held_every",
            "beside radius",
            "is one too many: a round ring is held by itself, a straight beam by what stands across it.",
            "Keep radius or held_every.",
        )


def _tie_over_feet(here: Key, tie: FloorTie, vault: Vault | None) -> Iterator[Contradiction]:
    if vault is not None and tie.level > max(vault.springing, 0.0) + NEAR:
        yield clash(
            here,
            "level",
            show(tie.level, "level"),
            f'lies over the feet of "{vault.name}", {show(vault.springing, "level")}; a floor tie lies at '
            "their foot or under the floor.",
            "Write a lower level; a tie across the vault itself is [[stages.tie]].",
        )
