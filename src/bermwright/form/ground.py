"""Natural and finished ground in the section of a vault."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.known import known
from bermwright.form.lines import broken, frozen, upper
from bermwright.form.shapes import GroundForm, Line
from bermwright.handbook.curves import CoverLoad

if TYPE_CHECKING:
    from bermwright.base.ranges import Range
    from bermwright.house import Fill, House, Mound, Vault

RIB_UNIT_WEIGHT = 4.2e3
"""Of softwood in the ribs, for the shape "under cover" only, where it is a few hundredths of the load
(N/m3; EN 1991-1-1, table A.3, strength class C24, from memory)."""
FAR = 250.0
"""Where a hillside is cut off before the finished ground has been laid against it (m)."""
BESIDE = 2.0
"""How far beyond its toes the ground is kept (m)."""
HAIR = 1e-6
"""Lengths that count as nothing (m)."""
WIDEST = 6.0
"""Spans from mid-span to which a ground is kept that never meets the natural one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What lies around the centreline of a vault."""

    ground: GroundForm
    crown_level: float
    """Level of the centreline's crown (m)."""
    cover: float
    """Soil over the top of the soil face (m)."""
    face: float
    """From the centreline out to the soil face (m)."""
    load: CoverLoad | None
    """For the curve under cover; None when the soil is not known."""


def missing_for_ground(house: House, vault: Vault) -> tuple[str, ...]:
    """What the file does not say and the ground cannot do without, as plain paths."""
    mound, site = vault.mound, house.site
    if mound is None:
        return ("vault.mound",)
    wanted = [] if mound.line else [f"vault.mound.{n}" for n in ("crown", "left", "right")]
    missing = [path for path in wanted if getattr(mound, path.rsplit(".", 1)[1]) is None]
    if mound.turf is None:
        missing.append("vault.mound.turf")
    if not mound.natural:
        missing += [f"site.{name}" for name in ("floor", "slope") if getattr(site, name) is None]
        if site.slope:
            missing += [] if site.faces is not None else ["site.faces"]
            missing += [] if vault.axis is not None else ["vault.axis"]
    return tuple(missing)


def around_vault(
    house: House, vault: Vault, *, crown_level: float, face: float
) -> tuple[Around, tuple[str, ...]]:
    """The ground around a vault whose centreline has its crown at a level, and remarks."""
    mound = known(vault.mound, "vault.mound")
    natural = _natural(house, vault, mound)
    top = crown_level + face
    finished = _drawn(mound, natural) if mound.line else _mounded(mound, natural, top)
    reach = _reach(natural, finished, WIDEST * vault.span)
    low, high = _water(natural, house.site.water_depth)
    ground = GroundForm(
        natural=_cropped(natural, reach),
        finished=_cropped(finished, reach),
        turf=known(mound.turf, "vault.mound.turf"),
        water_low=low,
        water_high=high,
    )
    cover = float(finished.level(0.0)) - top
    load = _load(vault, house.fill(vault), face)
    around = Around(ground=ground, crown_level=crown_level, cover=cover, face=face, load=load)
    return around, tuple(_remarks(mound, natural, cover, top))


def rise_to(house: House, vault: Vault) -> float:
    """How much higher the natural ground lies under the middle of a part than under that of the first (m)."""
    site = house.site
    if not site.slope or site.faces is None:
        return 0.0
    down = (vault.east or 0.0) * np.sin(site.faces) + (vault.north or 0.0) * np.cos(site.faces)
    return -float(np.tan(site.slope) * down)


def _natural(house: House, vault: Vault, mound: Mound) -> Line:
    if mound.natural:
        return broken(mound.natural)
    site = house.site
    slope, fall = known(site.slope, "site.slope"), 0.0
    if slope:
        # Right, as seen walking in, is a quarter turn clockwise from the axis.
        right = known(vault.axis, "vault.axis") + 0.5 * np.pi
        fall = np.tan(slope) * np.cos(known(site.faces, "site.faces") - right)
    x = np.array([-FAR, FAR])
    return Line(x=frozen(x), z=frozen(rise_to(house, vault) - known(site.floor, "site.floor") - fall * x))


