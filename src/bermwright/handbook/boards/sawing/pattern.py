"""Boards out of a round log, sawn through and through, and beams out of its heart."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from bermwright.base.limits import within


class Heart(StrEnum):
    """What lies on the middle of the log."""

    BOARD = "a board on the heart"
    CUT = "a cut through the heart"


@dataclass(frozen=True, slots=True, kw_only=True)
class LogBoards:
    """The boards of one log, from the middle outwards."""

    heart: Heart
    widths: tuple[float, ...]
    """Clear width of each board, at its narrower face (m)."""
    places: tuple[float, ...]
    """Middle of each board from the middle of the log (m)."""
    yields: float
    """Share of the thin end's circle that becomes boards (-)."""


def live_sawn(
    diameter: float, *, thickness: float, kerf: float, least: float, heart: Heart = Heart.BOARD
) -> LogBoards:
    """Boards of one thickness sawn through and through a log without taper, edges trimmed square.

    w = 2·√(R² − y²), y the farther face of the board; yield = Σ w·t/(π·R²)

    Parameters
    ----------
    diameter : float
        Of the thin end inside the bark [m], above 0 to 4.
    thickness : float
        Of the boards, t [m], above 0 to 0.3.
    kerf : float
        Width of the saw cut [m], from 0 to 0.02.
    least : float
        Narrowest board that is kept [m], from 0 to 1.
    heart : Heart
        Whether a board or a cut lies on the heart.

    Returns
    -------
    LogBoards
        Widths [m], places [m] and yield [-].

    Notes
    -----
    A real log tapers, sweeps and dries: yields of mills lie lower.

    References
    ----------
    [WENGERT] : yields of mills to compare with.

    Examples
    --------
    >>> boards = live_sawn(0.25, thickness=0.025, kerf=0.003, least=0.075)
    >>> [round(1000 * width) for width in boards.widths]
    [249, 237, 237, 209, 209, 159, 159]
    """
    within("diameter inside the bark", diameter, 0.0, 4.0, unit="m", open_low=True)
    within("thickness of a board", thickness, 0.0, 0.3, unit="m", open_low=True)
    within("kerf", kerf, 0.0, 0.02, unit="m")
    within("narrowest board", least, 0.0, 1.0, unit="m")
    radius, pitch = 0.5 * diameter, thickness + kerf
    first = 0.0 if heart is Heart.BOARD else 0.5 * pitch
    steps = np.arange(int(radius / pitch) + 1) * pitch + first
    widths = 2.0 * np.sqrt(np.maximum(radius**2 - (steps + 0.5 * thickness) ** 2, 0.0))
    sides = [(width, side) for width, step in zip(widths, steps, strict=True) for side in _sides(step)]
    kept = [(float(width), float(place)) for width, place in sides if width >= max(least, 1e-9)]
    return LogBoards(
        heart=heart,
        widths=tuple(width for width, _ in kept),
        places=tuple(place for _, place in kept),
        yields=float(sum(width for width, _ in kept) * thickness / (np.pi * radius**2)),
    )


def _sides(step: float) -> tuple[float, ...]:
    return (step,) if step == 0.0 else (step, -step)


def strongest_beam(diameter: float) -> tuple[float, float]:
    """The rectangle out of a round log that takes the greatest bending moment.

    b = D/√3, h = D·√(2/3)

    Parameters
    ----------
    diameter : float
        Of the thin end inside the bark, D [m], above 0 to 4.

    Returns
    -------
    tuple of float
        Width b and height h [m].

    References
    ----------
    [WENGERT] : logs of a mill; the rectangle follows from the greatest b·h² within the circle.

    Examples
    --------
    >>> [round(side, 3) for side in strongest_beam(0.3)]
    [0.173, 0.245]
    """
    within("diameter inside the bark", diameter, 0.0, 4.0, unit="m", open_low=True)
    return diameter / 3.0**0.5, diameter * (2.0 / 3.0) ** 0.5
