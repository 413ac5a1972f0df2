"""What a stage is called, what to do in it, and the usual cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.stages.given import Given

LOCAL_RULES = "Local rules and the person who signs for the work come before this page."


def name(kind: StageKind, level: float | None) -> str:
    """Short name that tells the stages apart."""
    if kind is StageKind.FILL and level is not None:
        return f"fill to {_level(level)}"
    return {
        StageKind.RIBS: "ribs up",
        StageKind.LAGGED: "lagged",
        StageKind.WRAPPED: "wrapped",
        StageKind.CROWN_SOIL: "crown soil",
        StageKind.COVER: "crown cover",
        StageKind.TURF: "turf",
        StageKind.SETTLED: "settled",
        StageKind.LONG_TERM: "long term",
    }[kind]


def title(kind: StageKind, level: float | None) -> str:
    """Heading of the stage's page."""
    if kind is StageKind.FILL and level is not None:
        return f"Fill to {_level(level)}, both sides"
    return {
        StageKind.RIBS: "Raise and brace the ribs",
        StageKind.LAGGED: "Nail on the lagging",
        StageKind.WRAPPED: "Lay membrane and insulation",
        StageKind.CROWN_SOIL: "Lay the first soil on the crown",
        StageKind.COVER: "Cover the crown",
        StageKind.TURF: "Lay the turf",
        StageKind.SETTLED: "The house in use",
        StageKind.LONG_TERM: "The house after decades",
    }[kind]


def do(
    kind: StageKind,
    level: float | None,
    given: Given,
    *,
    changes: tuple[str, ...] = (),
    ballast: bool = False,
) -> tuple[str, ...]:
    """What to do, in order."""
    if kind is StageKind.FILL and level is not None:
        return _do_fill(level, given, changes, ballast=ballast)
    steps = {
        StageKind.RIBS: (
            "Raise the ribs one by one from one end and brace each before the next goes up.",
            "Check span, crown level and plumb against the setting-out sheet.",
            "Brace lengthways in at least two bays.",
        ),
        StageKind.LAGGED: (
            "Nail the lagging from both feet upwards, both sides in step.",
            "Stagger the end joints of the planks; every end lies on a rib.",
            "Leave the braces in until the last plank is on.",
        ),
        StageKind.WRAPPED: (
            "Lay insulation and membrane as the cover list of the house file says, from the feet up.",
            "Protect the membrane on both faces. Photograph laps and edges before they are buried.",
            "Paint the level marks of the fill on both sides, by water level from the floor.",
        ),
        StageKind.CROWN_SOIL: (
            _crown_soil(given),
            "Carry it up by hand, spread it evenly from the middle outwards, and do not compact it.",
        ),
        StageKind.COVER: (
            f"Bring the soil over the crown by hand, in thin layers, {_ORDER[given.order]}.",
            f"One side is never more than {show(given.lead, 'm', digits=2)} ahead.",
            "Nothing with wheels or tracks goes on the roof.",
        ),
        StageKind.TURF: (
            "Lay the turf from the toes upwards on both sides in step, lower layer grass down.",
            "Peg or batten it where the slope calls for it.",
        ),
        StageKind.SETTLED: (
            "Refill hollows where the ground has settled, above all over the drains.",
            "Keep outlets, vents and drains open.",
        ),
        StageKind.LONG_TERM: ("Once a year look at ribs, feet, nails and damp marks, and write it down.",),
    }[kind]
    return (*_works(given, changes), *steps)


_ORDER = {
    "left first": "on the left first, then on the right, in turn",
    "right first": "on the right first, then on the left, in turn",
    "together": "on both sides at once",
}


