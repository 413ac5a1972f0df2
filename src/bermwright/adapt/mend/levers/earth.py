"""Levers on the mound, its soil, its water and the layers between soil and ribs."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.adapt.mend.levers.ladder import entries, fixed, ladder, word
from bermwright.adapt.mend.levers.ribs import STRONGER
from bermwright.adapt.mend.levers.works import FILLING
from bermwright.adapt.mend.nouns import Amount, Lever
from bermwright.house import CoverKind, Frost
from bermwright.house.choices import SoilKind

if TYPE_CHECKING:
    from bermwright.adapt.mend.nouns import Place, Writes
    from bermwright.house import Cover

SLOPES = (1.25, 1.5, 1.75, 2.0, 2.25, 2.5, 2.75, 3.0, 3.25, 3.5, 4.0)
"""1 up in so many along."""
COVERS = (0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.8, 1.0)
"""Soil over the crown (m)."""
LOADED = (FILLING | STRONGER) - {"fill-keeps-to-its-stop-marks"}
GROUND = frozenset({"slopes-stay", "cover-stays-on-its-sheet", "house-stays-between-its-fills"})
WARM = frozenset({"corners-stay-free-of-mould", "layers-dry-out", "buried-ribs-stay-dry-enough"})
BOUGHT = {
    "unit_weight": "17.3..20.4 kN/m3", "saturated_unit_weight": "19.3..20.8 kN/m3",
    "friction_angle": "31..36 deg", "stiffness": "12..24 MPa", "frost": "not susceptible",
    "kind": "sand or gravel",
    "source": "EM 1110-2-2504, table 3-1, medium dense sand or gravel; test it before it is used",
}  # fmt: skip
"""Fill that can be bought and drains: table values, to be tested."""


def _insulation(cover: Cover) -> bool:
    return cover.kind is CoverKind.INSULATION


def _both_slopes(place: Place) -> tuple[Amount, ...]:
    """Both sides of the mound flatter, each by as many steps."""
    found: list[Amount] = []
    sides = [ladder("vault.mound", side, SLOPES, "slope", up=False)(place) for side in ("left", "right")]
    for number in range(max(len(one) for one in sides)):
        parts = [one[min(number, len(one) - 1)] for one in sides if one]
        writes = tuple(write for part in parts for write in part.writes)
        found.append(Amount(says=", ".join(dict.fromkeys(one.says for one in parts)), writes=writes))
    return tuple(found)


def _soils(place: Place) -> tuple[Amount, ...]:
    """The site's other soils, then sand that is brought."""
    found = []
    for entry in entries(place, "vault.fill"):
        fill = entry.table
        for soil in place.house.site.soil:
            if soil.name != fill.soil:
                says = f"{soil.name} in place of {fill.soil or 'what the file gives'}"
                found.append(Amount(says=says, writes=(((*entry.key, "soil"), soil.name),)))
    return tuple(found)


def _brought(values: dict[str, str], place: Place) -> Writes:
    own = [(*entry.key, key) for entry in entries(place, "vault.fill") for key in ("soil",)]
    if not own:
        return ()
    table = own[0][:-1]
    return ((own[0], None), *(((*table, key), value) for key, value in values.items()))


def _heaves(place: Place) -> bool:
    """Whether the fill is no sand, heaves in frost, or may."""
    fill = None if place.vault is None else place.house.fill(place.house.vaults[place.vault])
    return fill is not None and (fill.kind is not SoilKind.SAND or fill.frost is not Frost.NOT_SUSCEPTIBLE)


def _lighter(place: Place) -> tuple[Amount, ...]:
    """The site's soils that are lighter than the fill, the lightest first."""
    found = []
    for entry in entries(place, "vault.fill"):
        now = place.house.fill(place.house.vaults[place.vault or 0])
        weight = math.inf if now is None or now.unit_weight is None else now.unit_weight.high
        lighter = [one for one in place.house.site.soil if one.unit_weight and one.unit_weight.high < weight]
        for soil in sorted(lighter, key=lambda one: one.unit_weight.high if one.unit_weight else math.inf):
            writes = (((*entry.key, "soil"), soil.name), ((*entry.key, "unit_weight"), None))
            found.append(Amount(says=f"{soil.name}, as placed", writes=writes))
    return tuple(found)


