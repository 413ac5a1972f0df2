"""Fits refuse what they cannot do, and say how sure they are."""

from __future__ import annotations

from itertools import islice

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import curves, fitting

FAMILIES = {family.name: family for family in fitting.FAMILIES}


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_every_family_finds_its_own_curve_again(name: str) -> None:
    family = FAMILIES[name]
    rise, shares = {"egg": (4.2, (0.12, 0.6, 0.45)), "three-centred": (1.9, (0.45,))}.get(name, (2.5, ()))
    curve = family.build(5.0, rise, shares)
    fit = fitting.fit_family(curve.x[::6], curve.z[::6], family)
    assert fit.largest < 2e-3
    assert fit.span == pytest.approx(5.0, abs=0.02)
    assert fit.outliers == ()


def test_three_points_give_no_interval() -> None:
    fit = fitting.fit_family([-2.0, 0.0, 2.0], [0.0, 1.5, 0.0], FAMILIES["catenary"])
    assert fit.errors == {}
    assert fit.largest < 1e-4


def test_fewer_points_than_measures_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="number of points"):
        fitting.fit_family([-2.0, 0.0, 2.0], [0.0, 1.5, 0.0], FAMILIES["egg"])


def test_more_noise_makes_wider_intervals() -> None:
    x = np.linspace(-2.0, 2.0, 15)
    wave = np.resize([1.0, -1.0, 0.5], 15)
    widths = [
        fitting.fit_family(x, curves.parabola_height(x, 4.0, 1.5) + size * wave, FAMILIES["parabola"]).errors[
            "rise"
        ]
        for size in (0.002, 0.01)
    ]
    assert widths[1] > 3.0 * widths[0]


@pytest.mark.parametrize("arcs", [1, 3, 5])
def test_arcs_keep_both_feet_and_have_common_tangents(arcs: int) -> None:
    curve = curves.catenary(4.8, 2.2)
    chain = fitting.tangent_arcs(curve, arcs).arcs
    assert len(chain) == arcs
    assert curves.tangent_break(chain) < 1e-6
    assert np.allclose(chain[0].point(chain[0].start), [-2.4, 0.0], atol=1e-6)
    assert np.allclose(chain[-1].point(chain[-1].end), [2.4, 0.0], atol=1e-6)


def test_more_arcs_come_nearer() -> None:
    curve = curves.catenary(4.8, 2.2)
    off = [fitting.tangent_arcs(curve, arcs).deviation for arcs in (1, 3, 5)]
    assert off[0] > 2.0 * off[1] > 4.0 * off[2]


@pytest.mark.parametrize(("lean", "rise"), [(0.0, 1.2), (0.2, 2.6), (-0.15, 4.4)])
def test_an_arc_more_never_lies_farther_off(lean: float, rise: float) -> None:
    turn = np.linspace(0.0, np.pi, 9)
    z = rise * np.sin(turn) ** 0.8 * (1.0 + lean * np.cos(turn))
    z[[0, -1]] = 0.0
    curve = curves.through_points(-2.4 * np.cos(turn), z)
    chains = list(islice(fitting.chains_of_arcs(curve), 5 if lean else 3))
    off = [chain.deviation for chain in chains]
    assert off == sorted(off, reverse=True)
    assert off[0] < 0.2 * rise
    assert all(curves.tangent_break(chain.arcs) < 1e-9 for chain in chains)
    assert all(
        np.allclose(chain.arcs[-1].point(chain.arcs[-1].end), [2.4, 0.0], atol=1e-9) for chain in chains
    )


def test_the_best_three_arcs_beat_the_masons_construction_for_an_ellipse() -> None:
    # S22 of the setting-out rows: 42 mm on a span of 5 m for the construction by the diagonal.
    assert fitting.tangent_arcs(curves.ellipse(5.0, 5.0 / 3.0), 3).deviation < 0.010


@pytest.mark.parametrize(("curve", "arcs"), [(curves.catenary(4.0, 2.0), 2), (curves.catenary(4.0, 2.0), 4)])
def test_an_even_number_does_not_fit_a_round_crown(curve: curves.PlaneCurve, arcs: int) -> None:
    with pytest.raises(OutOfRangeError, match="odd"):
        fitting.tangent_arcs(curve, arcs)


def test_an_odd_number_does_not_fit_a_pointed_crown() -> None:
    with pytest.raises(OutOfRangeError, match="even"):
        fitting.tangent_arcs(curves.arc_chain(curves.pointed_arcs(4.0, 4.0)), 3)
