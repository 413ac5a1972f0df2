"""S. P. Timoshenko and J. M. Gere, Theory of elastic stability, 2nd edition, 1961.

The book was not opened. Euler's columns and the beam column follow from the differential equation and
are derived; the table of arches under even upright load is from memory, and a finite-element solution of
the same arches, made apart from this program, stands beside it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.frames import TIMOSHENKO1961
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.frames import (
    FIXED,
    GROUND,
    PINNED,
    Frame,
    Member,
    Response,
    Soil,
    States,
    Works,
    buckling_factor,
    solve,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import ArrayLike

_COLUMN = Cite(work=TIMOSHENKO1961, place="chapter 2, elastic columns", provenance=Provenance.DERIVED)
_BEAM = Cite(work=TIMOSHENKO1961, place="chapter 1, beam columns", provenance=Provenance.DERIVED)
_ARCH = Cite(
    work=TIMOSHENKO1961, place="chapter 7, parabolic arches, even load", provenance=Provenance.DERIVED
)
_TABLE = Cite(work=TIMOSHENKO1961, place="chapter 7, tables 7-2 and 7-3", provenance=Provenance.MEMORY)

INFINITE = math.inf
ROLLER = ((INFINITE, INFINITE, 0.0), (0.0, INFINITE, 0.0))
CLAMPED = ((INFINITE, INFINITE, INFINITE), (0.0, 0.0, 0.0))
GUIDED = ((INFINITE, INFINITE, INFINITE), (0.0, INFINITE, INFINITE))
LENGTH, STIFFNESS = 4.0, 2.0e5


def straight(elements: int, feet: ArrayLike, *, bending: float = STIFFNESS, joint: float = INFINITE) -> Frame:
    """A column of 4 m that lies along x, with a joint in its middle."""
    x = np.linspace(0.0, LENGTH, elements + 1)
    joints = np.where(np.arange(elements + 1) == elements // 2, joint, INFINITE)
    return Frame.bare(x, 0.0 * x, axial=1e9, bending=bending, feet=feet, joint=joints)


def _euler(name: str, feet: ArrayLike, expected: str, note: str, **parts: Any) -> Row:
    frame = straight(12, feet, **parts)
    return Row(
        id=f"TIMOSHENKO1961-{name}",
        cite=_COLUMN,
        kind=Kind.DERIVED,
        call=buckling_factor,
        inputs={"frame": frame, "axial": np.full(12, 1000.0), "tolerance": 1e-6},
        expected=expected,
        rel=2e-4,
        pick=float,
        note=f"{note}; EI 200 kN m2, 4 m, over 1 kN; 12 elements",
    )


def _parabola(rise: float, *, feet: ArrayLike, hinge: bool) -> Frame:
    x = np.linspace(-0.5, 0.5, 41)
    joint = np.where(hinge & (np.arange(41) == 20), 0.0, INFINITE)
    return Frame.bare(x, rise * (1.0 - 4.0 * x * x), axial=1e7, bending=1.0, feet=feet, joint=joint)


def _arch(name: str, rise: float, expected: str, *, feet: ArrayLike = PINNED, hinge: bool = False) -> Row:
    frame = _parabola(rise, feet=feet, hinge=hinge)
    # H = q l2/8f in every parabola under even load; N = H / cos of the slope.
    slope = np.diff(frame.z) / np.diff(frame.x)
    return Row(
        id=f"TIMOSHENKO1961-parabola-{name}-{rise:g}",
        cite=_ARCH,
        kind=Kind.INDEPENDENT,
        call=buckling_factor,
        inputs={"frame": frame, "axial": np.hypot(1.0, slope) / (8.0 * rise)},
        expected=expected,
        rel=3e-3,
        pick=float,
        note="q l3/EI by a finite-element program of its own, 120 elements; here 40",
    )


def _table(name: str, rise: float, expected: str, *, feet: ArrayLike = PINNED) -> Row:
    frame = _parabola(rise, feet=feet, hinge=False)
    slope = np.diff(frame.z) / np.diff(frame.x)
    return Row(
        id=f"TIMOSHENKO1961-table-{name}-{rise:g}",
        cite=_TABLE,
        kind=Kind.PUBLISHED,
        call=buckling_factor,
        inputs={"frame": frame, "axial": np.hypot(1.0, slope) / (8.0 * rise)},
        expected=expected,
        rel=0.09,
        pick=float,
        note="the table's values were found by hand in the 1930s and differ by up to 9 % from a fine mesh",
    )


def _pressed(share: float, *, load: float = 800.0) -> dict[str, Any]:
    """A beam on two supports under an axial load and a load in its middle."""
    across, down = np.zeros(13), np.zeros(13)
    across[-1] = -share * math.pi**2 * STIFFNESS / LENGTH**2
    down[6] = load
    return {
        "frame": straight(12, ROLLER),
        "soil": Soil.absent(),
        "states": States.build(13, across=across, down=down),
    }


def _beam(name: str, share: float, expected: str, unit: str, pick: Callable[[Response], float]) -> Row:
    return Row(
        id=f"TIMOSHENKO1961-beam-column-{name}",
        cite=_BEAM,
        kind=Kind.DERIVED,
        call=solve,
        inputs=_pressed(share),
        expected=expected,
        unit=unit,
        rel=2e-5,
        pick=pick,
        note=f"P = {share:g} pi2 EI/l2, u = l/2 sqrt(P/EI): sag Q l3/48EI 3(tan u - u)/u3, "
        "bending Q l/4 tan u/u (tanh for tension); 12 elements",
    )


def _sag(found: Response) -> float:
    return float(-found.displacement[0, 0, 6, 1])


def _bending(found: Response) -> float:
    return float(found.moment[0, 0, 5, 1])


def _first_order(name: str, expected: str, unit: str, note: str, **parts: Any) -> Row:
    pick = parts.pop("pick")
    inputs = {"soil": Soil.absent(), "second_order": False, **parts}
    return Row(
        id=f"TIMOSHENKO1961-{name}",
        cite=_BEAM,
        kind=Kind.DERIVED,
        call=solve,
        inputs=inputs,
        expected=expected,
        unit=unit,
        rel=1e-6,
        pick=pick,
        note=note,
    )


def _down(elements: int, node: int, load: float) -> np.ndarray[Any, np.dtype[np.float64]]:
    return np.where(np.arange(elements + 1) == node, load, 0.0)


_PROP = Member(start=4, end=GROUND, stiffness=1.5e5, works=Works.COMPRESSION)
_TIE = Member(start=0, end=4, stiffness=1.5e5, works=Works.TENSION)


def _leaning(clamped: int) -> Row:
    """One element, clamped at one end, pressed and pushed aside at the other."""
    feet = (CLAMPED[0], CLAMPED[1]) if clamped == 0 else (CLAMPED[1], CLAMPED[0])
    across = [0.0, -6e3] if clamped == 0 else [6e3, 0.0]
    tip = 1 - clamped
    return Row(
        id=f"TIMOSHENKO1961-leaning-{'left' if clamped == 0 else 'right'}",
        cite=_BEAM,
        kind=Kind.DERIVED,
        call=solve,
        inputs={
            "frame": Frame.bare([0.0, LENGTH], [0.0, 0.0], axial=1e9, bending=STIFFNESS, feet=feet),
            "soil": Soil.absent(),
            "states": States.build(2, across=across, down=[800.0 * (1 - tip), 800.0 * tip]),
        },
        expected="6000.00",
        unit="N",
        rel=1e-6,
        pick=lambda found: float(
            (-found.moment[0, 0, 0, clamped] - 800.0 * LENGTH) / -found.displacement[0, 0, tip, 1]
        ),
        note="balance on the bent shape: M = Q l + P sag, so that (M - Q l)/sag = P = 6 kN",
    )


def _stands(name: str, share: float, expected: str, note: str, **parts: Any) -> Row:
    """Whether a column under a share of Euler's load has a state of rest: 1 or 0."""
    across = np.zeros(13)
    across[-1] = -share * math.pi**2 * STIFFNESS / LENGTH**2
    frame = parts.pop("frame", straight(12, ROLLER))
    return Row(
        id=f"TIMOSHENKO1961-stands-{name}",
        cite=_COLUMN,
        kind=Kind.DERIVED,
        call=solve,
        inputs={
            "frame": frame,
            "soil": Soil.absent(),
            "states": States.build(13, across=across, down=np.full(13, 1.0), **parts),
        },
        expected=expected,
        pick=lambda found: float(found.converged[0, -1]),
        note=f"P = {share:g} pi2 EI/l2: {note}",
    )


