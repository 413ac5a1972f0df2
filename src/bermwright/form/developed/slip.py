"""Forms that climb along a wall: panels for one lift, how often they move, and what the fresh fill asks.

Fresh fill presses as water of its weight would. Boards run from stud to stud; each stud is held by a tie
under the fill, through the lift below, and by one over it. Rammed earth is held to a published practice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.data.rates import LIFT_LIMIT
from bermwright.data.slip_forms import CLEAR, FORM_FACTOR, GRIP, RAMMED_STUDS, SAG
from bermwright.data.timber_classes import GAMMA_TIMBER, TIMBER_CLASSES
from bermwright.handbook.carpentry import leaning_post
from bermwright.handbook.lifting import lifters_needed
from bermwright.handbook.timber import design_strength, modification_factor, plank_demand, rectangular_section
from bermwright.house.making.slip import Filling

if TYPE_CHECKING:
    from bermwright.data.timber_classes import TimberClass
    from bermwright.house import House
    from bermwright.house.making.slip import SlipForm
    from bermwright.house.parts.walls import Wall

MOST_BAYS = 3
"""Boards over more bays count as over three."""
MOIST, SHORT = 3, "short-term"
"""Service class and duration of a form: wet, for days."""
WET_DAYS = modification_factor(MOIST, SHORT)
"""What of the strength of a class is left by both (-)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One thing that has to hold: what is asked of it, and what it has."""

    what: str
    demand: float
    capacity: float
    unit: str
    """"MPa", "mm" or "kN": how both are shown."""
    working: str

    @property
    def share(self) -> float:
        """Demand over capacity; not a number where something is not known."""
        return self.demand / self.capacity


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipPlan:
    """One form on one wall (m, kg, N)."""

    name: str
    part: str
    filling: Filling
    thickness: float
    """Of the wall: the clear width between the panels."""
    lift: float
    grip: float
    clear: float
    """From the fill up to the middle of the upper ties."""
    height: float
    """Of a panel: grip, lift and what stands over it."""
    length: float
    boards: float
    stud: tuple[float, float]
    spacing: float
    studs: int
    """Behind one panel."""
    lifts: int
    places: int
    """Settings of the pair side by side for one lift of all walls of that name."""
    area: float
    """Of the boards of both panels (m2)."""
    mass: float | None
    people: int | None
    """To lift one panel; None where a team of three may not, or the timber is not known."""
    ties: int
    """Of one setting: two at each stud."""
    pressure: float
    """At the foot of a lift, not multiplied (Pa); not a number for rammed earth or without a weight."""
    asked: tuple[Asked, ...]
    best_lift: float
    """Largest lift at which all that is known holds with these boards, studs and ties (m)."""

    @property
    def settings(self) -> int:
        """How often the pair is set in all."""
        return self.lifts * self.places


def missing_for_slip(form: SlipForm, house: House) -> tuple[str, ...]:
    """What the file does not say and a form cannot be drawn without."""
    wall = next(one for one in house.walls if one.name == form.wall)
    return tuple(f"wall.{name}" for name in ("thickness", "bottom") if getattr(wall, name) is None)


def slip_plan(form: SlipForm, house: House) -> SlipPlan:
    """The form on its wall; `missing_for_slip` is empty."""
    wall = next(one for one in house.walls if one.name == form.wall)
    vault = next(one for one in house.vaults if one.name == wall.vault)
    top = vault.springing if wall.top is None else wall.top
    tall = GRIP.value + form.lift + CLEAR.value + 0.5 * form.stud.thickness
    studs = math.ceil((form.length - form.stud.thickness) / form.stud_spacing - 1e-9) + 1
    sides = 2 if wall.side == "both" else 1
    pressure = _pressure(form)
    asked = _rammed(form) if form.filling is Filling.RAMMED else _wet(form, pressure)
    timber = None if form.timber is None else TIMBER_CLASSES[form.timber]
    mass = None if timber is None else _mass(form, tall, studs, timber)
    return SlipPlan(
        name=form.name,
        part=f'wall "{wall.name}" of {vault.name}',
        filling=form.filling,
        thickness=_thick(wall),
        lift=form.lift,
        grip=GRIP.value,
        clear=CLEAR.value,
        height=tall,
        length=form.length,
        boards=form.boards,
        stud=(form.stud.thickness, form.stud.width),
        spacing=(form.length - form.stud.thickness) / (studs - 1),
        studs=studs,
        lifts=max(1, math.ceil((top - (wall.bottom or 0.0)) / form.lift - 1e-9)),
        places=sides * math.ceil(vault.length / form.length - 1e-9),
        area=2.0 * form.length * tall,
        mass=mass,
        people=None if mass is None else lifters_needed(mass, each=LIFT_LIMIT.value),
        ties=2 * studs,
        pressure=pressure,
        asked=asked,
        best_lift=_best_lift(form),
    )


def _thick(wall: Wall) -> float:
    return float("nan") if wall.thickness is None else wall.thickness


def _pressure(form: SlipForm) -> float:
    """What the fill presses with at the foot of a lift (Pa)."""
    if form.filling is Filling.RAMMED or form.unit_weight is None:
        return float("nan")
    return form.unit_weight * form.lift


def _mass(form: SlipForm, tall: float, studs: int, timber: TimberClass) -> float:
    """Of one panel (kg)."""
    boards = form.length * tall * form.boards
    return timber.density * (boards + studs * tall * form.stud.thickness * form.stud.width)


def _wet(form: SlipForm, pressure: float) -> tuple[Asked, ...]:
    """Boards, studs and ties under fresh fill; values that are not known are not numbers."""
    nan = float("nan")
    timber = None if form.timber is None else TIMBER_CLASSES[form.timber]
    strength = nan if timber is None else _strength(timber)
    modulus = nan if timber is None else timber.modulus
    bays = min(MOST_BAYS, math.ceil((form.length - form.stud.thickness) / form.stud_spacing - 1e-9))
    if math.isnan(pressure):
        return tuple(
            Asked(what=what, demand=nan, capacity=nan, unit=unit, working="the fill's weight is not known")
            for what, unit in (
                ("boards bend", "MPa"), ("boards go out", "mm"), ("studs bend", "MPa"), ("ties pull", "kN"),
            )
        )  # fmt: skip
    factor = FORM_FACTOR.value
    strip = plank_demand(pressure, form.stud_spacing, spans=bays)
    board = rectangular_section(1.0, form.boards)
    out = float(strip.deflection_times_stiffness) / (modulus * float(board.inertia))
    stud = rectangular_section(form.stud.thickness, form.stud.width)
    below, above = 0.5 * GRIP.value, CLEAR.value
    post = leaning_post(
        factor * pressure * form.stud_spacing, 0.0, height=form.lift, above=below,
        span=below + form.lift + above,
    )  # fmt: skip
    return (
        Asked(
            what="boards bend", demand=factor * float(strip.moment) / float(board.modulus), capacity=strength,
            unit="MPa", working=f"a strip over {bays} bay{'s' if bays > 1 else ''} under the foot's pressure",
        ),
        Asked(
            what="boards go out", demand=out, capacity=form.stud_spacing / SAG.value,
            unit="mm", working="between studs, pressure not multiplied",
        ),
        Asked(
            what="studs bend", demand=float(post.moment) / float(stud.modulus), capacity=strength,
            unit="MPa", working="held by the ties under and over the lift",
        ),
        Asked(
            what="ties pull", demand=max(float(post.foot), float(post.head)),
            capacity=nan if form.tie_holds is None else form.tie_holds,
            unit="kN", working="the lower tie takes more",
        ),
    )  # fmt: skip


def _strength(timber: TimberClass) -> float:
    """Design strength in bending, wet and for days (Pa)."""
    return float(design_strength(timber.bending, WET_DAYS, gamma=GAMMA_TIMBER.value))


def _rammed(form: SlipForm) -> tuple[Asked, ...]:
    """Studs as near as published practice has them; thinner boards than it names are not known."""
    most = max((apart for least, apart in RAMMED_STUDS if form.boards >= least - 1e-9), default=float("nan"))
    return (
        Asked(
            what="studs stand apart", demand=form.stud_spacing, capacity=most, unit="mm",
            working="boards of 19 mm by studs at 0.75 m, of 30 mm and more at 1.0 m",
        ),
    )  # fmt: skip


def _best_lift(form: SlipForm) -> float:
    """By halving: the tallest lift whose known demands stay within what is there; nan where none is known."""
    if form.filling is Filling.RAMMED or form.unit_weight is None:
        return float("nan")

    def worst(lift: float) -> float:
        shares = [one.share for one in _wet(_lifted(form, lift), (form.unit_weight or 0.0) * lift)]
        return max(shares) if not any(map(math.isnan, shares)) else float("nan")

    if math.isnan(worst(form.lift)):
        return float("nan")
    low, high = 0.0, 3.0
    for _ in range(50):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if worst(middle) <= 1.0 else (low, middle)
    return low


def _lifted(form: SlipForm, lift: float) -> SlipForm:
    return replace(form, lift=lift)
