"""What lies over the ribs: planks, membrane, insulation, drainage, fleece."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown
from bermwright.data.rates import LAP, NAILS_A_CROSSING, PLANK_WASTE, ROLL, SHEATHING_NAILS, SKIRT
from bermwright.handbook.boards import strips_across
from bermwright.house import CoverKind
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.lines import count, line, measured, number, unknown
from bermwright.takeoff.nouns import Group, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.form.shapes import CoverBand, VaultForm
    from bermwright.house import Cover, Vault


def layer_rows(form: VaultForm, vault: Vault) -> Iterator[Quantity]:
    """Every layer from the inside out."""
    for band, cover in zip(form.bands, vault.cover, strict=True):
        match cover.kind:
            case CoverKind.LAGGING:
                yield from _lagging(form, band, cover)
            case CoverKind.MEMBRANE:
                yield _membrane(form, band)
            case CoverKind.INSULATION:
                yield from _solid(form, band)
            case CoverKind.DRAINAGE | CoverKind.FLEECE | CoverKind.VAPOUR_CONTROL:
                yield _sheet(form, band)


def _developed(form: VaultForm, band: CoverBand) -> Step:
    around = band.inner.length
    return line(
        f"{band.name.capitalize()}: length around on the inside of the layer, times length of the vault",
        "A",
        "l·L",
        f"{number(around, 'm', 2)}·{number(form.length, 'm', 2)}",
        result=Shown(around * form.length, "m2", 1),
    )


def _lagging(form: VaultForm, band: CoverBand, cover: Cover) -> Iterator[Quantity]:
    net = band.inner.length * form.length
    bought = net * band.thickness * (1.0 + PLANK_WASTE.value)
    yield measured(
        f"{band.name}, area",
        Group.LAYERS,
        Shown(net, "m2", 1),
        working=(_developed(form, band),),
        stage=StageKind.LAGGED,
        note="openings not deducted",
    )
    volume = line(
        "Volume to buy",
        "V",
        "A·t·(1 + w)",
        f"{number(net, 'm2', 1)}·{number(band.thickness, 'mm')}·(1 + {number(PLANK_WASTE.value, '%')})",
        result=Shown(bought, "m3", 2),
        cite=PLANK_WASTE.cite,
    )
    yield measured(
        f"{band.name}, volume bought",
        Group.LAYERS,
        Shown(bought, "m3", 2),
        working=(volume,),
        stage=StageKind.LAGGED,
    )
    yield from _planks(form, band, cover)


def _planks(form: VaultForm, band: CoverBand, cover: Cover) -> Iterator[Quantity]:
    if cover.width is None:
        note = "not given: the width of one plank (vault.cover.width)"
        yield unknown(f"{band.name}, rows of planks", Group.LAYERS, "", note=note, stage=StageKind.LAGGED)
        yield unknown(f"{band.name}, nails", Group.LAYERS, "", note=note, stage=StageKind.LAGGED)
        return
    rows = int(np.ceil(band.inner.length / cover.width - 1e-9))
    across = line(
        "Rows of planks from foot to foot",
        "r",
        "⌈l/w⌉",
        f"⌈{number(band.inner.length, 'm', 2)}/{number(cover.width, 'm', 3)}⌉",
        result=Shown(rows, "", 0),
    )
    along = line(
        "Running metres",
        "M",
        "r·L",
        f"{rows}·{number(form.length, 'm', 2)}",
        result=Shown(rows * form.length, "m", 1),
    )
    yield count(
        f"{band.name}, rows of planks",
        Group.LAYERS,
        rows,
        working=(across, along),
        stage=StageKind.LAGGED,
        note="butt the ends of planks on ribs, never two beside each other",
    )
    yield _lagging_nails(form, band, rows)


def _lagging_nails(form: VaultForm, band: CoverBand, rows: int) -> Quantity:
    nails = rows * form.ribs * NAILS_A_CROSSING.value
    crossings = line(
        "Nails where planks cross ribs",
        "N",
        "r·n·2",
        f"{rows}·{form.ribs}·{number(NAILS_A_CROSSING.value)}",
        result=Shown(nails, "", 0),
        cite=NAILS_A_CROSSING.cite,
    )
    area = band.inner.length * form.length
    mass = area * SHEATHING_NAILS.value
    weight = line(
        "Their mass, if 8d (about 3.3 × 65 mm) nails do",
        "m",
        "A·q",
        f"{number(area, 'm2', 1)}·{number(SHEATHING_NAILS.value, 'kg/m2', 3)}",
        result=Shown(mass, "kg", 1),
        cite=SHEATHING_NAILS.cite,
    )
    return count(
        f"{band.name}, nails", Group.LAYERS, nails, working=(crossings, weight), stage=StageKind.LAGGED
    )


def _membrane(form: VaultForm, band: CoverBand) -> Quantity:
    long = band.inner.length + 2.0 * SKIRT.value
    wide = form.length + 2.0 * SKIRT.value
    strips = int(strips_across(wide, roll=ROLL.value, lap=LAP.value))
    bought = strips * ROLL.value * long
    steps = (
        _developed(form, band),
        line(
            "Length of a strip from below one foot over the crown to below the other",
            "l_s",
            "l + 2·e",
            f"{number(band.inner.length, 'm', 2)} + 2·{number(SKIRT.value, 'm', 2)}",
            result=Shown(long, "m", 2),
            cite=SKIRT.cite,
        ),
        line(
            f"Strips side by side, {number(ROLL.value, 'm', 2)} wide",
            "n_s",
            "⌈(L + 2·e − o)/(b − o)⌉",
            f"⌈({number(wide, 'm', 2)} − {number(LAP.value, 'm', 2)})/"
            f"({number(ROLL.value, 'm', 2)} − {number(LAP.value, 'm', 2)})⌉",
            result=Shown(strips, "", 0),
            cite=LAP.cite,
        ),
        line(
            "Membrane to buy",
            "A_b",
            "n_s·b·l_s",
            f"{strips}·{number(ROLL.value, 'm', 2)}·{number(long, 'm', 2)}",
            result=Shown(bought, "m2", 1),
            cite=ROLL.cite,
        ),
    )
    return measured(
        f"{band.name}, area bought",
        Group.LAYERS,
        Shown(bought, "m2", 1),
        working=steps,
        stage=StageKind.WRAPPED,
        note="one piece without laps is better where it can be had; end walls not counted",
    )


def _solid(form: VaultForm, band: CoverBand) -> Iterator[Quantity]:
    middle = 0.5 * (band.inner.length + band.outer.length)
    volume = middle * form.length * band.thickness
    step = line(
        f"{band.name.capitalize()}: length around at half its thickness, times length and thickness",
        "V",
        "l_m·L·t",
        f"{number(middle, 'm', 2)}·{number(form.length, 'm', 2)}·{number(band.thickness, 'm', 3)}",
        result=Shown(volume, "m3", 2),
    )
    yield measured(
        f"{band.name}, area",
        Group.LAYERS,
        Shown(band.inner.length * form.length, "m2", 1),
        working=(_developed(form, band),),
        stage=StageKind.WRAPPED,
    )
    yield measured(
        f"{band.name}, volume",
        Group.LAYERS,
        Shown(volume, "m3", 2),
        working=(step,),
        stage=StageKind.WRAPPED,
        note="net; flat boards on a curve need wedge-shaped gaps filled, and offcuts are not counted",
    )


def _sheet(form: VaultForm, band: CoverBand) -> Quantity:
    return measured(
        f"{band.name}, area",
        Group.LAYERS,
        Shown(band.inner.length * form.length, "m2", 1),
        working=(_developed(form, band),),
        stage=StageKind.WRAPPED,
        note="net of laps",
    )
