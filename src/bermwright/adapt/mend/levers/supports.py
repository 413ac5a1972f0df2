"""Levers on what the feet stand on and what holds them: walls, footings, buttresses, ties, shoes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.adapt.mend.levers.ladder import fixed, ladder, written
from bermwright.adapt.mend.nouns import Amount, Lever
from bermwright.house.parts.support_words import BARRED

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.adapt.mend.nouns import Place, Writes
    from bermwright.house.parts.walls import Footing, Wall

STANDS = frozenset(
    {
        "supports-do-not-turn-over", "supports-do-not-slide", "ground-carries-the-supports",
        "force-stays-under-the-base", "feet-press-on-their-supports", "house-stays-between-its-fills",
        "supports-stand-an-earthquake",
    }
)  # fmt: skip
BREAKS = frozenset({"walls-do-not-break", "footings-do-not-break"})
WIDTHS = (0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.4, 1.6, 1.8, 2.0, 2.3, 2.6, 3.0, 3.5, 4.0)
"""Widths of footings (m)."""
WIDEN = (0.2, 0.4, 0.6, 0.9, 1.2, 1.5, 2.0, 2.5)
"""By how much a footing is made longer outside, under the soil (m)."""
THICK = (0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 1.0)
WALLS = (0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 1.0, 1.2)
BARS = (8, 10, 12, 14, 16, 20)
PITCHES = (0.1, 0.15, 0.2, 0.25, 0.3)
LAPS = (0.6, 0.8, 1.0, 1.2, 1.5)
FROST_DEEP = -0.4
"""Underside of a wall that mend adds, where the file gives no footing depth (m)."""
NO_WALL = 0.3
"""Feet higher than this over the floor stand on a wall (m)."""
BARE = 0.0


def _footings(place: Place) -> Iterator[tuple[int, Footing]]:
    for number, one in enumerate(place.house.footings):
        if place.vault is None or one.vault == place.house.vaults[place.vault].name:
            yield number, one


def _longer(place: Place) -> tuple[Amount, ...]:
    """The footing longer outside: its toe in the room stays as short as it is."""
    found = []
    for more in WIDEN:
        writes: list[tuple[tuple[str | int, ...], str | int]] = []
        says = []
        for number, one in _footings(place):
            if one.width is None:
                continue
            toe = one.toe if one.toe is not None else _even_toe(place, one)
            width = round(one.width + more, 2)
            writes += [(("footing", number, "width"), f"{width:g} m")]
            writes += [(("footing", number, "toe"), f"{round(toe, 3):g} m")]
            says.append(f"{width:g} m in place of {one.width:g} m, all of it outside")
        if writes:
            found.append(Amount(says=", ".join(dict.fromkeys(says)), writes=tuple(writes)))
    return tuple(found)


def _even_toe(place: Place, footing: Footing) -> float:
    """The toe of a footing whose wall stands on its middle (m)."""
    walls = [one for one in place.house.walls if one.vault == footing.vault and one.thickness is not None]
    wall = (walls[0].thickness or BARE) if walls else BARE
    return max(((footing.width or BARE) - wall) / 2.0, BARE)


def _new_wall(place: Place) -> tuple[Amount, ...]:
    """A wall under feet that stand high over a footing."""
    if place.vault is None:
        return ()
    vault = place.house.vaults[place.vault]
    if vault.springing <= NO_WALL or any(one.vault == vault.name for one in place.house.walls):
        return ()
    key = ("wall", len(place.house.walls))
    deep = place.house.ground_heat.wall.footing_depth if place.house.ground_heat is not None else None
    bottom = FROST_DEEP if deep is None else -round(max(deep - 0.2, -FROST_DEEP), 2)
    return tuple(
        Amount(
            says=f"filled blocks with bars, {thick:g} m thick",
            writes=(
                ((*key, "name"), "foot walls"), ((*key, "vault"), vault.name),
                ((*key, "kind"), "filled blocks with bars"), ((*key, "thickness"), f"{thick:g} m"),
                ((*key, "bottom"), f"{bottom:g} m"), ((*key, "unit_weight"), "21 kN/m3"),
                ((*key, "strength"), "8 MPa"), ((*key, "bars"), "12 mm"), ((*key, "bar_spacing"), "0.2 m"),
                (("vault", place.vault, "feet", "on"), "wall"),
            ),
        )
        for thick in WALLS[1:7]
    )  # fmt: skip


def _new_buttresses(place: Place) -> tuple[Amount, ...]:
    if place.vault is None:
        return ()
    vault = place.house.vaults[place.vault]
    walls = [one for one in place.house.walls if one.vault == vault.name]
    if not walls or any(one.vault == vault.name for one in place.house.buttresses):
        return ()
    key = ("buttress", len(place.house.buttresses))
    return tuple(
        Amount(
            says=f"0.5 m wide and {depth:g} m deep, every 2 m",
            writes=(
                ((*key, "name"), "buttresses"), ((*key, "vault"), vault.name), ((*key, "spacing"), "2 m"),
                ((*key, "width"), "0.5 m"), ((*key, "depth"), f"{depth:g} m"),
                ((*key, "unit_weight"), "22 kN/m3"), ((*key, "bond"), "100 kPa"),
            ),
        )
        for depth in (0.5, 0.8, 1.0, 1.2, 1.5, 2.0)
    )  # fmt: skip


def _slab(place: Place) -> Writes:
    """A floor slab between the feet of both sides."""
    if place.vault is None:
        return ()
    vault = place.house.vaults[place.vault]
    if any(one.vault == vault.name for one in place.house.floor_ties):
        return ()
    key = ("tie", len(place.house.floor_ties))
    return (
        ((*key, "name"), "floor slab"), ((*key, "vault"), vault.name), ((*key, "kind"), "slab"),
        ((*key, "level"), written(-0.08, "m")), ((*key, "thickness"), "100 mm"),
        ((*key, "concrete"), "20 MPa"),
    )  # fmt: skip


def _barred(wall: Wall) -> bool:
    return wall.kind in BARRED


def _strip_bars(place: Place) -> tuple[Amount, ...]:
    """Bars across the footing, where there are none or thinner ones."""
    found = []
    for bar in BARS[1:]:
        writes = []
        for number, one in _footings(place):
            if one.bars is None or 1e3 * one.bars < bar - 1e-6:
                writes.append((("footing", number, "bars"), f"{bar} mm"))
                writes += [] if one.bar_spacing else [(("footing", number, "bar_spacing"), "0.2 m")]
        if writes:
            found.append(Amount(says=f"{bar} mm", writes=tuple(writes)))
    return tuple(found)


SUPPORT_LEVERS = (
    Lever(
        name="wider footing", does="Make the footing wider on both sides", helps=STANDS, monotone=False,
        amounts=ladder("footing", "width", WIDTHS, "m"),
    ),
    Lever(
        name="footing longer outside",
        does="Make the footing longer outside, under the soil that holds it down",
        helps=STANDS, amounts=_longer, monotone=False,
    ),
    Lever(
        name="thicker footing", does="Make the footing thicker", helps=STANDS | BREAKS,
        amounts=ladder("footing", "thickness", THICK, "m"), monotone=False,
    ),
    Lever(
        name="bars in the footing", does="Lay bars across the footing, at the face in tension",
        helps=frozenset({"footings-do-not-break"}), amounts=_strip_bars, hours=8.0,
    ),
    Lever(
        name="footing bars nearer together", does="Lay the bars of the footing nearer together", hours=4.0,
        helps=frozenset({"footings-do-not-break"}),
        amounts=ladder("footing", "bar_spacing", PITCHES, "m", up=False),
    ),
    Lever(
        name="wall under the feet", does="Build a wall under the feet", helps=STANDS, amounts=_new_wall,
        monotone=False,
    ),
    Lever(
        name="thicker wall", does="Make the wall under the feet thicker", helps=STANDS | BREAKS,
        amounts=ladder("wall", "thickness", WALLS, "m"), monotone=False,
    ),
    Lever(
        name="deeper wall", does="Found the wall deeper", helps=STANDS,
        amounts=ladder("wall", "bottom", (-0.6, -0.8, -1.0, -1.2, -1.5), "m", up=False), monotone=False,
    ),
    Lever(
        name="thicker bars in the wall", does="Set thicker bars in the wall", hours=4.0,
        helps=frozenset({"walls-do-not-break"}),
        amounts=ladder("wall", "bars", BARS, "mm", only=_barred),
    ),
    Lever(
        name="wall bars nearer together", does="Set the bars of the wall nearer together", hours=4.0,
        helps=frozenset({"walls-do-not-break"}),
        amounts=ladder("wall", "bar_spacing", PITCHES, "m", up=False, only=_barred),
    ),
    Lever(
        name="buttresses", does="Build buttresses outside, toothed into the wall", helps=STANDS,
        amounts=_new_buttresses, monotone=False,
    ),
    Lever(
        name="deeper buttresses", does="Make the buttresses deeper", monotone=False,
        helps=STANDS | {"buttresses-stand-without-tension"},
        amounts=ladder("buttress", "depth", (0.5, 0.8, 1.0, 1.2, 1.5, 2.0, 2.5), "m"),
    ),
    Lever(
        name="buttresses nearer together", does="Set the buttresses nearer together",
        helps=STANDS | {"buttresses-stand-without-tension"},
        amounts=ladder("buttress", "spacing", (1.0, 1.5, 2.0, 2.5, 3.0), "m", up=False), monotone=False,
    ),
    Lever(
        name="floor slab as a tie", does="Pour a floor slab between the feet before any soil is laid",
        helps=STANDS | BREAKS, amounts=fixed(_slab, "concrete, 0.1 m"), monotone=False, hours=16.0,
    ),
    Lever(
        name="thicker floor slab", does="Pour a thicker floor slab",
        helps=STANDS | {"floor-tie-holds-the-feet"},
        amounts=ladder("tie", "thickness", (0.1, 0.12, 0.15, 0.18, 0.2), "m"),
    ),
    Lever(
        name="floor ties nearer together", does="Set the floor ties nearer together", hours=4.0,
        helps=frozenset({"floor-tie-holds-the-feet"}),
        amounts=ladder("tie", "spacing", (0.5, 0.6, 0.8, 1.0, 1.2, 1.5), "m", up=False),
    ),
    Lever(
        name="more bars in the bond beam", does="Lay more bars in the bond beam", hours=4.0,
        helps=frozenset({"bond-beam-holds"}), amounts=ladder("ring", "count", (4, 5, 6, 8, 10)),
    ),
    Lever(
        name="thicker bars in the bond beam", does="Lay thicker bars in the bond beam", hours=2.0,
        helps=frozenset({"bond-beam-holds"}), amounts=ladder("ring", "bars", BARS, "mm"), monotone=False,
    ),
    Lever(
        name="longer laps", does="Let the bars of the bond beam lap further", hours=1.0,
        helps=frozenset({"bond-beam-holds"}), amounts=ladder("ring", "lap", LAPS, "m"),
    ),
    Lever(
        name="feet held across", does="Bolt the shoes through, so that they hold more across", hours=12.0,
        helps=frozenset({"feet-stay-on-their-supports"}),
        amounts=ladder("socket", "hold_across", (5, 10, 15, 20, 25, 30, 40, 50, 70), "kN", begin=0.0),
    ),
    Lever(
        name="feet strapped down", does="Strap every foot to its wall, and the wall to its footing",
        hours=12.0,
        helps=frozenset(
            {"feet-stay-on-their-supports", "shell-stands-the-wind", "feet-press-on-their-supports"}
        ),
        amounts=ladder("socket", "hold_down", (1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0), "kN", begin=0.0),
    ),
    Lever(
        name="thicker lip", does="Leave a thicker lip beyond the socket in the log", hours=2.0,
        helps=frozenset({"feet-stay-on-their-supports"}),
        amounts=ladder("socket", "lip", (60, 80, 100, 120, 150, 200), "mm"),
    ),
)  # fmt: skip
