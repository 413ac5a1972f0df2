"""Levels, nets, planes and a traverse: readings that were read, reductions that are derived."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.fitting import ROUSSEEUW1987
from bermwright.data.works.practice import TRADE
from bermwright.data.works.setout import (
    FAIRING,
    LEVEL_BOOK,
    LEVEL_LOOP,
    LEVEL_NET,
    PAGE_CHECK,
    TRAVERSE_DATA,
    WGS84,
)
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import setout

_BOOK = Cite(work=LEVEL_BOOK, place="the exercise", provenance=Provenance.READ)
_CHECK = Cite(work=PAGE_CHECK, place="the page check", provenance=Provenance.READ)
_LOOP = Cite(work=LEVEL_LOOP, place="example 2, the rule", provenance=Provenance.READ)
_NET = Cite(work=LEVEL_NET, place="normal equations", provenance=Provenance.DERIVED)
_MAHUN = Cite(work=TRAVERSE_DATA, place="chapter I, compass rule", provenance=Provenance.READ)
_GLOBE = Cite(work=WGS84, place="radii of curvature", provenance=Provenance.DERIVED)
_FAIR = Cite(work=FAIRING, place="differences", provenance=Provenance.DERIVED)
_ODD = Cite(work=ROUSSEEUW1987, place="section 5.1", provenance=Provenance.DERIVED)
_STEPS = Cite(work=TRADE, place="steps of a footing", provenance=Provenance.DERIVED)


def _row(name: str, call: Any, expected: str, inputs: dict[str, Any], note: str, **more: Any) -> Row:
    return Row(
        id=f"LEVELS-{name}",
        cite=more.pop("cite", _NET),
        kind=more.pop("kind", Kind.DERIVED),
        call=call,
        inputs=inputs,
        expected=expected,
        note=note,
        **more,
    )


def _millimetres(at: int) -> Any:
    return lambda values: float(values[at])


_BACK, _FORE = [1.35, 0.80, 1.40, 0.70, 1.30], [0.80, 1.65, 0.70, 1.70, 1.85]
_READINGS = {"back": np.array(_BACK), "fore": np.array(_FORE)}
_BOOKED = (
    *(
        _row(
            f"RISE-{number + 1}",
            setout.rise_and_fall,
            expected,
            _READINGS,
            "read, reduced",
            cite=_BOOK,
            unit="m",
            pick=lambda values, number=number: values[number],
        )
        for number, expected in enumerate(("0.55", "-0.85", "0.70", "-1.00", "-0.55"))
    ),
    _row(
        "SUM",
        setout.rise_and_fall,
        "-1.15",
        _READINGS,
        "ΣBS 4.05 − ΣFS 5.20",
        cite=_BOOK,
        unit="m",
        pick=lambda values: values.sum(),
    ),
    _row(
        "PAGE",
        setout.rise_and_fall,
        "0.67",
        {"back": np.array([5.620]), "fore": np.array([4.950])},
        "rises 1.37 less falls 0.70 give the same",
        cite=_CHECK,
        unit="m",
        pick=lambda values: values.sum(),
    ),
)

_LEGS = np.array([120.0, 80.0, 100.0])
_CLOSING = (
    *(
        _row(
            f"SPREAD-{number + 1}",
            setout.spread_closure,
            expected,
            {"error": -0.009, "lengths": _LEGS},
            "by length",
            cite=_LOOP,
            unit="mm",
            pick=_millimetres(number),
        )
        for number, expected in enumerate(("3.6", "2.4", "3.0"))
    ),
    *(
        _row(
            f"ALLOWED-{1000 * limit:.0f}",
            setout.allowed_closure,
            expected,
            {"length": 300.0, "per_root_km": limit},
            "k·√0.3: 9 mm must be levelled again",
            cite=_LOOP,
            unit="mm",
            pick=lambda value: value,
        )
        for limit, expected in ((0.012, "6.6"), (0.010, "5.5"))
    ),
    *(
        _row(
            f"SIGHT-{length:.0f}",
            setout.sight_error,
            expected,
            {"distance": length},
            "0.0675·K²",
            cite=_LOOP,
            unit="mm",
            pick=lambda value: value,
        )
        for length, expected in ((60.0, "0.24"), (100.0, "0.68"), (300.0, "6.1"), (1000.0, "67.50"))
    ),
)

_NET_INPUTS = {
    "start": np.array([0, 2, 1, 3]), "end": np.array([2, 3, 3, 0]),
    "difference": np.array([1.204, 0.402, -0.405, -1.600]),
    "weights": 1.0 / np.array([0.1, 0.2, 0.1, 0.25]),
    "fixed": np.array([100.0, 102.0, np.nan, np.nan]),
}  # fmt: skip
_NETS = (
    _row(
        "NET-P",
        setout.adjust_heights,
        "101.2014",
        _NET_INPUTS,
        "weights one over km",
        unit="m",
        pick=lambda net: net.heights[2],
    ),
    _row(
        "NET-Q",
        setout.adjust_heights,
        "101.5983",
        _NET_INPUTS,
        "weights one over km",
        unit="m",
        pick=lambda net: net.heights[3],
    ),
    *(
        _row(
            f"NET-RESIDUAL-{number + 1}",
            setout.adjust_heights,
            expected,
            _NET_INPUTS,
            "adjusted less measured; the third measured from BM2 down to Q, the last from Q down to BM1",
            unit="mm",
            pick=lambda net, number=number: net.residuals[number],
        )
        for number, expected in enumerate(("-2.6", "-5.2", "3.3", "1.7"))
    ),
    _row(
        "NET-SPREAD",
        setout.adjust_heights,
        "0.01261",
        _NET_INPUTS,
        "√(Σ w v²/2), v = −2.58, −5.15, 3.27, 1.73 mm",
        unit="m",
        pick=lambda net: net.spread,
    ),
)

_X, _Y = (part.ravel() for part in np.meshgrid([0.0, 6.0, 12.0], [0.0, 5.0, 10.0]))
_TILTED = {"x": _X, "y": _Y, "z": 3.0 - 0.1 * _X + 0.05 * _Y}
_LIFTED = {**_TILTED, "z": _TILTED["z"] + np.where(np.arange(9) == 4, 0.4, 0.0)}
_CORNERED = {**_TILTED, "z": _TILTED["z"] + np.where(np.arange(9) == 8, 0.06, 0.0)}
_PLANES = (
    _row(
        "PLANE-SLOPE",
        setout.fit_plane,
        "6.379",
        _TILTED,
        "arctan √(0.1² + 0.05²)",
        unit="deg",
        pick=lambda plane: plane.slope,
    ),
    _row(
        "PLANE-FACES",
        setout.fit_plane,
        "116.57",
        _TILTED,
        "falls to (0.1, −0.05): 90° + arctan 0.5",
        unit="deg",
        pick=lambda plane: plane.faces,
    ),
    _row(
        "PLANE-LEVEL",
        setout.fit_plane,
        "2.650",
        _TILTED,
        "3 − 0.6 + 0.25",
        unit="m",
        pick=lambda plane: plane.level,
    ),
    _row(
        "PLANE-SPREAD",
        setout.fit_plane,
        "0.1540",
        _LIFTED,
        "0.4·√(8/9)/√6",
        unit="m",
        pick=lambda plane: plane.spread,
    ),
    _row(
        "PLANE-POLYFIT",
        setout.fit_plane,
        "2.694",
        _LIFTED,
        "numpy.linalg.lstsq of the same points: the mean of the heights",
        unit="m",
        kind=Kind.INDEPENDENT,
        pick=lambda plane: plane.level,
    ),
    _row(
        "ODD-ONE",
        setout.odd_heights,
        "4",
        _LIFTED,
        "the planted point, and no other",
        cite=_ODD,
        pick=lambda odd: float(np.flatnonzero(odd).sum()),
    ),
    _row(
        "ODD-NONE", setout.odd_heights, "0", _TILTED, "a plane", cite=_ODD, pick=lambda odd: float(odd.sum())
    ),
    _row(
        "ODD-LEAST",
        setout.odd_heights,
        "1",
        {**_CORNERED, "least": 0.0595},
        "0.06 m against a plane of the rest",
        cite=_ODD,
        pick=lambda odd: float(odd.sum()),
    ),
    _row(
        "ODD-BELOW-LEAST",
        setout.odd_heights,
        "0",
        {**_CORNERED, "least": 0.0605},
        "below the least",
        cite=_ODD,
        pick=lambda odd: float(odd.sum()),
    ),
)

_SIX = slice(0, 6)
_FEW = {"x": _X[_SIX], "y": _Y[_SIX], "z": _TILTED["z"][_SIX] + np.where(np.arange(6) == 1, 0.4, 0.0)}
_DEFAULT = {**_TILTED, "z": _TILTED["z"] + np.where(np.arange(9) == 8, 0.0505, 0.0)}
_WEST = {**_TILTED, "z": 3.0 + 0.1 * _X + 0.05 * _Y}
_GX, _GY = (part.ravel() for part in np.meshgrid(np.arange(6.0), np.arange(6.0)))
_NOISE = 0.05 * np.where((_GX + _GY) % 2.0 == 0.0, 1.0, -1.0)


def _noisy(off: float) -> dict[str, Any]:
    """A level chequerboard of ±50 mm, one point lifted over the plane of the others."""
    return {"x": _GX, "y": _GY, "z": np.where(np.arange(36) == 14, off, _NOISE)}


_BX, _BY = (part.ravel() for part in np.meshgrid(2.0 * np.arange(4.0), 3.0 * np.arange(3.0)))
_BENT: dict[str, Any] = {
    "x": _BX,
    "y": _BY,
    "z": 4.0 + 0.1 * _BX - 0.02 * _BX**2 + 0.03 * _BX * _BY - 0.04 * _BY**2,
}
_BUMP: dict[str, Any] = {**_BENT, "z": _BENT["z"] + np.where(np.arange(12) == 6, 0.3, 0.0), "degree": 2}
_SPREADS = (
    _row(
        "ODD-BENT",
        setout.odd_heights,
        "6",
        _BUMP,
        "the planted point of twelve on a bent surface, and no other",
        cite=_ODD,
        pick=lambda odd: float(np.flatnonzero(odd).sum() + 100.0 * (odd.sum() - 1.0)),
    ),
    _row(
        "ODD-BENT-FAR",
        setout.odd_heights,
        "6",
        {**_BUMP, "x": _BUMP["x"] + 385211.0, "y": _BUMP["y"] + 6972100.0},
        "the same far from the origin, as a national grid has it",
        cite=_ODD,
        pick=lambda odd: float(np.flatnonzero(odd).sum() + 100.0 * (odd.sum() - 1.0)),
    ),
    _row(
        "ODD-BENT-NONE",
        setout.odd_heights,
        "0",
        {**_BENT, "least": 0.001, "degree": 2},
        "a bent surface itself",
        cite=_ODD,
        pick=lambda odd: float(odd.sum()),
    ),
    _row(
        "ODD-BENT-FEW",
        setout.odd_heights,
        "0",
        {**{key: _BUMP[key][1:] for key in "xyz"}, "degree": 2},
        "eleven points tell nothing of a bent surface",
        cite=_ODD,
        pick=lambda odd: float(odd.sum()),
    ),
    _row(
        "ODD-SIX",
        setout.odd_heights,
        "1",
        _FEW,
        "six points are just enough",
        cite=_ODD,
        pick=lambda odd: float(odd.sum()),
    ),
    _row(
        "ODD-DEFAULT",
        setout.odd_heights,
        "1",
        _DEFAULT,
        "50.5 mm over a plane, 50 mm is the least",
        cite=_ODD,
        pick=lambda odd: float(odd.sum()),
    ),
    _row(
        "ODD-SPREAD",
        setout.odd_heights,
        "1",
        _noisy(0.25672),
        "258.4 mm off the plane of the rest; 3.5·1.4826·49.55 mm is 257.1",
        cite=_ODD,
        pick=lambda odd: float(odd.sum()),
    ),
    _row(
        "ODD-WITHIN-SPREAD",
        setout.odd_heights,
        "0",
        _noisy(0.25415),
        "255.8 mm off; 257.1 are allowed",
        cite=_ODD,
        pick=lambda odd: float(odd.sum()),
    ),
    _row(
        "PLANE-WEST",
        setout.fit_plane,
        "243.43",
        _WEST,
        "falls to (−0.1, −0.05): 180° + arctan 2",
        unit="deg",
        pick=lambda plane: plane.faces,
    ),
)

_RAD = math.radians
_PLACES = (
    _row(
        "GLOBE-NORTH",
        setout.local_metres,
        "111.13",
        {
            "latitude": _RAD(45.001),
            "longitude": _RAD(10.0),
            "from_latitude": _RAD(45.0),
            "from_longitude": _RAD(10.0),
        },
        "M = a(1 − e²)/(1 − e² sin²φ)^1.5 = 6 367 382 m",
        cite=_GLOBE,
        unit="m",
        pick=lambda point: point[1],
    ),
    _row(
        "GLOBE-EAST",
        setout.local_metres,
        "78.85",
        {
            "latitude": _RAD(45.0),
            "longitude": _RAD(10.001),
            "from_latitude": _RAD(45.0),
            "from_longitude": _RAD(10.0),
        },
        "N cos φ = 6 388 838·0.70711 m",
        cite=_GLOBE,
        unit="m",
        pick=lambda point: point[0],
    ),
    _row(
        "GLOBE-EQUATOR",
        setout.local_metres,
        "110.574",
        {"latitude": _RAD(0.001), "longitude": 0.0, "from_latitude": 0.0, "from_longitude": 0.0},
        "M = a(1 − e²) = 6 335 439 m",
        cite=_GLOBE,
        unit="m",
        pick=lambda point: point[1],
    ),
    _row(
        "GLOBE-ROUND",
        setout.local_metres,
        "111.319",
        {
            "latitude": 0.0,
            "longitude": _RAD(-179.9995),
            "from_latitude": 0.0,
            "from_longitude": _RAD(179.9995),
        },
        "over the date line: a·0.001°",
        cite=_GLOBE,
        unit="m",
        pick=lambda point: point[0],
    ),
)

_LOOP_INPUTS = {
    "north": np.array([-176.357, 203.395, 192.357, -219.312]),
    "east": np.array([-438.548, -73.093, 198.651, 313.065]),
    "lengths": np.array([472.68, 216.13, 276.52, 382.24]),
    "start_north": 500.0, "start_east": 2000.0,
}  # fmt: skip
_LOOPS = tuple(
    _row(
        f"TRAVERSE-{name}",
        setout.close_traverse,
        expected,
        _LOOP_INPUTS,
        "data read, in feet",
        cite=_MAHUN,
        unit=unit,
        pick=pick,
    )
    for name, expected, unit, pick in (
        ("MISS-NORTH", "0.083", "", lambda loop: loop.miss_north),
        ("MISS-EAST", "0.075", "", lambda loop: loop.miss_east),
        ("RATIO", "12046", "", lambda loop: loop.ratio),
        ("B-NORTH", "323.614", "", lambda loop: loop.north[0]),
        ("B-EAST", "1561.426", "", lambda loop: loop.east[0]),
        ("C-NORTH", "526.996", "", lambda loop: loop.north[1]),
        ("C-EAST", "1488.321", "", lambda loop: loop.east[1]),
        ("D-NORTH", "719.336", "", lambda loop: loop.north[2]),
        ("D-EAST", "1686.956", "", lambda loop: loop.east[2]),
        ("AREA", "102936", "", lambda loop: loop.area),
    )
)

_SQUARE_NUMBERS = np.arange(9.0) ** 2
_BENT = {"ordinates": _SQUARE_NUMBERS + np.where(np.arange(9) == 4, 0.012, 0.0)}
_FIVE = {"ordinates": np.array([0.0, 1.0, 4.012, 9.0, 16.0])}
_HAIR = {
    over: {"ordinates": _SQUARE_NUMBERS + np.where(np.arange(9) == 4, over, 0.0)}
    for over in (0.00303, 0.00297)
}
_SMALL = (
    _row(
        "FAIR-FIVE",
        setout.fairing,
        "2.00",
        _FIVE,
        "five are just enough",
        cite=_FAIR,
        pick=lambda fair: fair.unfair[0],
    ),
    _row(
        "FAIR-THREE-MM",
        setout.fairing,
        "1",
        _HAIR[0.00303],
        "3.03 mm, 3 mm is the least",
        cite=_FAIR,
        pick=lambda fair: float(len(fair.unfair)),
    ),
    _row(
        "FAIR-UNDER-THREE-MM",
        setout.fairing,
        "0",
        _HAIR[0.00297],
        "2.97 mm",
        cite=_FAIR,
        pick=lambda fair: float(len(fair.unfair)),
    ),
)
_FAIRED = (
    _row(
        "FAIR-NAMED",
        setout.fairing,
        "4.00",
        _BENT,
        "the planted ordinate",
        cite=_FAIR,
        pick=lambda fair: fair.unfair[0],
    ),
    _row(
        "FAIR-OFF",
        setout.fairing,
        "0.0120",
        _BENT,
        "fourth difference 6 e over 6",
        cite=_FAIR,
        unit="m",
        pick=lambda fair: fair.off[4],
    ),
    _row(
        "FAIR-SECOND",
        setout.fairing,
        "1.976",
        _BENT,
        "2 − 2·0.012",
        cite=_FAIR,
        unit="m",
        pick=lambda fair: fair.second[3],
    ),
    _row(
        "FAIR-FIRST",
        setout.fairing,
        "7.012",
        _BENT,
        "16.012 − 9",
        cite=_FAIR,
        unit="m",
        pick=lambda fair: fair.first[3],
    ),
    _row(
        "FAIR-LEAST",
        setout.fairing,
        "0",
        {**_BENT, "least": 0.0121},
        "below what is called unfair",
        cite=_FAIR,
        pick=lambda fair: float(len(fair.unfair)),
    ),
    _row(
        "FAIR-OVER-LEAST",
        setout.fairing,
        "1",
        {**_BENT, "least": 0.0119},
        "over it",
        cite=_FAIR,
        pick=lambda fair: float(len(fair.unfair)),
    ),
    _row("STEPS", setout.footing_steps, "4", {"fall": 1.05, "step": 0.3}, "3.5 upward", cite=_STEPS),
    _row("STEPS-EVEN", setout.footing_steps, "3", {"fall": 0.9, "step": 0.3}, "just three", cite=_STEPS),
)

ROWS = (*_BOOKED, *_CLOSING, *_NETS, *_PLANES, *_SPREADS, *_PLACES, *_LOOPS, *_FAIRED, *_SMALL)
