"""Boxes, eyebrows, sheets and meeting lines: put together again they lie on the faces within a millimetre."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.form.developed import forms_of
from bermwright.form.developed.boxes import DomeWall
from bermwright.form.developed.meetings import MeetingProblemError
from bermwright.form.dome import DomeProblemError, dome_form
from bermwright.form.vault import vault_form
from bermwright.formats.house_file import load
from bermwright.house import CurveKind, EndKind
from bermwright.house.making.sheets import Crossing, SheetRoll
from bermwright.house.making.words import DomeCurve, Head, Laid

EXAMPLES = Path(__file__).parents[3] / "examples"
ROWAN = load(EXAMPLES / "domes" / "rowan-ring.toml").house
LARCH = load(EXAMPLES / "larch-bank.toml").house
SPARE = 0.030
MILLIMETRE = 1e-3


@pytest.fixture(scope="module")
def forms():
    return forms_of(ROWAN)


@pytest.fixture(scope="module")
def wall():
    return DomeWall(dome_form(ROWAN.domes[0]))


def round_vault(name, span, length, **more):
    vault = LARCH.vaults[0]
    return replace(
        vault, name=name, curve=CurveKind.SEMICIRCLE, span=span, rise=None, length=length,
        board_length=0.9, **more,
    )  # fmt: skip


def crossing_house(small, large, turn=90.0, **dome):
    crossing = Crossing(
        name="passage", of=small.name, into=large.name if large else "round room", turn=np.radians(turn)
    )
    domes = (replace(ROWAN.domes[0], openings=(), crews=(), **dome),) if large is None else ()
    vaults = (small,) if large is None else (small, large)
    return replace(LARCH, vaults=vaults, crossings=(crossing,), openings=(), ends=(), domes=domes)


# ------------------------------------------------- boxes
def test_a_jamb_put_back_lies_on_both_faces(forms, wall):
    door = forms.boxes[0]
    jamb = door.patterns[0]
    for word, line in jamb.lines:
        points = np.asarray(line)
        level = points[:, 0] + 0.0
        face = wall.inner(0.45, level) if word.startswith("inner") else wall.outer(0.45, level)
        apart = points[:, 1] - face
        assert np.ptp(apart) < MILLIMETRE


def test_the_round_head_wrapped_again_lies_on_both_faces(forms, wall):
    head = forms.boxes[0].patterns[2]
    radius, springing = 0.45, 2.05 + 0.02 - 0.45
    for word, line in head.lines:
        along, out = np.asarray(line).T
        turn = np.pi - along / radius
        beside, level = radius * np.cos(turn), springing + radius * np.sin(turn)
        face = wall.inner(beside, level) if word.startswith("inner") else wall.outer(beside, level)
        assert np.ptp(out - face) < MILLIMETRE
        ring = np.hypot(beside, face)
        drawn = wall.face.at(level) if word.startswith("inner") else wall.radius_outside(level)
        assert np.max(np.abs(ring - drawn)) < MILLIMETRE


def test_panels_of_one_box_have_edges_of_one_length(forms):
    for box in forms.boxes:
        jamb, bottom, top = box.patterns
        assert jamb.ordinates[0][2] - jamb.ordinates[0][1] == pytest.approx(
            bottom.ordinates[0][2] - bottom.ordinates[0][1], abs=1e-6
        )
        assert jamb.ordinates[-1][2] - jamb.ordinates[-1][1] == pytest.approx(
            top.ordinates[0][2] - top.ordinates[0][1], abs=1e-6
        )


def test_a_box_is_narrower_outside_and_higher_by_the_settlement(forms):
    for box, opening in zip(forms.boxes, ROWAN.domes[0].openings, strict=True):
        assert box.height == pytest.approx(opening.height + 0.02)
        points = box.patterns[1].outline
        half = len(points) // 2
        inside = points[half - 1][0] - points[0][0]
        outside = points[half][0] - points[-1][0]
        assert inside == pytest.approx(opening.width, abs=0.002)
        assert inside - outside == pytest.approx(0.010, abs=0.003)


def test_the_battens_of_an_arch_form_reach_past_both_faces(forms, wall):
    box = forms.boxes[0]
    count = len(box.arch.slats)
    assert count * box.arch.slat_width == pytest.approx(np.pi * 0.45)
    assert box.arch.radius + box.arch.slat_thickness == pytest.approx(0.45)
    start = min(slat.start for slat in box.arch.slats)
    assert start == pytest.approx(0.0)
    for slat in box.arch.slats:
        turn = np.pi * (1.0 - (slat.number - 0.5) / count)
        beside, level = 0.45 * np.cos(turn), 1.62 + 0.45 * np.sin(turn)
        thick = float(wall.outer(beside, level) - wall.inner(beside, level))
        assert slat.length >= thick + 2.0 * SPARE - 1e-9


def test_a_pair_of_wedges_lets_the_form_down_and_still_bears(forms):
    (length, low), (_, thin), (_, thick) = forms.boxes[0].wedge.outline[1:]
    slope = (thick - thin) / length
    assert (low, slope) == pytest.approx((0.0, 1.0 / 8.0))
    assert forms.boxes[0].pack == pytest.approx(thin + thick)
    slide = 0.030 / slope
    assert length - slide == pytest.approx(0.060)


def test_a_straight_wall_has_square_panels():
    end = replace(LARCH.ends[1], kind=EndKind.EARTH_TUBES, thickness=0.4)
    house = replace(LARCH, ends=(LARCH.ends[0], end))
    assert "settlement" in forms_of(house).waiting[0].place
    (box,) = forms_of(house, settlement=0.015).boxes
    jamb, bottom, _head = box.patterns
    assert jamb.size == pytest.approx((0.9 + 0.015, 0.46))
    assert jamb.diagonals == pytest.approx((np.hypot(0.915, 0.46),) * 2)
    assert bottom.size == pytest.approx((0.9, 0.46))
    assert bottom.diagonals[0] == pytest.approx(bottom.diagonals[1])


def test_a_box_whose_corner_leaves_the_end_wall_is_refused():
    ends = (LARCH.ends[0], replace(LARCH.ends[1], kind=EndKind.BLOCKS, thickness=0.4))
    form = vault_form(LARCH, LARCH.vaults[0])
    window = next(one for one in LARCH.openings if one.name == "back window")
    level = window.sill + window.height
    face, crown = form.rib.inside, int(np.argmax(form.rib.inside.z))
    room = float(np.interp(level, face.z[crown:][::-1], face.x[crown:][::-1]))
    for across, drawn in ((room - 0.46, 1), (room - 0.40, 0), (-room + 0.46, 1), (-room + 0.40, 0)):
        moved = tuple(replace(one, across=across) if one is window else one for one in LARCH.openings)
        found = forms_of(replace(LARCH, ends=ends, openings=moved))
        assert len(found.boxes) == drawn
        said = [one.what for one in found.waiting if "back window" in one.what]
        assert all("leaves the wall under the ribs by 50 mm" in one for one in said)
        assert len(said) == 1 - drawn


def test_a_box_that_its_settlement_lifts_out_of_the_dome_is_refused_by_name():
    opening = replace(
        ROWAN.domes[0].openings[0], eyebrow=0.0, width=1.7, height=3.4, head=Head.FLAT, settlement=0.15
    )
    with pytest.raises(DomeProblemError, match=r'opening "door": is 1.70 m wide at \+3.4., as it is built'):
        forms_of(replace(ROWAN, domes=(replace(ROWAN.domes[0], openings=(opening,)),)))


def test_a_settlement_that_is_not_said_is_asked_for():
    opening = replace(ROWAN.domes[0].openings[0], settlement=None)
    house = replace(ROWAN, domes=(replace(ROWAN.domes[0], openings=(opening,)),))
    found = forms_of(house)
    assert found.boxes == ()
    assert [one.place for one in found.waiting] == ["dome.opening.settlement"]


def test_an_eyebrow_put_back_lies_on_the_outer_face(forms, wall):
    eyebrow = forms.boxes[0].eyebrow
    # It is laid on the form, which is higher by what the wall settles.
    front = float(wall.outer(0.0, 2.07)) + 0.25
    for along, _, length in eyebrow.ordinates:
        turn = np.pi - along / 0.45
        beside, level = 0.45 * np.cos(turn), 1.62 + 0.45 * np.sin(turn)
        assert np.hypot(beside, front - length) == pytest.approx(wall.radius_outside(level), abs=MILLIMETRE)
    for level, turn in forms.boxes[0].meets:
        beside = float(wall.radius_outside(level)) * np.sin(turn)
        assert beside**2 + (level - 1.62) ** 2 == pytest.approx(0.45**2, abs=1e-4)


def test_an_eyebrow_that_ends_in_the_wall_is_refused():
    opening = replace(ROWAN.domes[0].openings[0], eyebrow=0.01)
    with pytest.raises(DomeProblemError, match="ends in the wall at its foot"):
        forms_of(replace(ROWAN, domes=(replace(ROWAN.domes[0], openings=(opening,)),)))


# ------------------------------------------------- sheets
def test_gores_cover_the_outer_face(forms, wall):
    (plan,) = forms.sheets
    pattern = plan.pattern
    half = np.array([0.5 * (right - left) for _, left, right in pattern.ordinates])
    along = np.array([up for up, _, _ in pattern.ordinates]) - ROWAN.sheet.upstand
    radius = np.interp(along, wall.out.along, wall.out.radius)
    assert plan.strips * 2.0 * half == pytest.approx(2.0 * np.pi * radius, abs=MILLIMETRE)
    # The cap covers what lies level on top of the last course.
    top = np.pi * wall.out.radius[-1] ** 2
    assert plan.net_area == pytest.approx(
        2.0 * np.pi * np.trapezoid(wall.out.radius, wall.out.along) + top, rel=1e-6
    )
    assert plan.excess <= ROWAN.sheet.gives
    assert pattern.size[0] <= ROWAN.sheet.width + 1e-9
    assert plan.mass == pytest.approx(pattern.area * 1.2e-3 * 12e3 / 9.81)


@pytest.mark.parametrize("curve", [DomeCurve.POINTED, DomeCurve.HEMISPHERE])
@pytest.mark.parametrize("laid", list(Laid))
def test_a_cap_laps_over_the_tips_of_the_gores(curve, laid):
    rise = 4.2 if curve is DomeCurve.POINTED else None
    dome = replace(ROWAN.domes[0], curve=curve, rise=rise, laid=laid, thickness=0.1, openings=(), crews=())
    out = DomeWall(dome_form(dome)).out
    assert np.all(np.diff(out.radius) <= 1e-9)
    assert np.all(np.diff(out.along) > 0.0)
    (plan,) = forms_of(replace(ROWAN, domes=(dome,))).sheets
    slope = float(out.along[-1]) - max(y for _, y in plan.pattern.outline) + ROWAN.sheet.upstand
    reach = 0.5 * plan.cap.size[0]
    assert reach - float(out.radius[-1]) - slope == pytest.approx(ROWAN.sheet.lap, abs=MILLIMETRE)
    revolved = 2.0 * np.pi * np.trapezoid(out.radius, out.along) + np.pi * out.radius[-1] ** 2
    assert plan.net_area == pytest.approx(revolved, rel=1e-6)


def test_strips_of_a_vault_cover_it_with_their_laps():
    roll = SheetRoll(width=2.0, length=15.0, lap=0.1, upstand=0.3)
    form = vault_form(LARCH, LARCH.vaults[0])
    over, along = forms_of(replace(LARCH, sheet=roll)).sheets
    girth = next(band.inner.length for band in form.bands if band.kind == "membrane")
    assert over.net_area == pytest.approx(girth * form.length)
    assert over.strip_length == pytest.approx(girth + 0.6)
    assert over.strips * 2.0 - (over.strips - 1) * 0.1 >= form.length + 0.6
    assert (over.strips - 1) * 2.0 - (over.strips - 2) * 0.1 < form.length + 0.6
    assert along.strip_length == pytest.approx(form.length + 0.6)
    assert over.mass > 0.0


def test_a_sheet_without_its_weight_weighs_nothing_known():
    house = replace(ROWAN, sheet=replace(ROWAN.sheet, unit_weight=None))
    (plan,) = forms_of(house).sheets
    assert plan.mass is None
    assert plan.people is None


# ------------------------------------------------- meeting lines
@pytest.mark.parametrize("turn", [45.0, 90.0])
def test_the_end_of_a_vault_rolled_up_lies_on_the_larger_one(turn):
    small, large = round_vault("passage", 2.4, 3.0), round_vault("day room", 4.2, 7.5)
    house = crossing_house(small, large, turn)
    (meeting,) = forms_of(house).meetings
    inside = vault_form(house, small).rib.inside
    axis = np.radians(turn)
    behind = max(high for _, _, high in meeting.end.ordinates)
    for along, _, length in meeting.end.ordinates:
        x, z, _ = inside.at(along)
        # From the square line, `behind` plus what lies before it, back to the large axis.
        reach = float(_behind(meeting)) - length
        across = -x * np.cos(axis) + reach * np.sin(axis)
        assert np.hypot(across, z - large.springing) == pytest.approx(2.1 - 0.075, abs=MILLIMETRE)
    assert behind > 0.0
    assert meeting.hip is None


def _behind(meeting):
    return meeting.end.up.split()[4]


def test_a_hole_that_runs_out_in_a_sliver_has_ordinates_to_its_ends():
    """The smaller vault begins under the larger one's springing: its hole has no height at both ends."""
    small, large = round_vault("passage", 1.8, 3.0, springing=0.4), round_vault("hall", 4.2, 7.5)
    (meeting,) = forms_of(crossing_house(small, replace(large, springing=1.1))).meetings
    rows = np.asarray(meeting.hole.ordinates)
    assert np.all(np.isfinite(rows))
    assert rows[0, 1] == rows[0, 2] == pytest.approx(0.0, abs=MILLIMETRE)
    assert rows[-1, 2] == pytest.approx(0.0, abs=MILLIMETRE)


