"""The words that domes and forms may choose from."""

from __future__ import annotations

from enum import StrEnum


class DomeCurve(StrEnum):
    """The curve of a dome's inner face, from foot over crown to foot."""

    HEMISPHERE = "hemisphere"
    POINTED = "pointed"
    EGG = "egg"
    CATENARY = "catenary"
    SEGMENT = "segment"
    ELLIPSE = "ellipse"
    PARABOLA = "parabola"
    DRAWN = "drawn"


class Laid(StrEnum):
    """How the beds of a dome lie."""

    LEVEL = "level"
    TILTED = "tilted"


class DomeUnit(StrEnum):
    """What a dome is laid of."""

    TUBES = "earth tubes"
    BAGS = "earth bags"
    BRICKS = "bricks"

    @property
    def runs_on(self) -> bool:
        """Whether it is one long piece, not many."""
        return self is DomeUnit.TUBES


class Head(StrEnum):
    """The upper end of an opening."""

    FLAT = "flat"
    ROUND = "round"
