"""The room inside: headroom over the floor."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.curves import Strip, headroom_strip

if TYPE_CHECKING:
    from bermwright.form.shapes import VaultForm


def headroom(form: VaultForm, height: float) -> Strip:
    """The strip of floor with a height free over it, between the inside faces of the ribs.

    Below the feet stand upright walls, at most as far in as the inside faces there.
    """
    inside = form.rib.inside
    x = np.concatenate([inside.x[:1], inside.x, inside.x[-1:]])
    low = min(0.0, float(inside.z[0]), float(inside.z[-1]))
    z = np.concatenate([[low], inside.z, [low]])
    return headroom_strip(x, z, height)
