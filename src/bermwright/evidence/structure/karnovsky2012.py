"""I. A. Karnovsky, Theory of arched structures, 2012: the hingeless parabola, appendix, table A.19 (read).

The table is for sections that grow with the slope (I cos of the slope is constant). Two-hinged and
circular arches follow from the unit-load integral and are derived; pi appears because they are circles.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.frames import KARNOVSKY2012
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.frames import FIXED, PINNED, Frame, Response, Soil, States, solve

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

_HINGELESS = Cite(work=KARNOVSKY2012, place="appendix, table A.19", provenance=Provenance.READ)
_HINGED = Cite(
    work=KARNOVSKY2012, place="two-hinged arches, unit-load integral", provenance=Provenance.DERIVED
)

SPAN, RISE, PIECES = 6.0, 1.5, 60


def _parabola(feet: ArrayLike) -> Frame:
    """EI 100 kN m2 at the crown, over the cosine of the slope elsewhere; hardly any shortening."""
    x = np.linspace(-0.5 * SPAN, 0.5 * SPAN, PIECES + 1)
    z = RISE * (1.0 - (2.0 * x / SPAN) ** 2)
    steep = np.hypot(1.0, np.diff(z) / np.diff(x))
    return Frame.bare(x, z, axial=1e11, bending=1e5 * steep, feet=feet)


def _even(part: slice) -> Array:
    """1 kN/m over part of the nodes, halved at its ends."""
    down = np.zeros(PIECES + 1)
    down[part] = 1000.0 * SPAN / PIECES
    filled = np.flatnonzero(down)
    down[filled[[0, -1]]] *= 0.5
    return down


def _semicircle(feet: ArrayLike) -> Frame:
    turn = np.linspace(np.pi, 0.0, PIECES + 1)
    return Frame.bare(2.0 * np.cos(turn), 2.0 * np.sin(turn), axial=1e11, bending=1e5, feet=feet)


def _point(node: int) -> Array:
    return np.where(np.arange(PIECES + 1) == node, 1000.0, 0.0)


def thrust(found: Response) -> float:
    """Push on the left foot."""
    return float(found.feet[0, 0, 0, 0])


def foot_moment(found: Response) -> float:
    """Bending at the left foot."""
    return float(found.moment[0, 0, 0, 0])


def crown_moment(found: Response) -> float:
    """Bending at the crown."""
    return float(found.moment[0, 0, PIECES // 2, 0])


def quarter_moment(found: Response) -> float:
    """Bending at the quarter point of the loaded half."""
    return float(found.moment[0, 0, PIECES // 4, 0])


def _row(
    name: str,
    expected: str,
    note: str,
    *,
    frame: Frame,
    down: Array,
    pick: Callable[[Response], float],
    unit: str = "N",
    **more: Any,
) -> Row:
    hinged = frame.feet[0, 2] == 0.0 or "circle" in name
    return Row(
        id=f"KARNOVSKY2012-{name}",
        cite=_HINGED if hinged else _HINGELESS,
        kind=Kind.DERIVED if hinged else Kind.PUBLISHED,
        call=solve,
        inputs={
            "frame": frame,
            "soil": Soil.absent(),
            "states": States.build(PIECES + 1, down=down, **more),
            "second_order": False,
        },
        expected=expected,
        unit=unit,
        rel=2e-3,
        pick=pick,
        note=f"{note}; a chain of 60 straight pieces against the smooth curve",
    )


ROWS = (
    _row(
        "fixed-crown-thrust",
        "937.5",
        "15/64 P l/f",
        frame=_parabola(FIXED),
        down=_point(30),
        pick=thrust,
    ),
    _row(
        "fixed-crown-foot",
        "187.5",
        "P l/32",
        frame=_parabola(FIXED),
        down=_point(30),
        pick=foot_moment,
        unit="N m",
    ),
    _row(
        "fixed-crown-crown",
        "281.25",
        "3/64 P l",
        frame=_parabola(FIXED),
        down=_point(30),
        pick=crown_moment,
        unit="N m",
    ),
    _row(
        "fixed-third-point-thrust",
        "740.74",
        "15/4 P l/f u2 v2 at u = 1/3",
        frame=_parabola(FIXED),
        down=_point(20),
        pick=thrust,
    ),
    _row(
        "fixed-half-even-thrust",
        "1500",
        "q l2/16f, the left half loaded",
        frame=_parabola(FIXED),
        down=_even(slice(0, 31)),
        pick=thrust,
    ),
    _row(
        "fixed-half-even-foot",
        "-562.5",
        "-q l2/64 under the loaded half",
        frame=_parabola(FIXED),
        down=_even(slice(0, 31)),
        pick=foot_moment,
        unit="N m",
    ),
    _row(
        "hinged-crown-thrust",
        "781.25",
        "25/128 P l/f",
        frame=_parabola(PINNED),
        down=_point(30),
        pick=thrust,
    ),
    _row(
        "hinged-even-thrust",
        "3000",
        "q l2/8f",
        frame=_parabola(PINNED),
        down=_even(slice(0, 61)),
        pick=thrust,
    ),
    _row(
        "hinged-half-even-quarter",
        "562.5",
        "q l2/64",
        frame=_parabola(PINNED),
        down=_even(slice(0, 31)),
        pick=quarter_moment,
        unit="N m",
    ),
    _row(
        "hinged-spreading-feet-thrust",
        "2634.15",
        "H/(1 + 15 EI/(8 f2 l) · 2/k): feet that give way by H/k each, k 200 kN/m",
        frame=_parabola(((2e5, float("inf"), 0.0), (2e5, float("inf"), 0.0))),
        down=_even(slice(0, 61)),
        pick=thrust,
    ),
    _row(
        "semicircle-hinged-crown-thrust",
        "318.31",
        "P/pi",
        frame=_semicircle(PINNED),
        down=_point(30),
        pick=thrust,
    ),
    _row(
        "semicircle-hinged-crown-crown",
        "363.38",
        "P R (1/2 - 1/pi)",
        frame=_semicircle(PINNED),
        down=_point(30),
        pick=crown_moment,
        unit="N m",
    ),
    _row(
        "semicircle-fixed-crown-thrust",
        "459.1",
        "P (4 - pi)/(pi2 - 8)",
        frame=_semicircle(FIXED),
        down=_point(30),
        pick=thrust,
    ),
)
