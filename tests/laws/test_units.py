from __future__ import annotations

import math
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bermwright.base.errors import QuantityError
from bermwright.base.units import DIMENSIONS, convert, parse, parse_exact, show, to_si
from bermwright.base.units.showing import feet_and_inches, imperial_unit

SIZES = st.floats(-1e4, 1e4, allow_nan=False)
SHOWN = {
    "m": "length",
    "mm": "length",
    "kN/m3": "unit weight",
    "kN/m2": "pressure",
    "kPa": "pressure",
    "N/mm2": "stress",
    "kN": "force",
    "kN/m": "line load",
    "deg": "angle",
    "g": "acceleration",
    "degC": "temperature",
    "W/mK": "conductivity",
    "kg": "mass",
    "kNm": "moment",
    "m2": "area",
    "m3": "volume",
    "ph": "work",
}


def _step(unit: str, text: str, system: str) -> float:
    """What one unit of the last shown digit is worth in SI."""
    if system == "imperial" and unit in {"m", "mm"}:
        return 0.0254 / 16
    other = imperial_unit(unit) if system == "imperial" else unit
    decimals = len(text.split(" ", maxsplit=1)[0].rstrip("°").partition(".")[2])
    return abs(to_si(1.0, other) - to_si(0.0, other)) * 10.0**-decimals


@given(SIZES, st.sampled_from(sorted(SHOWN)), st.integers(0, 4), st.sampled_from(["metric", "imperial"]))
def test_what_is_shown_reads_back_within_half_its_last_digit(size, unit, digits, system):
    value = to_si(size, unit)
    text = show(value, unit, digits, system)
    back = parse_exact(text, SHOWN[unit])
    assert abs(back - value) <= 0.5 * _step(unit, text, system) * (1 + 1e-6) + 1e-9 * abs(value)


@given(st.floats(-50, 50), st.sampled_from(["metric", "imperial"]))
def test_a_level_reads_back(value, system):
    text = show(value, "level", 3, system)
    back = parse_exact(text if system == "imperial" else f"{text} m", "level")
    assert abs(back - value) <= (0.0254 / 32 if system == "imperial" else 5e-4) * (1 + 1e-6)


@given(st.integers(0, 16 * 12 * 200))
def test_sixteenths_of_an_inch_survive_exactly(sixteenths):
    metres = sixteenths / 16 * 254.0 / 10_000.0
    assert parse_exact(feet_and_inches(metres), "length") == pytest.approx(metres, rel=1e-15)


@given(st.integers(0, 300), st.integers(0, 11), st.integers(1, 15))
def test_both_ways_of_writing_feet_and_inches_are_one_number(feet, inches, part):
    words = f"{feet} ft {inches} {part}/16 in"
    marks = f"{feet}' {inches} {part}/16\""
    alone = f"{feet * 12 + inches} {part}/16 in"
    assert parse_exact(words, "length") == parse_exact(marks, "length") == parse_exact(alone, "length")


@given(st.integers(-1000, 1000), st.integers(0, 1000), st.sampled_from(["m", "kN/m3", "deg", "degF", "psf"]))
def test_a_range_reads_as_its_two_ends(low, width, unit):
    dimension = {
        "m": "level",
        "kN/m3": "unit weight",
        "deg": "angle",
        "degF": "temperature",
        "psf": "pressure",
    }[unit]
    found = parse(f"{low}..{low + width} {unit}", dimension)
    assert found.low == parse_exact(f"{low} {unit}", dimension)
    assert found.high == parse_exact(f"{low + width} {unit}", dimension)


@given(st.integers(-1000, 1000), st.integers(1, 1000))
def test_a_range_that_runs_down_is_refused(low, width):
    with pytest.raises(QuantityError, match="runs down"):
        parse(f"{low + width}..{low} m", "level")


@given(st.floats(0.02, 50))
def test_a_slope_and_its_angle_agree(along):
    assert parse_exact(f"1:{along:.6f}", "slope") == pytest.approx(math.atan(1 / along), rel=1e-4)


@given(st.text(max_size=30), st.sampled_from(sorted(DIMENSIONS)))
def test_any_text_is_read_or_refused_never_something_else(text, dimension):
    # Any other error than the one that teaches fails this law.
    with suppress(QuantityError):
        found = parse(text, dimension)
        assert math.isfinite(found.low)
        assert found.low <= found.high


@given(
    st.floats(allow_nan=False, allow_infinity=False, min_value=-1e12, max_value=1e12),
    st.sampled_from(["mm", "kN/m3", "psf", "degF", "Nmm2", "W/mK", "lb/ft3", "kNm/rad"]),
)
def test_converting_there_and_back_is_the_identity(value, unit):
    assert convert(to_si(value, unit), unit) == pytest.approx(value, rel=1e-9, abs=1e-9)


@given(st.floats(0, 1e6), st.sampled_from(["m", "M"]))
def test_a_bare_number_is_never_a_length(value, wrong):
    with pytest.raises(QuantityError):
        parse(f"{value}", "length")
    if wrong == "M":
        with pytest.raises(QuantityError):
            parse(f"{value:.3f} M", "length")
