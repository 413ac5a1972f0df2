"""The natural ground under a house as a surface: from slope and facing, from a drawn line, or surveyed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.ground import rise_to

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import Line, VaultForm
    from bermwright.house import House, Vault

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """Level of the ground over the finished floor: a plane, a second-degree surface or a drawn section.

    z = c0 + c1·u + c2·v + c3·u² + c4·u·v + c5·v², with u along from the middle of the house and v across.
    """

    coefficients: tuple[float, ...]
    middle: float
    """Half the length of the vault (m)."""
    words: str
    """How it is known."""
    section: Line | None = None
    """A drawn section, the same along the whole vault; then only the fall along counts besides."""

    @property
    def plane(self) -> bool:
        """Whether it is even, so that closed forms hold."""
        return self.section is None and not any(self.coefficients[3:])

    def level(self, along: Array | float, across: Array | float) -> Array:
        """Level over the floor at places; broadcasts (m)."""
        u, v = np.asarray(along, dtype=float) - self.middle, np.asarray(across, dtype=float)
        c = (*self.coefficients, 0.0, 0.0, 0.0)[:6]
        whole = c[0] + c[1] * u + c[2] * v + c[3] * u * u + c[4] * u * v + c[5] * v * v
        return np.asarray(whole if self.section is None else whole + self.section.level(v))

    @property
    def steepest(self) -> float:
        """Slope in the middle of the house (-)."""
        fall = self.coefficients[2]
        if self.section is not None:
            fall += float(self.section.level(1.0) - self.section.level(-1.0)) / 2.0
        return float(np.hypot(self.coefficients[1], fall))


def house_surface(house: House, vault: Vault, form: VaultForm) -> Surface:
    """The natural ground as the house file describes it."""
    return surface_of(house, vault, form.ground.natural)


def surface_of(house: House, vault: Vault, natural: Line | None) -> Surface:
    """The same from the drawn section, where there is one, or from slope and facing of the site."""
    site, mound = house.site, vault.mound
    along = across = 0.0
    if site.slope and site.faces is not None and vault.axis is not None:
        fall = float(np.tan(site.slope))
        along = -fall * float(np.cos(site.faces - vault.axis))
        across = -fall * float(np.cos(site.faces - vault.axis - 0.5 * np.pi))
    if (mound is not None and mound.natural) or site.floor is None:
        return Surface(
            coefficients=(0.0, along, 0.0),
            middle=0.5 * vault.length,
            words="the natural ground drawn in the section of the house file",
            section=natural,
        )
    return Surface(
        coefficients=(-site.floor + rise_to(house, vault), along, across),
        middle=0.5 * vault.length,
        words="slope and facing of the house file, an even plane",
    )
