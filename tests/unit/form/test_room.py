"""Strips of floor with height enough, floor by floor."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.form import vault_form
from bermwright.form.room import STANDING, strip_over, strips_of, uses
from bermwright.house import House


def test_lower_uses_are_wider(larch_bank: House) -> None:
    form = vault_form(larch_bank, larch_bank.vaults[0])
    widths = [strip.width for _, _, strip in strips_of(form, (0.0,), None) if strip is not None]
    assert widths == sorted(widths)
    assert len(widths) == 3


def test_a_strip_ends_where_the_rib_is(larch_bank: House) -> None:
    form = vault_form(larch_bank, larch_bank.vaults[0])
    strip = strip_over(form, 0.0, STANDING)
    assert strip is not None
    inside = form.rib.inside
    assert np.interp(strip.left, inside.x, inside.z) == pytest.approx(STANDING, abs=2e-3)


def test_there_is_no_strip_over_the_crown(larch_bank: House) -> None:
    form = vault_form(larch_bank, larch_bank.vaults[0])
    assert strip_over(form, 0.0, 9.0) is None
    assert strip_over(form, 2.0, STANDING) is None


def test_an_upper_floor_takes_the_height_of_the_lower_one(larch_bank: House) -> None:
    form = vault_form(larch_bank, larch_bank.vaults[0])
    found = {(floor, use.name): strip for floor, use, strip in strips_of(form, (0.0, 1.6), None)}
    assert found[0.0, "to stand and walk"] is None
    assert found[0.0, "to sit at a desk"] is not None


def test_the_headroom_of_the_file_is_what_standing_needs() -> None:
    assert uses(2.2)[0].height == 2.2
    assert uses(None)[0].height == STANDING
