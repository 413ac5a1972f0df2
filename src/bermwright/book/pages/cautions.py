"""The usual cautions of the trade. They defer to local rules and to whoever signs for the work."""

from __future__ import annotations

from bermwright.base.document import Block, Heading, Notice, Para, Table

_CAUTIONS = (
    (
        "Trenches and cut banks",
        (
            "They fall without warning, most of all after rain and thaw. Nobody enters one that is deeper "
            "than local rules allow without shoring or a flat slope. Keep spoil, barrows and machines back "
            "from the edge; have a ladder; never dig or work alone."
        ),
    ),
    (
        "Collapse while filling",
        (
            "Most failures come while building, with soil on one side or before the crown is covered. Nobody "
            "is inside or between shell and bank while soil is placed. Keep to the stop marks. A crack, a "
            "creak or a moving plumb line means: out, and take soil off the high side by hand from outside."
        ),
    ),
    (
        "Lifting and raising",
        (
            "Nobody stands under a raised rib. Brace each before the next. No raising in wind. Know the "
            "weight of a piece before it is lifted (see Quantities) and share it among enough people or a "
            "hoist made for it."
        ),
    ),
    (
        "Work at height",
        (
            "Scaffold with edge protection, or what local rules ask for. Wet membrane and wet planks are as "
            "slippery as ice."
        ),
    ),
    (
        "Saws and nailers",
        (
            "Guard on, eyes and ears covered, nobody in line with the blade. Cut from a support, never "
            "over a knee."
        ),
    ),
    (
        "Lime, cement and hot bitumen",
        (
            "Where they are used: lime and wet cement burn skin and eyes, so goggles, gloves and water at "
            "hand. Hot bitumen and gas flames set lagging on fire: an extinguisher beside the work, and "
            "somebody who watches for an hour after."
        ),
    ),
    (
        "Dust",
        (
            "Dry soil, cement and stone dust hold fine quartz that scars lungs. Work damp; wear a mask "
            "of the class that local rules name."
        ),
    ),
    (
        "Fire and carbon monoxide",
        (
            "A buried room fills quickly: smoke alarms, carbon monoxide alarms, air for every fire from "
            "outside, flue and intake above turf and drift, and a second way out that opens from "
            "inside. None of it is checked in this book unless it stands under Checked."
        ),
    ),
    (
        "Radon",
        (
            "Ground gas gathers in earth-sheltered rooms. Plan a sealed floor and a pipe under it, and "
            "measure in the first winter."
        ),
    ),
    (
        "Water and frost",
        (
            "Keep drains and outlets open in the first winter. Frozen soil swells and loses its "
            "strength when it thaws: never place frozen lumps, and never fill onto frozen ground."
        ),
    ),
)


def caution_pages(seasons: tuple[str, ...] = ()) -> tuple[Block, ...]:
    """The chapter of cautions, with the dates of frost where they are known."""
    dates: tuple[Block, ...] = ()
    if seasons:
        dates = (Heading(text="Frost and winter", level=2), *(Para(said) for said in seasons))
    return (
        Heading(
            text="Before anybody digs or lifts",
            lead="Read this page aloud on the first day and after every pause.",
        ),
        Notice(
            kind="caution",
            lines=(
                (
                    "These are reminders, not rules. The rules of the place, the maker of a tool or "
                    "material, and whoever signs for the work come first. When in doubt, stop and ask."
                ),
            ),
        ),
        Table(
            head=("", ""),
            rows=tuple((f"*{name}*", says) for name, says in _CAUTIONS),
            align="ll",
            widths=(1, 3),
        ),
        *dates,
    )
