"""The place: where it is, what ground it has, what water, snow and quakes do there."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.data.climates import PREFIX, UnknownClimateError, normals
from bermwright.data.weather_limits import FROZEN_GROUND_MEAN
from bermwright.house.choices import Frost, SoilKind, Terrain
from bermwright.house.fields import Ask, Choice, Number, Quantity, Tables, Words, YesNo, says

if TYPE_CHECKING:
    from bermwright.base.ranges import Range

UNIT_WEIGHT = Quantity(
    "unit weight", "5 kN/m3", "27 kN/m3", "loose peat is about 5 kN/m3, solid rock 27 kN/m3", ranged=True
)
SATURATED = Quantity(
    "unit weight", "10 kN/m3", "27 kN/m3", "a soil full of water is never lighter than water", ranged=True
)
FRICTION = Quantity(
    "angle", "10 deg", "50 deg", "soft clay is about 10 degrees, crushed rock at most 50", ranged=True
)
COHESION = Quantity("pressure", "0 kPa", "200 kPa", "more is rock", ranged=True)
STIFFNESS = Quantity(
    "stiffness", "0.5 MPa", "300 MPa", "loose silt is about 1 MPa, dense gravel 200 MPa", ranged=True
)

CONDUCTS = Quantity("conductivity", "0.2 W/mK", "4.5 W/mK", "dry peat is about 0.3 W/mK, rock at most 4.5")

ASK_WEIGHT = Ask(
    asks="How heavy is this soil as it is placed?",
    why="Every load on the vault is this weight times its depth; without it nothing can be checked.",
    cheapest_way="Pack a bucket of known volume as firmly as it will be tamped, weigh it, divide. 10 litres "
    "weighing 19 kg are 18.6 kN/m3. Write a range from the driest to the wettest bucket.",
)
ASK_SATURATED = Ask(
    asks="How heavy is this soil when it is full of water?",
    why="After a thaw with a blocked drain the cover is this heavy.",
    cheapest_way="Fill the weighed bucket with water until it stands at the brim, and weigh it again.",
)
ASK_FRICTION = Ask(
    asks="What is the angle of friction of this soil?",
    why="It decides how hard the soil presses sideways; without it the sideways push is unknown.",
    cheapest_way="A shear-box test of a bag of it costs about a day of a laboratory. For clean sand and "
    "gravel the "
    "slope of a dry poured heap is the low end; write a range.",
)
ASK_FROST = Ask(
    asks="Does this soil heave when it freezes?",
    why="An unheated first winter with a heaving soil presses on the vault with a force that nobody can "
    "state.",
    cheapest_way="Wash a handful through a fine sieve (0.063 mm): over 3 to 5 parts in a hundred of fines is "
    'suspect. A soil laboratory sieves a bag for little. Write "susceptible" when in doubt.',
)

ASK_SWELLS = Ask(
    asks="Does this clay swell when it gets wet?",
    why="Swelling clay lifts and presses with a force that nothing here reckons with.",
    cheapest_way="Dry a handful, crush it, pour 10 millilitres of the powder into a glass of water and look "
    "after a day: if it stands higher than 15 millilitres it is suspect, and a laboratory should see it.",
    needed=lambda soil: soil.kind is SoilKind.CLAY,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Soil:
    """One layer of natural soil, listed from the top down."""

    name: str = field(
        metadata=says(
            "What the layer is called; the fill refers to it by this name.",
            Words(name=True),
            example="silty till",
        )
    )
    unit_weight: Range | None = field(
        default=None,
        metadata=says(
            "Weight of the soil as it lies, moist.", UNIT_WEIGHT, example="19..20 kN/m3", ask=ASK_WEIGHT
        ),
    )
    saturated_unit_weight: Range | None = field(
        default=None,
        metadata=says(
            "Weight with all pores full of water.", SATURATED, example="21..22 kN/m3", ask=ASK_SATURATED
        ),
    )
    friction_angle: Range | None = field(
        default=None,
        metadata=says("Angle of friction, drained.", FRICTION, example="30..34 deg", ask=ASK_FRICTION),
    )
    cohesion: Range | None = field(
        default=None,
        metadata=says("Cohesion, drained.", COHESION, example="0..5 kPa", missing="none is counted on"),
    )
    stiffness: Range | None = field(
        default=None,
        metadata=says(
            "Young's modulus at a mean pressure of 50 kPa, compacted as it will be.",
            STIFFNESS,
            example="8..20 MPa",
            missing="the soil presses but is not counted on to hold the vault back",
        ),
    )
    thickness: float | None = field(
        default=None,
        metadata=says(
            "How thick the layer is; the lowest one has no end.",
            Quantity("length", "0.05 m", "100 m", "thinner layers cannot be dug apart"),
            example="1.2 m",
            missing="the layer goes down without end",
        ),
    )
    frost: Frost | None = field(
        default=None,
        metadata=says(
            "Whether it heaves when it freezes.", Choice(Frost), example="not susceptible", ask=ASK_FROST
        ),
    )
    kind: SoilKind | None = field(
        default=None,
        metadata=says(
            "Which kind of soil it is, for heat and frost.",
            Choice(SoilKind),
            example="sand or gravel",
            missing="it carries and holds heat as ISO 13370 says of a ground that nobody knows",
        ),
    )
    swells: bool | None = field(
        default=None,
        metadata=says(
            "Whether it swells when it gets wet; asked of clay.", YesNo(), example="no", ask=ASK_SWELLS
        ),
    )
    conductivity: float | None = field(
        default=None,
        metadata=says(
            "Thermal conductivity, as moist as it lies.",
            CONDUCTS,
            example="1.8 W/mK",
            missing="that of its kind counts",
        ),
    )
    frozen_conductivity: float | None = field(
        default=None,
        metadata=says(
            "Thermal conductivity when it is frozen.",
            CONDUCTS,
            example="2.4 W/mK",
            missing="it follows from its kind and water",
        ),
    )
    water_content: float | None = field(
        default=None,
        metadata=says(
            "Water in it, over the dry mass.",
            Number(0.0, 4.0, "dry is 0, drowned peat is 4"),
            example="0.12",
            missing="that of its kind counts",
        ),
    )
    source: str = field(
        default="",
        metadata=says(
            "Who measured these values, or which table they are from.",
            Words(),
            example="trial pit 2, own bucket test",
            missing="the values count as the builder's own",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class HorizonPoint:
    """How high hills, woods or houses stand against the sky in one direction."""

    direction: float = field(
        metadata=says(
            "The direction looked into, from north clockwise.",
            Quantity("angle", "0 deg", "360 deg", "a compass has no more"),
            example="180 deg",
        )
    )
    height: float = field(
        metadata=says(
            "Angle from the level up to the edge of hill or wood; between two directions it is "
            "drawn straight.",
            Quantity("angle", "0 deg", "85 deg", "more is a shaft"),
            example="8 deg",
        )
    )


def _slopes(site: Site) -> bool:
    return site.slope is None or site.slope > 0


def may_stay_frozen(site: Site) -> bool:
    """Whether the climate is so cold that ground may stay frozen through the summer."""
    if site.climate is None or not site.climate.startswith(PREFIX):
        return False
    try:
        place = normals(site.climate)
    except UnknownClimateError:
        return False
    return sum(place.mean) / len(place.mean) <= FROZEN_GROUND_MEAN


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """The place of the house."""

    latitude: float | None = field(
        default=None,
        metadata=says(
            "Latitude, north is positive.",
            Quantity("angle", "-90 deg", "90 deg", "the poles are there"),
            example="62.9 deg",
            ask=Ask(
                asks="At which latitude is the site?",
                why="Sun and seasons follow from it.",
                cheapest_way="Read it off any map or telephone.",
            ),
        ),
    )
    longitude: float | None = field(
        default=None,
        metadata=says(
            "Longitude, east is positive.",
            Quantity("angle", "-180 deg", "180 deg", "the globe is closed there"),
            example="14.5 deg",
            missing="nothing asks for it yet",
        ),
    )
    altitude: float | None = field(
        default=None,
        metadata=says(
            "Height of the ground over the sea.",
            Quantity("level", "-450 m", "6000 m", "nobody lives lower or higher"),
            example="320 m",
            missing="the climate of the named station is not corrected for height",
        ),
    )
    floor: float | None = field(
        default=None,
        metadata=says(
            "Level of the finished floor against the natural ground at the middle of the house; below it "
            "is negative.",
            Quantity("level", "-6 m", "6 m", "a floor further from the ground is another kind of house"),
            example="-0.45 m",
            ask=Ask(
                asks="How deep under (or high over) the natural ground is the finished floor, at the "
                "middle of the house?",
                why="Every level of the fill counts from the floor, and the natural ground from this number.",
                cheapest_way="Stretch a string with a line level over the pegs of the house, measure down "
                "to the ground "
                "in the middle and decide the floor from there.",
            ),
        ),
    )
    climate: str | None = field(
        default=None,
        metadata=says(
            'Monthly normals of a station, "normals:NAME", or the path of a weather file.',
            Words(),
            example="normals:Östersund Frösön",
            ask=Ask(
                asks="Which weather station is like this site?",
                why="Frost, winter dates and the first unheated winter follow from it.",
                cheapest_way="Take the nearest station of the packaged table at a like height and distance "
                "from the sea.",
            ),
        ),
    )
    permafrost: bool | None = field(
        default=None,
        metadata=says(
            "Whether ground stays frozen through the summer; asked where the climate is cold enough.",
            YesNo(),
            example="no",
            ask=Ask(
                asks="Does the ground stay frozen through the summer?",
                why="A warm house thaws frozen ground and sinks into it; nothing here reckons with that.",
                cheapest_way="Dig or drive a rod down 3 m at the end of summer, and ask those who dig graves "
                "and wells there.",
                needed=may_stay_frozen,
            ),
        ),
    )
    horizon: tuple[HorizonPoint, ...] = field(
        default=(),
        metadata=says(
            "What hides the low sun, direction by direction.",
            Tables(HorizonPoint),
            missing="the sun is counted down to the level horizon, which is too kind behind hills and woods",
        ),
    )
    ground_snow: float | None = field(
        default=None,
        metadata=says(
            "Characteristic snow load on the ground (once in 50 years).",
            Quantity("pressure", "0 kN/m2", "20 kN/m2", "no inhabited place has a larger map value"),
            example="2.5 kN/m2",
            ask=Ask(
                asks="What is the characteristic snow load on the ground here?",
                why="Snow is the largest load that comes and goes; every stage is checked with it.",
                cheapest_way="Ask the building office for the map value of the place and its height; it is "
                "printed in "
                "the national annex and costs nothing.",
            ),
        ),
    )
    wind: float | None = field(
        default=None,
        metadata=says(
            "Wind speed of the map: ten minutes' mean, 10 m over open country, once in fifty years.",
            Quantity("speed", "15 m/s", "60 m/s", "no map shows less or more"),
            example="24 m/s",
            ask=Ask(
                asks="Which wind speed does the map show here?",
                why="Bare ribs and a lagged shell stand in the wind before soil lies on them.",
                cheapest_way="Ask the building office for the value of the national annex to EN 1991-1-4.",
            ),
        ),
    )
    terrain: Terrain = field(
        default=Terrain.OPEN,
        metadata=says(
            "How open the land is over which the wind comes.",
            Choice(Terrain),
            example="open country",
            source="the windiest that is usual inland (EN 1991-1-4, category II)",
        ),
    )
    ground_acceleration: float | None = field(
        default=None,
        metadata=says(
            "Design ground acceleration on rock.",
            Quantity("acceleration", "0 g", "1 g", "no map shows more"),
            example="0.04 g",
            ask=Ask(
                asks="What is the design ground acceleration here?",
                why="Over 0.25 g the methods used here do not hold at all.",
                cheapest_way="Ask the building office for the value of the hazard map.",
            ),
        ),
    )
    water_depth: Range | None = field(
        default=None,
        metadata=says(
            "Depth of the ground water below the natural surface; a range for spring and autumn.",
            Quantity("length", "0 m", "100 m", "deeper water does not matter", ranged=True),
            example="1.8..2.6 m",
            ask=Ask(
                asks="How deep is the ground water, in its highest and its lowest month?",
                why="Water beside the vault presses on it, and a floor below water needs another kind of "
                "house.",
                cheapest_way="Dig a hole with an auger to a metre below the footing, put in a slotted "
                "pipe, read it "
                "with a string every week through snow melt. Ask the neighbours about their wells.",
            ),
        ),
    )
    slope: float | None = field(
        default=None,
        metadata=says(
            'Slope of the natural ground; "0 deg" where it is level.',
            Quantity(
                "slope",
                "0 deg",
                "35 deg",
                "steeper hillsides need a geotechnical engineer before anything else",
            ),
            example="8 deg",
            ask=Ask(
                asks="How steep is the natural ground?",
                why="A hillside loads one side of the vault more than the other.",
                cheapest_way="Lay a straight 2 m board down the slope, hold a spirit level on it, measure "
                "the gap at "
                'the low end: 28 cm are 8 degrees. Level ground is "0 deg".',
            ),
        ),
    )
    faces: float | None = field(
        default=None,
        metadata=says(
            "The direction in which the ground falls, from north clockwise.",
            Quantity("angle", "0 deg", "360 deg", "a compass has no more"),
            example="165 deg",
            ask=Ask(
                asks="In which direction does the ground fall?",
                why="With the axis of the vault it decides which side is uphill.",
                cheapest_way="Let a ball or a bucket of water run, and take its direction with a compass.",
                needed=_slopes,
            ),
        ),
    )
    overflow: float | None = field(
        default=None,
        metadata=says(
            "Level, from the floor, to which water beside the vault backs up before it runs off elsewhere "
            "when the "
            "drain is blocked.",
            Quantity("level", "-6 m", "10 m", "levels count from the finished floor"),
            example="0.3 m",
            ask=Ask(
                asks="When the drain is blocked, at which level does the water find another way out?",
                why="Up to that level water presses on the vault.",
                cheapest_way="Find the lowest point of the finished ground around the vault where water "
                "would run away, "
                "and level it against the floor.",
            ),
        ),
    )
    accessible_roof: bool | None = field(
        default=None,
        metadata=says(
            "Whether people may gather on the mound.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="May people gather on the mound?",
                why="A crowd is a load of its own, and nothing keeps guests off a grass hill.",
                cheapest_way='Decide it. "no" needs a fence or a slope that keeps people away.',
            ),
        ),
    )
    soil: tuple[Soil, ...] = field(
        default=(),
        metadata=says(
            "The layers of natural soil, from the top down.",
            Tables(Soil),
            ask=Ask(
                asks="Which soils lie under the site, from the top down?",
                why="The house stands on them, and usually the fill is dug from them.",
                cheapest_way="Dig one trial pit beside (not under) the house to a metre below the footing, "
                "with the usual "
                "care about its sides, and photograph the layers with a tape.",
            ),
        ),
    )
