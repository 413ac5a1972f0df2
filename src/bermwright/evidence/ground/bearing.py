"""Bearing of the ground: printed factors and sole boards, closed forms worked out apart."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from bermwright.data.works.actions import EN1997
from bermwright.data.works.soils import DAS
from bermwright.data.works.supports import (
    BEARINGTABLE,
    HANSEN1970,
    MEYERHOF1953,
    MEYERHOF1963,
    SKEMPTON1951,
    TG20,
    VESIC1973,
)
from bermwright.evidence.rows import Kind, Row
from bermwright.evidence.rows import worked_row as _row
from bermwright.handbook import bearing
from bermwright.handbook.bearing import Formula

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


_STRIP = {"angle": math.radians(30), "cohesion": 0.0, "weight": 18e3, "surcharge": 14.4e3, "width": 1.0}


def _factors() -> list[Row]:
    derived = {
        10: ("8.345", "2.471", "0.367", "0.389", "1.224", "0.519"),
        20: ("14.835", "6.399", "2.871", "2.948", "5.386", "3.930"),
        30: ("30.140", "18.401", "15.668", "15.070", "22.402", "20.093"),
        40: ("75.313", "64.195", "93.691", "79.541", "109.411", "106.054"),
    }
    whose = {
        Formula.MEYERHOF: MEYERHOF1963,
        Formula.HANSEN: HANSEN1970,
        Formula.VESIC: VESIC1973,
        Formula.EN1997: EN1997,
    }
    rows: list[Row] = []
    for angle, (sticks, beside, *under) in derived.items():
        turned = {"angle": math.radians(angle)}
        rows += [
            _row(f"Nc-{angle}", EN1997, "D.4", bearing.cohesion_factor, turned, sticks),
            _row(f"Nq-{angle}", EN1997, "D.4", bearing.surcharge_factor, turned, beside),
        ]
        rows += [
            _row(
                f"Ng-{angle}", work, "factor of weight", bearing.weight_factor,
                {**turned, "formula": formula}, value,
            )
            for (formula, work), value in zip(whose.items(), under, strict=True)
        ]  # fmt: skip
    return [*rows, _row("Nc-0", EN1997, "D.3", bearing.cohesion_factor, {"angle": 0.0}, "5.142"), *_printed()]


def _printed() -> list[Row]:
    turned = {"angle": math.radians(30)}
    table: list[tuple[str, Callable[..., Any], Mapping[str, Any], str]] = [
        ("Nc", bearing.cohesion_factor, turned, "30.1"),
        ("Nq", bearing.surcharge_factor, turned, "18.4"),
        ("Ng-Meyerhof", bearing.weight_factor, {**turned, "formula": Formula.MEYERHOF}, "15.7"),
        ("Ng-Hansen", bearing.weight_factor, {**turned, "formula": Formula.HANSEN}, "15.07"),
        ("Ng-Vesic", bearing.weight_factor, {**turned, "formula": Formula.VESIC}, "22.4"),
    ]
    return [
        _row(name, BEARINGTABLE, "30 degrees", call, inputs, value, kind=Kind.PUBLISHED, note="")
        for name, call, inputs, value in table
    ] + [
        _row(
            "Ng", TG20, "appendix E", bearing.weight_factor, {**turned, "formula": Formula.EN1997}, "20.1",
            kind=Kind.PUBLISHED, note="",
        )
    ]  # fmt: skip


def _corrections() -> list[Row]:
    slopes = [
        (0.1, "0.810", "0.729"),
        (0.2, "0.640", "0.512"),
        (0.3, "0.490", "0.343"),
    ]
    rows = []
    for share, beside, under in slopes:
        inputs = {"share": share, "power": 2.0}
        rows += [
            _row(f"iq-{share}", EN1997, "D.4", bearing.surcharge_inclination, inputs, beside),
            _row(f"ig-{share}", EN1997, "D.4", bearing.weight_inclination, inputs, under),
        ]
    size, long = {"width": 1.0, "length": 2.0}, {"along": 20e3, "grip": 50e3}
    sticking = {"inclined": 0.64, "angle": math.radians(30)}
    steep = {"share": 0.25, "power": 1.5}
    sunk = {"depth": 0.8, "width": 1.0}
    return [
        *rows,
        _row("iq-1.5", EN1997, "D.4", bearing.surcharge_inclination, steep, "0.6495"),
        _row("ig-1.5", EN1997, "D.4", bearing.weight_inclination, steep, "0.48714"),
        _row("iq-strip", EN1997, "D.4", bearing.surcharge_inclination, {"share": 0.25}, "0.5625"),
        _row("ig-strip", EN1997, "D.4", bearing.weight_inclination, {"share": 0.25}, "0.42188"),
        _row("ic", EN1997, "D.4", bearing.cohesion_inclination, sticking, "0.6193"),
        _row("ic-undrained", EN1997, "D.3", bearing.undrained_inclination, long, "0.8873"),
        _row("sq", EN1997, "D.4", bearing.surcharge_shape, {**size, "angle": math.radians(30)}, "1.2500"),
        _row("sg", EN1997, "D.4", bearing.weight_shape, size, "0.8500"),
        _row("strip", SKEMPTON1951, "D/B = 0.8", bearing.skempton_factor, sunk, "5.80"),
        _row(
            "square", SKEMPTON1951, "D/B = 0.8", bearing.skempton_factor, {**sunk, "square": True}, "6.96"
        ),
        _row(
            "deep", SKEMPTON1951, "D/B over 2.5", bearing.skempton_factor,
            {"depth": 4.0, "width": 1.0}, "7.500",
        ),
    ]  # fmt: skip


def _capacities() -> list[Row]:
    board = {
        "angle": math.radians(30), "cohesion": 0.0, "weight": 18.6e3, "surcharge": 0.0, "width": 0.225,
        "length": 0.45,
    }  # fmt: skip
    inclined = {**_STRIP, "cohesion": 5e3, "inclination": 0.2}
    pad = {**inclined, "length": 2.0}
    clay = {"strength": 50e3, "surcharge": 14.4e3, "width": 1.0}
    by = {
        Formula.MEYERHOF: (MEYERHOF1963, "406.0"),
        Formula.HANSEN: (HANSEN1970, "400.6"),
        Formula.EN1997: (EN1997, "445.8"),
        Formula.VESIC: (VESIC1973, "466.6"),
    }
    call = bearing.drained_capacity
    return [
        _row(
            "board", TG20, "appendix E", call, board, "35.8", unit="kPa", kind=Kind.PUBLISHED, rel=3e-3,
            note="printed with the factor rounded to 20.1",
        ),
        *[
            _row(
                "strip", work, "strip 1 m wide, 0.8 m deep", call, {**_STRIP, "formula": formula}, value,
                unit="kPa",
            )
            for formula, (work, value) in by.items()
        ],
        _row(
            "eccentric", MEYERHOF1953, "B' = 0.7 m after Vesić", call,
            {**_STRIP, "width": 0.7, "formula": Formula.VESIC}, "406.1", unit="kPa",
        ),
        _row("inclined", EN1997, "D.4", call, inclined, "355.5", unit="kPa"),
        _row("pad", EN1997, "D.4", call, pad, "441.09", unit="kPa"),
        _row("undrained", EN1997, "D.3", bearing.undrained_capacity, clay, "271.5", unit="kPa"),
        _row(
            "undrained-pad", EN1997, "D.3", bearing.undrained_capacity,
            {**clay, "length": 2.0, "along": 20e3}, "265.3", unit="kPa",
        ),
    ]  # fmt: skip


def _bases() -> list[Row]:
    mean = {"down": 100e3, "width": 1.0}
    mass = {"down": 23.04e3, "width": 0.8, "eccentricity": 0.1726}
    wet = {"weight": 18e3, "saturated": 20e3, "water": 0.5, "width": 1.0}
    call = bearing.contact_pressure
    return [
        _row(
            "inside-most", DAS, "e = 0.1", call, {**mean, "eccentricity": 0.1}, "160.0",
            lambda r: float(r.largest), "kPa",
        ),
        _row(
            "inside-least", DAS, "e = 0.1", call, {**mean, "eccentricity": 0.1}, "40.0",
            lambda r: float(r.least), "kPa",
        ),
        _row(
            "outside", DAS, "e = 0.25", call, {**mean, "eccentricity": 0.25}, "266.7",
            lambda r: float(r.largest), "kPa",
        ),
        _row(
            "outside-length", DAS, "e = 0.25", call, {**mean, "eccentricity": 0.25}, "0.7500",
            lambda r: float(r.length),
        ),
        _row(
            "small-wall", DAS, "a wall 0.8 m wide", call, mass, "67.5", lambda r: float(r.largest), "kPa",
        ),
        _row(
            "effective", MEYERHOF1953, "effective area", bearing.effective_width,
            {"width": 1.0, "eccentricity": 0.15}, "0.7000",
        ),
        _row("water", MEYERHOF1963, "ground water", bearing.weight_with_water, wet, "14095"),
    ]  # fmt: skip


ROWS: tuple[Row, ...] = (*_factors(), *_corrections(), *_capacities(), *_bases())
