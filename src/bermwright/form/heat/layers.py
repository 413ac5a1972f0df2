"""The covers over the ribs as layers that conduct: thin sheets join the layer beside them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.materials import material
from bermwright.handbook.groundheat import Material
from bermwright.house.choices import CoverKind

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.house import Cover, Vault

    Array = NDArray[np.float64]

THIN = 0.012
"""Thinner covers have no triangles of their own (m)."""
USUAL = {
    CoverKind.LAGGING: "softwood",
    CoverKind.MEMBRANE: "rubber sheet",
    CoverKind.VAPOUR_CONTROL: "polyethylene sheet",
    CoverKind.FLEECE: "fleece",
    CoverKind.DRAINAGE: "gravel drainage",
}
"""What a cover is made of when only its kind is known; insulation has to be named."""
BOARD_CAPACITY = 5e4
"""Of insulation that is known by its conductivity alone (J/(m3 K)): so light that it does not matter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer between two lines that run from foot to foot."""

    material: Material
    inner: Array
    outer: Array
    """(n, 2) points (m)."""
    size: float
    """Largest edge of its triangles (m)."""


def missing_in_covers(vault: Vault) -> tuple[str, ...]:
    """What has to be said of the covers before heat can be computed."""
    silent = [
        cover for cover in vault.cover
        if cover.kind is CoverKind.INSULATION and cover.material is None and cover.conductivity is None
    ]  # fmt: skip
    return ("vault.cover.material",) if silent else ()


def named(name: str) -> Material:
    """A material of the table for the handbook."""
    row = material(name)
    return Material(name=row.name, conductivity=row.conductivity, capacity=row.density * row.heat_capacity)


def cover_layers(vault: Vault, form: VaultForm, kept: Array) -> tuple[Layer, ...]:
    """The layers from the inside out, along the kept points of the curve."""
    groups: list[list[int]] = []
    for at, cover in enumerate(vault.cover):
        alone = not groups or (cover.thickness >= THIN and _thickness(vault, groups[-1]) >= THIN)
        groups += [[at]] if alone else []
        if not alone:
            groups[-1].append(at)
    layers = []
    for group in groups:
        first, last = form.bands[group[0]].inner, form.bands[group[-1]].outer
        thickness = _thickness(vault, group)
        layers.append(
            Layer(
                material=_joined([vault.cover[at] for at in group], thickness),
                inner=np.stack([first.x, first.z], axis=1)[kept],
                outer=np.stack([last.x, last.z], axis=1)[kept],
                size=max(0.35 * thickness, 0.02),
            )
        )
    return tuple(layers)


def _thickness(vault: Vault, group: list[int]) -> float:
    return sum(vault.cover[at].thickness for at in group)


def _joined(covers: list[Cover], thickness: float) -> Material:
    """Layers one behind the other as one: resistances and capacities add up."""
    stuffs = [(cover.thickness, _of(cover)) for cover in covers]
    return Material(
        name=" and ".join(cover.title for cover in covers),
        conductivity=thickness / sum(thick / stuff.conductivity for thick, stuff in stuffs),
        capacity=sum(thick * stuff.capacity for thick, stuff in stuffs) / thickness,
    )


def _of(cover: Cover) -> Material:
    name = cover.material or USUAL.get(cover.kind)
    row = named(name) if name else None
    if cover.conductivity is None and row is not None:
        return row
    return Material(
        name=cover.title,
        conductivity=np.nan if cover.conductivity is None else cover.conductivity,
        capacity=BOARD_CAPACITY if row is None else row.capacity,
    )
