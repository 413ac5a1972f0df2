"""What a house file may ask for: each dimension with its units and an example to copy."""

from __future__ import annotations

from dataclasses import dataclass

from bermwright.base.units.atoms import NONE, POUND, Powers, Unit, unit_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A kind of quantity. `units` are offered for reading; the first one is the usual metric one."""

    name: str
    says: str
    """With its article, as a sentence needs it: "a unit weight"."""
    si: str
    metric: str
    imperial: str
    units: tuple[str, ...]
    example: str
    example_imperial: str

    @property
    def powers(self) -> Powers:
        """Powers of the SI base units."""
        found = unit_of(self.si)
        return NONE if found is None else found.powers

    def read_unit(self, text: str) -> Unit | None:
        """A unit as written for this dimension: `lb` is a mass where a mass is due."""
        if self.name == "mass" and text == "lb":
            return Unit(POUND, self.powers)
        return unit_of(_ALIASES.get(text, text))


_ALIASES = {
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "feet": "ft",
    "foot": "ft",
    "inch": "in",
    "inches": "in",
    "yards": "yd",
    "degree": "deg",
    "degrees": "deg",
    "hour": "h",
    "hours": "h",
    "day": "d",
    "days": "d",
    "year": "a",
    "years": "a",
    "person-hour": "ph",
    "person-hours": "ph",
    "person hour": "ph",
    "person hours": "ph",
    "litres": "l",
    "liters": "l",
}
"""Whole words that people write instead of a unit."""

_LENGTHS = ("m", "mm", "cm", "ft", "in")
_STRESSES = ("N/mm2", "MPa", "GPa", "kPa", "kN/m2", "psi", "ksi", "psf")
_PRESSURES = ("kN/m2", "kPa", "N/m2", "Pa", "psf", "MPa", "N/mm2", "psi")


def _dimension(  # noqa: PLR0913, PLR0917  (one row of the table below, in the order of its columns)
    name: str,
    says: str,
    si: str,
    metric: str,
    imperial: str,
    units: tuple[str, ...],
    example: str,
    example_imperial: str,
) -> Dimension:
    return Dimension(
        name=name,
        says=says,
        si=si,
        metric=metric,
        imperial=imperial,
        units=units,
        example=example,
        example_imperial=example_imperial,
    )


_ROWS = (
    _dimension("length", "a length", "m", "m", "ft", _LENGTHS, "4.8 m", "15 ft 9 in"),
    _dimension("thickness", "a thickness", "m", "mm", "in", _LENGTHS, "32 mm", "1 1/4 in"),
    _dimension("level", "a level", "m", "level", "level", _LENGTHS, "-0.45 m", "-1 ft 6 in"),
    _dimension("area", "an area", "m2", "m2", "ft2", ("m2", "cm2", "mm2", "ft2", "in2"), "3.5 m2", "38 ft2"),
    _dimension("volume", "a volume", "m3", "m3", "ft3", ("m3", "l", "ft3", "yd3"), "2.5 m3", "88 ft3"),
    _dimension("angle", "an angle", "rad", "deg", "deg", ("deg", "rad"), "30 deg", "30 deg"),
    _dimension("slope", "a slope", "rad", "deg", "deg", ("deg", "%", "rad"), "1:2.5", "1:2.5"),
    _dimension(
        "unit weight",
        "a unit weight",
        "N/m3",
        "kN/m3",
        "lb/ft3",
        ("kN/m3", "N/m3", "lb/ft3", "pcf"),
        "19 kN/m3",
        "120 lb/ft3",
    ),
    _dimension("density", "a density", "kg/m3", "kg/m3", "lbm/ft3", ("kg/m3",), "420 kg/m3", "420 kg/m3"),
    _dimension("pressure", "a pressure", "Pa", "kN/m2", "psf", _PRESSURES, "2.5 kN/m2", "52 psf"),
    _dimension("stress", "a stress", "Pa", "N/mm2", "psi", _STRESSES, "12 N/mm2", "1700 psi"),
    _dimension("stiffness", "a stiffness of soil", "Pa", "MPa", "psi", _STRESSES, "20 MPa", "2900 psi"),
    _dimension("force", "a force", "N", "kN", "lb", ("kN", "N", "MN", "lb", "kip"), "3.5 kN", "790 lb"),
    _dimension(
        "line load",
        "a force per length",
        "N/m",
        "kN/m",
        "lb/ft",
        ("kN/m", "N/m", "lb/ft", "N/mm"),
        "1.2 kN/m",
        "82 lb/ft",
    ),
    _dimension(
        "spring",
        "a stiffness per length of foot",
        "N/m2",
        "MN/m2",
        "psi",
        ("MN/m2", "kN/mm/m", "kN/m2", "N/mm2", "psi"),
        "20 MN/m2",
        "2900 psi",
    ),
    _dimension(
        "spring of one",
        "a stiffness",
        "N/m",
        "kN/mm",
        "lb/in",
        ("kN/mm", "kN/m", "N/mm", "N/m", "lb/in"),
        "2 kN/mm",
        "11000 lb/in",
    ),
    _dimension("moment", "a moment", "Nm", "kNm", "lb ft", ("kNm", "Nm", "lb ft"), "1.5 kNm", "1100 lb ft"),
    _dimension("speed", "a speed", "m/s", "m/s", "mph", ("m/s", "km/h", "mph"), "24 m/s", "54 mph"),
    _dimension("acceleration", "an acceleration", "m/s2", "g", "g", ("g", "m/s2"), "0.04 g", "0.04 g"),
    _dimension(
        "temperature", "a temperature", "degC", "degC", "degF", ("degC", "degF"), "-25 degC", "-13 degF"
    ),
    _dimension(
        "conductivity",
        "a conductivity",
        "W/mK",
        "W/mK",
        "Btu/h ft degF",
        ("W/mK", "Btu/h ft degF"),
        "0.035 W/mK",
        "0.020 Btu/h ft degF",
    ),
    _dimension(
        "transmittance",
        "a heat loss through a square metre",
        "W/m2K",
        "W/m2K",
        "Btu/h ft2 degF",
        ("W/m2K", "Btu/h ft2 degF"),
        "1.1 W/m2K",
        "0.19 Btu/h ft2 degF",
    ),
    _dimension(
        "heat capacity",
        "a heat capacity of a kilogram",
        "J/kgK",
        "J/kgK",
        "J/kgK",
        ("J/kgK", "kJ/kgK"),
        "1000 J/kgK",
        "1 kJ/kgK",
    ),
    _dimension(
        "air flow",
        "a flow of air",
        "m3/s",
        "m3/h",
        "ft3/min",
        ("m3/h", "l/s", "m3/s", "ft3/min"),
        "90 m3/h",
        "53 ft3/min",
    ),
    _dimension(
        "water flow",
        "an amount of water a day",
        "kg/s",
        "kg/d",
        "lbm/d",
        ("kg/d", "kg/h", "lbm/d"),
        "0.5 kg/d",
        "1.1 lbm/d",
    ),
    _dimension("energy", "an amount of heat", "J", "kWh", "kWh", ("kWh", "MJ", "Wh", "J"), "1 kWh", "3.6 MJ"),
    _dimension("power", "a heat output", "W", "kW", "kW", ("kW", "W"), "6 kW", "6000 W"),
    _dimension("mass", "a mass", "kg", "kg", "lbm", ("kg", "t", "lb"), "80 kg", "176 lb"),
    _dimension("time", "a time", "s", "d", "d", ("d", "h", "a", "min", "s"), "30 days", "30 days"),
    _dimension("work", "an amount of work", "ph", "ph", "ph", ("ph",), "12 person-hours", "12 person-hours"),
    _dimension("number", "a number", "", "", "", ("", "%"), "0.3", "0.3"),
    _dimension("count", "a whole number", "", "", "", ("",), "4", "4"),
)

DIMENSIONS: dict[str, Dimension] = {row.name: row for row in _ROWS}
"""Every dimension by its name."""
