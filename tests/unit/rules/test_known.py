"""What is not known of one place leaves what is known of the others as it is."""

from __future__ import annotations

import numpy as np

from bermwright.handbook import timber as ec5
from bermwright.rules.analysis.strength import where_known


def test_an_unknown_place_does_not_stop_an_equation_that_allows_no_zero() -> None:
    def used(pressed, bent, reduced):
        return ec5.buckling_and_bending(
            pressed, bent, compression_strength=10e6, bending_strength=12e6, k_c=reduced
        )

    pressed, bent, reduced = np.full((1, 3), 2e6), np.full((1, 3), 3e6), np.full((1, 3), 0.5)
    known = used(pressed, bent, reduced)
    bent[0, 1] = np.nan
    found = where_known(used, pressed, bent, reduced)
    assert np.isnan(found[0, 1])
    assert (found[0, [0, 2]] == known[0, [0, 2]]).all()
