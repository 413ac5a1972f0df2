"""Eyebrows: a small barrel that stands out over an opening of a dome, unrolled to the dome's face."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.developed.boxes import STEPS
from bermwright.form.developed.shapes import Pattern
from bermwright.form.dome.profile import DomeProblemError

if TYPE_CHECKING:
    from bermwright.form.developed.boxes import DomeWall, Hole
    from bermwright.form.developed.shapes import Box
    from bermwright.form.dome.shapes import DomeForm


def with_eyebrow(box: Box, form: DomeForm, hole: Hole, wall: DomeWall, stands_out: float) -> Box:
    """The box with its eyebrow: from the outer face to an upright plane before it."""
    turn = np.linspace(np.pi, 0.0, STEPS + 1)
    beside, level = hole.half * np.cos(turn), hole.springing + hole.half * np.sin(turn)
    face = wall.outer(beside, level)
    end = float(wall.outer(0.0, hole.top)) + stands_out
    length = end - face
    if float(np.min(length)) <= 0.0:
        least = float(np.max(face)) - float(wall.outer(0.0, hole.top))
        raise DomeProblemError(
            form.name,
            f'opening "{hole.name}" > eyebrow',
            f"ends in the wall at its foot: {stands_out:.2f} m is not over {least:.2f} m.",
            "Let it stand out farther; the dome leans back from the foot to the head.",
        )
    stations = hole.half * (np.pi - turn)
    outline = [*zip(stations.tolist(), length.tolist(), strict=True), (float(stations[-1]), 0.0), (0.0, 0.0)]
    every = max(1, STEPS // 12)
    pattern = Pattern(
        name=f"{hole.name}: eyebrow, unrolled",
        part=box.part,
        outline=tuple(outline),
        across="round the barrel from its left foot",
        up="from its front edge to the dome",
        side="inner face of the barrel",
        ordinates=tuple((float(stations[k]), 0.0, float(length[k])) for k in range(0, STEPS + 1, every)),
        note="Its straight edge is the front; the curved one lies on the outer face of the dome.",
    )
    return replace(box, eyebrow=pattern, meets=tuple(_meets(form, hole, wall)))


def _meets(form: DomeForm, hole: Hole, wall: DomeWall) -> list[tuple[float, float]]:
    """Where the barrel meets the outer face, at every course it crosses and at its crown."""
    beds = [form.dome.springing + course.height for course in form.courses]
    levels = [hole.springing, *(bed for bed in beds if hole.springing < bed < hole.top), hole.top]
    found = []
    for level in levels:
        beside = float(np.sqrt(max(hole.half**2 - (level - hole.springing) ** 2, 0.0)))
        found.append((level, float(np.arcsin(beside / float(wall.radius_outside(level))))))
    return found
