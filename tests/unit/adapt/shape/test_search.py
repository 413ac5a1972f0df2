"""The search over every family: as good as a brute-force grid, on three unlike sections."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from bermwright.adapt.shape.advice import choose
from bermwright.adapt.shape.envelope import bending_envelope
from bermwright.adapt.shape.families import FAMILIES, Family, Stand
from bermwright.adapt.shape.limits import NoRoomError, limits_of
from bermwright.adapt.shape.search import Found, Same, top_of
from bermwright.form import vault_form
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.house import House

    Sections = Mapping[str, Any]

NAMES = ("tall from the ground", "thick cover on walls", "well as it is")
TICKS = {1: 12, 2: 6, 3: 4}
"""Places along each axis of the brute-force grid."""


def brute_force(section: Any, family: Family) -> float:
    """The least bending on walls over a grid of everything that is free."""
    limits, search, axes = section.search.limits, section.search, 1 + family.free
    rises = family.rises(limits.span, limits.crown - limits.highest, limits.crown - limits.lowest)
    if rises is None:
        return math.inf
    found = []
    for at in product(np.linspace(0.0, 1.0, TICKS[axes]), repeat=axes):
        rise = float(rises[0] + at[0] * (rises[1] - rises[0]))
        shares = tuple(float(share) for share in at[1:])
        vault = family.vault(section.vault, rise=rise, springing=limits.crown - rise, shares=shares)
        found.append(search.bending(vault))
    return min(found)


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_no_grid_finds_anything_better(sections: Sections, name: str) -> None:
    section = sections[name]
    for family in FAMILIES.values():
        if family.kind in {CurveKind.SEMICIRCLE, CurveKind.UNDER_COVER}:
            # One has nothing free; the other is looked at below, as every look takes a twentieth of a second.
            continue
        brute = brute_force(section, family)
        found = section.search.on_walls(family) or section.search.from_floor(family)
        ours = math.inf if found is None else found.bending
        assert ours <= 1.02 * brute, family.kind


def test_nor_of_the_curve_under_cover(sections: Sections) -> None:
    section = sections[NAMES[1]]
    family = FAMILIES[CurveKind.UNDER_COVER]
    found = section.search.on_walls(family)
    assert found is not None
    limits = section.search.limits
    levels = np.linspace(limits.lowest, limits.highest, 6)
    vaults = [family.vault(section.vault, rise=limits.crown - z, springing=float(z)) for z in levels]
    assert found.bending <= 1.02 * min(section.search.bending(vault) for vault in vaults)


def test_the_recommendation_differs(sections: Sections) -> None:
    chosen = [choose(section.comparison) for section in sections.values()]
    assert [(one.vault.curve, one.stand) for one in chosen if one] == [
        (CurveKind.UNDER_COVER, Stand.LOWER),
        (CurveKind.SEGMENT, Stand.WALLS),
        (CurveKind.THREE_CENTRED, None),
    ]


@pytest.mark.parametrize("name", NAMES)
def test_what_is_kept_is_kept(sections: Sections, name: str) -> None:
    section = sections[name]
    limits, floor = section.search.limits, section.search.floor()
    for one in section.comparison.others:
        assert one.form.span == section.vault.span
        assert limits.lowest - 1e-9 <= one.form.springing <= limits.highest + 1e-9
        assert one.form.undercut <= 0.01 * limits.span + 1e-9
        if one.stand is Stand.LOWER:
            assert top_of(one.vault) < limits.crown
            assert one.floor_width >= 0.98 * floor - 0.02
        else:
            assert top_of(one.vault) == pytest.approx(limits.crown)


@pytest.mark.parametrize("name", NAMES)
def test_each_curve_stands_once_and_the_best_first(sections: Sections, name: str) -> None:
    others = sections[name].comparison.others
    bends = [one.envelope.bending for one in others]
    assert bends == sorted(bends)
    shapes = [(one.vault.curve, one.stand) for one in others]
    assert len(set(shapes)) == len(shapes)
    named = [kind for one in others if one.stand is Stand.WALLS for kind in (one.vault.curve, *one.alike)]
    assert len(set(named)) == len(named)


def test_at_half_the_span_several_families_are_one_circle(sections: Sections) -> None:
    circle = sections[NAMES[0]].comparison.of(CurveKind.SEMICIRCLE, Stand.WALLS)
    assert circle is not None
    assert {CurveKind.SEGMENT, CurveKind.ELLIPSE, CurveKind.POINTED} <= set(circle.alike)


@pytest.mark.parametrize("name", NAMES)
def test_the_quick_look_stands_beside_the_full_one(sections: Sections, name: str) -> None:
    section = sections[name]
    for one in section.comparison.others[:6]:
        quick = section.search.screen.bending(one.vault)
        assert quick == pytest.approx(one.envelope.bending, rel=0.2)
    best = section.comparison.others[0]
    assert section.search.screen.bending(best.vault) == pytest.approx(best.envelope.bending, rel=0.06)


def test_left_out_corners_do_not_govern(sections: Sections) -> None:
    section = sections[NAMES[1]]
    best = section.comparison.others[1]
    full = bending_envelope(section.house, best.vault)
    assert full.bending == pytest.approx(best.envelope.bending, rel=1e-9)
    assert full.used == pytest.approx(best.envelope.used)


def test_a_headroom_that_cannot_fit_says_what_to_do(larch_bank: House) -> None:
    tall = replace(larch_bank, rules=replace(larch_bank.rules, headroom=2.6))
    with pytest.raises(NoRoomError, match=r"raise \[vault\] springing or rise to a crown of at least \+2.68"):
        limits_of(tall, tall.vaults[0])


def test_feet_on_walls_stay_no_higher_than_the_file(kettle_hill: House, larch_bank: House) -> None:
    assert limits_of(larch_bank, larch_bank.vaults[0]).highest == pytest.approx(1.1)
    tall = limits_of(kettle_hill, kettle_hill.vaults[0])
    assert (tall.lowest, tall.highest, tall.crown) == (0.0, 1.5, 4.0)


def test_a_curve_with_more_pieces_than_can_be_reckoned_says_so(sections: Sections) -> None:
    search = sections[NAMES[0]].search
    short = replace(search.vault, board_length=0.25)
    found = Found(family=FAMILIES[CurveKind.SEGMENT], stand=Stand.WALLS, vault=short, bending=1.0)
    said = search.measured(Same(first=found, alike=()))
    assert isinstance(said, str)
    assert said.startswith("segment on walls: The ribs of")
    assert "joints; up to 70 can be reckoned" in said


def test_progress_ends_the_search(kettle_hill: House) -> None:
    from bermwright.adapt.shape.search import compare_curves

    def stop(_step: str) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        compare_curves(kettle_hill, kettle_hill.vaults[0], progress=stop)


def test_a_curve_out_of_reach_is_asked_once(sections: Sections) -> None:
    search = sections[NAMES[0]].search
    family = FAMILIES[CurveKind.UNDER_COVER]
    assert search.bending(family.vault(search.vault, rise=4.0, springing=0.0)) == math.inf
    assert search.too_tall == {4.0: 4.0}
    assert search.bending(family.vault(search.vault, rise=4.2, springing=-0.2)) == math.inf
    form = vault_form(search.house, search.vault, pieces=False)
    assert form.rib.pieces == ()
