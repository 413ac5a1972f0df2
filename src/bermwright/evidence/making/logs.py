"""Logs: volume by diameters, three American log rules, and boards sawn through and through.

The pages were seen as quoted in a collection of published values; the rules themselves are older than any
of them. Yields of whole patterns follow from the chord of a circle.
"""

from __future__ import annotations

from typing import Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.boards import CLARK1906, DOYLETABLE, LOGRULES, LOGVOLUME, QUARTERGIRTH, WENGERT
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.boards.sawing import (
    Heart,
    cone_volume,
    doyle_volume,
    huber_volume,
    international_volume,
    live_sawn,
    newton_volume,
    quarter_girth_volume,
    scribner_volume,
    smalian_volume,
    strongest_beam,
)

INCH, FOOT = 0.0254, 0.3048
BOARD_FOOT = FOOT * FOOT * INCH


def _feet(result: Any) -> float:
    return float(result) / BOARD_FOOT


_DOYLE = Cite(work=DOYLETABLE, place="16 ft and other lengths", provenance=Provenance.READ)
_SCRIBNER = Cite(work=LOGRULES, place="Scribner, formula evaluated", provenance=Provenance.DERIVED)
_INTERNATIONAL = Cite(work=CLARK1906, place="16 ft, formula evaluated", provenance=Provenance.DERIVED)
_VOLUME = Cite(work=LOGVOLUME, place="example of a log", provenance=Provenance.READ)
_CLOSED = Cite(work=LOGVOLUME, place="closed form", provenance=Provenance.DERIVED)
_GIRTH = Cite(work=QUARTERGIRTH, place="π/4 of the true volume", provenance=Provenance.READ)
_CHORD = Cite(work=WENGERT, place="chords of a circle", provenance=Provenance.DERIVED)


def _doyle(inches: int, feet: int, expected: str) -> Row:
    return Row(
        id=f"DOYLETABLE-{inches}in-{feet}ft",
        cite=_DOYLE,
        kind=Kind.PUBLISHED,
        call=doyle_volume,
        inputs={"diameter": inches * INCH, "length": feet * FOOT},
        expected=expected,
        pick=_feet,
    )


def _formula(cite: Cite, name: str, call: Any, inches: int, expected: str, note: str) -> Row:
    return Row(
        id=f"{cite.work.key}-{name}-{inches}in",
        cite=cite,
        kind=Kind.DERIVED,
        call=call,
        inputs={"diameter": inches * INCH, "length": 16 * FOOT},
        expected=expected,
        pick=_feet,
        note=note,
    )


def _sawn(diameter: int, heart: Heart, kerf: float, boards: str, share: str) -> tuple[Row, Row]:
    inputs = {"diameter": diameter / 1000, "thickness": 0.025, "kerf": kerf, "least": 0.075, "heart": heart}
    name = f"WENGERT-{diameter}mm-{'board' if heart is Heart.BOARD else 'cut'}-kerf-{kerf * 1000:g}"
    note = "w = 2·√(R² − y²), boards of 25 mm, none narrower than 75 mm, no taper"
    counted = Row(
        id=f"{name}-boards",
        cite=_CHORD,
        kind=Kind.DERIVED,
        call=live_sawn,
        inputs=inputs,
        expected=boards,
        pick=lambda found: len(found.widths),
        note=note,
    )
    shared = Row(
        id=f"{name}-yield",
        cite=_CHORD,
        kind=Kind.DERIVED,
        call=live_sawn,
        inputs=inputs,
        expected=share,
        pick=lambda found: 100.0 * found.yields,
        note=note,
    )
    return counted, shared


def _pair(diameter: int, counts: str, shares: str, kerf: float = 0.003) -> tuple[Row, ...]:
    (first, second), (low, high) = counts.split("/"), shares.split("/")
    return (
        *_sawn(diameter, Heart.BOARD, kerf, first, low),
        *_sawn(diameter, Heart.CUT, kerf, second, high),
    )


