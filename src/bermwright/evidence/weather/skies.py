"""Sunshine before and behind the air, on planes, and behind hills and overhangs.

Published tables and closed forms; where a row says pvlib, its functions were run for these inputs.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.sun import (
    BIRD1981,
    COLLARES1979,
    DUFFIE2013,
    ERBS1982,
    HOTTEL1967,
    IAU2015,
    LIUJORDAN1963,
    PEREZ1990,
    PVLIB,
)
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.sun import (
    Horizon,
    Niche,
    Plane,
    PlaneSun,
    SkyModel,
    Split,
    SunPath,
    air_mass,
    behind_horizon,
    clear_sky,
    erbs_fraction,
    erbs_month,
    erbs_split,
    extraterrestrial_day,
    extraterrestrial_normal,
    facing,
    ground_albedo,
    horizon_height,
    hour_share,
    in_niche,
    lit_share,
    niche_sky,
    on_plane,
    sky_view,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.base.sources import Work

_RAD = math.pi / 180.0
_JANUARY = 1_414.91335
"""1367 W/m² by Spencer's distance on 1 January."""


def _first(result: Any) -> float:
    return float(np.ravel(result)[0])


def _of(name: str) -> Callable[[Any], float]:
    def pick(result: Any) -> float:
        return _first(getattr(result, name))

    return pick


def _row(  # noqa: PLR0913, PLR0917  (one row of a table)
    name: str,
    work: Work,
    call: Callable[..., Any],
    inputs: Mapping[str, Any],
    expected: str,
    note: str = "",
    pick: Callable[[Any], float] = _first,
    kind: Kind = Kind.DERIVED,
    place: str = "evaluated",
    rel: float | None = None,
) -> Row:
    read = kind is not Kind.DERIVED
    return Row(
        id=name,
        cite=Cite(work=work, place=place, provenance=Provenance.READ if read else Provenance.DERIVED),
        kind=kind,
        call=call,
        inputs=inputs,
        expected=expected,
        pick=pick,
        note=note,
        rel=rel,
    )


# ---------------------------------------------------------------- shares and splits
_ERBS = (
    (0.1, ".9910"),
    (0.22, ".9802"),
    (0.3, ".9486"),
    (0.4, ".8400"),
    (0.5, ".6591"),
    (0.6, ".4395"),
    (0.7, ".2440"),
    (0.8, ".1653"),
    (0.9, "0.165"),
)
_MONTH = (
    (0.3, 60.0, ".6423"),
    (0.5, 60.0, ".3911"),
    (0.7, 81.0, ".2186"),
    (0.3, 82.0, ".6637"),
    (0.5, 90.0, ".4291"),
    (0.7, 90.0, ".2502"),
)
_SHARES = (
    (7.5, 60.0, ".1999"),
    (22.5, 60.0, ".1652"),
    (37.5, 60.0, ".1047"),
    (52.5, 60.0, ".0337"),
    (7.5, 90.0, ".1400"),
    (22.5, 90.0, ".1270"),
    (-37.5, 90.0, ".1033"),
    (52.5, 90.0, ".0731"),
    (62.0, 60.0, "0.0"),
    (0.0, 0.0, "0.0"),
)
_DAYS = (
    (60.0, 17, "3.42"),
    (60.0, 162, "41.01"),
    (60.0, 258, "20.62"),
    (67.5, 162, "41.46"),
    (67.5, 344, "0.00"),
    (55.0, 75, "19.72"),
)
_MASS = ((10.0, "1.015071"), (63.5, "2.232697"), (80.0, "5.586036"), (89.0, "26.310555"), (95.0, "37.9196"))


def _cooper(day: int) -> float:
    """Declination of a mean day of a month."""
    return 23.45 * _RAD * math.sin(2.0 * math.pi * (284 + day) / 365.0)


def _before_air(day: int) -> float:
    return 1367.0 * (1.0 + 0.033 * math.cos(2.0 * math.pi * day / 365.0))


def _megajoules(result: Any) -> float:
    return _first(result) / 1e6


