"""One timber beside the ribs: its section, its design strengths, and what uses them most."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.wording import share_text
from bermwright.data.timber_classes import GAMMA_TIMBER, K_CRACK, TIMBER_CLASSES
from bermwright.handbook import carpentry
from bermwright.handbook import timber as ec5
from bermwright.rules.nouns import Said
from bermwright.rules.ribs.common import ratio_step, step, timber_cite

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bermwright.base.findings import Step
    from bermwright.base.sources import Cite
    from bermwright.data.timber_classes import TimberClass
    from bermwright.house import Board


SAME = 1e-9
"""A factor that differs from 1 by less is none (-)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """How much one way of failing uses of a timber, with its working."""

    what: str
    """Bending, shear, bearing …: `bending uses 0.61 of its strength`."""
    ratio: float
    demand: float
    capacity: float
    unit: str
    steps: tuple[Step, ...]
    advice: str = "Take a thicker timber, a shorter span or a better class."
    when: str = ""
    """Load or moment, in words."""
    of: str = "its strength"
    """What is used: its strength, or what is allowed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A sawn or round timber, its class and how damp it is."""

    timber: TimberClass
    service_class: int
    width: float
    """Across the bending (m); the diameter of a log."""
    depth: float
    """In the direction of bending (m); the diameter of a log."""
    log: bool = False

    @property
    def area(self) -> float:
        """m2."""
        return math.pi / 4 * self.depth**2 if self.log else self.width * self.depth

    @property
    def modulus(self) -> float:
        """Section modulus (m3)."""
        if self.log:
            return float(carpentry.round_section(self.depth).modulus)
        return self.width * self.depth**2 / 6

    @property
    def inertia(self) -> float:
        """Second moment of area in the direction of bending (m4)."""
        if self.log:
            return float(carpentry.round_section(self.depth).inertia)
        return self.width * self.depth**3 / 12

    @property
    def says(self) -> str:
        """Its section in words."""
        if self.log:
            return f"log of {self.depth * 1e3:.0f} mm"
        return f"{self.width * 1e3:.0f} x {self.depth * 1e3:.0f} mm"

    def kmod(self, duration: str) -> float:
        """What is left of its strength under a load of that duration."""
        return ec5.modification_factor(self.service_class, duration)

    def design(self, strength: float, duration: str) -> float:
        """Design value of a strength (Pa)."""
        return float(ec5.design_strength(strength, self.kmod(duration), gamma=GAMMA_TIMBER.value))

    def bending_strength(self, duration: str) -> float:
        """Design bending strength with the factor for shallow timbers (Pa); logs have none."""
        shallow = 1.0 if self.log else float(ec5.depth_factor(self.depth))
        return self.design(self.timber.bending * shallow, duration)


def member_of(
    timber: str | None,
    service_class: int | None,
    *,
    section: Board | None = None,
    diameter: float | None = None,
    boards: int = 1,
) -> Member | None:
    """A timber of the file; None while section, class or damp is not known."""
    if timber not in TIMBER_CLASSES or service_class is None or (section is None and diameter is None):
        return None
    found = TIMBER_CLASSES[timber or ""]
    if section is not None:
        return Member(
            timber=found,
            service_class=service_class,
            width=boards * section.thickness,
            depth=section.width,
        )
    assert diameter is not None  # noqa: S101  (one of the two is there)
    return Member(timber=found, service_class=service_class, width=diameter, depth=diameter, log=True)


def bending_use(member: Member, moment: float, duration: str, *, loads: tuple[Step, ...] = ()) -> Use:
    """Bending by a design moment (N m)."""
    strength = member.bending_strength(duration)
    stress = moment / member.modulus
    return Use(
        what="bending",
        ratio=stress / strength,
        demand=moment,
        capacity=strength * member.modulus,
        unit="kNm",
        steps=(
            *loads,
            step(
                "Bending stress",
                "σ_m",
                "M / W",
                f"{moment * 1e3:.0f} / {member.modulus * 1e9:.0f}",
                Shown(stress, "N/mm2", 4),
            ),
            _design_step("bending", "f_m,d", member, strength, member.timber.bending, duration),
            ratio_step(
                "Strength used",
                "σ_m / f_m,d",
                f"{stress / 1e6:.4f} / {strength / 1e6:.3f}",
                stress / strength,
                timber_cite("6.1.6"),
            ),
        ),
    )


