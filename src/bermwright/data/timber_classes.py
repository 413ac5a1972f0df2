"""Strength classes of softwood, EN 338:2016. SI units; characteristic unless said."""

from __future__ import annotations

from dataclasses import dataclass

from bermwright.base.errors import OutOfRangeError
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.timber import EN338


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthClass:
    """One class: strengths and stiffnesses (Pa), densities (kg/m3)."""

    name: str
    bending: float
    tension: float
    compression: float
    compression_across: float
    shear: float
    modulus_mean: float
    modulus_low: float
    shear_modulus: float
    density_low: float
    density_mean: float
    cite: Cite


def _row(name: str, provenance: Provenance, *numbers: float) -> StrengthClass:
    fm, ft, fc, fc90, fv, mean, low, shear, rho_k, rho_m = numbers
    return StrengthClass(
        name=name,
        bending=fm * 1e6, tension=ft * 1e6, compression=fc * 1e6, compression_across=fc90 * 1e6, shear=fv * 1e6,
        modulus_mean=mean * 1e6, modulus_low=low * 1e6, shear_modulus=shear * 1e6,
        density_low=rho_k, density_mean=rho_m,
        cite=Cite(work=EN338, place=f"table 1, {name}", provenance=provenance),
    )  # fmt: skip


_READ, _MEMORY = Provenance.READ, Provenance.MEMORY
#            fm    ft0   fc0  fc90  fv   E0mean E005 Gmean rho_k rho_m   (fc90 and Gmean from memory in every row)
CLASSES = {
    one.name: one
    for one in (
        _row("C14", _READ, 14, 7.2, 16, 2.0, 3.0, 7000, 4700, 440, 290, 350),
        _row("C16", _READ, 16, 8.5, 17, 2.2, 3.2, 8000, 5400, 500, 310, 370),
        _row("C18", _READ, 18, 10, 18, 2.2, 3.4, 9000, 6000, 560, 320, 380),
        _row("C20", _READ, 20, 11.5, 19, 2.3, 3.6, 9500, 6400, 590, 330, 400),
        _row("C22", _READ, 22, 13, 20, 2.4, 3.8, 10000, 6700, 630, 340, 410),
        _row("C24", _READ, 24, 14.5, 21, 2.5, 4.0, 11000, 7400, 690, 350, 420),
        _row("C27", _MEMORY, 27, 16.5, 22, 2.5, 4.0, 11500, 7700, 720, 360, 430),
        _row("C30", _MEMORY, 30, 19, 24, 2.7, 4.0, 12000, 8000, 750, 380, 460),
    )
}


def strength_class(name: str) -> StrengthClass:
    """The class of that name.

    >>> strength_class("C18").bending
    18000000.0
    """
    if name not in CLASSES:
        raise OutOfRangeError(
            f"Strength class {name} is not in the table yet; there are {', '.join(CLASSES)}."
        )
    return CLASSES[name]