def _splits() -> tuple[Row, ...]:
    cases = (
        ("january", 1_413.981805, 10.0, "direct_normal", "794.206"),
        ("january-sky", 1_413.981805, 10.0, "diffuse_horizontal", "217.860"),
        ("june", 1_321.801217, 10.0, "direct_normal", "842.002"),
        ("june-sky", 1_321.801217, 10.0, "diffuse_horizontal", "170.790"),
    )
    read = tuple(
        _row(
            f"ERBS1982-split-{name}",
            PVLIB,
            erbs_split,
            {"global_horizontal": 1000.0, "zenith": zenith * _RAD, "normal": normal},
            expected,
            "pvlib 0.16.1, tests of erbs",
            _of(part),
            Kind.INDEPENDENT,
            "tests/test_irradiance.py",
        )
        for name, normal, zenith, part, expected in cases
    )
    low = {"global_horizontal": 40.0, "normal": 1361.0}
    derived = (
        ("just-up", 86.5, "diffuse_horizontal", "30.1305", "k = 40/(1361·0.065) = 0.45216, share 0.75326"),
        ("too-low", 87.5, "direct_normal", "0.0", "no beam below 3° over the horizon"),
        ("too-low-sky", 87.5, "diffuse_horizontal", "40.0", "all of it from the sky"),
        ("both", 30.0, "global_horizontal", "40.0", "the sum stays"),
    )
    glaring = {"global_horizontal": 1400.0, "zenith": 0.0, "normal": 1300.0}
    return (
        *read,
        _row(
            "ERBS1982-split-glaring",
            ERBS1982,
            erbs_split,
            glaring,
            "231.0",
            "more light than before the air, between white clouds: counted as 1, share 0.165",
            _of("diffuse_horizontal"),
        ),
        *(
            _row(
                f"ERBS1982-split-{name}",
                ERBS1982,
                erbs_split,
                {**low, "zenith": zenith * _RAD},
                expected,
                note,
                _of(part),
            )
            for name, zenith, part, expected, note in derived
        ),
    )


_SPLITS = (
    *(
        _row(f"ERBS1982-hour-{k:g}", ERBS1982, erbs_fraction, {"clearness": k}, text, "equation 1 by hand")
        for k, text in _ERBS
    ),
    *(
        _row(
            f"ERBS1982-month-{k:g}-{w:g}",
            ERBS1982,
            erbs_month,
            {"clearness": k, "sunset": w * _RAD},
            text,
            "monthly polynomial by hand",
        )
        for k, w, text in _MONTH
    ),
    *(
        _row(
            f"COLLARES1979-{w:g}-{s:g}",
            COLLARES1979,
            hour_share,
            {"hour_angle": w * _RAD, "sunset": s * _RAD},
            text,
            "2.13.1 of Duffie and Beckman by hand",
        )
        for w, s, text in _SHARES
    ),
    *(
        _row(
            f"DUFFIE2013-day-{phi:g}-{day}",
            DUFFIE2013,
            extraterrestrial_day,
            {"latitude": phi * _RAD, "declination": _cooper(day), "normal": _before_air(day)},
            text,
            "1.10.3 for the mean day of the month, MJ/m²; 1367 W/m², Cooper's declination",
            _megajoules,
        )
        for phi, day, text in _DAYS
    ),
    *(
        _row(
            f"KASTEN1989-{z:g}",
            PVLIB,
            air_mass,
            {"zenith": z * _RAD},
            text,
            "pvlib 0.16.1, kastenyoung1989; beyond 90° held there",
            kind=Kind.INDEPENDENT,
            place="atmosphere.py, run",
        )
        for z, text in _MASS
    ),
    *_splits(),
    _row(
        "IAU2015-mean",
        IAU2015,
        extraterrestrial_normal,
        {"distance": 1.0},
        "1361.0",
        kind=Kind.PUBLISHED,
        place="B3",
    ),
    _row("IAU2015-near", IAU2015, extraterrestrial_normal, {"distance": 0.983}, "1408.48", "1361/0.983²"),
)


