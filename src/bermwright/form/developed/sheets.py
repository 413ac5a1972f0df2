"""Membranes cut flat: strips over a vault, gores over a dome, and what they weigh."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.domes import GORE_TOP
from bermwright.data.rates import LIFT_LIMIT
from bermwright.form.developed.shapes import Pattern, SheetPlan
from bermwright.form.dome.profile import outer_face
from bermwright.handbook.compass import dome_surface
from bermwright.handbook.developing import gore_edge_excess, gore_half_width, strips_needed
from bermwright.handbook.lifting import lifters_needed
from bermwright.house import CoverKind
from bermwright.house.making.words import Laid

if TYPE_CHECKING:
    from bermwright.base.drawing import Path
    from bermwright.form.dome.shapes import DomeForm
    from bermwright.form.shapes import VaultForm
    from bermwright.house import Vault
    from bermwright.house.making.sheets import SheetRoll

GRAVITY = 9.81
MOST_GORES = 96
"""More gores than these nobody laps."""


def vault_sheets(form: VaultForm, vault: Vault, roll: SheetRoll) -> tuple[SheetPlan, ...]:
    """Both ways to lay strips on each membrane: over the crown, and along the vault."""
    plans = []
    for band, cover in zip(form.bands, vault.cover, strict=True):
        if cover.kind is CoverKind.MEMBRANE:
            each = _mass_per_area(roll, cover.thickness, cover.unit_weight)
            around, along = band.inner.length, form.length
            net = around * along
            part = f'vault "{form.name}", {band.name}'
            plans.append(_strips(part, "over the crown", (around, along), roll, each, net))
            plans.append(_strips(part, "along the vault", (along, around), roll, each, net))
    return tuple(plans)


def _strips(
    part: str, way: str, size: tuple[float, float], roll: SheetRoll, each: float | None, net: float
) -> SheetPlan:
    """Strips of `size[0]` laid beside each other over `size[1]`, an upstand at every edge."""
    length, width = size[0] + 2.0 * roll.upstand, size[1] + 2.0 * roll.upstand
    count = strips_needed(width, roll.width, roll.lap)
    cut = count * length * roll.width
    mass = None if each is None else each * length * roll.width
    box = ((0.0, 0.0), (length, 0.0), (length, roll.width), (0.0, roll.width))
    upstand = f"edge of the face, {1e3 * roll.upstand:.0f} mm of upstand"
    lines = (
        (roll.upstand, upstand, ((roll.upstand, 0.0), (roll.upstand, roll.width))),
        (roll.upstand, upstand, ((length - roll.upstand, 0.0), (length - roll.upstand, roll.width))),
        (
            roll.lap,
            f"the next strip laps to here, {1e3 * roll.lap:.0f} mm",
            ((0.0, roll.width - roll.lap), (length, roll.width - roll.lap)),
        ),
    )
    return SheetPlan(
        part=part,
        way=way,
        strips=count,
        strip_length=length,
        strip_width=roll.width,
        net_area=net,
        cut_area=cut,
        seams=(count - 1) * length,
        mass=mass,
        people=None if mass is None else lifters_needed(mass, each=LIFT_LIMIT.value),
        too_long=length > roll.length,
        whole_mass=None if each is None else each * cut,
        pattern=Pattern(
            name=f"strip {way}",
            part=part,
            outline=box,
            count=count,
            lines=_drawn(*lines),
            across="along the strip",
            up="across it",
            side="any",
            note="The last strip may be cut narrower.",
        ),
    )


def _drawn(*lines: tuple[float, str, Path]) -> tuple[tuple[str, Path], ...]:
    """Lines that do not lie on the edge: those whose distance from it is not nothing."""
    return tuple((word, line) for apart, word, line in lines if apart > 0.0)


def _mass_per_area(roll: SheetRoll, thickness: float | None, weight: float | None) -> float | None:
    """Mass of a square metre (kg/m2); None while it is not known."""
    thick = roll.thickness if roll.thickness is not None else thickness
    heavy = roll.unit_weight if roll.unit_weight is not None else weight
    return None if thick is None or heavy is None else thick * heavy / GRAVITY


def dome_sheet(form: DomeForm, roll: SheetRoll) -> SheetPlan:
    """Gores over the outer face, as many as the roll is wide and the sheet gives."""
    dome = form.dome
    face = outer_face(form.face, dome.thickness, level=dome.laid is Laid.LEVEL)
    count = _gores(face.height, face.radius, roll)
    top = int(np.argmax(face.radius <= max(GORE_TOP.value, float(face.radius[-1]))))
    picks = np.unique(np.round(np.linspace(0, max(top, 1), 61)).astype(int))
    along, half = face.along[picks], gore_half_width(face.radius[picks], count)
    length = float(along[-1]) + roll.upstand
    each = _mass_per_area(roll, None, None)
    pattern = _gore(along + roll.upstand, half, roll, count, dome.name)
    mass = None if each is None else each * pattern.area
    open_top = float(face.radius[-1])
    # Down the slope from what lies level or open at the top, as far as the tips are cut off, then the lap.
    cap = open_top + float(face.along[-1] - face.along[picks[-1]]) + roll.lap
    return SheetPlan(
        part=f'dome "{dome.name}"',
        way="gores",
        strips=count,
        strip_length=length,
        strip_width=pattern.size[0],
        net_area=dome_surface(face.height, face.radius) + np.pi * open_top**2,
        cut_area=count * pattern.area + np.pi * cap**2,
        seams=count * length,
        mass=mass,
        people=None if mass is None else lifters_needed(mass, each=LIFT_LIMIT.value),
        too_long=length > roll.length,
        whole_mass=None if each is None else each * (count * pattern.area + np.pi * cap**2),
        excess=gore_edge_excess(face.height, face.radius, count),
        pattern=pattern,
        cap=_cap(cap, dome.name),
    )


def _gores(height: np.ndarray, radius: np.ndarray, roll: SheetRoll) -> int:
    """Fewest gores that a roll gives and whose edges stretch no more than the sheet may."""
    widest = 2.0 * np.pi * float(np.max(radius))
    count = max(3, int(np.ceil(widest / (roll.width - roll.lap) - 1e-9)))
    while (
        roll.gives is not None and count < MOST_GORES and gore_edge_excess(height, radius, count) > roll.gives
    ):
        count += 1
    return count


def _gore(along: np.ndarray, half: np.ndarray, roll: SheetRoll, count: int, name: str) -> Pattern:
    """One gore: upstand below, a lap on its right edge."""
    middle, foot = float(half[0]), float(half[0])
    left = [
        (middle - foot, 0.0),
        *((middle - b, s) for s, b in zip(along.tolist(), half.tolist(), strict=True)),
    ]
    right = [
        (middle + foot + roll.lap, 0.0),
        *((middle + b + roll.lap, s) for s, b in zip(along.tolist(), half.tolist(), strict=True)),
    ]
    edge = tuple((x - roll.lap, y) for x, y in right)
    every = max(1, (along.size - 1) // 12)
    return Pattern(
        name="gore",
        part=f'dome "{name}"',
        outline=tuple(right + left[::-1]),
        count=count,
        lines=_drawn(
            (roll.lap, f"the next gore laps to here, {1e3 * roll.lap:.0f} mm", edge),
            (
                roll.upstand,
                f"foot of the dome, {1e3 * roll.upstand:.0f} mm of upstand",
                ((0.0, roll.upstand), (2.0 * foot + roll.lap, roll.upstand)),
            ),
            (1.0, "middle", ((middle, 0.0), (middle, float(along[-1])))),
        ),
        across="across the gore",
        up="from its foot to the crown",
        side="the lap on the right as seen from outside",
        ordinates=tuple(
            (float(along[k]), middle - float(half[k]), middle + float(half[k]))
            for k in range(0, along.size, every)
        ),
        note="Ordinates: height on the sheet, left edge, right edge without its lap.",
    )


def _cap(radius: float, name: str) -> Pattern:
    turn = np.linspace(0.0, 2.0 * np.pi, 49)[:-1]
    outline = tuple((radius + radius * float(np.cos(t)), radius + radius * float(np.sin(t))) for t in turn)
    return Pattern(
        name="cap",
        part=f'dome "{name}"',
        outline=outline,
        across="across",
        up="across",
        side="any",
        note="Laid last, over the tips of all gores.",
    )
