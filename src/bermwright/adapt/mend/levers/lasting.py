"""Levers on what has to last: wood, pipes, frost, water, insulation; boards, air tube and stove air."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.adapt.mend.levers.ladder import entries, fixed, ladder, word
from bermwright.adapt.mend.nouns import Amount, Lever
from bermwright.house import CoverKind, EndSide, Structure, Timbers
from bermwright.rules.lasting.places import GROUND, WEATHER, timber_places, wood_of

if TYPE_CHECKING:
    from bermwright.adapt.mend.nouns import Place, Writes
    from bermwright.house import Cover
    from bermwright.house.checks import Key
    from bermwright.rules.lasting.places import TimberPlace

WOOD = frozenset({"wood-fits-its-place"})
PIPES = frozenset({"pipes-keep-their-shape"})
DRAINS = frozenset({"drains-stay-open"})
FROST = frozenset({"frost-stays-under-the-footings"})
GROUND_FOAM = frozenset({"insulation-in-the-ground-carries"})
FOAMS = (20, 30, 50, 75, 100, 130, 180, 250, 300)
"""Long-term strengths that are sold (kPa)."""
TUBE = frozenset({"intake-tube-drains-and-does-not-freeze"})
STOVE = frozenset({"stove-has-its-air"})
SEEN = "strip on screws or a hatch, to be decided before it is closed"
TREATED = (("treated_for", GROUND), ("treated_years", "30 years"), ("renewed_every", "25 years"))
LEVELS = tuple(round(-1.0 + 0.15 * step, 2) for step in range(18))
"""Levels of the floor that are tried (m)."""
LEAST_TUBE_FALL = 0.02
"""Fall of an air tube (rad) from which a drain alone helps."""
BENT = (25, 22, 20, 19, 17, 15, 13, 11)
"""Thickness of boards that are sawn to be bent (mm)."""


def _insulation(cover: Cover) -> bool:
    return cover.kind is CoverKind.INSULATION


def _mine(place: Place) -> tuple[TimberPlace, ...]:
    return tuple(one for one in timber_places(place.house) if one.part == place.part)


def _tables(place: Place) -> dict[int, list[TimberPlace]]:
    """The [[wood_part]] tables that speak of the part's timbers, by number."""
    found: dict[int, list[TimberPlace]] = {}
    for one in _mine(place):
        wood = wood_of(place.house, one)
        if wood is not None:
            found.setdefault(place.house.wood_parts.index(wood), []).append(one)
    return found


def _treated(place: Place) -> Writes:
    """Timbers in the weather or the ground: treated, seen and renewed, each kind in a table of its own."""
    writes: list[tuple[Key, str | int]] = []
    fresh = len(place.house.wood_parts)
    for one in _mine(place):
        wood = wood_of(place.house, one)
        if wood is None or (one.use_class or 0) < WEATHER:
            continue
        number = place.house.wood_parts.index(wood)
        if wood.part is not one.timbers or wood.at not in {None, one.at}:
            number, fresh = fresh, fresh + 1
            writes += _own_table(("wood_part", number), one)
        key: Key = ("wood_part", number)
        writes += [((*key, name), value) for name, value in TREATED]
        if not wood.looked_at or wood.part is not one.timbers:
            writes.append(((*key, "looked_at"), SEEN))
    return tuple(writes)


def _own_table(key: Key, one: TimberPlace) -> list[tuple[Key, str | int]]:
    told: list[tuple[Key, str | int]] = [
        ((*key, "part"), str(one.timbers)), ((*key, "ends_aired"), "yes"), ((*key, "species"), "pine"),
    ]  # fmt: skip
    if one.timbers in {Timbers.END_PLANKS, Timbers.END_POSTS} and one.at is not None:
        told.append(((*key, "at"), one.at))
    if one.stands:
        told.append(((*key, "damp_course"), "yes"))
    return told


def _seen(place: Place) -> Writes:
    return tuple(
        (("wood_part", number, "looked_at"), SEEN)
        for number in _tables(place)
        if not place.house.wood_parts[number].looked_at
    )


def _aired(place: Place) -> Writes:
    """Air round the ends, felt under what stands on the wall."""
    writes: list[tuple[Key, str]] = []
    for number, places in _tables(place).items():
        wood = place.house.wood_parts[number]
        if not wood.ends_aired:
            writes.append((("wood_part", number, "ends_aired"), "yes"))
        if not wood.damp_course and any(one.stands for one in places):
            writes.append((("wood_part", number, "damp_course"), "yes"))
    return tuple(writes)


def _planned(place: Place) -> Writes:
    """A plan to renew what is treated or lasts a while."""
    return tuple(
        (("wood_part", number, "renewed_every"), "25 years")
        for number in _tables(place)
        if place.house.wood_parts[number].looked_at and place.house.wood_parts[number].renewed_every is None
    )


