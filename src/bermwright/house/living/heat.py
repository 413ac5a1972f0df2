"""How warm it is kept, and what stores and gives warmth inside beside the stove."""

from __future__ import annotations

from dataclasses import dataclass, field

from bermwright.house.fields import Ask, Choice, Quantity, Tables, Whole, Words, YesNo, says
from bermwright.house.living.words import AnimalKind, Heated

_ROOM = Quantity(
    "temperature",
    "5 degC",
    "28 degC",
    "colder is frost guard, hotter makes people ill, and each degree costs about a twentieth more wood",
)
_THICK = Quantity("thickness", "0 mm", "2 m", "thicker is a hill, not a layer")
_CONDUCTS = Quantity("conductivity", "0.005 W/mK", "10 W/mK", "no building material lies outside of that")


def _warmed(heat: Heat) -> bool:
    return heat.heated is not Heated.NO


@dataclass(frozen=True, slots=True, kw_only=True)
class Mass:
    """Something heavy in the room that takes up warmth and gives it back: a clay wall, a bench, water."""

    name: str = field(metadata=says("What it is.", Words(name=True), example="clay wall"))
    area: float = field(
        metadata=says(
            "Area of it that the room's air and sun touch.",
            Quantity("area", "0.1 m2", "1000 m2", "less does not matter"),
            example="9 m2",
        )
    )
    thickness: float = field(
        metadata=says(
            "Thickness that belongs to that face: half of it where both faces are counted.",
            Quantity("thickness", "1 mm", "2 m", "thinner stores nothing"),
            example="150 mm",
        )
    )
    conductivity: float = field(metadata=says("How well it conducts heat.", _CONDUCTS, example="0.9 W/mK"))
    density: float = field(
        metadata=says(
            "Its density.",
            Quantity("density", "10 kg/m3", "8000 kg/m3", "no building material is lighter or heavier"),
            example="1700 kg/m3",
        )
    )
    heat_capacity: float = field(
        metadata=says(
            "Heat that a kilogram takes up a kelvin.",
            Quantity("heat capacity", "100 J/kgK", "4300 J/kgK", "nothing stores more than water"),
            example="1000 J/kgK",
        )
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Animals:
    """Animals that live in the same air."""

    kind: AnimalKind = field(metadata=says("What they are.", Choice(AnimalKind), example="goat"))
    number: int = field(metadata=says("How many.", Whole(1, 500, "more is a stable of its own"), example="2"))
    mass: float | None = field(
        default=None,
        metadata=says(
            "Mass of one.",
            Quantity("mass", "0.5 kg", "1200 kg", "lighter gives no warmth"),
            example="60 kg",
            missing="a usual mass of its kind counts, and is printed",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat:
    """How warm the house is kept, day and night."""

    heated: Heated | None = field(
        default=None,
        metadata=says(
            'Whether it is kept warm: "yes", "frost only" (by the frost guard) or "no".',
            Choice(Heated),
            example="yes",
            ask=Ask(
                asks="Is the house kept warm in winter, only kept free of frost, or left alone?",
                why="Wood, damp, and frost beside the vault follow from it.",
                cheapest_way="Decide it.",
            ),
        ),
    )
    day: float | None = field(
        default=None,
        metadata=says(
            "Room temperature by day.",
            _ROOM,
            example="20 degC",
            ask=Ask(
                asks="How warm is the room to be by day?",
                why="Every degree costs wood the winter through.",
                cheapest_way="Decide it: 20 degC is usual where people sit, 17 degC where they work.",
                needed=lambda heat: heat.heated is Heated.YES,
            ),
        ),
    )
    night: float | None = field(
        default=None,
        metadata=says(
            "Room temperature at night.",
            _ROOM,
            example="16 degC",
            missing="it is kept as warm as by day",
        ),
    )
    day_begins: int = field(
        default=6,
        metadata=says(
            "Hour at which the day begins indoors.",
            Whole(0, 23, "a day has no more hours"),
            example="6",
            source="people rise about six; decide it for your house",
        ),
    )
    day_ends: int = field(
        default=22,
        metadata=says(
            "Hour at which the day ends indoors.",
            Whole(1, 24, "a day has no more hours"),
            example="22",
            source="people go to bed about ten; decide it for your house",
        ),
    )
    frost_guard: float = field(
        default=5.0,
        metadata=says(
            "Temperature that is held where only frost is kept out.",
            Quantity("temperature", "1 degC", "12 degC", "below nothing is guarded, above it is heating"),
            example="5 degC",
            source="pipes and stores are usually kept at 5 °C (common practice)",
        ),
    )
    cooking: float = field(
        default=3.6e6,
        metadata=says(
            "Heat that cooking brings into the room, a day.",
            Quantity("energy", "0 kWh", "20 kWh", "more is a bakery"),
            example="1 kWh",
            source="about an hour a day of one flame or plate (common practice)",
        ),
    )
    electric: float = field(
        default=0.0,
        metadata=says(
            "Heat of lamps, pumps and other electric things, a day.",
            Quantity("energy", "0 kWh", "50 kWh", "more is electric heating"),
            example="0.5 kWh",
            source="without it the house counts as unplugged, which is the careful side in winter",
        ),
    )
    shutters: bool = field(
        default=True,
        metadata=says(
            "Whether shutters, where a window has them, are closed each night.",
            YesNo(),
            example="yes",
            source="whoever builds shutters closes them",
        ),
    )
    opens_windows: bool = field(
        default=True,
        metadata=says(
            "Whether windows are opened when it gets too warm inside and is cooler outside.",
            YesNo(),
            example="yes",
            source="people do",
        ),
    )
    front_insulation: float = field(
        default=0.0,
        metadata=says(
            "Insulation of the front end wall.", _THICK, example="200 mm",
            source="none is counted that the file does not name",
        ),
    )  # fmt: skip
    front_conductivity: float = field(
        default=0.04,
        metadata=says(
            "Conductivity of that insulation.", _CONDUCTS, example="0.04 W/mK",
            source="wood fibre, cellulose and mineral wool lie near it (EN ISO 10456, from memory)",
        ),
    )  # fmt: skip
    back_insulation: float = field(
        default=0.0,
        metadata=says(
            "Insulation of the back end wall.", _THICK, example="200 mm",
            source="none is counted that the file does not name",
        ),
    )  # fmt: skip
    back_conductivity: float = field(
        default=0.04,
        metadata=says(
            "Conductivity of that insulation.", _CONDUCTS, example="0.04 W/mK",
            source="wood fibre, cellulose and mineral wool lie near it (EN ISO 10456, from memory)",
        ),
    )  # fmt: skip
    masses: tuple[Mass, ...] = field(
        default=(),
        metadata=says(
            "Heavy things inside, beside the shell and the floor.",
            Tables(Mass),
            key="mass",
            missing="only the shell and the floor store warmth",
        ),
    )
    animals: tuple[Animals, ...] = field(
        default=(),
        metadata=says(
            "Animals that live in the same air.", Tables(Animals), key="animals", missing="there are none"
        ),
    )

    @property
    def warmed(self) -> bool:
        """Whether anybody heats at all."""
        return _warmed(self)
