"""Heights from one datum: tops of boards, what is measured down from the mark, steps on a slope."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.data.setting_out import BOARD_HIGH, BOARD_LOW, DATUM, DATUM_CLEAR, STEP_LAP
from bermwright.form.setout.nouns import BatterBoard, LevelRow
from bermwright.handbook.setout import footing_steps

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout.earthwork.dig import Dig
    from bermwright.form.setout.earthwork.strips import Strip
    from bermwright.form.setout.ground import Surface
    from bermwright.form.setout.nouns import Spot
    from bermwright.form.shapes import VaultForm
    from bermwright.house import SettingOut, Vault

MARKS = {0.1: 0.5, 0.1524: 0.3048}
"""The mark on the post lies at whole half metres, or whole feet, by the step of the tape (m)."""
HAIR = 1e-9
LEVEL_GROUND = 0.1
"""Ground that falls less than this along a footing is level (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """The ground at a corner of the house and how deep one digs there (m)."""

    peg: str
    ground: float
    to_bottom: float | None
    """Down to the bottom of the dig."""
    to_footing: float | None
    """Down to the underside of the footing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Steps of a footing that follows the ground along one side (m)."""

    side: str
    fall: float
    count: int
    height: float
    run: float
    lap: float

    @property
    def fits(self) -> bool:
        """Whether a step is longer than it laps the next."""
        return self.run > self.lap


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """Everything that is levelled."""

    datum: float
    """Level of the mark over the finished floor (m)."""
    rows: tuple[LevelRow, ...]
    """From the top down."""
    corners: tuple[Corner, ...]
    steps: tuple[Steps, ...]

    def down(self, level: float) -> float:
        """From the mark down to a level; below 0 is up (m)."""
        return self.datum - level


def board_tops(boards: tuple[BatterBoard, ...], step: float, tape: float) -> tuple[BatterBoard, ...]:
    """One level for all boards, at a step of the tape; where the ground falls too far, whole steps down."""
    highest = max(board.ground for board in boards)
    top = tape * math.ceil((highest + BOARD_LOW.value) / tape - 1e-9)
    step = tape * max(math.floor(step / tape + 1e-9), 1)
    lowered = []
    for board in boards:
        down = max(top - board.ground - BOARD_HIGH.value, 0.0)
        lowered.append(replace(board, top=round(top - step * math.ceil(down / step - 1e-9), 6)))
    return tuple(lowered)


def heights_of(  # noqa: PLR0913  (all by name)
    vault: Vault,
    form: VaultForm,
    settings: SettingOut,
    *,
    surface: Surface,
    strips: tuple[Strip, Strip],
    dig: Dig | None,
    post: Spot,
    tape: float,
) -> Heights:
    """Levels of everything that is built, and the mark that they are brought over from."""
    wanted = max(DATUM.value, float(surface.level(*post)) + DATUM_CLEAR.value)
    mark = MARKS[tape]
    datum = mark * math.ceil(wanted / mark - 1e-9)
    rows = sorted(_rows(form, strips, dig), key=lambda row: -row.level)
    return Heights(
        datum=datum,
        rows=tuple(rows),
        corners=tuple(_corners(vault, surface, strips, dig)),
        steps=tuple(_steps(vault, settings, surface, strips)),
    )


def _rows(form: VaultForm, strips: tuple[Strip, Strip], dig: Dig | None) -> Iterator[LevelRow]:
    inside = float(form.rib.inside.z.max())
    yield LevelRow(words="crown of the mound", level=form.ground.top)
    yield LevelRow(words="crown, outside of the shell", level=form.crown_level)
    yield LevelRow(words="crown, inside of the ribs", level=inside)
    yield LevelRow(words="springing, line of the feet", level=form.springing)
    yield LevelRow(words="finished floor", level=0.0)
    if dig is not None:
        yield LevelRow(words="bottom of the dig", level=dig.formation)
    seen: set[tuple[str, float]] = set()
    for strip, side in zip(strips, ("left", "right"), strict=True):
        for words, level in (
            ("top of the wall", strip.wall_top),
            ("top of the footing" if strip.footing else "foot of the wall", strip.wall_bottom),
            ("underside of the footing", strip.footing_bottom),
        ):
            if level is None or abs(level - form.springing) < HAIR or (words, level) in seen:
                continue
            alike = all(level in _levels(one) for one in strips)
            seen.add((words, level))
            yield LevelRow(words=words if alike else f"{words}, {side}", level=level)


def _levels(strip: Strip) -> tuple[float | None, ...]:
    return (strip.wall_top, strip.wall_bottom, strip.footing_bottom)


def _corners(
    vault: Vault, surface: Surface, strips: tuple[Strip, Strip], dig: Dig | None
) -> Iterator[Corner]:
    half = 0.5 * vault.span
    spots = (
        ("A", 0.0, -half, 0),
        ("B", 0.0, half, 1),
        ("C", vault.length, half, 1),
        ("D", vault.length, -half, 0),
    )
    for name, along, across, side in spots:
        ground, under = float(surface.level(along, across)), strips[side].footing_bottom
        yield Corner(
            peg=name,
            ground=ground,
            to_bottom=ground - dig.formation if dig is not None else None,
            to_footing=ground - under if under is not None else None,
        )


def _steps(
    vault: Vault, settings: SettingOut, surface: Surface, strips: tuple[Strip, Strip]
) -> Iterator[Steps]:
    """Where the ground falls along a side: the steps, should the footing follow it."""
    for strip, side, way in zip(strips, ("left", "right"), (-1.0, 1.0), strict=True):
        across = way * 0.5 * vault.span
        fall = abs(float(surface.level(0.0, across) - surface.level(vault.length, across)))
        if fall < LEVEL_GROUND or strip.footing is None:
            continue
        count = int(footing_steps(fall, step=settings.step))
        yield Steps(
            side=side,
            fall=fall,
            count=count,
            height=fall / count,
            run=vault.length / (count + 1),
            lap=STEP_LAP.value * fall / count,
        )
