"""Lines of equal temperature, and temperatures along a surface: what pictures of a section need."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.handbook.groundheat.assembly import Conduction
    from bermwright.handbook.groundheat.mesh import Mesh
    from bermwright.handbook.groundheat.section import Array, Whole


def isotherms(mesh: Mesh, temperature: Array, levels: Sequence[float]) -> tuple[tuple[Array, ...], ...]:
    """Lines of equal temperature; that of 0 °C is the line of frost.

    In each triangle the temperature is a plane, so that its lines are straight.

    Parameters
    ----------
    mesh : Mesh
        Triangles.
    temperature : array
        At the points of the mesh [°C].
    levels : Sequence[float]
        Temperatures that are drawn [°C].

    Returns
    -------
    tuple
        For each level its lines, each (n, 2) points [m].

    References
    ----------
    [ISO10211] : clause 7, linear temperature within an element.
    """
    within("temperature", temperature)
    within("levels", levels)
    heights = temperature[mesh.triangles]
    low, high = heights.min(axis=1), heights.max(axis=1)
    return tuple(_lines(mesh, temperature, float(level), (low, high)) for level in levels)


def _lines(mesh: Mesh, temperature: Array, level: float, span: tuple[Array, Array]) -> tuple[Array, ...]:
    import shapely

    # A point that lies just on the level counts as above: every crossed triangle then has two crossed sides.
    crossed = (span[0] < level) & (span[1] >= level)
    triangles = mesh.triangles[crossed]
    if not len(triangles):
        return ()
    sides = np.sort(np.stack([triangles, np.roll(triangles, -1, axis=1)], axis=2), axis=2)
    above = temperature[sides] >= level
    cut = above[:, :, 0] != above[:, :, 1]
    ends = _crossings(mesh, temperature, level, sides[cut].reshape(-1, 2)).reshape(-1, 2, 2)
    far = np.any(ends[:, 0] != ends[:, 1], axis=1)
    joined = shapely.line_merge(shapely.multilinestrings(shapely.linestrings(ends[far])))
    return tuple(np.asarray(part.coords) for part in getattr(joined, "geoms", [joined]) if not part.is_empty)


def _crossings(mesh: Mesh, temperature: Array, level: float, sides: Whole) -> Array:
    """Where the sides of triangles have the level; equal for both neighbours to the last bit."""
    one, other = temperature[sides[:, 0]], temperature[sides[:, 1]]
    share = ((level - one) / (other - one))[:, None]
    a, b = mesh.points[sides[:, 0]], mesh.points[sides[:, 1]]
    return np.asarray(np.round(a + share * (b - a), 9))


def surface_temperature(full: Conduction, temperature: Array, port: str) -> tuple[Array, Array]:
    """Temperatures of the points of a surface, for the coldest place of it.

    Parameters
    ----------
    full : Conduction
        The equations of a section.
    temperature : array
        At the points of the mesh [°C].
    port : str
        Whose surface.

    Returns
    -------
    tuple
        (n, 2) points [m] and their temperatures [°C].

    References
    ----------
    [ISO10211] : clause 9, lowest temperature of an internal surface.
    """
    within("temperature", temperature)
    there = full.films[:, full.ports.index(port)] > 0.0
    return full.mesh.points[there], np.asarray(temperature[there])
