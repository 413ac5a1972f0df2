"""The house: everything a builder wrote, validated, in SI."""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from typing import TYPE_CHECKING

from bermwright.house.around import Fill
from bermwright.house.building import Stages
from bermwright.house.fields import Ask, Table, Tables, Whole, Words, says
from bermwright.house.living.air import Air, Moisture
from bermwright.house.living.fire import Bedroom, Fire
from bermwright.house.living.heat import Heat
from bermwright.house.living.stove import Stove, Wood
from bermwright.house.living.umbrella import ASK_GROUND_HEAT, GroundHeat
from bermwright.house.making.dome import Dome
from bermwright.house.making.sheets import Crossing, SheetRoll
from bermwright.house.making.slip import SlipForm
from bermwright.house.parts.boards import GradedBoards
from bermwright.house.parts.ends import End
from bermwright.house.parts.erection import Erection
from bermwright.house.parts.holds import FloorTie, Geogrid, Ring, Socket
from bermwright.house.parts.lasting import Pipe, WoodPart
from bermwright.house.parts.openings import Opening
from bermwright.house.parts.posts import Beam, Floor, Post
from bermwright.house.parts.stock import Log, Salvaged, Saw, Stock
from bermwright.house.parts.survey import SettingOut, Survey
from bermwright.house.parts.walls import Buttress, Footing, Wall
from bermwright.house.settings import Crew, Prices, Review, RuleSettings
from bermwright.house.site import Site, Soil
from bermwright.house.vault import Vault

if TYPE_CHECKING:
    from bermwright.house.values import Assumption

FORMAT = 1
"""The format of house files that this version writes."""

NOT_READ_YET = (
    "water",
    "kitchen", "furniture", "power",
)  # fmt: skip
"""Tables that are planned and that no rule reads yet."""

