"""What a window brings and costs in a year, and which size, tilt, direction and shutter brings most."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.glazing.panes import glass_u
from bermwright.handbook.glazing.solar import ANGLE_SAMPLES, diffuse_factor, solar_factor
from bermwright.handbook.glazing.window import FRAME_WIDTH, Fit, frame_share, shuttered_u, window_u
from bermwright.handbook.sun import (
    Horizon,
    Niche,
    Plane,
    PlaneSun,
    SunPath,
    behind_horizon,
    ground_albedo,
    in_niche,
    on_plane,
)
from bermwright.handbook.weather import daily

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.data.glasses import Glass
    from bermwright.handbook.weather import WeatherYear

    Array = NDArray[np.float64]

HOUR = 3600.0
HOURS_A_DAY = 24
HEATED_BELOW = 12.0
"""Daily mean outside under which a house is heated (°C)."""
INDOOR = 20.0
SQUARE = Niche(width=1.0, height=1.0)
"""A hole of 1 m² in the open."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What holds the glass."""

    width: float = FRAME_WIDTH
    """Seen from outside (m)."""
    u: float = 1.4
    """Softwood of 68 mm (W/(m²·K))."""
    edge_psi: float = 0.06
    """Of the edge of sealed panes, between a warm edge and aluminium (W/(m·K))."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """A window ready to be counted."""

    glass: Glass
    plane: Plane
    niche: Niche
    """Its size, and what shades it."""
    glass_share: float
    """Of the hole."""
    u: float
    """Of the whole (W/(m²·K))."""
    g: float
    """Of the glass at normal incidence."""
    shutter_u: float | None = None
    """With the shutter closed; None: there is none."""

    @property
    def area(self) -> float:
        """Of the hole (m²)."""
        return self.niche.width * self.niche.height


@dataclass(frozen=True, slots=True, kw_only=True)
class WindowYear:
    """One window by the hour."""

    area: float
    gain: Array
    """Heat of the sun that comes in (W)."""
    loss: Array
    """Heat lost for each kelvin (W/K), shutter closed while the sun is down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """A window's year in the days that need heat (J for each m² of hole)."""

    gain: float
    """From the sun, all of it counted."""
    loss: float
    surplus: float
    """Sun of the other days: to be shaded or aired away."""

    @property
    def net(self) -> float:
        """Gain less loss."""
        return self.gain - self.loss


@dataclass(frozen=True, slots=True, kw_only=True)
class ScanRow:
    """One of the windows that were tried."""

    area: float
    tilt: float
    azimuth: float
    overhang: float
    shutter: float
    """Resistance of the shutter (m²K/W); 0: none."""
    u: float
    balance: Balance


def window_of(
    glass: Glass,
    plane: Plane,
    niche: Niche,
    *,
    frame: Frame | None = None,
    shutter: float = 0.0,
    fit: Fit = Fit.USUAL,
) -> Window:
    """A window from its glass, frame and shutter.

    U by areas and edge, g of the glass at normal incidence

    Parameters
    ----------
    glass : Glass
        Panes and gaps.
    plane : Plane
        How it lies.
    niche : Niche
        Its size and shade.
    frame : Frame or None
        Frame; None: a usual one of softwood.
    shutter : float
        Resistance of the shutter, 0 for none [m2K/W], from 0 to 5.
    fit : Fit
        How tightly the shutter closes.

    Returns
    -------
    Window
        Ready to be counted.

    References
    ----------
    [ISO10077] : equation 1 and shutters.
    [EN673] : the glass.
    """
    within("resistance of the shutter", shutter, 0.0, 5.0, unit="m2K/W")
    held = frame or Frame()
    share = frame_share(niche.width, niche.height, held.width)
    area = niche.width * niche.height
    edge = 2.0 * (niche.width + niche.height - 4.0 * held.width) if share < 1.0 else 0.0
    # A single pane has no sealed edge.
    psi = held.edge_psi if glass.gaps else 0.0
    u = window_u(
        glass_area=area * (1.0 - share),
        frame_area=area * share,
        edge=edge,
        glass_u=glass_u(glass, tilt=plane.tilt),
        frame_u=held.u,
        edge_psi=psi,
    )
    return Window(
        glass=glass,
        plane=plane,
        niche=niche,
        glass_share=1.0 - share,
        u=u,
        g=float(solar_factor(glass, tilt=plane.tilt)),
        shutter_u=shuttered_u(u, shutter, fit) if shutter > 0.0 else None,
    )


