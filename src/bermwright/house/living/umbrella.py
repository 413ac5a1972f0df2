"""What keeps warmth from leaving through the ground: floor, foot of the walls, and an umbrella."""

from __future__ import annotations

from dataclasses import dataclass, field

from bermwright.data.materials import MATERIALS
from bermwright.house.fields import Ask, Quantity, Table, Words, says

_MATERIAL = Words(options=tuple(MATERIALS))
_INSULATION = Quantity("thickness", "0 mm", "600 mm", "thicker is a room of its own")


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundFloor:
    """The floor on the ground, from the top down: a slab or boards, and insulation under it."""

    thickness: float | None = field(
        default=None,
        metadata=says(
            "Thickness of the slab, the earth floor or the boards.",
            Quantity("thickness", "20 mm", "500 mm", "thinner breaks, thicker is a foundation"),
            example="80 mm",
            ask=Ask(
                asks="How thick is the floor itself?",
                why="It stores the warmth of the sun and of the stove.",
                cheapest_way="Decide it: an earth floor is 100 mm, boards are 30 mm.",
            ),
        ),
    )
    material: str | None = field(
        default=None,
        metadata=says(
            "What it is made of: a name of the table of materials.",
            _MATERIAL,
            example="rammed earth",
            ask=Ask(
                asks="What is the floor made of?",
                why="How much warmth it carries and keeps follows from it.",
                cheapest_way="Decide it; earth, concrete, brick and boards stand in the table of materials.",
            ),
        ),
    )
    insulation: float | None = field(
        default=None,
        metadata=says(
            'Thickness of the insulation under it; "0 mm" where there is none.',
            _INSULATION,
            example="200 mm",
            ask=Ask(
                asks="How much insulation lies under the floor?",
                why="Without it the floor stays cold for years, and mould grows in its corners.",
                cheapest_way='Decide it; "0 mm" is an answer too.',
            ),
        ),
    )
    insulation_material: str = field(
        default="extruded polystyrene",
        metadata=says(
            "What the insulation under the floor is.",
            _MATERIAL,
            example="foam glass gravel",
            source="what most often lies under floors; its value is that of damp ground",
        ),
    )
    strength: float | None = field(
        default=None,
        metadata=says(
            "Long-term strength of that insulation in compression.",
            Quantity("pressure", "1 kPa", "5 MPa", "softer is wool"),
            example="100 kPa",
            ask=Ask(
                asks="Which pressure does the insulation under the floor carry for good?",
                why="Floor, stove and people rest on it; a heavy stove sinks in soft foam.",
                cheapest_way="The maker's sheet gives the long-term (creep) strength, not only the one at "
                "10 % squeeze.",
                needed=lambda one: bool(one.insulation),
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundWall:
    """The wall or footing under the feet of the vault, down into the ground."""

    material: str | None = field(
        default=None,
        metadata=says(
            "What the wall and its footing are made of: a name of the table of materials.",
            _MATERIAL,
            example="stone masonry",
            ask=Ask(
                asks="What are the walls under the vault made of?",
                why="Stone and concrete lead warmth down and out past every insulation.",
                cheapest_way="Look at it, and take the nearest name of the table of materials.",
            ),
        ),
    )
    insulation: float | None = field(
        default=None,
        metadata=says(
            'Thickness of the insulation outside the wall, from the foot of the vault down; "0 mm" where '
            "there is none.",
            _INSULATION,
            example="150 mm",
            ask=Ask(
                asks="How much insulation stands outside the walls?",
                why="The corner of wall and floor is the coldest place of the room.",
                cheapest_way='Decide it; "0 mm" is an answer too.',
            ),
        ),
    )
    insulation_material: str = field(
        default="extruded polystyrene",
        metadata=says(
            "What the insulation outside the wall is.",
            _MATERIAL,
            example="cellular glass",
            source="what most often stands in damp ground",
        ),
    )
    strength: float | None = field(
        default=None,
        metadata=says(
            "Long-term strength of that insulation in compression.",
            Quantity("pressure", "1 kPa", "5 MPa", "softer is wool"),
            example="100 kPa",
            ask=Ask(
                asks="Which pressure does the insulation outside the walls carry for good?",
                why="Soil presses it against the wall for the life of the house, most at its foot.",
                cheapest_way="The maker's sheet gives the long-term (creep) strength, not only the one at "
                "10 % squeeze.",
                needed=lambda one: bool(one.insulation),
            ),
        ),
    )
    footing_depth: float | None = field(
        default=None,
        metadata=says(
            "How far the wall and its footing go down below the finished floor.",
            Quantity("length", "0.1 m", "3 m", "a wall on top of the floor moves with the frost"),
            example="0.6 m",
            ask=Ask(
                asks="How deep below the floor do the walls go?",
                why="Frost must not come under them, and warmth leaves through them.",
                cheapest_way="Decide it with the building office: it names a depth that stays unfrozen.",
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Umbrella:
    """Insulation that lies in the ground around the house like a hat, and keeps its ground dry and warm."""

    reach: float = field(
        metadata=says(
            "How far it reaches out past the outside of the wall.",
            Quantity("length", "0.2 m", "8 m", "wider costs more than it keeps"),
            example="2 m",
        )
    )
    thickness: float = field(
        metadata=says(
            "How thick it is.",
            Quantity("thickness", "20 mm", "400 mm", "thinner breaks under the fill"),
            example="100 mm",
        )
    )
    depth: float = field(
        metadata=says(
            "How deep its top lies below the finished surface at its outer edge; it follows that slope.",
            Quantity("length", "0.1 m", "3 m", "nearer to the surface a spade finds it"),
            example="0.4 m",
        )
    )
    material: str = field(
        default="extruded polystyrene",
        metadata=says(
            "What it is made of.",
            _MATERIAL,
            example="extruded polystyrene",
            source="what most often lies in damp ground",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundHeat:
    """How floor, walls and the ground beside them hold the warmth."""

    floor: GroundFloor = field(
        default_factory=GroundFloor,
        metadata=says("The floor.", Table(GroundFloor), missing="everything is asked"),
    )
    wall: GroundWall = field(
        default_factory=GroundWall,
        metadata=says("The walls under the vault.", Table(GroundWall), missing="everything is asked"),
    )
    umbrella: Umbrella | None = field(
        default=None,
        metadata=says("Insulation around the house.", Table(Umbrella), missing="there is none"),
    )


ASK_GROUND_HEAT = Ask(
    asks="What lies under the floor, outside the walls and around the house to keep the warmth in?",
    why="The ground takes more warmth than the air in a house under earth, and stores it for months.",
    cheapest_way="Write [ground_heat.floor] and [ground_heat.wall] tables: what they are made of, how "
    'thick, and the insulation, "0 mm" where there is none.',
    needed=lambda house: house.heat is not None,
)
