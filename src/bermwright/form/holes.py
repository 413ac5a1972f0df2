"""Where an opening lies in the shell: which ribs it cuts, between which places of the curve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.house import OpeningSide

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Opening

NEAR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """An opening in the shell, as it cuts the ribs."""

    opening: Opening
    along: float
    """From the front end to its middle (m)."""
    low: float
    """Arc length of the left or lower edge on the ribs' middle line (m)."""
    high: float
    cut: tuple[int, ...]
    """Numbers of the ribs that it cuts, from the front, counted from 1."""
    trimmers: tuple[int, int]
    """Numbers of the whole ribs beside it; 0 or one more than there are where it reaches an end."""
    spacing: float
    """From rib to rib (m)."""
    ribs: int

    @property
    def part(self) -> str:
        """What it is called in a finding."""
        return f'opening "{self.opening.name}"'

    @property
    def span(self) -> float:
        """From trimmer to trimmer (m)."""
        return (len(self.cut) + 1) * self.spacing

    @property
    def at_an_end(self) -> bool:
        """Whether a trimmer is missing because the vault ends there."""
        return self.trimmers[0] < 1 or self.trimmers[1] > self.ribs

    @property
    def share(self) -> float:
        """Load of one trimmer rib over that of a rib elsewhere: its own, and half of what was cut."""
        return (1.0 + 0.5 * len(self.cut)) / self.opening.doubled

    def edges(self, form: VaultForm) -> tuple[float, ...]:
        """Arc lengths at which a header is needed: none at the foot, where the wall carries (m)."""
        foot = min(self.low, form.mesh.s[-1] - self.high) < form.rib.depth
        return tuple(
            edge
            for edge in (self.low, self.high)
            if not foot or min(edge, form.mesh.s[-1] - edge) >= form.rib.depth
        )


def shell_openings(house: House, vault: str) -> tuple[Opening, ...]:
    """The openings in the shell of a vault."""
    return tuple(one for one in house.openings if one.vault == vault and not one.in_end)


def rib_places(form: VaultForm) -> tuple[float, ...]:
    """Where the ribs stand along the axis, from the front (m); the last gap may be smaller."""
    return tuple(min(i * form.spacing, form.length) for i in range(form.ribs))


def hole_of(form: VaultForm, opening: Opening) -> Hole | str:
    """Where an opening cuts the shell; in words what is missing or does not fit."""
    if opening.along is None:
        return "how far from the front it is (along)"
    reach = _reach(form, opening)
    if isinstance(reach, str):
        return reach
    places = rib_places(form)
    half = 0.5 * (opening.width + form.rib.width)
    cut = tuple(i + 1 for i, at in enumerate(places) if abs(at - opening.along) < half - NEAR)
    beside = _beside(places, cut, opening.along)
    return Hole(
        opening=opening,
        along=opening.along,
        low=reach[0],
        high=reach[1],
        cut=cut,
        trimmers=beside,
        spacing=form.spacing,
        ribs=form.ribs,
    )


def _beside(places: Sequence[float], cut: tuple[int, ...], along: float) -> tuple[int, int]:
    if cut:
        return cut[0] - 1, cut[-1] + 1
    before = sum(1 for at in places if at <= along)
    return before, before + 1


def _reach(form: VaultForm, opening: Opening) -> tuple[float, float] | str:
    """Arc lengths between which the ribs are cut."""
    mesh = form.mesh
    if opening.side is OpeningSide.CROWN:
        near = np.flatnonzero(np.abs(mesh.x) <= 0.5 * opening.height)
        middle = float(mesh.s[mesh.crown])
        half = max(0.5 * opening.height, float(np.ptp(mesh.s[near])) / 2 if near.size else 0.0)
        return middle - half, middle + half
    if opening.sill is None or opening.head is None:
        return "at which level its lower edge is (sill)"
    left = opening.side is OpeningSide.LEFT
    side = slice(0, mesh.crown + 1) if left else slice(mesh.crown, None)
    s, z = mesh.s[side], mesh.z[side]
    top = float(np.max(mesh.z))
    if opening.head > top - 0.5 * form.rib.depth:
        return "how it fits: it reaches the crown; make it lower, or put it in the crown"
    order = slice(None) if left else slice(None, None, -1)
    low = float(np.interp(max(opening.sill, form.springing), z[order], s[order]))
    high = float(np.interp(opening.head, z[order], s[order]))
    return (low, high) if left else (high, low)
