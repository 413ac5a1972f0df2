"""Laws of the building sequence and its analysis: mirror images, equilibrium, levels in order."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from bermwright.data.rule_sets import rule_sets
from bermwright.data.timber_classes import strength_class
from bermwright.form import vault_form
from bermwright.formats.house_file import load
from bermwright.house import Ballast, CurveKind, House, Mound, Vault
from bermwright.rules import readings
from bermwright.rules.analysis.model import RibModel
from bermwright.rules.analysis.response import Analysis
from bermwright.rules.analysis.strength import RibStrength
from bermwright.rules.study import rib_model
from bermwright.stages import StageKind, build_of, fill_levels, staged

FEW = settings(max_examples=8)
SWAPPED = {
    "left ahead": "right ahead",
    "snow drifted to the left": "snow drifted to the right",
    "half the snow on the left": "half the snow on the right",
    "workers with hand tools, left half": "workers with hand tools, right half",
    "maintenance, left half": "maintenance, right half",
}
SWAPPED |= {other: one for one, other in SWAPPED.items()}


@cache
def example() -> House:
    return load(Path(__file__).parents[2] / "examples" / "larch-bank.toml").house


@st.composite
def mounds(draw: st.DrawFn) -> Mound:
    """Uneven mounds on uneven ground, some lower than the crown on one side."""
    side = st.tuples(st.floats(3.0, 6.0), st.floats(0.3, 2.2))
    (left, left_z), (right, right_z) = draw(side), draw(side)
    ground = st.floats(-0.5, 1.5)
    return Mound(
        line=((-left - 3.0, left_z), (-0.6, draw(st.floats(2.9, 3.4))), (0.5, 3.2), (right + 3.0, right_z)),
        natural=((-12.0, draw(ground)), (12.0, draw(ground))),
        turf=draw(st.sampled_from([0.0, 0.15])),
    )


def mirrored(mound: Mound) -> Mound:
    return replace(
        mound,
        line=tuple((-x, z) for x, z in reversed(mound.line)),
        natural=tuple((-x, z) for x, z in reversed(mound.natural)),
    )


def studied(mound: Mound, lift: float, lead: float, bags: Ballast | None) -> Analysis:
    house = example()
    vault = replace(house.vaults[0], curve=CurveKind.SEGMENT, mound=mound)
    stages = replace(house.stages, lift=lift, lead=lead, ballast=bags)
    house = replace(house, stages=stages, vaults=(vault,))
    model, situations = modelled(house, vault)
    return model.analyse(situations)[0]


def modelled(house: House, vault: Vault) -> tuple[RibModel, tuple]:
    form = vault_form(house, vault)
    timber = strength_class(vault.timber)
    stages = staged(build_of(form, readings.given(house, vault, form, timber)))
    return rib_model(house, vault, form, RibStrength.of(vault, form, timber)), stages


BAGS = st.sampled_from([None, Ballast(weight=2e3, width=1.3, start=1.5, until=2.5)])


@FEW
@given(mound=mounds(), lift=st.floats(0.25, 0.6), lead=st.floats(0.05, 0.4), bags=BAGS)
def test_a_mirrored_site_bends_the_ribs_in_mirror_image(mound, lift, lead, bags) -> None:
    one, other = studied(mound, lift, lead, bags), studied(mirrored(mound), lift, lead, bags)
    names = {(now.stage.name, now.case.name): i for i, now in enumerate(other.situations)}
    tallest = float(np.max(np.abs(one.moment[one.bends])))
    for i, now in enumerate(one.situations):
        name = now.case.name.removesuffix(", heavy ballast")
        twin = now.case.name.replace(name, SWAPPED.get(name, name))
        j = names[now.stage.name, twin]
        flipped = other.moment[:, j, ::-1, ::-1]
        np.testing.assert_allclose(one.moment[:, i], flipped, atol=1e-6 * tallest)


@FEW
@given(mound=mounds(), lift=st.floats(0.25, 0.6), lead=st.floats(0.05, 0.4), bags=BAGS)
def test_feet_carry_all_loads_of_every_case(mound, lift, lead, bags) -> None:
    analysis = studied(mound, lift, lead, bags)
    frame, states, response = analysis.frame, analysis.states, analysis.response
    assert response.converged.all()
    weight = analysis.factors.permanent * np.array([lane.unit_weight for lane in analysis.lanes])
    upper = np.array([lane.vertical for lane in analysis.lanes])[:, None, None]
    under = np.array([lane.soil[5] for lane in analysis.lanes])[:, None, None]
    pressure = np.maximum(weight[:, None, None] * states.depth + states.surcharge - states.pore, 0.0)
    soil = (np.where(frame.plan >= 0.0, upper, under) * pressure * frame.plan).sum(axis=2)
    down = states.down.sum(axis=1) + soil
    np.testing.assert_allclose(response.feet[..., 1].sum(axis=2), down, rtol=1e-6)
    across = states.across.sum(axis=1) + (response.pressure * frame.rise).sum(axis=2)
    outwards = response.feet[..., 1, 0] - response.feet[..., 0, 0]
    np.testing.assert_allclose(outwards, across, atol=1e-6 * float(down.max()))


@settings(max_examples=20)
@given(mound=mounds(), lift=st.floats(0.05, 3.0))
def test_lifts_rise_to_the_crown_and_none_is_too_thick(mound, lift) -> None:
    house = example()
    form = vault_form(house, replace(house.vaults[0], curve=CurveKind.SEGMENT, mound=mound))
    levels = np.array(fill_levels(form, lift))
    assert (np.diff(levels) > 0.0).all()
    # Levels are rounded to the micrometre.
    assert (np.diff(levels) <= lift + 1e-6).all()
    assert levels[-1] == form.crown_level


@FEW
@given(mound=mounds(), factor=st.floats(1.05, 2.0))
def test_more_snow_never_lifts_the_feet(mound, factor) -> None:
    house = example()
    vault = replace(house.vaults[0], curve=CurveKind.SEGMENT, mound=mound)
    model, stages = modelled(house, vault)
    more = replace(house, site=replace(house.site, ground_snow=factor * house.site.ground_snow))
    _, heavier = modelled(more, vault)
    pushes = []
    for sequence in (stages, heavier):
        part = tuple(stage for stage in sequence if stage.kind is StageKind.WRAPPED)
        (analysis,) = model.analyse(part)
        snow = analysis.where_situation(lambda now: now.case.name == "full snow")
        pushes.append(analysis.response.feet[:, snow][..., 1])
    assert analysis.factors is rule_sets("DA2")[0]
    assert (pushes[1] >= pushes[0] - 1e-6).all()
