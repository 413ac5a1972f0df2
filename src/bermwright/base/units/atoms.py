"""Written units taken apart: `kN/m3` is kN over m three times, `Nmm2` is N times mm twice.

A unit is a factor to SI and the powers of kg, m, s, K, rad and ph (a person-hour: work of hands has
no SI unit, so it is its own). `lb` and `kip` are pounds of force here; where a mass is due, `lb` is a
mass (see `dimensions.py`).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from bermwright.base.errors import QuantityError

Powers = tuple[int, int, int, int, int, int]
"""Powers of kg, m, s, K, rad, ph."""

NONE: Powers = (0, 0, 0, 0, 0, 0)
_MASS: Powers = (1, 0, 0, 0, 0, 0)
_LENGTH: Powers = (0, 1, 0, 0, 0, 0)
_FORCE: Powers = (1, 1, -2, 0, 0, 0)
_PRESSURE: Powers = (1, -1, -2, 0, 0, 0)
_TIME: Powers = (0, 0, 1, 0, 0, 0)
_POWER: Powers = (1, 2, -3, 0, 0, 0)
_ENERGY: Powers = (1, 2, -2, 0, 0, 0)
_KELVIN: Powers = (0, 0, 0, 1, 0, 0)
_ANGLE: Powers = (0, 0, 0, 0, 1, 0)
_WORK: Powers = (0, 0, 0, 0, 0, 1)
_SPEED: Powers = (0, 1, -1, 0, 0, 0)
_ACCELERATION: Powers = (0, 1, -2, 0, 0, 0)

GRAVITY = 9.80665
"""Standard acceleration of free fall (m/s2), by which `g` and the pound of force are defined."""
FOOT = 0.3048
INCH = 0.0254
POUND = 0.45359237
_DEGREE = 0.017453292519943295
_POUND_FORCE = POUND * GRAVITY
_PSF = _POUND_FORCE / FOOT**2
_PSI = _POUND_FORCE / INCH**2
_PCF = _POUND_FORCE / FOOT**3

ATOMS: dict[str, tuple[float, Powers]] = {
    "%": (0.01, NONE),
    "mm": (1e-3, _LENGTH),
    "cm": (1e-2, _LENGTH),
    "m": (1.0, _LENGTH),
    "km": (1e3, _LENGTH),
    "in": (INCH, _LENGTH),
    "ft": (FOOT, _LENGTH),
    "yd": (3 * FOOT, _LENGTH),
    "mph": (1760 * 3 * FOOT / 3600.0, _SPEED),
    "l": (1e-3, (0, 3, 0, 0, 0, 0)),
    "gal": (231 * INCH**3, (0, 3, 0, 0, 0, 0)),
    "N": (1.0, _FORCE),
    "kN": (1e3, _FORCE),
    "MN": (1e6, _FORCE),
    "lb": (_POUND_FORCE, _FORCE),
    "lbf": (_POUND_FORCE, _FORCE),
    "kip": (1e3 * _POUND_FORCE, _FORCE),
    "Pa": (1.0, _PRESSURE),
    "kPa": (1e3, _PRESSURE),
    "MPa": (1e6, _PRESSURE),
    "GPa": (1e9, _PRESSURE),
    "psf": (_PSF, _PRESSURE),
    "psi": (_PSI, _PRESSURE),
    "ksi": (1e3 * _PSI, _PRESSURE),
    "pcf": (_PCF, (1, -2, -2, 0, 0, 0)),
    "kg": (1.0, _MASS),
    "lbm": (POUND, _MASS),
    "t": (1e3, _MASS),
    "s": (1.0, _TIME),
    "min": (60.0, _TIME),
    "h": (3600.0, _TIME),
    "d": (86400.0, _TIME),
    "a": (365.25 * 86400.0, _TIME),
    "W": (1.0, _POWER),
    "kW": (1e3, _POWER),
    "J": (1.0, _ENERGY),
    "kJ": (1e3, _ENERGY),
    "MJ": (1e6, _ENERGY),
    "Wh": (3600.0, _ENERGY),
    "kWh": (3.6e6, _ENERGY),
    "Btu": (1055.05585262, _ENERGY),
    "K": (1.0, _KELVIN),
    "degC": (1.0, _KELVIN),
    "degF": (1 / 1.8, _KELVIN),
    "rad": (1.0, _ANGLE),
    "mrad": (1e-3, _ANGLE),
    "deg": (_DEGREE, _ANGLE),
    "g": (GRAVITY, _ACCELERATION),
    "ph": (1.0, _WORK),
}

_OFFSETS = {"degC": 0.0, "degF": -160 / 9}
"""What an absolute temperature of zero is in degC, for units that stand alone."""

_SPELLED = str.maketrans({"²": "2", "³": "3", "⁴": "4", "·": " ", "*": " ", "(": " ", ")": " "})


@dataclass(frozen=True, slots=True)
class Unit:
    """A written unit: SI = value x factor + offset."""

    factor: float
    powers: Powers
    offset: float = 0.0
    atoms: tuple[tuple[str, int], ...] = ()

    def si(self, value: float) -> float:
        """A value in this unit as SI; 195 mm give 0.195 and not its neighbour."""
        inverse = 1.0 / self.factor
        whole = self.factor < 1.0 and abs(inverse - round(inverse)) < 1e-9 * inverse
        return (value / round(inverse) if whole else value * self.factor) + self.offset


@cache
def unit_of(text: str) -> Unit | None:
    """The unit that a text names, or None. The empty text and "-" are pure numbers."""
    plain = text.translate(_SPELLED).replace("°C", "degC").replace("°F", "degF").replace("°", "deg").strip()
    if plain in {"", "-", "1", "level", "slope"}:
        return Unit(
            1.0, NONE if plain not in {"level", "slope"} else (_LENGTH if plain == "level" else _ANGLE)
        )
    atoms = _over_and_under(plain)
    if atoms is None:
        return None
    factor, powers = 1.0, list(NONE)
    for name, power in atoms:
        size, of = ATOMS[name]
        factor *= size**power
        powers = [have + power * one for have, one in zip(powers, of, strict=True)]
    kg, m, s, kelvin, rad, hand = powers
    offset = _OFFSETS.get(plain, 0.0)
    return Unit(factor, (kg, m, s, kelvin, rad, hand), offset, tuple(atoms))


def _over_and_under(plain: str) -> list[tuple[str, int]] | None:
    """Atoms with their powers; everything after the first stroke divides."""
    atoms: list[tuple[str, int]] = []
    for place, group in enumerate(plain.split("/")):
        if group.strip() == "1" and place == 0:
            continue
        found = _product(group.replace(" ", "\x00").strip("\x00"))
        if not found:
            return None
        atoms += [(name, -power if place else power) for name, power in found]
    return atoms


def _product(text: str) -> list[tuple[str, int]] | None:
    """`kNmm2` as kN, mm twice: the longest atom first, going back where the rest makes no sense."""
    if not text:
        return []
    for size in range(min(4, len(text)), 0, -1):
        if text[:size] not in ATOMS:
            continue
        rest = text[size:]
        power = int(rest[0]) if rest[:1].isdigit() else 1
        rest = (rest[1:] if rest[:1].isdigit() else rest).lstrip("\x00")
        found = _product(rest)
        if power and found is not None:
            return [(text[:size], power), *found]
    return None


def _known(unit: str) -> Unit:
    found = unit_of(unit)
    if found is None:
        raise QuantityError(f'The unit "{unit}" is not known.')
    return found


def convert(value_si: float, unit: str) -> float:
    """An SI value in the wanted unit; "" and "-" leave it as it is.

    >>> convert(18000.0, "kN/m3"), convert(0.0254, "in"), convert(2.0e-12, "mm4")
    (18.0, 1.0, 2.0)
    """
    known = _known(unit)
    return (value_si - known.offset) / known.factor


def to_si(value: float, unit: str) -> float:
    """A value in a unit as SI (temperatures in degC).

    >>> to_si(18.0, "kN/m3"), to_si(212.0, "degF")
    (18000.0, 100.0)
    """
    return _known(unit).si(value)
