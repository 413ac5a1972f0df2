"""What does not fit together of the place and its soils."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.house.checks.common import (
    Check,
    Contradiction,
    Key,
    bound,
    clash,
    each_name_once,
    lighter_when_wet,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.model import House
    from bermwright.house.site import Soil


def site_checks(house: House) -> Iterator[Check]:
    """The checks of the place and of each soil."""
    soils = house.site.soil
    yield Check(("site",), ("soil",), lambda: each_name_once(("site", "soil"), [soil.name for soil in soils]))
    for count, soil in enumerate(soils):
        here: Key = ("site", "soil", count)
        yield Check(here, ("unit_weight", "saturated_unit_weight"), bound(lighter_when_wet, here, soil))
        if count < len(soils) - 1:
            yield Check(here, ("thickness",), bound(_bottomless, here, soil))


def _bottomless(here: Key, soil: Soil) -> Iterator[Contradiction]:
    if soil.thickness is None:
        yield clash(
            here,
            "thickness",
            "",
            "is missing, but another soil lies below; only the lowest one has no end.",
            "Write how thick this layer is.",
        )
