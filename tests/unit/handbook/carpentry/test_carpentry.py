from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.data.timber_grades import GRADES, class_of_grade
from bermwright.handbook import carpentry

REFUSED = (
    lambda: carpentry.round_section(0.0),
    lambda: carpentry.round_section(np.nan),
    lambda: carpentry.tapered_diameter(0.2, 0.18, share=0.5),
    lambda: carpentry.tapered_diameter(0.2, 0.22, share=1.2),
    lambda: carpentry.seat_width(0.2, 0.11),
    lambda: carpentry.notch_factor(0.2, 0.21, distance=0.0),
    lambda: carpentry.notch_factor(0.2, 0.15, distance=-0.01),
    lambda: carpentry.notch_factor(0.2, 0.0, distance=0.1),
    lambda: carpentry.leaning_post(1e3, 0.0, height=2.0, above=0.5, span=2.4),
    lambda: carpentry.leaning_post(-1.0, 0.0, height=2.0, above=0.0, span=2.4),
    lambda: carpentry.standing_post(1e3, 0.0, height=0.0, above=0.0),
    lambda: carpentry.free_post_holds(18e3, 0.9, width=0.2, depth=1.0, lever=0.5),
    lambda: carpentry.held_foot_holds(31e3, 3.0, width=0.2, depth=1.0),
    lambda: carpentry.lintel_load(0.0, 1.0, weight=1e3, arches=True),
    lambda: carpentry.lintel_load(1.0, np.nan, weight=1e3, arches=False),
    lambda: carpentry.floor_frequency(4.0, stiffness=0.0, mass=50.0),
    lambda: carpentry.joist_share(1e3, 1.6),
    lambda: carpentry.foot_deflection(3.0, stiffness=1e5, share=1.1),
    lambda: carpentry.foot_deflection_limit(13.0),
    lambda: carpentry.layered_stack(41, width=0.1, thickness=0.02, modulus=9e9, slip=1e6, wave=2.0),
    lambda: carpentry.layered_stack(4, width=0.1, thickness=0.02, modulus=9e9, slip=-1.0, wave=2.0),
    lambda: carpentry.layered_stack(4, width=0.1, thickness=0.02, modulus=9e9, slip=1e6, wave=np.nan),
    lambda: carpentry.curving_stress(0.02, 0.0, modulus=9e9),
    lambda: carpentry.kept_stress(1e6, -0.1),
    lambda: carpentry.visual_grade(knots=1.1, grain=0.0, rings=0.002, wane=0.0, cracks=0.0),
    lambda: carpentry.visual_grade(knots=0.1, grain=np.nan, rings=0.002, wane=0.0, cracks=0.0),
    lambda: carpentry.visual_grade(knots=0.1, grain=0.0, rings=0.06, wane=0.0, cracks=0.0),
)


@pytest.mark.parametrize("call", REFUSED, ids=[str(number) for number in range(len(REFUSED))])
def test_what_lies_outside_a_range_is_refused(call):
    with pytest.raises(OutOfRangeError):
        call()


def test_loose_boards_and_glued_ones_bound_a_nailed_stack():
    about = {"width": 0.1, "thickness": 0.02, "modulus": 9e9, "wave": 2.5}
    loose = carpentry.layered_stack(6, slip=0.0, **about)
    glued = carpentry.layered_stack(6, slip=1e15, **about)
    nailed = carpentry.layered_stack(6, slip=5e7, **about)
    assert loose.stiffness == pytest.approx(6 * 9e9 * 0.1 * 0.02**3 / 12)
    assert glued.stiffness == pytest.approx(9e9 * 0.1 * 0.12**3 / 12, rel=1e-6)
    assert loose.stiffness < nailed.stiffness < glued.stiffness
    assert loose.flow == 0.0
    assert glued.flow == pytest.approx(1.5 / 0.12, rel=1e-6)


def test_bending_of_the_boards_and_their_forces_make_up_the_bending_of_the_stack():
    stack = carpentry.layered_stack(2, width=0.1, thickness=0.03, modulus=9e9, slip=3e7, wave=2.0)
    assert 2 * stack.bent + stack.pulled * 0.03 == pytest.approx(1.0)


def test_a_fault_is_named():
    sound = {"knots": 0.1, "grain": 0.01, "rings": 0.002, "wane": 0.0, "cracks": 0.0}
    assert carpentry.visual_grade(**sound).by == ""
    assert carpentry.visual_grade(**{**sound, "knots": 0.5}).by == "knots"
    assert carpentry.visual_grade(**{**sound, "grain": 0.2}).by == "grain"
    assert carpentry.visual_grade(**sound, rotten=True).by == "rot"


def test_every_grade_has_a_class_of_the_table():
    assert [class_of_grade(grade.number) for grade in GRADES] == [grade.timber for grade in GRADES]
    assert all(grade.timber in TIMBER_CLASSES for grade in GRADES)
    assert class_of_grade(0) is None


def test_posts_work_on_arrays():
    post = carpentry.leaning_post([1e3, 2e3], 0.0, height=1.0, above=0.0, span=2.0)
    assert post.moment.shape == (2,)
    assert post.moment[1] == pytest.approx(2 * post.moment[0])
