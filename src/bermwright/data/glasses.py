"""Panes, gases and the glazings that a builder meets, new and salvaged.

Optical values are usual catalogue values (from memory): a maker's sheet goes before them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.glazing import EN410, EN673

if TYPE_CHECKING:
    from collections.abc import Mapping

BLANK: Final = 0.837
"""Emissivity of glass without a coating."""
LOST: Final = 0.0
"""Share of a filling gas that is left in old sealed panes, for the computation."""
OLD_TRANSMISSION: Final = 0.96
"""What scratches and dirt of decades leave of the transmission of each pane."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gas:
    """What fills a gap, at 10 °C."""

    name: str
    density: float
    """kg/m³."""
    viscosity: float
    """Pa·s."""
    conductivity: float
    """W/(m·K)."""
    capacity: float
    """J/(kg·K)."""


AIR: Final = Gas(name="air", density=1.232, viscosity=1.761e-5, conductivity=2.496e-2, capacity=1008.0)
ARGON: Final = Gas(name="argon", density=1.699, viscosity=2.164e-5, conductivity=1.684e-2, capacity=519.0)
KRYPTON: Final = Gas(name="krypton", density=3.560, viscosity=2.400e-5, conductivity=0.900e-2, capacity=245.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pane:
    """One pane; solar values at normal incidence."""

    thickness: float = 0.004
    transmission: float = 0.84
    reflection_outside: float = 0.075
    """Of what comes from outside."""
    reflection_inside: float = 0.075
    """Of what comes from inside."""
    emissivity_outside: float = BLANK
    """Of the face that looks outwards."""
    emissivity_inside: float = BLANK


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """The room between two panes."""

    width: float
    gas: Gas = AIR
    share: float = 1.0
    """Of the gas; the rest is air."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Glass:
    """Panes and gaps from outside to inside."""

    name: str
    panes: tuple[Pane, ...]
    gaps: tuple[Gap, ...] = ()
    cite: Cite
    note: str = ""

    def __post_init__(self) -> None:
        if not self.panes or len(self.gaps) != len(self.panes) - 1:
            raise ValueError(f"{self.name}: between n panes lie n - 1 gaps.")


CLEAR = Pane()
COATED = Pane(transmission=0.60, reflection_outside=0.25, reflection_inside=0.29, emissivity_outside=0.03)
"""Silver on the face that looks outwards: position 3 of a double glazing."""
SUNNY_OUT = Pane(transmission=0.68, reflection_outside=0.16, reflection_inside=0.19, emissivity_outside=0.05)
"""A coating that lets more sun in, on position 5 of a triple glazing."""
SUNNY_IN = Pane(transmission=0.68, reflection_outside=0.19, reflection_inside=0.16, emissivity_inside=0.05)
"""The same on position 2."""
HARD_COATED = Pane(
    transmission=0.70, reflection_outside=0.11, reflection_inside=0.12, emissivity_outside=0.17
)
"""An early coating, fired into the glass."""

_USUAL = Cite(work=EN410, place="usual catalogue values of 4 mm panes", provenance=Provenance.MEMORY)
_OLD = Cite(work=EN673, place="usual old glazings", provenance=Provenance.MEMORY)


def aged(glass: Glass) -> Glass:
    """The same glazing out of another house: its gas is lost, its panes are scratched."""
    return replace(
        glass,
        name=f"{glass.name}, salvaged",
        panes=tuple(replace(pane, transmission=pane.transmission * OLD_TRANSMISSION) for pane in glass.panes),
        gaps=tuple(replace(gap, share=LOST) for gap in glass.gaps),
        note="Counted without its gas and a little dull. Fog between the panes means a broken seal: it gets "
        "worse.",
    )


_SINGLE = Glass(name="single", panes=(CLEAR,), cite=_USUAL)
_DOUBLE = Glass(name="double", panes=(CLEAR, CLEAR), gaps=(Gap(width=0.012),), cite=_USUAL)
_DOUBLE_COATED = Glass(
    name="double, coated",
    panes=(CLEAR, COATED),
    gaps=(Gap(width=0.016, gas=ARGON, share=0.9),),
    cite=_USUAL,
)
_TRIPLE = Glass(
    name="triple",
    panes=(CLEAR, CLEAR, CLEAR),
    gaps=(Gap(width=0.012), Gap(width=0.012)),
    cite=_USUAL,
)
_TRIPLE_COATED = Glass(
    name="triple, coated",
    panes=(SUNNY_IN, CLEAR, SUNNY_OUT),
    gaps=(Gap(width=0.014, gas=ARGON, share=0.9), Gap(width=0.014, gas=ARGON, share=0.9)),
    cite=_USUAL,
)
_BOX = Glass(
    name="two single sashes",
    panes=(CLEAR, CLEAR),
    gaps=(Gap(width=0.1),),
    cite=_OLD,
    note="An old double window with a hand's breadth between its sashes.",
)
_EARLY = Glass(
    name="double, early coating",
    panes=(CLEAR, HARD_COATED),
    gaps=(Gap(width=0.012),),
    cite=_OLD,
    note="Sealed panes of about 1985 to 1995.",
)

GLASSES: Final[Mapping[str, Glass]] = MappingProxyType(
    {
        glass.name: glass
        for new in (_SINGLE, _DOUBLE, _DOUBLE_COATED, _TRIPLE, _TRIPLE_COATED, _BOX, _EARLY)
        for glass in (new, aged(new))
    }
)
"""By name; each also as salvaged."""
