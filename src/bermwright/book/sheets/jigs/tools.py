"""Rammer with the marks of the lifts, and stand with chute for earth tubes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Dimension, Hatch, Item, Pen, Sheet, Stroke
from bermwright.book.sheets.jigs.common import WIDTH, box, told, tool_sheet
from bermwright.book.sheets.paper import Figures, figure, note
from bermwright.data.jigs import (
    CHUTE_EASE,
    CHUTE_LONG,
    RAMMER_BLOCK,
    RAMMER_FACE,
    RAMMER_HANDLE,
    STAND_HIGH,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import House

_TEN = 100.0
"""Millimetres of paper for a metre at 1:10."""


def rammer(lift: float, figures: Figures, *notes: str) -> Sheet:
    """A hand rammer; a ring on its handle shows how deep the lift or course still is."""
    return tool_sheet(
        "Hand rammer",
        _rammer(lift, figures),
        height=(RAMMER_BLOCK.value + RAMMER_HANDLE.value) * _TEN + 6.0,
        scale=10.0,
        origin=(0.5 * WIDTH, 3.0),
        notes=(
            f"Face {told(RAMMER_FACE.value, figures)} square, edges rounded (common practice, no source).",
            *notes,
            "Steel-capped shoes, both hands on the handle, feet apart. Nobody rams with somebody below.",
        ),
    )


def fill_rammer(house: House, figures: Figures) -> Sheet:
    """The rammer of the fill, for one lift of the file."""
    lift = house.stages.lift
    return rammer(
        lift,
        figures,
        f"The ring stands {told(lift, figures)} over the face: a lift of the file, compacted.",
        "Soil is thrown higher than the ring and rammed until it is level with it.",
    )


def _rammer(lift: float, figures: Figures) -> Iterator[Item]:
    x, y = 0.5 * WIDTH, 3.0
    face, block, handle = (
        value * _TEN for value in (RAMMER_FACE.value, RAMMER_BLOCK.value, RAMMER_HANDLE.value)
    )
    yield box(x - 0.5 * face, y, face, block, hatch=Hatch.TIMBER_ACROSS)
    yield box(x - 2.0, y + block, 4.0, handle)
    ring = y + lift * _TEN
    if ring < y + block + handle:
        yield Stroke(path=((x - 4.0, ring), (x + 4.0, ring)), pen=Pen.CUT)
        yield Dimension(start=(x, y), end=(x, ring), offset=-18.0, text=figures.length(lift))
        yield note((x + 20.0, ring - 1.0), "ring")
    yield Dimension(
        start=(x - 0.5 * face, y),
        end=(x + 0.5 * face, y),
        offset=-2.0,
        text=figures.length(RAMMER_FACE.value),
    )
    yield Dimension(start=(x, y), end=(x, y + block), offset=14.0, text=figures.length(RAMMER_BLOCK.value))
    yield Dimension(
        start=(x, y + block),
        end=(x, y + block + handle),
        offset=14.0,
        text=figures.length(RAMMER_HANDLE.value),
    )


def tube_stand(flat: float | None, figures: Figures) -> Sheet | None:
    """Stand and chute for filling tubes; None where the file gives no width of a tube."""
    if flat is None:
        return None
    across = 2.0 * flat / math.pi - CHUTE_EASE.value
    items = list(_stand(across, figures))
    return tool_sheet(
        "Stand and chute for tubes",
        items,
        height=(STAND_HIGH.value + CHUTE_LONG.value) * _TEN + 14.0,
        scale=10.0,
        origin=(20.0, 3.0),
        notes=(
            f"Tube {told(flat, figures)} laid flat opens to {told(2.0 * flat / math.pi, figures)} across.",
            f"The chute is {told(across, figures)} outside, so that it slides on.",
            f"Cut its sheet {told(math.pi * across, figures)} round, and the lap.",
            "Edges beaded or taped: a sharp one cuts the tube.",
            "The tube is gathered on the chute, the filled end lies on the wall; two fill, one lays.",
            "Lift buckets with the legs, turn with the feet; change over every course.",
        ),
    )


def _stand(across: float, figures: Figures) -> Iterator[Item]:
    x, y = 52.0, 3.0
    wide, high, long = across * _TEN, STAND_HIGH.value * _TEN, CHUTE_LONG.value * _TEN
    for side in (-1.0, 1.0):
        foot = (x + side * (0.5 * wide + 14.0), y)
        yield Stroke(path=(foot, (x + side * 0.5 * wide, y + high)), pen=Pen.CUT)
    yield Stroke(path=((x - 0.5 * wide - 14.0, y), (x + 0.5 * wide + 14.0, y)), pen=Pen.HIDDEN)
    yield box(x - 0.5 * wide, y + high - 3.0, wide, 3.0)
    yield Stroke(
        path=(
            (x - 0.5 * wide, y + high), (x - 0.5 * wide, y + high + long),
            (x + 0.5 * wide, y + high + long), (x + 0.5 * wide, y + high),
        ), pen=Pen.CUT,
    )  # fmt: skip
    yield note((x, y + high + 0.5 * long), "chute", "middle")
    yield Dimension(
        start=(x - 0.5 * wide, y + high + long),
        end=(x + 0.5 * wide, y + high + long),
        offset=4.0,
        text=figures.length(across),
    )
    right = x + 0.5 * wide
    yield Dimension(
        start=(right, y), end=(right, y + high), offset=-24.0, text=figures.length(STAND_HIGH.value)
    )
    yield Dimension(
        start=(right, y + high),
        end=(right, y + high + long),
        offset=-24.0,
        text=figures.length(CHUTE_LONG.value),
    )
    centre = (140.0, y + high)
    yield Arc(centre=centre, radius=0.5 * wide, start=0.0, end=2.0 * math.pi, pen=Pen.CUT)
    yield figure((centre[0], centre[1] - 1.2), figures.length(across), "middle")
    yield note((centre[0], centre[1] - 0.5 * wide - 5.0), "chute from above", "middle")
