"""The words that ends, openings, posts and floors may choose from."""

from __future__ import annotations

from enum import StrEnum


class EndSide(StrEnum):
    """Which end of a vault."""

    FRONT = "front"
    BACK = "back"


class EndKind(StrEnum):
    """What closes an end of a vault."""

    PLANKS = "planks"
    LOGS = "logs"
    BLOCKS = "blocks"
    EARTH_TUBES = "earth tubes"
    OPEN = "open"


class OpeningSide(StrEnum):
    """Where an opening is, as seen walking in."""

    FRONT = "front"
    BACK = "back"
    LEFT = "left"
    RIGHT = "right"
    CROWN = "crown"

    @property
    def in_end(self) -> bool:
        """Whether it is in an end wall and cuts no rib."""
        return self in {OpeningSide.FRONT, OpeningSide.BACK}


class OpeningKind(StrEnum):
    """What an opening is for."""

    DOOR = "door"
    WINDOW = "window"
    HATCH = "hatch"
    FLUE = "flue"
    ROOFLIGHT = "rooflight"

    @property
    def glazed(self) -> bool:
        """Whether it is there for light."""
        return self in {OpeningKind.WINDOW, OpeningKind.ROOFLIGHT}


class Panes(StrEnum):
    """How an opening is glazed."""

    SINGLE = "single"
    DOUBLE = "double"
    DOUBLE_COATED = "double, coated"
    TRIPLE = "triple"
    TRIPLE_COATED = "triple, coated"


class FloorUse(StrEnum):
    """What a floor is used for; it decides the load."""

    SLEEPING = "sleeping"
    LIVING = "living"
    STORE = "store"


class BoardSide(StrEnum):
    """Side of a board in which a knot is."""

    WIDE = "wide side"
    NARROW = "narrow side"
