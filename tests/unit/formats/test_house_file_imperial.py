"""The starter file in feet, inches and pounds: it can be read, and says nearly what the metric one says."""

from __future__ import annotations

import pytest

from bermwright.base.ranges import Range
from bermwright.formats.house_file import read, starter
from bermwright.formats.house_file.imperial import FARTHEST, imperial_example
from bermwright.formats.house_file.values import value_of
from bermwright.house import House
from bermwright.house.fields import Quantity, Size, Table, Tables, said_of


def _examples(model, path=""):
    for key, said in said_of(model).items():
        here = f"{path}.{key}".lstrip(".")
        if isinstance(said.kind, Table | Tables):
            yield from _examples(said.kind.of, here)
        elif isinstance(said.kind, Quantity | Size):
            yield here, said.example, said.kind


def _numbers(value):
    match value:
        case Range(low=low, high=high):
            return [low, high]
        case float():
            return [value]
    return [getattr(value, name) for name in value.__slots__]


def test_every_example_is_allowed_and_nearly_the_metric_one():
    turned = 0
    for path, text, kind in _examples(House):
        new = imperial_example(text, kind)
        turned += new != text
        for was, now in zip(_numbers(value_of(text, kind)), _numbers(value_of(new, kind)), strict=True):
            assert now == pytest.approx(was, rel=FARTHEST, abs=1e-9), path
    assert turned > 200


def test_the_starter_reads_in_both_systems_line_by_line():
    metric, imperial = starter(), starter(system="imperial")
    assert read(imperial, "x").house.vaults[0].span == pytest.approx(15.75 * 0.3048)
    lines = list(zip(metric.splitlines(), imperial.splitlines(), strict=True))
    assert ('span = "4.8 m"  # invented', 'span = "15 ft 9 in"  # invented') in lines
    assert ('# ground_snow = "2.5 kN/m2"', '# ground_snow = "52.2 psf"') in lines
    for was, now in lines:
        assert was.partition("=")[0] == now.partition("=")[0]


def test_what_would_be_assumed_stands_as_it_is_assumed():
    assert '# lift = "0.2 m"' in starter(system="imperial")


@pytest.mark.parametrize(
    ("text", "dimension", "new"),
    [
        ("25 MPa", "pressure", "3630 psi"),
        ("60 kg", "mass", "132 lb"),
        ("20 degC", "temperature", "68 degF"),
        ("113 mm2", "area", "0.175 in2"),
        ("-0.45 m", "level", "-1 ft 6 in"),
        ("1.8..2.6 m", "length", "5.91..8.53 ft"),
        ("320 m", "length", "1050 ft"),
        ("0.4 mm", "thickness", "0.4 mm"),
        ("1:2.5", "slope", "1:2.5"),
    ],
)
def test_each_measure_in_its_unit(text, dimension, new):
    assert imperial_example(text, Quantity(dimension, ranged=True)) == new