# ---------------------------------------------------------------- clear sky
def _clear(name: str, part: str, expected: str, *, printed: bool = False, **inputs: Any) -> Row:
    given = {
        "zenith": 63.524 * _RAD,
        "normal": _JANUARY,
        "pressure": 84_000.0,
        "water": 0.015,
        "haze": (0.15, 0.1),
    }
    return _row(
        f"BIRD1981-{name}",
        BIRD1981 if printed else PVLIB,
        clear_sky,
        {**given, **inputs},
        expected,
        "" if printed else "pvlib 0.16.1, clearsky.bird, run; it has −0.3034 where the report has −0.3035",
        _of(part),
        Kind.PUBLISHED if printed else Kind.INDEPENDENT,
        "table of one day" if printed else "clearsky.py",
        None if printed or expected == "0.0" else 1.5e-4,
    )


_HIGH: dict[str, Any] = {
    "zenith": 30.0 * _RAD,
    "pressure": 101_325.0,
    "water": 0.02,
    "ozone": 0.0035,
    "haze": (0.3, 0.25),
}
_LOW: dict[str, Any] = {
    "zenith": 80.0 * _RAD,
    "pressure": 90_000.0,
    "water": 0.003,
    "haze": (0.05, 0.03),
    "albedo": 0.7,
}
_CLEAR = (
    _clear("beam", "direct_normal", "805.2", printed=True),
    _clear("both", "global_horizontal", "450.2", printed=True),
    _clear("sky", "diffuse_horizontal", "91.3", printed=True),
    _clear("high-beam", "direct_normal", "851.99", **_HIGH),
    _clear("high-sky", "diffuse_horizontal", "178.486", **_HIGH),
    _clear("low-beam", "direct_normal", "688.112", **_LOW),
    _clear("low-sky", "diffuse_horizontal", "43.661", **_LOW),
    _row(
        "BIRD1981-usual-beam",
        PVLIB,
        clear_sky,
        {"zenith": 40.0 * _RAD, "normal": _JANUARY, "pressure": 90_000.0},
        "981.531",
        "pvlib 0.16.1, clearsky.bird, run with 1 cm of water and a haze of 0.1 and 0.07",
        _of("direct_normal"),
        Kind.INDEPENDENT,
        "clearsky.py",
        3e-5,
    ),
    _row(
        "BIRD1981-usual-sky",
        PVLIB,
        clear_sky,
        {"zenith": 40.0 * _RAD, "normal": _JANUARY, "pressure": 90_000.0},
        "97.544",
        "pvlib 0.16.1, clearsky.bird, run with 1 cm of water and a haze of 0.1 and 0.07",
        _of("diffuse_horizontal"),
        Kind.INDEPENDENT,
        "clearsky.py",
        1.5e-4,
    ),
    _clear("night", "global_horizontal", "0.0", zenith=95.0 * _RAD),
)


# ---------------------------------------------------------------- planes
def _path(zenith: float, azimuth: float, normal: float = 1321.1656) -> SunPath:
    return SunPath(
        elevation=np.array([(90.0 - zenith) * _RAD]),
        azimuth=np.array([azimuth * _RAD]),
        extraterrestrial=np.array([normal]),
    )


def _split(beam: float, sky: float, total: float = 0.0) -> Split:
    return Split(
        direct_normal=np.array([beam]),
        diffuse_horizontal=np.array([sky]),
        global_horizontal=np.array([total]),
    )


def _from_the_sky(result: PlaneSun) -> float:
    return _first(result.sky + result.around)


def _incidence(result: PlaneSun) -> float:
    return _first(result.incidence) / _RAD


_ROOF = Plane(tilt=40.0 * _RAD, azimuth=180.0 * _RAD)
_WALL = Plane(tilt=90.0 * _RAD, azimuth=180.0 * _RAD)
_SKIES = (
    (82.855, 66.714, 316.195, 40.4615, "27.1775", "31.4639"),
    (10.564, 144.766, 939.955, 118.4583, "102.995", "109.0842"),
    (72.417, 287.041, 646.229, 62.0338, "33.191", "45.4598"),
)
_NOON = {"sunshine": _split(800.0, 100.0, 500.0), "path": _path(60.0, 150.0), "plane": _WALL}


