from __future__ import annotations

from dataclasses import replace

import pytest

from bermwright.base.ranges import Range
from bermwright.house import (
    About,
    Ballast,
    Board,
    CurveKind,
    Feet,
    Fill,
    Hold,
    House,
    Mound,
    Nail,
    Prop,
    Site,
    Soil,
    Stages,
    Structure,
    Tie,
    Vault,
    contradictions,
    questions,
)
from bermwright.house.questions import plain_path
from bermwright.house.site import HorizonPoint

VAULT = Vault(
    name="day room",
    curve=CurveKind.UNDER_COVER,
    span=4.8,
    rise=2.2,
    length=7.5,
    springing=0.9,
    structure=Structure.SEGMENT_RIBS,
    board=Board(0.032, 0.195),
    layers=4,
    spacing=0.6,
    timber="C18",
)
HOUSE = House(about=About(name="x"), vaults=(VAULT,))


def found(house: House) -> dict[str, str]:
    return {".".join(map(str, one.path)): f"{one.allowed} {one.advice}" for one in contradictions(house)}


def with_vault(**changes) -> House:
    return replace(HOUSE, vaults=(replace(VAULT, **changes),))


def test_a_house_that_fits_together_has_no_contradiction():
    assert contradictions(HOUSE) == ()


@pytest.mark.parametrize(
    ("changes", "key", "says"),
    [
        ({"rise": None}, "rise", "is missing"),
        ({"chain": 6.0}, "chain", "only of: catenary"),
        ({"curve": CurveKind.CATENARY, "chain": 7.0}, "chain", "one too many"),
        ({"curve": CurveKind.CATENARY, "rise": None}, "rise", "needs it, or chain"),
        ({"curve": CurveKind.CATENARY, "rise": None, "chain": 4.0}, "chain", "does not reach"),
        ({"curve": CurveKind.SEMICIRCLE}, "rise", "2.4 m"),
        ({"curve": CurveKind.POINTED, "rise": None}, "rise", "needs it, or centre_offset"),
        ({"curve": CurveKind.POINTED, "centre_offset": -1.3}, "centre_offset", "do not meet"),
        ({"curve": CurveKind.THREE_CENTRED}, "side_radius", "is missing"),
        ({"curve": CurveKind.THREE_CENTRED, "side_radius": 2.3}, "side_radius", "too large"),
        ({"curve": CurveKind.THREE_CENTRED, "rise": 3.0, "side_radius": 2.5}, "side_radius", "too small"),
        ({"curve": CurveKind.EGG}, "base_centre", "is missing"),
        ({"curve": CurveKind.DRAWN}, "points", "is missing"),
        (
            {"curve": CurveKind.DRAWN, "points": ((-2.4, 0), (-2, 1), (0, 2.2), (2, 1), (2.3, 0))},
            "points",
            "on the feet",
        ),
        (
            {"curve": CurveKind.DRAWN, "points": ((-2.4, 0), (-2, 1), (0, 2.4), (2, 1), (2.4, 0))},
            "rise",
            "highest is 2.4 m",
        ),
        ({"depth": 0.2}, "depth", "195 mm"),
        ({"spacing": 0.12}, "spacing", "128 mm"),
        ({"nails": Nail(0.0031, 0.03)}, "nails", "first board"),
        ({"feet": Feet(hold=Hold.PINNED, stiffness=2e7)}, "feet.stiffness", "elastic"),
        ({"fill": Fill(soil="till")}, "fill.soil", "no \\[\\[site.soil\\]\\]"),
        (
            {"fill": Fill(unit_weight=Range(19e3, 20e3), saturated_unit_weight=Range(18e3, 21e3))},
            "fill.saturated_unit_weight",
            "heavier",
        ),
        ({"mound": Mound(crown=0.3, line=((-8, 0), (8, 0)))}, "mound.line", "second time"),
        ({"mound": Mound(crown=0.1, turf=0.2)}, "mound.turf", "turf included"),
        ({"mound": Mound(left_toe=3.6)}, "mound.left_toe", "above the top"),
        ({"mound": Mound(line=((-1, 0), (8, 0)))}, "mound.line", "reach over"),
        ({"mound": Mound(natural=((-8, 0), (1, 0)))}, "mound.natural", "reach over"),
    ],
)
def test_what_does_not_fit_together_is_found_at_its_key(changes, key, says):
    clashes = found(with_vault(**changes))
    assert f"vault.0.{key}" in clashes
    with pytest.raises(AssertionError, match=says):
        raise AssertionError(clashes[f"vault.0.{key}"])


@pytest.mark.parametrize(
    "changes",
    [
        {"curve": CurveKind.CATENARY},
        {"curve": CurveKind.CATENARY, "rise": None, "chain": 7.0},
        {"curve": CurveKind.SEMICIRCLE, "rise": None},
        {"curve": CurveKind.SEMICIRCLE, "rise": 2.4},
        {"curve": CurveKind.POINTED, "centre_offset": 0.6, "rise": None},
        {"curve": CurveKind.POINTED, "centre_offset": 0.6},
        {"curve": CurveKind.THREE_CENTRED, "side_radius": 1.6},
        {"curve": CurveKind.THREE_CENTRED, "rise": 3.0, "side_radius": 4.0},
        {"curve": CurveKind.EGG, "base_centre": 0.5, "flank_radius": 4.0, "crown_radius": 1.2},
        {"curve": CurveKind.DRAWN, "points": ((-2.4, 0), (-2, 1), (0, 2.2), (2, 1), (2.4, 0))},
        {"feet": Feet(hold=Hold.ELASTIC, stiffness=2e7)},
        {"depth": 0.195},
        {"mound": Mound(crown=0.3, turf=0.3)},
    ],
)
def test_what_fits_is_let_through(changes):
    assert found(with_vault(**changes)) == {}


