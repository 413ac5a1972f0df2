"""Widths, dashes and colours: what a pen, an ink and a wash look like on paper, by day and by lamp.

Line widths are those of ISO 128 on paper; colours are resolved here, so that no reader of a file
has to compute one.
"""

from __future__ import annotations

from dataclasses import dataclass

from bermwright.base.drawing import Ink, Pen, Wash


@dataclass(frozen=True, slots=True)
class PenStyle:
    """A line as drawn: width and dashes in mm, its own ink, and how opaque it is."""

    width: float
    ink: Ink = Ink.INK
    dash: tuple[float, ...] = ()
    opacity: float = 1.0


PENS = {
    Pen.CUT: PenStyle(0.50),
    Pen.SEEN: PenStyle(0.25),
    Pen.LAYER: PenStyle(0.18),
    Pen.HIDDEN: PenStyle(0.18, dash=(1.5, 0.8)),
    Pen.LIMIT: PenStyle(0.18, dash=(0.25, 0.75)),
    Pen.NOT_YET: PenStyle(0.18, dash=(3.5, 0.9, 0.45, 0.9)),
    Pen.DIMENSION: PenStyle(0.18, Ink.SOFT),
    Pen.TICK: PenStyle(0.35),
    Pen.HATCH: PenStyle(0.13, Ink.SOFT, opacity=0.8),
    Pen.FORCE: PenStyle(0.50),
    Pen.LOAD: PenStyle(0.18, Ink.SOFT),
    Pen.STOP: PenStyle(0.70, Ink.RED),
    Pen.FRAME: PenStyle(0.70),
    Pen.TEMPLATE: PenStyle(0.35),
}
"""Each pen; the chain line is the screen's 7-3-1.5-3 at half size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """Colours of one light."""

    inks: dict[Ink, str]
    washes: dict[Wash, str]
    halo: float = 1.1
    """Width (mm) of the paper-coloured edge round a letter."""


def _theme(paper: str, inks: tuple[str, str, str], washes: dict[Wash, str]) -> Theme:
    """A theme from its paper, its three inks and its washes."""
    ink, soft, red = inks
    return Theme(
        inks={Ink.INK: ink, Ink.SOFT: soft, Ink.RED: red, Ink.PAPER: paper},
        washes=washes | {Wash.PAPER: paper, Wash.INK: ink, Wash.SOFT: soft, Wash.STOP: red},
    )


THEMES = {
    "paper": _theme(
        "#ffffff",
        ("#14181c", "#4b5155", "#a02513"),
        {
            Wash.EARTH: "#f0ebdd",
            Wash.INSITU: "#ebe4d2",
            Wash.TIMBER: "#ecd3a0",
            Wash.LAGGING: "#dfc081",
            Wash.INSULATION: "#fbf8f0",
            Wash.SNOW: "#fbfcfb",
            Wash.COLD: "#d5e0e4",
            Wash.RED: "#f3dcd4",
            Wash.KEEP: "#efe2c8",
            Wash.GREY: "#a3a5a4",
            Wash.PALE: "#dfe0df",
        },
    ),
    "day": _theme(
        "#f8f4ea",
        ("#1f252b", "#4b5155", "#a02513"),
        {
            Wash.EARTH: "#e3d6bb",
            Wash.INSITU: "#d8c9aa",
            Wash.TIMBER: "#e7c891",
            Wash.LAGGING: "#d9b67a",
            Wash.INSULATION: "#f6eee0",
            Wash.SNOW: "#fbfcfb",
            Wash.COLD: "#c3d2d8",
            Wash.RED: "#eccfc4",
            Wash.KEEP: "#e3d6bb",
            Wash.GREY: "#9b9c98",
            Wash.PALE: "#d9d6cd",
        },
    ),
    "lamp": _theme(
        "#262019",
        ("#f2e4c9", "#c0b297", "#ff8f73"),
        {
            Wash.EARTH: "#3a2e1f",
            Wash.INSITU: "#33291c",
            Wash.TIMBER: "#5f4523",
            Wash.LAGGING: "#5c4221",
            Wash.INSULATION: "#332b20",
            Wash.SNOW: "#4a4c4b",
            Wash.COLD: "#2f4048",
            Wash.RED: "#4d251a",
            Wash.KEEP: "#3a2e1f",
            Wash.GREY: "#7d7259",
            Wash.PALE: "#413828",
        },
    ),
}
"""Paper for print, day and lamp for the screen."""


WASH_OPACITY = {Wash.PALE: 0.72, Wash.RED: 0.8}
"""Washes laid over a finished drawing let it show through."""


def ink_of(pen: Pen, ink: Ink) -> Ink:
    """The ink a stroke is drawn with: its own where it asks for one, else the pen's."""
    return PENS[pen].ink if ink is Ink.INK else ink
