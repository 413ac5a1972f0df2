"""The living section: the drawing of the book at the scale of a window."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Sheet, View
from bermwright.base.marks import FootForce
from bermwright.book.sheets.paper import Figures
from bermwright.book.sheets.section import BELOW, Dress, sheet_in

if TYPE_CHECKING:
    from bermwright.base.marks import Mark
    from bermwright.book.sheets.scene import Scene

MM_PER_PX = 0.27
"""Lettering of 2.5 mm and lines of 0.5 mm then have the sizes that a screen needs (12.5 px, 1.9 px)."""
WIDEST, NARROWEST = 90.0, 43.0
"""Most and least pixels to a metre: more shows too little of the mound, less is not read on a phone."""
LEAST = 24.0
"""Where the window is low, no fewer pixels to a metre than this."""
BORDER = 6.0
"""Of the drawing, left and right (px)."""
SLACK, SAME = 0.35, (0.85, 1.2)
"""How far a drawing may outgrow its frame (m), and its scale that of a new one, before it moves."""
MARGIN = 0.6
"""Ground shown beyond the toes of the mound, and air over the top of it (m)."""
ROOMY = 700
"""A narrower window has no room for a person, for heights and for sides (px)."""
FOOT, HEAD = 12.0, 10.0
"""Room under the ground for the span, and over it for the sides (mm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What part of the section a window shows, and how large; it stays while a hand drags."""

    width: int
    """Of the drawing (px)."""
    height: int
    """That there was for it (px); 0 where it may be as tall as it needs."""
    scale: float
    """Pixels to a metre."""
    low: float
    high: float
    """Least and greatest x shown (m)."""
    bottom: float
    top: float
    """Lowest and highest level shown (m)."""

    @property
    def size(self) -> tuple[float, float]:
        """Of the sheet (mm)."""
        return self.width * MM_PER_PX, (self.top - self.bottom) * self.scale * MM_PER_PX + FOOT + HEAD

    @property
    def view(self) -> View:
        """Metres onto the sheet."""
        factor = self.scale * MM_PER_PX
        middle = 0.5 * (self.low + self.high)
        return View(
            origin=(0.5 * self.size[0] - factor * middle, FOOT - factor * self.bottom),
            scale=1000.0 / factor,
            seen=((self.low, self.bottom), (self.high, self.top)),
        )

    def takes(self, scene: Scene) -> bool:
        """Whether the scene still fits: then nothing on the screen needs to move."""
        wanted = frame_of(scene, self.width, self.height)
        inside = self.bottom <= wanted.bottom + SLACK and wanted.top <= self.top + SLACK
        return inside and SAME[0] * self.scale <= wanted.scale <= SAME[1] * self.scale


def frame_of(scene: Scene, width: int, height: int = 0) -> Frame:
    """The frame that shows the vault and as much of its mound as the window takes."""
    left, right = scene.extent()
    left, right = left - MARGIN, right + MARGIN
    bottom, top = _heights(scene, left, right)
    bottom, top = bottom - 0.15, top + MARGIN
    scale = float(np.clip((width - 2 * BORDER) / (right - left), NARROWEST, WIDEST))
    if height:
        free = height - (FOOT + HEAD) / MM_PER_PX
        scale = max(min(scale, free / (top - bottom)), LEAST)
    room = (width - 2 * BORDER) / scale
    low, high = scene.crown_x - 0.5 * room, scene.crown_x + 0.5 * room
    if right - left <= room:
        low, high = left, right
    return Frame(width=width, height=height, scale=scale, low=low, high=high, bottom=bottom, top=top)


def _heights(scene: Scene, low: float, high: float) -> tuple[float, float]:
    """Lowest and highest level that must be seen (m)."""
    x = np.linspace(low, high, 201)
    ground = float(scene.base(x).min())
    tops = (float(scene.form.ground.finished.level(x).max()), float(scene.form.soil_face.z.max()))
    return min(scene.bottom(), ground) - 0.5 * BELOW, max(tops)


def screen_section(
    scene: Scene,
    frame: Frame,
    marks: tuple[Mark, ...] = (),
    *,
    system: str = "metric",
    axis: float | None = None,
    keep_off: tuple[tuple[float, float], ...] = (),
) -> Sheet:
    """The section in its frame, with the marks of the shown case; no lettering under the handles (m)."""
    roomy = frame.width >= ROOMY
    if not roomy:
        marks = tuple(replace(one, words=False) if isinstance(one, FootForce) else one for one in marks)
    dress = Dress(
        figures=Figures(system=system, metres=True),
        axis=axis,
        person=roomy and not marks,
        heights=not marks,
        sides=roomy,
        keep_off=keep_off if roomy else (),
    )
    return sheet_in(frame.view, scene, frame.size, marks, dress)
