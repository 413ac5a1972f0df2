"""What is lifted: the heaviest piece, half a rib, a whole rib, and how many people that takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.base.sources import Cite, Provenance
from bermwright.data.rates import LIFT_LIMIT
from bermwright.data.works.rates import HSEMHOR
from bermwright.handbook.lifting import lifters_needed, team_capacity
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.lines import line, measured, number, unknown
from bermwright.takeoff.nails import rib_nails
from bermwright.takeoff.nouns import Group, Quantity
from bermwright.takeoff.ribs import NO_DENSITY, piece_mass, rib_volume

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.data.timber_classes import TimberClass
    from bermwright.form.shapes import VaultForm
    from bermwright.house import Vault

TEAM_CITE = Cite(work=HSEMHOR, place="handling in teams: two and three people", provenance=Provenance.READ)
LARGEST_TEAM = 3
LIFT_BY_ENDS = 2
"""Teams that can take hold of one rib without getting in each other's way: one at either end."""
CAUTION = (
    "held close, at knuckle height, on firm ground, seldom; less when reaching, twisting or above the "
    "shoulder; local rules go first"
)


def hands_lift(people: int) -> float:
    """What so many people may lift of one rib (kg): teams of three at most, one at either end."""
    first = min(people, LARGEST_TEAM)
    second = min(people - first, LARGEST_TEAM)
    teams = [count for count in (first, second) if count > 0][:LIFT_BY_ENDS]
    return float(sum(float(team_capacity(LIFT_LIMIT.value, people=count)) for count in teams))


def rib_lifters(mass: float) -> int | None:
    """How many people a rib, or half of one, takes; None where only a hoist may lift it."""
    most = LIFT_BY_ENDS * LARGEST_TEAM
    return next((people for people in range(1, most + 1) if mass <= hands_lift(people)), None)


def lifting_rows(form: VaultForm, vault: Vault, timber: TimberClass | None) -> Iterator[Quantity]:
    """Masses to lift and people for them."""
    if timber is None:
        for name in ("heaviest rib piece", "half a rib", "whole rib"):
            yield unknown(name, Group.LIFTING, "kg", note=NO_DENSITY, stage=StageKind.RIBS)
        return
    density = timber.density
    heaviest = max(form.rib.pieces, key=lambda piece: piece_mass(piece, form.rib, density))
    yield _lifted(
        f"heaviest rib piece ({heaviest.name})",
        (_timber("Mass of the piece", piece_mass(heaviest, form.rib, density), timber),),
        whole=piece_mass(heaviest, form.rib, density),
    )
    wood = rib_volume(form.rib) * density
    steel, note = _nails(form, vault)
    steps = (_timber("Timber of a whole rib", wood, timber), steel)
    yield _lifted("half a rib", steps, whole=wood + steel.result.value, share=0.5, note=note, ends=True)
    yield _lifted("whole rib", steps, whole=wood + steel.result.value, note=note, ends=True)


def _timber(says: str, mass: float, timber: TimberClass) -> Step:
    return line(
        f"{says}, at mean density",
        "m",
        "ρ·V",
        f"{number(timber.density, 'kg/m3')}·{number(mass / timber.density, 'm3', 4)}",
        result=Shown(mass, "kg", 1),
        cite=timber.cite,
    )


def _nails(form: VaultForm, vault: Vault) -> tuple[Step, str]:
    nails = rib_nails(form, vault)
    if nails is None:
        none = line("Nails are not given and not counted", "m_n", "", "", result=Shown(0.0, "kg", 1))
        return none, "without nails, which the file does not give"
    weight = Shown(nails.mass(), "kg", 1)
    return line("Its nails", "m_n", "N·m_1", f"{nails.each} nails", result=weight), ""


def _lifted(
    name: str,
    steps: tuple[Step, ...],
    *,
    whole: float,
    share: float = 1.0,
    note: str = "",
    ends: bool = False,
) -> Quantity:
    """A mass and who lifts it; what is long has room for a team at either end."""
    mass = whole * share
    people = rib_lifters(mass) if ends else lifters_needed(mass, each=LIFT_LIMIT.value)
    if people is None:
        most = hands_lift(LIFT_BY_ENDS * LARGEST_TEAM if ends else LARGEST_TEAM)
        teams = "a team of three at either end" if ends else "a team of three"
        says = f"too heavy for {teams} ({number(most, 'kg', 1)}): hoist, gin pole, or smaller parts"
    elif people > LARGEST_TEAM:
        says = f"{people} people, three at one end and {people - LARGEST_TEAM} at the other"
    else:
        says = f"{people} {'person' if people == 1 else 'people'}"
    limit = line(
        "What one person may lift at best",
        "w",
        "",
        "",
        result=Shown(LIFT_LIMIT.value, "kg", 0),
        cite=LIFT_LIMIT.cite,
    )
    team = line(
        f"Two lift 2/3, three 1/2 of the sum of what each may lift: {says}",
        "m",
        "Σ m" if share == 1.0 else "Σ m/2",
        "",
        result=Shown(mass, "kg", 1),
        cite=TEAM_CITE,
    )
    return measured(
        name,
        Group.LIFTING,
        Shown(mass, "kg", 1),
        working=(*steps, limit, team),
        stage=StageKind.RIBS,
        note="; ".join(part for part in (says, CAUTION, note) if part),
    )