def _in_soil() -> Row:
    """An upright column whose side springs raise Euler's load to 2.5 times."""
    z = np.linspace(0.0, LENGTH, 17)
    feet = ((INFINITE, INFINITE, 0.0), (INFINITE, 0.0, 0.0))
    foundation = 1.5 * math.pi**4 * STIFFNESS / LENGTH**4
    return Row(
        id="TIMOSHENKO1961-column-in-soil",
        cite=_COLUMN,
        kind=Kind.DERIVED,
        call=buckling_factor,
        inputs={
            "frame": Frame.bare(0.0 * z, z, axial=1e9, bending=STIFFNESS, feet=feet, width=1.0),
            "axial": np.full(16, 1000.0),
            "spring": np.full(17, foundation),
        },
        expected="308.425",
        rel=3e-4,
        pick=float,
        note="pi2 EI/l2 (m2 + b l4/(m2 pi4 EI)), m = 1, b l4/(pi4 EI) = 1.5; 16 elements",
    )


def _foot_and_joint() -> Row:
    joint = np.full(2, INFINITE)
    joint[0] = 3e4
    feet = ((INFINITE, INFINITE, 6e4), (0.0, 0.0, 0.0))
    return Row(
        id="TIMOSHENKO1961-joint-at-a-soft-foot",
        cite=_COLUMN,
        kind=Kind.DERIVED,
        call=buckling_factor,
        inputs={
            "frame": Frame.bare([0.0, LENGTH], [0.0, 0.0], axial=1e9, bending=1e10, feet=feet, joint=joint),
            "axial": np.full(1, 1000.0),
        },
        expected="5",
        rel=2e-4,
        pick=float,
        note="k/l with foot and joint in series: 1/k = 1/60 + 1/30 kN m/rad",
    )


