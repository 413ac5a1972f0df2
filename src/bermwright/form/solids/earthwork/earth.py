"""Ground, fill and turf as bodies: over the vault, and the slopes before and behind it.

The finished surface over the vault is that of its section. Before and behind it, where the file gives a
slope there, it is the lower of that section and of a plane that falls outwards from the top of the mound.
Where soil lies less high against an end wall, a way as wide as the vault is kept free before it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.earth import under_turf
from bermwright.form.shapes import Line
from bermwright.form.solids.bodies import (
    Body,
    below_plane,
    box,
    is_nothing,
    joined,
    leaning,
    pushed,
    pushed_across,
    solid,
    under,
    without,
)
from bermwright.form.solids.nouns import Counted, Kind, Layer
from bermwright.form.solids.shell import faces

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids.nouns import Solid
    from bermwright.house import House, Vault

    Array = NDArray[np.float64]

BELOW = 1.0
"""Ground is drawn so far below everything that is built (m)."""
BESIDE = 2.0
"""And so far past the toes of the mound at both ends (m)."""
FLAT = 1e-6
"""Finished over natural ground that counts as nothing (m)."""
FILM = 1e-5
"""Earth thinner than this is none (m)."""
REACH = 10.0
"""Slopes run on so many times the width of the section (-)."""
ABOVE = 50.0
"""Higher than any mound (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """One end of the mound."""

    side: str
    sign: float
    """Outwards along y."""
    start: float
    """y of the end of the vault (m)."""
    fall: float | None
    """Fall of its slope over run; None: the mound ends upright there."""
    toe: float
    """How far out its slope reaches the natural ground (m)."""
    free: float | None
    """Level up to which soil lies against the end wall; None: not said."""
    hill: float | None
    """Rise over run of a hillside behind it; None: there is none."""

    @property
    def far(self) -> float:
        """Where along y the drawn ground ends (m)."""
        return self.start + self.sign * (self.toe + BESIDE)

    @property
    def stretch(self) -> tuple[float, float]:
        """From and to along y, in order (m)."""
        low, high = sorted((self.start, self.far))
        return low, high


@dataclass(frozen=True, slots=True, kw_only=True)
class Earth:
    """Everything the earth's bodies are made from."""

    form: VaultForm
    slopes: tuple[Slope, ...]
    """Front, back."""
    across: tuple[float, float]
    bottom: float
    fall: float
    """Rise of the natural ground for each metre inwards (-)."""
    half: tuple[float, float]
    """Outermost places of the shell across (m)."""

    @property
    def top(self) -> float:
        """Highest level of the finished ground (m)."""
        return self.form.ground.top

    @property
    def middle(self) -> float:
        """Mid-length along y (m)."""
        return 0.5 * self.form.length


def earth_of(house: House, vault: Vault, form: VaultForm, lowest: float) -> Earth:
    """What is known of the ground round a vault whose lowest part lies at a level."""
    ground = form.ground
    across = (float(ground.finished.x[0]), float(ground.finished.x[-1]))
    fall = _fall_along(house, vault)
    slopes = (_slope(house, vault, form, "front", fall), _slope(house, vault, form, "back", fall))
    reach = max(abs(slope.far - 0.5 * form.length) for slope in slopes)
    least = min(float(np.min(ground.natural.z)) - abs(fall) * reach, lowest)
    return Earth(
        form=form,
        slopes=slopes,
        across=across,
        bottom=least - BELOW,
        fall=fall,
        half=(float(form.soil_face.x.min()), float(form.soil_face.x.max())),
    )


def _fall_along(house: House, vault: Vault) -> float:
    """How the natural ground rises along the vault; nothing where its line was drawn or is not known."""
    site = house.site
    drawn = vault.mound is not None and vault.mound.natural
    if drawn or not site.slope or site.faces is None or vault.axis is None:
        return 0.0
    return -float(np.tan(site.slope) * np.cos(site.faces - vault.axis))


def _slope(house: House, vault: Vault, form: VaultForm, side: str, fall: float) -> Slope:
    end = next((one for one in house.ends if one.vault == vault.name and one.at == side), None)
    sign, start = (-1.0, 0.0) if side == "front" else (1.0, form.length)
    angle = None if vault.mound is None else getattr(vault.mound, side)
    steep = float(np.tan(angle)) if angle else None
    hill = float(np.tan(end.rises)) if end is not None and end.hillside else None
    natural = float(np.min(form.ground.natural.z)) + 0.5 * sign * fall * form.length
    height = max(form.ground.top - natural, 0.0)
    # Ground that falls away makes the slope longer, ground that rises shorter.
    toe = 0.0 if steep is None else height / max(steep + sign * fall, 0.2 * steep)
    return Slope(
        side=side,
        sign=sign,
        start=start,
        fall=steep,
        toe=toe,
        free=None if end is None else end.soil_to,
        hill=hill,
    )


def natural_body(earth: Earth) -> Body:
    """All natural ground, as it was before anybody dug."""
    low, high = earth.slopes[0].far, earth.slopes[1].far
    deep = earth.bottom - abs(earth.fall) * (high - low)
    block = under(earth.form.ground.natural, earth.across, deep, (low, high))
    whole = leaning(block, earth.fall, earth.middle).trim_by_plane((0.0, 0.0, 1.0), earth.bottom)
    hills = [_hill(earth, slope) for slope in earth.slopes if earth.fall == 0.0 and slope.hill is not None]
    return joined([whole, *hills])


def _hill(earth: Earth, slope: Slope) -> Body:
    """The hillside an end is dug into: it rises from the level of the soil against that end."""
    level = 0.0 if slope.free is None else slope.free
    block = box(earth.across, slope.stretch, (earth.bottom, level + ABOVE))
    return below_plane(block, level, -(slope.hill or 0.0), slope.start, slope.sign)


def _heaped(earth: Earth, line: Line, *, drop: float) -> Body:
    """Everything under the finished surface (or under its turf): over the vault, before and behind it.

    It is cut from one block, as blocks that meet along the crest of a slope leave slivers there.
    """
    front, back = (slope.start if slope.fall is None else slope.far for slope in earth.slopes)
    body = under(line, earth.across, earth.bottom, (front, back))
    for slope in earth.slopes:
        body = _sloped(earth, body, slope, drop=drop)
    # Under its turf a slope begins lower than the section: over the vault the section counts.
    over = [under(line, earth.across, earth.bottom, (0.0, earth.form.length))] if drop else []
    return joined([body, *over])


def _sloped(earth: Earth, body: Body, slope: Slope, *, drop: float) -> Body:
    """What of a body lies under the slope of an end."""
    if slope.fall is None:
        return body
    level = earth.top - drop * float(np.hypot(1.0, slope.fall))
    return below_plane(body, level, slope.fall, slope.start, slope.sign)


def _slopes(earth: Earth, line: Line, *, drop: float) -> list[Body]:
    """The same before and behind the vault alone."""
    blocks = [
        (under(line, earth.across, earth.bottom, slope.stretch), slope)
        for slope in earth.slopes
        if slope.fall is not None
    ]
    return [_sloped(earth, block, slope, drop=drop) for block, slope in blocks]


def ways(earth: Earth, *, drop: float = 0.0) -> list[Body]:
    """What is kept free before the end walls, as wide as the vault.

    It is level out to the toe and then rises as steeply as the mound falls; before a hillside it rises with
    it from the wall on.
    """
    found = []
    for slope in earth.slopes:
        if slope.free is None:
            continue
        level, rise = slope.free - drop, slope.fall if slope.hill is None else slope.hill
        edge = slope.start + (slope.sign * slope.toe if slope.hill is None else 0.0)
        high = level + ABOVE
        far = level + (rise or 0.0) * abs(slope.far - edge)
        outline = np.array(
            [[slope.start, high], [slope.start, level], [edge, level], [slope.far, far], [slope.far, high]]
        )
        # Anticlockwise for either end; a way that rises from the wall on has no level part.
        ring = outline if slope.sign > 0 else outline[::-1]
        found.append(pushed_across(_distinct(ring), *earth.half))
    return found


def _distinct(ring: Array) -> Array:
    """A ring without points that repeat the one before."""
    step = np.abs(ring - np.roll(ring, 1, axis=0)).max(axis=1)
    return np.asarray(ring[step > FLAT])


def mound_line(earth: Earth, line: Line) -> Line:
    """A surface whose slopes run on under the natural ground, where that ground leans along the vault.

    Past the toes the section's finished ground is the natural one of mid-length, and not a fill.
    """
    if earth.fall == 0.0:
        return line
    x = np.union1d(line.x, earth.form.ground.natural.x)
    raised = np.flatnonzero(line.level(x) - earth.form.ground.natural.level(x) > FLAT)
    if raised.size == 0:
        return Line(x=line.x, z=np.full_like(line.z, earth.bottom))
    first, last = max(int(raised[0]) - 1, 0), min(int(raised[-1]) + 1, x.size - 1)
    kept = x[first : last + 1]
    z = line.level(kept)
    run = max(abs(earth.across[0]), abs(earth.across[1])) * REACH
    slopes = (z[1] - z[0]) / (kept[1] - kept[0]), (z[-1] - z[-2]) / (kept[-1] - kept[-2])
    places = np.concatenate([[kept[0] - run], kept, [kept[-1] + run]])
    levels = np.concatenate([[z[0] - run * slopes[0]], z, [z[-1] + run * slopes[1]]])
    return Line(x=places, z=levels)


def earth_layers(
    earth: Earth, shell: Body, built: Sequence[Body], cutters: Sequence[Body]
) -> tuple[Layer, ...]:
    """Natural ground with its dig, fill, turf."""
    form = earth.form
    natural = natural_body(earth)
    # Where the finished surface is the natural one, no film of nothing is left between them.
    grown = joined([natural, natural.translate((0.0, 0.0, FILM))])
    low = _heaped(earth, mound_line(earth, under_turf(form)), drop=form.ground.turf)
    high = _heaped(earth, mound_line(earth, form.ground.finished), drop=0.0)
    free = ways(earth)
    taken = [shell, *built, *cutters]
    soiled = without(low, ways(earth, drop=form.ground.turf))
    # Nor at the bottom, down to which all of them are drawn.
    lifted = (0.0, 0.0, 1.0), earth.bottom + 0.5 * BELOW
    soil = without(soiled - grown, taken).trim_by_plane(*lifted)
    turf = without(without(high, free) - grown - soiled, taken).trim_by_plane(*lifted)
    over = _dug(earth)
    ground = without(natural, [*taken, *free, over])
    layers = [Layer(name="ground", kind=Kind.GROUND, solids=(solid("natural ground", Kind.GROUND, ground),))]
    if not is_nothing(soil):
        layers.append(Layer(name="fill", kind=Kind.FILL, solids=(_fill(earth, soil),)))
    if form.ground.turf > 0.0 and not is_nothing(turf):
        layers.append(Layer(name="turf", kind=Kind.TURF, solids=(_turf(earth, turf),)))
    return tuple(layers)


def _dug(earth: Earth) -> Body:
    """Air over the finished surface along the vault, where it is dug down into the natural ground."""
    form, along = earth.form, (0.0, earth.form.length)
    air = box(earth.across, along, (earth.bottom, earth.top + ABOVE))
    return air - under(form.ground.finished, earth.across, earth.bottom, along)


def _void(earth: Earth) -> Body:
    """What the take-off leaves out of the soil: the shell, and everything under it between its feet."""
    _, outer = faces(earth.form)
    feet = [[outer[-1, 0], earth.bottom - 1.0], [outer[0, 0], earth.bottom - 1.0]]
    return pushed(np.vstack([outer, feet])[::-1], 0.0, earth.form.length)


def _level_natural(earth: Earth) -> Body:
    """Natural ground as the take-off counts it: the section's, all along."""
    return under(
        earth.form.ground.natural,
        earth.across,
        earth.bottom - 0.5,
        (earth.slopes[0].far, earth.slopes[1].far),
    )


def _before(earth: Earth, line: Line, *, drop: float) -> Body:
    """Everything under a surface before and behind the vault, without the ways."""
    ends = _slopes(earth, mound_line(earth, line), drop=drop)
    return without(joined(ends), ways(earth, drop=drop))


def _fill(earth: Earth, body: Body) -> Solid:
    over = under(under_turf(earth.form), earth.across, earth.bottom, (0.0, earth.form.length))
    counted = (over - _level_natural(earth) - _void(earth)).volume()
    if any(slope.fall is not None for slope in earth.slopes):
        before = _before(earth, under_turf(earth.form), drop=earth.form.ground.turf)
        counted += (before - natural_body(earth)).volume()
    return solid("fill", Kind.FILL, body, counted=Counted(volume=float(counted), why=_why_fill(earth)))


def _turf(earth: Earth, body: Body) -> Solid:
    high = under(earth.form.ground.finished, earth.across, earth.bottom, (0.0, earth.form.length))
    low = under(under_turf(earth.form), earth.across, earth.bottom, (0.0, earth.form.length))
    counted = (high - low - _level_natural(earth) - _void(earth)).volume()
    if any(slope.fall is not None for slope in earth.slopes):
        over = _before(earth, earth.form.ground.finished, drop=0.0)
        soil = _before(earth, under_turf(earth.form), drop=earth.form.ground.turf)
        counted += (over - soil - natural_body(earth)).volume()
    return solid("turf", Kind.TURF, body, counted=Counted(volume=float(counted)))


def _why_fill(earth: Earth) -> str:
    says = ["walls and their insulation are counted as ending under the soil face"]
    if earth.fall:
        says.append("over the vault the ground is counted as level along it")
    return "; ".join(says)
