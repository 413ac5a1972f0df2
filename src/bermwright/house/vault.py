"""A vault: its curve, its ribs and their nails."""

from __future__ import annotations

from dataclasses import dataclass, field

from bermwright.house.around import STRENGTH_CLASSES, Cover, Feet, Fill, Mound
from bermwright.house.choices import CurveKind, Structure
from bermwright.house.fields import (
    Ask,
    Choice,
    Path,
    Quantity,
    Size,
    Table,
    Tables,
    Whole,
    Words,
    YesNo,
    says,
)
from bermwright.house.values import Board, Nail

_THICK = Quantity("thickness", "10 mm", "120 mm", "thinner boards split at the nails, thicker ones are beams")
_WIDE = Quantity("thickness", "60 mm", "450 mm", "wider boards are not sawn any more")
_RADIUS = Quantity("length", "0.2 m", "40 m", "a smaller radius is no vault, a larger one is flat")


@dataclass(frozen=True, slots=True, kw_only=True)
class Vault:
    """One vault, straight along its axis."""

    name: str = field(metadata=says("What the room is called.", Words(name=True), example="day room"))
    curve: CurveKind = field(
        metadata=says("The curve of the middle line of the ribs.", Choice(CurveKind), example="under cover")
    )
    span: float = field(
        metadata=says(
            "Width between the feet, on the middle line of the ribs.",
            Quantity("length", "0.8 m", "8 m", "over 8 m the methods for ribs used here do not hold"),
            example="4.8 m",
        )
    )
    length: float = field(
        metadata=says(
            "Length along the axis.",
            Quantity("length", "0.6 m", "60 m", "a longer vault moves with the seasons and needs joints"),
            example="7.5 m",
        )
    )
    springing: float = field(
        metadata=says(
            "Level of the feet on the middle line of the ribs, above the finished floor.",
            Quantity("level", "-2 m", "4 m", "higher walls are a house of their own"),
            example="0.9 m",
        )
    )
    structure: Structure = field(
        metadata=says(
            "What carries.",
            Choice(
                Structure,
                later=(
                    "masonry",
                    "ferrocement",
                    "earth tubes",
                    "sprayed concrete",
                    "solid ribs",
                    "poles",
                    "planks",
                ),
            ),
            example="segment ribs",
        )
    )
    board: Board = field(
        metadata=says(
            "Thickness and width of a rib board as it measures, not as the trade calls it.",
            Size(Board, _THICK, _WIDE, ("thickness", "width")),
            example="32 x 195 mm",
        )
    )
    layers: int = field(
        metadata=says(
            "How many boards lie side by side in a rib.",
            Whole(2, 12, "one layer has nothing where it is butted, over twelve cannot be nailed through"),
            example="4",
        )
    )
    spacing: float = field(
        metadata=says(
            "From the middle of one rib to the middle of the next.",
            Quantity("length", "0.15 m", "2 m", "planks do not carry soil over more"),
            example="0.6 m",
        )
    )
    timber: str = field(
        metadata=says(
            "Strength class of the rib boards (EN 338).", Words(options=STRENGTH_CLASSES), example="C18"
        )
    )
    axis: float | None = field(
        default=None,
        metadata=says(
            "The direction one looks when walking in, from north clockwise; left and right follow from it.",
            Quantity("angle", "0 deg", "360 deg", "a compass has no more"),
            example="75 deg",
            ask=Ask(
                asks="In which direction does one look when walking in?",
                why="Without it left and right have no north, and a hillside no uphill side.",
                cheapest_way="Stand where the door will be, look in, read a compass away from iron, and "
                "correct it for "
                "the local declination.",
            ),
        ),
    )
    rise: float | None = field(
        default=None,
        metadata=says(
            "Height of the crown over the feet, on the middle line of the ribs.",
            Quantity("length", "0.2 m", "8 m", "higher is a tower"),
            example="2.2 m",
            missing="a semicircle has half its span; other curves need it, or the chain or radii that give "
            "it",
        ),
    )
    chain: float | None = field(
        default=None,
        metadata=says(
            "Length of the hanging chain, for a catenary given by span and chain.",
            Quantity("length", "0.9 m", "30 m", "longer is a tower"),
            example="7.2 m",
            missing="the catenary follows from span and rise",
        ),
    )
    centre_offset: float | None = field(
        default=None,
        metadata=says(
            "How far each centre of a pointed arch lies beyond mid-span, on the other side than its arc.",
            Quantity(
                "length", "-2 m", "20 m", "beyond that the two sides are almost straight or do not meet"
            ),
            example="0.6 m",
            missing="the pointed arch follows from span and rise",
        ),
    )
    side_radius: float | None = field(
        default=None,
        metadata=says(
            "Radius of the two side arcs of a three-centred arch.", _RADIUS, example="1.6 m",
            missing="only a three-centred arch needs it",
        ),
    )  # fmt: skip
    base_centre: float | None = field(
        default=None,
        metadata=says(
            "Height over the feet of the centre of an egg's base circle.",
            Quantity("length", "0 m", "5 m", "a centre higher than that is above the crown"),
            example="0.5 m",
            missing="only an egg needs it",
        ),
    )
    flank_radius: float | None = field(
        default=None,
        metadata=says(
            "Radius of the two flanks of an egg.", _RADIUS, example="4 m", missing="only an egg needs it"
        ),
    )
    crown_radius: float | None = field(
        default=None,
        metadata=says(
            "Radius of an egg's crown arc.", _RADIUS, example="1.2 m", missing="only an egg needs it"
        ),
    )
    points: tuple[tuple[float, float], ...] = field(
        default=(),
        metadata=says(
            "A drawn curve: points from the left foot over the crown to the right foot (across from the "
            "axis, height "
            "over the feet).",
            Path(5),
            example='[["-2.4 m", "0 m"], ["-2 m", "1.2 m"], ["0 m", "2.2 m"], ["2 m", "1.2 m"], ["2.4 m", '
            '"0 m"]]',
            missing="only a drawn curve needs them",
        ),
    )
    depth: float | None = field(
        default=None,
        metadata=says(
            "Depth of the finished rib where it is cut narrower than the board.",
            Quantity("thickness", "40 mm", "450 mm", "less is no rib"),
            example="170 mm",
            missing="the rib is as deep as the board is wide",
        ),
    )
    east: float | None = field(
        default=None,
        metadata=says(
            "How far its middle lies to the east of the middle of the first vault or dome of the file.",
            Quantity("length", "-200 m", "200 m", "farther off is another house"),
            example="7.2 m",
            missing="it is not set out to the other parts, and stands beside them in models",
        ),
    )
    north: float | None = field(
        default=None,
        metadata=says(
            "How far its middle lies to the north of the middle of the first vault or dome of the file.",
            Quantity("length", "-200 m", "200 m", "farther off is another house"),
            example="-1.5 m",
            missing="it is not set out to the other parts, and stands beside them in models",
        ),
    )
    board_length: float | None = field(
        default=None,
        metadata=says(
            "Length of the longest rib piece that the boards at hand give.",
            Quantity("length", "0.3 m", "8 m", "shorter pieces have no room for nails"),
            example="1.2 m",
            ask=Ask(
                asks="How long may a rib piece be?",
                why="It decides where the butt joints lie, and a butt joint is the weak place of a rib.",
                cheapest_way="Measure the straight clear lengths of the boards you have, or ask the sawmill.",
            ),
        ),
    )
    seasoned: bool | None = field(
        default=None,
        metadata=says(
            "Whether the boards are dry (seasoned) when they are nailed.",
            YesNo(),
            example="yes",
            ask=Ask(
                asks="Are the boards dry when they are nailed?",
                why="Wet boards shrink off their nails and creep more.",
                cheapest_way="A moisture meter shows it; below 20 % counts as dry.",
            ),
        ),
    )
    service_class: int | None = field(
        default=None,
        metadata=says(
            "Service class of EN 1995-1-1: 1 heated and dry, 2 under a roof, 3 wet.",
            Whole(1, 3, "EN 1995-1-1 has three"),
            example="2",
            ask=Ask(
                asks="How damp will the ribs be for years?",
                why="Damp timber is weaker and creeps more.",
                cheapest_way="Inside of the membrane in a heated, aired house write 2; unheated or without "
                "a membrane "
                "write 3.",
            ),
        ),
    )
    nails: Nail | None = field(
        default=None,
        metadata=says(
            "Diameter and length of the nails of a rib.",
            Size(
                Nail,
                Quantity("thickness", "1.8 mm", "8 mm", "EN 1995-1-1 has rules for nails up to 8 mm"),
                Quantity("thickness", "20 mm", "400 mm", "longer ones are rods"),
                ("diameter", "length"),
            ),
            example="3.1 x 80 mm",
            ask=Ask(
                asks="Which nails hold the boards together?",
                why="At a butt joint the nails carry the whole force of a board.",
                cheapest_way="Read the packet, or measure one with a caliper.",
            ),
        ),
    )
    nail_strength: float = field(
        default=600e6,
        metadata=says(
            "Tensile strength of the nail wire.",
            Quantity("stress", "400 N/mm2", "1500 N/mm2", "no nail wire is softer or harder"),
            example="600 N/mm2",
            source="the least that EN 14592 allows for nails (from memory: confirm)",
        ),
    )
    nails_each_side: int | None = field(
        default=None,
        metadata=says(
            "Nails on each side of a butt joint, in each layer that is cut.",
            Whole(1, 60, "more would split the board"),
            example="6",
            ask=Ask(
                asks="How many nails are on each side of a butt joint?",
                why="They carry the force of the cut board into its neighbours.",
                cheapest_way="Start with 6 and look at the finding of the butt joint.",
            ),
        ),
    )
    nail_spacing: float | None = field(
        default=None,
        metadata=says(
            "Spacing of the nails along the rib between the joints.",
            Quantity("thickness", "10 mm", "600 mm", "wider apart the layers work alone"),
            example="100 mm",
            ask=Ask(
                asks="How far apart are the nails between the joints?",
                why="The layers work together only through them.",
                cheapest_way="Decide it; 100 mm in two staggered rows is a usual first guess to be checked.",
            ),
        ),
    )
    predrilled: bool | None = field(
        default=None,
        metadata=says(
            "Whether the nail holes are drilled before.",
            YesNo(),
            example="no",
            ask=Ask(
                asks="Are the nail holes predrilled?",
                why="Predrilled nails may stand closer and carry more.",
                cheapest_way="Decide it; dry hardwood must be predrilled.",
            ),
        ),
    )
    design_life: float = field(
        default=50 * 365.25 * 86400.0,
        metadata=says(
            "How long it has to stand.",
            Quantity("time", "1 years", "200 years", "beyond that nobody knows"),
            example="50 years",
            source="EN 1990, table 2.1: buildings, 50 years (from memory: confirm)",
        ),
    )
    feet: Feet | None = field(
        default=None,
        metadata=says(
            "What the ribs stand on.",
            Table(Feet),
            ask=Ask(
                asks="What do the ribs stand on, and how are their feet held?",
                why="Without it neither the bending of the rib nor the forces on the wall can be found.",
                cheapest_way="Write a [vault.feet] table: on, hold, wall_width.",
            ),
        ),
    )
    cover: tuple[Cover, ...] = field(
        default=(),
        metadata=says(
            "The layers over the ribs, from the inside out.",
            Tables(Cover),
            ask=Ask(
                asks="What lies between the ribs and the soil, from the inside out?",
                why="Planks carry the soil to the ribs, the membrane decides how it slides, all of it "
                "weighs.",
                cheapest_way="Write a [[vault.cover]] table a layer: kind, thickness, unit_weight.",
            ),
        ),
    )
    fill: Fill | None = field(
        default=None,
        metadata=says(
            "The soil that is placed around the vault.",
            Table(Fill),
            ask=Ask(
                asks="With which soil is the vault covered?",
                why="Its weight and its sideways push are the whole load.",
                cheapest_way='Write a [vault.fill] table; soil = "..." reuses one of the [[site.soil]] '
                "layers.",
            ),
        ),
    )
    mound: Mound | None = field(
        default=None,
        metadata=says(
            "The finished ground over the vault.",
            Table(Mound),
            ask=Ask(
                asks="How high and how steep is the mound over the vault?",
                why="The load is what lies between the vault and the finished ground.",
                cheapest_way="Write a [vault.mound] table: crown, left, right.",
            ),
        ),
    )

    @property
    def rib_depth(self) -> float:
        """Depth of the finished rib (m)."""
        if self.structure is Structure.BENT:
            return self.layers * self.board.thickness
        return self.board.width if self.depth is None else self.depth

    @property
    def rib_width(self) -> float:
        """Width of the finished rib, along the vault (m)."""
        if self.structure is Structure.BENT:
            return self.board.width
        return self.layers * self.board.thickness
