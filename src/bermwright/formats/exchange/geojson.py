"""The site as GeoJSON (RFC 7946): mound, vault, footings, contour lines, pegs, in degrees of WGS 84.

Or, where that is asked for, in metres east and north of the middle of the house: such a file says so, as no
reader can know it.
"""

from __future__ import annotations

import json
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

from bermwright.base.errors import BermwrightError
from bermwright.base.wording import NOT_REVIEWED
from bermwright.form.solids import Kind
from bermwright.form.solids.cutting import Shape, parts_of, shadow
from bermwright.formats.exchange.standing import are_placed, stands
from bermwright.handbook.setout import local_metres

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from bermwright.form.setout import Peg
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House

    Place = Callable[[float, float], list[float]]

DIGITS = 9
"""Of a degree: about a tenth of a millimetre."""
METRE_DIGITS = 4
SLIM = 1e-4
"""Corners nearer to the line between their neighbours are left out (m)."""
MESH = 5e-4
"""Of the grid that outlines are laid on (m)."""
GAP = 5e-3
"""Half the width of the narrowest hole (m)."""
NUDGE = 1e-4
"""Step by which degrees to a metre are found (rad)."""


class NotPlacedError(BermwrightError, ValueError):
    """The file does not say where on the globe the house stands, or which way it looks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteVault:
    """One vault with what is set out for it."""

    solids: VaultSolids
    pegs: tuple[Peg, ...] = ()


def site_geojson(house: House, vaults: Sequence[SiteVault], *, metres: bool = False) -> bytes:
    """The feature collection. Raises `NotPlacedError` where the file places nothing on the globe."""
    _refuse_unplaced(house, vaults, metres=metres)
    solids = [vault.solids for vault in vaults]
    # Where the file places the parts each is turned by its own axis; else they stand beside each other.
    shifts = [0.0 if are_placed(solids) else stand.x for stand in stands(solids)]
    features = [
        feature
        for vault, shift in zip(vaults, shifts, strict=True)
        for feature in _vault(vault, _placing(house, vault, shift, metres=metres, placed=are_placed(solids)))
    ]
    collection: dict[str, Any] = {"type": "FeatureCollection", "name": house.name}
    if metres:
        collection["coordinates"] = "metres east and north of the middle of the first part, not degrees"
    collection |= {"mark": NOT_REVIEWED, "features": features}
    return (json.dumps(collection, ensure_ascii=False, indent=1, allow_nan=False) + "\n").encode("utf-8")


def _refuse_unplaced(house: House, vaults: Sequence[SiteVault], *, metres: bool) -> None:
    missing = [] if metres else [
        f"site.{name}" for name in ("latitude", "longitude") if getattr(house.site, name) is None
    ]  # fmt: skip
    if any(vault.solids.axis is None for vault in vaults):
        missing.append("vault.axis")
    if missing:
        way = "" if metres else ", or ask for metres instead of degrees (--metres)"
        raise NotPlacedError(
            f"GeoJSON needs the place on the globe: missing {', '.join(missing)}. Write it into the "
            f"file{way}."
        )


def _placing(house: House, vault: SiteVault, shift: float, *, metres: bool, placed: bool) -> Place:
    """Places of the vault (across, along) as the file's coordinates."""
    axis, middle = vault.solids.axis or 0.0, 0.5 * vault.solids.length
    cosine, sine = math.cos(axis), math.sin(axis)
    off = (vault.solids.middle or (0.0, 0.0)) if placed else (0.0, 0.0)
    east_per, north_per, origin = 1.0, 1.0, (0.0, 0.0)
    if not metres:
        latitude, longitude = house.site.latitude or 0.0, house.site.longitude or 0.0
        spot = local_metres(
            latitude + NUDGE, longitude + NUDGE, from_latitude=latitude, from_longitude=longitude
        )
        east_per, north_per = (math.degrees(NUDGE) / float(part) for part in spot)
        origin = (math.degrees(longitude), math.degrees(latitude))
    digits = METRE_DIGITS if metres else DIGITS

    def place(x: float, y: float) -> list[float]:
        across, along = x + shift, y - middle
        east = off[0] + across * cosine + along * sine
        north = off[1] - across * sine + along * cosine
        return [round(origin[0] + east * east_per, digits), round(origin[1] + north * north_per, digits)]

    return place


def _vault(vault: SiteVault, place: Place) -> Iterator[dict[str, Any]]:
    solids = vault.solids
    mound = [one for one in solids.solids if one.kind in {Kind.FILL, Kind.TURF}]
    if mound:
        for part in _outlines(shadow(mound)):
            yield _polygon(part, place, {"part": "mound outline", "vault": solids.name})
    shell = [one for one in solids.solids if one.kind in {Kind.LAGGING, Kind.INSULATION, Kind.MEMBRANE}]
    for part in _outlines(shadow(shell).envelope) if shell else ():
        yield _polygon(part, place, {"part": "vault", "vault": solids.name})
    courses = [one for one in solids.solids if one.kind is Kind.COURSE]
    for part in _outlines(shadow(courses)) if courses else ():
        yield _polygon(part, place, {"part": "dome", "vault": solids.name})
    for kind in (Kind.FOOTING, Kind.WALL):
        layer = solids.layer(kind)
        for one in () if layer is None else layer.solids:
            for part in _outlines(shadow([one])):
                yield _polygon(part, place, {"part": one.name, "vault": solids.name})
    yield {
        "type": "Feature",
        "properties": {"part": "axis, walking in", "vault": solids.name},
        "geometry": {"type": "LineString", "coordinates": [place(0.0, 0.0), place(0.0, solids.length)]},
    }
    for peg in vault.pegs:
        yield {
            "type": "Feature",
            "properties": {"part": "peg", "name": peg.name, "vault": solids.name, "words": peg.words},
            "geometry": {"type": "Point", "coordinates": place(peg.at[1], peg.at[0])},
        }


def _outlines(shape: Shape) -> tuple[Shape, ...]:
    """Its polygons on a grid: edges nearer to each other than its mesh would cross once digits are rounded.

    Gaps between courses that one sees through from above only because they are drawn with corners are none.
    """
    rings = [
        shapely.Polygon(part.exterior, [ring for ring in part.interiors if _is_hole(ring)])
        for part in parts_of(shape)
    ]
    return parts_of(shapely.set_precision(shapely.simplify(shapely.union_all(rings), SLIM), MESH))


def _is_hole(ring: shapely.LinearRing) -> bool:
    return not shapely.Polygon(ring).buffer(-GAP).is_empty


def _polygon(shape: shapely.Polygon, place: Place, properties: dict[str, Any]) -> dict[str, Any]:
    """A polygon with its outer ring anticlockwise, as RFC 7946 wants it."""
    rings = [_ring(shape.exterior, place, anticlockwise=True)]
    rings += [_ring(ring, place, anticlockwise=False) for ring in shape.interiors]
    return {
        "type": "Feature",
        "properties": {**properties, "area_m2": round(float(shape.area), 3)},
        "geometry": {"type": "Polygon", "coordinates": rings},
    }


def _ring(ring: shapely.LinearRing, place: Place, *, anticlockwise: bool) -> list[list[float]]:
    points = [place(float(x), float(y)) for x, y in shapely.get_coordinates(ring)[:-1]]
    x, y = np.array(points).T
    turns_left = float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)) > 0.0
    ordered = points if turns_left == anticlockwise else points[::-1]
    return [*ordered, ordered[0]]
