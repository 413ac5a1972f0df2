"""Levers on the order of work: what stands, lies or waits while the fill is placed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.adapt.mend.levers.ladder import ladder, word
from bermwright.adapt.mend.nouns import Amount, Lever
from bermwright.form.curve import rise_of
from bermwright.rules.analysis.remedies import HAUNCH

if TYPE_CHECKING:
    from bermwright.adapt.mend.nouns import Place
    from bermwright.house import Vault

FILLING = frozenset(
    {
        "fill-keeps-to-its-stop-marks", "ribs-bend", "ribs-shear", "nails-carry-the-cut-layer",
        "ribs-do-not-buckle", "ribs-do-not-tip", "feet-stay-on-their-supports",
        "feet-press-on-their-supports",
        "house-stays-between-its-fills", "supports-do-not-slide", "supports-do-not-turn-over",
        "ground-carries-the-supports", "force-stays-under-the-base", "trimmers-carry-for-the-cut-ribs",
        "headers-carry-the-cut-ribs", "ribs-stand-near-the-ends", "walls-do-not-break",
        "footings-do-not-break", "floor-tie-holds-the-feet", "bond-beam-holds",
    }
)  # fmt: skip
"""Rules that look at the stages of filling."""
RIBS = FILLING & frozenset(
    {
        "fill-keeps-to-its-stop-marks", "ribs-bend", "ribs-shear", "nails-carry-the-cut-layer",
        "ribs-do-not-buckle", "ribs-do-not-tip", "trimmers-carry-for-the-cut-ribs",
        "headers-carry-the-cut-ribs", "ribs-stand-near-the-ends",
    }
)  # fmt: skip
CROWN_SOIL = (0.1, 0.15, 0.2, 0.3, 0.45)
"""Thickness of crown soil (m)."""
BAGS = (0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0)
"""Ballast (kPa)."""
LAID = 0.35
"""Share of the rise to which the fill stands when ballast is laid (-)."""


def _vault_of(place: Place) -> Vault | None:
    return None if place.vault is None else place.house.vaults[place.vault]


def _third(vault: Vault) -> float:
    return round(vault.span / 3.0, 1)


def _crown_soil(place: Place) -> tuple[Amount, ...]:
    vault = _vault_of(place)
    if vault is None:
        return ()
    wide = f"{_third(vault):g} m"
    now = place.house.stages.crown_first
    return tuple(
        Amount(
            says=f"{thick:g} m on the middle {wide}",
            writes=((("stages", "crown_first"), f"{thick:g} m"), (("stages", "crown_first_width"), wide)),
        )
        for thick in CROWN_SOIL
        if thick > now
    )


def _ballast(place: Place) -> tuple[Amount, ...]:
    vault = _vault_of(place)
    rise = None if vault is None else rise_of(vault)
    if vault is None or rise is None:
        return ()
    begin = round(vault.springing + LAID * rise, 2)
    until = round(vault.springing + rise, 2)
    now = place.house.stages.ballast
    least = 0.0 if now is None else now.weight / 1e3
    key = ("stages", "ballast")
    return tuple(
        Amount(
            says=f"{weight:g} kPa on the middle {_third(vault):g} m, "
            f"with the fill from +{begin:.2f} to +{until:.2f}",
            writes=(
                ((*key, "weight"), f"{weight:g} kPa"),
                ((*key, "width"), f"{_third(vault):g} m"),
                ((*key, "from"), f"{begin:g} m"),
                ((*key, "until"), f"{until:g} m"),
            ),
        )
        for weight in BAGS
        if weight > least
    )


def _props(place: Place) -> tuple[Amount, ...]:
    vault = _vault_of(place)
    rise = None if vault is None else rise_of(vault)
    if vault is None or rise is None:
        return ()
    number = len(place.house.stages.props)
    until = round(vault.springing + rise, 2)
    found = []
    for where, share in (("the crown", 1.0), ("each haunch", HAUNCH)):
        key = ("stages", "prop", number)
        level = round(vault.springing + share * rise, 2)
        found.append(
            Amount(
                says=f"100 x 100 mm every 1.2 m under {where}",
                writes=(
                    ((*key, "level"), f"{level:g} m"),
                    ((*key, "from"), f"{round(vault.springing, 2):g} m"),
                    ((*key, "until"), f"{until:g} m"),
                    ((*key, "section"), "100 x 100 mm"),
                    ((*key, "spacing"), "1.2 m"),
                ),
            )
        )
    return tuple(found)


WORK_LEVERS = (
    Lever(
        name="less of a lead", does="Let neither side be so far ahead", helps=FILLING, temporary=True,
        amounts=ladder("stages", "lead", (0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4), "m", up=False, begin=0.6),
        hours=2.0,
    ),
    Lever(
        name="thinner lifts", does="Place the fill in thinner layers", helps=FILLING, temporary=True,
        amounts=ladder("stages", "lift", (0.1, 0.15, 0.2, 0.25, 0.3, 0.4), "m", up=False), hours=10.0,
    ),
    Lever(
        name="hand rammer", does="Compact beside the ribs by hand", helps=FILLING, temporary=True, hours=8.0,
        amounts=word("stages", "compaction", ("plate", "hand rammer")),
    ),
    Lever(
        name="compactor kept off", does="Keep the plate away from the ribs", helps=FILLING, temporary=True,
        amounts=ladder("stages", "compactor_distance", (0.6, 1.0), "m", begin=0.0), hours=2.0,
    ),
    Lever(
        name="no wet fill", does="Place no wet soil", helps=FILLING, temporary=True, hours=4.0,
        amounts=word("stages", "wet_fill", ("yes", "no"), only=lambda stages: stages.wet_fill is not False),
    ),
    Lever(
        name="crown soil first", does="Lay soil on the crown before any fill at the sides", helps=RIBS,
        amounts=_crown_soil, monotone=False, temporary=True, hours=4.0,
    ),
    Lever(
        name="ballast on the crown", does="Lay bags on the crown while the sides are filled", helps=RIBS,
        amounts=_ballast, monotone=False, temporary=True, hours=6.0,
    ),
    Lever(
        name="props", does="Set posts under the ribs until the fill is at the crown", helps=RIBS,
        amounts=_props, monotone=False, temporary=True, hours=8.0,
    ),
)  # fmt: skip