ONLY_KEPT = ("review",)
"""Tables that are read and kept, and that change nothing yet; they are named like those not read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """The house as a whole."""

    name: str = field(metadata=says("What the house is called.", Words(name=True), example="Larch Bank"))
    people: int | None = field(
        default=None,
        metadata=says(
            "How many people live there.",
            Whole(1, 200, "more is no dwelling"),
            example="3",
            ask=Ask(
                asks="How many people live in the house?",
                why="Fresh air, damp and the ways out are for all of them.",
                cheapest_way="Count them, with the guests who stay the winter.",
            ),
        ),
    )
    note: str = field(
        default="",
        metadata=says(
            "Anything a reader should know.", Words(), example="invented", missing="nothing is said"
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """A whole house file."""

    about: About = field(metadata=says("The house as a whole.", Table(About), key="house"))
    format: int = field(
        default=FORMAT,
        metadata=says("Format of this file.", Whole(1, FORMAT), example="1", missing="it counts as format 1"),
    )
    site: Site = field(
        default_factory=Site, metadata=says("The place.", Table(Site), missing="everything is asked")
    )
    vaults: tuple[Vault, ...] = field(
        default=(),
        metadata=says("The vaults.", Tables(Vault), key="vault", missing="there is nothing to check"),
    )
    domes: tuple[Dome, ...] = field(
        default=(),
        metadata=says(
            "Domes: shape, courses and openings only; nothing is known of their strength.",
            Tables(Dome),
            key="dome",
            missing="there are none",
        ),
    )
    crossings: tuple[Crossing, ...] = field(
        default=(),
        metadata=says(
            "Vaults that run into a larger vault or dome.",
            Tables(Crossing),
            key="crossing",
            missing="no vault meets another",
        ),
    )
    sheet: SheetRoll | None = field(
        default=None,
        metadata=says("The membrane as it is bought.", Table(SheetRoll), missing="its strips are not drawn"),
    )
    slip_forms: tuple[SlipForm, ...] = field(
        default=(),
        metadata=says(
            "Forms that climb along a wall, lift by lift.",
            Tables(SlipForm),
            key="slip_form",
            missing="no wall is made between panels",
        ),
    )
    ends: tuple[End, ...] = field(
        default=(),
        metadata=says(
            "What closes the ends of the vaults.",
            Tables(End),
            key="end",
            ask=Ask(
                asks="What closes the two ends of each vault, and how much soil lies against it?",
                why="Soil that lies against an end wall pushes it into the room.",
                cheapest_way="Write an [[end]] table for each end: vault, at, kind, soil_to.",
                needed=lambda house: bool(house.vaults),
            ),
        ),
    )
    openings: tuple[Opening, ...] = field(
        default=(),
        metadata=says(
            "Doors, windows, hatches, rooflights and flues.",
            Tables(Opening),
            key="opening",
            ask=Ask(
                asks="Where are the doors, windows and flues?",
                why="A hole in the shell must be framed, and everybody must get out.",
                cheapest_way="Write an [[opening]] table for each: name, vault, in, kind, width, height.",
                needed=lambda house: bool(house.vaults),
            ),
        ),
    )
    posts: tuple[Post, ...] = field(
        default=(), metadata=says("Posts.", Tables(Post), key="post", missing="there are none")
    )
    beams: tuple[Beam, ...] = field(
        default=(), metadata=says("Beams.", Tables(Beam), key="beam", missing="there are none")
    )
    floors: tuple[Floor, ...] = field(
        default=(), metadata=says("Upper floors.", Tables(Floor), key="floor", missing="there are none")
    )
    graded: tuple[GradedBoards, ...] = field(
        default=(),
        metadata=says("Boards graded by eye.", Tables(GradedBoards), missing="no board is graded by eye"),
    )
    stock: tuple[Stock, ...] = field(
        default=(),
        metadata=says(
            "Boards at hand, many lengths and widths.",
            Tables(Stock),
            missing="the cut list counts with boards of board_length",
        ),
    )
    logs: tuple[Log, ...] = field(
        default=(), metadata=says("Logs to be sawn.", Tables(Log), key="log", missing="there are none")
    )
    saw: Saw | None = field(
        default=None,
        metadata=says(
            "The saw, and which offcuts are kept.", Table(Saw), missing="the cut list prints what it assumes"
        ),
    )
    salvaged: tuple[Salvaged, ...] = field(
        default=(),
        metadata=says("Windows, doors and panes at hand.", Tables(Salvaged), missing="nothing is fitted"),
    )
    fire: Fire | None = field(
        default=None,
        metadata=says(
            "What is asked of the house in a fire.",
            Table(Fire),
            ask=Ask(
                asks="What is asked of the house in a fire, and how is its timber lined?",
                why="Ribs that burn through bring all of the earth down.",
                cheapest_way="Write a [fire] table: resists, lining, smoke_alarms, co_alarms.",
                needed=lambda house: bool(house.vaults),
            ),
        ),
    )
    bedrooms: tuple[Bedroom, ...] = field(
        default=(),
        metadata=says(
            "Places where people sleep.",
            Tables(Bedroom),
            key="bedroom",
            ask=Ask(
                asks="Where do people sleep?",
                why="Every place to sleep needs a second way out.",
                cheapest_way="Write a [[bedroom]] table for each: name, vault, people, begins, ends, closed.",
                needed=lambda house: bool(house.vaults),
            ),
        ),
    )
    walls: tuple[Wall, ...] = field(
        default=(),
        metadata=says(
            "Walls under the feet of the vaults.",
            Tables(Wall),
            key="wall",
            ask=Ask(
                asks="What do the feet of each vault stand on: how thick, how high, how deep, of what?",
                why="All that the vault carries and pushes goes into it, and the soil beside it pushes too.",
                cheapest_way="Write a [[wall]] table, and a [[footing]] under it; or a [[footing]] alone.",
                needed=lambda house: bool(house.vaults) and not house.footings,
            ),
        ),
    )
    footings: tuple[Footing, ...] = field(
        default=(),
        metadata=says("Footings.", Tables(Footing), key="footing", missing="the walls stand on the ground"),
    )
    buttresses: tuple[Buttress, ...] = field(
        default=(), metadata=says("Buttresses.", Tables(Buttress), key="buttress", missing="there are none")
    )
    rings: tuple[Ring, ...] = field(
        default=(),
        metadata=says("Bond beams and rings.", Tables(Ring), key="ring", missing="there are none"),
    )
    floor_ties: tuple[FloorTie, ...] = field(
        default=(),
        metadata=says(
            "What joins the feet of both sides under the floor.",
            Tables(FloorTie),
            key="tie",
            missing="nothing does",
        ),
    )
    geogrids: tuple[Geogrid, ...] = field(
        default=(),
        metadata=says(
            "Fill in steps of geogrid that stands by itself, held off a wall.",
            Tables(Geogrid),
            key="geogrid",
            missing="the fill leans against the walls",
        ),
    )
    sockets: tuple[Socket, ...] = field(
        default=(),
        metadata=says(
            "How the feet of the ribs are held.",
            Tables(Socket),
            key="socket",
            ask=Ask(
                asks="What keeps the foot of a rib from sliding off its support?",
                why="It pushes sideways, one way while the soil is laid and the other way later.",
                cheapest_way="Write a [[socket]] table: vault, kind, friction, hold_across, hold_down.",
                needed=lambda house: bool(house.vaults),
            ),
        ),
    )
    erection: Erection | None = field(
        default=None,
        metadata=says(
            "How the ribs are raised.",
            Table(Erection),
            ask=Ask(
                asks="How are the ribs raised, braced and guyed until the lagging is on?",
                why="Bare ribs fall over in a wind that nobody minds.",
                cheapest_way="Write an [erection] table: raised, lifted, wind_limit, and [[erection.brace]] "
                "or [[erection.guy]].",
                needed=lambda house: bool(house.vaults),
            ),
        ),
    )
    heat: Heat | None = field(
        default=None,
        metadata=says(
            "How warm it is kept.",
            Table(Heat),
            ask=Ask(
                asks="How warm is the house to be, by day and at night?",
                why="Wood, damp and frost follow from it.",
                cheapest_way="Write a [heat] table: heated, day, night.",
                needed=lambda house: bool(house.vaults),
            ),
        ),
    )
    air: Air | None = field(
        default=None,
        metadata=says(
            "Fresh air.",
            Table(Air),
            ask=Ask(
                asks="How does fresh air come into the house, and how much?",
                why="An earth-covered house is tight: people, fire and damp need air that is planned.",
                cheapest_way="Write an [air] table: supply, flow, leakage, extract.",
            ),
        ),
    )
    moisture: Moisture | None = field(
        default=None,
        metadata=says(
            "Damp that people make.",
            Table(Moisture),
            ask=Ask(
                asks="How much do the people in the house cook, wash and dry?",
                why="Their damp goes into the air, and out of it into the coldest place.",
                cheapest_way="Write a [moisture] table: cooking, showers, laundry.",
            ),
        ),
    )
    ground_heat: GroundHeat | None = field(
        default=None,
        metadata=says(
            "What keeps warmth from leaving through the ground.", Table(GroundHeat), ask=ASK_GROUND_HEAT
        ),
    )
    stoves: tuple[Stove, ...] = field(
        default=(),
        metadata=says(
            "Stoves.", Tables(Stove), key="stove", missing="no fire is counted; heat is only added up"
        ),
    )
    wood: Wood | None = field(
        default=None,
        metadata=says(
            "The firewood.",
            Table(Wood),
            ask=Ask(
                asks="Which wood is burned, and how dry is it?",
                why="How much of it must be stacked follows from it.",
                cheapest_way="Write a [wood] table: species, moisture.",
                needed=lambda house: bool(house.stoves),
            ),
        ),
    )
    wood_parts: tuple[WoodPart, ...] = field(
        default=(),
        metadata=says(
            "Of which wood the timbers are, and what keeps it from rotting.",
            Tables(WoodPart),
            key="wood_part",
            ask=Ask(
                asks="Of which wood are the timbers, and what keeps each of them from rotting?",
                why="Wood in damp earth lasts five to thirty years; the house is to stand longer.",
                cheapest_way="Write a [[wood_part]] table for all, and one for each part that is otherwise: "
                "part, species, treated_for, ends_aired, looked_at.",
                needed=lambda house: bool(house.vaults),
            ),
        ),
    )
    pipes: tuple[Pipe, ...] = field(
        default=(),
        metadata=says(
            "Drains and other pipes under the earth.",
            Tables(Pipe),
            key="pipe",
            ask=Ask(
                asks="Which drains and pipes lie under the earth?",
                why="A drain that is crushed or silted up lets water stand against the house.",
                cheapest_way="Write a [[pipe]] table for each: name, kind, diameter, stiffness, soil_over, "
                "bedding, fall, filter, outlet.",
                needed=lambda house: bool(house.vaults),
            ),
        ),
    )
    survey: Survey | None = field(
        default=None,
        metadata=says(
            "Points measured on the ground.", Table(Survey), missing="slope and facing of the site count"
        ),
    )
    setting_out: SettingOut | None = field(
        default=None,
        metadata=says(
            "How it is pegged out and dug.", Table(SettingOut), missing="common practice is printed as such"
        ),
    )
    stages: Stages = field(
        default_factory=Stages,
        metadata=says("How it is filled.", Table(Stages), missing="what is known is assumed, the rest asked"),
    )
    rules: RuleSettings = field(
        default_factory=RuleSettings,
        metadata=says("The rule set.", Table(RuleSettings), missing="the printed defaults hold"),
    )
    prices: Prices = field(
        default_factory=Prices, metadata=says("Prices.", Table(Prices), missing="nothing is priced")
    )
    crew: Crew | None = field(
        default=None, metadata=says("Who builds.", Table(Crew), missing="hours are not turned into days")
    )
    review: Review | None = field(
        default=None,
        metadata=says(
            "Who has reviewed it. No sheet reads it yet: each says: not reviewed.",
            Table(Review),
            missing="every sheet says: not reviewed",
        ),
    )
    assumptions: tuple[Assumption, ...] = ()
    """What the file does not say and was assumed, each with its reason."""

    @property
    def name(self) -> str:
        """Name of the house."""
        return self.about.name

    def soil(self, name: str) -> Soil | None:
        """The site's soil of that name."""
        return next((soil for soil in self.site.soil if soil.name == name), None)

    def fill(self, vault: Vault) -> Fill | None:
        """The fill of a vault, with what it takes over from the site's soil filled in."""
        if vault.fill is None or vault.fill.soil is None:
            return vault.fill
        soil = self.soil(vault.fill.soil)
        return vault.fill if soil is None else _taken_over(vault.fill, soil)


def _taken_over(fill: Fill, soil: Soil) -> Fill:
    shared = {one.name for one in fields(Soil)} & {one.name for one in fields(Fill)}
    missing = {name: getattr(soil, name) for name in sorted(shared) if getattr(fill, name) in {None, ""}}
    return replace(fill, **missing)
