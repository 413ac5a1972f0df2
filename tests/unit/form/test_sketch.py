"""Points of a sketch are put upright, and points that follow no arch are refused with a way out."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.form.sketch import SketchError, arch_of

ACROSS = np.linspace(0.0, 4.0, 9)
ARCH = 2.0 - 0.5 * (ACROSS - 2.0) ** 2


def test_an_upright_arch_keeps_its_points() -> None:
    arch = arch_of(ACROSS, ARCH + 3.0)
    assert np.allclose(arch.x, ACROSS - 2.0)
    assert np.allclose(arch.z, ARCH)
    assert arch.says == ()
    assert arch.span == pytest.approx(4.0)


def test_a_chain_that_hangs_is_turned_over() -> None:
    arch = arch_of(ACROSS, 5.0 - ARCH)
    assert np.allclose(arch.z, ARCH)
    assert "hang" in arch.says[0]


def test_points_from_right_to_left_are_read_backwards() -> None:
    arch = arch_of(ACROSS[::-1], ARCH[::-1] + 0.1)
    assert np.allclose(arch.x, ACROSS - 2.0)
    assert "backwards" in arch.says[0]


def test_one_leg_is_mirrored_when_asked() -> None:
    for leg in (slice(0, 5), slice(4, None)):
        arch = arch_of(ACROSS[leg], ARCH[leg], mirror=True)
        assert np.allclose(np.sort(arch.x), ACROSS - 2.0)
        assert np.allclose(arch.z.max(), 2.0)
        assert "mirror" in arch.says[0]


def test_one_leg_of_a_hung_chain_is_mirrored_about_its_lowest_point() -> None:
    arch = arch_of(ACROSS[:5], -ARCH[:5], mirror=True)
    assert arch.span == pytest.approx(4.0)
    assert arch.z.max() == pytest.approx(2.0)


def test_a_tilted_picture_is_levelled_when_asked() -> None:
    turn = np.radians(4.0)
    x = ACROSS * np.cos(turn) - ARCH * np.sin(turn)
    z = ACROSS * np.sin(turn) + ARCH * np.cos(turn)
    arch = arch_of(x, z, level=True)
    assert np.allclose(arch.z, ARCH, atol=1e-9)
    assert "4.0 degrees" in arch.says[0]


def test_an_end_that_stops_short_is_told() -> None:
    across = np.linspace(0.0, 3.8, 9)
    arch = arch_of(across, 2.0 - 0.5 * (across - 2.0) ** 2)
    assert arch.z[0] == pytest.approx(0.0)
    assert arch.z[-1] == pytest.approx(0.38)
    assert "right end stops 0.38 m higher than the left one" in arch.says[0]


@pytest.mark.parametrize(
    ("x", "z", "says"),
    [
        ([0.0, 1.0], [0.0, 1.0], "at least 3"),
        ([0.0, 1.0, np.nan, 4.0], [0.0, 1.0, 1.0, 0.0], "Point 3 has no number"),
        ([0.0, 1.0, 1.0, 4.0], [0.0, 1.0, 1.0, 0.0], "Points 2 and 3 are the same"),
        ([0.0, 2.0, 1.2, 4.0], [0.0, 2.0, 1.1, 0.0], "turns back"),
        ([0.0, 3.0, 3.0, 1.0, 4.0], [0.0, 2.0, 0.5, 2.5, 0.0], "crosses itself"),
        (ACROSS[:5], ARCH[:5], "one leg"),
        (ACROSS, 0.01 * ARCH, "a line and no arch"),
    ],
)
def test_what_is_no_arch_is_refused(x: list[float], z: list[float], says: str) -> None:
    with pytest.raises(SketchError, match=says):
        arch_of(x, z)


def test_too_much_tilt_is_refused() -> None:
    with pytest.raises(SketchError, match="more than a tilted"):
        arch_of([0.0, 1.0, 2.0], [0.0, 2.0, 1.5], level=True)
