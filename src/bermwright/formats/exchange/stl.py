"""A house as a model to print: closed parts that lie on the bed, in millimetres at a scale, as binary STL."""

from __future__ import annotations

import struct
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.form.solids.printing import PrintPart

    Array = NDArray[np.float64]

HEAD = 80
"""Bytes of the header."""
FACE = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])


def stl(parts: Sequence[PrintPart], *, scale: float) -> bytes:
    """All parts beside each other on the bed; the header names the scale."""
    meshes = [part.vertices[part.triangles] * (1000.0 / scale) for part in parts]
    corners = np.concatenate(meshes)
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(normals, axis=1, keepdims=True)
    faces = np.zeros(len(corners), dtype=FACE)
    faces["normal"] = normals / np.where(size > 0.0, size, 1.0)
    faces["corners"] = corners
    # A header that begins with "solid" would be read as text.
    words = f"bermwright model 1:{scale:.0f}, millimetres, not reviewed".encode("ascii")
    return words.ljust(HEAD, b" ") + struct.pack("<I", len(faces)) + faces.tobytes()