_LOW_SUN = {"sunshine": _split(60.0, 30.0), "path": _path(87.0, 190.0), "plane": _WALL}
_FLAT_PEREZ = {
    "sunshine": _split(125.0, 50.0),
    "path": _path(5.0, 180.0),
    "plane": Plane(tilt=0.0, azimuth=0.0),
}


def _total(result: PlaneSun) -> float:
    return _first(result.total)


def _perez_cases() -> tuple[Row, ...]:
    """One for each kind of sky, on a wall."""
    cases = (
        (0.0, "21.1811"),
        (15.0, "24.2362"),
        (40.0, "33.0863"),
        (80.0, "42.7445"),
        (150.0, "57.4742"),
        (300.0, "69.0669"),
        (450.0, "68.4250"),
        (900.0, "59.1896"),
        (22.0, "24.2362"),
        (22.2, "33.0863"),
    )
    return tuple(
        _row(
            f"PEREZ1990-beam-{beam:g}",
            PVLIB,
            on_plane,
            {"sunshine": _split(beam, 50.0), "path": _path(55.0, 190.0), "plane": _WALL},
            expected,
            "pvlib 0.16.1, irradiance.perez, run",
            _from_the_sky,
            Kind.INDEPENDENT,
            "irradiance.py",
        )
        for beam, expected in cases
    )


def _squarely(elevation: float, *, behind: bool) -> dict[str, Any]:
    """A plane that faces the sun, or turns its back to it, where rounding takes the cosine past 1."""
    tilt, azimuth = (90.0 + elevation, 0.0) if behind else (90.0 - elevation, 180.0)
    return {
        "sunshine": _split(500.0, 50.0),
        "path": _path(90.0 - elevation, 180.0),
        "plane": Plane(tilt=tilt * _RAD, azimuth=azimuth * _RAD),
    }


_SQUARELY = (
    _row("DUFFIE2013-squarely", DUFFIE2013, on_plane, _squarely(8.0, behind=False), "0.000000",
         "a plane that faces the sun", _of("incidence")),
    _row("DUFFIE2013-from-behind", DUFFIE2013, on_plane, _squarely(8.0, behind=True), "3.141593",
         "a plane that turns its back to the sun: π", _of("incidence")),
)  # fmt: skip


