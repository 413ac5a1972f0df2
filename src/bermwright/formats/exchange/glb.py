"""A house as binary glTF 2.0: one node a layer, one below it for each body, metres, y up by the root node.

Every node carries what it is in its extras: `layer` is the place in the order of building.
"""

from __future__ import annotations

import json
import math
import struct
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.wording import NOT_REVIEWED
from bermwright.form.solids import Kind
from bermwright.formats.exchange.standing import stands

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.form.solids import Layer, Solid, VaultSolids
    from bermwright.formats.exchange.standing import Stand

MAGIC, VERSION = 0x46546C67, 2
JSON_CHUNK, BIN_CHUNK = 0x4E4F534A, 0x004E4942
FLOATS, UINTS = 5126, 5125
VERTICES, INDICES = 34962, 34963
UP = [-float(np.sqrt(0.5)), 0.0, 0.0, float(np.sqrt(0.5))]
"""A quarter turn about x: the house's z becomes glTF's y."""

PAINT = {
    Kind.GROUND: "#d8c9aa",
    Kind.FOOTING: "#c9c7c0",
    Kind.WALL: "#cfcabd",
    Kind.WALL_INSULATION: "#f6eee0",
    Kind.FLOOR: "#cfcabd",
    Kind.FLOOR_INSULATION: "#f6eee0",
    Kind.RIB: "#e7c891",
    Kind.LAGGING: "#d9b67a",
    Kind.MEMBRANE: "#4b5155",
    Kind.VAPOUR_CONTROL: "#6b7276",
    Kind.INSULATION: "#f6eee0",
    Kind.DRAINAGE: "#c3bfb2",
    Kind.FLEECE: "#e4e0d4",
    Kind.END: "#d9b67a",
    Kind.UPPER_FLOOR: "#e7c891",
    Kind.OPENING: "#c3d2d8",
    Kind.FLUE: "#4b5155",
    Kind.COURSE: "#e3d6bb",
    Kind.FILL: "#e3d6bb",
    Kind.TURF: "#8f9a72",
}
"""Colours of the bodies, those of the drawings' washes (sRGB)."""


def glb(house: str, vaults: Sequence[VaultSolids]) -> bytes:
    """The whole house as one file."""
    writer = _Writer()
    tops = [writer.vault(vault, stand) for vault, stand in zip(vaults, stands(vaults), strict=True)]
    root = writer.node({"name": house, "rotation": UP, "children": tops, "extras": {"kind": "house"}})
    return writer.file(house, root)


class _Writer:
    """Collects nodes, meshes and bytes."""

    def __init__(self) -> None:
        self.nodes: list[dict[str, Any]] = []
        self.meshes: list[dict[str, Any]] = []
        self.materials: list[dict[str, Any]] = []
        self.painted: dict[Kind, int] = {}
        self.accessors: list[dict[str, Any]] = []
        self.views: list[dict[str, Any]] = []
        self.bytes = bytearray()

    def node(self, node: dict[str, Any]) -> int:
        """Number of a new node."""
        self.nodes.append(node)
        return len(self.nodes) - 1

    def vault(self, vault: VaultSolids, stand: Stand) -> int:
        """A vault with its layers below it."""
        layers = [self._layer(layer, order) for order, layer in enumerate(vault.layers)]
        extras = {
            "kind": "vault",
            "length": vault.length,
            "axis_degrees_from_north": None
            if vault.axis is None
            else round(float(np.degrees(vault.axis)), 6),
            "remarks": list(vault.remarks),
        }
        node: dict[str, Any] = {"name": vault.name, "translation": [stand.x, stand.y, 0.0]}
        if stand.turn:
            half = 0.5 * stand.turn
            node["rotation"] = [0.0, 0.0, math.sin(half), math.cos(half)]
        return self.node({**node, "children": layers, "extras": extras})

    def _layer(self, layer: Layer, order: int) -> int:
        bodies = [number for solid in layer.solids for number in self._solid(solid, layer, order)]
        extras = {"layer": order, "kind": str(layer.kind), "part": layer.name}
        return self.node({"name": layer.name, "children": bodies, "extras": extras})

    def _solid(self, solid: Solid, layer: Layer, order: int) -> list[int]:
        mesh = self._mesh(solid)
        many = len(solid.places) > 1
        found = []
        for number, place in enumerate(solid.places, 1):
            name = f"{solid.name} {number}" if many else solid.name
            extras = {
                "layer": order,
                "kind": str(solid.kind),
                "part": name,
                "of": layer.name,
                "volume_m3": round(solid.volume, 6),
            }
            node: dict[str, Any] = {"name": name, "mesh": mesh, "extras": extras}
            if np.any(place != 0.0):
                node["translation"] = [float(part) for part in place]
            found.append(self.node(node))
        return found

    def _mesh(self, solid: Solid) -> int:
        points = solid.vertices.astype("<f4")
        place = self._accessor(points.tobytes(), VERTICES, FLOATS, len(points), "VEC3")
        self.accessors[place] |= {
            "min": [float(v) for v in points.min(axis=0)],
            "max": [float(v) for v in points.max(axis=0)],
        }
        corners = solid.triangles.astype("<u4").ravel()
        index = self._accessor(corners.tobytes(), INDICES, UINTS, corners.size, "SCALAR")
        part = {"attributes": {"POSITION": place}, "indices": index, "material": self._material(solid.kind)}
        self.meshes.append({"name": solid.name, "primitives": [part]})
        return len(self.meshes) - 1

    def _accessor(self, content: bytes, target: int, component: int, count: int, kind: str) -> int:
        self.views.append(
            {"buffer": 0, "byteOffset": len(self.bytes), "byteLength": len(content), "target": target}
        )
        self.bytes += content
        self.accessors.append(
            {"bufferView": len(self.views) - 1, "componentType": component, "count": count, "type": kind}
        )
        return len(self.accessors) - 1

    def _material(self, kind: Kind) -> int:
        if kind not in self.painted:
            self.painted[kind] = len(self.materials)
            colour = [round(part, 5) for part in _linear(PAINT[kind])]
            surface = {"baseColorFactor": [*colour, 1.0], "metallicFactor": 0.0, "roughnessFactor": 1.0}
            self.materials.append({"name": str(kind), "pbrMetallicRoughness": surface})
        return self.painted[kind]

    def file(self, house: str, root: int) -> bytes:
        """Header and both chunks."""
        document = {
            "asset": {"version": "2.0", "generator": "bermwright"},
            "scene": 0,
            "scenes": [{"name": house, "nodes": [root], "extras": {"unit": "metre", "mark": NOT_REVIEWED}}],
            "nodes": self.nodes,
            "meshes": self.meshes,
            "materials": self.materials,
            "accessors": self.accessors,
            "bufferViews": self.views,
            "buffers": [{"byteLength": len(self.bytes)}],
        }
        text = json.dumps(document, ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode(
            "utf-8"
        )
        text += b" " * (-len(text) % 4)
        body = bytes(self.bytes)
        size = 12 + 8 + len(text) + 8 + len(body)
        return b"".join(
            (
                struct.pack("<III", MAGIC, VERSION, size),
                struct.pack("<II", len(text), JSON_CHUNK),
                text,
                struct.pack("<II", len(body), BIN_CHUNK),
                body,
            )
        )


def _linear(colour: str) -> tuple[float, ...]:
    """An sRGB colour as the linear shares that glTF wants (IEC 61966-2-1)."""
    shares = (int(colour[at : at + 2], 16) / 255.0 for at in (1, 3, 5))
    return tuple(s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
