"""The rows, and the one way to a material by its name."""

from __future__ import annotations

import difflib
import math
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.materials.nouns import Material, MaterialClass, UnknownMaterialError
from bermwright.data.works.fabric import ASHRAEHOF, DIN4108, EN12524, HUSAGERD, ISO10456
from bermwright.data.works.practice import TRADE

if TYPE_CHECKING:
    from collections.abc import Mapping

TIGHT: Final = math.inf
"""Lets no vapour through that would matter."""

_EN = Cite(work=EN12524, place="table of design values", provenance=Provenance.READ)
_MU = Cite(work=ISO10456, place="table 3: vapour resistance factors", provenance=Provenance.MEMORY)
_MU_READ = Cite(work=HUSAGERD, place="ch. 3, tables 3.4 and 3.5 (NBI 573.430)", provenance=Provenance.READ)
_HOF = Cite(work=ASHRAEHOF, place="thermal properties of building materials", provenance=Provenance.READ)
_DIN = Cite(work=DIN4108, place="part 4, design values", provenance=Provenance.MEMORY)
_TRADE = Cite(work=TRADE, place="values of makers' sheets", provenance=Provenance.PRACTICE)


def _row(
    name: str,
    kind: MaterialClass,
    numbers: tuple[float, float, float, float, float],
    *cites: Cite,
    rots: bool = False,
    wet_limit: float = 0.5,
    note: str = "",
) -> Material:
    """Conductivity, density, heat capacity, vapour factor dry and damp."""
    conductivity, density, heat_capacity, dry, wet = numbers
    return Material(
        name=name, kind=kind, conductivity=conductivity, density=density, heat_capacity=heat_capacity,
        vapour_dry=dry, vapour_wet=wet, cites=cites, rots=rots, wet_limit=wet_limit, note=note,
    )  # fmt: skip


_T, _B, _I, _M = MaterialClass.TIMBER, MaterialClass.BOARD, MaterialClass.INSULATION, MaterialClass.MINERAL
_E, _S, _G, _W, _K = (
    MaterialClass.EARTH, MaterialClass.SHEET, MaterialClass.SOIL, MaterialClass.SNOW, MaterialClass.METAL,
)  # fmt: skip

