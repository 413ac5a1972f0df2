from __future__ import annotations

import math
import tomllib
from contextlib import suppress

from hypothesis import given, settings
from hypothesis import strategies as st

from bermwright.base.errors import HouseFileError
from bermwright.formats.house_file import edited, read, starter
from bermwright.formats.house_file.scan import lines_of

TEXT = "\n".join(line for line in starter().split("\n") if line and not line.startswith("#"))
LINES = TEXT.split("\n")
VALUES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(allow_nan=True),
    st.text(max_size=12),
    st.lists(st.text(max_size=5), max_size=3),
)


def toml(value) -> str:
    match value:
        case None:
            return "{}"
        case bool():
            return str(value).lower()
        case float():
            return "nan" if math.isnan(value) else "inf" if math.isinf(value) else repr(value)
        case str():
            return (
                '"'
                + "".join(f"\\U{ord(sign):08x}" for sign in value if not 0xD800 <= ord(sign) < 0xE000)
                + '"'
            )
        case list():
            return "[" + ", ".join(toml(part) for part in value) + "]"
        case _:
            return str(value)


@settings(max_examples=200)
@given(st.integers(0, len(LINES) - 1), VALUES)
def test_any_value_is_read_or_refused_by_name(place, value):
    key = LINES[place].partition("=")[0]
    if "[" in key or "=" not in LINES[place]:
        return
    text = "\n".join([*LINES[:place], f"{key}= {toml(value)}", *LINES[place + 1 :]])
    try:
        house = read(text, "x").house
    except HouseFileError as error:
        assert all(mistake.allowed for mistake in error.mistakes)  # noqa: PT017  (both ways are right)
        assert any(mistake.line == place + 1 for mistake in error.mistakes)  # noqa: PT017
    else:
        assert house.vaults


@settings(max_examples=200)
@given(st.integers(0, len(TEXT)), st.integers(0, 20), st.text(max_size=5))
def test_any_damage_is_read_or_refused_never_something_else(at, length, instead):
    damaged = TEXT[:at] + instead + TEXT[at + length :]
    try:
        opened = read(damaged, "x")
    except HouseFileError as error:
        assert error.mistakes  # noqa: PT017  (both ways are right)
    else:
        assert opened.house.name


@settings(max_examples=100)
@given(st.integers(0, len(TEXT)), st.integers(0, 20), st.text("[]{}\"\n=,#. 'a1", max_size=6))
def test_lines_are_found_for_every_key_of_any_toml(at, length, instead):
    damaged = TEXT[:at] + instead + TEXT[at + length :]
    with suppress(tomllib.TOMLDecodeError):
        found = tomllib.loads(damaged)
        lines = lines_of(damaged)
        assert {(key,) for key in found} == {path for path in lines if len(path) == 1}
        assert all(1 <= line <= damaged.count("\n") + 1 for line in lines.values())


@given(st.floats(0.8, 8.0), st.integers(1, 12))
def test_a_saved_span_reads_back(span, digits):
    written = f"{span:.{digits}f} m"
    with suppress(HouseFileError):
        house = read(edited(TEXT, {("vault", 0, "span"): written}), "x").house
        assert house.vaults[0].span == float(written[:-2])
