"""Strips of floor with height enough, floor by floor."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest

from bermwright.form import vault_form
from bermwright.form.room import STANDING, strip_over, strips_of, uses
from bermwright.formats.house_file import load

if TYPE_CHECKING:
    from bermwright.form.shapes import VaultForm

LARCH_BANK = Path(__file__).resolve().parents[3] / "examples" / "larch-bank.toml"


@pytest.fixture(scope="module")
def form() -> VaultForm:
    house = load(LARCH_BANK).house
    return vault_form(house, house.vaults[0])


def test_lower_uses_are_wider(form: VaultForm) -> None:
    widths = [strip.width for _, _, strip in strips_of(form, (0.0,), None) if strip is not None]
    assert widths == sorted(widths)
    assert len(widths) == 3


def test_a_strip_ends_where_the_rib_is(form: VaultForm) -> None:
    strip = strip_over(form, 0.0, STANDING)
    assert strip is not None
    inside = form.rib.inside
    assert np.interp(strip.left, inside.x, inside.z) == pytest.approx(STANDING, abs=2e-3)


def test_there_is_no_strip_over_the_crown(form: VaultForm) -> None:
    assert strip_over(form, 0.0, 9.0) is None
    assert strip_over(form, 2.0, STANDING) is None


def test_an_upper_floor_takes_the_height_of_the_lower_one(form: VaultForm) -> None:
    found = {(floor, use.name): strip for floor, use, strip in strips_of(form, (0.0, 1.6), None)}
    assert found[0.0, "to stand and walk"] is None
    assert found[0.0, "to sit at a desk"] is not None


def test_the_headroom_of_the_file_is_what_standing_needs() -> None:
    assert uses(2.2)[0].height == 2.2
    assert uses(None)[0].height == STANDING