def test_a_vault_that_stays_under_the_springing_of_the_larger_one_leaves_its_shell_whole():
    small, large = round_vault("passage", 1.6, 3.0, springing=0.2), round_vault("hall", 4.2, 7.5)
    (meeting,) = forms_of(crossing_house(small, replace(large, springing=1.4))).meetings
    assert meeting.hole is None
    assert "its shell has no hole" in meeting.no_hip
    # The edge lies in the plumb wall: as wide as the passage, and flat.
    assert meeting.hip.size == pytest.approx((0.725, 0.725), abs=MILLIMETRE)


def test_two_like_vaults_have_a_flat_hip_of_the_same_heights():
    small, large = round_vault("passage", 4.2, 3.0), round_vault("day room", 4.2, 7.5)
    (meeting,) = forms_of(crossing_house(small, large)).meetings
    assert meeting.hip is not None
    radius = 2.1 - 0.075
    for run, _, height in meeting.hip.ordinates:
        assert (run / (radius * np.sqrt(2.0))) ** 2 + (height / radius) ** 2 == pytest.approx(1.0, abs=2e-3)


@pytest.mark.parametrize("turn", [40.0, 60.0, 90.0])
def test_both_hips_of_a_skew_crossing_lie_on_both_vaults(turn):
    """Where axes cross skew one hip is longer than the other; each lies on both cylinders."""
    small, large = round_vault("passage", 4.2, 3.0), round_vault("day room", 4.2, 7.5)
    (meeting,) = forms_of(crossing_house(small, large, turn)).meetings
    radius, half = 2.1 - 0.075, 0.5 * np.radians(turn)
    # Axes of two like cylinders: their groins halve the angles between the axes.
    sides = [(meeting.hip, np.sin(half)), (meeting.hip_left or meeting.hip, np.cos(half))]
    for hip, away in sides:
        for run, _, height in hip.ordinates:
            assert np.hypot(run * away, height) == pytest.approx(radius, abs=MILLIMETRE)
        assert hip.size[0] == pytest.approx(radius / away, abs=MILLIMETRE)
    assert (meeting.hip_left is None) == (turn == 90.0)


