"""Finding a place by what a builder writes, or by where the site is."""

from __future__ import annotations

import difflib
import math
import unicodedata
from typing import TYPE_CHECKING, Final

from bermwright.base.errors import BermwrightError
from bermwright.data.climates import asia, middle_europe, north_america, northern_europe, russia, southern

if TYPE_CHECKING:
    from bermwright.data.climates.nouns import MonthlyNormals

PREFIX: Final = "normals:"
"""What stands before a place's name in a house file."""
EARTH_RADIUS: Final = 6_371_000.0
"""m."""

PLACES: Final[tuple[MonthlyNormals, ...]] = tuple(
    sorted(
        (
            *north_america.PLACES,
            *southern.PLACES,
            *northern_europe.PLACES,
            *middle_europe.PLACES,
            *russia.PLACES,
            *asia.PLACES,
        ),
        key=lambda place: (place.country, place.name),
    )
)
"""All packaged places, by country and name."""


class UnknownClimateError(BermwrightError, KeyError):
    """A climate was asked for that is not packaged; the message names the nearest."""

    def __str__(self) -> str:
        return str(self.args[0])


def normals(name: str) -> MonthlyNormals:
    """The packaged normals of a place; blind to case and accents, with or without `normals:`.

    >>> normals("normals:ostersund froson").country
    'Sweden'
    """
    wanted = _plain(name.removeprefix(PREFIX))
    for place in PLACES:
        if wanted in _names(place):
            return place
    raise UnknownClimateError(_unknown(name.removeprefix(PREFIX).strip()))


def names_like(name: str, most: int = 3) -> tuple[str, ...]:
    """Names of packaged places that are written like this one, the likest first.

    >>> names_like("normals:Ostersunt")
    ('Östersund Frösön',)
    """
    found = {plain: place.name for place in PLACES for plain in (*_names(place), *_words(place))}
    near = difflib.get_close_matches(_plain(name.removeprefix(PREFIX)), found, n=2 * most, cutoff=0.7)
    return tuple(dict.fromkeys(found[plain] for plain in near))[:most]


def nearest(latitude: float, longitude: float, most: int = 3) -> tuple[tuple[MonthlyNormals, float], ...]:
    """The packaged places nearest to a site (angles in rad), each with its distance in m."""
    apart = [(place, _distance(place, latitude, longitude)) for place in PLACES]
    return tuple(sorted(apart, key=lambda pair: pair[1])[:most])


def _distance(place: MonthlyNormals, latitude: float, longitude: float) -> float:
    north, east = math.radians(place.latitude), math.radians(place.longitude)
    half = (
        math.sin((north - latitude) / 2.0) ** 2
        + math.cos(north) * math.cos(latitude) * math.sin((east - longitude) / 2.0) ** 2
    )
    return 2.0 * EARTH_RADIUS * math.asin(math.sqrt(min(1.0, half)))


def _names(place: MonthlyNormals) -> tuple[str, ...]:
    """How a place may be written: whole, and without what stands in brackets or after a stroke."""
    whole = _plain(place.name)
    return (whole, whole.partition(" (")[0], whole.partition(" /")[0])


def _words(place: MonthlyNormals) -> tuple[str, ...]:
    return tuple(word for word in _plain(place.name).split() if len(word) > 3)  # noqa: PLR2004  (not "al" or "st.")


def _unknown(name: str) -> str:
    near = names_like(name)
    like = " or ".join(f'"{PREFIX}{one}"' for one in near)
    nearest_ = f" Nearest: {like}." if near else ""
    return (
        f'No climate is called "{name}".{nearest_} {len(PLACES)} places are packaged; '
        "`bermwright schema --climates` lists them."
    )


def _plain(name: str) -> str:
    """Lower case without accents, single spaces."""
    letters = unicodedata.normalize("NFKD", name.casefold().replace("ø", "o").replace("ł", "l"))
    return " ".join("".join(letter for letter in letters if not unicodedata.combining(letter)).split())