def _umbrella(place: Place) -> tuple[Amount, ...]:
    """A wide sheet of insulation in the ground round the house."""
    ground = place.house.ground_heat
    if ground is None:
        return ()
    now = ground.umbrella.reach if ground.umbrella else 0.0
    key: Key = ("ground_heat", "umbrella")
    return tuple(
        Amount(
            says=f"{reach:g} m wide, {thick} mm",
            writes=(((*key, "reach"), f"{reach:g} m"), ((*key, "thickness"), f"{thick} mm"),
                    ((*key, "depth"), "0.4 m")),
        )
        for reach in (1.5, 2.0, 2.5, 3.0, 3.5, 4.0)
        for thick in (100, 200)
        if reach > now
    )  # fmt: skip


def _thinner(place: Place) -> tuple[Amount, ...]:
    """Thinner boards, and as many more of them as keep the rib as wide."""
    if place.vault is None or place.house.vaults[place.vault].structure is not Structure.BENT:
        return ()
    vault = place.house.vaults[place.vault]
    now, wide = 1e3 * vault.board.thickness, 1e3 * vault.board.width
    key: Key = ("vault", place.vault)
    found = []
    for thick in (one for one in BENT if one < now - 1e-6):
        layers = min(12, round(now * vault.layers / thick))
        board = f"{thick} x {wide:g} mm"
        found.append(
            Amount(
                says=f"{board}, {layers} of them, in place of {now:g} mm, {vault.layers} of them",
                writes=(((*key, "board"), board), ((*key, "layers"), layers)),
            )
        )
    return tuple(found)


def _served(place: Place) -> tuple[Amount, ...]:
    """Strength reckoned as damp as the timbers lie."""
    ends = [one for one in entries(place, "end") if (one.table.service_class or 3) < 3]  # noqa: PLR2004  (service class 3 is wet)
    own = [one for one in ends if f'end "{one.table.vault}", {one.table.at}' == place.part]
    return tuple(
        Amount(says=f"3 in place of {one.table.service_class}", writes=(((*one.key, "service_class"), 3),))
        for one in own
    )


def _boarded(place: Place) -> Writes:
    """Insulation outside an end that stands in the weather, so that it stays dry."""
    heat = place.house.heat
    if heat is None:
        return ()
    sides = {f'end "{one.vault}", {one.at}': one for one in place.house.ends if (one.soil_to or 0.0) <= 0.0}
    end = sides.get(place.part)
    if end is None:
        return ()
    name = "front_insulation" if end.at is EndSide.FRONT else "back_insulation"
    return () if getattr(heat, name) else ((("heat", name), "100 mm"),)


def _falling(place: Place) -> Writes:
    return tuple(
        write
        for entry in entries(place, "air.tube")
        for write in (((*entry.key, "slope"), "1:50"), ((*entry.key, "drain"), "yes"))
        if not entry.table.drain and (entry.table.slope or 0.0) < LEAST_TUBE_FALL
    )


