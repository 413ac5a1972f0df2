"""The whole of setting out, assembled."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.form.setout.curve import curve_out, rib_places
from bermwright.form.setout.earthwork.dig import dig_of
from bermwright.form.setout.earthwork.heaping import heaps_of
from bermwright.form.setout.earthwork.mound import mound_reach
from bermwright.form.setout.earthwork.strips import bare_outline, end_thickness, opening_edges, strip_of
from bermwright.form.setout.ground import house_surface
from bermwright.form.setout.heights import heights_of
from bermwright.form.setout.parts.beside import digs_beside
from bermwright.form.setout.plan import plan_of
from bermwright.form.setout.remarks import remarks
from bermwright.house import SettingOut

if TYPE_CHECKING:
    from bermwright.form.setout.curve import CurveOut
    from bermwright.form.setout.earthwork.dig import Dig
    from bermwright.form.setout.earthwork.heaping import Heap
    from bermwright.form.setout.earthwork.mound import MoundReach
    from bermwright.form.setout.earthwork.strips import OpeningEdges, Strip
    from bermwright.form.setout.ground import Surface
    from bermwright.form.setout.heights import Heights
    from bermwright.form.setout.nouns import Plan, Spot
    from bermwright.form.setout.surveyed import Surveyed
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault


METRIC_TAPE, FOOT_TAPE = 0.1, 0.1524
"""Whole decimetres, or whole half feet (m)."""


def tape_of(system: str) -> float:
    """The step of a tape by the units it bears."""
    return METRIC_TAPE if system == "metric" else FOOT_TAPE


def system_of(tape: float) -> str:
    """The units that a tape bears."""
    return "metric" if tape == METRIC_TAPE else "imperial"


@dataclass(frozen=True, slots=True, kw_only=True)
class SetOut:
    """Everything that one vault is set out by."""

    vault: str
    form: VaultForm
    axis: float | None
    """Direction of the axis, walking in, from north (rad)."""
    settings: SettingOut
    given: bool
    """Whether the file has a table [setting_out]; else common practice is printed as such."""
    surface: Surface
    survey: Surveyed | None
    strips: tuple[Strip, Strip]
    plan: Plan
    heights: Heights
    dig: Dig | None
    mound: MoundReach
    others: tuple[tuple[str, tuple[Spot, ...]], ...]
    """Name and edge of the digs of the other parts, where the file places them."""
    heaps: tuple[Heap, ...]
    curve: CurveOut
    ribs: tuple[float, ...]
    """Middle of every rib along the axis (m)."""
    openings: tuple[OpeningEdges, ...]
    open: tuple[str, ...]
    """What the file leaves open and the sheets cannot say."""


def setting_out(
    house: House,
    vault: Vault,
    form: VaultForm,
    survey: Surveyed | None = None,
    *,
    tape: float = METRIC_TAPE,
) -> SetOut:
    """Pegs, heights, dig and curve of one vault, on surveyed ground where there is a survey.

    `tape` is the step of the lengths by which right angles are set out.
    """
    settings = house.setting_out or SettingOut()
    surface = survey.surface if survey is not None else house_surface(house, vault, form)
    strips = strip_of(house, vault, "left"), strip_of(house, vault, "right")
    ends = end_thickness(house, vault)
    dig = dig_of(house, vault, settings, surface=surface, strips=strips, ends=ends)
    mound = mound_reach(house, vault, form)
    others = digs_beside(house, vault)
    plan = plan_of(
        vault,
        settings,
        surface=surface,
        strips=strips,
        ends=ends,
        outline=dig.outline if dig is not None else bare_outline(vault, settings, strips, ends),
        mound=mound,
        others=tuple(edge for _, edge in others),
        tape=tape,
    )
    heights = heights_of(
        vault, form, settings, surface=surface, strips=strips, dig=dig, post=plan.peg("H").at, tape=tape
    )
    said = remarks(heights=heights, plan=plan, survey=survey, dig=dig, others=others, system=system_of(tape))
    return SetOut(
        vault=vault.name,
        form=form,
        axis=vault.axis,
        settings=settings,
        given=house.setting_out is not None,
        surface=surface,
        survey=survey,
        strips=strips,
        plan=plan,
        heights=heights,
        dig=dig,
        mound=mound,
        others=others,
        heaps=heaps_of(house, dig, plan) if dig is not None else (),
        curve=curve_out(form, vault),
        ribs=rib_places(form),
        openings=opening_edges(house, vault),
        open=(*said, *_open(house, vault, settings, dig)),
    )


def _open(house: House, vault: Vault, settings: SettingOut, dig: Dig | None) -> list[str]:
    says = []
    if dig is None:
        says.append(
            "How deep is the dig? Nothing says how thick the floor is: write setting_out.floor_build_up, or "
            "[ground_heat.floor]. Boards keep clear of walls and working space only."
        )
    if settings.dig_slope is None:
        says.append(
            "At which slope do the sides of the dig stand? Write setting_out.dig_slope. Until then volumes "
            "run from upright sides to 1:1.5, and boards keep clear of 1:1.5."
        )
    if settings.course is None and any(wall.vault == vault.name for wall in house.walls):
        says.append(
            "How high is one course of the walls? Measure ten as laid and write setting_out.course: the "
            "gauge stick then bears them."
        )
    if vault.axis is None:
        says.append(
            "Which way does the vault run? Write vault.axis, from north: the plan has no north arrow yet."
        )
    fill = house.fill(vault)
    if dig is not None and (fill is None or not fill.soil):
        says.append(
            "Of which soil is the mound? Write vault.fill.soil: until then nobody can say whether soil is "
            "spare or missing."
        )
    missing = [soil.name for soil in house.site.soil if soil.friction_angle is None]
    if missing:
        says.append(
            f"How do heaps of {', '.join(missing)} stand? Write friction_angle: heaps are drawn from it."
        )
    return says
