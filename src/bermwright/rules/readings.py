"""What the analysis reads from the house, once: soil, building sequence, temporary members, feet.

Where the file is silent the worse counts and a question is asked, or the value stays None and the
cases that need it are named as unknown; nothing is made up.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.rule_sets import AMERICAN_LOADS
from bermwright.form.known import known
from bermwright.handbook.frames import GROUND, Member, Works
from bermwright.house import CoverKind, Hold, Tamping
from bermwright.rules.analysis.lanes import SoilInput
from bermwright.rules.analysis.model import Placing
from bermwright.rules.analysis.temporary import prop_stiffness, tie_stiffness
from bermwright.stages.given import Ballast, Given, Standing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.data.timber_classes import TimberClass
    from bermwright.form.shapes import VaultForm
    from bermwright.house import Feet, House, Prop, Tie, Vault

    Array = NDArray[np.float64]

KEPT_AWAY = 0.6
"""A compactor kept this far off leaves the soil near active pressure (m); measured on rigid walls."""
CROWD = 5000.0
"""Crowd on an accessible roof (Pa): EN 1991-1-1, category C5."""
MAINTENANCE = 400.0
"""Roof not accessible except for maintenance (Pa): EN 1991-1-1, category H."""
SNOW_IS_SHORT_BELOW = 1000.0
"""Below this altitude snow is a short-term load (m)."""
SNOW_IS_SHORT_SOUTH_OF = np.radians(60.0)
"""North of this latitude snow lies for months and counts as medium-term (rad)."""
NEARLY_LEVEL = 0.3
"""Fill that falls less than this counts as level (m)."""
UNDER_CROWN = 0.05
"""Props that reach up to this share of the rise below the crown stand under the crown itself."""
SMOOTH_VERTICAL, FULL_VERTICAL, BONDED_VERTICAL = 0.7, 1.0, 1.2


def missing_for_statics(house: House, vault: Vault) -> tuple[str, ...]:
    """Places in the house file without which no force in the ribs can be found."""
    fill, mound, feet = house.fill(vault), vault.mound, vault.feet
    needed = {
        "site.floor": house.site.floor,
        "site.slope": house.site.slope,
        "vault.mound": mound,
        "vault.mound.crown": mound and (mound.crown if mound.crown is not None else mound.line or None),
        "vault.fill": fill,
        "vault.fill.unit_weight": fill and fill.unit_weight,
        "vault.fill.friction_angle": fill and fill.friction_angle,
        "vault.feet": feet,
        "vault.feet.hold": feet and feet.hold,
        "vault.cover": vault.cover or None,
        "vault.board_length": vault.board_length,
    }
    if house.site.slope:
        needed |= {"site.faces": house.site.faces, "vault.axis": vault.axis}
    found = [place for place, value in needed.items() if value is None]
    found += [
        f"vault.cover {i}.unit_weight" for i, one in enumerate(vault.cover, 1) if one.unit_weight is None
    ]
    return tuple(found)


def given(house: House, vault: Vault, form: VaultForm, timber: TimberClass) -> Given:
    """The inputs of the building sequence."""
    fill = known(house.fill(vault), "vault.fill")
    unit_weight = known(fill.unit_weight, "vault.fill.unit_weight")
    site, stages = house.site, house.stages
    load, title = _roof(site.accessible_roof)
    saturated = fill.saturated_unit_weight
    return Given(
        timber_density=timber.density,
        unit_weight=unit_weight.high,
        saturated_unit_weight=saturated.high if saturated else None,
        snow=site.ground_snow,
        snow_short=_snow_is_short(site.altitude, site.latitude),
        overflow=site.overflow,
        roof_load=load,
        roof_title=title,
        lift=stages.lift,
        lead=stages.permitted_lead,
        compaction="unknown" if stages.compaction is None else str(stages.compaction),
        crown_first=stages.crown_first,
        crown_first_width=stages.crown_first_width or vault.span / 3,
        ballast=_ballast(house),
        members=tuple(one for one, _ in _temporary(house, form)),
        gathering=site.accessible_roof is True,
        turf_weight=vault.mound.turf_unit_weight if vault.mound else None,
        order=str(stages.order),
        unheated=stages.unheated_first_winter,
        american_snow=house.rules.set == AMERICAN_LOADS,
    )


def _roof(accessible: bool | None) -> tuple[float | None, str]:  # noqa: FBT001  (yes, no or not said)
    if accessible is None:
        return None, ""
    return (CROWD, "crowd") if accessible else (MAINTENANCE, "maintenance")


def _snow_is_short(altitude: float | None, latitude: float | None) -> bool:
    """Short-term only where both are known and low; else the worse class counts."""
    if altitude is None or latitude is None:
        return False
    return altitude <= SNOW_IS_SHORT_BELOW and abs(latitude) < SNOW_IS_SHORT_SOUTH_OF


def _ballast(house: House) -> Ballast | None:
    bags = house.stages.ballast
    if bags is None:
        return None
    return Ballast(weight=bags.weight, width=bags.width, start=bags.start, until=bags.until)


def placing(house: House) -> Placing:
    """How the fill is compacted; what is not said counts as the worse."""
    stages = house.stages
    near = stages.compactor_distance is None or stages.compactor_distance < KEPT_AWAY
    plate = stages.compaction is None or (stages.compaction is Tamping.PLATE and near)
    return Placing(plate_near=plate, wet=stages.wet_fill is not False)


def soil_input(house: House, vault: Vault, form: VaultForm) -> SoilInput:
    """Ranges of the fill, and what the face of the vault does to its pressure."""
    fill = known(house.fill(vault), "vault.fill")
    return SoilInput(
        unit_weight=known(fill.unit_weight, "vault.fill.unit_weight"),
        friction_angle=known(fill.friction_angle, "vault.fill.friction_angle"),
        modulus=fill.stiffness.low if fill.stiffness else None,
        membrane_friction=membrane_friction(vault),
        verticals=_verticals(vault, form),
        undercut=bool(np.any(form.mesh.plan < 0.0)),
    )


def membrane_friction(vault: Vault) -> float | None:
    """Least friction angle of the cover layers on which soil may slide; None when none is known."""
    angles = [layer.friction.low for layer in vault.cover if layer.friction is not None]
    return min(angles, default=None)


def _verticals(vault: Vault, form: VaultForm) -> tuple[float, ...]:
    """Factors on the soil above: a smooth face under a mound sheds, a rough or wide one attracts."""
    smooth = any(one.kind is CoverKind.MEMBRANE for one in vault.cover)
    wide = _level_width(form) >= 2.0 * form.span
    factors = [FULL_VERTICAL]
    if smooth:
        factors.append(SMOOTH_VERTICAL)
    if wide or not smooth:
        factors.append(BONDED_VERTICAL)
    return tuple(factors)


def _level_width(form: VaultForm) -> float:
    """Width over which the finished ground stands no more than 0.3 m lower than over the crown (m)."""
    line = form.ground.finished
    x = np.linspace(line.x[0], line.x[-1], 400)
    high = line.level(x) > line.level(form.mesh.soil_x[form.mesh.crown]) - NEARLY_LEVEL
    return float(np.sum(high) * (x[1] - x[0]))


def feet_stiffness(feet: Feet, spacing: float) -> Array:
    """(2, 3) stiffness of both supports of one rib: sideways, down, turning."""
    held = np.inf
    sideways = {
        Hold.PINNED: held,
        Hold.FIXED: held,
        Hold.ELASTIC: np.nan if feet.stiffness is None else feet.stiffness * spacing,
        Hold.SPREADING: 0.0,
    }
    hold = known(feet.hold, "vault.feet.hold")
    turning = held if hold is Hold.FIXED else 0.0
    both = np.array([[sideways[hold], held, turning]] * 2)
    if hold is Hold.SPREADING:
        # One foot is held so that the vault has a place; that the other is free is what spreads it.
        both[0, 0] = held
    return both


def members(house: House, form: VaultForm) -> tuple[Member, ...]:
    """Props and ties of the file on the mesh, in the order in which the stages count them."""
    return tuple(member for _, member in _temporary(house, form))


def _temporary(house: House, form: VaultForm) -> Iterator[tuple[Standing, Member]]:
    """Each row of props and ties: when it stands, and where. Props under the haunches stand on both sides."""
    for prop in house.stages.props:
        for node in _propped(prop, form):
            standing = Standing(start=prop.start, until=prop.until)
            stiffness = _prop_stiffness(prop, form)
            yield standing, Member(start=node, end=GROUND, stiffness=stiffness, works=Works.COMPRESSION)
    for tie in house.stages.ties:
        yield Standing(start=tie.start, until=tie.until, tie=True), _tie(tie, form)


def _propped(prop: Prop, form: VaultForm) -> tuple[int, ...]:
    left, right = _node_at(form, prop.level, right=False), _node_at(form, prop.level, right=True)
    near_crown = prop.level > float(form.mesh.z[form.mesh.crown]) - UNDER_CROWN * form.rise
    return (form.mesh.crown,) if near_crown else (left, right)


def _prop_stiffness(prop: Prop, form: VaultForm) -> float:
    if prop.stiffness is not None:
        return prop.stiffness * form.spacing
    if prop.section is None or prop.spacing is None:
        return np.nan
    area = prop.section.thickness * prop.section.width
    return prop_stiffness(area, prop.level) * form.spacing / prop.spacing


def _tie(tie: Tie, form: VaultForm) -> Member:
    area = tie.area if tie.area is not None else np.pi / 4 * tie.rod**2 if tie.rod else np.nan
    left, right = _node_at(form, tie.level, right=False), _node_at(form, tie.level, right=True)
    width = float(form.mesh.x[right] - form.mesh.x[left])
    share = form.spacing / tie.spacing if tie.spacing else np.nan
    return Member(
        start=left,
        end=right,
        stiffness=tie_stiffness(area, width) * share,
        works=Works.TENSION,
    )


def _node_at(form: VaultForm, level: float, *, right: bool) -> int:
    """Node of the mesh nearest to a level on one side."""
    mesh = form.mesh
    nodes = range(mesh.crown, mesh.z.size) if right else range(mesh.crown + 1)
    return min(nodes, key=lambda node: abs(float(mesh.z[node]) - level))


def cushion(vault: Vault, form: VaultForm) -> Array:
    """(n + 1,) softness of insulation and drainage between rib and soil (m/Pa).

    Only layers of known strength are taken as soft: at their strength they have given about a tenth
    of their thickness (EN 826 measures it there).
    """
    soft = sum(
        0.1 * layer.thickness / layer.strength
        for layer in vault.cover
        if layer.kind in {CoverKind.INSULATION, CoverKind.DRAINAGE} and layer.strength
    )
    return np.full(form.mesh.x.size, float(soft))


def unknown_actions(house: House, vault: Vault) -> Iterator[tuple[str, str]]:
    """Places that are not known, and the cases that are left out because of it."""
    fill = house.fill(vault)
    if house.site.ground_snow is None:
        yield "site.ground_snow", "every case with snow"
    if house.site.accessible_roof is None:
        yield "site.accessible_roof", "people on the finished roof"
    if house.site.overflow is None:
        yield "site.overflow", "the blocked drain"
    if fill is None or fill.saturated_unit_weight is None:
        yield "vault.fill.saturated_unit_weight", "the soaked fill"


def ground_water(house: House) -> float | None:
    """Highest level of the ground water at the middle of the house (m); None where it is not known."""
    floor, depth = house.site.floor, house.site.water_depth
    return None if floor is None or depth is None else -floor - depth.low