_PLANES = (
    *(
        _row(
            f"HAYDAVIES1980-{number}",
            PVLIB,
            on_plane,
            {"sunshine": _split(b, d), "path": _path(z, a), "plane": _ROOF, "model": SkyModel.HAY_DAVIES},
            hay,
            "pvlib 0.16.1, test_haydavies",
            _from_the_sky,
            Kind.INDEPENDENT,
            "tests/test_irradiance.py",
        )
        for number, (z, a, b, d, hay, _) in enumerate(_SKIES)
    ),
    *(
        _row(
            f"PEREZ1990-{number}",
            PVLIB,
            on_plane,
            {"sunshine": _split(b, d), "path": _path(z, a), "plane": _ROOF},
            perez,
            "pvlib 0.16.1, irradiance.perez, run",
            _from_the_sky,
            Kind.INDEPENDENT,
            "irradiance.py",
        )
        for number, (z, a, b, d, _, perez) in enumerate(_SKIES)
    ),
    *_perez_cases(),
    _row(
        "PEREZ1990-low",
        PVLIB,
        on_plane,
        _LOW_SUN,
        "67.1942",
        "pvlib 0.16.1, irradiance.perez, run",
        _from_the_sky,
        Kind.INDEPENDENT,
        "irradiance.py",
    ),
    _row(
        "HAYDAVIES1980-low",
        PVLIB,
        on_plane,
        {
            "sunshine": _split(100.0, 30.0),
            "path": _path(89.5, 190.0),
            "plane": _WALL,
            "model": SkyModel.HAY_DAVIES,
        },
        "142.0102",
        "pvlib 0.16.1, irradiance.haydavies, run",
        _from_the_sky,
        Kind.INDEPENDENT,
        "irradiance.py",
    ),
    _row(
        "PEREZ1990-flat-around",
        PEREZ1990,
        on_plane,
        _FLAT_PEREZ,
        "50.00",
        "lying flat the sky sends what it sends: all of it from round the sun",
        _of("around"),
    ),
    _row(
        "PEREZ1990-flat-rest",
        PEREZ1990,
        on_plane,
        _FLAT_PEREZ,
        "0.00",
        "the rest of the sky cannot send less than nothing",
        _of("sky"),
    ),
    _row(
        "PEREZ1990-flat-total",
        PEREZ1990,
        on_plane,
        {**_FLAT_PEREZ, "sunshine": _split(125.0, 50.0, 174.52)},
        "174.52",
        "125·cos 5° + 50, nothing from the ground",
        _total,
    ),
    _row(
        "LIUJORDAN1963-total",
        LIUJORDAN1963,
        on_plane,
        {
            "sunshine": _split(800.0, 100.0, 500.0),
            "path": _path(60.0, 150.0),
            "plane": _WALL,
            "model": SkyModel.EVEN,
        },
        "700.0",
        "600 + 50 + 50",
        _total,
    ),
    _row(
        "DUFFIE2013-facing-aside",
        DUFFIE2013,
        facing,
        {
            "plane": Plane(tilt=90.0 * _RAD, azimuth=120.0 * _RAD),
            "elevation": 30.0 * _RAD,
            "azimuth": 150.0 * _RAD,
        },
        "0.75",
        "cos² 30°",
    ),
    _row(
        "DUFFIE2013-facing-away",
        DUFFIE2013,
        facing,
        {
            "plane": Plane(tilt=90.0 * _RAD, azimuth=60.0 * _RAD),
            "elevation": 30.0 * _RAD,
            "azimuth": 150.0 * _RAD,
        },
        "0.0000",
        "a quarter turn aside",
    ),
    _row(
        "LIUJORDAN1963-even",
        LIUJORDAN1963,
        on_plane,
        {"sunshine": _split(0.0, 100.0), "path": _path(60.0, 180.0), "plane": _ROOF, "model": SkyModel.EVEN},
        "88.3022",
        "100·(1 + cos 40°)/2",
        _of("sky"),
    ),
    _row(
        "LIUJORDAN1963-ground",
        LIUJORDAN1963,
        on_plane,
        {**_NOON, "albedo": 0.7},
        "175.0",
        "500·0.7·(1 − cos 90°)/2",
        _of("ground"),
    ),
    _row(
        "LIUJORDAN1963-bare",
        LIUJORDAN1963,
        on_plane,
        {"sunshine": _split(0.0, 0.0, 500.0), "path": _path(60.0, 180.0), "plane": _ROOF},
        "11.6978",
        "500·0.2·(1 − cos 40°)/2",
        _of("ground"),
    ),
    _row("DUFFIE2013-beam", DUFFIE2013, on_plane, _NOON, "600.0", "800·sin 60°·cos 30°", _of("beam")),
    _row("DUFFIE2013-incidence", DUFFIE2013, on_plane, _NOON, "41.4096", "acos 0.75", _incidence),
    _row(
        "DUFFIE2013-facing",
        DUFFIE2013,
        facing,
        {"plane": _ROOF, "elevation": 30.0 * _RAD, "azimuth": 150.0 * _RAD},
        "0.865113",
        "0.5·cos 40° + cos 30°·sin 40°·cos 30°",
    ),
    _row("DUFFIE2013-albedo-bare", DUFFIE2013, ground_albedo, {"snow_cover": 0.0}, "0.2", "bare ground"),
    _row("DUFFIE2013-albedo-snow", DUFFIE2013, ground_albedo, {"snow_cover": 1.0}, "0.7", "snow"),
    _row(
        "DUFFIE2013-albedo-half",
        DUFFIE2013,
        ground_albedo,
        {"snow_cover": 0.5},
        "0.45",
        "half of the ground white",
    ),
)


