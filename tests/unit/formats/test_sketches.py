"""Sketches from tables, DXF and SVG give the same curve, and bad ones say what to do."""

from __future__ import annotations

import io

import numpy as np
import pytest

from bermwright.form.sketch import SketchError
from bermwright.formats.sketches import known_length, read_sketch, to_size

X = np.linspace(-2.0, 2.0, 21)
Z = 1.5 - 1.5 * (X / 2.0) ** 2


def csv_of(x: np.ndarray, z: np.ndarray, head: str = "x [m],z [m]") -> bytes:
    return "\n".join([head, *(f"{a:.4f},{b:.4f}" for a, b in zip(x, z, strict=True))]).encode()


def dxf_of(scale: float, units: int, *, lines: int = 1) -> bytes:
    import ezdxf

    drawing = ezdxf.new()
    drawing.header["$INSUNITS"] = units
    for count in range(lines):
        drawing.modelspace().add_lwpolyline(
            [(a * scale, b * scale + count) for a, b in zip(X, Z, strict=True)],
            dxfattribs={"layer": f"L{count}"},
        )
    out = io.StringIO()
    drawing.write(out)
    return out.getvalue().encode()


def svg_of(inner: str) -> bytes:
    return f'<svg xmlns="http://www.w3.org/2000/svg" width="400" height="300">{inner}</svg>'.encode()


PATH = '<path id="arch" d="M 40 200 Q 140 -100 240 200" fill="none"/>'


def test_a_table_with_its_unit_in_the_head() -> None:
    arch = to_size(read_sketch("arch.csv", csv_of(X, Z)), [])
    assert np.allclose(arch.x, X)
    assert np.allclose(arch.z, Z, atol=1e-4)


@pytest.mark.parametrize(
    "text",
    [
        "x (cm);z (cm)\n-200;0\n-100;112,5\n0;150\n100;112,5\n200;0",
        "# measured in May\n-2 m, 0 m\n-1 m, 112.5 cm\n0 m, 1500 mm\n1 m, 1.125 m\n2 m, 0 m",
        "x [ft]\tz [ft]\n-6.56168\t0\n-3.28084\t3.69094\n0\t4.92126\n3.28084\t3.69094\n6.56168\t0",
    ],
)
def test_tables_of_other_hands(text: str) -> None:
    arch = to_size(read_sketch("arch.csv", text.encode()), [])
    assert arch.span == pytest.approx(4.0, abs=1e-4)
    assert arch.z.max() == pytest.approx(1.5, abs=1e-4)


def test_a_table_without_unit_takes_its_size_from_a_known_length() -> None:
    drawn = read_sketch("arch.csv", csv_of(X * 50.0, Z * 50.0, head="x,z"))
    assert drawn.unit is None
    assert to_size(drawn, [known_length("rise 1.5 m")]).span == pytest.approx(4.0, rel=1e-6)


@pytest.mark.parametrize(("scale", "units"), [(1000.0, 4), (1.0, 6), (100.0, 5)])
def test_a_polyline_of_a_drawing_in_its_unit(scale: float, units: int) -> None:
    arch = to_size(read_sketch("arch.dxf", dxf_of(scale, units)), [])
    assert arch.span == pytest.approx(4.0, rel=1e-6)
    assert arch.z.max() == pytest.approx(1.5, rel=1e-6)


def test_a_drawing_without_unit_asks_for_a_length() -> None:
    drawn = read_sketch("arch.dxf", dxf_of(1000.0, 0))
    with pytest.raises(SketchError, match="no unit"):
        to_size(drawn, [])
    assert to_size(drawn, [known_length("span 4 m")]).z.max() == pytest.approx(1.5, rel=1e-6)


def test_several_lines_are_told_and_one_can_be_named() -> None:
    with pytest.raises(SketchError, match="2 lines could be the curve"):
        read_sketch("arch.dxf", dxf_of(1.0, 6, lines=2))
    assert read_sketch("arch.dxf", dxf_of(1.0, 6, lines=2), line="L1").z.min() == pytest.approx(1.0)