def test_unlike_vaults_say_why_there_is_no_flat_hip():
    small, large = round_vault("passage", 2.4, 3.0), round_vault("day room", 4.2, 7.5)
    (meeting,) = forms_of(crossing_house(small, large)).meetings
    assert "no flat hip rib" in meeting.no_hip


def test_a_vault_higher_than_the_larger_one_is_refused():
    small, large = round_vault("passage", 4.2, 3.0), round_vault("day room", 2.4, 7.5)
    with pytest.raises(MeetingProblemError, match="is higher than that of"):
        forms_of(crossing_house(small, large))


def test_a_vault_into_a_dome_meets_its_inner_face():
    small = round_vault("passage", 1.6, 3.0, springing=0.4)
    house = crossing_house(small, None, curve=DomeCurve.HEMISPHERE, rise=None)
    meeting = forms_of(house).meetings[0]
    inside = vault_form(house, small).rib.inside
    for along, _, length in meeting.end.ordinates:
        x, z, _ = inside.at(along)
        reach = float(_behind(meeting)) - length
        assert np.sqrt(x**2 + reach**2 + z**2) == pytest.approx(2.1, abs=MILLIMETRE)
    assert meeting.hole is None


def test_a_sleeve_rolled_up_stands_on_the_outer_face():
    form = vault_form(LARCH, LARCH.vaults[0])
    (meeting,) = forms_of(LARCH).meetings
    face = form.soil_face
    radius, collar = 0.175, 0.6
    # Through the soil over the crown first: 0.35 m of mound, then the collar over it.
    top = float(form.ground.finished.level(0.0)) + collar
    assert top - float(np.max(face.z)) == pytest.approx(0.35 + collar, abs=MILLIMETRE)
    for around, _, length in meeting.end.ordinates:
        x = radius * np.cos(around / radius)
        grows = np.concatenate([[True], np.diff(face.x) > 0.0])
        assert top - length == pytest.approx(np.interp(x, face.x[grows], face.z[grows]), abs=MILLIMETRE)
    assert meeting.hole.size == pytest.approx((2.0 * radius, 2.0 * radius), abs=2e-3)