def _do_fill(level: float, given: Given, changes: tuple[str, ...], *, ballast: bool) -> tuple[str, ...]:
    lift = show(given.lift, "m", digits=2)
    lead = show(given.lead, "m", digits=2)
    steps = [
        f"Bring both sides to {_level(level)} in layers of at most {lift}, {_ORDER[given.order]}.",
        *_works(given, changes),
        f"One side is never more than {lead} ahead of the other, and never past its stop mark.",
        {
            "hand rammer": "Tamp by hand, and keep the rammer 0.6 m off the ribs.",
            "plate": "Compact each lift with the plate; how near it may come is in the house file.",
            "none": "Tread the soil down; no rammer and no plate.",
        }.get(given.compaction, "Settle the tool of compaction first: the house file does not name it."),
        "Break frozen lumps out; never bury them.",
        "Read the plumb line from the crown after each lift and write it down.",
    ]
    if ballast and "ballast laid" not in changes:
        steps.insert(1, f"Keep {_bags(given)}.")
    return tuple(steps)


def _crown_soil(given: Given) -> str:
    thick, wide = show(given.crown_first, "m", digits=2), show(given.crown_first_width, "m", digits=2)
    return f"Lay {thick} of soil on the middle {wide} of the crown, before any fill at the sides."


def _works(given: Given, changes: tuple[str, ...]) -> Iterator[str]:
    """What is laid, set or taken away before the first shovel of this stage."""
    said = {
        "ballast laid": f"First lay {_bags(given)}.",
        "ballast off": "First take the ballast off the crown, from both sides alike.",
        "props set": "First set the props, hand-tight, not driven.",
        "props out": "First slacken the props a little at a time, all in step; then take them out.",
        "ties set": "First fit the ties and draw them hand-tight.",
        "ties out": "First slacken the ties a little at a time, and watch the feet; then take them out.",
    }
    return (said[change] for change in changes)


def _bags(given: Given) -> str:
    if given.ballast is None:
        return ""
    weight, width = show(given.ballast.weight, "kPa", digits=1), show(given.ballast.width, "m", digits=2)
    return f"ballast of {weight} on the middle {width} of the crown"


def cautions(kind: StageKind) -> tuple[str, ...]:
    """The usual cautions beside the work of this stage."""
    lines = {
        StageKind.RIBS: (
            "A rib that is not braced falls on whoever stands under it.",
            "Nobody stands below while one is raised.",
            "Lift with enough people; wear helmet and gloves. No raising in wind.",
            "Saws: guard on, eye and ear protection, nobody in line with the blade.",
        ),
        StageKind.LAGGED: (
            "Work from a scaffold with edge protection, not from the ribs.",
            "Saws and nailers: guard on, eye and ear protection.",
        ),
        StageKind.WRAPPED: (
            "Hot bitumen and gas flames burn skin and set lagging on fire.",
            "Extinguisher at hand, fire watch for an hour after.",
            "Membranes are slippery when wet; hold on to a rope.",
        ),
        StageKind.CROWN_SOIL: (
            "Nobody is inside while soil is laid on the crown. No machine on the roof.",
            "Edge protection where one can fall more than local rules allow.",
        ),
        StageKind.FILL: (
            "Never stand between the shell and a bank that can slide.",
            "Cut banks and trenches collapse without warning.",
            "Stop at once when the ribs creak, a joint opens or the plumb line moves, and get everybody out.",
            "Nobody is inside while soil is placed.",
        ),
        StageKind.COVER: (
            "Nobody is inside while the crown is covered. No machine on the roof.",
            "Edge protection where one can fall more than local rules allow.",
        ),
        StageKind.TURF: ("Wet turf is heavy and slides: work from the toe upwards, on a roof ladder.",),
        StageKind.SETTLED: (
            "Fires need air: carbon monoxide alarm, and a free flue and air intake above snow.",
            "Radon: measure in the first winter.",
        ),
        StageKind.LONG_TERM: ("Have cracks, sagging planks or soft wood looked at by somebody licensed.",),
    }[kind]
    return (*lines, LOCAL_RULES)


def _level(level: float) -> str:
    return show(level, "level", digits=2).removesuffix(" m")
