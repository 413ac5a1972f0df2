"""A vault in its ground as a section for heat: what is where, what is asked, what is refused."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.base.ranges import Range
from bermwright.form import FormUnknownError, vault_form
from bermwright.form.heat import heat_section, missing_for_heat
from bermwright.form.heat.ground import soil_material
from bermwright.formats.house_file import load
from bermwright.handbook.groundheat import Conduction, assemble, make_mesh, steady
from bermwright.house import House, Vault
from bermwright.house.choices import SoilKind
from bermwright.house.living.umbrella import GroundFloor, GroundHeat, GroundWall, Umbrella
from bermwright.house.site import Soil

HELD = {"room": 20.0, "roof": 0.0, "field": 0.0, "deep": 5.0}
GIVEN = GroundHeat(
    floor=GroundFloor(thickness=0.1, material="rammed earth", insulation=0.2),
    wall=GroundWall(material="concrete blocks", insulation=0.15, footing_depth=0.6),
)


@pytest.fixture(scope="module")
def house(repository: Path) -> House:
    return replace(load(str(repository / "examples" / "larch-bank.toml")).house, ground_heat=GIVEN)


def solved(house: House, vault: Vault | None = None, fineness: float = 0.7) -> Conduction:
    vault = vault or house.vaults[0]
    heat = heat_section(house, vault, vault_form(house, vault), fineness=fineness)
    return assemble(make_mesh(heat.section), heat.section)


def test_the_section_has_its_ports_sources_and_watched_points(house: House) -> None:
    vault = house.vaults[0]
    heat = heat_section(house, vault, vault_form(house, vault))
    assert set(heat.section.ports) == set(HELD)
    assert {source.name for source in heat.section.sources} == {"floor", "walls"}
    assert "wall foot inside left" in heat.section.watch
    assert "umbrella edge left" not in heat.section.watch
    inner = vault.span - vault.feet.wall_width  # type: ignore[union-attr, operator]
    assert heat.lengths["floor"] == pytest.approx(inner)
    assert heat.room_area == pytest.approx(inner * vault.springing + 0.7 * vault.span * 1.4, rel=0.1)
    assert 1.0 < heat.end_factor < 1.4


def test_surfaces_are_as_long_as_the_curves(house: House) -> None:
    vault = house.vaults[0]
    form = vault_form(house, vault)
    heat, full = heat_section(house, vault, form), solved(house)
    assert heat.lengths["vault"] == pytest.approx(form.rib.outside.length, rel=2e-3)
    room = heat.lengths["vault"] + heat.lengths["wall"] + heat.lengths["floor"]
    assert full.lengths["room"] == pytest.approx(room, rel=1e-4)


def test_left_and_right_are_alike_on_even_ground(house: House) -> None:
    still = steady(solved(house), HELD)
    assert still.balance < 1e-9
    for name in ("wall foot inside", "under footing", "springing inside"):
        assert still.watch[f"{name} left"] == pytest.approx(still.watch[f"{name} right"], abs=0.1)
    assert still.watch["wall foot inside left"] < still.watch["floor middle"] < 20.0


def test_ground_that_falls_across_the_fill_is_cut_in_several_areas(house: House) -> None:
    """Natural ground that touches and crosses the finished ground leaves areas beside loose lines."""
    steep = replace(house, site=replace(house.site, slope=np.radians(9.0), faces=np.radians(275.0)))
    still = steady(solved(steep), HELD)
    assert still.balance < 1e-9
    assert still.flow["room"] == pytest.approx(steady(solved(house), HELD).flow["room"], rel=0.01)


def test_smaller_triangles_change_little(house: House) -> None:
    coarse, fine = steady(solved(house), HELD), steady(solved(house, fineness=1.6), HELD)
    assert coarse.flow["room"] == pytest.approx(fine.flow["room"], rel=0.006)
    assert coarse.watch["wall foot inside left"] == pytest.approx(
        fine.watch["wall foot inside left"], abs=0.06
    )


def test_insulation_and_umbrella_keep_warmth(house: House) -> None:
    bare = replace(
        house,
        ground_heat=replace(
            GIVEN, floor=replace(GIVEN.floor, insulation=0.0), wall=replace(GIVEN.wall, insulation=0.0)
        ),
    )
    hat = replace(house, ground_heat=replace(GIVEN, umbrella=Umbrella(reach=2.5, thickness=0.1, depth=0.3)))
    worst, middle, best = (steady(solved(one), HELD) for one in (bare, house, hat))
    assert worst.flow["room"] > 1.1 * middle.flow["room"]
    assert best.flow["room"] < middle.flow["room"]
    assert best.watch["under footing left"] > middle.watch["under footing left"]


def test_a_tall_vault_on_footings_has_a_section_too(repository: Path) -> None:
    house = load(str(repository / "examples" / "kettle-hill.toml")).house
    still = steady(solved(replace(house, ground_heat=GIVEN)), HELD)
    assert still.flow["room"] > 0.0
    assert still.balance < 1e-9


def test_what_is_missing_is_named(house: House) -> None:
    vault = house.vaults[0]
    nothing = replace(house, ground_heat=None)
    assert missing_for_heat(nothing, vault) == ("ground_heat",)
    asked = missing_for_heat(replace(house, ground_heat=GroundHeat()), vault)
    assert "ground_heat.floor.insulation" in asked
    assert "ground_heat.wall.footing_depth" in asked
    unnamed = tuple(replace(one, material=None, conductivity=None) for one in vault.cover)
    assert missing_for_heat(house, replace(vault, cover=unnamed)) == ("vault.cover.material",)
    with pytest.raises(FormUnknownError, match="ground_heat"):
        heat_section(nothing, vault, vault_form(house, vault))


def test_a_springing_below_the_floor_is_refused(house: House) -> None:
    vault = house.vaults[0]
    form = replace(vault_form(house, vault), springing=-0.2)
    with pytest.raises(OutOfRangeError, match="springing over the floor"):
        heat_section(house, vault, form)
    with pytest.raises(OutOfRangeError, match="fineness"):
        heat_section(house, vault, vault_form(house, vault), fineness=float("nan"))


def test_soils_count_as_measured_then_as_their_kind_then_as_nobody_knows() -> None:
    said: list[str] = []
    measured = Soil(
        name="a", kind=SoilKind.CLAY, conductivity=1.1, frozen_conductivity=1.9, water_content=0.3,
        unit_weight=Range(18e3, 19e3),
    )  # fmt: skip
    own = soil_material(measured, "a", said)
    assert (own.conductivity, own.frozen_conductivity) == (1.1, 1.9)
    assert said == []
    kind = soil_material(Soil(name="b", kind=SoilKind.CLAY), "b", said)
    assert (kind.conductivity, kind.capacity) == (1.5, 3e6)
    assert kind.latent == pytest.approx(1550.0 * 0.22 * 334e3)
    assert kind.frozen_conductivity is not None
    assert kind.frozen_conductivity > kind.conductivity
    unknown = soil_material(None, "c", said)
    assert (unknown.conductivity, unknown.capacity) == (2.0, 2e6)
    assert len(said) == 2
    assert "ISO 13370" in said[1]
    rock = soil_material(Soil(name="d", kind=SoilKind.ROCK), "d", said)
    assert rock.latent == 0.0
    assert rock.frozen_conductivity == rock.conductivity


def test_thin_sheets_join_the_layer_beside_them(house: House) -> None:
    vault = house.vaults[0]
    heat = heat_section(house, vault, vault_form(house, vault))
    names = {region.material.name for region in heat.section.regions if region.material}
    assert any(" and " in name for name in names)
    assert np.all(
        [region.material is None or region.material.conductivity > 0 for region in heat.section.regions]
    )