_CHAIN = Frame.bare(
    np.linspace(0.0, LENGTH, 13),
    np.zeros(13),
    axial=1e9,
    bending=STIFFNESS,
    feet=ROLLER,
    joint=np.where(np.isin(np.arange(13), (4, 8)), 0.0, INFINITE),
)
_HALF_WAY = Member(start=6, end=GROUND, stiffness=1e7, works=Works.BOTH)

ROWS = (
    _stands("below", 0.98, "1", "it stands"),
    _stands("above", 1.02, "0", "it does not"),
    _stands("propped", 1.02, "1", "it stands with a stiff prop half way", members=[_HALF_WAY]),
    _stands("above-four", 4.1, "0", "nor with the prop", members=[_HALF_WAY]),
    _stands("two-hinges", 0.0, "0", "two hinges between two supports are a mechanism", frame=_CHAIN),
    _in_soil(),
    _foot_and_joint(),
    _leaning(0),
    _leaning(1),
    _euler("hinged", ROLLER, "123.3701", "pi2 EI/l2"),
    _euler("cantilever", CLAMPED, "30.8425", "pi2 EI/4l2"),
    _euler("clamped", GUIDED, "493.4802", "4 pi2 EI/l2"),
    _euler("two-rigid-pieces", ROLLER, "30", "4 k/l, k 30 kN m/rad", bending=1e10, joint=3e4),
    _euler(
        "rigid-on-a-soft-foot",
        ((INFINITE, INFINITE, 6e4), (0.0, 0.0, 0.0)),
        "15",
        "k/l, k 60 kN m/rad",
        bending=1e10,
    ),
    _arch("two-hinged", 0.1, "29.1"),
    _arch("two-hinged", 0.3, "49.5"),
    _arch("two-hinged", 1.0, "15.3"),
    _arch("fixed", 0.2, "103.1", feet=FIXED),
    _arch("fixed", 0.5, "105.3", feet=FIXED),
    _arch("three-hinged", 0.1, "22.8", hinge=True),
    _arch("one-hinged", 0.2, "61.9", feet=FIXED, hinge=True),
    _table("two-hinged", 0.3, "46.5"),
    _table("two-hinged", 0.5, "38.4"),
    _table("fixed", 0.3, "115", feet=FIXED),
    _table("fixed", 0.6, "83.8", feet=FIXED),
    _beam("sag-half", 0.5, "10.59354", "mm", _sag),
    _beam("bending-half", 0.5, "1453.463", "N m", _bending),
    _beam("sag-tension", -2.0, "1.816675", "mm", _sag),
    _first_order(
        "spring-joint",
        "32.0000",
        "mm",
        "Q l3/48EI + Q l2/16k, k 30 kN m/rad",
        frame=straight(4, ROLLER, joint=3e4),
        states=States.build(5, down=_down(4, 2, 800.0)),
        pick=lambda found: float(-found.displacement[0, 0, 2, 1]),
    ),
    _first_order(
        "propped-tip",
        "-847.0588",
        "N",
        "prop k on the tip of a cantilever 3EI/l3: Q k/(k + 3EI/l3), in compression",
        frame=straight(4, CLAMPED),
        states=States.build(5, down=_down(4, 4, 900.0), members=[_PROP]),
        pick=lambda found: float(found.member[0, 0, 0]),
    ),
    _first_order(
        "prop-put-in-late",
        "-847.0588",
        "N",
        "the same prop put under a tip that has already sunk takes only what comes later",
        frame=straight(4, CLAMPED),
        states=States.build(
            5,
            parent=[-1, 0, 1],
            down=np.array([[500.0], [500.0], [1400.0]]) * (np.arange(5) == 4),
            members=[_PROP],
            member_on=[[False], [True], [True]],
        ),
        pick=lambda found: float(found.member[0, 2, 0]),
    ),
    _first_order(
        "tie",
        "0.4197481",
        "N",
        "tie k beside a bar EA/l under a pull: P k/(k + EA/l)",
        frame=straight(4, CLAMPED),
        states=States.build(5, across=_down(4, 4, 700.0), members=[_TIE]),
        pick=lambda found: float(found.member[0, 0, 0]),
    ),
)
