"""How the vault is built: lifts and leads, the tool of compaction, ballast, props and ties."""

from __future__ import annotations

from dataclasses import dataclass, field

from bermwright.house.choices import Order, Tamping
from bermwright.house.fields import Ask, Choice, Day, Quantity, Size, Table, Tables, YesNo, says
from bermwright.house.values import Board

_FILL_LEVEL = Quantity("level", "-6 m", "12 m", "levels count from the finished floor")
_SPACING = Quantity("length", "0.15 m", "10 m", "it is one of a row along the vault")


@dataclass(frozen=True, slots=True, kw_only=True)
class Ballast:
    """Weight laid on the crown while the sides are filled, so that the crown is not pushed up."""

    weight: float = field(
        metadata=says(
            "Weight of it on the crown, in plan.",
            Quantity("pressure", "0.1 kN/m2", "20 kN/m2", "more is a load nobody lifts"),
            example="3 kN/m2",
        )
    )
    width: float = field(
        metadata=says(
            "Width of the strip over the crown on which it lies.",
            Quantity("length", "0.2 m", "8 m", "a wider strip is not on the crown"),
            example="1.6 m",
        )
    )
    start: float = field(
        metadata=says("Fill level from which it lies there.", _FILL_LEVEL, key="from", example="1.5 m")
    )
    until: float = field(metadata=says("Fill level at which it comes off.", _FILL_LEVEL, example="3.0 m"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Prop:
    """A row of temporary props under the vault, one height."""

    level: float = field(
        metadata=says("Level at which the props hold the ribs.", _FILL_LEVEL, example="3.0 m")
    )
    start: float = field(
        metadata=says("Fill level from which they stand.", _FILL_LEVEL, key="from", example="0 m")
    )
    until: float = field(metadata=says("Fill level at which they come out.", _FILL_LEVEL, example="3.2 m"))
    stiffness: float | None = field(
        default=None,
        metadata=says(
            "Stiffness of the row per metre of vault.",
            Quantity("spring", "0.1 MN/m2", "10000 MN/m2", "softer is no prop"),
            example="15 MN/m2",
            ask=Ask(
                asks="How stiff are the props, or which section have they, how far apart?",
                why="A soft prop holds nothing.",
                cheapest_way="Measure the section of one and their spacing: write section and spacing.",
                needed=lambda prop: prop.section is None,
            ),
        ),
    )
    section: Board | None = field(
        default=None,
        metadata=says(
            "Section of one timber prop.",
            Size(
                Board,
                Quantity("thickness", "40 mm", "300 mm", "thinner is a lath"),
                Quantity("thickness", "40 mm", "300 mm", "thinner is a lath"),
                ("thickness", "width"),
            ),
            example="100 x 100 mm",
            missing="the stiffness says it",
        ),
    )
    spacing: float | None = field(
        default=None,
        metadata=says(
            "Distance of the props along the vault.",
            _SPACING,
            example="1.2 m",
            ask=Ask(
                asks="How far apart are the props along the vault?",
                why="The stiffness of one is shared over that length.",
                cheapest_way="Decide it: under every second rib is usual.",
                needed=lambda prop: prop.section is not None,
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Tie:
    """A row of ties across the vault, one height."""

    level: float = field(metadata=says("Level of the ties.", _FILL_LEVEL, example="1.2 m"))
    start: float = field(
        metadata=says("Fill level from which they hold.", _FILL_LEVEL, key="from", example="0 m")
    )
    until: float = field(metadata=says("Fill level at which they come out.", _FILL_LEVEL, example="3.4 m"))
    rod: float | None = field(
        default=None,
        metadata=says(
            "Diameter of one steel rod.",
            Quantity("thickness", "4 mm", "60 mm", "thinner is wire"),
            example="12 mm",
            missing="the area says it",
        ),
    )
    area: float | None = field(
        default=None,
        metadata=says(
            "Area of one steel tie that is no round rod.",
            Quantity("area", "10 mm2", "5000 mm2", "smaller is wire"),
            example="113 mm2",
            ask=Ask(
                asks="Which rod is the tie?",
                why="Its stretch lets the feet move apart.",
                cheapest_way="Measure its diameter: write rod.",
                needed=lambda tie: tie.rod is None,
            ),
        ),
    )
    spacing: float | None = field(
        default=None,
        metadata=says(
            "Distance of the ties along the vault.",
            _SPACING,
            example="1.2 m",
            ask=Ask(
                asks="How far apart are the ties along the vault?",
                why="Each holds that length of vault.",
                cheapest_way="Decide it.",
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Stages:
    """How the fill is placed."""

    lift: float = field(
        default=0.2,
        metadata=says(
            "Thickness of one layer of fill, compacted.",
            Quantity("length", "0.05 m", "0.6 m", "thinner cannot be spread, thicker cannot be compacted"),
            example="0.2 m",
            source="layers of 150 to 200 mm, both sides level, are the rule beside buried pipes (BC Forest "
            "Road "
            "Engineering Guidebook, p. 116)",
        ),
    )
    lead: float | None = field(
        default=None,
        metadata=says(
            "How far one side may at worst be ahead of the other.",
            Quantity("length", "0 m", "1 m", "no rule allows more"),
            example="0.2 m",
            missing="one lift",
        ),
    )
    compaction: Tamping | None = field(
        default=None,
        metadata=says(
            "The tool that compacts the fill beside the vault.",
            Choice(Tamping),
            example="hand rammer",
            ask=Ask(
                asks="With which tool is the fill compacted?",
                why="A plate beside the rib makes it bend half as much again, or twice. Until it is known "
                "the worse counts.",
                cheapest_way='Decide it: "hand rammer" kept 0.6 m off the ribs is the gentlest that still '
                "compacts.",
            ),
        ),
    )
    compactor_distance: float | None = field(
        default=None,
        metadata=says(
            "How near to the ribs the plate may come.",
            Quantity("length", "0 m", "5 m", "further away it does not matter"),
            example="0.6 m",
            ask=Ask(
                asks="How near to the ribs does the plate come?",
                why="Kept 0.6 m away it presses far less.",
                cheapest_way="Decide it and paint a line.",
                needed=lambda stages: stages.compaction is Tamping.PLATE,
            ),
        ),
    )
    wet_fill: bool | None = field(
        default=None,
        metadata=says(
            "Whether the fill may be placed wetter than it compacts best.",
            YesNo(),
            example="no",
            ask=Ask(
                asks="May the fill be placed wet?",
                why="Wet soil pushes sideways like a liquid while it is compacted.",
                cheapest_way="Squeeze a handful: if water shows, it is too wet. Decide whether you would "
                "stop then.",
            ),
        ),
    )
    crown_first: float = field(
        default=0.0,
        metadata=says(
            "Thickness of soil laid on the crown before the sides are filled.",
            Quantity("length", "0 m", "0.6 m", "more slides off"),
            example="0.2 m",
            source="no soil goes on the crown first unless the file says so",
        ),
    )
    crown_first_width: float | None = field(
        default=None,
        metadata=says(
            "Width of that strip of crown soil.",
            Quantity("length", "0.2 m", "8 m", "a wider strip is not on the crown"),
            example="1.6 m",
            ask=Ask(
                asks="How wide is the strip of soil that goes on the crown first?",
                why="Its weight keeps the crown down.",
                cheapest_way="Decide it: a third of the span.",
                needed=lambda stages: stages.crown_first > 0,
            ),
        ),
    )
    order: Order = field(
        default=Order.LEFT_FIRST,
        metadata=says(
            "Which side is filled first in every lift; both are checked for being ahead.",
            Choice(Order),
            example="left first",
            source="either side ahead is checked in any case; the book needs one order to print",
        ),
    )
    start: str | None = field(
        default=None,
        metadata=says(
            "The day on which filling begins.",
            Day(),
            example="2027-06-01",
            missing="the book gives seasons, no dates",
        ),
    )
    unheated_first_winter: bool | None = field(
        default=None,
        metadata=says(
            "Whether the house stands unheated through its first winter.",
            YesNo(),
            example="no",
            ask=Ask(
                asks="Does the house stand unheated through its first winter?",
                why="Fill that freezes presses. Until it is known the worse counts.",
                cheapest_way="Decide it from the dates of the works.",
            ),
        ),
    )
    ballast: Ballast | None = field(
        default=None, metadata=says("Ballast on the crown.", Table(Ballast), missing="no ballast is laid")
    )
    props: tuple[Prop, ...] = field(
        default=(), metadata=says("Temporary props.", Tables(Prop), key="prop", missing="no props are set")
    )
    ties: tuple[Tie, ...] = field(
        default=(), metadata=says("Ties.", Tables(Tie), key="tie", missing="no ties are set")
    )

    @property
    def permitted_lead(self) -> float:
        """How far one side may be ahead: as given, else one lift (m)."""
        return self.lift if self.lead is None else self.lead
