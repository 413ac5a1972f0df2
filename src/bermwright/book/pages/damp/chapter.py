"""Dry and breathing: the layers with warmth and vapour in them, the months, the air and its tube."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Points, Table, plain
from bermwright.base.errors import BermwrightError
from bermwright.base.units import show
from bermwright.base.wording import MONTH_NAMES
from bermwright.book.pages.found import found
from bermwright.book.sheets.damp import Layer, LayerLines, layer_sheet
from bermwright.data.climates import MONTHS
from bermwright.rules.air.tube import NEEDED, TubeYear, tube_year
from bermwright.rules.damp.corners import ColdCorner, cold_corners, corner_humidity, missing_for_places
from bermwright.rules.damp.field import warm_places
from bermwright.rules.damp.layers import DampYear, damp_year, rain_under, studied_assembly
from bermwright.rules.damp.living import Living, living_of, missing_for_living
from bermwright.rules.damp.ribs import woods_of
from bermwright.rules.nouns import Whole

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import House, Tube, Vault
    from bermwright.rules.assess import Assessment

RULES = (
    "layers-dry-out",
    "corners-stay-free-of-mould",
    "buried-ribs-stay-dry-enough",
    "air-is-fresh",
    "intake-tube-drains-and-does-not-freeze",
    "stove-has-its-air",
)
"""What this chapter says the findings of, in this order."""
TIGHT = (
    "A hole as wide as a finger lets more vapour through than the whole sheet.",
    "Lap by a hand, glue, and press every lap against something firm; collars at pipes and cables.",
    "No nail goes through the sheet afterwards. Photograph every lap before it is covered.",
)
BREATHING = (
    "Have radon measured through the first winter. Ask the local office before the floor is laid.",
    "A tube that stands still grows mould. Keep its fan running, wash it every year.",
    "Carbon monoxide has no smell: alarms by the stove and where people sleep. Local rules come first.",
)


def damp_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """Picture first, then the months, then how it is done."""
    house = assessment.house
    if house.air is None and house.moisture is None:
        return
    yield Heading(
        text="Dry and breathing", lead="What the layers hold back, where it is damp, how the air comes in."
    )
    whole = Whole(house=house, studies=assessment.studies)
    if missing_for_living(house):
        yield Para(
            "The rooms' warmth, air and damp are not all known yet; the findings below say what is missing."
        )
    else:
        yield from _rooms(whole, system)
    yield from _findings(assessment, system)
    yield Notice(kind="caution", lines=BREATHING)


def _rooms(whole: Whole, system: str) -> Iterator[Block]:
    try:
        living = living_of(whole.house)
    except BermwrightError as error:
        yield Para(plain(str(error)))
        return
    for vault in whole.house.vaults:
        assembly = studied_assembly(whole, vault)
        if not assembly.missing:
            yield from _vault(whole, vault, damp_year(assembly, living), system)
    tube = None if whole.house.air is None else whole.house.air.tube
    if tube is not None and all(getattr(tube, name) is not None for name in NEEDED) and living.flow > 0.0:
        yield from _tube(tube, tube_year(whole.house, tube, living), living, system)


def _vault(whole: Whole, vault: Vault, damp: DampYear, system: str) -> Iterator[Block]:
    yield Heading(text=f"The roof of the {plain(vault.name)}", level=2)
    yield Figure(
        sheet=layer_sheet(layer_lines(damp)),
        caption="Where both lines of vapour meet, water gathers. Thicknesses in mm, to one scale.",
    )
    yield _months(whole.house, vault, damp, system)
    yield _layers(damp, system)
    for sentence in damp.assembly.assumed:
        yield Para(plain(sentence), small=True)
    yield Points(items=TIGHT)


def layer_lines(damp: DampYear) -> LayerLines:
    """The lines of the month in which most water gathers."""
    month, living = damp.wettest, damp.living
    layers = (*damp.assembly.covers, *damp.assembly.soil)
    profile = damp.profile(month)
    inner = damp.temperatures(month)
    covers = [layer.thickness for layer in damp.assembly.covers]
    share = np.bincount(damp.owner, minlength=len(covers))
    slices = np.array([covers[at] / share[at] for at in damp.owner.tolist()])
    depth = np.concatenate([[0.0], np.cumsum(slices)])
    soil = damp.assembly.resistances[1 + len(covers) :]
    leaving = (float(inner[-1]) - float(living.outside[month])) / float(soil.sum())
    beyond = float(inner[-1]) - leaving * np.cumsum(soil[:-1])
    outer = depth[-1] + np.cumsum([layer.thickness for layer in damp.assembly.soil])
    return LayerLines(
        layers=tuple(Layer(name=one.name, kind=one.kind, thickness=one.thickness) for one in layers),
        depth=np.concatenate([depth, outer]),
        temperature=np.concatenate([inner, beyond]),
        room=float(living.inside[month]),
        outdoors=float(living.outside[month]),
        vapour_depth=depth,
        saturation=profile.saturation,
        vapour=profile.pressure,
        wet=tuple(int(face) for face in np.flatnonzero(profile.rate > 0.0)),
        title=f"{MONTH_NAMES[month]}, over the crown",
    )


def _months(house: House, vault: Vault, damp: DampYear, system: str) -> Table:
    """Outdoors, room, water in the layers, the dampest corner, the planks, month by month."""
    living = damp.living
    corner = _corner(house, vault, living)
    planks = None
    if not missing_for_places(house, vault):
        planks = max(woods_of(house, vault, damp), key=lambda wood: wood.wettest)
    lying = {month: float(damp.year.lying[row].sum()) for row, month in enumerate(damp.year.months)}
    at_corner = None if corner is None else corner_humidity(living, warm_places(house, vault), corner)
    rows = tuple(
        (
            MONTH_NAMES[month],
            show(float(living.outside[month]), "degC", 0, system),
            show(float(living.humidity[month]), "%", 0),
            f"{lying[month] * 1e3:.0f} g/m²",
            "unknown" if at_corner is None else show(float(at_corner[month]), "%", 0),
            "unknown" if planks is None else show(float(planks.moisture[month]), "%", 0),
        )
        for month in range(MONTHS)
    )
    where = "coldest corner" if corner is None else f"at the face, {corner.place}"
    wood = "wood" if planks is None else f"wood, {planks.place}"
    return Table(
        head=("month", "outdoors", "room's air", "water in the layers", where, wood),
        rows=rows,
        align="lrrrrr",
        caption="Mould grows from 80 % at a face, wood rots from 20 % of water in it. Means of months; "
        "single "
        "weeks are colder and damper.",
    )


def _corner(house: House, vault: Vault, living: Living) -> ColdCorner | None:
    if missing_for_places(house, vault):
        return None
    return cold_corners(living, warm_places(house, vault))[0]


def _layers(damp: DampYear, system: str) -> Table:
    rows = tuple(
        (
            plain(layer.name),
            show(layer.thickness, "mm", 0, system),
            show(layer.conductivity, "W/mK", 3, system),
            show(layer.air, "m", 1, system),
            plain(layer.source),
        )
        for layer in (*damp.assembly.covers, *damp.assembly.soil)
    )
    loss, rain = damp.assembly.transmittance, rain_under(damp)
    wet = f"; rain under the insulation adds {show(rain, 'W/m2K', 3, system)}" if rain > 0.0 else ""
    return Table(
        head=("layer, from the room", "thickness", "conducts", "vapour: worth of still air", "values of"),
        rows=rows,
        align="lrrrl",
        caption=f"The roof loses {show(loss, 'W/m2K', 3, system)} for each square metre of the room's face, "
        f"bent as it is{wet}.",
    )


def _tube(tube: Tube, year: TubeYear, living: Living, system: str) -> Iterator[Block]:
    yield Heading(text="The air tube", level=2)
    rows = tuple(
        (
            MONTH_NAMES[month],
            show(float(living.outside[month]), "degC", 0, system),
            show(float(year.ground[month]), "degC", 1, system),
            show(float(year.air.outlet[month]), "degC", 1, system),
            show(float(year.air.heat[month]), "W", 0),
            f"{year.water[month] * 86_400.0:.1f} kg/d",
        )
        for month in range(MONTHS)
    )
    yield Table(
        head=("month", "outdoors", "ground", "air comes in at", "heat it brings", "dew, at most"),
        rows=rows,
        align="lrrrrr",
        caption=f"{show(tube.length, 'm', 0, system)} of {show(tube.diameter, 'mm', 0, system)} with "
        f"{show(living.flow, 'm3/h', 0, system)}; the ground around it has been drawn on for three months. "
        "In a "
        f"cold spell of {show(year.spell_outdoors, 'degC', 0, system)} air comes in at "
        f"{show(float(year.spell.outlet), 'degC', 1, system)}.",
    )


def _findings(assessment: Assessment, system: str) -> Iterator[Block]:
    yield from found(assessment.findings, RULES, system)
