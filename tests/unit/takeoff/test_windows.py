from __future__ import annotations

import math
from dataclasses import replace

import pytest

from bermwright.handbook import glazing
from bermwright.house import (
    About,
    Board,
    CurveKind,
    End,
    EndKind,
    EndSide,
    House,
    Opening,
    OpeningKind,
    OpeningSide,
    Panes,
    Site,
    Structure,
    Vault,
)
from bermwright.house.site import HorizonPoint
from bermwright.takeoff.light import site_horizon, windows_of

RAD = math.pi / 180.0
VAULT = Vault(
    name="day room",
    curve=CurveKind.UNDER_COVER,
    span=4.8,
    rise=2.2,
    length=7.5,
    springing=0.9,
    axis=345 * RAD,
    structure=Structure.SEGMENT_RIBS,
    board=Board(0.032, 0.195),
    layers=4,
    spacing=0.6,
    timber="C18",
)
SOUTH = Opening(
    name="south window",
    vault="day room",
    side=OpeningSide.FRONT,
    kind=OpeningKind.WINDOW,
    width=1.2,
    height=1.0,
    sill=0.8,
    panes=Panes.TRIPLE_COATED,
)
HOUSE = House(about=About(name="x"), vaults=(VAULT,), openings=(SOUTH,))


def only(house: House):
    (found,) = windows_of(house)
    return found


def with_opening(**changes) -> House:
    return replace(HOUSE, openings=(replace(SOUTH, **changes),))


@pytest.mark.parametrize(
    ("side", "degrees"),
    [
        (OpeningSide.FRONT, 165),
        (OpeningSide.BACK, 345),
        (OpeningSide.LEFT, 255),
        (OpeningSide.RIGHT, 75),
    ],
)
def test_each_side_faces_its_own_way(side, degrees):
    window = only(with_opening(side=side, along=2.0)).window
    assert window.plane.azimuth / RAD == pytest.approx(degrees)
    assert window.plane.tilt == pytest.approx(90 * RAD)


def test_a_rooflight_lies_flat_and_says_so():
    found = only(with_opening(side=OpeningSide.CROWN, kind=OpeningKind.ROOFLIGHT, along=2.0))
    assert found.window.plane.tilt == 0.0
    assert found.window.niche.reveal == 0.0
    assert "The glass in the crown counts as lying flat." in found.assumed


def test_a_window_in_the_shell_counts_as_upright_and_says_so():
    assert any("dormer" in said for said in only(with_opening(side=OpeningSide.LEFT, along=2.0)).assumed)


def test_doors_are_no_windows():
    assert windows_of(with_opening(kind=OpeningKind.DOOR)) == ()


def test_what_is_missing_is_named_and_nothing_is_counted():
    found = only(with_opening(panes=None))
    assert found.window is None
    assert found.missing == ("opening.panes",)
    lost = only(replace(HOUSE, vaults=(replace(VAULT, axis=None),)))
    assert lost.window is None
    assert lost.missing == ("vault.axis",)
    assert only(with_opening(vault="cellar")).window is None


def test_a_makers_sheet_stands_for_the_panes():
    found = only(with_opening(panes=None, u_value=1.2, g_value=0.4))
    assert (found.window.u, found.window.g) == (1.2, 0.4)
    assert any("as through two panes" in said for said in found.assumed)
    assert only(with_opening(panes=None, u_value=1.2)).window is None


def test_glass_and_frame_follow_from_the_panes():
    found = only(HOUSE)
    assert found.area == pytest.approx(1.2)
    assert found.window.glass.name == "triple, coated"
    assert found.window.glass_share == pytest.approx(0.98 * 0.78 / 1.2)
    assert 1.0 < found.window.u < 1.2
    assert "Its frame takes 36% of the hole." in found.assumed
    assert "Its glass counts as triple, coated." in found.assumed


def test_salvaged_panes_lose_more_and_let_in_less():
    new, old = only(HOUSE).window, only(with_opening(salvaged=True)).window
    assert old.glass.name == "triple, coated, salvaged"
    assert old.u > new.u
    assert old.g < new.g


def test_what_the_builder_knows_goes_before_everything():
    window = only(with_opening(u_value=0.9, g_value=0.55, frame_share=0.25)).window
    assert (window.u, window.g, window.glass_share) == (0.9, 0.55, 0.75)


def test_a_known_share_of_frame_counts_in_the_loss():
    plenty, little = only(with_opening(frame_share=0.6)).window, only(with_opening(frame_share=0.1)).window
    assert plenty.u > little.u
    pane = glazing.glass_u(little.glass)
    by_hand = (1.08 * pane + 0.12 * 1.4 + 4.4 * math.sqrt(0.9) * 0.06) / 1.2
    assert little.u == pytest.approx(by_hand, rel=1e-3)


def test_a_shutter_counts_while_the_sun_is_down():
    found = only(with_opening(shutter=True))
    assert found.window.shutter_u == pytest.approx(glazing.shuttered_u(found.window.u, 0.25))
    assert any("shutter counts as closed" in said for said in found.assumed)
    assert only(HOUSE).window.shutter_u is None
    (tight,) = windows_of(with_opening(shutter=True), shutter=1.0)
    assert tight.window.shutter_u < found.window.shutter_u


def test_the_reveal_follows_from_the_wall():
    assert only(HOUSE).window.niche.reveal == pytest.approx(0.1)
    end = End(vault="day room", at=EndSide.FRONT, kind=EndKind.BLOCKS, thickness=0.5)
    assert only(replace(HOUSE, ends=(end,))).window.niche.reveal == pytest.approx(0.25)
    other = replace(end, at=EndSide.BACK)
    assert only(replace(HOUSE, ends=(other,))).window.niche.reveal == pytest.approx(0.1)


def test_an_overhang_stands_over_it():
    assert only(with_opening(overhang=0.4)).window.niche.overhang == 0.4
    assert "Nothing stands out over it." in only(HOUSE).assumed


def test_the_horizon_is_sorted_from_north():
    points = (HorizonPoint(direction=3.0, height=0.2), HorizonPoint(direction=1.0, height=0.1))
    horizon = site_horizon(replace(HOUSE, site=Site(horizon=points)))
    assert horizon.directions == (1.0, 3.0)
    assert horizon.heights == (0.1, 0.2)
    assert site_horizon(HOUSE) is None
