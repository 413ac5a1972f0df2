from __future__ import annotations

import math

import pytest

from bermwright.base.errors import HouseFileError
from bermwright.base.ranges import Range
from bermwright.formats.house_file import read
from bermwright.house import Board, CurveKind, Frost, Structure

SAMPLE = """\
format = 1

[house]
name = "Larch Bank"            # invented
people = 3

[site]
latitude = "62.9 deg"
floor = "-0.45 m"              # finished floor against natural ground at the middle of the house
altitude = "320 m"
climate = "normals:Östersund Frösön" # packaged month table with source, or a path to a weather file
ground_snow = "2.5 kN/m2"
ground_acceleration = "0.04 g"
water_depth = "2.6 m"          # below the surface; a range for spring and autumn
slope = "8 deg"
faces = "165 deg"              # downhill, from north

[[site.soil]]                  # from the top down
name = "silty till"
unit_weight = "19..20 kN/m3"
friction_angle = "30..34 deg"

[[vault]]
name = "day room"
axis = "75 deg"                # from north, the way one looks when walking in
curve = "under cover"
span = "4.8 m"
rise = "2.2 m"
length = "7.5 m"
springing = "0.9 m"
structure = "segment ribs"
board = "32 x 195 mm"
layers = 4
spacing = "0.6 m"
timber = "C18"

[vault.mound]
crown = "0.35 m"
left = "1:2.5"
right = "1:3"
"""


def mistakes(text: str):
    with pytest.raises(HouseFileError) as caught:
        read(text, "house.toml")
    return caught.value.mistakes


def test_the_sample_of_the_design_is_read_in_si():
    house = read(SAMPLE, "house.toml").house
    (vault,) = house.vaults
    assert house.name == "Larch Bank"
    assert house.site.floor == -0.45
    assert house.site.ground_snow == 2500.0
    assert house.site.water_depth == Range(2.6, 2.6)
    assert house.site.ground_acceleration == pytest.approx(0.392266)
    assert house.site.soil[0].unit_weight == Range(19e3, 20e3)
    assert house.site.soil[0].frost is None
    assert vault.curve is CurveKind.UNDER_COVER
    assert vault.structure is Structure.SEGMENT_RIBS
    assert vault.board == Board(0.032, 0.195)
    assert (vault.rib_depth, vault.rib_width) == (0.195, 0.128)
    assert vault.axis == pytest.approx(math.radians(75))
    assert vault.mound is not None
    assert vault.mound.left == pytest.approx(math.atan(0.4))


def test_what_the_sample_does_not_say_is_asked_and_not_made_up():
    opened = read(SAMPLE, "house.toml")
    places = [question.place for question in opened.questions]
    assert 'vault "day room".feet' in places
    assert 'vault "day room".nails' in places
    assert 'site.soil "silty till".frost' in places
    assert "stages.compaction" in places
    assert "site.floor" not in places
    assert all(q.asks and q.why and q.cheapest_way for q in opened.questions)


def test_every_assumption_is_named_with_its_reason():
    found = {one.place: one for one in read(SAMPLE, "house.toml").house.assumptions}
    assert found["stages.lift"].value == '"0.2 m"'
    assert found["rules.set"].value == '"EN 1990"'
    assert all(one.source for one in found.values())
    given = read(SAMPLE + '\n[stages]\nlift = "0.15 m"\n', "house.toml").house
    assert "stages.lift" not in {one.place for one in given.assumptions}
    assert given.stages.lift == 0.15


def test_a_missing_floor_level_or_orientation_is_a_question():
    text = SAMPLE.replace('axis = "75 deg"', '# axis = "75 deg"').replace('floor = "-0.45 m"', "#")
    opened = read(text, "house.toml")
    assert opened.house.vaults[0].axis is None
    assert opened.house.site.floor is None
    assert {'vault "day room".axis', "site.floor"} <= {q.place for q in opened.questions}


def test_the_fill_takes_over_what_the_named_soil_says():
    text = SAMPLE + '\n[vault.fill]\nsoil = "silty till"\nunit_weight = "18 kN/m3"\nfrost = "susceptible"\n'
    opened = read(text, "house.toml")
    fill = opened.house.fill(opened.house.vaults[0])
    assert fill is not None
    assert fill.unit_weight == Range(18e3, 18e3)
    assert fill.friction_angle == Range(math.radians(30), math.radians(34))
    assert fill.frost is Frost.SUSCEPTIBLE
    places = [question.place for question in opened.questions]
    assert 'vault "day room".fill.drained' in places
    assert 'vault "day room".fill.friction_angle' not in places


def test_tables_that_are_planned_are_named_and_the_rest_is_read():
    opened = read(SAMPLE + '\n[[furniture]]\nname = "store"\n\n[power]\nsolar = "yes"\n', "house.toml")
    assert opened.not_read == ("furniture", "power")


def test_a_review_that_changes_no_mark_is_named_as_not_read():
    review = '[review]\nwho = "A. Reviewer"\nlicence = "no. 0000"\ndate = "2027-04-02"\nhash = "3f9a"\n'
    opened = read(SAMPLE + review, "x")
    assert opened.house.review is not None
    assert opened.not_read == ("review",)
    assert opened.house.name == "Larch Bank"