# ---------------------------------------------------------------- shading
_HILLS = Horizon(directions=(0.0, math.pi), heights=(0.0, 0.5))
_LEVEL = Horizon(directions=(0.0,), heights=(0.0,))
_BOWL = Horizon(directions=(0.0,), heights=(30.0 * _RAD,))
_FLAT = Plane(tilt=0.0, azimuth=0.0)
_PORCH = Niche(width=1.0, height=1.2, overhang=0.6, above=0.3)
_DEEP = Niche(width=1.0, height=1.2, reveal=0.4)
_LIGHT = PlaneSun(
    beam=np.array([500.0]),
    around=np.array([50.0]),
    sky=np.array([100.0]),
    ground=np.array([80.0]),
    incidence=np.array([0.5]),
)


def _shade(name: str, niche: Niche, path: SunPath, expected: str, note: str, plane: Plane = _WALL) -> Row:
    return _row(
        f"DUFFIE2013-lit-{name}",
        DUFFIE2013,
        lit_share,
        {"niche": niche, "path": path, "plane": plane},
        expected,
        note,
    )


def _behind(name: str, elevation: float, part: str, expected: str, note: str) -> Row:
    return _row(
        f"DUFFIE2013-behind-{name}",
        DUFFIE2013,
        behind_horizon,
        {"sunshine": _LIGHT, "path": _path(90.0 - elevation, 180.0), "plane": _FLAT, "horizon": _BOWL},
        expected,
        note,
        _of(part),
        rel=0.002 if part == "sky" else None,
    )


def _niched(part: str, expected: str, note: str) -> Row:
    niche = Niche(width=1.0, height=1.2, overhang=0.6, above=0.3, reveal=0.1)
    return _row(
        f"DUFFIE2013-niche-{part}",
        DUFFIE2013,
        in_niche,
        {"sunshine": _LIGHT, "path": _path(45.0, 180.0), "plane": _WALL, "niche": niche},
        expected,
        note,
        _of(part),
    )


