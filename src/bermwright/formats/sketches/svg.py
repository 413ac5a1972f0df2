"""The curve in an SVG drawing: a path, a polyline or an arc of any kind."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.sketch import SketchError
from bermwright.formats.sketches.nouns import Drawn, Line, chosen, thinned

if TYPE_CHECKING:
    from collections.abc import Iterator

    from svgelements import SVG, PathSegment

POINTS_OF_A_CURVE = 60


def svg(content: bytes, wanted: str | None) -> Drawn:
    """The line in an SVG file; `wanted` is its id. An SVG has no unit that a scan or a sketch would keep."""
    from xml.etree.ElementTree import ParseError

    from svgelements import SVG

    if b"<!DOCTYPE" in content or b"<!ENTITY" in content:
        raise SketchError(
            "The drawing declares entities of its own, which are not read. Save it as plain SVG."
        )
    try:
        lines = list(_lines(SVG.parse(io.BytesIO(content), reify=True)))
    except (
        ParseError,
        ValueError,
        KeyError,
        IndexError,
        AttributeError,
        TypeError,
        ArithmeticError,
    ) as error:
        raise SketchError(f"This is no SVG drawing that can be read: {error}") from None
    line = chosen(lines, wanted, "path")
    points = thinned(line.points)
    return Drawn(x=points[:, 0], z=points[:, 1], unit=None, says=(f'Read from "{line.name}".',))


def _lines(drawing: SVG) -> Iterator[Line]:
    """Every drawn line as points; y of an SVG runs downward."""
    from svgelements import Path, Shape

    for count, element in enumerate(drawing.elements(lambda one: isinstance(one, Shape)), 1):
        points = [point for segment in Path(element) for point in _points(segment)]
        if len(points) > 1:
            flipped = np.array(points, dtype=float) * np.array([1.0, -1.0])
            yield Line(str(element.id or f"line {count}"), flipped)


def _points(segment: PathSegment) -> Iterator[tuple[float, float]]:
    """End of a straight piece, many points of a bent one; nothing of what is not drawn."""
    from svgelements import Close, Move
    from svgelements import Line as Straight

    if isinstance(segment, Close):
        return
    if isinstance(segment, Move | Straight):
        yield float(segment.end.x), float(segment.end.y)
        return
    for share in np.linspace(0.0, 1.0, POINTS_OF_A_CURVE + 1)[1:]:
        point = segment.point(float(share))
        yield float(point.x), float(point.y)
