"""Vaults that run into a larger vault or dome, and pipes that come through a shell."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import BermwrightError
from bermwright.form.developed.shapes import Meeting, Pattern, stations
from bermwright.handbook.developing import hip_run, pipe_cut, reach_of_dome, reach_of_vault
from bermwright.handbook.setout import ordinates_by_height

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.dome.shapes import DomeForm
    from bermwright.form.shapes import CurveLine, VaultForm
    from bermwright.house import Opening
    from bermwright.house.making.sheets import Crossing

    Array = NDArray[np.float64]

PARTS = 96
"""Parts into which the small vault's girth or a pipe is divided."""
STRAIGHT = 1e-3
"""A line in plan that leaves a straight one by less is straight (m)."""
SQUARE = 0.5 * np.pi - 1e-6
"""Axes that meet at less are skew (rad)."""
SPARE = 0.10
"""Paper behind the nearest point of a meeting line (m)."""


class MeetingProblemError(BermwrightError):
    """Two parts that cannot meet as they are described."""

    def __init__(self, place: str, problem: str, way_out: str) -> None:
        super().__init__(f"{place}: {problem} {way_out}")


def girth(curve: CurveLine) -> tuple[Array, Array, Array]:
    """Even places round the inner face of a vault: length from the left foot, across, level."""
    along = np.linspace(0.0, curve.length, PARTS + 1)
    x, z, _ = curve.at(along)
    return along, x, z


def into_vault(crossing: Crossing, small: VaultForm, large: VaultForm) -> Meeting:
    """A vault into a larger one, by their inner faces; both axes level, floors alike."""
    along, beside, level = girth(small.rib.inside)
    face = large.rib.inside
    crown = float(np.max(face.z))
    if float(np.max(level)) > crown + 1e-9:
        raise MeetingProblemError(
            f'crossing "{crossing.name}"',
            f"the inner crown of {small.name}, {np.max(level):.2f} m, is higher than that of {large.name}, "
            f"{crown:.2f} m.",
            "Let the smaller vault be `of`, or lower its crown.",
        )
    foot = float(max(face.z[0], face.z[-1]))
    half = ordinates_by_height(face.x, face.z, np.clip(level, foot, crown)).right
    reach = reach_of_vault(beside, np.maximum(half, 0.0), crossing.turn)
    along_large = beside * np.sin(crossing.turn) + reach * np.cos(crossing.turn)
    where = np.interp(np.clip(level, foot, crown), *_rising_side(face))
    has_hole = float(np.ptp(where)) > STRAIGHT
    hip, left, why = _hips(crossing, small, large, (beside, reach, level))
    return Meeting(
        name=crossing.name,
        part=f"{small.name} into {large.name}",
        end=_end(crossing.name, f"{small.name} into {large.name}", along, reach, skew=crossing.turn < SQUARE),
        hole=_hole(crossing.name, large.name, where, along_large) if has_hole else None,
        hip=hip,
        hip_left=left,
        no_hip=why
        if has_hole
        else f"All of {small.name} stays under the springing of {large.name}: its shell has no hole.",
    )


def _rising_side(face: CurveLine) -> tuple[Array, Array]:
    """Levels and lengths from the foot up the right side, for one length at one level."""
    top = int(np.argmax(face.z))
    z, s = face.z[top:][::-1], face.length - face.s[top:][::-1]
    return np.maximum.accumulate(z), s