TWELVE = [
    ("people = 3", "peeple = 3", 'Did you mean "people"'),
    ('latitude = "62.9 deg"', 'latitude = "95 deg"', "-90 deg to 90 deg"),
    ('ground_snow = "2.5 kN/m2"', 'ground_snow = "2.5 m"', "a length; a pressure is due"),
    ('slope = "8 deg"', 'slope = "2.5:1"', "68.2 degrees"),
    ('unit_weight = "19..20 kN/m3"', "unit_weight = 19", "without quotes"),
    ('friction_angle = "30..34 deg"', 'friction_angle = "34..30 deg"', "30..34 deg"),
    ('curve = "under cover"', 'curve = "catenry"', 'Did you mean "catenary"'),
    ('span = "4.8 m"', 'span = "4,8 m"', "4.8 m"),
    ('structure = "segment ribs"', 'structure = "masonry"', "not read yet"),
    ("layers = 4", "layers = 1", "from 2 to 12"),
    ('timber = "C18"', 'timber = "C19"', 'Did you mean "C18"'),
    ('crown = "0.35 m"', 'crown = "0.35"', "no unit"),
]


def test_twelve_mistakes_are_reported_at_once_with_their_lines():
    text = SAMPLE
    for right, wrong, _ in TWELVE:
        assert text.count(right) == 1
        text = text.replace(right, wrong)
    lines = {wrong: text[: text.index(wrong)].count("\n") + 1 for _, wrong, _ in TWELVE}
    found = mistakes(text)
    assert len(found) == 12
    assert [one.line for one in found] == sorted(one.line or 0 for one in found)
    by_line = {one.line: str(one) for one in found}
    for _, wrong, teaches in TWELVE:
        assert teaches in by_line[lines[wrong]]


def test_the_place_is_said_as_a_builder_would():
    (found,) = mistakes(SAMPLE.replace('left = "1:2.5"', 'left = "60 m"'))
    assert found.place == 'vault "day room" > mound > left'
    assert found.line == SAMPLE[: SAMPLE.index("left =")].count("\n") + 1
    assert found.given == '"60 m"'


@pytest.mark.parametrize(
    ("right", "wrong", "teaches"),
    [
        ('name = "day room"\n', "", "is missing"),
        ('span = "4.8 m"', 'span = "12 m"', "over 8 m"),
        ('span = "4.8 m"', 'span = "4..5 m"', "one value is due"),
        ('span = "4.8 m"', 'span = ["4.8 m"]', "A list stands here"),
        ('span = "4.8 m"', "span = true", "true is no value"),
        ('span = "4.8 m"', "span = nan", "Write for example"),
        ('span = "4.8 m"', "span = inf", "Write for example"),
        ("layers = 4", 'layers = "4"', "without quotes"),
        ("layers = 4", "layers = 4.5", "whole number"),
        ("layers = 4", "layers = true", "whole number"),
        ('board = "32 x 195 mm"', 'board = "195 x 32 mm"', "thickness must lie"),
        ('board = "32 x 195 mm"', 'board = "32 mm"', "not two measures"),
        ("[[vault]]", "[vault]", "double brackets"),
        ("[site]", "[[site]]", "single brackets"),
        ("[vault.mound]", "[vault.mond]", 'Did you mean "mound"'),
        ("[vault.mound]", "[[vault.mound]]", "single brackets"),
        ('crown = "0.35 m"', 'crown = "1.5 m"', "1.2 m"),
        ('crown = "0.35 m"', 'friction_angle = "30 deg"', r"\[vault.fill\]"),
        ("format = 1", 'format = "1"', "without quotes"),
        ('name = "Larch Bank"', 'name = ""', "empty"),
        ('name = "Larch Bank"', "name = 'a\"b'", "one line"),
        ('curve = "under cover"', 'curve = "parabola"\nchain = "7 m"', "only of: catenary"),
    ],
)
def test_one_mistake_is_one_mistake(right, wrong, teaches):
    found = mistakes(SAMPLE.replace(right, wrong))
    assert any(one.line for one in found)
    with pytest.raises(HouseFileError, match=teaches):
        read(SAMPLE.replace(right, wrong), "house.toml")


def test_a_house_without_a_vault_or_a_name_is_told_so():
    assert {one.place for one in mistakes("format = 1\n")} == {"house", "house > name", "vault"}


@pytest.mark.parametrize(
    ("extra", "teaches"),
    [
        ('[stages]\nstart = "2027-02-30"\n', "no such day"),
        ('[stages]\nstart = "1 June 2027"\n', "year-month-day"),
        ('[stages]\nwet_fill = "perhaps"\n', '"yes" or "no"'),
        ('[prices]\nsoil = "12.50 EUR/kg"\n', "per m3"),
        ("[prices]\nsoil = 12.5\n", "without quotes"),
        ("[rules]\nmodel_factor = 0.9\n", "1 to 3"),
        ("[rules]\nmodel_factor = nan\n", "1 to 3"),
        ('[rules]\nset = "house rules"\n', "EN 1990"),
        ('[[stages.prop]]\nlevel = "2 m"\nfrom = "1 m"\n', "is missing"),
    ],
)
def test_other_kinds_of_values_are_checked_too(extra, teaches):
    with pytest.raises(HouseFileError, match=teaches):
        read(f"{SAMPLE}\n{extra}", "house.toml")


