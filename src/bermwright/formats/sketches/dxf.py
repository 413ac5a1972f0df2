"""The curve in a DXF drawing: a polyline, a spline, an arc or an ellipse."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.form.sketch import SketchError
from bermwright.formats.sketches.nouns import Drawn, Line, chosen, thinned

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

CURVED = ("LWPOLYLINE", "POLYLINE", "SPLINE", "ARC", "ELLIPSE")
FLATNESS = 2e-4
"""Sagitta of a chord over the size of the drawing, where a curve becomes points."""
METRES = 6
"""The code of metres in the header of a drawing ($INSUNITS of the DXF reference)."""


def dxf(content: bytes, wanted: str | None) -> Drawn:
    """The line in a DXF file; `wanted` names its layer or its handle."""
    import ezdxf
    from ezdxf import recover, units

    try:
        document, _ = recover.read(io.BytesIO(content))
        lines = list(_lines(document.modelspace(), wanted))
    # A damaged file can break the reader anywhere.
    except (
        ezdxf.DXFError,
        OSError,
        ValueError,
        LookupError,
        AttributeError,
        TypeError,
        ArithmeticError,
    ) as error:
        raise SketchError(f"This is no DXF drawing that can be read: {error}") from None
    line = chosen(lines, wanted, "polyline")
    code = int(document.header.get("$INSUNITS", 0))
    unit = float(units.conversion_factor(code, METRES)) if code else None
    points = thinned(line.points)
    return Drawn(x=points[:, 0], z=points[:, 1], unit=unit, says=(f'Read from "{line.name}".',))


def _lines(space: Iterable[Any], wanted: str | None) -> Iterator[Line]:
    """Every curved entity; called by its layer when that was asked for, else by its handle."""
    from ezdxf.path import make_path

    for entity in space:
        if entity.dxftype() not in CURVED:
            continue
        path = make_path(entity)
        if not len(path):
            continue
        size = max(path.bbox().size) if hasattr(path, "bbox") else 1.0
        flat = path.flattening(FLATNESS * max(float(size), 1e-9))
        points = np.array([(float(point.x), float(point.y)) for point in flat])
        name = entity.dxf.layer if wanted == entity.dxf.layer else str(entity.dxf.handle)
        yield Line(name, points)
