"""What may be changed, in steps that can be bought: tables of levers, one module a subject.

A lever names the rules it can help.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.adapt.mend.levers.earth import EARTH_LEVERS
from bermwright.adapt.mend.levers.grids import GRID_LEVERS
from bermwright.adapt.mend.levers.lasting import LASTING_LEVERS
from bermwright.adapt.mend.levers.living import LIVING_LEVERS
from bermwright.adapt.mend.levers.ribs import RIB_LEVERS
from bermwright.adapt.mend.levers.supports import SUPPORT_LEVERS
from bermwright.adapt.mend.levers.works import WORK_LEVERS

if TYPE_CHECKING:
    from bermwright.adapt.mend.nouns import Lever

LEVERS: tuple[Lever, ...] = (
    *WORK_LEVERS, *RIB_LEVERS, *EARTH_LEVERS, *SUPPORT_LEVERS, *LIVING_LEVERS, *LASTING_LEVERS,
    *GRID_LEVERS,
)  # fmt: skip

__all__ = ["LEVERS"]
