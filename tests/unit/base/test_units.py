from __future__ import annotations

import math

import pytest

from bermwright.base.errors import QuantityError
from bermwright.base.ranges import Range
from bermwright.base.units import (
    DIMENSIONS,
    Money,
    convert,
    parse,
    parse_exact,
    parse_money,
    parse_pair,
    show,
    show_range,
    to_si,
)


@pytest.mark.parametrize(
    ("value", "unit", "expected"),
    [
        (0.0254, "in", 1.0),
        (0.3048, "ft", 1.0),
        (1e-6, "mm2", 1.0),
        (1e-9, "mm3", 1.0),
        (1e-12, "mm4", 1.0),
        (2.5e6, "N/mm2", 2.5),
        (2.5e6, "MPa", 2.5),
        (2500.0, "kN/m2", 2.5),
        (2500.0, "kPa", 2.5),
        (18e3, "kN/m3", 18.0),
        (18e3, "N/m3", 18e3),
        (1500.0, "kNm", 1.5),
        (1500.0, "Nmm", 1.5e6),
        (1500.0, "kNm/m", 1.5),
        (2e6, "kN/mm", 2.0),
        (2e3, "N/mm", 2.0),
        (1.5, "Nmm2", 1.5e6),
        (1186e3, "kNm2", 1186.0),
        (5e3, "kNm/rad", 5.0),
        (math.pi, "deg", 180.0),
        (0.392266, "g", 0.04),
        (0.35, "%", 35.0),
        (0.035, "W/mK", 0.035),
        (-25.0, "degF", -13.0),
        (-25.0, "degC", -25.0),
        (7200.0, "h", 2.0),
        (86400.0 * 911, "degC d", 911.0),
        (12.0, "ph", 12.0),
        (3.0, "", 3.0),
        (3.0, "-", 3.0),
        (2.0, "1/m", 2.0),
        (1000.0, "t/m3", 1.0),
        (9.81, "m/s2", 9.81),
        (0.45359237, "lbm", 1.0),
        (4.4482216152605, "lb", 1.0),
        (4448.2216152605, "kip", 1.0),
        (47.88025898033584, "psf", 1.0),
        (6894.757293168361, "psi", 1.0),
        (157.08746384624617, "lb/ft3", 1.0),
        (157.08746384624617, "pcf", 1.0),
        (14.593902937206364, "lb/ft", 1.0),
    ],
)
def test_an_si_value_in_a_printed_unit(value, unit, expected):
    assert convert(value, unit) == pytest.approx(expected, rel=1e-12)
    assert to_si(convert(value, unit), unit) == pytest.approx(value, rel=1e-12)


def test_raised_powers_and_degree_signs_are_read_too():
    assert convert(18e3, "kN/m³") == 18.0
    assert convert(-25.0, "°F") == pytest.approx(-13.0)


@pytest.mark.parametrize("unit", ["oz", "kn/m3", "m0", "furlong", "/", "kN//m"])
def test_a_unit_that_nobody_knows_is_refused(unit):
    with pytest.raises(QuantityError, match="not known"):
        convert(1.0, unit)


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        ("4.8 m", "length", 4.8),
        ("4.8m", "length", 4.8),
        ("480cm", "length", 4.8),
        ("195 mm", "thickness", 0.195),
        ("5 ft 3 1/2 in", "length", 1.6129),
        ("5ft 3in", "length", 1.6002),
        ("5'3\"", "length", 1.6002),
        ("5' 3 1/2\"", "length", 1.6129),
        ("5'-3 1/2\"", "length", 1.6129),
        ("5′ 3 1/2″", "length", 1.6129),
        ("63 1/2 in", "length", 1.6129),
        ("3½ in", "length", 0.0889),
        ("1/2 in", "length", 0.0127),
        ("5 1/2 ft", "length", 1.6764),
        ("15 feet 9 inches", "length", 4.8006),
        ("-1 ft 6 in", "level", -0.4572),
        ("−0.45 m", "level", -0.45),
        ("±0.00 m", "level", 0.0),
        ("+2.40 m", "level", 2.4),
        ("1.2e1 m", "length", 12.0),
        ("18 kN/m3", "unit weight", 18e3),
        ("18 kN/m³", "unit weight", 18e3),
        ("120 lb/ft3", "unit weight", 18850.4955),
        ("120 pcf", "unit weight", 18850.4955),
        ("2.5 kPa", "pressure", 2500.0),
        ("2.5 kN/m2", "pressure", 2500.0),
        ("52 psf", "pressure", 2489.7735),
        ("0.04 g", "acceleration", 0.392266),
        ("22 deg", "angle", math.radians(22)),
        ("22°", "angle", math.radians(22)),
        ("1:2.5", "slope", math.atan(0.4)),
        ("1 : 2.5", "slope", math.atan(0.4)),
        ("-1:20", "slope", -math.atan(0.05)),
        ("40 %", "slope", math.atan(0.4)),
        ("22 deg", "slope", math.radians(22)),
        ("-25 degC", "temperature", -25.0),
        ("-13 degF", "temperature", -25.0),
        ("-13 °F", "temperature", -25.0),
        ("0.035 W/mK", "conductivity", 0.035),
        ("12 person-hours", "work", 12.0),
        ("12 ph", "work", 12.0),
        ("80 kg", "mass", 80.0),
        ("100 lb", "mass", 45.359237),
        ("100 lb", "force", 444.82216),
        ("50 years", "time", 50 * 365.25 * 86400),
        ("30 %", "number", 0.3),
        ("0.3", "number", 0.3),
        ("4", "count", 4.0),
        ("20 MN/m2", "spring", 20e6),
    ],
)
def test_what_people_write_is_read(text, dimension, si):
    assert parse_exact(text, dimension) == pytest.approx(si, rel=1e-6, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "dimension", "low", "high"),
    [
        ("22..30 deg", "angle", math.radians(22), math.radians(30)),
        ("22 .. 30 deg", "angle", math.radians(22), math.radians(30)),
        ("22 deg..30 deg", "angle", math.radians(22), math.radians(30)),
        ("1:3..1:2", "slope", math.atan(1 / 3), math.atan(0.5)),
        ("10..20 %", "slope", math.atan(0.1), math.atan(0.2)),
        ("19 .. 20 kN/m3", "unit weight", 19e3, 20e3),
        ("5 ft..6 ft 2 in", "length", 1.524, 1.8796),
        ("1/2..3/4 in", "thickness", 0.0127, 0.01905),
        ("-2..1 m", "level", -2.0, 1.0),
        ("0.2..0.4", "number", 0.2, 0.4),
    ],
)
def test_a_range_has_two_ends(text, dimension, low, high):
    found = parse(text, dimension)
    assert (found.low, found.high) == pytest.approx((low, high), rel=1e-9)


