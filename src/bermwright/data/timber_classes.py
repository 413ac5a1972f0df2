"""Strength classes of softwood and the factors of the timber standard, as printed, in SI."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.errors import OutOfRangeError
from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.works.timber import EN338, EN1995, XCEC5

if TYPE_CHECKING:
    from collections.abc import Mapping

_MPA = 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberClass:
    """One strength class: characteristic strengths and stiffnesses (Pa), densities (kg/m3)."""

    name: str
    bending: float
    tension: float
    tension_across: float
    compression: float
    compression_across: float
    shear: float
    modulus: float
    """Mean along the grain (E0,mean): deflections."""
    modulus_low: float
    """Five-percentile along the grain (E0,05): buckling."""
    modulus_across: float
    shear_modulus: float
    density_low: float
    """Characteristic density: strength of nails."""
    density: float
    """Mean density: weight and slip of nails."""
    cite: Cite

    @property
    def shear_modulus_low(self) -> float:
        """Five-percentile shear modulus, in the proportion of the moduli along the grain."""
        return self.shear_modulus * self.modulus_low / self.modulus


_COLUMNS = (
    "bending",
    "tension",
    "tension_across",
    "compression",
    "compression_across",
    "shear",
    "modulus",
    "modulus_low",
    "modulus_across",
    "shear_modulus",
)
# fm, ft0, ft90, fc0, fc90, fv, E0mean, E005, E90mean, Gmean in N/mm2; rho_k, rho_mean in kg/m3
_TABLE = {
    "C14": (14, 7.2, 0.4, 16, 2.0, 3.0, 7000, 4700, 230, 440, 290, 350),
    "C16": (16, 8.5, 0.4, 17, 2.2, 3.2, 8000, 5400, 270, 500, 310, 370),
    "C18": (18, 10.0, 0.4, 18, 2.2, 3.4, 9000, 6000, 300, 560, 320, 380),
    "C20": (20, 11.5, 0.4, 19, 2.3, 3.6, 9500, 6400, 320, 590, 330, 400),
    "C22": (22, 13.0, 0.4, 20, 2.4, 3.8, 10000, 6700, 330, 630, 340, 410),
    "C24": (24, 14.5, 0.4, 21, 2.5, 4.0, 11000, 7400, 370, 690, 350, 420),
    "C27": (27, 16.5, 0.4, 22, 2.5, 4.0, 11500, 7700, 380, 720, 360, 430),
    "C30": (30, 19.0, 0.4, 24, 2.7, 4.0, 12000, 8000, 400, 750, 380, 460),
    "C35": (35, 22.5, 0.4, 25, 2.7, 4.0, 13000, 8700, 430, 810, 390, 470),
    "C40": (40, 26.0, 0.4, 27, 2.8, 4.0, 14000, 9400, 470, 880, 400, 480),
    "C45": (45, 30.0, 0.4, 29, 2.9, 4.0, 15000, 10100, 500, 940, 410, 490),
    "C50": (50, 33.5, 0.4, 30, 3.0, 4.0, 16000, 10700, 530, 1000, 430, 520),
}
# Table 3, hardwoods, from memory.
_HARDWOODS = {
    "D18": (18, 11, 0.6, 18, 4.8, 3.5, 9500, 8000, 630, 590, 475, 570),
    "D24": (24, 14, 0.6, 21, 4.9, 3.7, 10000, 8400, 670, 630, 485, 580),
    "D27": (27, 16, 0.6, 22, 5.1, 3.8, 10500, 8800, 700, 660, 510, 610),
    "D30": (30, 18, 0.6, 24, 5.3, 3.9, 11000, 9200, 730, 690, 530, 640),
    "D35": (35, 21, 0.6, 25, 5.4, 4.1, 12000, 10100, 800, 750, 540, 650),
    "D40": (40, 24, 0.6, 27, 5.5, 4.2, 13000, 10900, 870, 810, 550, 660),
    "D45": (45, 27, 0.6, 29, 5.8, 4.4, 13500, 11300, 900, 840, 580, 700),
    "D50": (50, 30, 0.6, 30, 6.2, 4.5, 14000, 11800, 930, 880, 620, 740),
    "D55": (55, 33, 0.6, 32, 6.6, 4.7, 15500, 13000, 1030, 970, 660, 790),
    "D60": (60, 36, 0.6, 33, 10.5, 4.8, 17000, 14300, 1130, 1060, 700, 840),
}


def _row(
    name: str, printed: tuple[float, ...], provenance: Provenance = Provenance.READ, table: int = 1
) -> TimberClass:
    stresses = {column: value * _MPA for column, value in zip(_COLUMNS, printed[:10], strict=True)}
    cite = Cite(work=EN338, place=f"table {table}, {name}", provenance=provenance)
    return TimberClass(name=name, density_low=printed[10], density=printed[11], cite=cite, **stresses)


TIMBER_CLASSES: Mapping[str, TimberClass] = MappingProxyType(
    {name: _row(name, printed) for name, printed in _TABLE.items()}
    | {name: _row(name, printed, Provenance.MEMORY, 3) for name, printed in _HARDWOODS.items()}
)


def strength_class(name: str) -> TimberClass:
    """The class of that name.

    >>> strength_class("C18").bending
    18000000.0
    """
    if name not in TIMBER_CLASSES:
        raise OutOfRangeError(f"There is no strength class {name}; there are {', '.join(TIMBER_CLASSES)}.")
    return TIMBER_CLASSES[name]


HOLES_FROM = Sourced(
    500.0,
    Cite(work=EN1995, place="8.3.1.1", provenance=Provenance.MEMORY),
    "characteristic density over which nails go into drilled holes only (kg/m3)",
)


def needs_holes(name: str) -> bool:
    """Whether timber of that class is nailed through drilled holes only.

    >>> needs_holes("C24"), needs_holes("D30")
    (False, True)
    """
    return name in TIMBER_CLASSES and TIMBER_CLASSES[name].density_low > HOLES_FROM.value


_DURATIONS = ("permanent", "long-term", "medium-term", "short-term", "instantaneous")
_K_MOD_TABLE = {
    1: (0.6, 0.7, 0.8, 0.9, 1.1),
    2: (0.6, 0.7, 0.8, 0.9, 1.1),
    3: (0.5, 0.55, 0.65, 0.7, 0.9),
}
K_MOD_CITE = Cite(work=EN1995, place="table 3.1, solid timber", provenance=Provenance.MEMORY)
K_MOD: Mapping[tuple[int, str], float] = MappingProxyType(
    {
        (service_class, duration): value
        for service_class, values in _K_MOD_TABLE.items()
        for duration, value in zip(_DURATIONS, values, strict=True)
    }
)
"""Modification factor by service class and load duration."""

K_DEF_CITE = Cite(work=EN1995, place="table 3.2, solid timber", provenance=Provenance.MEMORY)
K_DEF: Mapping[int, float] = MappingProxyType({1: 0.6, 2: 0.8, 3: 2.0})
"""Creep factor by service class."""
K_DEF_GREEN = Sourced(
    1.0,
    Cite(work=EN1995, place="3.2 (4)", provenance=Provenance.MEMORY),
    "added for timber that dries under load",
)

GAMMA_TIMBER = Sourced(
    1.3, Cite(work=XCEC5, place="test_EC5Wood_03, partial factor of solid timber", provenance=Provenance.READ)
)
GAMMA_CONNECTION = Sourced(1.3, Cite(work=EN1995, place="table 2.3", provenance=Provenance.MEMORY))
K_CRACK = Sourced(
    0.67,
    Cite(work=EN1995, place="6.1.7 (2), amendment A1", provenance=Provenance.MEMORY),
    "width that carries shear in cracked solid timber",
)
K_M = Sourced(0.7, Cite(work=EN1995, place="6.1.6 (2), rectangular sections", provenance=Provenance.MEMORY))
STRAIGHTNESS = Sourced(0.2, Cite(work=EN1995, place="eq. 6.29, solid timber", provenance=Provenance.MEMORY))
NAIL_WIRE_STRENGTH = Sourced(
    600e6,
    Cite(work=EN1995, place="8.3.1.1 (4), least tensile strength of the wire", provenance=Provenance.MEMORY),
)
DEFLECTION_LIMIT = Sourced(
    1 / 150,
    Cite(
        work=EN1995,
        place="table 7.2, final deflection of a beam on two supports, upper end of 1/150 to 1/300",
        provenance=Provenance.MEMORY,
    ),
)