_SHADING = (
    _row(
        "DUFFIE2013-horizon-between",
        DUFFIE2013,
        horizon_height,
        {"horizon": _HILLS, "azimuth": 0.5 * math.pi},
        "0.25",
        "straight between 0 and 0.5",
    ),
    _row(
        "DUFFIE2013-horizon-round",
        DUFFIE2013,
        horizon_height,
        {"horizon": _HILLS, "azimuth": 1.75 * math.pi},
        "0.125",
        "the last point joined to the first",
    ),
    _row("DUFFIE2013-view-wall", DUFFIE2013, sky_view, {"plane": _WALL}, "0.5", "(1 + cos 90°)/2"),
    _row("DUFFIE2013-view-roof", DUFFIE2013, sky_view, {"plane": _ROOF}, "0.883022", "(1 + cos 40°)/2"),
    _row(
        "DUFFIE2013-view-level",
        DUFFIE2013,
        sky_view,
        {"plane": _WALL, "horizon": _LEVEL},
        "0.5000",
        "the sum over the sky gives a half",
        rel=0.002,
    ),
    _row(
        "DUFFIE2013-view-tilted",
        DUFFIE2013,
        sky_view,
        {"plane": _ROOF, "horizon": _LEVEL},
        "0.8830",
        "(1 + cos 40°)/2 by the sum",
        rel=0.002,
    ),
    _row(
        "DUFFIE2013-view-bowl",
        DUFFIE2013,
        sky_view,
        {"plane": _FLAT, "horizon": _BOWL},
        "0.7500",
        "cos² 30°",
        rel=0.002,
    ),
    _behind("hidden", 29.0, "beam", "0.0", "30° of hill hide a sun at 29°"),
    _behind("hidden-around", 29.0, "around", "0.0", "the bright sky round it too"),
    _behind("over", 31.0, "beam", "500.0", "over the hill"),
    _behind("over-around", 31.0, "around", "50.0", "over the hill"),
    _behind("sky", 31.0, "sky", "75.0", "cos² 30° of 100"),
    _behind("ground", 31.0, "ground", "80.0", "the ground before it is as bright"),
    _shade("porch", _PORCH, _path(45.0, 180.0), "0.75", "1 − (0.6·tan 45° − 0.3)/1.2"),
    _shade("porch-low", _PORCH, _path(75.0, 180.0), "1.0", "0.6·tan 15° is less than 0.3"),
    _shade("porch-aside", _PORCH, _path(45.0, 240.0), "0.25", "climbs tan 45°/cos 60° = 2"),
    _shade("porch-high", _PORCH, _path(10.0, 180.0), "0.0", "all in the shade"),
    _shade("reveal", _DEEP, _path(45.0, 180.0), "0.666667", "1 − 0.4·1/1.2"),
    _shade("reveal-aside", _DEEP, _path(45.0, 225.0), "0.317157", "(1 − 0.4·√2/1.2)·(1 − 0.4·1/1)"),
    _shade("reveal-grazing", _DEEP, _path(45.0, 255.0), "0.0", "drifts tan 75° = 3.7"),
    _shade("behind", _PORCH, _path(45.0, 0.0), "0.0", "the sun is behind the wall"),
    _shade(
        "roof",
        _PORCH,
        _path(0.0, 180.0),
        "0.830450",
        "straight above a roof of 40° it climbs tan 40°: 1 − (0.6·0.8391 − 0.3)/1.2",
        _ROOF,
    ),
    _shade(
        "reveal-30",
        _DEEP,
        _path(60.0, 215.0),
        "0.550781",
        "(1 − 0.4·tan 30°/cos 35°/1.2)·(1 − 0.4·tan 35°)",
    ),
    _shade(
        "wall-aside",
        _DEEP,
        _path(60.0, 155.0),
        "0.550781",
        "the same on a wall that faces 120°",
        Plane(tilt=90.0 * _RAD, azimuth=120.0 * _RAD),
    ),
    _shade(
        "roof-60",
        Niche(width=1.0, height=1.2, overhang=2.4, above=0.1),
        _path(30.0, 180.0),
        "0.730679",
        "60° high it climbs tan 10° along a roof of 40°: 1 − (2.4·0.176327 − 0.1)/1.2",
        _ROOF,
    ),
    _row(
        "DUFFIE2013-behind-level",
        DUFFIE2013,
        behind_horizon,
        {"sunshine": _LIGHT, "path": _path(45.0, 180.0), "plane": _WALL, "horizon": _LEVEL},
        "100.00",
        "a level horizon leaves all of the sky",
        _of("sky"),
    ),
    _row(
        "HOTTEL1967-porch",
        HOTTEL1967,
        niche_sky,
        {"niche": _PORCH, "plane": _WALL},
        "0.787274",
        "[√(1.5² + 0.6²) − √(0.3² + 0.6²)]/1.2",
    ),
    _row(
        "HOTTEL1967-porch-roof",
        HOTTEL1967,
        niche_sky,
        {"niche": _PORCH, "plane": _ROOF},
        "0.879547",
        "[0.883022 − (1 − 0.787274)/2]/0.883022",
    ),
    _row(
        "HOTTEL1967-reveal",
        HOTTEL1967,
        niche_sky,
        {"niche": _DEEP, "plane": _WALL},
        "0.487978",
        "(√1.16 − 0.4)·(√(1 + 1/9) − 1/3)",
    ),
    _niched("beam", "375.0", "500 by 1 − (0.6 − 0.3)/1.2"),
    _niched("around", "37.5", "50 by the same"),
    _niched("sky", "65.557", "100·0.787274·(√1.01 − 0.1)·(√(1 + 1/144) − 1/12)"),
    _niched("ground", "66.617", "80·(√1.01 − 0.1)·(√(1 + 1/144) − 1/12)"),
)

ROWS = (*_SPLITS, *_CLEAR, *_SQUARELY, *_PLANES, *_SHADING)
