"""The words that the tables on living may choose from."""

from __future__ import annotations

from enum import StrEnum


class Heated(StrEnum):
    """Whether somebody keeps it warm."""

    YES = "yes"
    FROST_ONLY = "frost only"
    NO = "no"


class AnimalKind(StrEnum):
    """Animals whose warmth stays in the house."""

    COW = "cow"
    HORSE = "horse"
    GOAT = "goat"
    SHEEP = "sheep"
    PIG = "pig"
    DOG = "dog"
    HEN = "hen"


class StoveKind(StrEnum):
    """What the fire is made in."""

    IRON = "iron"
    MASONRY = "masonry"
    ROCKET_MASS = "rocket mass"


class StoveAir(StrEnum):
    """Where the air of the fire comes from."""

    ROOM = "room"
    OWN_DUCT = "own duct"


class Species(StrEnum):
    """What the wood is of."""

    BIRCH = "birch"
    BEECH = "beech"
    OAK = "oak"
    ASH = "ash"
    POPLAR = "poplar"
    SPRUCE = "spruce"
    PINE = "pine"
    LARCH = "larch"
    ROBINIA = "robinia"


class Stacked(StrEnum):
    """How the wood lies."""

    LONG = "split 1 m"
    SHORT = "short logs"
    LOOSE = "loose"
