"""What is drawn over the shown section: bending in its corridor, loads on the face, forces of the feet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.app.live.handles import drawn_height
from bermwright.base.findings import Shown as Number
from bermwright.base.findings import Spot
from bermwright.base.marks import Arrows, Bags, Comb, FootForce, Ring, Side
from bermwright.base.units import show
from bermwright.rules.ribs.common import spot_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.app.live.kernel import Shown
    from bermwright.base.marks import Mark
    from bermwright.rules.analysis.response import Analysis

    Array = NDArray[np.float64]

ARROWS = 12
"""About so many load arrows over the shell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FootShown:
    """What one foot gives its support."""

    side: str
    x: float
    z: float
    down: tuple[float, float]
    """Least and largest (N per metre of vault)."""
    across: tuple[float, float]
    """Least and largest inward (N per metre of vault)."""
    text: str


def marks_of(shown: Shown, system: str = "metric") -> tuple[Mark, ...]:
    """Everything that is drawn over the section of this case."""
    return (*_bags(shown, system), *_comb(shown), *_arrows(shown), *_feet(shown))


def _bags(shown: Shown, system: str) -> Iterator[Mark]:
    """Ballast, in the cases in which it lies there."""
    bags = shown.study.house.stages.ballast
    if bags is not None and shown.case.ballast:
        text = f"ballast {show(bags.weight, 'kPa', 2, system)}"
        yield Bags(half=0.5 * bags.width, height=drawn_height(bags.weight), text=text)


def _comb(shown: Shown) -> Iterator[Mark]:
    """Bending at the governing corner, and what the ribs can take beside their thrust."""
    analysis, lane, mesh = shown.analysis, shown.lane, shown.study.form.mesh
    bending = analysis.moment[lane, 0]
    moment = np.append(bending[:, 0], bending[-1, 1])
    axial = analysis.response.axial[lane, 0]
    corridor = _corridor(shown, np.append(axial, axial[-1]))
    if not (np.isfinite(moment).all() and np.isfinite(corridor).all()):
        return
    worst = int(np.argmax(np.abs(moment) / np.maximum(corridor, 1.0)))
    yield Comb(
        x=tuple(mesh.x.tolist()),
        z=tuple(mesh.z.tolist()),
        moment=tuple(moment.tolist()),
        corridor=tuple(corridor.tolist()),
        text=Number(abs(float(moment[worst])), "kNm", 2).text(),
        allowed=f"of {Number(float(corridor[worst]), 'kNm', 2).text()}",
    )
    if abs(moment[worst]) > corridor[worst]:
        yield Ring(spot=spot_of(shown.study, worst))


def _corridor(shown: Shown, axial: Array) -> Array:
    """Bending that the ribs can take beside their thrust, at every node (N m)."""
    strength, analysis = shown.study.strength, shown.analysis
    kmod = float(strength.kmods(analysis)[0])
    shares = strength.shares(analysis.frame.elements)
    share = np.minimum(np.append(shares[:, 0], shares[-1, 1]), np.append(shares[0, 0], shares[:, 1]))
    along = np.where(
        axial < 0.0,
        float(strength.design(strength.timber.tension, kmod)),
        float(strength.design(strength.timber.compression, kmod)),
    )
    used = np.abs(axial) / (share * strength.area * along)
    left = 1.0 - np.where(axial < 0.0, used, used**2)
    bending = float(strength.design(strength.bending_strength, kmod))
    return np.asarray(np.maximum(left, 0.0) * bending * strength.modulus)


def _arrows(shown: Shown) -> Iterator[Mark]:
    """What the soil presses on the face at the governing corner."""
    mesh, lane = shown.study.form.mesh, shown.analysis.lanes[shown.lane]
    depth = shown.case.depth
    down = shown.analysis.factors.permanent * lane.unit_weight * lane.vertical * depth
    across = shown.analysis.response.pressure[shown.lane, 0] * np.sign(mesh.rise)
    if not (np.isfinite(across).all() and depth.any()):
        return
    step = max(1, mesh.x.size // ARROWS)
    picked = [i for i in range(step // 2, mesh.x.size, step) if depth[i] > 0.0]
    yield Arrows(
        x=tuple(float(mesh.soil_x[i]) for i in picked),
        z=tuple(float(mesh.soil_z[i]) for i in picked),
        across=tuple(float(across[i]) for i in picked),
        down=tuple(float(down[i]) if mesh.plan[i] > 0.0 else 0.0 for i in picked),
    )


def _feet(shown: Shown) -> Iterator[FootForce]:
    form = shown.study.form
    ends = [_reach(analysis) for analysis in shown.study.analyses]
    for number, side in enumerate(Side):
        low = np.min([one[0][number] for one in ends], axis=0) / form.spacing
        high = np.max([one[1][number] for one in ends], axis=0) / form.spacing
        node = 0 if number == 0 else form.mesh.x.size - 1
        yield FootForce(
            side=side,
            spot=Spot(float(form.mesh.x[node]), float(form.mesh.z[node])),
            down=(float(low[1]), float(high[1])),
            inward=(float(-high[0]), float(-low[0])),
        )


def _reach(analysis: Analysis) -> tuple[Array, Array]:
    """Least and largest forces of both feet over the corners (2 feet, outward and down; N on one rib)."""
    feet = analysis.response.feet[:, 0, :, :2]
    return feet.min(axis=0), feet.max(axis=0)


def feet_of(shown: Shown, system: str) -> tuple[FootShown, ...]:
    """The same in words."""
    return tuple(
        FootShown(
            side=str(one.side),
            x=one.spot.x,
            z=one.spot.z,
            down=one.down,
            across=one.inward,
            text=", ".join(
                (
                    _range(one.down, "down", "up", system),
                    _range(one.inward, "inward", "outward", system),
                )
            ),
        )
        for one in _feet(shown)
    )


def _range(ends: tuple[float, float], plus: str, minus: str, system: str) -> str:
    """A range of forces in words, never with a bare minus sign."""
    low, high = sorted(ends)
    if not np.isfinite([low, high]).all():
        return f"{plus} unknown"
    if low >= 0.0 or high <= 0.0:
        near, far = (show(value, "kN/m", 1, system) for value in sorted((abs(low), abs(high))))
        word = plus if low >= 0.0 else minus
        return f"{far} {word}" if near == far else f"{near} to {far} {word}"
    return f"{show(-low, 'kN/m', 1, system)} {minus} to {show(high, 'kN/m', 1, system)} {plus}"