def sun_through(window: Window, sunshine: PlaneSun) -> Array:
    """Heat of the sun that comes in through a window.

    Q = A·s·[(beam + around)·g(θ) + (sky + ground)·g_d], both scaled to the window's own g

    Parameters
    ----------
    window : Window
        The window: area A, share of glass s.
    sunshine : PlaneSun
        What reaches the glass [W/m2].

    Returns
    -------
    array
        Heat, Q [W].

    References
    ----------
    [ISO13790] : 11.3, solar gains.
    [EN410] : the glass.
    """
    angles, curve, even = _curve(window.glass, window.plane.tilt)
    at_angle = np.interp(sunshine.incidence, angles, curve)  # beyond a right angle as at it
    own = window.g / curve[0] * window.area * window.glass_share
    beam, sky = sunshine.beam + sunshine.around, sunshine.sky + sunshine.ground
    return np.asarray(own * (beam * at_angle + sky * even))


@cache
def _curve(glass: Glass, tilt: float) -> tuple[Array, Array, float]:
    """Solar factor over the angle, and for light from all sides."""
    angles = np.linspace(0.0, 0.5 * np.pi, ANGLE_SAMPLES)
    return angles, solar_factor(glass, angles, tilt=tilt), diffuse_factor(glass, tilt=tilt)


def window_year(
    window: Window, weather: WeatherYear, path: SunPath, *, horizon: Horizon | None = None
) -> WindowYear:
    """A window's year by the hour.

    gain by `sun_through` behind horizon and niche; loss U·A, with the shutter's U while the sun is down

    Parameters
    ----------
    window : Window
        The window.
    weather : WeatherYear
        The weather.
    path : SunPath
        Where the sun stands in the same hours.
    horizon : Horizon or None
        What hides the low sun.

    Returns
    -------
    WindowYear
        Gain [W] and loss [W/K] of 8760 hours.

    References
    ----------
    [PEREZ1990] : sky on the plane.
    [ISO10077] : loss with shutter.
    """
    sunshine = on_plane(weather.sunshine, path, plane=window.plane, albedo=ground_albedo(weather.snow_cover))
    if horizon is not None:
        sunshine = behind_horizon(sunshine, path, plane=window.plane, horizon=horizon)
    reached = in_niche(sunshine, path, plane=window.plane, niche=window.niche)
    closed = window.u if window.shutter_u is None else window.shutter_u
    return WindowYear(
        area=window.area,
        gain=sun_through(window, reached),
        loss=window.area * np.where(path.up, window.u, closed),
    )


def window_balance(
    year: WindowYear, weather: WeatherYear, *, indoor: float = INDOOR, heated_below: float = HEATED_BELOW
) -> Balance:
    """What a window brings and costs in the days that need heat, for each square metre.

    gain = ΣQ·h/A and loss = ΣU·max(0, t_i − t)·h over days with a mean below b; surplus: gain of the others

    Parameters
    ----------
    year : WindowYear
        The window by the hour.
    weather : WeatherYear
        The same hours.
    indoor : float
        Temperature inside, t_i [°C], from 0 to 35.
    heated_below : float
        Daily mean outside under which there is heating, b [°C], from -30 to 30.

    Returns
    -------
    Balance
        Gain, loss, surplus [J/m2].

    Notes
    -----
    All sun of a day that needs heat counts; a house with too much glass cannot use all of it.

    References
    ----------
    [ISO13790] : 11.3 and 8.3, gains and losses of a window.
    """
    within("temperature inside", indoor, 0.0, 35.0, unit="°C")
    within("heating limit", heated_below, -30.0, 30.0, unit="°C")
    heated = np.repeat(daily(weather.temperature) < heated_below, HOURS_A_DAY)
    lost = year.loss * np.maximum(indoor - weather.temperature, 0.0)
    scale = HOUR / year.area
    return Balance(
        gain=float(np.sum(year.gain[heated]) * scale),
        loss=float(np.sum(lost[heated]) * scale),
        surplus=float(np.sum(year.gain[~heated]) * scale),
    )


