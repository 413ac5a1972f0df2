"""Glass and windows: EN 673, EN 410 and ISO 10077-1 worked by hand, and a year of sun through a window.

The texts of the standards were not opened: the rows are their formulas evaluated apart from the handbook.
Those of upright double and triple glazing agree with the rounded values of the standard's table
(2.8 and 1.9 for clear panes with 12 mm of air).
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.glasses import AIR, ARGON, CLEAR, GLASSES, KRYPTON, Gap, Glass
from bermwright.data.works.glazing import EN410, EN673, ISO10077, ISO13790
from bermwright.data.works.sun import DUFFIE2013, PVLIB
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.glazing import (
    Fit,
    Frame,
    Window,
    WindowYear,
    absorbed,
    clear_pane,
    compare_glasses,
    diffuse_factor,
    frame_share,
    gap_resistances,
    gas_conductance,
    glass_u,
    radiant_conductance,
    shuttered_u,
    solar_factor,
    sun_through,
    window_balance,
    window_of,
    window_scan,
    window_u,
    window_year,
)
from bermwright.handbook.sun import Niche, Plane, PlaneSun, sun_path
from bermwright.handbook.weather import WeatherYear

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.base.sources import Work
    from bermwright.data.glasses import Gas, Pane

_RAD = math.pi / 180.0
_HAND = Cite(work=EN673, place="5 and 6", provenance=Provenance.DERIVED)


def _first(result: Any) -> float:
    return float(np.ravel(result)[0])


def _row(  # noqa: PLR0913, PLR0917  (one row of a table)
    name: str,
    work: Work,
    call: Callable[..., Any],
    inputs: Mapping[str, Any],
    expected: str,
    note: str,
    pick: Callable[[Any], float] = _first,
    rel: float | None = None,
    kind: Kind = Kind.DERIVED,
) -> Row:
    provenance = Provenance.READ if kind is Kind.INDEPENDENT else Provenance.DERIVED
    return Row(
        id=name,
        cite=Cite(work=work, place="worked by hand", provenance=provenance),
        kind=kind,
        call=call,
        inputs=inputs,
        expected=expected,
        pick=pick,
        note=note,
        rel=rel,
    )


# ---------------------------------------------------------------- heat loss of panes
def _panes(*panes: Pane, gap: float, gas: Gas = AIR, share: float = 1.0) -> Glass:
    gaps = (Gap(width=gap, gas=gas, share=share),) * (len(panes) - 1)
    return Glass(name="x", panes=panes, gaps=gaps, cite=_HAND)


def _coated(emissivity: float) -> tuple[Pane, Pane]:
    """Inside of an outer pane, outside of an inner one."""
    return replace(CLEAR, emissivity_inside=emissivity), replace(CLEAR, emissivity_outside=emissivity)


_IN5, _OUT5 = _coated(0.05)
_IN3, _OUT3 = _coated(0.03)
_TABLE = (
    ("double-clear-air", (CLEAR, CLEAR), AIR, 1.0, ("3.28", "3.08", "2.85", "2.73", "2.74")),
    ("double-clear-argon", (CLEAR, CLEAR), ARGON, 0.9, ("3.04", "2.88", "2.69", "2.62", "2.63")),
    ("double-coated-air", (CLEAR, _OUT5), AIR, 1.0, ("2.47", "2.11", "1.65", "1.40", "1.43")),
    ("double-coated-argon", (CLEAR, _OUT5), ARGON, 0.9, ("2.04", "1.71", "1.32", "1.17", "1.19")),
    ("triple-clear-air", (CLEAR, CLEAR, CLEAR), AIR, 1.0, ("2.29", "2.10", "1.89", "1.78")),
    ("triple-coated-air", (_IN5, CLEAR, _OUT5), AIR, 1.0, ("1.57", "1.29", "0.96", "0.78")),
    ("triple-coated-argon", (_IN5, CLEAR, _OUT5), ARGON, 0.9, ("1.24", "1.01", "0.75", "0.60")),
    ("triple-best-argon", (_IN3, CLEAR, _OUT3), ARGON, 0.9, ("1.21", "0.97", "0.71", "0.56")),
)
_WIDTHS = (0.006, 0.008, 0.012, 0.016, 0.020)
_UNEVEN = Glass(name="x", panes=(CLEAR, CLEAR, CLEAR), gaps=(Gap(width=0.008), Gap(width=0.020)), cite=_HAND)


def _second(result: Any) -> float:
    return float(result[1])


_LOSS = (
    *(
        _row(
            f"EN673-{name}-{1000 * width:g}",
            EN673,
            glass_u,
            {"glass": _panes(*panes, gap=width, gas=gas, share=share)},
            text,
            "Nu = 0.035·(Gr·Pr)^0.38, 15 K over all gaps, 283 K, 0.13 and 0.04 m²K/W",
        )
        for name, panes, gas, share, texts in _TABLE
        for width, text in zip(_WIDTHS, texts, strict=False)
    ),
    _row(
        "EN673-single",
        EN673,
        glass_u,
        {"glass": _panes(CLEAR, gap=0.01)},
        "5.74713",
        "1/(0.13 + 0.004 + 0.04)",
    ),
    _row(
        "EN673-double-exact",
        EN673,
        glass_u,
        {"glass": GLASSES["double"]},
        "2.84881",
        "1/(0.13 + 0.173024 + 0.008 + 0.04)",
    ),
    _row(
        "EN673-double-flat",
        EN673,
        glass_u,
        {"glass": GLASSES["double"], "tilt": 0.0},
        "3.40594",
        "Nu = 0.16·(Gr·Pr)^0.28, 0.10 inside",
    ),
    _row(
        "EN673-double-45",
        EN673,
        glass_u,
        {"glass": GLASSES["double"], "tilt": 45.0 * _RAD},
        "3.08873",
        "Nu = 0.10·(Gr·Pr)^0.31, 0.115 inside",
    ),
    _row(
        "EN673-uneven",
        EN673,
        glass_u,
        {"glass": _UNEVEN},
        "1.89853",
        "gaps of 8 and 20 mm share 15 K by their resistances",
    ),
    _row("EN673-uneven-first", EN673, gap_resistances, {"glass": _UNEVEN}, "0.146637", "the narrow gap"),
    _row(
        "EN673-uneven-second", EN673, gap_resistances, {"glass": _UNEVEN}, "0.198087", "the wide gap", _second
    ),
    _row(
        "EN673-gas-still",
        EN673,
        gas_conductance,
        {"gap": Gap(width=0.012)},
        "2.08000",
        "Nu = 1: 0.02496/0.012",
    ),
    _row("EN673-gas-moving", EN673, gas_conductance, {"gap": Gap(width=0.020)}, "1.66481", "Nu = 1.33"),
    _row(
        "EN673-gas-argon",
        EN673,
        gas_conductance,
        {"gap": Gap(width=0.016, gas=ARGON, share=0.9)},
        "1.21844",
        "a tenth of air in the argon",
    ),
    _row(
        "EN673-gas-krypton",
        EN673,
        gas_conductance,
        {"gap": Gap(width=0.010, gas=KRYPTON, share=0.9)},
        "1.09927",
        "a tenth of air in the krypton",
    ),
    _row(
        "EN673-gas-flat",
        EN673,
        gas_conductance,
        {"gap": Gap(width=0.012), "tilt": 0.0},
        "3.16839",
        "lying flat",
    ),
    _row(
        "EN673-gas-flat-5-K",
        EN673,
        gas_conductance,
        {"gap": Gap(width=0.012), "difference": 5.0, "tilt": 0.0},
        "2.32940",
        "with 5 K",
    ),
    _row(
        "EN673-gas-45",
        EN673,
        gas_conductance,
        {"gap": Gap(width=0.012), "tilt": 45.0 * _RAD},
        "2.52101",
        "at 45°",
    ),
    _row(
        "EN673-radiation-blank",
        EN673,
        radiant_conductance,
        {"first": 0.837, "second": 0.837},
        "3.69954",
        "4·5.67e-8·283³/(2/0.837 − 1)",
    ),
    _row(
        "EN673-radiation-coated",
        EN673,
        radiant_conductance,
        {"first": 0.837, "second": 0.05},
        "0.25454",
        "4·5.67e-8·283³/(1/0.837 + 20 − 1)",
    ),
)


# ---------------------------------------------------------------- glass in the sun
def _part(number: int) -> Callable[[Any], float]:
    def pick(result: Any) -> float:
        return _first(result[number])

    return pick


def _caught(number: int) -> Callable[[Any], float]:
    def pick(result: Any) -> float:
        return _first(result[0][number])

    return pick


_ANGLES = (
    (0.0, "0.812874", "0.074623"),
    (30.0, "0.805026", "0.076368"),
    (60.0, "0.725239", "0.141185"),
    (75.0, "0.515515", "0.348610"),
    (85.0, "0.181993", "0.702095"),
)
_FACTORS = (
    ("single", 0.0, "0.860517"),
    ("double", 0.0, "0.765209"),
    ("double", 60.0, "0.639624"),
    ("double, coated", 0.0, "0.628129"),
    ("double, coated", 60.0, "0.533031"),
    ("double, coated", 80.0, "0.218952"),
    ("triple", 0.0, "0.686815"),
    ("triple", 60.0, "0.540851"),
    ("triple, coated", 0.0, "0.528474"),
    ("triple, coated", 60.0, "0.424965"),
)
_TRIPLE = {"glass": GLASSES["triple, coated"], "incidence": 60.0 * _RAD}
_SUN = (
    *(
        _row(
            f"DUFFIE2013-pane-{angle:g}-{what}",
            DUFFIE2013,
            clear_pane,
            {"incidence": angle * _RAD},
            text,
            "Fresnel with 1.526 and exp(−0.12/cos θ′), both polarisations averaged",
            _part(number),
        )
        for angle, *texts in _ANGLES
        for number, (what, text) in enumerate(zip(("passes", "thrown"), texts, strict=True))
    ),
    *(
        _row(
            f"EN410-{name.replace(', ', '-')}-{angle:g}",
            EN410,
            solar_factor,
            {"glass": GLASSES[name], "incidence": angle * _RAD},
            text,
            "every reflection between the panes summed by two or four linear equations",
        )
        for name, angle, text in _FACTORS
    ),
    _row("EN410-triple-passes", EN410, absorbed, _TRIPLE, "0.302701", "four linear equations", _part(1)),
    *(
        _row(
            f"EN410-triple-caught-{number}",
            EN410,
            absorbed,
            _TRIPLE,
            text,
            "four linear equations",
            _caught(number),
        )
        for number, text in enumerate(("0.175079", "0.082309", "0.086261"))
    ),
    _row(
        "DUFFIE2013-even-triple",
        DUFFIE2013,
        diffuse_factor,
        {"glass": GLASSES["triple, coated"]},
        "0.450295",
        "sum of g·sin 2θ by degrees",
        rel=1e-5,
    ),
    _row(
        "DUFFIE2013-even-single",
        DUFFIE2013,
        diffuse_factor,
        {"glass": GLASSES["single"]},
        "0.784126",
        "sum of g·sin 2θ by degrees",
        rel=1e-5,
    ),
)

# ---------------------------------------------------------------- window and shutter
_S31 = {"glass_area": 1.2726, "frame_area": 0.5478, "edge": 4.54}
_WINDOW = (
    _row(
        "ISO10077-good",
        ISO10077,
        window_u,
        {**_S31, "glass_u": 0.7, "frame_u": 1.2, "edge_psi": 0.05},
        "0.9752",
        "equation 1 for 1.23 m by 1.48 m",
        rel=1e-4,
    ),
    _row(
        "ISO10077-best",
        ISO10077,
        window_u,
        {**_S31, "glass_u": 0.5, "frame_u": 0.8, "edge_psi": 0.03},
        "0.6651",
        "equation 1",
        rel=1e-4,
    ),
    _row(
        "ISO10077-usual",
        ISO10077,
        window_u,
        {**_S31, "glass_u": 1.1, "frame_u": 1.4, "edge_psi": 0.08},
        "1.3898",
        "equation 1",
        rel=1e-4,
    ),
    _row(
        "ISO10077-frame",
        ISO10077,
        frame_share,
        {"width": 1.23, "height": 1.48},
        "0.300923",
        "1 − 1.01·1.26/1.8204",
    ),
    _row(
        "ISO10077-no-glass",
        ISO10077,
        frame_share,
        {"width": 0.2, "height": 0.5, "frame": 0.11},
        "1.0",
        "nothing is left for glass",
    ),
    _row(
        "ISO10077-shutter",
        ISO10077,
        shuttered_u,
        {"window": 1.4, "resistance": 0.3},
        "1.010830",
        "1/(1/1.4 + 0.55·0.3 + 0.11)",
    ),
    _row(
        "ISO10077-shutter-loose",
        ISO10077,
        shuttered_u,
        {"window": 1.4, "resistance": 0.3, "fit": Fit.LOOSE},
        "1.137287",
        "1/(1/1.4 + 0.25·0.3 + 0.09)",
    ),
    _row(
        "ISO10077-shutter-tight",
        ISO10077,
        shuttered_u,
        {"window": 1.4, "resistance": 0.3, "fit": Fit.TIGHT},
        "0.913838",
        "1/(1/1.4 + 0.80·0.3 + 0.14)",
    ),
)

# ---------------------------------------------------------------- a year through a window
_SOUTH = Plane(tilt=90.0 * _RAD, azimuth=180.0 * _RAD)
_SQUARE = Niche(width=1.0, height=1.2)
_PLAIN = Window(
    glass=GLASSES["triple, coated"],
    plane=_SOUTH,
    niche=_SQUARE,
    glass_share=0.5,
    u=1.0,
    g=float(solar_factor(GLASSES["triple, coated"])),
    shutter_u=0.6,
)


def _even_weather() -> WeatherYear:
    """50° north: 100 W/m² of sky always, a beam of 200 W/m² while the sun is up; -5 °C, 15 °C in summer."""
    latitude = 50.0 * _RAD
    path = sun_path(latitude, 0.0, zone=0.0)
    beam = np.where(path.up, 200.0, 0.0)
    hours = np.arange(8760)
    warm = (hours >= 120 * 24) & (hours < 240 * 24)
    always = np.ones(8760)
    return WeatherYear(
        place="x",
        source="x",
        made=True,
        latitude=latitude,
        longitude=0.0,
        altitude=0.0,
        zone=0.0,
        temperature=np.where(warm, 15.0, -5.0),
        dew_point=-10.0 * always,
        global_horizontal=100.0 + beam * np.maximum(np.sin(path.elevation), 0.0),
        direct_normal=beam,
        diffuse_horizontal=100.0 * always,
        wind=3.0 * always,
        pressure=101_325.0 * always,
        sky_temperature=-20.0 * always,
        snow_cover=0.0 * always,
        snow_depth=0.0 * always,
    )


_EVEN = _even_weather()
_HAND_YEAR = WindowYear(area=2.0, gain=np.full(8760, 100.0), loss=np.full(8760, 3.0))
_LIGHT = PlaneSun(
    beam=np.array([300.0]),
    around=np.array([50.0]),
    sky=np.array([80.0]),
    ground=np.array([40.0]),
    incidence=np.array([60.0 * _RAD]),
)


def _gain_sum(result: WindowYear) -> float:
    return float(np.sum(result.gain))


def _loss_sum(result: WindowYear) -> float:
    return float(np.sum(result.loss))


def _of(name: str, scale: float = 1.0) -> Callable[[Any], float]:
    def pick(result: Any) -> float:
        return float(getattr(result, name)) / scale

    return pick


def _scan(name: str, scale: float = 1.0) -> Callable[[Any], float]:
    def pick(result: Any) -> float:
        return float(getattr(result[-1].balance, name)) / scale

    return pick


def _best(result: Any) -> float:
    return float(result[0][0].u)


def _net(result: Any) -> float:
    return float(result[0][1].net) / 3.6e6


_MILD = replace(_EVEN, temperature=np.full(8760, 12.1))


def _glazed(result: Any) -> float:
    return float(result[0][0].u)


def _worst(result: Any) -> float:
    return float(result[-1][0].u)


def _share_first(result: Any) -> float:
    return float(result[0][0].niche.width)


_MADE = {"glass": GLASSES["double, coated"], "plane": _SOUTH, "niche": Niche(width=1.23, height=1.48)}
_HELD = Frame(width=0.11, u=1.4, edge_psi=0.08)
_YEAR = (
    _row(
        "ISO13790-through",
        ISO13790,
        sun_through,
        {"window": _PLAIN, "sunshine": _LIGHT},
        "121.664",
        "1.2·0.5·(350·0.424965 + 120·0.450295)",
    ),
    _row(
        "ISO13790-through-own-g",
        ISO13790,
        sun_through,
        {"window": replace(_PLAIN, g=0.6), "sunshine": _LIGHT},
        "138.130",
        "the same times 0.6/0.528474",
    ),
    _row(
        "PVLIB-window-gain",
        PVLIB,
        window_year,
        {"window": _PLAIN, "weather": _EVEN, "path": _EVEN.path()},
        "302705",
        "sun of each hour by pvlib 0.16.1 (spa, perez), glass by hand",
        _gain_sum,
        1e-4,
        Kind.INDEPENDENT,
    ),
    _row(
        "PVLIB-window-loss",
        PVLIB,
        window_year,
        {"window": _PLAIN, "weather": _EVEN, "path": _EVEN.path()},
        "8441.76",
        "1.2·(4447·1.0 + 4313·0.6), hours with the sun up by pvlib 0.16.1",
        _loss_sum,
        kind=Kind.INDEPENDENT,
    ),
    _row(
        "ISO13790-balance-gain",
        ISO13790,
        window_balance,
        {"year": _HAND_YEAR, "weather": _EVEN},
        "1058.4",
        "100 W·245 d/2 m², MJ",
        _of("gain", 1e6),
    ),
    _row(
        "ISO13790-balance-loss",
        ISO13790,
        window_balance,
        {"year": _HAND_YEAR, "weather": _EVEN},
        "793.8",
        "3 W/K·25 K·245 d/2 m², MJ",
        _of("loss", 1e6),
    ),
    _row(
        "ISO13790-balance-net",
        ISO13790,
        window_balance,
        {"year": _HAND_YEAR, "weather": _EVEN},
        "264.6",
        "1058.4 − 793.8",
        _of("net", 1e6),
    ),
    _row(
        "ISO13790-balance-surplus",
        ISO13790,
        window_balance,
        {"year": _HAND_YEAR, "weather": _EVEN},
        "518.4",
        "100 W·120 d/2 m², MJ",
        _of("surplus", 1e6),
    ),
    _row(
        "ISO13790-balance-all-heated",
        ISO13790,
        window_balance,
        {"year": _HAND_YEAR, "weather": _EVEN, "indoor": 18.0, "heated_below": 16.0},
        "776.952",
        "3·86400·(245·23 + 120·3)/2, MJ",
        _of("loss", 1e6),
    ),
    _row(
        "ISO10077-made-u",
        ISO10077,
        window_of,
        {**_MADE, "frame": _HELD},
        "1.391571",
        "(1.2726·1.102543 + 0.5478·1.4 + 4.54·0.08)/1.8204",
        _of("u"),
    ),
    _row(
        "ISO10077-made-share", ISO10077, window_of, _MADE, "0.699077", "1.01·1.26/1.8204", _of("glass_share")
    ),
    _row(
        "ISO10077-made-all-frame",
        ISO10077,
        window_of,
        {**_MADE, "niche": Niche(width=0.6, height=0.2), "frame": _HELD},
        "1.4",
        "frames of 0.11 m leave no glass in 0.2 m, nor an edge: the frame alone",
        _of("u"),
    ),
    _row("ISO10077-made-g", ISO10077, window_of, _MADE, "0.628129", "of the glass", _of("g")),
    _row(
        "ISO10077-made-single",
        ISO10077,
        window_of,
        {**_MADE, "glass": GLASSES["single"], "frame": _HELD},
        "4.43898",
        "(1.2726·5.74713 + 0.5478·1.4)/1.8204: no sealed edge",
        _of("u"),
    ),
    _row(
        "ISO13790-scan-u",
        ISO13790,
        window_scan,
        {"weather": _EVEN, "glass": GLASSES["single"], "areas": (4.0,), "shutters": (0.5,)},
        "4.84336",
        "(3.1684·5.74713 + 0.8316·1.4)/4 for 2 m by 2 m",
        lambda result: float(result[-1].u),
        1e-4,
    ),
)

_PAIR = (GLASSES["single"], GLASSES["double, coated"])
_MORE = (
    _row(
        "DUFFIE2013-pane-90-passes",
        DUFFIE2013,
        clear_pane,
        {"incidence": 90.0 * _RAD},
        "0.0000",
        "grazing light is thrown back",
        _part(0),
    ),
    _row(
        "DUFFIE2013-pane-90-thrown",
        DUFFIE2013,
        clear_pane,
        {"incidence": 90.0 * _RAD},
        "1.0000",
        "grazing light is thrown back",
        _part(1),
    ),
    _row(
        "EN410-grazing",
        EN410,
        solar_factor,
        {"glass": GLASSES["triple, coated"], "incidence": 90.0 * _RAD},
        "0.0000",
        "grazing light is thrown back",
    ),
    _row(
        "ISO13790-balance-mild",
        ISO13790,
        window_balance,
        {"year": _HAND_YEAR, "weather": _MILD},
        "0.0",
        "days of 12.1 °C are not heated",
        _of("gain", 1e6),
    ),
    _row(
        "ISO10077-made-usual",
        ISO10077,
        window_of,
        _MADE,
        "1.341692",
        "(1.2726·1.102543 + 0.5478·1.4 + 4.54·0.06)/1.8204",
        _of("u"),
    ),
    _row(
        "ISO10077-made-shutter",
        ISO10077,
        window_of,
        {**_MADE, "shutter": 0.3},
        "0.980078",
        "1/(1/1.341692 + 0.55·0.3 + 0.11)",
        _of("shutter_u"),
    ),
    _row(
        "ISO13790-scan-usual",
        ISO13790,
        window_scan,
        {"weather": _EVEN, "glass": GLASSES["single"]},
        "4.04479",
        "0.6084·5.74713 + 0.3916·1.4 for 1 m by 1 m",
        lambda result: float(result[0].u),
    ),
    _row(
        "ISO13790-compare-best",
        ISO13790,
        compare_glasses,
        {"weather": _EVEN, "glasses": _PAIR, "plane": _SOUTH},
        "1.406227",
        "0.6084·1.102543 + 0.3916·1.4 + 3.12·0.06: the coated pane brings more",
        _glazed,
    ),
    _row(
        "ISO13790-compare-worst",
        ISO13790,
        compare_glasses,
        {"weather": _EVEN, "glasses": _PAIR, "plane": _SOUTH},
        "4.04479",
        "0.6084·5.74713 + 0.3916·1.4",
        _worst,
    ),
    _row(
        "ISO13790-scan-loss",
        ISO13790,
        window_scan,
        {"weather": _EVEN, "glass": GLASSES["single"]},
        "2140.7",
        "4.044794·25·245·86400/1e6, MJ/m²",
        _scan("loss", 1e6),
        1e-4,
    ),
)

ROWS = (*_LOSS, *_SUN, *_WINDOW, *_YEAR, *_MORE)
