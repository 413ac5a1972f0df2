"""Wind, snow by the second family of codes, and pressure under a patch."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.actions import ASCE7, EN1991_1_4, WINDNOTE
from bermwright.data.works.soils import DAS
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import actions

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.base.sources import Work

FOOT, PSF, PCF, DEG = 0.3048, 47.88025898033584, 157.08746061538463, math.pi / 180.0
APART = "closed form, evaluated apart"
_D, _R, _M = Provenance.DERIVED, Provenance.READ, Provenance.MEMORY
_KINDS = {_D: Kind.DERIVED, _R: Kind.PUBLISHED, _M: Kind.PUBLISHED}


def _row(  # noqa: PLR0913, PLR0917  (one row of the tables below)
    name: str,
    work: Work,
    place: str,
    known: Provenance,
    call: Callable[..., Any],
    inputs: Mapping[str, Any],
    expected: str,
    unit: str = "",
    pick: Callable[[Any], float] = float,
    note: str = "",
    rel: float | None = None,
) -> Row:
    return Row(
        id=f"{work.key}-{name}",
        cite=Cite(work=work, place=place, provenance=known),
        kind=_KINDS[known],
        call=call,
        inputs=inputs,
        expected=expected,
        unit=unit,
        pick=pick,
        note=note,
        rel=rel,
    )


def _wind() -> list[Row]:
    call = actions.gust_pressure
    town = {"speed": 26.0, "height": 9.0, "roughness": 1.0, "least_height": 10.0}
    open_land = {"speed": 24.0, "height": 4.0, "roughness": 0.05, "least_height": 2.0}
    by_hand = "(1 + 7/ln 80)·0.625·(0.19·ln 80·24)²"
    rows = [
        _row("gust", WINDNOTE, "equation 4.8, category IV", _R, call, town, "0.497", "kN/m2"),
        _row(
            "gust-open", EN1991_1_4, "4.8, category II", _D, call, open_land, "0.6482", "kN/m2", note=by_hand
        ),
    ]
    zones = ("windward", "crown", "leeward")
    european = {0.05: ("0.1", "-0.8", "-0.4"), 0.5: ("0.8", "-1.2", "-0.4"), 0.275: ("0.45", "-1.00", "-0.4")}
    american = {0.3: ("0.42", "-1.00", "-0.5"), 0.5: ("0.70", "-1.20", "-0.5")}
    for work, place, table, function in (
        (EN1991_1_4, "figure 7.11", european, actions.wind_on_vault),
        (ASCE7, "figure 27.3-3", american, actions.wind_on_arch_american),
    ):
        for ratio, values in table.items():
            for zone, value in zip(zones, values, strict=True):
                inputs = {"rise": 6.0 * ratio, "width": 6.0}
                pick = _zone(zone)
                rows.append(
                    _row(
                        f"{zone}-{ratio:g}",
                        work,
                        place,
                        _M,
                        function,
                        inputs,
                        value,
                        pick=pick,
                        rel=0.001,
                        note="ends of the figure's curves",
                    )
                )
    return rows


def _zone(name: str) -> Callable[[Any], float]:
    return lambda wind: float(getattr(wind, name))


def _snow() -> list[Row]:
    flat = {"ground": 30 * PSF, "exposure": 1.0, "thermal": 1.0, "importance": 1.0}
    windy = {"ground": 30 * PSF, "exposure": 0.9, "thermal": 1.1, "importance": 0.8}
    slope, arch = actions.roof_slope_factor, actions.mu_arch_american
    curve: dict[str, Any] = {
        "x": np.array([-3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0]),
        "slope": np.array([50.0, 30.0, 15.0, 0.0, 15.0, 30.0, 50.0]) * DEG,
        "rise": 1.5,
    }
    drifted = {**curve, "arrangement": "right", "exposure": 0.8, "thermal": 1.0}
    plain_drift = {**curve, "arrangement": "right"}
    flat_curve = {**curve, "rise": 0.4, "arrangement": "right"}
    tall_curve = {**curve, "rise": 6.0, "arrangement": "right"}

    def at(place: int) -> Callable[[Any], float]:
        return lambda values: float(values[place])

    return [
        _row("flat", ASCE7, "7.3", _R, actions.flat_roof_snow, flat, "21.0", "psf"),
        _row(
            "flat-windy",
            ASCE7,
            "7.3",
            _D,
            actions.flat_roof_snow,
            windy,
            "16.63",
            "psf",
            note="0.7·0.9·1.1·0.8·30",
        ),
        _row("flat-plain", ASCE7, "7.3", _R, actions.flat_roof_snow, {"ground": 30 * PSF}, "21.0", "psf"),
        _row("slope-plain", ASCE7, "figure 7.4-1", _M, slope, {"slope": 50 * DEG}, "0.50"),
        _row("slope-10", ASCE7, "figure 7.4-1", _M, slope, {"slope": 10 * DEG, "thermal": 1.0}, "1.00"),
        _row(
            "slope-40-edge", ASCE7, "figure 7.4-1", _M, slope, {"slope": 50 * DEG, "thermal": 1.01}, "0.615"
        ),
        _row(
            "slope-cold-edge", ASCE7, "figure 7.4-1", _M, slope, {"slope": 50 * DEG, "thermal": 1.11}, "0.80"
        ),
        _row("arch-plain", ASCE7, "figure 7.4-2", _M, arch, plain_drift, "2.00", pick=at(5)),
        _row("arch-lowest", ASCE7, "7.6.2", _M, arch, {**drifted, "rise": 0.5344}, "2.50", pick=at(5)),
        _row("arch-tallest", ASCE7, "7.6.2", _M, arch, {**drifted, "rise": 5.33}, "0.0", pick=at(5)),
        _row("slope-50", ASCE7, "figure 7.4-1", _M, slope, {"slope": 50 * DEG, "thermal": 1.0}, "0.50"),
        _row("slope-50-cool", ASCE7, "figure 7.4-1", _M, slope, {"slope": 50 * DEG, "thermal": 1.1}, "0.615"),
        _row("slope-50-cold", ASCE7, "figure 7.4-1", _M, slope, {"slope": 50 * DEG, "thermal": 1.2}, "0.80"),
        _row("slope-71", ASCE7, "figure 7.4-1", _M, slope, {"slope": 71 * DEG, "thermal": 1.0}, "0.0"),
        _row("arch-even", ASCE7, "7.4.3", _M, arch, {**curve, "arrangement": "even"}, "0.50", pick=at(6)),
        _row("arch-crown", ASCE7, "figure 7.4-2", _M, arch, drifted, "0.0", pick=at(3)),
        _row(
            "arch-near",
            ASCE7,
            "figure 7.4-2",
            _M,
            arch,
            drifted,
            "1.50",
            pick=at(4),
            note="half way from 0.5 to 2/0.8",
        ),
        _row("arch-peak", ASCE7, "figure 7.4-2", _M, arch, drifted, "2.50", pick=at(5), note="2/0.8"),
        _row("arch-eaves", ASCE7, "figure 7.4-2", _M, arch, drifted, "1.25", pick=at(6), note="2·0.5/0.8"),
        _row("arch-lee", ASCE7, "figure 7.4-2", _M, arch, drifted, "0.0", pick=at(1)),
        _row(
            "arch-left",
            ASCE7,
            "figure 7.4-2",
            _M,
            arch,
            {**drifted, "arrangement": "left"},
            "2.50",
            pick=at(1),
        ),
        _row("arch-flat", ASCE7, "7.6.2", _M, arch, flat_curve, "0.0", pick=at(5)),
        _row("arch-tall", ASCE7, "7.6.2", _M, arch, tall_curve, "0.0", pick=at(5)),
        _row(
            "drift",
            ASCE7,
            "figure 7.6-1",
            _D,
            actions.drift_height,
            {"ground": 30 * PSF, "length": 100 * FOOT},
            "3.519",
            "ft",
            note="0.43·100^(1/3)·40^(1/4) − 1.5",
        ),
        _row(
            "drift-short",
            ASCE7,
            "figure 7.6-1",
            _D,
            actions.drift_height,
            {"ground": 50 * PSF, "length": 3.0},
            "1.7485",
            "ft",
            note="0.43·20^(1/3)·60^(1/4) − 1.5",
        ),
        _row(
            "weight",
            ASCE7,
            "equation 7.7-1",
            _M,
            actions.drift_unit_weight,
            {"ground": 30 * PSF},
            "17.9",
            "pcf",
        ),
        _row(
            "weight-most",
            ASCE7,
            "equation 7.7-1",
            _M,
            actions.drift_unit_weight,
            {"ground": 200 * PSF},
            "30.0",
            "pcf",
        ),
    ]


def _patches() -> list[Row]:
    call, place = actions.pressure_under_patch, "Boussinesq under a rectangle"
    track = {"force": 30e3 * 0.45, "length": 1.5, "width": 0.3}
    rows = [
        _row(
            f"track-patch-{depth:g}",
            DAS,
            place,
            _D,
            call,
            {**track, "depth": depth},
            value,
            "kN/m2",
            note=APART,
        )
        for depth, value in ((0.3, "16.4"), (0.5, "10.4"), (1.0, "4.5"))
    ]
    person = {"force": 1e3, "length": 0.15, "width": 0.3, "depth": 0.3}
    square = {"force": 400e3, "length": 2.0, "width": 2.0, "depth": 2.0}
    return [
        *rows,
        _row("person-patch", DAS, place, _D, call, person, "4.23", "kN/m2", note=APART),
        _row("square-patch", DAS, place, _D, call, square, "33.6", "kN/m2", note=APART),
    ]


def _by_hand() -> list[Row]:
    """Each equation worked out by hand at a place of its own."""
    hand = "worked out by hand from the equation"
    slope, weight = actions.roof_slope_factor, actions.drift_unit_weight
    curve: dict[str, Any] = {
        "x": np.array([-2.0, -0.5, 0.0, 0.5, 2.0]),
        "slope": np.array([30.0, 8.0, 0.0, 8.0, 30.0]) * DEG,
        "rise": 0.8,
        "arrangement": "right",
        "exposure": 1.0,
    }
    low = {"rise": 1.92, "width": 6.0}
    place = "figure 7.4-1"
    return [
        _row("slope-hand", ASCE7, place, _D, slope, {"slope": 55 * DEG, "thermal": 1.0}, "0.375", note=hand),
        _row("weight-hand", ASCE7, "7.7", _D, weight, {"ground": 40 * PSF}, "19.2", "pcf", note=hand),
        _row(
            "arch-hand", ASCE7, "7.6.2", _D, actions.mu_arch_american, curve, "0.875",
            pick=lambda values: float(values[3]), note=hand,
        ),
        _row(
            "wind-hand", EN1991_1_4, "figure 7.11", _D, actions.wind_on_vault, low, "0.520",
            pick=_zone("windward"), note=hand,
        ),
        _row(
            "wind-hand", ASCE7, "figure 27.3-3", _D, actions.wind_on_arch_american, low, "0.448",
            pick=_zone("windward"), note=hand,
        ),
    ]  # fmt: skip


ROWS: tuple[Row, ...] = (*_wind(), *_snow(), *_patches(), *_by_hand())