def shear_use(member: Member, force: float, duration: str, *, notch: float = 0.0, away: float = 0.0) -> Use:
    """Shear by a design force (N), at an end that may be notched from below."""
    strength = member.design(member.timber.shear, duration)
    left = member.depth - notch
    if notch > 0.0:
        # A notch leaves a log no wider than the flat it is cut down to.
        cut = min(notch, 0.5 * member.depth)
        width = float(carpentry.seat_width(member.depth, cut)) if member.log else member.width
        factor = float(carpentry.notch_factor(member.depth, left, distance=away))
        stress = float(ec5.shear_stress(force, width, depth=left, crack_factor=K_CRACK.value))
        strength *= factor
        return Use(
            what="shear at the notch",
            ratio=stress / strength,
            demand=stress,
            capacity=strength,
            unit="N/mm2",
            advice="Cut a shallower notch, slope it, nearer to the support, or hang the end in a shoe.",
            steps=_notch_steps(member, force, (width, left), stress=stress, factor=factor, strength=strength),
        )
    if member.log:
        stress = float(carpentry.round_shear_stress(force, member.depth, crack_factor=K_CRACK.value))
        formula, filled = "4·V / (3·k_cr·A)", f"4 · {force:.0f} / (3 · 0.67 · {member.area * 1e6:.0f})"
    else:
        stress = float(ec5.shear_stress(force, member.width, depth=member.depth, crack_factor=K_CRACK.value))
        formula, filled = "1.5·V / (k_cr·A)", f"1.5 · {force:.0f} / (0.67 · {member.area * 1e6:.0f})"
    return Use(
        what="shear",
        ratio=stress / strength,
        demand=stress,
        capacity=strength,
        unit="N/mm2",
        steps=(
            step(
                "Shear stress, cracked",
                "τ",
                formula,
                filled,
                Shown(stress, "N/mm2", 4),
                timber_cite("6.1.7, eq. 6.13a"),
            ),
            _design_step("shear", "f_v,d", member, strength, member.timber.shear, duration),
            ratio_step(
                "Strength used", "τ / f_v,d", f"{stress / 1e6:.4f} / {strength / 1e6:.3f}", stress / strength
            ),
        ),
    )


def _notch_steps(
    member: Member, force: float, cut: tuple[float, float], *, stress: float, factor: float, strength: float
) -> tuple[Step, ...]:
    width, left = cut
    return (
        step(
            "Shear stress over the notch, cracked",
            "τ",
            "1.5·V / (k_cr·b·h_ef)",
            f"1.5 · {force:.0f} / (0.67 · {width * 1e3:.0f} · {left * 1e3:.0f})",
            Shown(stress, "N/mm2", 4),
            timber_cite("6.5.2, eq. 6.60"),
        ),
        step(
            f"What a notch to {left * 1e3:.0f} of {member.depth * 1e3:.0f} mm leaves of the shear strength",
            "k_v",
            "eq. 6.62, k_n = 5",
            "",
            Shown(factor, "", 3),
            timber_cite("eq. 6.62"),
        ),
        ratio_step(
            "Strength used",
            "τ / (k_v·f_v,d)",
            f"{stress / 1e6:.4f} / {strength / 1e6:.3f}",
            stress / strength,
        ),
    )


