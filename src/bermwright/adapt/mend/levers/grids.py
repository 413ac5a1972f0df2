"""Levers on fill in steps of geogrid: such fill behind a foot wall or an end, and more of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.adapt.mend.levers.ladder import entries, ladder
from bermwright.adapt.mend.levers.supports import BREAKS, STANDS
from bermwright.adapt.mend.nouns import Amount, Lever
from bermwright.house import EndSide
from bermwright.house.parts.support_words import Behind, Sides

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.adapt.mend.nouns import Place

ENDS = frozenset({"end-walls-stand", "end-planks-carry-the-soil", "end-posts-hold-the-soil"})
ALONG = frozenset({"house-does-not-lean-along", "storms-do-not-lean-it-along"})
STEPS = frozenset({"geogrid-steps-stand-by-themselves"})
LENGTHS = (1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0)
"""Lengths of the layers (m)."""
SPACINGS = (0.2, 0.25, 0.3, 0.4, 0.5)
"""Heights of a step (m)."""
STRENGTHS = (10, 15, 20, 25, 30, 40, 50, 60)
"""Long-term strengths that are sold (kN/m)."""
GIVES = (30, 40, 50, 60, 80, 100, 120, 150)
"""What soft layers give (mm)."""
KIND = {Sides.LEFT: Behind.LEFT, Sides.RIGHT: Behind.RIGHT, Sides.BOTH: Behind.SIDES}
ON_LINE = frozenset({Behind.LEFT, Behind.RIGHT, Behind.SIDES})


def _walls(place: Place) -> tuple[tuple[str, Behind], ...]:
    """The foot walls of the part, or of its vault, that no such fill stands behind yet."""
    taken = {one.vault for one in place.house.geogrids if one.behind in ON_LINE}
    walls = [one.table for one in entries(place, "wall") if one.table.vault not in taken]
    return tuple((wall.vault, KIND[wall.side]) for wall in walls[:1])


def _ends(place: Place) -> tuple[tuple[str, Behind], ...]:
    """The same of ends against which soil lies."""
    taken = {(one.vault, one.behind) for one in place.house.geogrids}
    ends = [one.table for one in entries(place, "end") if one.table.soil_to and one.table.soil_to > 0.0]
    faces = [(end.vault, Behind.FRONT if end.at is EndSide.FRONT else Behind.BACK) for end in ends]
    return tuple(face for face in faces if face not in taken)


def _steps(faces: Callable[[Place], tuple[tuple[str, Behind], ...]]) -> Callable[[Place], tuple[Amount, ...]]:
    """Longer and longer layers of one grid in steps of 0.3 m, behind a soft layer."""

    def amounts(place: Place) -> tuple[Amount, ...]:
        found, first = faces(place), len(place.house.geogrids)
        if not found:
            return ()
        return tuple(_amount(found, first, length) for length in LENGTHS[:7])

    return amounts


def _amount(faces: tuple[tuple[str, Behind], ...], first: int, length: float) -> Amount:
    writes: list[tuple[tuple[str | int, ...], str]] = []
    for number, (vault, behind) in enumerate(faces, start=first):
        said = {
            "name": f"steps {behind}", "vault": vault, "behind": str(behind), "spacing": "0.3 m",
            "length": f"{length:g} m", "strength": "20 kN/m", "soft_gives": "60 mm", "soft_passes": "4 kPa",
        }  # fmt: skip
        writes += [(("geogrid", number, key), text) for key, text in said.items()]
    return Amount(
        says=f"layers {length:g} m long every 0.3 m, 20 kN/m in the long term, a soft layer that gives 60 mm",
        writes=tuple(writes),
    )


GRID_LEVERS = (
    Lever(
        name="geogrid-stepped fill",
        does="Fill in steps wrapped in geogrid, held off the wall by a soft layer",
        helps=STANDS | BREAKS, amounts=_steps(_walls), monotone=False, hours=40.0,
    ),
    Lever(
        name="geogrid-stepped fill behind the end",
        does="Fill in steps wrapped in geogrid, held off the end by a soft layer",
        helps=ENDS | ALONG, amounts=_steps(_ends), monotone=False, hours=24.0,
    ),
    Lever(
        name="longer layers of geogrid", does="Let the layers of geogrid reach further back", helps=STEPS,
        amounts=ladder("geogrid", "length", LENGTHS, "m"), hours=8.0,
    ),
    Lever(
        name="stronger geogrid", does="Take a geogrid that is stronger in the long term", helps=STEPS,
        amounts=ladder("geogrid", "strength", STRENGTHS, "kN/m"),
    ),
    Lever(
        name="lower steps of geogrid", does="Lay the layers of geogrid nearer together", helps=STEPS,
        amounts=ladder("geogrid", "spacing", SPACINGS, "m", up=False), hours=16.0, monotone=False,
    ),
    Lever(
        name="softer layer before the steps", does="Take a soft layer that gives more", helps=STEPS,
        amounts=ladder("geogrid", "soft_gives", GIVES, "mm"),
    ),
)  # fmt: skip
