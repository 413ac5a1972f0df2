"""Rule set, prices, crew and review: what is not the house itself."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.house.choices import Approach
from bermwright.house.fields import Ask, Choice, Cost, Day, Number, Quantity, Whole, Words, says

if TYPE_CHECKING:
    from bermwright.base.units import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleSettings:
    """The rule set and its factors."""

    set: str = field(
        default="EN 1990",
        metadata=says(
            "The family of rules.",
            Words(options=("EN 1990", "ASCE 7, loads only")),
            example="EN 1990",
            source="the one complete set; the other gives loads, snow and foot forces by ASCE 7 and no "
            "strengths, so that nothing that asks for a strength can hold",
        ),
    )
    approach: Approach = field(
        default=Approach.DA2,
        metadata=says(
            "Design approach of EN 1997-1 for soil.",
            Choice(Approach),
            example="DA2",
            source="most national annexes use it for this kind of work (from memory: confirm)",
        ),
    )
    model_factor: float = field(
        default=1.3,
        metadata=says(
            "Factor on bending for what a frame model cannot know of the soil.",
            Number(1.0, 3.0, "below 1 it would make up strength"),
            example="1.3",
            source="engineering judgement, set against an independent continuum model of the soil",
        ),
    )
    lead_limit: float = field(
        default=0.6,
        metadata=says(
            "Cap on every stop mark, whatever the computation gives.",
            Quantity("length", "0.05 m", "1 m", "no rule allows more"),
            example="0.6 m",
            source="sides within 600 mm, as codes for buried metal arches have it (from memory: confirm)",
        ),
    )
    headroom: float | None = field(
        default=None,
        metadata=says(
            "Clear height that counts as room to stand.",
            Quantity("length", "1.5 m", "3 m", "people are not smaller or taller"),
            example="2.0 m",
            missing="no room is measured by its height",
        ),
    )


def _price(what: str, per: str, example: str) -> dict[str, object]:
    words = f"Price of {what}."
    return says(words, Cost(per), example=example, missing="its cost is not added up")


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """Prices come from the file alone, in the builder's own currency."""

    boards: Money | None = field(
        default=None, metadata=_price("rib boards, by volume bought", "m3", "380 EUR/m3")
    )
    planks: Money | None = field(
        default=None, metadata=_price("lagging planks, by volume bought", "m3", "350 EUR/m3")
    )
    nails: Money | None = field(default=None, metadata=_price("nails", "kg", "4.20 EUR/kg"))
    membrane: Money | None = field(
        default=None, metadata=_price("membrane, by area bought", "m2", "9.50 EUR/m2")
    )
    insulation: Money | None = field(default=None, metadata=_price("insulation", "m3", "160 EUR/m3"))
    drainage: Money | None = field(default=None, metadata=_price("drainage layer", "m2", "6 EUR/m2"))
    geogrid: Money | None = field(
        default=None, metadata=_price("geogrid, by area bought", "m2", "3.50 EUR/m2")
    )
    soil: Money | None = field(
        default=None, metadata=_price("fill, loose, brought to the place", "m3", "12.50 EUR/m3")
    )
    turf: Money | None = field(default=None, metadata=_price("turf", "m2", "4 EUR/m2"))
    work: Money | None = field(
        default=None, metadata=_price("one person-hour of hired help", "ph", "35 EUR/ph")
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Crew:
    """Who builds."""

    people: int | None = field(
        default=None,
        metadata=says(
            "How many people work.",
            Whole(1, 200, "nobody builds alone with more"),
            example="4",
            ask=Ask(
                asks="How many people work?",
                why="Days follow from it, and how heavy a thing may be that is lifted.",
                cheapest_way="Count those who have promised to come, and halve it.",
            ),
        ),
    )
    hours: float | None = field(
        default=None,
        metadata=says(
            "Hours of work a day.",
            Quantity("time", "1 h", "14 h", "longer days end in accidents"),
            example="7 h",
            ask=Ask(
                asks="How many hours a day is worked?",
                why="Days follow from it.",
                cheapest_way="Six are honest for earthwork by hand.",
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Review:
    """Who has reviewed the design according to this file."""

    who: str = field(
        metadata=says(
            "Name of the reviewer; it is kept, and no sheet shows it yet.", Words(), example="A. Reviewer"
        )
    )
    licence: str = field(metadata=says("Their licence.", Words(), example="structural engineer, no. 0000"))
    date: str = field(metadata=says("Day of the review.", Day(), example="2027-04-02"))
    hash: str = field(
        metadata=says(
            "Hash of the design that was reviewed, as printed in its book.", Words(), example="3f9a..."
        )
    )
