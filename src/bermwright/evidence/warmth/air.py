"""Air in houses and in tubes: friction, heat, stack, leakage, carbon dioxide and the air of a stove.

The package fluids gives the independent friction factors; the lecture notes and the American table were read.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.fabric import (
    ASHRAE622,
    CARSLAW1959,
    COLEBROOK1939,
    EN16798,
    FLUIDSLIB,
    GNIELINSKI1976,
    HUSAGERD,
    INCROPERA,
    ISO13788,
    PSYCHROLIB,
    STOICHIOMETRY,
    SWST1719,
    USATM1976,
)
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.air import (
    air_conductivity,
    air_density,
    air_for,
    air_viscosity,
    air_warmed,
    carbon_dioxide,
    film_in_pipe,
    friction_factor,
    frozen_length,
    ground_resistance,
    leakage_area,
    leakage_flow,
    opening_flow,
    openings_in_row,
    pipe_pressure,
    pressure_at,
    reynolds,
    stack_pressure,
    stove_air,
    tube_air,
    tube_water,
    underpressure,
    warming_power,
    whole_house_rate,
    wood_air,
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
    if cite.work in {PSYCHROLIB, FLUIDSLIB}:
        kind = Kind.INDEPENDENT
    return Row(
        id=f"{cite.work.key}-{name}", cite=cite, kind=kind, call=call, inputs=inputs, expected=expected,
        note=note, **more,
    )  # fmt: skip


_COURSE = "lecture notes"
_STREAM = 100.0 / 3600.0
"""100 m3 an hour."""

_PROPERTIES = (
    *(
        _row(f"pressure-{z:g}", _cite(PSYCHROLIB, "standard atmosphere"), pressure_at, printed, {"height": z},
             "two sets of constants differ by 1 Pa", rel=2e-5)
        for z, printed in ((0.0, "101325"), (500.0, "95461"), (1000.0, "89875"), (1500.0, "84556"),
                           (2000.0, "79495"), (3000.0, "70108"))
    ),
    _row("density-20", _cite(USATM1976, "101 325/(287.05·293.15)"), air_density, "1.2041",
         {"temperature": 20.0}, "101325/84148.7"),
    _row("density-high", _cite(FLUIDSLIB, "standard atmosphere at 1000 m: 89 876.3 Pa, 8.501 °C"),
         air_density, "1.11166", {"temperature": 8.501, "pressure": 89_876.3},
         "two gas constants differ in the fifth digit", rel=5e-5),
    *(
        _row(f"viscosity-{t:g}", _cite(USATM1976, "Sutherland, worked here"), air_viscosity, printed,
             {"temperature": t}, "1.458e-6·K^1.5/(K + 110.4)")
        for t, printed in ((15.0, "1.7894e-5"), (100.0, "2.1734e-5"))
    ),
    *(
        _row(f"conductivity-{t:g}", _cite(USATM1976, "worked here"), air_conductivity, printed,
             {"temperature": t}, "2.64638e-3·K^1.5/(K + 245.4·10^(−12/K))")
        for t, printed in ((15.0, "2.5326e-2"), (100.0, "3.1738e-2"))
    ),
)  # fmt: skip

_PIPES = (
    *(
        _row(f"friction-{re:g}-{rough:g}", _cite(FLUIDSLIB, "friction_factor, Colebrook solved"),
             friction_factor, printed, {"number": re, "roughness": rough},
             "the library solves 1/√f = −2·lg(ε/3.7 + 2.51/(Re·√f)) for f")
        for re, rough, printed in (
            (1e4, 0.0, "0.030883"), (1e5, 0.0, "0.017990"), (1e5, 1e-4, "0.018514"), (1e5, 0.01, "0.038504"),
            (1e6, 1e-3, "0.019943"),
        )
    ),
    _row("friction-manual", _cite(FLUIDSLIB, "documentation: Re 1e5, 1e-4", Provenance.READ), friction_factor,
         "0.018513866", {"number": 1e5, "roughness": 1e-4}, "seven digits are printed; six are asked",
         rel=1e-6),
    _row("friction-layers", _cite(COLEBROOK1939, "64/1000"), friction_factor, "0.0640",
         {"number": 1000.0, "roughness": 0.0}, "laminar"),
    _row("friction-between", _cite(COLEBROOK1939, "half of that at 2040, half at 3000"), friction_factor,
         "0.037446", {"number": 2520.0, "roughness": 0.0}, "0.5·(64/2040 + 0.0435192), that of fluids"),
    _row("reynolds", _cite(INCROPERA, "100 m3/h in 0.2 m at −8 °C"), reynolds, "14045",
         {"flow": _STREAM, "diameter": 0.2, "temperature": -8.0}, "4·V·ρ/(π·D·μ) = 0.1769·1.3313/1.676e-5"),
    _row("film", _cite(GNIELINSKI1976, "same stream, worked here"), film_in_pipe, "4.572",
         {"flow": _STREAM, "diameter": 0.2, "temperature": -8.0},
         "f 0.02827, Nu 38.9 with Pr 0.7176, k 0.023497"),
    _row("film-layers", _cite(INCROPERA, "3.66·k/D"), film_in_pipe, "0.8600",
         {"flow": 1e-3, "diameter": 0.1, "temperature": -8.0}, "3.66·0.0234973/0.1, Re 1011"),
    _row("film-between", _cite(GNIELINSKI1976, "half of 3.66 and half of Nu at 3000"), film_in_pipe, "1.5567",
         {"flow": 2520.0 * 3.1415926536 * 0.1 * 1.676205e-5 / (4.0 * 1.331274), "diameter": 0.1,
          "temperature": -8.0}, "Nu(3000) = 9.5898 by f = 0.0435192, Pr = 0.71764"),
    _row("pressure", _cite(INCROPERA, "ch. 8, smooth tube"), pipe_pressure, "2.21",
         {"flow": _STREAM, "diameter": 0.2, "length": 30.0, "temperature": -8.0, "roughness": 0.0,
          "losses": 0.0}, "0.02827·150·1.3313·0.8842²/2"),
    _row("pressure-rough", _cite(INCROPERA, "f of fluids at Re 14 045 and 0.005"), pipe_pressure, "4.3627",
         {"flow": _STREAM, "diameter": 0.2, "length": 30.0, "temperature": -8.0, "roughness": 1e-3,
          "losses": 3.0}, "(0.0358898·150 + 3)·0.520394"),
)  # fmt: skip

_CORRUGATED = (
    _row("pressure-corrugated", _cite(INCROPERA, "f of fluids, Re 28 090 and 0.05"), pipe_pressure,
         "60.253", {"flow": _STREAM, "diameter": 0.1, "length": 10.0, "temperature": -8.0, "roughness": 0.01,
                  "losses": 0.0}, "0.072365·100·1.33127·3.53678²/2"),
)  # fmt: skip

_TUBE = {"flow": _STREAM, "inlet": -20.0, "ground": 4.0, "diameter": 0.2, "length": 30.0, "resistance": 0.0}
_TUBE_CITE = _cite(INCROPERA, "ch. 8, wall of even temperature, worked apart at −8 °C")
_TUBES = (
    _row("tube-units", _TUBE_CITE, tube_air, "2.318", _TUBE, "h 4.575, c 1006", rel=2e-3,
         pick=lambda r: float(r.units)),
    _row("tube-outlet", _TUBE_CITE, tube_air, "1.64", _TUBE, "4 − 24·e^(−2.318)", rel=1e-2,
         pick=lambda r: float(r.outlet)),
    _row("tube-effectiveness", _TUBE_CITE, tube_air, "0.9015", _TUBE, "1 − e^(−2.318)", rel=5e-4,
         pick=lambda r: float(r.effectiveness)),
    _row("tube-heat", _TUBE_CITE, tube_air, "804.9", _TUBE, "m·c·21.64", rel=1e-3,
         pick=lambda r: float(r.heat)),
    _row("tube-ground", _TUBE_CITE, tube_air, "1.4984", {**_TUBE, "resistance": 0.1901},
         "film 0.348 and ground 0.190 m K/W in a row: 2.3167·0.348/0.538", pick=lambda r: float(r.units)),
    _row("tube-share", _TUBE_CITE, tube_air, "0.6468", {**_TUBE, "resistance": 0.1901}, "0.3481/0.5382",
         pick=lambda r: float(r.film_share)),
    _row("tube-wall", _TUBE_CITE, tube_air, "-4.48", {**_TUBE, "resistance": 0.1901}, "−20 + 24·0.6468",
         pick=lambda r: float(r.wall_start)),
    *(
        _row(f"ground-{days:g}", _cite(CARSLAW1959, "line source with its image; E1 of tables"),
             ground_resistance, printed,
             {"radius": 0.1, "depth": 2.0, "time": days * 86_400.0, "conductivity": 1.5, "capacity": 2e6},
             note)
        for days, printed, note in (
            (1.0, "0.14409", "[E1(0.038580) − E1(61.7)]/(6π): E1(0.038580) = 2.71600"),
            (365.0, "0.38280", "[E1(1.0570e-4) − E1(0.169119)]/(6π) = (8.57775 − 1.36228)/(6π)"),
        )
    ),
    _row("ground-steady", _cite(INCROPERA, "acosh(z/R)/(2πλ) after a very long time"), ground_resistance,
         "0.39140", {"radius": 0.1, "depth": 2.0, "time": 1e12, "conductivity": 1.5, "capacity": 2e6},
         "ln(2·z/R)/(2πλ) = 3.68888/9.42478; the exact shape factor gives 0.39133"),
    _row("frozen", _cite(INCROPERA, "(30/2.3)·ln(10/4)"), frozen_length, "11.952",
         {"length": 30.0, "units": 2.3, "start": -6.0, "ground": 4.0}, "13.0435·0.916291"),
    _row("frozen-none", _cite(INCROPERA, "wall above zero"), frozen_length, "0.000",
         {"length": 30.0, "units": 2.3, "start": 1.0, "ground": 4.0}, "no ice"),
    _row("frozen-all", _cite(INCROPERA, "frozen ground"), frozen_length, "30.000",
         {"length": 30.0, "units": 2.3, "start": -6.0, "ground": -1.0}, "the whole tube"),
    _row("frozen-end", _cite(INCROPERA, "no longer than the tube"), frozen_length, "5.000",
         {"length": 5.0, "units": 0.2, "start": -20.0, "ground": 4.0}, "the whole tube"),
    _row("water", _cite(ISO13788, "air of 25 °C and 60 % cooled to 12 °C"), tube_water, "378.3",
         {"flow": _STREAM, "pressure": 1899.6, "outlet": 12.0},
         "g/h: 100·(14.435 − 10.652), the contents at 12 °C",
         pick=lambda r: float(r) * 3.6e6),
    _row("water-none", _cite(ISO13788, "air drier than saturation"), tube_water, "0.0",
         {"flow": _STREAM, "pressure": 800.0, "outlet": 12.0}, "nothing is shed"),
)  # fmt: skip

_STACK = _cite(USATM1976, "g·H·(ρ_out − ρ_in), ideal gas of 287.05")
_HOUSE = (
    *(
        _row(f"stack-{height:g}-{inside:g}", _STACK, stack_pressure, printed,
             {"height": height, "inside": inside, "outside": outside}, "worked with g = 9.81", rel=4e-4)
        for height, inside, outside, printed in (
            (3.0, 20.0, -20.0, "5.599"), (4.0, 20.0, -30.0, "9.716"), (2.5, 20.0, 0.0, "2.162"),
            (5.0, 150.0, -10.0, "24.878"),
        )
    ),
    _row("stack-summer", _STACK, stack_pressure, "-1.184", {"height": 3.0, "inside": 18.0, "outside": 28.0},
         "a cool house: air falls; 9.80665·3·(1.172134 − 1.212396)"),
    _row("stack-course", _cite(HUSAGERD, "ch. 4, example: 1.5 m, 22 and −2 °C", Provenance.READ),
         stack_pressure, "1.5", {"height": 1.5, "inside": 22.0, "outside": -2.0},
         "printed −1.5 with density 1.25", rel=0.05),
    _row("opening", _cite(HUSAGERD, "0.6·0.01·√(2·4/1.2)"), opening_flow, "0.015492",
         {"area": 0.01, "pressure": 4.0}, "0.006·2.58199"),
    _row("opening-back", _cite(HUSAGERD, "0.8·0.01·√(2·4/1.2), the other way"), opening_flow, "-0.020656",
         {"area": 0.01, "pressure": -4.0, "discharge": 0.8}, "the sign of the pressure"),
    _row("in-row", _cite(HUSAGERD, "3 and 4 in a row"), openings_in_row, "0.024",
         {"first": 0.03, "second": 0.04}, "12/5"),
    _row("leak", _cite(HUSAGERD, "0.6·80·(4/50)^0.65"), leakage_flow, "9.295",
         {"changes": 0.6 / 3600.0, "volume": 80.0, "pressure": 4.0}, "48·0.193649 m3/h",
         pick=lambda r: float(r) * 3600.0),
    _row("leak-area", _cite(HUSAGERD, "9.295/3600/√(8/1.2)"), leakage_area, "10.000",
         {"changes": 0.6 / 3600.0, "volume": 80.0}, "cm2", pick=lambda r: float(r) * 1e4),
    _row("leak-area-ten", _cite(HUSAGERD, "(10/50)^0.6·48/3600/√(20/1.2)"), leakage_area, "12.43",
         {"changes": 0.6 / 3600.0, "volume": 80.0, "pressure": 10.0, "exponent": 0.6}, "cm2",
         pick=lambda r: float(r) * 1e4),
    _row("under", _cite(HUSAGERD, "the leak above, backwards"), underpressure, "4.000",
         {"extracted": 9.2951 / 3600.0, "changes": 0.6 / 3600.0, "volume": 80.0}, "as put in"),
    _row("under-other", _cite(HUSAGERD, "50·0.25^(1/0.5)"), underpressure, "3.125",
         {"extracted": 0.25, "changes": 0.01, "volume": 100.0, "exponent": 0.5}, "50/16"),
    *(
        _row(f"carbon-{name}", _cite(EN16798, "420 + G/V; 18 or 13.6 l/h a person"), carbon_dioxide, printed,
             {"produced": made / 3.6e6, "flow": flow / 3600.0}, note, pick=lambda r: float(r) * 1e6)
        for name, made, flow, printed, note in (
            ("two-30", 36.0, 30.0, "1620", "420 + 1200 ppm"), ("two-60", 36.0, 60.0, "1020", "420 + 600 ppm"),
            ("two-asleep", 27.2, 30.0, "1327", "420 + 907 ppm"),
        )
    ),
    _row("carbon-closed", _cite(EN16798, "no air, no bound"), carbon_dioxide, "1",
         {"produced": 1e-5, "flow": 0.0}, "1 where it is endless",
         pick=lambda r: _yes(bool(np.isinf(r)), float(r))),
    _row("carbon-empty", _cite(EN16798, "nobody, no air"), carbon_dioxide, "420",
         {"produced": 0.0, "flow": 0.0}, "as outdoors", pick=lambda r: float(r) * 1e6),
    *(
        _row(f"air-for-{allowed:g}", _cite(EN16798, "18 l/h over the difference"), air_for, printed,
             {"produced": 18.0 / 3.6e6, "allowed": allowed * 1e-6}, "m3/h", pick=lambda r: float(r) * 3600.0)
        for allowed, printed in ((1000.0, "31.0"), (800.0, "47.4"))
    ),
    *(
        _row(f"rate-{area:g}", _cite(ASHRAE622, "0.15·A + 3.5·(N + 1)", Provenance.READ), whole_house_rate,
             printed, {"area": area, "bedrooms": rooms}, "l/s", pick=lambda r: float(r) * 1e3)
        for area, rooms, printed in ((30.0, 1.0, "11.5"), (50.0, 1.0, "14.5"), (80.0, 2.0, "22.5"),
                                     (100.0, 3.0, "29.0"))
    ),
    _row("wood-air", _cite(STOICHIOMETRY, "(2.66406·0.50 + 7.93601·0.06 − 0.43)/0.2314"), wood_air, "5.956",
         {}, "1.37819/0.2314"),
    _row("wood-air-other", _cite(STOICHIOMETRY, "(2.66406·0.45 + 7.93601·0.07 − 0.40)/0.2314"), wood_air,
         "5.853", {"carbon": 0.45, "hydrogen": 0.07, "oxygen": 0.40}, "1.354348/0.2314"),
    _row("wood-air-published", _cite(SWST1719, "6 g of air for a gram of wood", Provenance.READ), wood_air,
         "6", {}, "a round figure", rel=0.03),
    _row("stove", _cite(STOICHIOMETRY, "2 kg/h, twice the air"), stove_air, "19.785",
         {"burned": 2.0 / 3600.0, "excess": 2.0}, "4·5.956/1.2041 m3/h", pick=lambda r: float(r) * 3600.0),
    _row("stove-cold", _cite(STOICHIOMETRY, "2 kg/h, twice the air, at 0 °C"), stove_air, "18.435",
         {"burned": 2.0 / 3600.0, "excess": 2.0, "temperature": 0.0}, "4·5.956/1.2923 m3/h",
         pick=lambda r: float(r) * 3600.0),
    _row("warmed", _cite(INCROPERA, "400 W into 60 m3/h from −10 °C"), air_warmed, "9.8127",
         {"power": 400.0, "flow": 60.0 / 3600.0, "outside": -10.0}, "−10 + 400/(1.204118·1006/60)"),
    _row("warming", _cite(INCROPERA, "19.8 m3/h from −20 to 20 °C"), warming_power, "266.50",
         {"flow": 19.8 / 3600.0, "outside": -20.0, "inside": 20.0}, "1.204·1006·0.0055·40"),
)  # fmt: skip

ROWS = (*_PROPERTIES, *_PIPES, *_CORRUGATED, *_TUBES, *_HOUSE)