def _fleece(place: Place) -> Writes:
    """A rough outermost layer: a drainage mat with fleece on the sheet."""
    if place.vault is None:
        return ()
    cover = place.house.vaults[place.vault].cover
    if not cover or (cover[-1].friction is not None and cover[-1].friction.low >= math.radians(27.9)):
        return ()
    key = ("vault", place.vault, "cover", len(cover))
    return (
        ((*key, "kind"), "drainage"), ((*key, "name"), "drain mat under fleece"),
        ((*key, "thickness"), "20 mm"),
        ((*key, "unit_weight"), "2 kN/m3"), ((*key, "friction"), "28..32 deg"),
    )  # fmt: skip


EARTH_LEVERS = (
    Lever(
        name="flatter slopes", does="Make both slopes of the mound flatter", monotone=False, hours=4.0,
        helps=GROUND | {"cover-stays-on-its-sheet"}, amounts=_both_slopes,
    ),
    Lever(
        name="less soil over the crown", does="Lay less soil over the crown",
        helps=LOADED | GROUND | {"insulation-is-not-crushed"},
        amounts=ladder("vault.mound", "crown", COVERS, "m", up=False), monotone=False, hours=0.5,
    ),
    Lever(
        name="more soil over the crown", does="Lay more soil over the crown", monotone=False, hours=2.0,
        helps=frozenset({"wheels-keep-off", "ribs-bend", "fill-keeps-to-its-stop-marks",
                         "pieces-can-be-lifted",
                         "house-stays-between-its-fills"}),
        amounts=ladder("vault.mound", "crown", COVERS, "m"),
    ),
    Lever(
        name="steeper mound at the front", does="Let the mound fall more steeply to the front",
        monotone=False,
        helps=frozenset({"ribs-stand-near-the-ends"}), hours=2.0,
        amounts=ladder("vault.mound", "front", SLOPES[1:], "slope"),
    ),
    Lever(
        name="another soil of the site", does="Fill with another soil of the site", monotone=False, hours=8.0,
        helps=LOADED | GROUND | {"stands-its-first-winter", "soil-runs-fit-the-membrane"}, amounts=_soils,
    ),
    Lever(
        name="sand brought in", does="Fill with gravelly sand that drains and does not heave", hours=30.0,
        helps=LOADED | GROUND | {"stands-its-first-winter"}, monotone=False,
        amounts=fixed(
            lambda place: _brought(BOUGHT, place),
            "gravelly sand in place of the fill of the file",
            when=_heaves,
        ),
    ),
    Lever(
        name="lighter fill", does="Fill with the lightest soil of the site", helps=LOADED, monotone=False,
        amounts=_lighter, hours=8.0,
    ),
    Lever(
        name="drain at the foot", does="Lay a drain at the foot of the fill, with an open way out",
        helps=GROUND | {"stands-its-first-winter"}, hours=24.0,
        amounts=word("vault.fill", "drained", ("no", "yes")),
    ),
    Lever(
        name="heated from the first winter on", does="Heat the house from the first winter on",
        helps=frozenset({"stands-its-first-winter"}), hours=0.0,
        amounts=word("stages", "unheated_first_winter", ("yes", "no")),
    ),
    Lever(
        name="rough drain mat on the sheet", does="Lay a drain mat under fleece on the sheet", hours=6.0,
        helps=frozenset({"cover-stays-on-its-sheet", "soil-runs-fit-the-membrane"}), monotone=False,
        amounts=fixed(_fleece, "20 mm, rough enough for 28 degrees: ask the maker for its test"),
    ),
    Lever(
        name="more insulation over the vault", does="Lay thicker insulation over the vault", helps=WARM,
        hours=2.0,
        amounts=ladder(
            "vault.cover", "thickness", (50, 100, 150, 200, 250, 300, 400), "mm", only=_insulation
        ),
        monotone=False,
    ),
    Lever(
        name="insulation under the floor", does="Lay more insulation under the floor", helps=WARM, hours=4.0,
        amounts=ladder("ground_heat.floor", "insulation", (50, 100, 150, 200, 250, 300), "mm"),
    ),
    Lever(
        name="insulation outside the walls", does="Lay more insulation outside the walls", helps=WARM,
        hours=4.0,
        amounts=ladder("ground_heat.wall", "insulation", (50, 100, 150, 200, 250, 300), "mm"),
    ),
)  # fmt: skip