LASTING_LEVERS = (
    Lever(
        name="wood treated for the ground", does="Take treated wood where it lies wet, and renew it",
        hours=4.0, helps=WOOD, monotone=False,
        amounts=fixed(_treated, "use class 4 for 30 years, renewed every 25"),
    ),
    Lever(
        name="a plan to renew it", does="Plan to renew the wood that rots first", helps=WOOD, hours=20.0,
        amounts=fixed(_planned, "every 25 years"), monotone=False,
    ),
    Lever(
        name="a place to look at it", does="Leave a place where the wood can be looked at", helps=WOOD,
        hours=2.0, amounts=fixed(_seen, SEEN), monotone=False,
    ),
    Lever(
        name="air and felt at the ends", does="Keep air round the ends and felt under the feet", helps=WOOD,
        hours=4.0, amounts=fixed(_aired, "a finger wide round every end, tar felt under every foot"),
        monotone=False,
    ),
    Lever(
        name="strength as damp as it lies", does="Reckon the end in service class 3", helps=WOOD, hours=0.0,
        amounts=_served, monotone=False,
    ),
    Lever(
        name="insulation outside the end", does="Board and insulate the end on its outside", helps=WOOD,
        hours=16.0, amounts=fixed(_boarded, "100 mm behind a weather boarding"), monotone=False,
    ),
    Lever(
        name="stiffer pipe", does="Take a stiffer pipe", helps=PIPES, hours=0.0,
        amounts=ladder("pipe", "stiffness", (4, 8, 16), "kPa"),
    ),
    Lever(
        name="tamped bed", does="Tamp the bed of the pipe on both sides", helps=PIPES, hours=3.0,
        amounts=word("pipe", "tamped", ("no", "yes")),
    ),
    Lever(
        name="better bed", does="Bed the pipe in gravel or stone", helps=PIPES, hours=6.0,
        amounts=word("pipe", "bedding", ("fine soil", "gravel or sand", "crushed stone")),
    ),
    Lever(
        name="fleece round the bed", does="Lay a fleece round the stone of the drain", helps=DRAINS,
        hours=3.0, amounts=word("pipe", "filter", ("no", "yes")),
    ),
    Lever(
        name="drain that ends in the open", does="Lead the drain to an open end in a bank", helps=DRAINS,
        hours=16.0, amounts=word("pipe", "outlet", ("none", "pump", "soakaway", "open")),
    ),
    Lever(
        name="steeper drain", does="Lay the drain steeper", helps=DRAINS, hours=4.0,
        amounts=ladder("pipe", "fall", (200, 150, 100, 67, 50), "slope"),
    ),
    Lever(
        name="riser on the drain", does="Set a riser with a lid at the upper end", helps=DRAINS, hours=2.0,
        amounts=word("pipe", "rinsed", ("no", "yes")),
    ),
    Lever(
        name="insulation in the ground", does="Lay a sheet of insulation in the ground round the house",
        helps=FROST, hours=20.0, amounts=_umbrella, monotone=False,
    ),
    Lever(
        name="deeper footings against frost", does="Let the walls and their footings go deeper", helps=FROST,
        hours=16.0, monotone=False,
        amounts=ladder("wall", "bottom", (-0.6, -0.8, -1.0, -1.2, -1.5, -1.8, -2.2, -2.6), "m", up=False),
    ),
    Lever(
        name="higher floor", does="Raise the floor, and the house with it", hours=8.0, monotone=False,
        helps=frozenset({"water-stays-below-the-floor"}), amounts=ladder("site", "floor", LEVELS, "m"),
    ),
    Lever(
        name="stronger insulation", does="Take insulation that carries more for good", hours=0.0,
        helps=frozenset({"insulation-is-not-crushed"}),
        amounts=ladder("vault.cover", "strength", FOAMS, "kPa", only=_insulation),
    ),
    Lever(
        name="stronger insulation outside the walls", does="Take stronger insulation outside the walls",
        hours=0.0, helps=GROUND_FOAM, amounts=ladder("ground_heat.wall", "strength", FOAMS, "kPa"),
    ),
    Lever(
        name="stronger insulation under the floor", does="Take stronger insulation under the floor",
        hours=0.0, helps=GROUND_FOAM, amounts=ladder("ground_heat.floor", "strength", FOAMS, "kPa"),
    ),
    Lever(
        name="thinner boards to bend", does="Bend more and thinner boards", hours=6.0, monotone=False,
        helps=frozenset({"boards-bend-to-the-curve"}), amounts=_thinner,
    ),
    Lever(
        name="old boards used as less", does="Use the old boards as a lower class", hours=0.0,
        helps=frozenset({"salvaged-boards-are-graded"}),
        amounts=word("graded", "counts_as", ("C40", "C35", "C30", "C27", "C24", "C22", "C20", "C18", "C16",
                                             "C14")),
    ),
    Lever(
        name="tube that falls to a drain", does="Lay the air tube steeper", helps=TUBE, hours=6.0,
        amounts=ladder("air.tube", "slope", (100, 67, 50, 33), "slope"),
    ),
    Lever(
        name="tube with fall and drain", does="Lay the air tube with a fall to a drain", helps=TUBE,
        hours=12.0, amounts=fixed(_falling, "1:50, and a drain at its low end"), monotone=False,
    ),
    Lever(
        name="drain in the tube", does="Set a drain at the low end of the air tube", helps=TUBE, hours=6.0,
        amounts=word("air.tube", "drain", ("no", "yes")),
    ),
    Lever(
        name="tight tube", does="Seal wall and joints of the air tube", helps=TUBE, hours=4.0,
        amounts=word("air.tube", "sealed", ("no", "yes")),
    ),
    Lever(
        name="deeper tube", does="Lay the air tube deeper", helps=TUBE, hours=12.0,
        amounts=ladder("air.tube", "depth", (1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0), "m"),
    ),
    Lever(
        name="higher inlet", does="Let the air tube take its air higher up", helps=TUBE, hours=1.0,
        amounts=ladder("air.tube", "inlet_height", (0.8, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0), "m"),
    ),
    Lever(
        name="air of its own for the stove", does="Give the stove a duct of its own from outdoors",
        helps=STOVE, hours=6.0, amounts=word("stove", "air", ("room", "own duct")),
    ),
    Lever(
        name="weaker fans", does="Let fans draw less", helps=STOVE, hours=0.0,
        amounts=ladder("air", "extract", (300, 200, 150, 100, 60, 30, 0), "m3/h", up=False),
    ),
)  # fmt: skip
"""Things that last, in steps that can be bought."""