def test_the_hole_of_a_sleeve_lies_round_the_crown_of_a_lopsided_vault():
    points = (
        (-2.1, 0.0),
        (-2.0, 0.5),
        (-1.7, 0.95),
        (-1.1, 1.35),
        (-0.3, 1.55),
        (0.5, 1.45),
        (1.3, 1.05),
        (2.1, 0.0),
    )
    vault = replace(LARCH.vaults[0], curve=CurveKind.DRAWN, points=points, rise=None, board_length=0.8)
    house = replace(LARCH, vaults=(vault,))
    face = vault_form(house, vault).soil_face
    top = int(np.argmax(face.z))
    assert abs(face.x[top]) > 0.1
    (meeting,) = forms_of(house).meetings
    grows = np.concatenate([[True], np.diff(face.x) > 0.0])
    ends = np.interp(face.x[top] + np.array([-0.175, 0.175]), face.x[grows], face.s[grows])
    assert meeting.hole.size[1] == pytest.approx(float(np.ptp(ends)), abs=1e-4)


def test_a_sleeve_without_its_collar_is_asked_for():
    holes = tuple(replace(one, collar=None) for one in LARCH.openings)
    found = forms_of(replace(LARCH, openings=holes))
    assert found.meetings == ()
    assert "opening.collar" in [one.place for one in found.waiting]


def test_guide_cords_reach_the_inner_face():
    (table,) = forms_of(LARCH).cords
    for _, across, over, cord in table.rows:
        assert cord == pytest.approx(np.hypot(across, over))