def test_a_path_of_an_svg_runs_upward_and_bends() -> None:
    arch = to_size(read_sketch("arch.svg", svg_of(PATH)), [known_length("span 4 m")])
    assert arch.z.max() == pytest.approx(3.0, rel=1e-3)
    assert arch.x.size > 30


@pytest.mark.parametrize(
    "inner",
    [
        '<polyline id="arch" points="40,200 90,90 140,50 190,90 240,200"/>',
        f'<g transform="scale(2) translate(10 5)">{PATH}</g>',
        f"{PATH}<line x1='0' y1='0' x2='10' y2='0'/>",
    ],
)
def test_other_ways_to_draw_it(inner: str) -> None:
    arch = to_size(read_sketch("arch.svg", svg_of(inner)), [known_length("span 4 m")])
    assert arch.z.max() == pytest.approx(3.0, rel=1e-3)


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("arch.csv", b"", "empty"),
        ("arch.csv", b"x [m],z [m]\n0,0\n1\n2,0", "Line 3 has no two numbers"),
        ("arch.csv", b"x [m],z [m]\n0,0\n1,high\n2,0", "Line 3"),
        ("arch.csv", b"x,z\n0 m,0 m\n1,1\n2 m,0 m", "Line 3 has no unit"),
        ("arch.dxf", b"no drawing", "no DXF drawing"),
        ("arch.svg", b"<svg", "no SVG drawing"),
        ("arch.svg", svg_of(""), "no path in it"),
        ("arch.svg", b'<!DOCTYPE x [<!ENTITY a "b">]>' + svg_of(PATH), "entities"),
        ("arch.svg", svg_of(PATH + PATH.replace("arch", "other")), '"arch", "other"'),
        ("arch.png", b"", "a sketch ends in"),
    ],
)
def test_what_cannot_be_read_says_why(name: str, content: bytes, says: str) -> None:
    with pytest.raises(SketchError, match=says):
        read_sketch(name, content)


def test_two_known_lengths_that_disagree() -> None:
    drawn = read_sketch("arch.svg", svg_of(PATH))
    with pytest.raises(SketchError, match="do not agree"):
        to_size(drawn, [known_length("span 4 m"), known_length("rise 2 m")])


def test_a_known_length_that_contradicts_the_unit() -> None:
    with pytest.raises(SketchError, match="unit of the file and the known span"):
        to_size(read_sketch("arch.csv", csv_of(X, Z)), [known_length("span 5 m")])


@pytest.mark.parametrize("text", ["width 4 m", "span 4", "span -4 m", "span"])
def test_known_lengths_that_cannot_be_read(text: str) -> None:
    with pytest.raises(SketchError, match="span"):
        known_length(text)


def test_a_table_with_nothing_but_its_head() -> None:
    with pytest.raises(SketchError, match="0 points give no curve"):
        to_size(read_sketch("arch.csv", b"x,z\n"), [])


def test_a_size_that_no_vault_has_is_refused() -> None:
    drawn = read_sketch("arch.csv", csv_of(X, Z, head="x,z"))
    with pytest.raises(SketchError, match="Look at the unit"):
        to_size(drawn, [known_length("rise 9999 m")])


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("a.csv", b'x [m], z [m]\n0,"0\r1,1'),
        ("a.svg", b'<g xmlns="http://www.w3.org/2000/svg"><path d="M0 0L1 1"/></g>'),
        ("a.svg", b'<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0 L x y"/></svg>'),
        ("a.dxf", b"  0\nSECTION\n  2\nENTITIES\n  0\nLWPOLYLINE\n 90\n3\n 10\n"),
        ("a.dxf", b"  0\nEOF\n"),
        ("a.dxf", b"\xff\xfe\x00"),
    ],
)
def test_a_damaged_file_is_refused_in_one_sentence(name, content):
    with pytest.raises(SketchError, match=name):
        read_sketch(name, content)
