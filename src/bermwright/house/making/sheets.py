"""Sheets that are cut for vaults and domes, and vaults that meet."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from bermwright.house.fields import Quantity, Words, says

_ROLL = Quantity("length", "0.3 m", "30 m", "narrower is a tape, wider is a sheet made to measure")


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRoll:
    """The membrane as it is bought."""

    width: float = field(metadata=says("Width of the roll.", _ROLL, example="3 m"))
    length: float = field(
        metadata=says(
            "Length of the roll.",
            Quantity("length", "1 m", "200 m", "longer ones nobody carries"),
            example="20 m",
        )
    )
    lap: float = field(
        metadata=says(
            "Lap of one strip over the next, from the maker's sheet.",
            Quantity("thickness", "0 mm", "600 mm", "wider laps are a second layer"),
            example="100 mm",
        )
    )
    upstand: float = field(
        metadata=says(
            "How far it is carried up or down at its edges.",
            Quantity("thickness", "0 mm", "2 m", "more is a wall"),
            example="300 mm",
        )
    )
    thickness: float | None = field(
        default=None,
        metadata=says(
            "Thickness of the sheet.",
            Quantity("thickness", "0.1 mm", "20 mm", "thicker is a mat"),
            example="1.2 mm",
            missing="the membrane of the vault's cover says it; else no weight is given",
        ),
    )
    unit_weight: float | None = field(
        default=None,
        metadata=says(
            "Weight of its material.",
            Quantity("unit weight", "5 kN/m3", "27 kN/m3", "rubber is about 12 kN/m3"),
            example="12 kN/m3",
            missing="the membrane of the vault's cover says it; else no weight is given",
        ),
    )
    gives: float | None = field(
        default=None,
        metadata=says(
            "How much it may be stretched for good, from the maker's sheet.",
            Quantity("number", "0.1 %", "50 %", "nothing gives more for years"),
            example="2 %",
            missing="gores of a dome are as many as the width of the roll needs",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """A vault that runs into a larger vault or dome."""

    name: str = field(metadata=says("What the place is called.", Words(name=True), example="passage"))
    of: str = field(metadata=says("Name of the smaller vault.", Words(), example="day room"))
    into: str = field(metadata=says("Name of the larger vault or dome.", Words(), example="round room"))
    turn: float = field(
        default=0.5 * math.pi,
        metadata=says(
            "Angle in plan between both axes.",
            Quantity("angle", "20 deg", "90 deg", "sharper ones meet in a sliver"),
            example="90 deg",
            source="vaults meet square to each other unless the file says otherwise",
        ),
    )