def _mounded(mound: Mound, natural: Line, top: float) -> Line:
    level = top + known(mound.crown, "vault.mound.crown")
    left = _slope(level, np.tan(known(mound.left, "vault.mound.left")), mound.left_toe)
    right = _slope(level, np.tan(known(mound.right, "vault.mound.right")), mound.right_toe)
    points = [(-mound.flat - run, z) for run, z in left] + [(mound.flat + run, z) for run, z in right]
    return upper(broken(sorted(set(points))), natural)


def _slope(level: float, steepness: float, toe: float | None) -> list[tuple[float, float]]:
    """Points down one side, counted from the edge of the level top."""
    if steepness <= 0.0 or (toe is not None and toe >= level):
        return [(0.0, level), (FAR, level)]
    if toe is None:
        return [(0.0, level), (FAR, level - FAR * steepness)]
    run = (level - toe) / steepness
    return [(0.0, level), (run, toe), (run + FAR, toe)]


def _drawn(mound: Mound, natural: Line) -> Line:
    """The drawn line where it was drawn, the natural ground beyond."""
    x, z = np.array(mound.line).T
    beyond = [-FAR, *natural.x, FAR]
    outer = np.array(sorted({float(at) for at in beyond if at < x[0] - HAIR or at > x[-1] + HAIR}))
    ends = np.array([x[0] - HAIR, x[-1] + HAIR])
    places = np.concatenate([x, outer, ends])
    levels = np.concatenate([z, natural.level(outer), natural.level(ends)])
    order = np.argsort(places)
    return Line(x=frozen(places[order]), z=frozen(levels[order]))


def _reach(natural: Line, finished: Line, widest: float) -> tuple[float, float]:
    """How far to the left and right the section is worth keeping (m)."""
    x = np.union1d(natural.x, finished.x)
    apart = np.abs(finished.level(x) - natural.level(x)) > HAIR
    ends = []
    for at, side in ((np.argmax(apart), -1), (x.size - 1 - np.argmax(apart[::-1]), 1)):
        toe = float(x[np.clip(at + side, 0, x.size - 1)]) if apart.any() else 0.0
        far = abs(toe) if abs(toe) < 0.9 * FAR else 0.0
        ends.append(max(far + BESIDE, 0.5 * widest) if far else widest)
    return -ends[0], ends[1]


def _cropped(line: Line, reach: tuple[float, float]) -> Line:
    inside = line.x[(line.x > reach[0]) & (line.x < reach[1])]
    x = np.concatenate([[reach[0]], inside, [reach[1]]])
    return Line(x=frozen(x), z=frozen(line.level(x)))


def _water(natural: Line, depth: Range | None) -> tuple[float | None, float | None]:
    if depth is None:
        return None, None
    surface = float(natural.level(0.0))
    return surface - depth.high, surface - depth.low


def _load(vault: Vault, fill: Fill | None, face: float) -> CoverLoad | None:
    if fill is None or fill.unit_weight is None or fill.friction_angle is None:
        return None
    rib = RIB_UNIT_WEIGHT * vault.rib_width * vault.rib_depth / vault.spacing
    layers = sum(
        np.nan if layer.unit_weight is None else layer.unit_weight * layer.thickness for layer in vault.cover
    )
    return CoverLoad(
        unit_weight=fill.unit_weight.middle,
        sideways=1.0 - float(np.sin(fill.friction_angle.middle)),
        self_weight=rib + float(layers),
        face=face,
    )


def _remarks(mound: Mound, natural: Line, cover: float, top: float) -> list[str]:
    says = []
    if float(natural.level(0.0)) > top + (mound.crown or 0.0):
        says.append(
            "The natural ground stands higher than the mound over the crown: the vault is counted as covered "
            f"to {cover:.2f} m."
        )
    if cover < 0.0:
        says.append(f"The finished ground lies {-cover:.2f} m below the top of the vault.")
    return says
