"""Tape, chord and string: closed forms, and the figures of two worked pages whose data were read."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.curves import DOCARMO1976, ROUTH1891
from bermwright.data.works.setout import CHORD_DATA, DEFLECTION_DATA, TAPE_GEOMETRY
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import setout

_TAPE = Cite(work=TAPE_GEOMETRY, place="closed form", provenance=Provenance.DERIVED)
_PAGE = Cite(work=CHORD_DATA, place="questions 1 and 2", provenance=Provenance.READ)
_BLOG = Cite(work=DEFLECTION_DATA, place="the worked table", provenance=Provenance.READ)
_STRING = Cite(work=ROUTH1891, place="chapter X", provenance=Provenance.DERIVED)
_SHELL = Cite(work=DOCARMO1976, place="chapter 1, parallel curves", provenance=Provenance.DERIVED)


def _row(name: str, call: Any, expected: str, inputs: dict[str, Any], note: str, **more: Any) -> Row:
    return Row(
        id=f"TAPE-{name}",
        cite=more.pop("cite", _TAPE),
        kind=more.pop("kind", Kind.DERIVED),
        call=call,
        inputs=inputs,
        expected=expected,
        note=note,
        **more,
    )


_SQUARES = (
    _row("DIAGONAL", setout.diagonal, "10.000", {"length": 8.0, "width": 6.0}, "√(64 + 36)", unit="m"),
    _row("DIAGONAL-VAULT", setout.diagonal, "8.596", {"length": 7.5, "width": 4.2}, "√73.89", unit="m"),
    _row(
        "OUT-OF-SQUARE",
        setout.out_of_square,
        "12.5",
        {"difference": 0.020, "length": 8.0, "width": 6.0},
        "20·10/(2·8)",
        unit="m",
        pick=lambda slip: 1000.0 * slip,
    ),
    _row(
        "OUT-OF-SQUARE-TURNED",
        setout.out_of_square,
        "16.7",
        {"difference": 0.020, "length": 6.0, "width": 8.0},
        "20·10/(2·6)",
        unit="m",
        pick=lambda slip: 1000.0 * slip,
    ),
    _row(
        "FIVE-MILLIMETRES",
        setout.corner_angle,
        "0.119",
        {"first": 3.0, "second": 4.0, "across": 5.005},
        "arccos((25 − 25.050025)/24) − 90°",
        unit="",
        pick=lambda angle: math.degrees(angle) - 90.0,
    ),
    _row(
        "CORNER-OTHER",
        setout.corner_angle,
        "60.000",
        {"first": 2.0, "second": 2.0, "across": 2.0},
        "equal sides",
        unit="",
        pick=math.degrees,
    ),
    _row(
        "CORNER-SIDES",
        setout.corner_angle,
        "36.870",
        {"first": 5.0, "second": 4.0, "across": 3.0},
        "arcsin(3/5)",
        unit="",
        pick=math.degrees,
    ),
    _row("345-LONG", setout.three_four_five, "1.400", {"length": 7.5, "width": 4.2}, "4.2/3", unit="m"),
    _row(
        "345-FLAT",
        setout.three_four_five,
        "1.8",
        {"length": 7.5, "width": 6.0, "unit": 0.1},
        "7.5/4 = 1.875, down to a decimetre",
        unit="m",
    ),
    _row("345-JUST", setout.three_four_five, "1.80", {"length": 7.2, "width": 6.0}, "7.2/4", unit="m"),
    _row(
        "345-STEP",
        setout.three_four_five,
        "1.75",
        {"length": 6.0, "width": 7.5, "unit": 0.25},
        "1.875, down to a quarter",
        unit="m",
    ),
)

_FORMS = {(4.0, 0.5): ("0.4705", "0.3807", "0.2265", "151.93"),
          (3.0, 0.2): ("0.1877", "0.1507", "0.0884", "164.81"),
          (5.0, 1.2): ("1.1385", "0.9461", "0.5941", "128.72")}  # fmt: skip
_CHORDS = tuple(
    row
    for (chord, rise), (near, half, far, angle) in _FORMS.items()
    for row in (
        *(
            _row(
                f"FORM-{chord:g}-{share:g}",
                setout.chord_ordinate,
                expected,
                {"distance": 0.5 * share * chord, "chord": chord, "rise": rise},
                "√(R² − x²) − (R − v), R = (C²/4 + v²)/(2 v); three quarters of the rise is up to 5 % less",
                unit="m",
            )
            for share, expected in ((0.25, near), (0.5, half), (0.75, far))
        ),
        _row(
            f"NAILS-{chord:g}",
            setout.three_nail_angle,
            angle,
            {"chord": chord, "rise": rise},
            "twice the angle of half a chord over the rise: 2·arctan(C/(2 v))",
            unit="",
            pick=math.degrees,
        ),
        _row(
            f"NAILS-{chord:g}-OTHER-WAY",
            setout.three_nail_angle,
            angle,
            {"chord": chord, "rise": rise},
            "the other route: 180° − arcsin(C/2R), R = (C²/4 + v²)/(2 v)",
            unit="",
            pick=math.degrees,
            kind=Kind.INDEPENDENT,
        ),
    )
)
_READ = (
    *(
        _row(
            f"CHORD-80-{distance:.0f}",
            setout.chord_ordinate,
            expected,
            {"distance": distance, "chord": 80.0, "rise": 5.0},
            "radius 162.5 m; data read; the page cuts 3.76453 off instead of rounding it",
            cite=_PAGE,
            unit="m",
            rel=2e-4,
        )
        for distance, expected in (
            (0.0, "5.000"),
            (10.0, "4.692"),
            (20.0, "3.764"),
            (30.0, "2.207"),
            (40.0, "0.000"),
        )
    ),
    *(
        _row(
            f"CHORD-R100-{distance:.0f}",
            setout.chord_ordinate,
            expected,
            {"distance": distance, "chord": 51.764, "rise": 3.407},
            "radius 100 m, turn 30°; data read",
            cite=_PAGE,
            unit="m",
        )
        for distance, expected in ((10.0, "2.906"), (20.0, "1.387"))
    ),
    _row(
        "TANGENT-R100",
        setout.tangent_length,
        "26.795",
        {"turn": math.radians(30.0), "radius": 100.0},
        "100·tan 15°; data read",
        cite=_PAGE,
        unit="m",
    ),
    _row(
        "CHORD-R100",
        setout.chord_of_arc,
        "51.764",
        {"arc": 52.360, "radius": 100.0},
        "200·sin 15°; data read",
        cite=_PAGE,
        unit="m",
    ),
    *(
        _row(
            f"DEFLECTION-{arc:g}",
            setout.deflection_angle,
            expected,
            {"arc": arc, "radius": 30.0},
            "minutes of arc; data read",
            cite=_BLOG,
            unit="",
            pick=lambda angle: 60.0 * math.degrees(angle),
        )
        for arc, expected in ((7.32, "419.4"), (20.0, "1145.9"), (4.09, "234.3"))
    ),
    _row(
        "CHORD-20-R30",
        setout.chord_of_arc,
        "19.632",
        {"arc": 20.0, "radius": 30.0},
        "60·sin(1/3): 1.8 % short of the arc; data read",
        cite=_BLOG,
        unit="m",
    ),
    _row(
        "CHAIN-ALONG",
        setout.chain_point,
        "1.732",
        {"turn": math.radians(30.0), "radius": 2.0},
        "2·cos 30°",
        unit="m",
        pick=lambda point: point[0],
    ),
    _row(
        "CHAIN-ACROSS",
        setout.chain_point,
        "1.000",
        {"turn": math.radians(30.0), "radius": 2.0},
        "2·sin 30°",
        unit="m",
        pick=lambda point: point[1],
    ),
)
_STRINGS = (
    *(
        _row(
            f"STRING-10-MM-{rise:g}",
            setout.crown_for_length,
            expected,
            {"span": 5.0, "rise": rise},
            "10 mm more string on a span of 5 m",
            cite=_STRING,
            unit="",
            pick=lambda share: 10.0 * share,
        )
        for rise, expected in ((4.0, "5.591"), (2.5, "6.326"))
    ),
    _row(
        "SHELL-UPRIGHT",
        setout.shell_span,
        "4.200",
        {"clear_span": 4.0, "thickness": 0.2, "foot_angle": 0.5 * np.pi},
        "half the thickness on either side",
        cite=_SHELL,
        unit="m",
    ),
    _row(
        "SHELL-LEANING",
        setout.shell_span,
        "4.100",
        {"clear_span": 4.0, "thickness": 0.2, "foot_angle": np.pi / 6.0},
        "0.2·sin 30°",
        cite=_SHELL,
        unit="m",
    ),
)

ROWS = (*_SQUARES, *_CHORDS, *_READ, *_STRINGS)
