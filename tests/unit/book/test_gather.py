"""A real house file, its form, stages and quantities become the inputs of the site book."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import pytest

from bermwright.base.findings import Verdict
from bermwright.book.pages import site_book
from bermwright.book.pages.gather import _assumed, gather, stage_ratios, values
from bermwright.form import vault_form
from bermwright.form.rib.nails import Nailing
from bermwright.formats.documents import text
from bermwright.formats.house_file import read
from bermwright.rules.analysis.stop_marks import LeadMark
from bermwright.rules.ribs.common import EXPECTED
from bermwright.rules.supports.pressing import FOOT_FORCES
from bermwright.stages.given import Given
from bermwright.stages.sequence import building_sequence

HOUSE = """
format = 1
[house]
name = "Larch Bank"
note = "invented demo house"
[site]
floor = "-0.45 m"
ground_snow = "2.5 kN/m2"
ground_acceleration = "0.04 g"
slope = "0 deg"
accessible_roof = "no"
[[site.soil]]
name = "gravelly sand"
unit_weight = "18..19 kN/m3"
friction_angle = "32..36 deg"
source = "trial pit 2"
[[vault]]
name = "day room"
axis = "75 deg"
curve = "under cover"
span = "4.8 m"
rise = "2.2 m"
length = "7.5 m"
springing = "0.9 m"
structure = "segment ribs"
board = "45 x 195 mm"
layers = 4
board_length = "1.2 m"
spacing = "0.6 m"
timber = "C24"
nails = "3.8 x 110 mm"
nails_each_side = 8
nail_spacing = "60 mm"
[vault.feet]
on = "wall"
hold = "pinned"
wall_width = "0.4 m"
wall_material = "concrete blocks"
[[vault.cover]]
kind = "lagging"
thickness = "45 mm"
unit_weight = "4.5 kN/m3"
timber = "C24"
width = "120 mm"
[vault.fill]
soil = "gravelly sand"
[vault.mound]
crown = "0.35 m"
left = "1:2.5"
right = "1:3"
turf = "150 mm"
"""
GIVEN = Given(
    timber_density=420.0,
    unit_weight=19000.0,
    saturated_unit_weight=21000.0,
    snow=2500.0,
    snow_short=False,
    overflow=0.3,
    roof_load=400.0,
    roof_title="maintenance",
    lift=0.2,
    lead=0.2,
    compaction="hand rammer",
    crown_first=0.0,
    crown_first_width=0.0,
    ballast=None,
    members=(),
)


def finding(book, **changes):
    return replace(book.findings[0], part='vault "day room"', **changes)


@pytest.fixture(scope="module")
def house():
    return read(HOUSE, "larch-bank.toml").house


@pytest.fixture(scope="module")
def assessment(house, book):
    """What the rules hand over, with the statics left out."""
    vault = house.vaults[0]
    form = vault_form(house, vault)
    stages = building_sequence(form, replace(GIVEN, lift=house.stages.lift))
    fills = [stage for stage in stages if stage.filling and stage.level is not None][:3]
    marks = tuple(
        LeadMark(
            level=stage.level,
            cap=0.2,
            allowed=allowed,
            ratio_level=0.5,
            ratio_next=1.1,
            corner="soil run low",
        )
        for stage, allowed in zip(fills, (0.2, 0.131, 0.02), strict=True)
    )
    nailing = Nailing(
        diameter=0.0038,
        length=0.09,
        count=8,
        rows=3,
        along=0.038,
        across=0.02,
        edge=0.038,
        end=0.057,
        spacing=0.06,
    )
    joint = SimpleNamespace(nailing=nailing)
    study = SimpleNamespace(
        house=house,
        vault=vault,
        part='vault "day room"',
        form=form,
        stages=stages,
        given=replace(GIVEN, lead=0.15),
        stage_ratio={stage.name: 0.4 for stage in stages},
        marks=marks,
        service=SimpleNamespace(situations=(), lanes=(SimpleNamespace(run=EXPECTED),)),
        strength=SimpleNamespace(board=0.045, joint=joint),
        remedy=lambda _mark: "Do not fill above it without props.",
        lead=lambda mark: min(mark.lead, 0.15),
        kept={},
    )
    blocked = finding(
        book, stage=fills[2].name, verdict=Verdict.FAILS, advice="Do not fill above it without props."
    )
    foot = finding(book, rule=FOOT_FORCES.name, stage=None, verdict=Verdict.HOLDS)
    return SimpleNamespace(
        house=house,
        findings=(blocked, foot),
        questions=(),
        not_checked=("wind",),
        not_read=("stove",),
        studies={vault.name: study},
    )


@pytest.fixture(scope="module")
def inputs(assessment):
    rule = SimpleNamespace(title="The ribs bend", why="Because.")
    return gather(assessment, rules=(rule,), revision="1", date="2026-11-24")


def test_marks_keep_their_rounding_and_bring_their_remedy(inputs):
    stops = inputs.vaults[0].stops
    assert [stop.lead for stop in stops] == [pytest.approx(0.15), pytest.approx(0.1), 0.0]
    assert stops[2].remedy == "Do not fill above it without props."
    assert stops[0].governs == "soil run low"


def test_every_lift_finds_its_soil(inputs):
    vault = inputs.vaults[0]
    levels = {round(lift.above, 6) for lift in vault.lifts}
    fills = [stage for stage in vault.stages if stage.name.startswith("fill to")]
    assert fills
    assert all(round(stage.level, 6) in levels for stage in fills)


def test_values_of_the_file_are_listed_with_their_units(house):
    found = {value.known.split(": ")[0]: value.value for value in values(house, "metric")}
    assert found["site.ground_snow"] == "2.5 kN/m²"
    assert found['vault "day room".span'] == "4.8 m"
    assert found['site.soil "gravelly sand".unit_weight'] == "18 to 19 kN/m³"
    assert found["site.accessible_roof"] == "no"
    assert found['vault "day room".board'] == "45 × 195 mm"
    assert all(value.known.startswith("assumed: ") for value in _assumed(house))


def test_a_stage_with_one_unknown_finding_is_unknown(book):
    findings = (
        finding(book, stage="turf", verdict=Verdict.HOLDS, ratio=0.4),
        finding(book, stage="turf", verdict=Verdict.HOLDS, ratio=0.7),
        finding(book, stage="lagged", verdict=Verdict.HOLDS, ratio=0.4),
        finding(book, stage="lagged", verdict=Verdict.UNKNOWN, ratio=None),
        finding(book, stage="lagged", verdict=Verdict.HOLDS, ratio=0.9),
        finding(book, stage="settled", verdict=Verdict.DOES_NOT_APPLY, ratio=None),
        finding(book, stage="turf", verdict=Verdict.HOLDS, ratio=None),
    )
    ribs = {"turf": 0.65, "settled": 0.3, "long term": None}
    assert stage_ratios(ribs, findings) == {"turf": 0.7, "lagged": None, "settled": 0.3, "long term": None}


def test_the_book_of_the_example_says_what_it_is(inputs):
    made = text(site_book(inputs, templates=False))
    for words in (
        "Larch Bank",
        "invented demo house",
        "wind",
        "the table stove",
        "gravelly sand",
        "4 boards 45 mm",
    ):
        assert words in made
    assert inputs.vaults[0].nailing.count == 8
    assert inputs.vaults[0].foot_forces
