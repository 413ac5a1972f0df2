"""Wind on bare ribs along the axis, and what braces, guys and anchors hold."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.timber_classes import strength_class
from bermwright.rules.whole.nail import nail_design
from bermwright.rules.whole.storms import BARE_FORM, site_gust

if TYPE_CHECKING:
    from bermwright.house import BraceBoards, Guy
    from bermwright.rules.study import Study

WIND_FACTOR = 1.5
"""On wind (EN 1990, table A1.2(B))."""
AIR = 1.25
"""Density of air (kg/m3)."""
ROPE_FACTOR = 1.0
"""A working load already has its own factor."""
TRIED_FACTOR = 1.5
"""A pull with which an anchor was tried counts over this: once is not every time (judgement)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RibWind:
    """Wind along the axis on the bare ribs, characteristic values."""

    gust: float
    """Pressure (Pa)."""
    each: float
    """On one rib (N)."""
    height: float
    """Over the feet at which it acts (m)."""
    ribs: int

    @property
    def all(self) -> float:
        """On all ribs, none in the lee of another (N)."""
        return self.each * self.ribs


def rib_wind(study: Study, gust: float | None = None) -> RibWind | None:
    """Wind on the ribs in a gust, the site's own unless another is given; None while it is not known."""
    pressure = site_gust(study) if gust is None else gust
    if pressure is None:
        return None
    line, form = study.form.rib.centreline, study.form
    middle = 0.5 * (line.z[1:] + line.z[:-1])
    height = float(np.average(middle, weights=np.diff(line.s))) - form.springing
    area = form.rib.depth * line.length
    return RibWind(gust=pressure, each=BARE_FORM * pressure * area, height=height, ribs=form.ribs)


def gust_of_speed(speed: float) -> float:
    """Pressure of a gust of that speed (Pa)."""
    return 0.5 * AIR * speed**2


def brace_holds(study: Study, brace: BraceBoards) -> float | None:
    """Along the axis, both sides of the vault, by the boards that are pulled or pressed one way (N).

    Half of the nails of a board lie on either side of its middle and give it its force. None: not known.
    """
    if brace.nail is None or brace.nails is None or brace.timber is None:
        return None
    one = nail_design(
        brace.nail,
        brace.section.thickness,
        strength_class(brace.timber),
        service_class=3,
        duration="instantaneous",
        depth=study.form.rib.depth,
        predrilled=brace.predrilled,
    )
    if one is None:
        return 0.0
    each = one * brace.nails * max(brace.ribs // 2, 1)
    return 2.0 * each * float(np.cos(brace.slant)) * max(brace.count // 2, 1)


def board_force(brace: BraceBoards, along: float) -> float:
    """In one board when the braces take that much along the axis (N)."""
    boards = 2.0 * max(brace.count // 2, 1)
    return along / (boards * float(np.cos(brace.slant)))


def guy_holds(study: Study, guy: Guy) -> float | None:
    """Along the axis, all guys that pull one way (N); None while rope or anchor is not known."""
    if guy.holds is None or guy.anchor_holds is None:
        return None
    rope = min(guy.holds / ROPE_FACTOR, guy.anchor_holds / TRIED_FACTOR)
    return rope * guy.count * float(np.cos(guy_angle(study, guy)))


def guy_angle(study: Study, guy: Guy) -> float:
    """Of a guy over the ground (rad)."""
    ground = float(study.form.ground.natural.level(0.0))
    return float(np.arctan2(max(guy.level - ground, 0.0), guy.reach))


def guy_length(study: Study, guy: Guy) -> float:
    """From rib to anchor (m)."""
    return guy.reach / float(np.cos(guy_angle(study, guy)))


def guy_lever(study: Study, guy: Guy, wind: RibWind) -> float:
    """How much more a guy holds than a force where the wind acts: it pulls higher up (-)."""
    return max(guy.level - study.form.springing, 0.0) / wind.height


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """What braces and guys hold together, where the wind acts (N)."""

    braces: float
    guys: float
    unknown: tuple[str, ...]

    @property
    def all(self) -> float:
        """Both."""
        return self.braces + self.guys


def holding(study: Study, wind: RibWind) -> Holding:
    """Over all braces and guys of the file."""
    erection = study.house.erection
    braces, guys, lost = 0.0, 0.0, []
    for brace in () if erection is None else erection.braces:
        found = brace_holds(study, brace)
        braces += found or 0.0
        lost += ["erection.brace.nail, nails and timber"] if found is None else []
    for guy in () if erection is None else erection.guys:
        found = guy_holds(study, guy)
        guys += (found or 0.0) * guy_lever(study, guy, wind)
        lost += ["erection.guy.holds and anchor_holds"] if found is None else []
    return Holding(braces=braces, guys=guys, unknown=tuple(dict.fromkeys(lost)))
