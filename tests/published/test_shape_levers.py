"""What moves the bending of a buried vault, against a continuum model and a three-hinged screening model.

The frame is not expected to meet a continuum to three digits: it must rank curves and levers as that does,
and the size of each lever must lie within or near the range that the continuum gives.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bermwright.evidence.structure.fillingmodel2026 import (
    ACTIVE,
    PASSIVE,
    VAULT_LEVELS,
    VAULT_SECTION,
    filled,
    staged_vault,
)
from bermwright.handbook.curves import (
    CoverLoad,
    PlaneCurve,
    catenary,
    ellipse,
    parabola,
    segment,
    under_cover,
)
from bermwright.handbook.frames import Frame, Soil, States, solve

# ------------------------------------------------- the tall catenary, three hinges, 18 kN/m3, span 5 m
SCREENED = {
    ("catenary", 4.0, 0.33): 21.9,
    ("catenary", 4.0, 0.5): 32.1,
    ("ellipse", 4.0, 0.33): 13.7,
    ("ellipse", 3.54, 0.33): 7.7,
    ("ellipse", 3.0, 0.33): 2.6,
    ("ellipse", 4.0, 0.5): 23.2,
    ("ellipse", 3.54, 0.5): 14.0,
    ("ellipse", 3.0, 0.5): 6.2,
    ("catenary", 2.5, 0.5): 7.7,
    ("catenary", 2.0, 0.5): 3.8,
    ("catenary", 1.5, 0.5): 1.2,
}
"""Bending of the finished vault (kN m per metre) by curve, rise and K; 0.3 m over a flat of 1 m, then 1:2."""
CURVES = {"catenary": catenary, "ellipse": ellipse}


def screened(curve: str, rise: float, ratio: float, *, fill: float = 18e3) -> float:
    frame = staged_vault(CURVES[curve](5.0, rise), hinge=True)
    top = frame.z.max() + 0.3
    ground = top - 0.5 * np.maximum(np.abs(frame.x) - 0.5, 0.0)
    states = filled(frame, ground, (top,), weight=600.0)
    found = solve(frame, Soil.lanes(ratio=ratio, weight=fill), states, second_order=False)
    return float(found.largest_bending[0, -1]) / 1e3


@pytest.mark.parametrize(("curve", "rise", "ratio"), SCREENED)
def test_the_screening_model_is_reproduced(curve: str, rise: float, ratio: float) -> None:
    # The table gives two figures or three; a thirtieth is the rounding of the smallest of them.
    assert screened(curve, rise, ratio) == pytest.approx(SCREENED[curve, rise, ratio], rel=0.012, abs=0.06)


def test_a_catenary_under_its_own_weight_does_not_bend() -> None:
    assert screened("catenary", 4.0, 0.5, fill=0.0) < 0.01


def test_without_sideways_push_the_tall_catenary_hardly_bends() -> None:
    assert screened("catenary", 4.0, 0.0) == pytest.approx(2.2, abs=0.1)


# ------------------------------------------------- levers on the vault of 4.8 by 2.2 m, against the continuum
COVER = CoverLoad(unit_weight=19e3, sideways=0.5, self_weight=300.0)
SHAPES = {
    "under cover": lambda: under_cover(4.8, 2.2, ground=lambda x: 0.35 - 0.4 * np.abs(x), load=COVER).line,
    "segment": lambda: segment(4.8, 2.2),
    "catenary": lambda: catenary(4.8, 2.2),
    "parabola": lambda: parabola(4.8, 2.2),
}
BAGS, BAG_WIDTH = 5.7e3, 1.6
"""0.3 m of soil in bags on the middle of the crown (Pa, m)."""


def frame_of(curve: PlaneCurve) -> Frame:
    return staged_vault(curve, base=0.9, section=VAULT_SECTION, elements=80)


def soil_of(ratio: float, spring: float) -> Soil:
    return Soil.lanes(ratio=ratio, spring=spring, weight=19e3, modulus=15e6, active=ACTIVE, passive=PASSIVE)


def states_of(frame: Frame, *, bags: float = 0.0, start: float = 2.1, lead: float = 0.0) -> States:
    """Filled to each level; bags lie from the level `start` on until the fill is at the crown."""
    states = filled(frame, 3.45 - 0.4 * np.abs(frame.x), VAULT_LEVELS, weight=300.0, right=lead)
    share = np.clip((BAG_WIDTH / 2 - np.abs(frame.x)) / 0.05 + 0.5, 0.0, 1.0)
    # Bare ribs come first, so that the state of each level stands one further on.
    lies = np.array([False, *(start <= level <= 3.0 for level in VAULT_LEVELS)])
    return replace(states, down=states.down + bags * lies[:, None] * share * np.maximum(frame.plan, 0.0))


def largest(shape: str, ratio: float, spring: float = 0.0, **works: float) -> float:
    frame = frame_of(SHAPES[shape]())
    found = solve(frame, soil_of(ratio, spring), states_of(frame, **works), second_order=False)
    return float(found.largest_bending.max()) / 1e3


# Shape; continuum least and greatest of bags over none; what the frame itself gave.
BALLAST = [
    ("segment", 0.54, 0.80, 0.51, 0.64),
    ("catenary", 0.76, 0.86, 0.83, 0.87),
    ("parabola", 0.84, 0.90, 0.89, 0.91),
]


@pytest.mark.parametrize(("shape", "least", "most", "frame_least", "frame_most"), BALLAST)
def test_ballast_helps_as_much_as_in_the_continuum(
    shape: str, least: float, most: float, frame_least: float, frame_most: float
) -> None:
    for ratio, spring in ((0.47, 0.0), (0.47, 0.25)):
        share = largest(shape, ratio, spring, bags=BAGS) / largest(shape, ratio, spring)
        assert frame_least - 0.06 <= share <= frame_most + 0.06
        assert least - 0.10 <= share <= most + 0.10


def test_on_the_curve_under_cover_ballast_helps_less_than_on_a_circle() -> None:
    shares = {
        shape: largest(shape, 0.47, 0.25, bags=BAGS) / largest(shape, 0.47, 0.25)
        for shape in ("under cover", "segment")
    }
    assert shares["segment"] < shares["under cover"] <= 1.05


def test_half_the_bags_beat_the_full_ones_on_the_curve_under_cover() -> None:
    half, full = (largest("under cover", 0.47, 0.25, bags=share * BAGS) for share in (0.5, 1.0))
    assert half < full


@pytest.mark.parametrize(("start", "expected"), [(1.8, 2.02), (2.1, 1.63), (2.4, 2.49)])
def test_bags_have_their_time(start: float, expected: float) -> None:
    """Laid too early they push the crown in, laid too late they come after the harm.

    The fill stands at that level before they lie there and with them; without springs no state rests on
    another, so that both are a run of their own.
    """
    found = max(largest("segment", 0.47, bags=BAGS, start=level) for level in (start, start + 0.01))
    assert found == pytest.approx(expected, rel=0.03)


@pytest.mark.parametrize(("shape", "least", "most"), [("segment", 1.16, 1.34), ("catenary", 1.10, 1.21)])
def test_one_side_ahead_costs_as_much_as_in_the_continuum(shape: str, least: float, most: float) -> None:
    share = largest(shape, 0.47, 0.25, lead=0.3) / largest(shape, 0.47, 0.25)
    assert least - 0.06 <= share <= most + 0.06


@pytest.mark.parametrize(
    ("shape", "least", "most"), [("catenary", 1.3, 1.7), ("segment", 1.6, 2.0), ("under cover", 1.8, 2.1)]
)
def test_hard_compaction_costs_as_much_as_in_the_continuum(shape: str, least: float, most: float) -> None:
    # Loose soil against a rough rib is the low run, hard compaction K 0.60: the frame's ends of that range.
    share = largest(shape, 0.60) / largest(shape, ACTIVE)
    assert least - 0.1 <= share <= most + 0.2


def test_the_curves_keep_their_order_in_every_run() -> None:
    for ratio, spring in ((ACTIVE, 0.0), (0.47, 0.25), (0.60, 0.0), (1.0, 0.0)):
        bends = [largest(shape, ratio, spring) for shape in SHAPES]
        assert bends == sorted(bends)
