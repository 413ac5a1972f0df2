"""What a model holds as plain data for JSON, documented in docs/reference/json.md."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED
from bermwright.formats.assessment_json import FORMAT, number

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.form.solids import Layer, Solid, VaultSolids
    from bermwright.takeoff.bodies import Compared


def model_data(
    house: str, parts: Sequence[VaultSolids], rows: Sequence[tuple[str, Compared]], says: Sequence[str]
) -> dict[str, Any]:
    """Bodies by layer, with their volumes, and the take-off beside them."""
    return {
        "format": FORMAT,
        "house": house,
        "mark": NOT_REVIEWED,
        "parts": [_part(one) for one in parts],
        "compared": [_compared(name, row) for name, row in rows],
        "says": list(says),
    }


def _part(one: VaultSolids) -> dict[str, Any]:
    return {
        "name": one.name,
        "axis_deg": None if one.axis is None else number(math.degrees(one.axis)),
        "length_m": number(one.length),
        "span_m": number(one.span),
        "layers": [_layer(layer) for layer in one.layers],
        "openings": [
            {"name": hole.name, "kind": hole.kind, "side": hole.side, "cuts": list(hole.cuts)}
            for hole in one.holes
        ],
        "remarks": list(one.remarks),
    }


def _layer(layer: Layer) -> dict[str, Any]:
    return {"name": layer.name, "kind": str(layer.kind), "bodies": [_body(one) for one in layer.solids]}


def _body(one: Solid) -> dict[str, Any]:
    return {
        "name": one.name,
        "pieces": len(one.places),
        "volume_m3": number(one.total),
        "whole_m3": number(one.whole * len(one.places)),
        "low_m": [number(float(at)) for at in one.low],
        "high_m": [number(float(at)) for at in one.high],
    }


def _compared(name: str, row: Compared) -> dict[str, Any]:
    return {
        "part": name,
        "what": row.name,
        "unit": row.unit,
        "taken_off": number(row.taken_off),
        "bodies": number(row.bodies),
        "as_built": number(row.true),
        "agrees": row.agrees,
        "why": row.why,
    }
