"""Points measured on the ground, and how the house is set out and dug."""

from __future__ import annotations

from dataclasses import dataclass, field

from bermwright.house.fields import Ask, Quantity, Words, says

_FINE = Quantity("length", "20 mm", "1 m", "thinner is a brick slip, higher is no course")


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """Points of the natural ground from a file, and which of them is the middle of the house."""

    points: str = field(
        metadata=says(
            "File of the points, beside the house file: CSV (name, x or lon, y or lat, z) or GeoJSON.",
            Words(),
            example="points.csv",
        )
    )
    middle: str | None = field(
        default=None,
        metadata=says(
            "Name of the point over which the middle of the house is to stand.",
            Words(),
            example="M",
            ask=Ask(
                asks="Which of the surveyed points is the middle of the house?",
                why="Cut and fill depend on where the house stands in the survey.",
                cheapest_way="Put a peg where the middle of the floor will be, measure it with the others "
                "and write its name.",
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingOut:
    """How the house is pegged out and dug."""

    dig_slope: float | None = field(
        default=None,
        metadata=says(
            "Slope at which the sides of the dig stand while one works in it.",
            Quantity("slope", "20 deg", "90 deg", "flatter is a field; upright needs shores"),
            example="1:1",
            ask=Ask(
                asks="At which slope do the sides of the dig stand?",
                why="A side that falls in buries whoever works below it; the boards must stand beyond it.",
                cheapest_way="Ask the local safety rules for this soil; without them take 1:1.5 or flatter.",
            ),
        ),
    )
    working_space: float = field(
        default=0.6,
        metadata=says(
            "Room to work outside the walls and footings, at the bottom of the dig.",
            Quantity("length", "0 m", "3 m", "more is another dig"),
            example="0.6 m",
            source="0.6 to 1.0 m is common practice, no source",
        ),
    )
    board_distance: float = field(
        default=1.2,
        metadata=says(
            "Distance of the batter boards from the upper edge of the dig.",
            Quantity("length", "0.6 m", "10 m", "nearer they fall in, further the strings sag"),
            example="1.2 m",
            source="1.2 m or more beyond the dig (Canadian wood-frame house construction, read in part)",
        ),
    )
    floor_build_up: float | None = field(
        default=None,
        metadata=says(
            "From the finished floor down to the bottom of the dig: slab, insulation and gravel.",
            Quantity("length", "0 m", "2 m", "more is a cellar"),
            example="0.35 m",
            missing="slab and insulation of [ground_heat.floor] count, without gravel",
        ),
    )
    course: float | None = field(
        default=None,
        metadata=says(
            "Height of one course of the walls, measured on the first ten as laid.",
            _FINE,
            example="0.2 m",
            missing="the gauge stick bears levels only, no courses",
        ),
    )
    tube: float | None = field(
        default=None,
        metadata=says(
            "Width of the empty tube or bag, laid flat.",
            Quantity("length", "0.2 m", "1 m", "no tube is sold narrower or wider"),
            example="450 mm",
            missing="no stand and chute are drawn",
        ),
    )
    step: float = field(
        default=0.3,
        metadata=says(
            "Largest step of a footing or of the boards on a slope.",
            Quantity("length", "0.1 m", "0.6 m", "a higher step cracks"),
            example="0.3 m",
            source="no higher than the footing is thick; common practice, no source",
        ),
    )
