"""The beginner's walk through the workbench: five steps, each with what to do and where to look."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """One step."""

    title: str
    does: str
    """What to do."""
    look: str
    """What to look at afterwards, and what it means."""
    places: tuple[str, ...]
    """Identifiers of places of the page; the first one that can be seen is pointed at."""


WALK = (
    Step(
        "Read the sentence first",
        "Read the sentence over the drawing, and its sign. Then the line below it.",
        "It says what holds and what does not, never more than the worst finding. Something unknown is said too.",
        ("verdict",),
    ),
    Step(
        "Move the crown",
        "Pull the ring at the crown up a little. With keys: Tab to it, then the up arrow. On a phone: the steps below.",
        "The old curve stays as a chain line. The forces at the feet and the sentence follow your hand.",
        ("steppers", "section"),
    ),
    Step(
        "Walk through the building",
        "Under the drawing, go from stage to stage with the left and right arrows.",
        "The fill climbs on both sides. The tallest bar is the worst moment, usually not the finished house.",
        ("axes",),
    ),
    Step(
        "Open what is worst",
        "Choose the first finding in the list.",
        "Its place lights up in the drawing, and its working stands line by line with the sources.",
        ("checks", "foot-words"),
    ),
    Step(
        "Make one change, and take it back",
        "If the finding offers a change, make it. Then undo it in the title block.",
        "A change says before what it costs. Nothing reaches your file until you keep it.",
        ("title-block", "foot-words"),
    ),
)
"""In their order."""
