"""The dozen questions that a house file can begin with, each with the places that its answer fills."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from bermwright.app.asking.soils import SOIL_OPTIONS, Option, soil_places
from bermwright.base.errors import BermwrightError, QuantityError
from bermwright.formats.house_file.values import nearest, value_of
from bermwright.house import House
from bermwright.house.fields import Said, Table, Tables, Whole, said_of

Places = Mapping[str, str]
"""What an answer writes, by path in the house file."""


class AnswerError(BermwrightError):
    """An answer that cannot be taken; the message says what to write."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One plain question."""

    name: str
    """Also that of its picture."""
    asks: str
    why: str
    learn: str
    """The cheapest way to find out."""
    places: tuple[str, ...]
    """The places in the house file that stay open without an answer."""
    example: str
    example_imperial: str
    options: tuple[Option, ...] = ()
    """The answers to choose from, where it is no free text."""
    writes: Callable[[str], Places] | None = None
    """What a chosen option fills in; else the answer's own words go into each place."""
    draws: bool = False
    """Whether there is no vault to draw and to check before it is answered."""

    def read(self, text: str) -> Places:
        """The answer as it goes into the file. Raises `AnswerError` with what to write instead."""
        words = " ".join(text.split())
        if not words:
            raise AnswerError(f'Nothing is written here. Write for example "{self.example}".')
        if self.writes is not None:
            return self.writes(self._chosen(words))
        try:
            for place in self.places:
                kind = field_at(place).kind
                value_of(self._counted(words) if isinstance(kind, Whole) else words, kind)  # type: ignore[arg-type]
        except QuantityError as error:
            raise AnswerError(str(error)) from None
        return dict.fromkeys(self.places, words)

    def _counted(self, words: str) -> int:
        if words.isascii() and words.isdigit() and len(words) < 5:  # noqa: PLR2004  (nobody counts further)
            return int(words)
        raise QuantityError(f'"{words}" is no whole number. Write for example {self.example}.')

    def _chosen(self, words: str) -> str:
        """The option that is meant, by its number or its words."""
        if words.isascii() and words.isdigit() and 1 <= int(words) <= len(self.options):
            return self.options[int(words) - 1].text
        texts = [option.text for option in self.options]
        if words in texts:
            return words
        raise AnswerError(
            f'"{words}" is not in the list. Write a number from 1 to {len(texts)}, or the words.'
            f"{nearest(words, texts)}"
        )


def field_at(place: str) -> Said:
    """What is said of the field at a path such as `vault.mound.crown`."""
    model: type = House
    *way, last = place.split(".")
    for key in way:
        kind = said_of(model)[key].kind
        assert isinstance(kind, Table | Tables)  # noqa: S101  (the list below names tables only)
        model = kind.of
    return said_of(model)[last]


QUESTIONS: tuple[Asked, ...] = (
    Asked(
        name="people",
        asks="How many people will live in it?",
        why="Air, damp and the ways out are counted by the head.",
        learn="Count those who sleep there in a usual week.",
        places=("house.people",),
        example="3",
        example_imperial="3",
    ),
    Asked(
        name="span",
        asks="How wide is the vault between its feet?",
        why="The wider it is, the more soil it carries and the more its ribs bend.",
        learn="Peg the two walls on the ground, furnish the room with boards, and measure.",
        places=("vault.span",),
        example="4.8 m",
        example_imperial="15 ft 9 in",
        draws=True,
    ),
    Asked(
        name="rise",
        asks="How high does the vault rise above its feet?",
        why="A flat vault pushes its feet apart, a high one is bent by the soil at its sides.",
        learn="Hang a chain between two nails as far apart as the feet; half the width is a usual beginning.",
        places=("vault.rise",),
        example="2.2 m",
        example_imperial="7 ft 3 in",
        draws=True,
    ),
    Asked(
        name="springing",
        asks="How high above the floor are the feet of the vault?",
        why="It is the height of the walls inside; they carry the push of the vault.",
        learn='Write "0 m" where the vault begins at the floor.',
        places=("vault.springing",),
        example="0.9 m",
        example_imperial="3 ft",
        draws=True,
    ),
    Asked(
        name="length",
        asks="How long is the room?",
        why="Soil, timber and hours grow with it.",
        learn="Pace it out on the place.",
        places=("vault.length",),
        example="7.5 m",
        example_imperial="24 ft 6 in",
        draws=True,
    ),
    Asked(
        name="axis",
        asks="In which direction do you look when you walk in?",
        why="Left and right, sun and hill follow from it. North is 0, east is 90 degrees.",
        learn="Stand where the door will be, look in, and read a compass away from iron.",
        places=("vault.axis",),
        example="75 deg",
        example_imperial="75 deg",
    ),
    Asked(
        name="crown",
        asks="How much soil lies on top of the vault, turf included?",
        why="It is the largest weight on the house, and what keeps the turf alive in a dry summer.",
        learn="Ask which grass has to grow there; it needs depth for its roots and its water.",
        places=("vault.mound.crown",),
        example="0.35 m",
        example_imperial="1 ft 2 in",
    ),
    Asked(
        name="sides",
        asks="How steep are the sides of the mound?",
        why="Steep soil slides and cannot be mown; flat soil needs room and many barrows.",
        learn="Lay a board of 2.5 m against a heap, one end 1 m up: that is 1:2.5.",
        places=("vault.mound.left", "vault.mound.right"),
        example="1:2.5",
        example_imperial="1:2.5",
    ),
    Asked(
        name="latitude",
        asks="How far north is the place?",
        why="The height of the sun follows from it.",
        learn="Any map or telephone shows it. South of the equator it is negative.",
        places=("site.latitude",),
        example="62.9 deg",
        example_imperial="62.9 deg",
    ),
    Asked(
        name="snow",
        asks="How heavy is the snow on level ground, once in fifty years?",
        why="It lies on bare ribs as well as on the finished mound.",
        learn="Ask the building office for the characteristic snow load of the place.",
        places=("site.ground_snow",),
        example="2.5 kN/m2",
        example_imperial="52 psf",
    ),
    Asked(
        name="slope",
        asks="How much does the natural ground fall?",
        why="A house in a hill is pushed downhill.",
        learn="Level a board of two metres and measure the gap under its free end. Level ground is 0 deg.",
        places=("site.slope",),
        example="8 deg",
        example_imperial="8 deg",
    ),
    Asked(
        name="soil",
        asks="Which soil will you heap over it?",
        why="Its weight and its sideways push are the whole load.",
        learn="Dig a bucket where it will come from. Sand rubs off a dry hand, silt powders, clay sticks.",
        places=("site.soil.name", "vault.fill.soil"),
        example="silty sand",
        example_imperial="silty sand",
        options=SOIL_OPTIONS,
        writes=soil_places,
    ),
    Asked(
        name="water",
        asks="How deep below the ground does water stand?",
        why="Water lifts floors, presses on walls and takes the strength from soil.",
        learn="Look into wells and ditches near by in spring and in autumn; write both as a range.",
        places=("site.water_depth",),
        example="2..3 m",
        example_imperial="7..10 ft",
    ),
)
"""In the order in which they are asked."""


def question_named(name: str) -> Asked:
    """One of the questions."""
    for question in QUESTIONS:
        if question.name == name:
            return question
    names = [question.name for question in QUESTIONS]
    raise AnswerError(f'There is no question "{name}".{nearest(name, names)}')
