"""The layers over the ribs as a builder's assembly: what each conducts, holds and lets through."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.materials import Material, material
from bermwright.form.heat.ground import soil_material
from bermwright.handbook.conduction import (
    OUTSIDE,
    HeatFlow,
    bent_layer_resistance,
    inside_resistance,
)
from bermwright.handbook.damp import air_thickness
from bermwright.house.choices import CoverKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.form.shapes import CurveLine, VaultForm
    from bermwright.house import Cover, House, Vault

    Array = NDArray[np.float64]

USUAL = {CoverKind.LAGGING: "softwood", CoverKind.FLEECE: "fleece", CoverKind.DRAINAGE: "gravel drainage"}
"""What a layer is made of when only its kind is known; sheets and insulation have to be named."""
TIMBER_GAINS = 0.05
BOARD_GAINS = 0.03
"""Water that wood may take up in a winter, as a share of its mass."""
STRAIGHT = 1e-9
"""m2: three points with so little area between them lie on a line."""
ABOUT_CROWN = 0.3
"""How far the circle through the crown reaches to either side (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AssemblyLayer:
    """One layer over the room."""

    name: str
    kind: str
    """Of the cover; "soil" or "turf" above it."""
    thickness: float
    conductivity: float
    density: float
    heat_capacity: float
    air: float
    """Thickness of still air that resists vapour as much, s_d (m)."""
    limit: float
    """Water that may lie on its face in a winter (kg/m2)."""
    rots: bool
    source: str
    """Where its values are from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """Everything over the room at the crown, from the inside out."""

    name: str
    covers: tuple[AssemblyLayer, ...]
    soil: tuple[AssemblyLayer, ...]
    """Fill and turf."""
    radius: float
    """Of the inner face of the first cover at the crown (m); endless where it is taken as flat."""
    missing: tuple[str, ...]
    """Plain paths without which heat or vapour is not known."""
    assumed: tuple[str, ...]
    """Sentences on what was taken for granted."""

    @property
    def resistances(self) -> Array:
        """Of the inside film, covers, soil and the outside film, for the inner face (m2K/W)."""
        inner = self.radius
        found = [inside_resistance(HeatFlow.UP)]
        for layer in (*self.covers, *self.soil):
            bent = float(bent_layer_resistance(layer.thickness, layer.conductivity, inner))
            # Referred to the innermost face: the area grows with the radius.
            found.append(bent if np.isinf(inner) else bent * self.radius / inner)
            inner += layer.thickness
        return np.array([*found, OUTSIDE])

    @property
    def transmittance(self) -> float:
        """From room to outdoors, for the inner face (W/m2K)."""
        return float(1.0 / self.resistances.sum())


def assembly_of(house: House, vault: Vault, form: VaultForm | None = None) -> Assembly:
    """The assembly over the crown; what the file does not say is named in `missing`."""
    missing: list[str] = []
    assumed: list[str] = []
    covers = tuple(_cover(cover, missing) for cover in vault.cover)
    if not vault.cover:
        missing.append("vault.cover")
    soil = tuple(_soil(house, vault, form, missing, assumed))
    radius = np.inf if form is None else crown_radius(form.bands[0].inner)
    return Assembly(
        name=vault.name,
        covers=covers,
        soil=soil,
        radius=radius,
        missing=tuple(dict.fromkeys(missing)),
        assumed=tuple(assumed),
    )


def crown_radius(line: CurveLine) -> float:
    """Radius of the circle through the top of a curve and a point on either side of it (m)."""
    top = float(line.s[int(np.argmax(line.z))])
    x, z, _angle = line.at(np.array([top - ABOUT_CROWN, top, top + ABOUT_CROWN]))
    sides = np.hypot(np.diff(x, append=x[0]), np.diff(z, append=z[0]))
    twice_area = (x[1] - x[0]) * (z[2] - z[0]) - (x[2] - x[0]) * (z[1] - z[0])
    if abs(twice_area) < STRAIGHT:
        return np.inf
    return float(np.prod(sides) / (2.0 * abs(twice_area)))


def _cover(cover: Cover, missing: list[str]) -> AssemblyLayer:
    name = cover.material or USUAL.get(cover.kind)
    row = None if name is None else material(name)
    if row is None and (cover.conductivity is None or cover.vapour is None):
        missing.append("vault.cover.material")
    conductivity = cover.conductivity or (row.conductivity if row else np.nan)
    air = cover.vapour or (float(air_thickness(cover.thickness, row.vapour)) if row else np.nan)
    return AssemblyLayer(
        name=cover.title,
        kind=str(cover.kind),
        thickness=cover.thickness,
        conductivity=conductivity,
        density=row.density if row else np.nan,
        heat_capacity=row.heat_capacity if row else np.nan,
        air=air,
        limit=_limit(cover.thickness, row),
        rots=bool(row and row.rots),
        source=_source(cover, row),
    )


def _limit(thickness: float, row: Material | None) -> float:
    """Water that a layer bears on its face: that of its material, for wood a share of its mass."""
    if row is None:
        return 0.5
    if not row.rots:
        return row.wet_limit
    share = TIMBER_GAINS if str(row.kind) == "timber" else BOARD_GAINS
    return min(row.wet_limit, share * row.density * thickness)


def _source(cover: Cover, row: Material | None) -> str:
    own = [name for name in ("conductivity", "vapour") if getattr(cover, name) is not None]
    if row is None:
        return "the house file"
    return f"{row.name}" + (f", its {' and '.join(own)} from the house file" if own else "")


def _soil(
    house: House, vault: Vault, form: VaultForm | None, missing: list[str], assumed: list[str]
) -> Iterator[AssemblyLayer]:
    """Fill and turf over the crown."""
    depth = _crown_depth(vault, form)
    if depth is None:
        missing.append("vault.mound.crown")
        return
    turf = min(vault.mound.turf or 0.0, depth) if vault.mound else 0.0
    fill = soil_material(house.fill(vault), "the fill", assumed)
    if depth - turf > 0.0:
        yield _ground("fill", "soil", depth - turf, (fill.conductivity, fill.capacity))
    if turf > 0.0:
        row = material("topsoil and turf")
        yield _ground("turf", "turf", turf, (row.conductivity, row.volumetric))


def _crown_depth(vault: Vault, form: VaultForm | None) -> float | None:
    if form is not None:
        top = float(form.soil_face.x[int(np.argmax(form.soil_face.z))])
        return max(0.0, float(form.ground.finished.level(top)) - form.crown_level)
    return None if vault.mound is None else vault.mound.crown


def _ground(name: str, kind: str, thickness: float, heat: tuple[float, float]) -> AssemblyLayer:
    conductivity, volumetric = heat
    damp = material("sand or gravel")
    return AssemblyLayer(
        name=name,
        kind=kind,
        thickness=thickness,
        conductivity=conductivity,
        density=damp.density,
        heat_capacity=volumetric / damp.density,
        air=float(air_thickness(thickness, damp.vapour)),
        limit=np.inf,
        rots=False,
        source="soil, damp all year",
    )