def test_a_soil_name_that_is_nearly_right_is_offered():
    house = replace(with_vault(fill=Fill(soil="silty til")), site=Site(soil=(Soil(name="silty till"),)))
    assert 'Did you mean "silty till"' in found(house)["vault.0.fill.soil"]


def test_names_are_used_once_and_only_the_lowest_soil_has_no_end():
    twin = replace(HOUSE, vaults=(VAULT, VAULT), site=Site(soil=(Soil(name="a"), Soil(name="a"))))
    assert set(found(twin)) == {"vault.1.name", "site.soil.1.name", "site.soil.0.thickness"}


@pytest.mark.parametrize(
    ("stages", "key"),
    [
        (Stages(lift=0.2, lead=0.3), "stages.lead"),
        (Stages(ballast=Ballast(weight=3e3, width=1.0, start=2.0, until=1.0)), "stages.ballast.until"),
        (Stages(props=(Prop(level=2.0, start=1.0, until=1.0),)), "stages.prop.0.until"),
        (
            Stages(props=(Prop(level=2.0, start=1.0, until=2.0, stiffness=1e7, section=Board(0.1, 0.1)),)),
            "stages.prop.0.section",
        ),
        (Stages(ties=(Tie(level=1.0, start=0.0, until=2.0, rod=0.012, area=1e-4),)), "stages.tie.0.area"),
    ],
)
def test_stages_that_do_not_fit_are_found(stages, key):
    assert set(found(replace(HOUSE, stages=stages))) == {key}


def test_a_check_that_reads_a_doubtful_value_is_left_out_and_the_others_run():
    house = with_vault(depth=0.2, spacing=0.12)
    doubtful = frozenset({("vault", 0, "depth")})
    assert [one.path for one in contradictions(house, doubtful)] == [("vault", 0, "spacing")]
    assert contradictions(house, frozenset({("vault", 0)})) == ()


def test_questions_depend_on_what_is_known():
    level = {q.place for q in questions(replace(HOUSE, site=Site(slope=0.0)))}
    steep = {q.place for q in questions(replace(HOUSE, site=Site(slope=0.1)))}
    assert "site.faces" not in level
    assert "site.faces" in steep
    pinned = {q.place for q in questions(with_vault(feet=Feet(hold=Hold.PINNED)))}
    elastic = {q.place for q in questions(with_vault(feet=Feet(hold=Hold.ELASTIC)))}
    assert 'vault "day room".feet.stiffness' not in pinned
    assert 'vault "day room".feet.stiffness' in elastic


def test_a_question_names_the_rules_that_wait_for_it():
    asked = questions(HOUSE, {"vault.nails": ("butt-joint",), "site.ground_snow": ("rib-bends",)})
    blocked = {plain_path(q.place): q.blocks for q in asked}
    assert blocked["vault.nails"] == ("butt-joint",)
    assert blocked["site.ground_snow"] == ("rib-bends",)
    assert blocked["vault.feet"] == ()


def test_the_permitted_lead_is_one_lift_unless_given():
    assert Stages(lift=0.15).permitted_lead == 0.15
    assert Stages(lift=0.2, lead=0.1).permitted_lead == 0.1


def with_climate(climate: str, **site) -> House:
    return replace(HOUSE, site=Site(climate=climate, **site))


@pytest.mark.parametrize("climate", ["normals:Estevan", "normals:ostersund froson", "weather.epw", "a/b.CSV"])
def test_a_known_station_or_a_weather_file_is_no_contradiction(climate):
    assert contradictions(with_climate(climate)) == ()


@pytest.mark.parametrize("latitude", [-0.9, 1.4])
def test_a_climate_of_another_part_of_the_world_is_refused(latitude):
    said = found(with_climate("normals:ostersund froson", latitude=latitude))["site.latitude"]
    assert "is far from Östersund Frösön at 63.2 deg" in said
    assert "within 5 degrees" in said


def test_an_unknown_station_names_what_is_written_like_it():
    said = found(with_climate("normals:Estevn"))["site.climate"]
    assert said.startswith("is not a packaged station.")
    assert '"normals:Estevan"' in said


def test_an_unknown_station_names_the_nearest_to_the_site():
    said = found(with_climate("normals:Nowhere", latitude=1.10, longitude=0.253))["site.climate"]
    assert 'Nearest to the site: "normals:Östersund Frösön" (' in said
    assert " km)" in said
    assert "schema --climates" in said


@pytest.mark.parametrize(
    ("climate", "advice"), [("Estevan", 'Write "normals:Estevan".'), ("Qqq", "Write normals: before")]
)
def test_neither_a_station_nor_a_weather_file(climate, advice):
    said = found(with_climate(climate))["site.climate"]
    assert "is neither normals:NAME nor the path" in said
    assert advice in said


def test_a_horizon_has_one_height_in_each_direction():
    points = (
        HorizonPoint(direction=0.0, height=0.1),
        HorizonPoint(direction=1.0, height=0.2),
        HorizonPoint(direction=6.283185307, height=0.3),
    )
    said = found(replace(HOUSE, site=Site(horizon=points)))
    assert "is the direction of number 1 too" in said["site.horizon.2.direction"]
    assert found(replace(HOUSE, site=Site(horizon=points[:2]))) == {}