def test_days_and_yes_are_read_as_toml_has_them_too():
    opened = read(SAMPLE + "\n[stages]\nstart = 2027-06-01\nwet_fill = false\n", "house.toml")
    assert opened.house.stages.start == "2027-06-01"
    assert opened.house.stages.wet_fill is False


def test_lines_of_points_are_read_and_their_order_is_checked():
    line = 'line = [["-8 m", "0 m"], ["-1 m", "3.4 m"], ["1 m", "3.4 m"], ["8 m", "0 m"]]'
    text = SAMPLE.split("[vault.mound]", maxsplit=1)[0] + f"[vault.mound]\n{line}\n"
    mound = read(text, "house.toml").house.vaults[0].mound
    assert mound is not None
    assert mound.line == ((-8.0, 0.0), (-1.0, 3.4), (1.0, 3.4), (8.0, 0.0))
    with pytest.raises(HouseFileError, match="point 3 is not right of point 2"):
        read(text.replace('["1 m", "3.4 m"]', '["-2 m", "3.4 m"]'), "house.toml")
    with pytest.raises(HouseFileError, match=r"Point 2: .*no unit"):
        read(text.replace('"-1 m"', '"-1"'), "house.toml")


@pytest.mark.parametrize("written", ['"15\' 9\\""', "'''15' 9\"'''", '"15 ft 9 in"'])
def test_feet_and_inches_are_read_however_the_quoting_allows_them(written):
    house = read(SAMPLE.replace('"4.8 m"', written), "house.toml").house
    assert house.vaults[0].span == pytest.approx(4.8006)


def test_windows_line_ends_and_a_byte_order_mark_do_not_matter():
    found = mistakes("\ufeff" + SAMPLE.replace('span = "4.8 m"', "span = 4.8").replace("\n", "\r\n"))
    assert [one.line for one in found] == [SAMPLE[: SAMPLE.index("span")].count("\n") + 1]
    assert read("\ufeff" + SAMPLE.replace("\n", "\r\n"), "house.toml").house.name == "Larch Bank"


@pytest.mark.parametrize(
    ("text", "line", "cause"),
    [
        ("format = 1\nspan = 4.8 m\n", 2, 'span = "4.8 m"'),
        ("[vault\nname = 1\n", 1, "not closed"),
        ('span = "5\' 3""\n', 1, "5 ft 3 1/2 in"),
        ("span = 5' 3\"\n", 1, "5 ft 3 1/2 in"),
        ('format = 1\nspan "4.8 m"\n', 2, "= is missing"),
        ('span: "4.8 m"\n', 1, "= is missing"),
        ("curve = catenary\n", 1, '"catenary"'),
        ("wet_fill = yes\n", 1, '"yes"'),
        ('a = "x\nb = 1\n', 1, "not closed"),
        ("a = 'x\n", 1, "not closed"),
        ("a = 1\nb = 2\na = 2\n", 3, "second time; first on line 1"),
        ("[site]\n[house]\n[site]\n", 3, "second time"),
        ("a = “x”\n", 1, "curly"),
        ("a =\n", 1, "no value"),
        ('# x\na = """x\n', 2, "line 2 is never closed"),
        ('a = ["x",\n', 1, "not closed"),
        ('ground snow = "2"\n', 1, "one word"),
        ("left = 1:2.5\n", 1, '"1:2.5"'),
        ("slope = 40 %\n", 1, '"40 %"'),
        ("a = 22..30 deg\n", 1, '"22..30 deg"'),
        ('a = "C:\\path"\n', 1, "backslash"),
        ("a = .5\n", 1, "0.5"),
        ("a = 05\n", 1, "0.5"),
        ("lone\n", 1, "without ="),
        ("a = 1 2\n", 1, "follows the value"),
        ("# x\rformat = 1\rspan = 1\r", 1, "LF"),
    ],
)
def test_a_syntax_error_alone_gives_line_column_and_usual_cause(text, line, cause):
    (found,) = mistakes(text)
    assert found.line == line
    assert found.place.startswith("column ")
    assert cause in f"{found.allowed} {found.advice}"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "empty"),
        ("\n  \n", "empty"),
        ("format = 2\nnew = 1\n", "up to format 1"),
        ("a = " + "[" * 3000 + "]" * 3000, "too deep"),
        ("a = " + "[" * 30 + "]" * 30, "too deep"),
        ("a" + ".a" * 200 + " = 1", "too deep"),
        ("[" + "a." * 200 + "a]\n", "too deep"),
    ],
)
def test_what_is_no_house_file_is_one_clear_error(text, says):
    (found,) = mistakes(text)
    assert says in found.allowed
