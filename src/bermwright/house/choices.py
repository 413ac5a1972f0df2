"""The words that a house file may choose from."""

from __future__ import annotations

from enum import StrEnum


class CurveKind(StrEnum):
    """The curve of a vault's centreline."""

    CATENARY = "catenary"
    UNDER_COVER = "under cover"
    PARABOLA = "parabola"
    SEMICIRCLE = "semicircle"
    ELLIPSE = "ellipse"
    SEGMENT = "segment"
    POINTED = "pointed"
    THREE_CENTRED = "three-centred"
    EGG = "egg"
    LEVEL_SOIL = "level soil"
    DRAWN = "drawn"


class Structure(StrEnum):
    """What carries."""

    SEGMENT_RIBS = "segment ribs"
    BENT = "bent laminations"


class Support(StrEnum):
    """What the feet stand on."""

    WALL = "wall"
    FOOTING = "footing"


class Hold(StrEnum):
    """How the feet are held."""

    PINNED = "pinned"
    FIXED = "fixed"
    ELASTIC = "elastic"
    SPREADING = "spreading"


class CoverKind(StrEnum):
    """What a layer over the ribs is."""

    LAGGING = "lagging"
    MEMBRANE = "membrane"
    VAPOUR_CONTROL = "vapour control"
    INSULATION = "insulation"
    DRAINAGE = "drainage"
    FLEECE = "fleece"


class Terrain(StrEnum):
    """How open the land is over which the wind comes (EN 1991-1-4, table 4.1)."""

    SEA = "sea"
    LAKE = "lake or flat field"
    OPEN = "open country"
    VILLAGE = "village or forest"
    TOWN = "town"


class Frost(StrEnum):
    """Whether a soil heaves when it freezes."""

    NOT_SUSCEPTIBLE = "not susceptible"
    SUSCEPTIBLE = "susceptible"


class Tamping(StrEnum):
    """Tool of compaction."""

    NONE = "none"
    HAND = "hand rammer"
    PLATE = "plate"


class Order(StrEnum):
    """In which order the two sides are filled."""

    LEFT_FIRST = "left first"
    RIGHT_FIRST = "right first"
    TOGETHER = "together"


class Approach(StrEnum):
    """Design approach of EN 1997-1 for the soil."""

    DA1 = "DA1"
    DA2 = "DA2"


class SoilKind(StrEnum):
    """Kinds of soil that differ in how they carry and hold heat."""

    SAND = "sand or gravel"
    CLAY = "clay or silt"
    ROCK = "rock"
    PEAT = "peat"
