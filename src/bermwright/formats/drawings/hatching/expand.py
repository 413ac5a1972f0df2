"""An area or a band as plain fills and strokes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Band, Hatch, Ink, Path, Pen, Wash
from bermwright.formats.drawings.hatching.areas import Field
from bermwright.formats.drawings.hatching.bands import BANDS, Strip, strip
from bermwright.formats.drawings.hatching.clipping import clipped, polygon
from bermwright.formats.drawings.hatching.fields import laid
from bermwright.formats.drawings.plain import Fill, Strokes

if TYPE_CHECKING:
    from collections.abc import Iterator

THINNEST = 0.85
"""A band thinner than this on paper (mm) shows its wash and edges only."""


def expand_area(area: Area) -> Iterator[Fill | Strokes]:
    """Wash, hatch and outline of an area."""
    if area.wash is not Wash.NONE:
        yield Fill(path=area.path, holes=area.holes, wash=area.wash, layer=area.layer)
    if area.hatch is not Hatch.NONE:
        yield _hatch(area)
    if area.outline is not None:
        rings = (area.path, *area.holes)
        yield Strokes(paths=rings, pen=area.outline, ink=area.ink, closed=True, layer=area.layer)


def _hatch(area: Area) -> Strokes:
    """The strokes of the area's hatch."""
    paths = clipped(laid(area.hatch, box_of(area)), polygon(area.path, area.holes))
    red = area.hatch is Hatch.OVERFILLED
    return _strokes(paths, Ink.RED if red else Ink.INK, area.layer)


def box_of(area: Area) -> Field:
    """The box round an area, with what its hatch must know."""
    xs, ys = [p[0] for p in area.path], [p[1] for p in area.path]
    return Field((min(xs), min(ys)), (max(xs), max(ys)), area.along or 0.0, area.levels)


def _strokes(paths: tuple[Path, ...], ink: Ink, layer: str) -> Strokes:
    """Hatch strokes."""
    return Strokes(paths=paths, pen=Pen.HATCH, ink=ink, layer=layer, hatch=True)


def expand_band(band: Band) -> Iterator[Fill | Strokes]:
    """Wash, hatch and edges of a band."""
    body = strip(band.path, band.thickness)
    if band.hatch is Hatch.MEMBRANE:
        yield from _membrane(body, band.layer)
        return
    if band.hatch not in BANDS:
        yield from expand_area(
            Area(path=body.outline, wash=band.wash, hatch=band.hatch, outline=band.outline, layer=band.layer)
        )
        return
    if band.wash is not Wash.NONE:
        yield Fill(path=body.outline, wash=band.wash, layer=band.layer)
    if band.thickness >= THINNEST or band.hatch in {Hatch.TURF, Hatch.TIMBER_ACROSS}:
        paths = tuple(BANDS[band.hatch](body))
        pen = Pen.LAYER if band.hatch is Hatch.TURF else Pen.HATCH
        yield Strokes(paths=paths, pen=pen, layer=band.layer, hatch=True)
    if band.outline is not None:
        edges = (body.parallel(0.0), body.parallel(band.thickness))
        yield Strokes(paths=edges, pen=band.outline, layer=band.layer)


def _membrane(body: Strip, layer: str) -> Iterator[Fill | Strokes]:
    """A thick line with light dashes inside, never thinner than it can be seen."""
    thickness = max(body.thickness, 0.6)
    middle = strip(body.parallel(0.5 * body.thickness), thickness)
    yield Fill(
        path=middle.parallel(-0.5 * thickness) + middle.parallel(0.5 * thickness)[::-1],
        wash=Wash.INK,
        layer=layer,
    )
    count = max(1, round(middle.length / 2.4))
    pitch = middle.length / count
    dashes = tuple(
        tuple(middle.at((k + share) * pitch, 0.0) for share in (0.3, 0.5, 0.7)) for k in range(count)
    )
    yield Strokes(paths=dashes, pen=Pen.SEEN, ink=Ink.PAPER, layer=layer, hatch=True)
