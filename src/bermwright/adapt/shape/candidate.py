"""One curve as a candidate: what it leaves of bending, and what it asks of boards, soil, walls and hands."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.ranges import Range
from bermwright.form import FormUnknownError, headroom
from bermwright.handbook.soils import at_rest_ratio
from bermwright.takeoff import vault_quantities
from bermwright.takeoff.work import HOURS

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.adapt.shape.envelope import Envelope
    from bermwright.adapt.shape.families import Stand
    from bermwright.form.shapes import CurveLine, VaultForm
    from bermwright.house import CurveKind, House, Vault

    Array = NDArray[np.float64]

TURF_PLAIN, TURF_HELD = np.radians(30.0), np.radians(45.0)
"""Turf lies by itself up to about the first, held by battens up to the second (practice)."""
SAW = 1e-4
"""Excess of a blank over its board that no saw notices (m)."""
FILL_ROW = "fill, compacted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """What a curve asks of what stands under its feet, per metre of vault."""

    height: float
    """From the finished floor to the springing (m); 0 where the vault stands on the floor."""
    retained: float
    """Height of soil that the wall holds back on its outer side (m)."""
    soil_push: float
    """Push of that soil on the wall, at rest (N/m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One curve with everything that the table shows of it."""

    stand: Stand | None
    """None for the curve as the file has it."""
    envelope: Envelope
    crown_radius: float
    """Tightest radius within the middle third of the span (m)."""
    board_needed: float
    """Width of the widest blank that the rib pieces need (m)."""
    board_given: float
    fill: float
    """Compacted soil (m3)."""
    floor_width: float
    """Width of floor with room to stand over it (m)."""
    standing: float
    """Clear height that counts as room to stand (m)."""
    steep: tuple[float, float]
    """Share of the vault's own back steeper than 30 and than 45 degrees (-)."""
    mound_steep: tuple[float, float]
    """The same of the finished ground over it (-)."""
    wall: Wall
    hours: Range
    """Hours of everything that has a published rate; walls and ribs have none."""
    alike: tuple[CurveKind, ...] = ()
    """Other families that come to the same curve."""

    @property
    def vault(self) -> Vault:
        """The vault with this curve."""
        return self.envelope.vault

    @property
    def form(self) -> VaultForm:
        """Its geometry."""
        return self.envelope.form

    @property
    def can_be_cut(self) -> bool:
        """Whether the pieces come out of the boards that the file gives."""
        return self.board_needed <= self.board_given + SAW

    @property
    def holds(self) -> bool:
        """Whether boards and nails hold at every stage; what is not known does not hold."""
        used = self.envelope.used
        return used is not None and used <= 1.0


def candidate(house: House, envelope: Envelope, *, stand: Stand | None, standing: float) -> Candidate:
    """Measure a curve whose envelope is known."""
    vault, form = envelope.vault, envelope.form
    # The house is counted with this vault in place of its own.
    counted = vault_quantities(replace(house, vaults=_with(house, vault)), vault, form)
    hours = counted.row(HOURS)
    return Candidate(
        stand=stand,
        envelope=envelope,
        crown_radius=crown_radius(form.rib.centreline, form.span),
        board_needed=max((piece.blank_width for piece in form.rib.pieces), default=np.nan),
        board_given=vault.board.width,
        fill=counted.row(FILL_ROW).high,
        floor_width=floor_to_stand_on(form, standing),
        standing=standing,
        steep=_steeper(form.soil_face.angle, form.soil_face.s),
        mound_steep=_mound_steeper(form),
        wall=_wall(house, vault, form),
        hours=Range(hours.low, hours.high),
    )


def floor_to_stand_on(form: VaultForm, standing: float) -> float:
    """Width of floor with so much height over it (m); nought where the crown itself is lower."""
    if float(np.max(form.rib.inside.z)) <= standing:
        return 0.0
    return float(headroom(form, standing).width)


def _with(house: House, vault: Vault) -> tuple[Vault, ...]:
    return tuple(vault if one.name == vault.name else one for one in house.vaults)


def crown_radius(line: CurveLine, span: float) -> float:
    """Least radius of the middle third of a curve (m); nought where it comes to a point."""
    middle = np.abs(line.x) <= span / 6.0
    turn, run = -np.diff(line.angle[middle]), np.diff(line.s[middle])
    if np.any((run == 0.0) & (np.abs(turn) > SAW)):
        return 0.0
    bent = turn[run > 0.0] / run[run > 0.0]
    return float(1.0 / max(float(np.max(bent)), 1e-6))


def _steeper(angle: Array, s: Array) -> tuple[float, float]:
    """Share of a line that is steeper than 30 and than 45 degrees."""
    middle = np.abs(0.5 * (angle[1:] + angle[:-1]))
    run = np.diff(s)
    plain, held = (float(run[middle > limit].sum() / run.sum()) for limit in (TURF_PLAIN, TURF_HELD))
    return plain, held


def _mound_steeper(form: VaultForm) -> tuple[float, float]:
    """The same of the finished ground where it was made."""
    ground = form.ground
    x = np.union1d(ground.finished.x, ground.natural.x)
    z = ground.finished.level(x)
    made = ground.finished.level(0.5 * (x[1:] + x[:-1])) - ground.natural.level(0.5 * (x[1:] + x[:-1])) > SAW
    slope, run = np.abs(np.arctan2(np.diff(z), np.diff(x)))[made], np.hypot(np.diff(x), np.diff(z))[made]
    if not run.size:
        return 0.0, 0.0
    plain, held = (float(run[slope > limit].sum() / run.sum()) for limit in (TURF_PLAIN, TURF_HELD))
    return plain, held


def _wall(house: House, vault: Vault, form: VaultForm) -> Wall:
    """Soil beside the wall as high as the springing or the ground there, with what lies over it."""
    height = max(vault.springing, 0.0)
    fill = house.fill(vault)
    if fill is None or fill.unit_weight is None or fill.friction_angle is None:
        raise FormUnknownError(vault.name, ("vault.fill.unit_weight", "vault.fill.friction_angle"))
    feet = form.soil_face.x[[0, -1]]
    over = float(np.max(form.ground.finished.level(feet)))
    retained = min(height, max(over, 0.0))
    rest, weight = float(at_rest_ratio(fill.friction_angle.low)), fill.unit_weight.high
    push = rest * weight * (0.5 * retained**2 + retained * max(over - height, 0.0))
    return Wall(height=height, retained=retained, soil_push=push)