@pytest.mark.parametrize(
    ("text", "dimension", "teaches"),
    [
        ("4.8", "length", 'Write "4.8 m"'),
        ("4.8 M", "length", 'nearest is "m".*million'),
        ("18 KN/m3", "unit weight", 'nearest is "kN/m3"'),
        ("4,8 m", "length", 'with a point: "4.8 m"'),
        ("1,200 mm", "length", '"1200 mm", or "1.200 mm"'),
        ("1 200 mm", "length", '"1200 mm" without'),
        ("1_200 mm", "length", '"1200 mm" without'),
        ("1'200 mm", "length", "5 ft 3 1/2 in"),
        ("1.200.000 mm", "length", "thousands"),
        ("5' 3", "length", '"5 ft 3 in"'),
        ("5 ft 3", "length", '"5 ft 3 in"'),
        ("5 ft 14 in", "length", '"6 ft 2 in"'),
        ("5.5 ft 3 in", "length", "whole feet"),
        ("3 5/4 in", "length", "fraction"),
        ("5/0 in", "length", "fraction"),
        ("2.5 m", "pressure", "is a length; a pressure is due"),
        ("2 ft2", "length", "is an area"),
        ("1900 kg/m3", "unit weight", "18.63 kN/m3"),
        ("250 kg/m2", "pressure", "2.452 kN/m2"),
        ("12 kg", "force", "0.1177 kN"),
        ("3 lb", "unit weight", "is a force; a unit weight is due.*120 lb/ft3"),
        ("3 oz", "mass", 'nearest is "lb"'),
        ("nan m", "length", "no number"),
        ("inf m", "length", "no number"),
        ("1e999 m", "length", "too large"),
        ("", "length", "a length is due"),
        ("   ", "length", "a length is due"),
        ("abc", "pressure", "does not start with a number"),
        (".5 m", "length", "zero before the point"),
        ("1..2..3 m", "length", "two ends"),
        ("1.. m", "length", "no unit|not a range|does not start"),
        ("1..", "length", "two ends"),
        ("1...2 m", "length", "two ends"),
        ("3..2 m", "length", '"2..3 m"'),
        ("1:2..1:3", "slope", "from flat to steep.*1:3..1:2"),
        ("2.5:1", "slope", "68.2 degrees.*21.8 degrees"),
        ("2:5", "slope", "two ways"),
        ("1:0", "slope", "0 deg"),
        ("1 in 2.5", "slope", "1:2.5|not known"),
        ("1:2.5 m", "slope", "not a slope"),
        ("-5 C", "temperature", 'nearest is "degC"'),
        ("30", "angle", 'Write "30 deg"'),
        ("30 %", "angle", "a share; an angle is due"),
        ("3 deg", "number", "without one"),
        ("3.5", "count", "not a whole number"),
        ("4.8 level", "length", "is due|not known"),
        ("4.8 -", "length", "is due|not known"),
        ("9" * 200, "length", "too long"),
        ("٤ m", "length", "does not start with a number"),
    ],
)
def test_a_refusal_says_what_to_write(text, dimension, teaches):
    with pytest.raises(QuantityError, match=teaches):
        parse(text, dimension)


def test_where_one_value_is_due_a_range_is_refused():
    with pytest.raises(QuantityError, match="one value is due"):
        parse_exact("1..2 m", "length")


