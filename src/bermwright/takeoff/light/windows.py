"""The windows of the house file, ready to be counted, with everything that had to be assumed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.units import show
from bermwright.data.glasses import GLASSES
from bermwright.handbook.glazing import Frame, Window, glass_u, shuttered_u, window_of, window_u
from bermwright.handbook.sun import Horizon, Niche, Plane
from bermwright.house.parts.choices import OpeningSide
from bermwright.takeoff.light.holes import axes_of, walls_of

if TYPE_CHECKING:
    from bermwright.data.glasses import Glass
    from bermwright.house import House, Opening

UPRIGHT = 0.5 * np.pi
REVEAL = 0.1
"""How far the glass lies behind the face of a wall whose thickness is not known (m)."""
SHUTTER = 0.25
"""Resistance of a shutter of 30 mm boards (m²K/W)."""
STAND_IN = "double, coated"
"""Glass whose angles stand for one that is known by its U and g alone."""
TURNS = {
    OpeningSide.FRONT: np.pi,
    OpeningSide.BACK: 0.0,
    OpeningSide.LEFT: -0.5 * np.pi,
    OpeningSide.RIGHT: 0.5 * np.pi,
    OpeningSide.CROWN: np.pi,
}
"""From the way one looks when walking in to the way out of the opening, clockwise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseWindow:
    """One glazed opening of the house."""

    opening: Opening
    window: Window | None
    """None while something is missing."""
    missing: tuple[str, ...] = ()
    """Places in the house file without which it cannot be counted."""
    assumed: tuple[str, ...] = ()
    """What the file does not say and was assumed, in sentences."""

    @property
    def area(self) -> float:
        """Of the hole (m²)."""
        return self.opening.area


def windows_of(house: House, *, shutter: float = SHUTTER) -> tuple[HouseWindow, ...]:
    """Every glazed opening of the house, in the order of the file."""
    axes = axes_of(house)
    return tuple(
        _counted(house, opening, axes.get(opening.vault), shutter)
        for opening in house.openings
        if opening.kind.glazed
    )


def site_horizon(house: House) -> Horizon | None:
    """Hills and woods around the site; None where the file names none: the horizon counts as level."""
    if not house.site.horizon:
        return None
    points = sorted((point.direction % (2.0 * np.pi), point.height) for point in house.site.horizon)
    return Horizon(
        directions=tuple(float(direction) for direction, _ in points),
        heights=tuple(float(height) for _, height in points),
    )


def _counted(house: House, opening: Opening, axis: float | None, shutter: float) -> HouseWindow:
    name, said = _glass(opening)
    missing = [
        *(["vault.axis"] if axis is None else []),
        *(["opening.panes"] if name is None else []),
    ]
    if axis is None or name is None:
        return HouseWindow(opening=opening, window=None, missing=tuple(missing))
    plane, assumed = _plane(opening, axis)
    niche, shaded = _niche(house, opening)
    window, counted = _own(opening, GLASSES[name], plane, niche, shutter)
    return HouseWindow(opening=opening, window=window, assumed=(*assumed, *shaded, *said, *counted))


def _glass(opening: Opening) -> tuple[str | None, tuple[str, ...]]:
    """The name of its glass; two panes stand for the angles where only U and g are given."""
    if opening.panes is None:
        if opening.u_value is None or opening.g_value is None:
            return None, ()
        return STAND_IN, ("The sun enters it at an angle as through two panes.",)
    name = f"{opening.panes.value}, salvaged" if opening.salvaged else opening.panes.value
    return name, (f"Its glass counts as {name}.",)


def _plane(opening: Opening, axis: float) -> tuple[Plane, tuple[str, ...]]:
    azimuth = float((axis + TURNS[opening.side]) % (2.0 * np.pi))
    if opening.side is OpeningSide.CROWN:
        return Plane(tilt=0.0, azimuth=azimuth), ("The glass in the crown counts as lying flat.",)
    if opening.side.in_end:
        return Plane(tilt=UPRIGHT, azimuth=azimuth), ()
    return Plane(tilt=UPRIGHT, azimuth=azimuth), (
        "The glass in the shell counts as upright, as in a dormer.",
    )


def _niche(house: House, opening: Opening) -> tuple[Niche, tuple[str, ...]]:
    """Size and shade of the hole."""
    bare = Niche(width=opening.width, height=opening.height, overhang=opening.overhang or 0.0)
    if opening.side is OpeningSide.CROWN:
        return bare, ()
    reveal, said = _reveal(house, opening)
    return replace(bare, reveal=reveal), said


def _reveal(house: House, opening: Opening) -> tuple[float, tuple[str, ...]]:
    thick = [
        end.thickness
        for end in house.ends
        if end.vault == opening.vault and end.at.value == opening.side.value and end.thickness is not None
    ]
    thick += [thickness for part, thickness in walls_of(house).items() if part == opening.vault]
    reveal = 0.5 * thick[0] if thick else REVEAL
    return reveal, (f"Its glass counts as {show(reveal, 'mm', 0)} behind the face of the wall.",)


def _own(
    opening: Opening, glass: Glass, plane: Plane, niche: Niche, shutter: float
) -> tuple[Window, tuple[str, ...]]:
    """The window with what its builder knows better put in."""
    made = window_of(glass, plane, niche)
    said: list[str] = []
    if opening.frame_share is not None:
        made = replace(made, glass_share=1.0 - opening.frame_share, u=_u_of(made, opening.frame_share))
    else:
        said.append(f"Its frame takes {1.0 - made.glass_share:.0%} of the hole.")
    if opening.u_value is not None:
        made = replace(made, u=opening.u_value)
    if opening.g_value is not None:
        made = replace(made, g=opening.g_value)
    if opening.shutter:
        made = replace(made, shutter_u=shuttered_u(made.u, shutter))
        said.append(f"Its shutter counts as closed while the sun is down, {shutter:.2f} m²K/W.")
    if opening.overhang is None:
        said.append("Nothing stands out over it.")
    return made, tuple(said)


def _u_of(window: Window, share: float) -> float:
    """U of the whole with a known share of frame; the edge as long as round one pane."""
    frame, area = Frame(), window.area
    pane = np.sqrt(1.0 - share)
    return window_u(
        glass_area=area * (1.0 - share),
        frame_area=area * share,
        edge=float(2.0 * pane * (window.niche.width + window.niche.height)),
        glass_u=glass_u(window.glass, tilt=window.plane.tilt),
        frame_u=frame.u,
        edge_psi=frame.edge_psi if window.glass.gaps else 0.0,
    )
