"""How lengths are written on a template: millimetres to a tenth, or feet and inches to a sixteenth."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bermwright.base.units import show

INCH = 25.4
"""True millimetres."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengths:
    """Figures of a template; lengths come in as true millimetres."""

    system: str = "metric"

    @property
    def inches(self) -> bool:
        """Whether they are feet and inches."""
        return self.system == "imperial"

    @property
    def station(self) -> float:
        """Spacing of the ordinates of a piece (mm)."""
        return INCH if self.inches else 25.0

    @property
    def grid(self) -> float:
        """Spacing of the grid, and of the ordinates of a whole curve (mm)."""
        return 4.0 * INCH if self.inches else 100.0

    @property
    def unit(self) -> str:
        """The unit of bare figures."""
        return "inches" if self.inches else "mm"

    @property
    def tolerance(self) -> str:
        """What a cut may be off."""
        return "±1/32 in" if self.inches else "±1 mm"

    def bare(self, millimetres: float, digits: int = 1) -> str:
        """A figure without its unit; inches run on past the foot, as on a tape.

        >>> (
        ...     Lengths().bare(195.9),
        ...     Lengths(system="imperial").bare(195.9),
        ...     Lengths(system="imperial").bare(0.3),
        ... )
        ('195.9', '7 11/16', '0')
        """
        if self.inches:
            millimetres = INCH / 16.0 * round(16.0 * millimetres / INCH)
        return show(1e-3 * millimetres, "mm", digits, self.system).rpartition(" ")[0]

    def whole(self, millimetres: float, digits: int = 1) -> str:
        """A length with its unit.

        >>> Lengths().whole(2161.94), Lengths(system="imperial").whole(2161.94)
        ('2161.9 mm', '7 ft 1 1/8 in')
        """
        return show(1e-3 * millimetres, "m" if self.inches else "mm", digits, self.system)

    def board(self, thick: float, wide: float, long: float) -> str:
        """Thickness, width and length of a board, what is needed never rounded down.

        >>> Lengths(system="imperial").board(45.0, 233.1, 2193.2)
        '1 3/4 in × 9 3/16 in × 7 ft 2 3/8 in'
        """
        if not self.inches:
            return f"{thick:.0f} × {math.ceil(wide - 1e-3)} × {math.ceil(long - 1e-3)} mm"
        up = (INCH / 16.0 * math.ceil(16.0 * value / INCH - 1e-3) for value in (wide, long))
        return " × ".join(self.whole(value, 0) for value in (thick, *up))


METRIC = Lengths()
