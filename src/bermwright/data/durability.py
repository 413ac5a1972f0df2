"""How long wood lasts where: natural durability, what a use class asks for, and lives in the ground."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.works.lasting import (
    BS8417,
    BURIEDLIVES,
    EN335,
    EN350NORDIC,
    EN350TABLE,
    EN460,
    TREATEDLIVES,
    USECLASSES,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

YEAR = 365.25 * 86_400.0
CLASSES_CITE = Cite(work=EN350TABLE, place="table of durability against fungi, heartwood and sapwood",
                    provenance=Provenance.READ)  # fmt: skip
NORDIC_CITE = Cite(work=EN350NORDIC, place="table by species; no Nordic wood for use class 3 or more",
                   provenance=Provenance.READ)  # fmt: skip
USE_CITE = Cite(work=USECLASSES, place="use classes with their parts of a house", provenance=Provenance.READ)
SERVICE_CITE = Cite(work=EN335, place="annex A: service classes beside use classes",
                    provenance=Provenance.MEMORY)  # fmt: skip
ENOUGH_CITE = Cite(work=EN460, place="table 1: durability class beside use class",
                   provenance=Provenance.MEMORY)  # fmt: skip
LIVES_CITE = Cite(work=BURIEDLIVES, place="years outdoors by durability class", provenance=Provenance.READ)
TREATED_CITE = Cite(work=TREATEDLIVES, place="15, 30 or 60 years; 15 or 30 in use class 4",
                    provenance=Provenance.READ)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Natural:
    """Durability of one wood against fungi, 1 very durable to 5 not durable."""

    best: int
    worst: int
    cite: Cite


NATURAL: Mapping[str, Natural] = MappingProxyType(
    {
        "spruce": Natural(4, 4, CLASSES_CITE),
        "fir": Natural(4, 4, CLASSES_CITE),
        "pine": Natural(3, 4, CLASSES_CITE),
        "larch": Natural(3, 4, CLASSES_CITE),
        "Douglas fir": Natural(3, 4, CLASSES_CITE),
        "western red cedar": Natural(2, 3, CLASSES_CITE),
        "yew": Natural(2, 2, NORDIC_CITE),
        "oak": Natural(2, 4, NORDIC_CITE),
        "robinia": Natural(1, 2, CLASSES_CITE),
        "ash": Natural(5, 5, NORDIC_CITE),
        "beech": Natural(5, 5, CLASSES_CITE),
        "birch": Natural(5, 5, NORDIC_CITE),
    }
)
"""Heartwood. Where two sources differ (oak 2, or 2 to 4) the wider range stands; the worse end counts."""
SAPWOOD = 5
"""Of every wood."""


class Enough(StrEnum):
    """What EN 460 says of a durability class in a use class."""

    YES = "lasts untreated"
    MOSTLY = "lasts untreated where it dries and is looked at"
    DOUBTFUL = "may need treatment"
    HARDLY = "needs treatment as a rule"
    NO = "needs treatment"


_Y, _M, _D, _H, _N = Enough.YES, Enough.MOSTLY, Enough.DOUBTFUL, Enough.HARDLY, Enough.NO
ENOUGH: Mapping[int, tuple[Enough, ...]] = MappingProxyType(
    {
        1: (_Y, _Y, _Y, _Y, _Y),
        2: (_Y, _Y, _Y, _M, _M),
        3: (_Y, _Y, _M, _D, _D),
        4: (_Y, _M, _H, _N, _N),
    }
)
"""By use class, for durability classes 1 to 5."""

LEAST_LIFE: Mapping[int, Sourced] = MappingProxyType(
    {
        1: Sourced(25.0 * YEAR, LIVES_CITE),
        2: Sourced(15.0 * YEAR, LIVES_CITE),
        3: Sourced(10.0 * YEAR, LIVES_CITE),
        4: Sourced(5.0 * YEAR, LIVES_CITE),
        5: Sourced(2.0 * YEAR, LIVES_CITE, "printed: less than 5 years"),
    }
)
"""In the ground and in all weathers, untreated: the least that is printed (s)."""

LEAST_SERVICE: Mapping[int, int] = MappingProxyType({1: 1, 2: 2, 3: 3, 4: 3})
"""The service class of EN 1995-1-1 that a use class asks for at least."""
LONGEST_TREATED: Mapping[int, Sourced] = MappingProxyType(
    {
        1: Sourced(60.0 * YEAR, Cite(work=BS8417, place="desired service life", provenance=Provenance.MEMORY)),
        2: Sourced(60.0 * YEAR, Cite(work=BS8417, place="desired service life", provenance=Provenance.MEMORY)),
        3: Sourced(30.0 * YEAR, TREATED_CITE),
        4: Sourced(30.0 * YEAR, TREATED_CITE),
    }
)  # fmt: skip
"""The longest life for which a treatment is sold, by use class: a certificate that says more is not believed."""


def durability_of(species: str, *, heartwood_only: bool) -> tuple[int, Cite]:
    """The class that counts, 1 to 5, and where it stands.

    >>> durability_of("robinia", heartwood_only=True)[0], durability_of("oak", heartwood_only=False)[0]
    (2, 5)
    """
    natural = NATURAL[species]
    return (natural.worst if heartwood_only else SAPWOOD), natural.cite