def into_dome(crossing: Crossing, small: VaultForm, dome: DomeForm) -> Meeting:
    """A vault whose axis meets that of a dome."""
    along, beside, level = girth(small.rib.inside)
    height = level - dome.dome.springing
    if float(np.max(height)) > dome.face.rise or float(np.min(height)) < -STRAIGHT:
        raise MeetingProblemError(
            f'crossing "{crossing.name}"',
            f"{small.name} reaches from {np.min(level):.2f} to {np.max(level):.2f} m, the dome from "
            f"{dome.dome.springing:.2f} to {dome.dome.springing + dome.face.rise:.2f} m.",
            "A vault meets a dome between its springing and its crown.",
        )
    ring = dome.face.at(np.maximum(height, 0.0))
    reach = reach_of_dome(beside, ring)
    pairs = [(float(a), float(b)) for a, b in zip(level, np.arcsin(beside / ring), strict=True)]
    return Meeting(
        name=crossing.name,
        part=f"{small.name} into {dome.name}",
        end=_end(crossing.name, f"{small.name} into {dome.name}", along, reach),
        hole=None,
        levels=tuple(pairs[:: PARTS // 12]),
        no_hip="A vault meets a dome in a line that lies in no plane: there is no flat hip rib.",
    )


def _end(name: str, part: str, along: Array, reach: Array, *, skew: bool = False) -> Pattern:
    """The end of the small vault unrolled: a straight edge behind, the meeting line in front."""
    behind = float(np.max(reach)) + SPARE
    length = behind - reach
    outline = [*zip(along.tolist(), length.tolist(), strict=True), (float(along[-1]), 0.0), (0.0, 0.0)]
    every = PARTS // 12
    return Pattern(
        name=f"{name}: end, unrolled",
        part=part,
        outline=tuple(outline),
        across="round the inner face from the left foot",
        up=f"from a square line {behind:.3f} m from the large axis, towards it",
        side="inner face; left as seen walking towards the large part",
        ordinates=tuple((float(along[k]), 0.0, float(length[k])) for k in range(0, PARTS + 1, every)),
        note="The straight edge is square to the small vault."
        + (
            " The sharp angle between both axes lies on the right; mirrored where it is on the left."
            if skew
            else ""
        ),
    )


def _hole(name: str, large: str, where: Array, along: Array) -> Pattern:
    """The hole in the large vault unrolled: along its axis, and up its face from the foot."""
    start = float(np.min(along))
    points = tuple((float(a) - start, float(s)) for a, s in zip(along, where, strict=True))
    return Pattern(
        name=f"{name}: hole, unrolled",
        part=large,
        outline=points,
        across="along the large vault",
        up="up its inner face from the foot",
        side="inner face",
        ordinates=stations(points),
        note="Below its lowest points the sides run straight down.",
    )


def _hips(
    crossing: Crossing, small: VaultForm, large: VaultForm, line: tuple[Array, Array, Array]
) -> tuple[Pattern | None, Pattern | None, str]:
    """The right hip, the left one where it is not its mirror image, and why there is none."""
    crown = int(np.argmax(line[2]))
    right, left = tuple(one[crown:] for one in line), tuple(one[crown::-1] for one in line)
    off = float(np.max([_bend(*right[:2]), _bend(*left[:2])]))
    if np.isnan(off):
        return None, None, "The two faces meet in a point."
    if off > STRAIGHT:
        return (
            None,
            None,
            (
                f"The meeting line of {small.name} and {large.name} leaves a straight line in plan by "
                f"{1e3 * off:.0f} mm: no flat hip rib lies in it. Use the two patterns."
            ),
        )
    part = f"{small.name} and {large.name}"
    one, other = _hip(f"{crossing.name}: hip", part, right), _hip(f"{crossing.name}: left hip", part, left)
    if np.allclose(one.outline, other.outline, atol=1e-4):
        return replace(one, side="right hip as drawn; left turned over"), None, ""
    return (
        replace(one, name=f"{crossing.name}: right hip, inner edge", side="right hip"),
        replace(other, side="left hip; it is no mirror image of the right one"),
        "",
    )


def _bend(x: Array, y: Array) -> float:
    """How far half a meeting line leaves a straight line in plan (m); not a number where it is a point."""
    run = float(np.hypot(x[-1] - x[0], y[-1] - y[0]))
    if run <= STRAIGHT:
        return float("nan")
    return float(np.max(np.abs((x - x[0]) * (y[-1] - y[0]) - (y - y[0]) * (x[-1] - x[0])))) / run


def _hip(name: str, part: str, half: tuple[Array, ...]) -> Pattern:
    """One hip from the crown to its foot."""
    x, y, z = half
    foot = float(z[-1])
    turn = float(np.arctan2(abs(y[-1] - y[0]), abs(x[-1] - x[0])))
    runs = hip_run(np.abs(x - x[0]), turn)
    outline = [*zip(runs.tolist(), (z - foot).tolist(), strict=True), (0.0, 0.0)]
    every = max(1, (runs.size - 1) // 12)
    return Pattern(
        name=f"{name}, inner edge",
        part=part,
        outline=tuple(outline),
        across="along the hip from the crown",
        up="over the feet",
        ordinates=tuple((float(runs[k]), 0.0, float(z[k] - foot)) for k in range(0, runs.size, every)),
        note="The heights of the common rib over a longer run. Bevel its edges to both vaults on the spot.",
    )


def sleeve(form: VaultForm, opening: Opening, collar: float) -> Meeting:
    """The sleeve of a flue through the crown: its lower edge unrolled, and the hole in the unrolled shell.

    It runs from the outermost layer up through the soil, and `collar` over the finished ground.
    """
    face = form.soil_face
    radius = 0.5 * opening.width
    turn = np.linspace(0.0, 2.0 * np.pi, PARTS + 1)
    height, half = _monotone(face, form.springing)
    cut = pipe_cut(turn, radius, 0.0, 0.0, height=height, radius=half, is_round=False)
    ground = float(form.ground.finished.level(float(face.x[int(np.argmax(face.z))]))) - form.springing
    top = max(ground, float(np.max(cut.along))) + collar
    length = top - cut.along
    around = radius * turn
    part = f'opening "{opening.name}" in {form.name}'
    outline = [*zip(around.tolist(), length.tolist(), strict=True), (float(around[-1]), 0.0), (0.0, 0.0)]
    every = PARTS // 12
    top_index = int(np.argmax(face.z))
    grows, crown = _strictly(face.x), float(face.x[top_index])
    along = np.interp(cut.x + crown, face.x[grows], face.s[grows]) - float(face.s[top_index])
    hole = tuple(zip((cut.y + radius).tolist(), (along - float(np.min(along))).tolist(), strict=True))
    return Meeting(
        name=opening.name,
        part=part,
        end=Pattern(
            name=f"{opening.name}: sleeve, unrolled",
            part=part,
            outline=tuple(outline),
            across="round the sleeve, from the side towards the right foot",
            up="from its upper edge down to the shell",
            side="outer face",
            ordinates=tuple((float(around[k]), 0.0, float(length[k])) for k in range(0, PARTS + 1, every)),
            note=f"For a sleeve {1e3 * opening.width:.0f} mm across, upright; it ends "
            f"{1e3 * collar:.0f} mm over the finished ground. Add the seam and the flange.",
        ),
        hole=Pattern(
            name=f"{opening.name}: hole in the unrolled shell",
            part=part,
            outline=hole[:-1],
            across="along the vault",
            up="round the shell",
            side="outer face",
            ordinates=stations(hole[:-1]),
            note="Where the sleeve passes the outermost layer.",
        ),
    )


def _strictly(x: Array) -> Array:
    """Places where x grows, so that one x has one length."""
    return np.asarray(np.concatenate([[True], np.diff(x) > 0.0]))


def _monotone(face: CurveLine, springing: float) -> tuple[Array, Array]:
    """The right half of a face from its widest place to the crown: heights and half widths."""
    top = int(np.argmax(face.z))
    x, z = face.x[top:][::-1] - face.x[top], face.z[top:][::-1] - springing
    first = int(np.argmax(x))
    x, z = np.maximum.accumulate(x[first:][::-1])[::-1], np.maximum.accumulate(z[first:])
    return z - min(float(z[0]), 0.0), np.maximum(x, 0.0)