@pytest.mark.parametrize("due", DIMENSIONS.values(), ids=DIMENSIONS)
def test_every_example_is_read_and_metric_and_imperial_mean_the_same_kind(due):
    metric, imperial = parse_exact(due.example, due.name), parse_exact(due.example_imperial, due.name)
    assert metric == pytest.approx(imperial, rel=0.05)
    assert all(due.read_unit(unit).powers == due.powers for unit in due.units if unit and unit != "%")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("32 x 195 mm", (0.032, 0.195)),
        ("32 mm x 195 mm", (0.032, 0.195)),
        ("32×195 mm", (0.032, 0.195)),
        ("2 x 8 in", (0.0508, 0.2032)),
        ("1 1/2 x 7 1/4 in", (0.0381, 0.18415)),
        ('1 1/2" x 7 1/4"', (0.0381, 0.18415)),
        ("3.1 x 80 mm", (0.0031, 0.08)),
    ],
)
def test_a_board_has_two_measures(text, expected):
    assert parse_pair(text) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    "text", ["32 mm", "32 x", "x 195 mm", "32 x 195", "32 x 195 x 4000 mm", "32 x 195 kN"]
)
def test_what_is_no_pair_is_refused(text):
    with pytest.raises(QuantityError):
        parse_pair(text)


def test_money_keeps_its_currency():
    assert parse_money("12.50 EUR/m3") == Money(12.5, "EUR", "m3")
    assert parse_money("300 NOK") == Money(300.0, "NOK")
    assert str(parse_money("12.5 EUR/m3")) == "12.50 EUR/m3"


@pytest.mark.parametrize(
    ("text", "teaches"),
    [
        ("EUR 12.50/m3", "12.50 EUR/m3"),
        ("€12.50", "EUR"),
        ("12,50 EUR/m3", "point"),
        ("12.50", "three capital letters"),
        ("12.50 eur/m3", "three capital letters"),
        ("", "three capital letters"),
    ],
)
def test_what_is_no_price_is_taught(text, teaches):
    with pytest.raises(QuantityError, match=teaches):
        parse_money(text)


@pytest.mark.parametrize(
    ("value", "unit", "digits", "metric", "imperial"),
    [
        (1.6, "m", 2, "1.60 m", "5 ft 3 in"),
        (-0.45, "level", 2, "−0.45", "−1 ft 5 11/16 in"),
        (0.0, "level", 2, "±0.00", "±0 in"),
        (-0.001, "level", 2, "±0.00", "−1/16 in"),
        (2.4, "level", 2, "+2.40", "+7 ft 10 1/2 in"),
        (0.195, "mm", 0, "195 mm", "7 11/16 in"),
        (0.0003, "mm", 1, "0.3 mm", "0.012 in"),
        (0.6096, "m", 2, "0.61 m", "2 ft"),
        (0.3047, "m", 2, "0.30 m", "1 ft"),
        (18e3, "kN/m3", 1, "18.0 kN/m³", "115 lb/ft³"),
        (2500.0, "kN/m2", 1, "2.5 kN/m²", "52 psf"),
        (2500.0, "kPa", 1, "2.5 kPa", "52 psf"),
        (12e6, "N/mm2", 1, "12.0 N/mm²", "1740 psi"),
        (1200.0, "kN/m", 2, "1.20 kN/m", "82 lb/ft"),
        (1500.0, "kNm", 2, "1.50 kNm", "1106 lb ft"),
        (80.0, "kg", 0, "80 kg", "176 lb"),
        (-25.0, "degC", 0, "−25 °C", "−13 °F"),
        (5.0, "K", 0, "5 K", "9 °F"),
        (0.38, "deg", 1, "21.8°", "21.8°"),
        (math.atan(0.4), "slope", 2, "1:2.5 (21.8°)", "1:2.5 (21.8°)"),
        (0.0, "slope", 2, "0.0°", "0.0°"),
        (0.93, "", 2, "0.93", "0.93"),
        (-0.001, "kN", 2, "0.00 kN", "0 lb"),
        (math.nan, "m", 2, "unknown", "unknown"),
        (math.inf, "", 2, "∞", "∞"),
        (-math.inf, "m", 2, "−∞", "−∞"),
        (12.0, "ph", 0, "12 ph", "12 ph"),
    ],
)
def test_a_number_is_shown_in_both_systems(value, unit, digits, metric, imperial):
    assert show(value, unit, digits) == metric
    assert show(value, unit, digits, "imperial") == imperial


def test_a_range_is_shown_with_its_unit_once():
    assert show_range(Range(19e3, 20e3), "kN/m3", 1) == "19.0 to 20.0 kN/m³"
    assert show_range(Range(19e3, 19e3), "kN/m3", 1) == "19.0 kN/m³"
    assert show_range(Range(math.radians(22), math.radians(30)), "deg", 0) == "22 to 30°"
    assert show_range(Range(1.6, 2.0), "m", system="imperial") == "5 ft 3 in to 6 ft 6 3/4 in"
