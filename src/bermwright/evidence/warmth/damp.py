"""Moist air, vapour through layers, mould and rot: tables of moist air, ISO 13788 and a published example.

The texts of ISO 13788 and of the papers on mould and decay were not open; their equations are worked here.
The tables of moist air were read, the package psychrolib gives the independent values.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.fabric import (
    ASHRAEHOF,
    DIN4108,
    HUKKA1999,
    HUSAGERD,
    ISO13788,
    PSYCHROLIB,
    SIMPSON1998,
    VIITANEN2010,
    WOODHANDBOOK,
)
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.damp import (
    MonthlyAir,
    air_permeability,
    air_thickness,
    class_excess,
    cut_layers,
    dew_point,
    drying_time,
    enthalpy,
    factor_with_film,
    humidity_ratio,
    indoor_pressure,
    least_surface,
    mould_begins,
    outer_film,
    rot_begins_after,
    rot_dose,
    saturation_pressure,
    saturation_pressure_fine,
    surface_factor,
    vapour_content,
    vapour_profile,
    wet_year,
    wood_moisture,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.base.sources import Work


def _yes(said: bool, number: float) -> float:  # noqa: FBT001  (picks a truth out of a result)
    """1 for yes, 0 for no; not a number where the result is none."""
    return float("nan") if np.isnan(number) else float(said)


def _cite(work: Work, place: str, provenance: Provenance = Provenance.DERIVED) -> Cite:
    return Cite(work=work, place=place, provenance=provenance)


def _row(
    name: str,
    cite: Cite,
    call: Callable[..., Any],
    expected: str,
    inputs: Mapping[str, Any],
    note: str = "",
    **more: Any,
) -> Row:
    kind = Kind.PUBLISHED if cite.provenance in {Provenance.READ, Provenance.MEMORY} else Kind.DERIVED
    if cite.work is PSYCHROLIB:
        kind = Kind.INDEPENDENT
    return Row(
        id=f"{cite.work.key}-{name}", cite=cite, kind=kind, call=call, inputs=inputs, expected=expected,
        note=note, **more,
    )  # fmt: skip


_TABLE_3 = _cite(ASHRAEHOF, "ch. 1, table 3: water at saturation", Provenance.READ)
_TABLE_2 = _cite(ASHRAEHOF, "ch. 1, table 2: moist air at 101 325 Pa", Provenance.READ)
_LIBRARY = _cite(PSYCHROLIB, "computed at 101 325 Pa")
_CURVE = _cite(ISO13788, "annex E, worked here")

_SATURATION = (
    *(
        _row(f"fine-{t:g}", _TABLE_3, saturation_pressure_fine, printed, {"temperature": t},
             "the table keeps the latest formulation; the equation stays within 3 in 10 000", rel=3e-4)
        for t, printed in ((-20.0, "103.24"), (-5.0, "401.74"), (5.0, "872.6"), (25.0, "3169.7"),
                           (50.0, "12351.3"))
    ),
    _row("fine--60", _TABLE_3, saturation_pressure_fine, "1.08", {"temperature": -60.0}),
    *(
        _row(f"hyland-{t:g}", _LIBRARY, saturation_pressure_fine, printed, {"temperature": t},
             "the library evaluates the same equations of 1983, over ice below 0.01 °C")
        for t, printed in ((-40.0, "12.85"), (-30.0, "38.02"), (-20.0, "103.26"), (-10.0, "259.90"),
                           (10.0, "1228.0"), (20.0, "2338.8"), (30.0, "4246.0"))
    ),
    *(
        _row(f"iso-{t:g}", _CURVE, saturation_pressure, printed, {"temperature": t},
             "610.5·exp(17.269·T/(237.3 + T)), over ice 610.5·exp(21.875·T/(265.5 + T))")
        for t, printed in ((-40.0, "12.60"), (-30.0, "37.62"), (-20.0, "102.74"), (-10.0, "259.33"),
                           (0.0, "610.50"), (10.0, "1227.3"), (20.0, "2336.95"), (30.0, "4240.5"))
    ),
    *(
        _row(f"dew-{name}", _LIBRARY, dew_point, printed, {"pressure": pressure},
             "another curve of saturation: 0.5 % of the pressure are 0.06 K", rel=8e-3)
        for name, printed, pressure in (
            ("20-50", "9.272", 1169.4), ("22-60", "13.886", 1586.9), ("-20-80", "-22.30", 82.61),
        )
    ),
    *(
        _row(f"dew-back-{t:g}", _CURVE, dew_point, printed, {"pressure": pressure},
             "the curve above, backwards")
        for t, printed, pressure in ((-20.0, "-20.000", 102.738), (-5.0, "-5.000", 401.175),
                                     (10.0, "10.000", 1227.306), (25.0, "25.000", 3165.99))
    ),
)  # fmt: skip

_AIR = (
    *(
        _row(f"ratio-{name}", _LIBRARY, humidity_ratio, printed, {"pressure": pressure},
             "0.621945·p/(101 325 − p) in the library")
        for name, printed, pressure in (
            ("20-50", "7.262e-3", 1169.4), ("22-60", "9.895e-3", 1586.85), ("-20-80", "0.5075e-3", 82.61),
        )
    ),
    *(
        _row(f"saturated-ratio-{t:g}", _TABLE_2, humidity_ratio, printed, {"pressure": pressure},
             "ideal gases; the table has real ones", rel=1e-2)
        for t, printed, pressure in ((-20.0, "0.0006373", 103.26), (5.0, "0.005425", 872.5),
                                     (25.0, "0.020173", 3169.2))
    ),
    _row("ratio-high", _cite(ASHRAEHOF, "0.621945·1000/(80 000 − 1000)"), humidity_ratio, "0.0078727",
         {"pressure": 1000.0, "air": 80_000.0}, "at 2000 m"),
    *(
        _row(f"enthalpy-{name}", _LIBRARY, enthalpy, printed, {"temperature": t, "ratio": w},
             "1.006·T + w·(2501 + 1.86·T) in the library", unit="kJ")
        for name, printed, t, w in (("20-50", "38.55", 20.0, 7.262e-3), ("20-40", "34.83", 20.0, 5.796e-3),
                                    ("22-60", "47.28", 22.0, 9.895e-3), ("-20-80", "-18.87", -20.0, 5.075e-4))
    ),
    *(
        _row(f"saturated-enthalpy-{t:g}", _TABLE_2, enthalpy, printed, {"temperature": t, "ratio": w},
             "ideal gases; the table has real ones", rel=1e-2)
        for t, printed, w in ((-20.0, "-18542", 0.0006373), (25.0, "76504", 0.020173))
    ),
    *(
        _row(f"content-{t:g}", _cite(ISO13788, "p/(461.5·T), saturated"), vapour_content, printed,
             {"pressure": pressure, "temperature": t}, "g/m3", pick=lambda r: float(r) * 1e3)
        for t, printed, pressure in ((-20.0, "0.879", 102.74), (0.0, "4.843", 610.5),
                                     (20.0, "17.274", 2336.95))
    ),
    _row("content-table--20", _cite(HUSAGERD, "0.886 g/m3 at −20 °C in a course's annex", Provenance.READ),
         vapour_content, "0.886", {"pressure": 103.5, "temperature": -20.0}, "103.5 Pa as printed there",
         pick=lambda r: float(r) * 1e3),
    _row("room", _cite(ISO13788, "300 + 1e-4·461.5·293.15/0.02"), indoor_pressure, "976.44",
         {"outdoor": 300.0, "production": 1e-4, "flow": 0.02, "temperature": 20.0}, "360 g/h in 72 m3/h"),
    _row("room-closed", _cite(ISO13788, "no air, no bound"), indoor_pressure, "1.0",
         {"outdoor": 300.0, "production": 1e-4, "flow": 0.0, "temperature": 20.0}, "1 where it is endless",
         pick=lambda r: _yes(bool(np.isinf(r)), float(r))),
    _row("room-empty", _cite(ISO13788, "no air and no vapour"), indoor_pressure, "300.00",
         {"outdoor": 300.0, "production": 0.0, "flow": 0.0, "temperature": 20.0}, "as outdoors"),
    *(
        _row(f"class-{t:g}", _cite(ISO13788, "annex A, class 2", Provenance.MEMORY), class_excess, printed,
             {"outdoor": t, "most": 4e-3}, "straight from 0 to 20 °C", pick=lambda r: float(r) * 1e3)
        for t, printed in ((-10.0, "4.000"), (0.0, "4.000"), (5.0, "3.000"), (15.0, "1.000"), (25.0, "0.000"))
    ),
    _row("class-derived", _cite(ISO13788, "4·(1 − 5/20)"), class_excess, "3.000",
         {"outdoor": 5.0, "most": 4e-3}, "g/m3", pick=lambda r: float(r) * 1e3),
)  # fmt: skip

_FACES = (
    _row("din-surface", _cite(DIN4108, "part 2: 12.6 °C at 20 °C and 50 %", Provenance.READ), least_surface,
         "12.6", {"pressure": 1168.5}),
    *(
        _row(f"surface-{name}", _cite(ISO13788, "dew point of p/0.8"), least_surface, printed,
             {"pressure": pressure}, "share of the saturation pressure at 20 °C")
        for name, printed, pressure in (("40", "9.27", 934.78), ("30", "5.07", 701.09),
                                        ("45", "11.03", 1051.63))
    ),
    _row("surface-dew", _cite(ISO13788, "dew point of p"), least_surface, "9.269",
         {"pressure": 1168.475, "humidity": 1.0}, "nothing allowed beyond dew"),
    *(
        _row(f"factor-{name}", _cite(ISO13788, "(T_si − T_e)/(T_i − T_e)"), surface_factor, printed,
             {"surface": surface, "inside": 20.0, "outside": outside},
             f"({surface:g} − ({outside:g}))/(20 − ({outside:g}))")
        for name, printed, surface, outside in (
            ("-5", "0.705", 12.62, -5.0), ("-20", "0.7317", 9.27, -20.0), ("-30", "0.7014", 5.07, -30.0),
        )
    ),
    _row("film-corner", _cite(ISO13788, "1 − 0.25/(0.13/0.15 + 0.12)"), factor_with_film, "0.7466",
         {"factor": 0.85, "film": 0.13, "wanted": 0.25}, "0.25/0.986667 = 0.253378"),
    _row("film-same", _cite(ISO13788, "the same film"), factor_with_film, "0.8500",
         {"factor": 0.85, "film": 0.13, "wanted": 0.13}, "nothing changes"),
    *(
        _row(f"mould-{t:g}", _cite(HUKKA1999, "critical humidity, worked here"), mould_begins, printed,
             {"temperature": t}, "1 − 0.0313·T + 0.0016·T² − 0.0000267·T³")
        for t, printed in ((-5.0, "1.0000"), (5.0, "0.8802"), (10.0, "0.8203"), (25.0, "0.8004"))
    ),
    *(
        _row(f"wood-{name}", _cite(SIMPSON1998, "examples at 70 °F", Provenance.READ), wood_moisture, printed,
             {"temperature": 21.111, "humidity": humidity}, "the page rounds the humidity to whole per cents",
             rel=0.015, unit="%")
        for name, humidity, printed in (("25", 0.25, "5.3"), ("60", 0.60, "11.1"), ("84", 0.84, "17.6"),
                                        ("87", 0.87, "19.0"))
    ),
    _row("wood-hot", _cite(SIMPSON1998, "140 °F, 0.55", Provenance.READ), wood_moisture, "8.4",
         {"temperature": 60.0, "humidity": 0.55}, unit="%"),
    *(
        _row(f"wood-{t:g}-{humidity:g}", _cite(WOODHANDBOOK, "table 4-2", Provenance.MEMORY), wood_moisture,
             printed, {"temperature": t, "humidity": humidity}, "the equation is a fit of it", rel=0.035,
             unit="%")
        for t, humidity, printed in (
            (21.1, 0.05, "1.3"), (21.1, 0.50, "9.2"), (21.1, 0.80, "16.0"), (21.1, 0.95, "23.9"),
            (-1.1, 0.30, "6.3"), (-1.1, 0.80, "16.5"), (37.8, 0.50, "8.7"),
        )
    ),
    *(
        _row(f"wood-exact-{t:g}-{humidity:g}", _cite(WOODHANDBOOK, "eq. 4-5 worked with other means"),
             wood_moisture, printed, {"temperature": t, "humidity": humidity}, "coefficients from memory",
             unit="%")
        for t, humidity, printed in (
            (-1.1, 0.8, "16.5345"), (-1.1, 0.3, "6.3093"), (60.0, 0.55, "8.3726"), (60.0, 0.9, "17.7034"),
            (35.0, 0.2, "4.2446"),
        )
    ),
    _row("wood-frozen", _cite(WOODHANDBOOK, "colder wood as at −1.1 °C"), wood_moisture, "16.53",
         {"temperature": -20.0, "humidity": 0.8}, "eq. 4-5 worked by hand at −1.1 °C", unit="%"),
    *(
        _row(f"rot-{t:g}-{humidity:g}", _cite(VIITANEN2010, "critical time, worked here"), rot_begins_after,
             printed, {"temperature": t, "humidity": humidity}, note, unit="d")
        for t, humidity, printed, note in (
            (20.0, 0.98, "17.925", "30·(46 + 3.43 − 47.04)/(−42.9 + 2.8 + 44.1) = 30·2.39/4"),
            (20.0, 0.96, "31.742", "30·(46 + 3.36 − 46.08)/(−42.9 + 2.8 + 43.2) = 30·3.28/3.1"),
            (10.0, 1.0, "21.43", "30·(23 + 3.5 − 24)/(−42.9 + 1.4 + 45) = 30·2.5/3.5"),
        )
    ),
    *(
        _row(f"rot-never-{name}", _cite(VIITANEN2010, "no decay under 0.95 or 0 °C"), rot_begins_after, "1",
             {"temperature": t, "humidity": humidity}, "1 where it is endless",
             pick=lambda r: _yes(bool(np.isinf(r)), float(r)))
        for name, t, humidity in (("dry", 20.0, 0.945), ("cold", -1.0, 1.0), ("slow", 2.0, 0.945))
    ),
    _row("rot-dose", _cite(VIITANEN2010, "30/21.4286 + 0"), rot_dose, "1.400",
         {"temperature": (10.0, 10.0), "humidity": (1.0, 0.8), "duration": (2_592_000.0, 2_592_000.0)},
         "thirty wet days and thirty dry ones"),
)  # fmt: skip

_GLASER = _cite(
    HUSAGERD, "ch. 3, example and its table: outer insulation inside of concrete", Provenance.READ
)
_GLASER_INPUT = {
    "air_layers": (0.008, 2.0, 2.5, 2.0, 0.48506, 1.0, 0.3, 0.0019342),
    "temperatures": (22.0, 20.98543, 20.98543, 20.82284, -0.85593, -1.57633, -1.68783, -1.68783, -2.0),
    "inside": 1189.5,
    "outside": 414.6,
}
_STRAW = {
    "air_layers": (0.15, 0.72, 3.6),
    "temperatures": (19.46229, 19.37367, -9.26160, -9.83456),
    "inside": 1168.475,
    "outside": 207.464,
}
_STRAW_NOTE = (
    "clay plaster 15 mm, straw 360 mm, OSB 18 mm; 20 °C 50 % against −10 °C 80 %: "
    "2e-10·(1168.5 − 276.9)/0.87 − 2e-10·(276.9 − 207.5)/3.6"
)
_THROUGH = _cite(ISO13788, "straight lines through layers, worked here")

_LAYERS = (
    _row("sd", _cite(ISO13788, "μ·d"), air_thickness, "20.0", {"thickness": 0.2, "factor": 100.0}, "100·0.2"),
    _row("sd-glass", _cite(ISO13788, "never over 100 000 m"), air_thickness, "100000",
         {"thickness": 0.1, "factor": float("inf")}, "no vapour goes through"),
    _row("film-wind", _cite(HUSAGERD, "ch. 3, table 3.3: wind of 5 m/s", Provenance.READ), outer_film,
         "0.0019342", {"wind": 5.0}),
    *(
        _row(f"air-{t:g}", _cite(HUSAGERD, "ch. 3, after DIN 52615; worked here"), air_permeability, printed,
             {"temperature": t}, "2.0e-7·T^0.81/101325")
        for t, printed in ((0.0, "1.857e-10"), (20.0, "1.966e-10"))
    ),
    *(
        _row(f"glaser-psat-{face}", _GLASER, vapour_profile, printed, _GLASER_INPUT,
             "the page rounds its temperatures to tenths", rel=8e-3,
             pick=lambda r, face=face: float(r.saturation[face]))
        for face, printed in ((3, "2460"), (4, "571"), (5, "537"), (6, "532"))
    ),
    *(
        _row(f"glaser-p-{face}", _GLASER, vapour_profile, printed, _GLASER_INPUT,
             "the page lets vapour through as if none were shed; up to the wet face it differs", rel=0.03,
             pick=lambda r, face=face: float(r.pressure[face]))
        for face, printed in ((1, "1188.7"), (6, "442.3"), (7, "414.8"))
    ),
    _row("glaser-g", _GLASER, vapour_profile, "6.977e-6", _GLASER_INPUT,
         "kg/m2h; the page rounds its saturation pressure, which counts here", rel=0.15,
         pick=lambda r: float(r.rate[4]) * 3600.0),
    _row("straw-in", _THROUGH, vapour_profile, "2.0111e-7", _STRAW, _STRAW_NOTE,
         pick=lambda r: float(r.rate[2])),
    _row("straw-p", _THROUGH, vapour_profile, "1014.8", _STRAW, "1168.5 − (1168.5 − 276.9)·0.15/0.87",
         pick=lambda r: float(r.pressure[1])),
    _row("dries-both-ways", _THROUGH, vapour_profile, "-7.0168e-7",
         {"air_layers": (1.0, 1.0), "temperatures": (20.0, 20.0, 20.0), "inside": 582.76, "outside": 582.76,
          "wet": (1,)},
         "a wet face of 20 °C between airs of 582.76 Pa: −2·2e-10·(2336.95 − 582.76)",
         pick=lambda r: float(r.rate[1])),
    _row("past-the-wet", _THROUGH, vapour_profile, "1368.5",
         {"air_layers": (1.0, 1.0, 1.0), "temperatures": (20.0, 20.0, 15.0, 10.0), "inside": 2000.0,
          "outside": 400.0, "wet": (1,)},
         "straight from the wet face at 2336.95 Pa to 400 Pa, under the 1704 Pa that 15 °C hold",
         pick=lambda r: float(r.pressure[2])),
    _row("second-wet", _THROUGH, vapour_profile, "1227.3",
         {"air_layers": (1.0, 1.0, 1.0), "temperatures": (20.0, 20.0, 10.0, 5.0), "inside": 2000.0,
          "outside": 400.0, "wet": (1,)},
         "the straight line would need 1368 Pa where 10 °C hold 1227.3: a second face is wet",
         pick=lambda r: float(r.pressure[2])),
    _row("dry-stays", _THROUGH, vapour_profile, "0.0",
         {"air_layers": (1.0, 1.0), "temperatures": (20.0, 20.0, 20.0), "inside": 1200.0, "outside": 400.0},
         "nothing gathers under saturation", pick=lambda r: float(r.rate[1])),
    _row("dry-middle", _THROUGH, vapour_profile, "1000.0",
         {"air_layers": (1.0, 3.0), "temperatures": (20.0, 20.0, 20.0), "inside": 1200.0, "outside": 400.0},
         "1200 − 800/4", pick=lambda r: float(r.pressure[1])),
    _row("cut", _cite(ISO13788, "⌈7.5/0.25⌉ = 30 slices"), cut_layers, "30",
         {"resistances": (7.5,), "air_layers": (0.9,)}, "wood fibre of 0.3 m",
         pick=lambda r: float(r[0].size)),
    _row("cut-heat", _cite(ISO13788, "four slices of 1/4"), cut_layers, "0.250",
         {"resistances": (1.0, 0.0), "air_layers": (2.0, 1.0)}, "1/0.25 = 4",
         pick=lambda r: float(r[0][0])),
    _row("cut-air", _cite(ISO13788, "2/5"), cut_layers, "0.400",
         {"resistances": (1.01,), "air_layers": (2.0,)}, "five slices", pick=lambda r: float(r[1][0])),
    _row("drying", _cite(ISO13788, "0.5/1e-7"), drying_time, "57.870",
         {"amount": 0.5, "rate": 1e-7}, "5e6 s", unit="d"),
    _row("drying-dry", _cite(ISO13788, "nothing to dry"), drying_time, "0.0",
         {"amount": 0.0, "rate": 1e-7}, "no time"),
)  # fmt: skip

_OUT = (-13.5, -12.7, -7.5, -1.3, 5.3, 11.6, 14.7, 12.4, 6.9, 0.5, -5.4, -10.5)
_DAMP = (0.86, 0.85, 0.81, 0.73, 0.66, 0.66, 0.72, 0.79, 0.84, 0.88, 0.91, 0.89)
_INSIDE = (0.301, 0.306, 0.344, 0.403, 0.422, 0.483, 0.576, 0.575, 0.509, 0.464, 0.383, 0.326)
"""Humidity of the room, by class 2, to a thousandth."""


def _year() -> MonthlyAir:
    """Monthly air of the roof without vapour control: outdoors of the far north, 20 °C inside."""
    outside = np.array(_OUT)
    pressure = np.array(_DAMP) * saturation_pressure(outside)
    excess = class_excess(outside, most=4e-3) * 461.5 * 293.15
    return MonthlyAir(
        inside=np.full(12, 20.0),
        outside=outside,
        pressure_inside=pressure + excess,
        pressure_outside=pressure,
    )


_ROOF = {
    "resistances": (0.13, 0.025 / 0.13, 0.30 / 0.04, 0.018 / 0.13, 0.0, 0.04),
    "air_layers": (1.25, 0.9, 0.9, 60.0),
    "air": _year(),
}
_MONTHLY = _cite(ISO13788, "month by month; two programs written apart agree")
_MONTH_NOTE = "roof of timber, wood fibre, OSB and rubber without vapour control, kg/m2, face under the OSB"
_PLANE = (
    (0, "0.0332"), (1, "0.0981"), (2, "0.1088"), (3, "0.1170"), (4, "0.1187"), (6, "0.1069"), (7, "0.0796"),
    (8, "0.0091"), (9, "-0.0688"), (10, "-0.0900"), (11, "-0.0355"),
)  # fmt: skip

_YEARS = (
    *(
        _row(f"year-{count}", _MONTHLY, wet_year, printed, _ROOF, _MONTH_NOTE,
             pick=lambda r, count=count: float(r.gathered[count, 2]))
        for count, printed in _PLANE
    ),
    _row("year-peak", _MONTHLY, wet_year, "0.7773", _ROOF, "their February has 28 days, here 28.25", rel=2e-3,
         pick=lambda r: r.peak),
    _row("year-second-face", _MONTHLY, wet_year, "0.0760", _ROOF, "between OSB and rubber",
         pick=lambda r: float(r.lying[-1, 3])),
    _row("year-left", _MONTHLY, wet_year, "0.6589", _ROOF, "their February has 28 days, here 28.25", rel=2e-3,
         pick=lambda r: r.left),
    _row("year-start", _MONTHLY, wet_year, "8", _ROOF, "September", pick=lambda r: float(r.start)),
)  # fmt: skip

_EVEN = np.full(12, 20.0)
"""Every month and every face of 20 °C, where air holds 2336.95 Pa."""


def _wet_january(inside: float, outside: float) -> MonthlyAir:
    """A January that wets from both sides, then eleven months 1000 Pa below saturation."""
    dry = np.full(12, 1336.9475)
    january = np.arange(12) == 0
    return MonthlyAir(
        inside=_EVEN,
        outside=_EVEN,
        pressure_inside=np.where(january, inside, dry),
        pressure_outside=np.where(january, outside, dry),
    )


_TWO_FACES = {
    "resistances": (0.1, 1.0, 1.0, 1.0, 0.1),
    "air_layers": (1.0, 1.0, 1.0),
    "air": _wet_january(4336.9475, 3336.9475),
}
_STEADY = _cite(ISO13788, "even temperature: rates of 2e-10·Δp/s_d, worked here")
_FACES_NOTE = (
    "gathers 2e-10·2000 and 2e-10·1000 for 31 d; dries at 2e-7 a face; once the second is dry, "
    "the first dries at 2e-10·(1000 + 500)"
)

_DRYING = (
    _row("january-first", _STEADY, wet_year, "1.07136", _TWO_FACES, _FACES_NOTE,
         pick=lambda r: float(r.lying[0, 1])),
    _row("january-second", _STEADY, wet_year, "0.53568", _TWO_FACES, _FACES_NOTE,
         pick=lambda r: float(r.lying[0, 2])),
    _row("february-first", _STEADY, wet_year, "-0.48816", _TWO_FACES, _FACES_NOTE,
         pick=lambda r: float(r.gathered[1, 1])),
    _row("march-all", _STEADY, wet_year, "0.00000", _TWO_FACES, _FACES_NOTE,
         pick=lambda r: float(r.lying[2].sum())),
    _row("dries", _STEADY, wet_year, "1", _TWO_FACES, "1 for yes", pick=lambda r: _yes(r.dries, r.peak)),
    _row("does-not-build-up", _STEADY, wet_year, "0", _TWO_FACES, "0 for no",
         pick=lambda r: _yes(r.builds_up, r.peak)),
    _row("builds-up", _MONTHLY, wet_year, "1", _ROOF, "1 for yes: more is left every year",
         pick=lambda r: _yes(r.builds_up, r.peak)),
)  # fmt: skip

ROWS = (*_SATURATION, *_AIR, *_FACES, *_LAYERS, *_YEARS, *_DRYING)