_ROWS = (
    # timber and boards: conductivity, density and capacity read; vapour factors from memory
    _row("softwood", _T, (0.13, 500, 1600, 50, 20), _EN, _MU, rots=True),
    _row("hardwood", _T, (0.18, 700, 1600, 200, 50), _EN, _MU, rots=True),
    _row("plywood", _B, (0.13, 500, 1600, 200, 70), _EN, _MU, rots=True),
    _row("OSB", _B, (0.13, 650, 1700, 50, 30), _EN, _MU, rots=True),
    _row("particle board", _B, (0.14, 600, 1700, 50, 15), _EN, _MU, rots=True),
    _row("wood fibre board", _B, (0.07, 250, 1700, 5, 3), _EN, _MU, rots=True),
    _row("gypsum board", _B, (0.25, 900, 1000, 10, 4), _EN, _MU, rots=True),
    # insulation
    _row("mineral wool", _I, (0.04, 32, 1030, 1.2, 1), _HOF, _MU, note="fresh; keep it dry"),
    _row(
        "extruded polystyrene", _I, (0.036, 32, 1450, 150, 100), _HOF, _MU, note="design value, damp ground"
    ),
    _row("expanded polystyrene", _I, (0.0355, 20, 1450, 60, 20), _HOF, _MU_READ),
    _row("polyurethane foam", _I, (0.028, 30, 1400, 60, 40), _DIN, note="aged"),
    _row("cellular glass", _I, (0.048, 130, 1000, TIGHT, TIGHT), _HOF, _MU),
    _row(
        "foam glass gravel", _I, (0.11, 175, 1000, 3, 1), _TRADE, note="compacted; damp it carries more heat"
    ),
    _row("expanded clay", _I, (0.1, 300, 1000, 3, 2), _DIN, note="loose and dry"),
    _row("cork", _I, (0.05, 120, 1560, 10, 5), _DIN, rots=True),
    _row("wood fibre insulation", _I, (0.04, 150, 2000, 5, 3), _DIN, rots=True),
    _row("cellulose", _I, (0.04, 50, 1600, 2, 1), _DIN, rots=True),
    _row("sheep wool", _I, (0.04, 25, 1700, 2, 1), _DIN, rots=True),
    _row("straw bales", _I, (0.052, 100, 2000, 2, 2), _DIN, rots=True, note="across the stalks, as licensed"),
    _row("hemp lime", _I, (0.08, 350, 1600, 10, 5), _DIN),
    # masonry, concrete, plaster
    _row("concrete", _M, (2.0, 2400, 1000, 130, 80), _EN, _MU),
    _row("reinforced concrete", _M, (2.3, 2300, 1000, 130, 80), _EN, _MU),
    _row("light concrete", _M, (1.15, 1800, 1000, 100, 60), _EN, _MU),
    _row("concrete blocks", _M, (1.3, 2000, 1000, 100, 60), _EN, _MU, note="solid; hollow ones conduct less"),
    _row("brick", _M, (0.77, 1700, 1000, 16, 10), _DIN, _MU),
    _row("stone masonry", _M, (2.3, 2600, 1000, 250, 200), _EN, _MU, note="sedimentary stone"),
    _row("cement plaster", _M, (1.0, 1800, 1000, 35, 15), _EN, _MU),
    _row("lime plaster", _M, (0.8, 1600, 1000, 10, 6), _EN, _MU),
    # earth
    _row("rammed earth", _E, (1.1, 2000, 1000, 10, 5), _DIN),
    _row("earth bags", _E, (1.0, 1900, 1000, 10, 5), _DIN, note="as rammed earth of that weight"),
    _row("adobe", _E, (0.73, 1600, 1000, 10, 5), _DIN),
    _row("cob", _E, (0.65, 1500, 1000, 10, 5), _DIN),
    _row("clay plaster", _E, (0.8, 1700, 1000, 10, 5), _DIN),
    _row("light straw clay", _E, (0.17, 600, 1300, 5, 3), _DIN, rots=True),
    # sheets: their resistance to heat is nothing, to vapour everything
    _row("rubber sheet", _S, (0.25, 1150, 1000, 60000, 60000), _EN, _MU_READ, note="EPDM"),
    _row("bitumen sheet", _S, (0.23, 1050, 1000, 50000, 20000), _EN, _MU),
    _row("PVC sheet", _S, (0.17, 1390, 900, 40000, 40000), _EN, _MU_READ),
    _row(
        "polyethylene sheet",
        _S,
        (0.33, 920, 2200, 450000, 100000),
        _EN,
        _MU_READ,
        note="0.2 mm: sd 90 m read, 20 m in popular texts",
    ),
    _row("kraft paper", _S, (0.17, 700, 1400, 20000, 5000), _TRADE, rots=True, note="about sd 2 m at 0.2 mm"),
    _row("fleece", _S, (0.2, 250, 1000, 10, 5), _TRADE, note="synthetic"),
    _row("bentonite mat", _S, (0.6, 1000, 1000, 2000, 500), _TRADE),
    # ground and snow
    _row("sand or gravel", _G, (2.0, 1950, 1025, 50, 50), _EN, _MU, note="2.0 MJ/m3K; damp"),
    _row("clay or silt", _G, (1.5, 1500, 2000, 50, 50), _EN, _MU, note="3.0 MJ/m3K; damp"),
    _row("rock", _G, (3.5, 2800, 715, 10000, 10000), _EN, _MU),
    _row("gravel drainage", _G, (0.7, 1600, 900, 10, 5), _TRADE, note="drained, washed"),
    _row("topsoil and turf", _G, (1.0, 1300, 1800, 50, 30), _TRADE, note="damp"),
    _row("fresh snow", _W, (0.05, 100, 2000, 5, 5), _EN, note="under 30 mm"),
    _row("soft snow", _W, (0.12, 200, 2000, 5, 5), _EN),
    _row("settled snow", _W, (0.23, 300, 2000, 8, 8), _EN),
    _row("compacted snow", _W, (0.6, 500, 2000, 20, 20), _EN),
    _row("ice", _W, (2.2, 900, 2000, TIGHT, TIGHT), _EN),
    # metals
    _row("steel", _K, (50.0, 7800, 450, TIGHT, TIGHT), _EN),
    _row("stainless steel", _K, (17.0, 7900, 460, TIGHT, TIGHT), _EN),
    _row("aluminium alloy", _K, (160.0, 2800, 880, TIGHT, TIGHT), _EN),
)

MATERIALS: Mapping[str, Material] = MappingProxyType({row.name: row for row in _ROWS})
"""By name, as a house file writes it."""


def material(name: str) -> Material:
    """The material of that name, blind to case.

    >>> material("Softwood").conductivity
    0.13
    """
    plain = {known.lower(): row for known, row in MATERIALS.items()}
    found = plain.get(name.strip().lower())
    if found is None:
        near = difflib.get_close_matches(name.strip().lower(), plain, n=1, cutoff=0.5)
        hint = f" Did you mean {plain[near[0]].name!r}?" if near else ""
        raise UnknownMaterialError(
            f"No material is called {name!r}.{hint} There are: {', '.join(MATERIALS)}."
        )
    return found