def bearing_use(member: Member, force: float, duration: str, *, length: float, width: float) -> Use:
    """Bearing across the grain of a timber's end on its support (N on m by m)."""
    effective = float(ec5.effective_contact_length(length, left=0.0, right=length))
    strength = member.design(member.timber.compression_across, duration)
    stress = force / (effective * width)
    return Use(
        what="bearing on its support",
        ratio=stress / strength,
        demand=stress,
        capacity=strength,
        unit="N/mm2",
        advice="Let it rest on a longer or wider bearing.",
        steps=(
            step(
                "Pressure across the grain, 30 mm of fibres beside it helping",
                "σ_c,90",
                "F / (b·l_ef)",
                f"{force:.0f} / ({width * 1e3:.0f} · {effective * 1e3:.0f})",
                Shown(stress, "N/mm2", 4),
                timber_cite("6.1.5"),
            ),
            _design_step(
                "across the grain", "f_c,90,d", member, strength, member.timber.compression_across, duration
            ),
            ratio_step(
                "Strength used",
                "σ_c,90 / f_c,90,d",
                f"{stress / 1e6:.4f} / {strength / 1e6:.3f}",
                stress / strength,
            ),
        ),
    )


def _design_step(
    what: str, symbol: str, member: Member, strength: float, characteristic: float, duration: str
) -> Step:
    more = strength / member.design(characteristic, duration)  # shallow timbers are stronger in bending
    helped = abs(more - 1.0) > SAME
    return step(
        f"Design strength, {what}, {member.timber.name}, {duration} load, service class "
        f"{member.service_class}",
        symbol,
        "k_h·k_mod·f_k / γ_M" if helped else "k_mod·f_k / γ_M",
        (f"{more:.3f} · " if helped else "")
        + f"{member.kmod(duration):g} · {characteristic / 1e6:g} / {GAMMA_TIMBER.value:g}",
        Shown(strength, "N/mm2", 3),
        timber_cite("2.4.1"),
    )


def worst_use(uses: Iterable[Use]) -> Use:
    """What uses most; one that came to no number outranks all that hold."""
    return max(uses, key=lambda use: math.inf if math.isnan(use.ratio) else use.ratio)


def said_of_use(
    part: str, use: Use, *, doubt: str = "", needs: str = "", cites: tuple[Cite, ...] = ()
) -> Said:
    """A use as what a rule says; `doubt` is what is not known and would change it, `needs` what to write."""
    verdict = verdict_of(use.ratio)
    when = f"{use.when}: " if use.when else ""
    template = when + "{what} uses {used} {of}."
    advice = "" if verdict is Verdict.HOLDS else use.advice
    if doubt and verdict in {Verdict.HOLDS, Verdict.TIGHT}:
        verdict, template, advice = Verdict.UNKNOWN, template + " But {doubt}.", needs
    elif verdict is Verdict.UNKNOWN:
        template, advice = when + "{what} is not known.", needs or "Answer the questions about this part."
    return Said(
        part=part,
        verdict=verdict,
        template=_capital(template, use.what),
        values={"what": use.what, "used": share_text(use.ratio), "of": use.of, "doubt": doubt},
        demand=use.demand if math.isfinite(use.demand) else None,
        capacity=use.capacity if math.isfinite(use.capacity) else None,
        unit=use.unit,
        ratio=use.ratio if math.isfinite(use.ratio) else None,
        advice=advice,
        steps=use.steps,
        cites=cites,
    )


def _capital(template: str, what: str) -> str:
    """A sentence begins with a capital letter also where it begins with what is used."""
    return (
        template.replace("{what}", what[:1].upper() + what[1:], 1)
        if template.startswith("{what}")
        else template
    )


def missing(part: str, what: str, write: str) -> Said:
    """Said of a part of which something is not known that everything needs."""
    return Said(
        part=part,
        verdict=Verdict.UNKNOWN,
        template="It is not known {what}.",
        values={"what": what},
        advice=write,
    )


def nothing(template: str) -> Said:
    """Said where there is nothing of the kind."""
    return Said(verdict=Verdict.DOES_NOT_APPLY, template=template)
