"""Where equations change over or are cut: one value beyond each edge, by the other branch's closed form."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.catalogue import all_works
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import (
    bearing,
    carpentry,
    damp,
    developing,
    earthmoving,
    fitting,
    holding,
    retaining,
    setout,
    soils,
    sun,
)

if TYPE_CHECKING:
    from collections.abc import Callable


def _row(
    name: str,
    work: str,
    call: Callable[..., Any],
    inputs: dict[str, Any],
    expected: str,
    note: str,
    **more: Any,
) -> Row:
    return Row(
        id=f"EDGES-{name}",
        cite=Cite(work=all_works()[work], place="just beyond an edge", provenance=Provenance.DERIVED),
        kind=Kind.DERIVED,
        call=call,
        inputs=inputs,
        expected=expected,
        note=note,
        **more,
    )


_UPRIGHTS = {"curve_x": [-2.0, -2.0, 2.0, 2.0], "curve_z": [1.0, 2.0, 2.0, 1.0]}
_GROUND = (
    _row(
        "deep-water",
        "MEYERHOF1963",
        bearing.weight_with_water,
        {"weight": 18e3, "saturated": 20e3, "water": 3.0, "width": 2.0},
        "18000",
        "water deeper than the base is wide: the moist weight",
    ),
    _row(
        "over-reinforced",
        "EN1992",
        holding.reinforced_moment,
        {"area": 2.525e-3, "steel": 400e6, "depth": 0.2, "thickness": 0.25, "concrete": 10e6},
        "0.0",
        "a strip of 1.01e6/10e6 m is more than half of 0.2 m",
        pick=float,
    ),
    _row(
        "one-bar",
        "EN1992",
        holding.bar_area,
        {"diameter": 0.012},
        "113.10",
        "π·12²/4; one bar where no number is given",
        pick=lambda area: 1e6 * float(area),
    ),
)
_CRAFT = (
    _row(
        "long-floor",
        "UKNA1995",
        carpentry.foot_deflection_limit,
        {"span": 4.03},
        "1.785",
        "16500/4030^1.1",
        pick=lambda limit: 1000.0 * float(limit),
    ),
    _row(
        "one-strip",
        "MAKINGFORMS",
        developing.strips_needed,
        {"width": 1.2, "roll": 1.5, "lap": 0.15},
        "1.000",
        "narrower than the roll",
    ),
    _row(
        "far-below-a-foot",
        "ARCHESBYARCS",
        fitting.distance_to_curve,
        {"x": 2.0, "z": -0.5} | _UPRIGHTS,
        "0.500",
        "the upright side runs on by a quarter of the four metres between the feet",
        pick=lambda apart: abs(float(apart)),
    ),
)
_FIVE = {
    "x": np.array([0.0, 10.0, 0.0, 10.0, 5.0]),
    "y": np.array([0.0, 0.0, 10.0, 10.0, 4.0]),
    "z": np.array([0.0, 0.0, 0.0, 0.0, 1.0]),
}
_SURVEY = (
    _row(
        "five-heights",
        "ROUSSEEUW1987",
        setout.odd_heights,
        _FIVE,
        "0.0",
        "with fewer than six points nothing is called odd",
        pick=lambda odd: float(odd.sum()),
    ),
)
_AIR = (
    _row(
        "cold-wood",
        "WOODHANDBOOK",
        damp.wood_moisture,
        {"temperature": -5.0, "humidity": 0.6},
        "0.1133010",
        "equation 4-5 at -1.1 °C",
    ),
    _row(
        "thin-layer",
        "ISO13788",
        damp.cut_layers,
        {"resistances": np.array([0.0, 0.3]), "air_layers": np.array([1.0, 1.0])},
        "3.000",
        "one slice and two",
        pick=lambda cut: float(len(cut[0])),
    ),
    _row(
        "bright-overcast",
        "ERBS1982",
        sun.erbs_fraction,
        {"clearness": 0.222},
        "0.97968",
        "the fourth-order branch; 1 - 0.09·0.222 is 0.98002",
    ),
    *(
        _row(
            f"bird-{zenith:.0f}-{part}",
            "BIRD1981",
            sun.clear_sky,
            {"zenith": math.radians(zenith), "normal": 1367.0, "pressure": 95_000.0, "ozone": 0.006}
            | {"water": water},
            expected,
            "the report's equations in a second program; much ozone and water",
            pick=lambda split, part=part: float(getattr(split, part)),
        )
        for zenith, water, part, expected in (
            (80.0, 0.03, "direct_normal", "499.44680"),
            (80.0, 0.03, "global_horizontal", "128.62974"),
            (85.0, 0.05, "direct_normal", "303.71200"),
        )
    ),
    _row(
        "nearly-dull",
        "PEREZ1990",
        sun.on_plane,
        {
            "sunshine": sun.Split(
                direct_normal=np.array([9.1242]),
                diffuse_horizontal=np.array([50.0]),
                global_horizontal=np.array([0.0]),
            ),
            "path": sun.SunPath(
                elevation=np.array([0.5 * math.pi - 1.2]),
                azimuth=np.array([math.radians(190.0)]),
                extraterrestrial=np.array([1321.1656]),
            ),
            "plane": sun.Plane(tilt=0.5 * math.pi, azimuth=math.pi),
        },
        "24.6544",
        "a clearness of 1.0652, just over the first limit of 1.065; the equations by hand",
        pick=lambda found: float((found.sky + found.around)[0]),
    ),
    _row(
        "hills-all-round",
        "DUFFIE2013",
        sun.sky_view,
        {
            "plane": sun.Plane(tilt=0.0, azimuth=0.0),
            "horizon": sun.Horizon(directions=(0.0, 3.0), heights=(math.radians(20.0), math.radians(20.0))),
        },
        "0.883083",
        "cos² 20°·d/sin d lying flat: the sum over sixty rings of d = 70°/60",
    ),
)
_STEEP = {"angle": math.radians(45.0), "wall": math.radians(45.0), "slope": math.radians(0.5)}
_REFUSED = (
    _row(
        "no-triangle",
        "TAPEGEOMETRY",
        setout.corner_angle,
        {"first": 1.0, "second": 1.0, "across": 2.005},
        "1",
        "refused: two sides of 1 m do not reach over 2.005 m",
        refused=True,
    ),
    _row(
        "points-on-a-line",
        "TAPEGEOMETRY",
        setout.fit_plane,
        {"x": [0.0, 1.0, 2.0], "y": [0.0, 1.0, 2.0], "z": [0.0, 1.0, 5.0]},
        "1",
        "refused: a plane turns about the line through three points",
        refused=True,
    ),
    _row(
        "one-row-of-depths",
        "FM5434",
        earthmoving.grid_volume,
        {"depths": [[1.0, 1.0, 1.0]], "spacing_x": 1.0, "spacing_y": 1.0},
        "1",
        "refused: a row of depths encloses no cell",
        refused=True,
    ),
    _row(
        "no-passive-wedge",
        "DAS",
        soils.coulomb_passive_ratio,
        _STEEP,
        "1",
        "refused: sin 90°·sin 45.5°/(cos 45°·cos 0.5°) is 1.009, where the root reaches 1 there is no wedge",
        refused=True,
    ),
    _row(
        "no-shaken-passive-wedge",
        "OKABE1926",
        retaining.earthquake_passive_ratio,
        _STEEP | {"sideways": 0.0},
        "1",
        "refused: without shaking it is Coulomb's wedge",
        refused=True,
    ),
    _row(
        "slope-of-repose",
        "OKABE1926",
        retaining.earthquake_active_ratio,
        {"angle": math.radians(30.0), "wall": 0.0, "slope": math.radians(30.0), "sideways": 0.0},
        "0.7500",
        "ground at its angle of repose just stands: cos² 30°",
        pick=float,
    ),
)

ROWS = (*_GROUND, *_CRAFT, *_SURVEY, *_AIR, *_REFUSED)
