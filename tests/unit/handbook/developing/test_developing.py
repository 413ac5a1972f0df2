"""Patterns put together again: what is cut flat and rolled up lies on the surface it was cut for."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import compass, curves, developing

QUARTER = np.linspace(0.0, 0.5 * np.pi, 4001)
BALL = (2.0 * np.sin(QUARTER), 2.0 * np.cos(QUARTER))


def test_a_cone_rolled_up_again_is_the_cone():
    pattern = developing.cone_pattern(0.2, 0.5, 0.6)
    assert pattern.inner * pattern.angle == pytest.approx(2.0 * np.pi * 0.2)
    assert pattern.outer * pattern.angle == pytest.approx(2.0 * np.pi * 0.5)
    area = 0.5 * pattern.angle * (pattern.outer**2 - pattern.inner**2)
    assert area == pytest.approx(np.pi * (0.2 + 0.5) * 0.6)


def test_a_ball_of_cones_has_its_surface():
    """Bands of a dome unrolled as cones: their areas together are the surface integral."""
    height, radius = BALL
    picks = np.arange(0, 4001, 200)
    area = 0.0
    for low, high in itertools.pairwise(picks):
        slant = np.hypot(height[high] - height[low], radius[low] - radius[high])
        pattern = developing.cone_pattern(max(radius[high], 0.0), radius[low], slant)
        area += 0.5 * pattern.angle * (pattern.outer**2 - pattern.inner**2)
    assert area == pytest.approx(2.0 * np.pi * 4.0, rel=2e-3)


@pytest.mark.parametrize("gores", [6, 12, 24])
def test_gores_have_the_area_of_the_dome_and_its_rings(gores):
    height, radius = BALL
    assert gores * developing.gore_area(height, radius, gores) == pytest.approx(
        compass.dome_surface(height, radius), rel=1e-9
    )
    assert 2.0 * gores * developing.gore_half_width(radius, gores) == pytest.approx(2.0 * np.pi * radius)


def test_gores_laid_on_again_lie_on_the_dome_within_a_millimetre():
    """Each cross-line of a gore is bent round its ring; the edges of neighbours meet on one meridian."""
    height, radius = BALL
    half = developing.gore_half_width(radius[:-1], 12)
    turn = half / radius[:-1]
    x, y = radius[:-1] * np.cos(turn), radius[:-1] * np.sin(turn)
    assert np.max(np.abs(np.sqrt(x**2 + y**2 + height[:-1] ** 2) - 2.0)) < 1e-3
    assert turn == pytest.approx(np.pi / 12.0)


def test_more_gores_have_shorter_edges():
    excess = [developing.gore_edge_excess(*BALL, gores) for gores in (6, 12, 24)]
    assert excess[0] > excess[1] > excess[2] > 0.0
    assert excess[1] / excess[2] == pytest.approx(4.0, rel=0.05)


def test_a_strip_rolled_over_a_vault_comes_down_at_its_foot():
    curve = curves.catenary(4.8, 2.2)
    assert developing.strips_needed(curve.length, 3.0, 0.1) == int(np.ceil((curve.length - 0.1) / 2.9))


@pytest.mark.parametrize("turn", [30.0, 60.0, 90.0])
def test_the_end_of_a_small_vault_lies_on_the_large_one(turn):
    """Its unrolled line, rolled up again, lies in the equation of the large one."""
    angle = np.radians(turn)
    around = np.linspace(0.05, np.pi - 0.05, 41)
    beside, level = 0.9 * np.cos(around), 0.9 * np.sin(around)
    reach = developing.reach_of_vault(beside, np.sqrt(4.0 - level**2), angle)
    across = -beside * np.cos(angle) + reach * np.sin(angle)
    assert np.max(np.abs(np.hypot(across, level) - 2.0)) < 1e-9


def test_the_end_of_a_barrel_lies_on_the_ball():
    around = np.linspace(0.0, np.pi, 41)
    beside, level = 0.5 * np.cos(around), 1.0 + 0.5 * np.sin(around)
    reach = developing.reach_of_dome(beside, np.sqrt(4.0 - level**2))
    assert np.sqrt(beside**2 + reach**2 + level**2) == pytest.approx(2.0)


def test_a_barrel_wider_than_the_ring_is_refused():
    with pytest.raises(OutOfRangeError, match="wider than the wall"):
        developing.reach_of_dome(0.6, 0.5)


@pytest.mark.parametrize("lean", [0.0, 20.0, 40.0])
@pytest.mark.parametrize("is_round", [True, False])
def test_a_pipe_comes_out_on_the_face(lean, is_round):
    turn = np.linspace(0.0, 2.0 * np.pi, 25)
    cut = developing.pipe_cut(
        turn, 0.15, 0.3, np.radians(lean), height=BALL[0], radius=BALL[1], is_round=is_round
    )
    away = np.hypot(cut.x, cut.y) if is_round else cut.x
    assert np.max(np.abs(np.hypot(away, cut.z) - 2.0)) < 1e-3
    start = np.array([0.3, 0.0, 0.0])
    axis = np.array([np.sin(np.radians(lean)), 0.0, np.cos(np.radians(lean))])
    from_axis = np.cross(np.column_stack([cut.x, cut.y, cut.z]) - start, axis)
    assert np.linalg.norm(from_axis, axis=1) == pytest.approx(0.15)


def test_a_pipe_that_begins_outside_is_refused():
    with pytest.raises(OutOfRangeError, match="from inside the shell to outside"):
        developing.pipe_cut([0.0], 0.1, 2.5, 0.0, height=BALL[0], radius=BALL[1], is_round=True)


def test_the_hip_of_two_round_vaults_is_an_ellipse():
    x = np.linspace(0.0, 1.5, 31)
    run = developing.hip_run(x, np.radians(45.0))
    z = np.sqrt(1.5**2 - x**2)
    assert (run / (1.5 * np.sqrt(2.0))) ** 2 + (z / 1.5) ** 2 == pytest.approx(1.0)


@pytest.mark.parametrize(("small", "large", "slant"), [(0.3, 0.3, 1.0), (0.5, 0.3, 1.0), (0.1, 0.5, 0.3)])
def test_what_is_no_cone_is_refused(small, large, slant):
    with pytest.raises(OutOfRangeError, match="No cone"):
        developing.cone_pattern(small, large, slant)
