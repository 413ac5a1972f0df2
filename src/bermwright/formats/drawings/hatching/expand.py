"""An area or a band as plain fills and strokes."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import shapely

from bermwright.base.drawing import Area, Band, Hatch, Ink, Path, Pen, Wash
from bermwright.formats.drawings.hatching.areas import Field
from bermwright.formats.drawings.hatching.bands import BANDS, Strip, strip
from bermwright.formats.drawings.hatching.clipping import clipped, polygon
from bermwright.formats.drawings.hatching.fields import ANCHORED, laid
from bermwright.formats.drawings.plain import Fill, Strokes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.formats.drawings.plain import Box

BESIDE = 1.0
"""How far (mm) strokes run on beside what is seen."""
THINNEST = 0.85
"""A band thinner than this on paper (mm) shows its wash and edges only."""


def expand_area(area: Area, seen: Box | None = None) -> Iterator[Fill | Strokes]:
    """Wash, hatch and outline of an area; the hatch only where it is `seen`, where that is given."""
    if area.wash is not Wash.NONE:
        yield Fill(path=area.path, holes=area.holes, wash=area.wash, layer=area.layer)
    if area.hatch is not Hatch.NONE:
        yield _hatch(area, seen)
    if area.outline is not None:
        rings = (area.path, *area.holes)
        yield Strokes(paths=rings, pen=area.outline, ink=area.ink, closed=True, layer=area.layer)


def _hatch(area: Area, seen: Box | None) -> Strokes:
    """The strokes of the area's hatch."""
    shown, box = polygon(area.path, area.holes), box_of(area)
    if seen is not None and not _inside(box, seen):
        shown = shapely.intersection(shown, shapely.box(*_wider(seen)))
        box = _seen_of(box, area.hatch, shown)
    paths = () if shown.is_empty else clipped(laid(area.hatch, box), shown)
    red = area.hatch is Hatch.OVERFILLED
    return _strokes(paths, Ink.RED if red else Ink.INK, area.layer)


def box_of(area: Area) -> Field:
    """The box round an area, with what its hatch must know."""
    xs, ys = [p[0] for p in area.path], [p[1] for p in area.path]
    return Field((min(xs), min(ys)), (max(xs), max(ys)), area.along or 0.0, area.levels)


def _inside(box: Field, seen: Box) -> bool:
    """Whether all of a box is seen."""
    low, high = seen
    return all(box.low[k] >= low[k] and box.high[k] <= high[k] for k in (0, 1))


def _wider(seen: Box) -> tuple[float, float, float, float]:
    """What is seen and a little more, so that a stroke that is cut off does not end in sight."""
    (left, foot), (right, top) = seen
    return left - BESIDE, foot - BESIDE, right + BESIDE, top + BESIDE


def _seen_of(box: Field, hatch: Hatch, shown: Any) -> Field:  # noqa: ANN401  (the library has no types)
    """As much of a box as is seen, for a hatch whose strokes do not depend on the box."""
    if shown.is_empty or hatch not in ANCHORED:
        return box
    left, foot, right, top = shown.bounds
    # Lift lines are broken from the left edge of their box on.
    return replace(box, low=(box.low[0] if box.levels else left, foot), high=(right, top))


def _strokes(paths: tuple[Path, ...], ink: Ink, layer: str) -> Strokes:
    """Hatch strokes."""
    return Strokes(paths=paths, pen=Pen.HATCH, ink=ink, layer=layer, hatch=True)


def expand_band(band: Band, seen: Box | None = None) -> Iterator[Fill | Strokes]:
    """Wash, hatch and edges of a band."""
    body = strip(band.path, band.thickness)
    if band.hatch is Hatch.MEMBRANE:
        yield from _membrane(body, band.layer)
        return
    if band.hatch not in BANDS:
        whole = Area(
            path=body.outline, wash=band.wash, hatch=band.hatch, outline=band.outline, layer=band.layer
        )
        yield from expand_area(whole, seen)
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
