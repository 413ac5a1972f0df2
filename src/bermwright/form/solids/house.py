"""All bodies of a vault and of a house, in the order in which they are built."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.form.solids.earthwork.earth import Earth, earth_layers, earth_of
from bermwright.form.solids.ends import (
    Cut,
    end_layer,
    flue_layer,
    hole_nouns,
    in_ends,
    in_shell,
    leaf_layer,
)
from bermwright.form.solids.nouns import Kind, Layer, VaultSolids
from bermwright.form.solids.shell import band_layers, end_ribs, rib_layer, shell_body
from bermwright.form.solids.under import Support, floor_layers, support_layers, supports_under
from bermwright.form.solids.upper import upper_layer, upper_remarks
from bermwright.form.vault import vault_form

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault


def house_solids(house: House) -> tuple[VaultSolids, ...]:
    """Every vault with its surroundings, each in its own axes. Raises `FormUnknownError`."""
    return tuple(vault_solids(house, vault, vault_form(house, vault)) for vault in house.vaults)


def vault_solids(house: House, vault: Vault, form: VaultForm) -> VaultSolids:
    """Everything of one vault that the file describes well enough to be a body."""
    supports = supports_under(house, vault, form)
    below, standing = support_layers(supports, form.length)
    floor, laid = floor_layers(house, supports, form.length, standing)
    doors, holes = in_ends(house, vault), in_shell(house, vault, form)
    cutters = [cut.body for cut in holes]
    ribs = rib_layer(form, cutters)
    bands = band_layers(form, cutters)
    walls, closing = end_layer(house, vault, form, supports, doors)
    shell = shell_body(form, floor=0.0 if laid else min(0.0, form.springing))
    earth = earth_of(house, vault, form, _lowest(supports))
    built = [*standing, *laid, *end_ribs(form), *(body for _, body in closing)]
    soil = earth_layers(earth, shell, built, cutters)
    leaves = leaf_layer(house, vault, doors)
    flue, flueless = flue_layer(house, vault, form, holes)
    ground, *placed = soil
    upper = upper_layer(house, vault, form, _room(walls, form.length))
    layers = [ground, *below, *floor, ribs, *bands, walls, leaves, upper, flue, *placed]
    known = tuple(layer for layer in layers if layer is not None)
    return VaultSolids(
        name=vault.name,
        axis=vault.axis,
        length=form.length,
        span=form.span,
        layers=known,
        holes=hole_nouns([*doors, *holes], _cut_names(doors, holes, known)),
        remarks=tuple(_remarks(house, vault, earth, supports, flueless)),
        middle=None if vault.east is None or vault.north is None else (vault.east, vault.north),
    )


def _room(walls: Layer | None, length: float) -> tuple[float, float]:
    """Inner faces of the end walls along the axis (m)."""
    faces = [0.0, length]
    for one in () if walls is None else walls.solids:
        front = float(one.low[1]) < 0.5 * length
        faces[0 if front else 1] = float(one.high[1] if front else one.low[1])
    return faces[0], faces[1]


def _lowest(supports: tuple[Support, Support]) -> float:
    levels = [level for one in supports for level in (one.bottom, one.base) if level is not None]
    return min([0.0, *levels])


def _cut_names(
    doors: tuple[Cut, ...], holes: tuple[Cut, ...], layers: tuple[Layer, ...]
) -> dict[str, tuple[str, ...]]:
    """Which bodies each opening is cut out of."""
    names = {cut.opening.name: (f"{cut.opening.side} wall",) for cut in doors}
    shell = {Kind.LAGGING, Kind.MEMBRANE, Kind.VAPOUR_CONTROL, Kind.INSULATION, Kind.DRAINAGE, Kind.FLEECE}
    through = tuple(layer.name for layer in layers if layer.kind in shell)
    return names | {cut.opening.name: through for cut in holes}


def _remarks(
    house: House, vault: Vault, earth: Earth, supports: tuple[Support, Support], flueless: str
) -> Iterator[str]:
    if flueless:
        yield flueless
    for support in supports:
        if support.wall is None or support.bottom is None:
            yield f"The {support.side} wall is not drawn: the file does not give its thickness and underside."
    for slope in earth.slopes:
        if slope.fall is None:
            yield f"The mound ends upright at the {slope.side}: the file gives no slope there."
        elif slope.free is not None and slope.hill is None:
            yield (
                f"The way before the {slope.side} wall is drawn with upright sides; the walls that hold "
                "them are not in the file."
            )
    if any(one.vault == vault.name for one in house.buttresses):
        yield "Buttresses are not drawn: the file does not say where the first one stands."
    yield from upper_remarks(house, vault)