def _log(name: str, call: Any, inputs: dict[str, float], expected: str, cite: Cite = _VOLUME) -> Row:
    derived = cite is _CLOSED
    return Row(
        id=f"{cite.work.key}-{name}",
        cite=cite,
        kind=Kind.DERIVED if derived else Kind.PUBLISHED,
        call=call,
        inputs=inputs,
        expected=expected,
        unit="m3",
        note="closed form" if derived else "",
    )


_ENDS = {"small": 0.25, "large": 0.29, "length": 5.0}
_TAPERED = {"small": 0.2, "large": 0.4, "length": 4.0}

ROWS = (
    *(
        _doyle(inches, 16, expected)
        for inches, expected in zip(
            (8, 10, 12, 14, 16, 20, 24, 30),
            ("16", "36", "64", "100", "144", "256", "400", "676"),
            strict=True,
        )
    ),
    _doyle(12, 8, "32"),
    _doyle(12, 10, "40"),
    _doyle(12, 14, "56"),
    _doyle(12, 20, "80"),
    _doyle(4, 16, "0"),
    *(
        _formula(_SCRIBNER, "scribner", scribner_volume, inches, expected, "(0.79·D² − 2·D − 4)·L/16")
        for inches, expected in ((12, "85.8"), (16, "166.2"), (20, "272.0"), (30, "647.0"))
    ),
    *(
        _formula(_INTERNATIONAL, "quarter-inch", international_volume, inches, expected, "four sections")
        for inches, expected in (
            (8, "38.7"), (10, "64.7"), (12, "96.9"), (14, "135.6"), (16, "180.6"), (20, "289.8"),
        )
    ),
    _log("smalian", smalian_volume, _ENDS, "0.287848"),
    _log("cone", cone_volume, _ENDS, "0.286801"),
    _log("huber", huber_volume, {"middle": 0.27, "length": 5.0}, "0.286278"),
    _log("newton", newton_volume, {**_ENDS, "middle": 0.27}, "0.286801"),
    _log("strong-taper", cone_volume, _TAPERED, "0.29322", _CLOSED),
    _log("smalian-strong-taper", smalian_volume, _TAPERED, "0.31416", _CLOSED),
    _log("huber-strong-taper", huber_volume, {"middle": 0.3, "length": 4.0}, "0.28274", _CLOSED),
    Row(
        id="QUARTERGIRTH-share",
        cite=_GIRTH,
        kind=Kind.PUBLISHED,
        call=quarter_girth_volume,
        inputs={"girth": 0.9424777960769379, "length": 5.0},
        expected="78.5",
        pick=lambda volume: 100.0 * float(volume) / (0.25 * 3.141592653589793 * 0.09 * 5.0),
    ),
    *_pair(150, "3/4", "56.6/68.9"),
    *_pair(200, "5/6", "68.1/75.4"),
    *_pair(250, "7/8", "74.2/78.8"),
    *_pair(300, "9/10", "78.0/80.9"),
    *_pair(400, "13/14", "82.0/82.9"),
    *_pair(250, "7/6", "70.6/64.9", 0.006),
    *_pair(300, "9/8", "73.2/69.9", 0.006),
    Row(
        id="WENGERT-heart-in-the-middle",
        cite=_CHORD,
        kind=Kind.DERIVED,
        call=live_sawn,
        inputs={"diameter": 0.25, "thickness": 0.025, "kerf": 0.003, "least": 0.075},
        expected="0.000",
        pick=lambda found: sum(found.places),
        note="boards lie alike on both sides of the heart",
    ),
    *(
        Row(
            id=f"WENGERT-strongest-beam-{name}",
            cite=_CHORD,
            kind=Kind.DERIVED,
            call=strongest_beam,
            inputs={"diameter": 1.0},
            expected=expected,
            pick=(lambda sides: sides[0]) if name == "width" else (lambda sides: sides[1]),
            note="greatest b·h² in a circle",
        )
        for name, expected in (("width", "0.5774"), ("height", "0.8165"))
    ),
)  # fmt: skip