def window_scan(
    weather: WeatherYear,
    glass: Glass,
    *,
    areas: Sequence[float] = (1.0,),
    tilts: Sequence[float] = (0.5 * np.pi,),
    azimuths: Sequence[float] = (np.pi,),
    shutters: Sequence[float] = (0.0,),
    niches: Sequence[Niche] = (SQUARE,),
) -> tuple[ScanRow, ...]:
    """Windows of every size, tilt, direction, shade and shutter compared in one weather.

    `window_balance` of each; the shape of the hole grown to the area, overhang and reveal kept

    Parameters
    ----------
    weather : WeatherYear
        The weather.
    glass : Glass
        Panes and gaps.
    areas : sequence of float
        Areas of the hole [m2], from 0.1 to 50.
    tilts : sequence of float
        From lying flat [rad], from 0 to π/2.
    azimuths : sequence of float
        The ways they face, from north clockwise [rad].
    shutters : sequence of float
        Resistances of shutters, 0 for none [m2K/W].
    niches : sequence of Niche
        Shapes and shades: overhangs, reveals.

    Returns
    -------
    tuple of ScanRow
        One for each combination, in the order of tilts, azimuths, areas, niches, shutters [J/m2].

    References
    ----------
    [ISO13790] : gains and losses of a window.
    """
    within("area", areas, 0.1, 50.0, unit="m2")
    path, albedo = weather.path(), ground_albedo(weather.snow_cover)
    rows: list[ScanRow] = []
    for tilt, azimuth in product(tilts, azimuths):
        plane = Plane(tilt=tilt, azimuth=azimuth)
        sunshine = on_plane(weather.sunshine, path, plane=plane, albedo=albedo)
        for area, niche in product(areas, niches):
            window = window_of(glass, plane, _grown_to(niche, area))
            reached = in_niche(sunshine, path, plane=plane, niche=window.niche)
            rows += _with_shutters(window, sun_through(window, reached), weather, path.up, shutters)
    return tuple(rows)


def _with_shutters(
    window: Window, gain: Array, weather: WeatherYear, up: NDArray[np.bool_], shutters: Sequence[float]
) -> list[ScanRow]:
    """The same window and sun behind each of the shutters."""
    rows = []
    for shutter in shutters:
        closed = shuttered_u(window.u, shutter) if shutter > 0.0 else window.u
        loss = window.area * np.where(up, window.u, closed)
        balance = window_balance(WindowYear(area=window.area, gain=gain, loss=loss), weather)
        rows.append(
            ScanRow(
                area=window.area,
                tilt=window.plane.tilt,
                azimuth=window.plane.azimuth,
                overhang=window.niche.overhang,
                shutter=shutter,
                u=window.u,
                balance=balance,
            )
        )
    return rows


def _grown_to(shape: Niche, area: float) -> Niche:
    """The same shape of that area; overhang and reveal keep their measures."""
    grown = float(np.sqrt(area / (shape.width * shape.height)))
    return replace(shape, width=shape.width * grown, height=shape.height * grown)


def compare_glasses(
    weather: WeatherYear, glasses: Sequence[Glass], plane: Plane, *, niche: Niche | None = None
) -> tuple[tuple[Window, Balance], ...]:
    """The same hole with different glass, the best first.

    `window_balance` of each, by gain less loss

    Parameters
    ----------
    weather : WeatherYear
        The weather.
    glasses : sequence of Glass
        New or salvaged glazings.
    plane : Plane
        How the window lies.
    niche : Niche or None
        Its size and shade; None: 1 m by 1 m in the open.

    Returns
    -------
    tuple
        Window and its balance [J/m2], the best first.

    References
    ----------
    [ISO13790] : gains and losses of a window.
    """
    path, hole = weather.path(), niche or SQUARE
    found = []
    for glass in glasses:
        window = window_of(glass, plane, hole)
        found.append((window, window_balance(window_year(window, weather, path), weather)))
    return tuple(sorted(found, key=lambda pair: -pair[1].net))
