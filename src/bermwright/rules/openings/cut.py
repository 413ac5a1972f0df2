"""Ribs that are cut for an opening: headers carry what was cut to the trimmers beside the hole."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import share_text
from bermwright.data.timber_classes import GAMMA_CONNECTION, GAMMA_TIMBER, K_CRACK, needs_holes
from bermwright.data.works.frames import TIMOSHENKO1961
from bermwright.data.works.practice import TRADE
from bermwright.form.holes import NEAR, Hole, hole_of, shell_openings
from bermwright.handbook import timber as ec5
from bermwright.rules.analysis.strength import rib_ratios, where_known
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.openings.timbers import Member, member_of, missing, nothing
from bermwright.rules.ribs import common
from bermwright.rules.ribs.buckling import buckling_ratio
from bermwright.rules.ribs.common import ratio_step, step, timber_cite

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.analysis.strength import RibStrength
    from bermwright.rules.ribs.common import Worst
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

BEAM_CITE = Cite(
    work=TIMOSHENKO1961, place="beam with point loads, equilibrium", provenance=Provenance.DERIVED
)
COLLAR = 0.15
"""Least height of a collar over the ground around it (m)."""
COLLAR_CITE = Cite(
    work=TRADE, place="upstands of roof openings: 150 mm and more", provenance=Provenance.PRACTICE
)


def _holes(study: Study) -> Iterator[Hole | Said]:
    """Every opening in the shell of the vault, or what is said of it already."""
    openings = shell_openings(study.house, study.vault.name)
    for opening in openings:
        hole = hole_of(study.form, opening)
        part = f'opening "{opening.name}"'
        if isinstance(hole, str):
            yield missing(part, hole, "Answer the questions about this opening.")
        elif not hole.cut:
            template = "It lies between two ribs and cuts none; short boards between them carry its planks."
            yield Said(part=part, verdict=Verdict.DOES_NOT_APPLY, template=template)
        elif hole.at_an_end:
            yield Said(
                part=part,
                verdict=Verdict.FAILS,
                template="It cuts the last rib: there is no whole rib beside it to carry what is cut.",
                advice="Move it one rib further from the end: along.",
            )
        elif hole.span - hole.opening.doubled * study.form.rib.width < hole.opening.width - NEAR:
            yield Said(
                part=part,
                verdict=Verdict.FAILS,
                template="The ribs beside it leave {room} between them; the hole needs {width}.",
                values={
                    "room": Shown(hole.span - hole.opening.doubled * study.form.rib.width, "m", 2),
                    "width": Shown(hole.opening.width, "m", 2),
                },
                advice="Make the hole narrower, or put fewer ribs side by side: doubled.",
            )
        else:
            yield hole
    if not openings:
        yield nothing("No opening is in the shell.")


def end_forces(analysis: Analysis, study: Study, edge: float) -> tuple[Array, Array]:
    """(L, S) design thrust and shear of a rib where it is cut; the model factor is in the shear."""
    element = int(np.clip(np.searchsorted(study.form.mesh.s, edge) - 1, 0, study.form.mesh.s.size - 2))
    model = np.where(analysis.bends, analysis.model[None, :], 1.0)
    return analysis.response.axial[:, :, element], analysis.response.shear[:, :, element] * model


@dataclass(frozen=True, slots=True, kw_only=True)
class Header:
    """A header of one hole: its timber, and what holds its ends."""

    hole: Hole
    member: Member
    boards: int
    nails: float | None
    """Characteristic resistance of the nails at one end (N); None: a hanger."""
    hanger: float | None
    """Design resistance of the hanger at one end (N)."""
    contact: float
    """Area on which the end of a cut rib presses (m2)."""

    @property
    def lever(self) -> float:
        """Largest bending per force of one cut rib (m): equal forces, a spacing apart."""
        count, apart = len(self.hole.cut), self.hole.spacing
        return apart * ((count + 1) ** 2 if count % 2 else count * (count + 2)) / 8

    def bending(self, axial: Array, shear: Array, kmod: Array) -> Array:
        """Strength used: thrust bends it flatwise, each board alone; shear on edge."""
        on_edge = self.member.width * self.member.depth**2 / 6
        flat = self.member.depth * self.member.width**2 / (6 * self.boards)
        strength = self._strength(self.member.timber.bending, kmod)
        used: Array = ec5.bending_and_compression(
            0.0,
            np.abs(shear) * self.lever / on_edge,
            compression_strength=strength,
            bending_strength=strength,
            flat_bending=np.abs(axial) * self.lever / flat,
        )
        return used

    def shearing(self, axial: Array, shear: Array, kmod: Array) -> Array:
        """Strength used in shear at a trimmer, both directions together."""
        force = 0.5 * len(self.hole.cut) * np.hypot(axial, shear)
        stress = ec5.shear_stress(
            force, self.member.width, depth=self.member.depth, crack_factor=K_CRACK.value
        )
        used: Array = stress / self._strength(self.member.timber.shear, kmod)
        return used

    def pressing(self, axial: Array, _shear: Array, kmod: Array) -> Array:
        """Strength used across the grain of the header where a cut rib presses on it."""
        used: Array = (
            np.abs(axial) / self.contact / self._strength(self.member.timber.compression_across, kmod)
        )
        return used

    def holding(self, axial: Array, shear: Array, kmod: Array) -> Array:
        """Share of the hold of one end."""
        force = 0.5 * len(self.hole.cut) * np.hypot(axial, shear)
        if self.hanger is not None:
            return force / self.hanger
        nails = math.nan if self.nails is None else self.nails
        used: Array = force * GAMMA_CONNECTION.value / (kmod * nails)
        return used

    @staticmethod
    def _strength(characteristic: float, kmod: Array) -> Array:
        return ec5.design_strength(characteristic, kmod, gamma=GAMMA_TIMBER.value)

    @property
    def ways(self) -> tuple[tuple[str, Callable[[Array, Array, Array], Array], str], ...]:
        """Ways of failing: name, function, advice."""
        thicker = (
            "Take a header that is thicker along the rib and deeper, or cut fewer ribs: a smaller width."
        )
        return (
            ("bending of its header", self.bending, thicker),
            ("shear of its header", self.shearing, thicker),
            ("the pressure of the cut ribs on its header", self.pressing, thicker),
            (
                "the hold of its header's ends",
                self.holding,
                "Hold the ends better: more header_nails, or a stronger hanger.",
            ),
        )


def header_of(study: Study, hole: Hole) -> Header | str:
    """The header of a hole; in words what is not known."""
    opening = hole.opening
    member = member_of(
        opening.header_timber,
        study.strength.service_class,
        section=opening.header,
        boards=opening.header_boards,
    )
    if member is None:
        return "of which section and class its header is (header, header_timber)"
    nails = None if opening.header_nails is None else end_nails(study, hole, opening.header_nails)
    if opening.hanger is None and (nails is None or not math.isfinite(nails)):
        return "what holds the ends of its header (header_nails long enough, or hanger)"
    return Header(
        hole=hole,
        member=member,
        boards=opening.header_boards,
        nails=nails,
        hanger=opening.hanger,
        contact=study.form.rib.width * min(study.form.rib.depth, member.depth),
    )


def end_nails(study: Study, hole: Hole, count: int) -> float:
    """Characteristic resistance of nails driven through a trimmer into the end grain's side of a header (N).

    Through the last board of the trimmer into the header along its grain: nails in end grain count a third.
    """
    nail = hole.opening.header_nail or study.vault.nails
    if nail is None:
        return math.nan
    timber, board = study.strength.timber, study.strength.board
    point = nail.length - board
    dense = needs_holes(timber.name) and not study.vault.predrilled
    if dense or point < float(ec5.pointside_penetration(nail.diameter)):
        return math.nan
    crush = float(
        ec5.embedment_strength(timber.density_low, nail.diameter, predrilled=bool(study.vault.predrilled))
    )
    modes = ec5.single_shear(
        nail.diameter,
        head_side=board,
        point_side=point,
        head_embedment=crush,
        point_embedment=crush,
        yield_moment=float(ec5.yield_moment(nail.diameter, wire_strength=study.vault.nail_strength)),
    )
    return count * float(modes.capacity) * END_GRAIN


END_GRAIN = 1.0 / 3.0
"""Share of their capacity that nails in end grain keep: EN 1995-1-1, 8.3.1.2 (4)."""


def _headers(study: Study) -> Iterator[Said]:
    for hole in _holes(study):
        if isinstance(hole, Said):
            yield hole
            continue
        header = header_of(study, hole)
        if isinstance(header, str):
            yield missing(hole.part, header, "Answer the questions about this opening.")
            continue
        yield _worst_way(study, header)


def _worst_way(study: Study, header: Header) -> Said:
    found = []
    for edge in header.hole.edges(study.form):
        for what, way, advice in header.ways:
            worst = common.worst_of(study, _ratios(study, edge, way), every_run=True)
            if worst is not None:
                found.append((worst, what, advice, edge))
    if not found:
        return nothing("It reaches from foot to foot; no header carries anything.")
    worst, what, advice, edge = max(found, key=lambda one: math.inf if one[0].ratio is None else one[0].ratio)
    if worst.ratio is None:
        return replace(common.not_known(worst), part=header.hole.part)
    return _header_said(study, header, worst, (what, advice, edge))


def _ratios(
    study: Study, edge: float, way: Callable[[Array, Array, Array], Array]
) -> Callable[[Analysis, RibStrength], Array]:
    def ratios(analysis: Analysis, strength: RibStrength) -> Array:
        axial, shear = end_forces(analysis, study, edge)
        kmod = np.broadcast_to(strength.kmods(analysis)[None, :], axial.shape)
        return where_known(way, axial, shear, kmod)

    return ratios


def _header_said(study: Study, header: Header, worst: Worst, about: tuple[str, str, float]) -> Said:
    what, advice, edge = about
    axial, shear = (
        float(force[worst.peak.lane, worst.peak.situation])
        for force in end_forces(worst.peak.analysis, study, edge)
    )
    ribs = len(header.hole.cut)
    node = int(np.argmin(np.abs(study.form.mesh.s - edge)))
    said = Said(
        part=header.hole.part,
        verdict=worst.verdict,
        template="{when}: {what} uses {used} its strength, with {ribs} cut.",
        values={"what": what, "ribs": "one rib" if ribs == 1 else f"{ribs} ribs"},
        demand=worst.ratio,
        capacity=1.0,
        advice=advice,
        steps=(
            step("Thrust of one cut rib at the header", "N", "plane frame", "", Shown(axial, "kN", 2)),
            step("Shear of one cut rib there", "V", "plane frame · γ_model", "", Shown(shear, "kN", 2)),
            step(
                f"Header over {header.hole.span:.2f} m: bending per force of a rib", "M/F",
                "s·(n + 1)²/8, even n: s·n·(n + 2)/8", f"s = {header.hole.spacing:.2f} m, n = {ribs}",
                Shown(header.lever, "m", 3), BEAM_CITE,
            ),
            ratio_step(
                what[:1].upper() + what[1:], "σ_m/f_m,d, τ/f_v,d, σ_c,90/f_c,90,d or F/R", "", worst.ratio,
                timber_cite("6.1.6, 6.1.7, 6.1.5 and 8.3"),
            ),
        ),
    )  # fmt: skip
    return common.at_worst(study, worst, node, said)


def trimmer_ratio(share: float) -> Callable[[Analysis, RibStrength], Array]:
    """(L, S) strength used of a trimmer rib: of a rib elsewhere, times its share."""

    def ratios(analysis: Analysis, strength: RibStrength) -> Array:
        whole = np.maximum(rib_ratios(analysis, strength), buckling_ratio(analysis, strength).max(axis=2))
        used: Array = share * whole
        return used

    return ratios


def _trimmers(study: Study) -> Iterator[Said]:
    for hole in _holes(study):
        yield hole if isinstance(hole, Said) else _trimmer_said(study, hole)


def _trimmer_said(study: Study, hole: Hole) -> Said:
    light = _light(study, hole)
    if light is not None:
        return light
    worst = common.worst_of(study, trimmer_ratio(hole.share))
    if worst is None or worst.ratio is None:
        return missing(hole.part, "how the ribs beside it are used", "Mend the ribs first.")
    doubled = hole.opening.doubled
    whole = worst.ratio / hole.share
    said = Said(
        part=hole.part,
        verdict=worst.verdict,
        template="{when}: {ribs} beside it uses {used} its strength.",
        values={"ribs": "the rib" if doubled == 1 else f"each of {doubled} ribs"},
        demand=worst.ratio,
        capacity=1.0,
        advice="Set more ribs side by side (doubled), or cut fewer ribs: a smaller width.",
        steps=tuple(_trimmer_steps(hole, whole)),
    )
    place = common.at_worst(study, worst, study.form.mesh.crown, said)
    return replace(place, place=None, spot=_spot(study, hole))


def _light(study: Study, hole: Hole) -> Said | None:
    """Where they carry no more than a rib elsewhere, what is known of the stages is enough to hold."""
    used = [ratio for ratio in study.stage_ratio.values() if ratio is not None]
    if not all(np.isfinite(one.response.moment[one.bends]).all() for one in study.analyses):
        return None
    if hole.share > 1.0 or len(used) < len(study.stage_ratio) or not used or max(used) * hole.share > 1.0:
        return None
    whole = max(used)
    return Said(
        part=hole.part,
        verdict=verdict_of(hole.share * whole),
        template="Beside it, {ribs} use up to {used} their strength.",
        values={
            "ribs": f"{hole.opening.doubled} ribs on each side",
            "used": share_text(hole.share * whole),
        },
        ratio=hole.share * whole,
        demand=hole.share * whole,
        capacity=1.0,
        advice="Set more ribs side by side (doubled).",
        steps=tuple(_trimmer_steps(hole, whole)),
        spot=_spot(study, hole),
    )


def _trimmer_steps(hole: Hole, whole: float) -> Iterator[Step]:
    yield step(
        "Strength used of a rib elsewhere, at its worst",
        "ratio",
        "bending, shear, nails",
        "",
        Shown(whole, "", 3),
    )
    yield step(
        "Its own load and half of what was cut, shared",
        "share",
        "(1 + n/2)/m",
        f"(1 + {len(hole.cut)}/2) / {hole.opening.doubled}",
        Shown(hole.share, "", 2),
        BEAM_CITE,
    )
    used = hole.share * whole
    yield ratio_step("Strength used", "share · ratio", f"{hole.share:.3f} · {whole:.3f}", used)


def _spot(study: Study, hole: Hole) -> Spot:
    mesh = study.form.mesh
    middle = 0.5 * (hole.low + hole.high)
    return Spot(float(np.interp(middle, mesh.s, mesh.x)), float(np.interp(middle, mesh.s, mesh.z)))


def _collars(study: Study) -> Iterator[Said]:
    openings = shell_openings(study.house, study.vault.name)
    for opening in openings:
        yield _collar(f'opening "{opening.name}"', opening.collar)
    if not openings:
        yield nothing("No opening is in the shell.")


def _collar(part: str, collar: float | None) -> Said:
    if collar is None:
        return missing(part, "how high its collar stands over the ground", "Write collar.")
    good = collar >= COLLAR - 1e-9
    return Said(
        part=part,
        verdict=Verdict.HOLDS if good else Verdict.FAILS,
        template="Its collar stands {collar} over the ground around it; {least} keeps soil and water out.",
        values={"collar": Shown(collar, "m", 2), "least": Shown(COLLAR, "m", 2)},
        demand=COLLAR,
        capacity=collar,
        unit="m",
        advice="" if good else "Make the collar higher; more than the snow that lies there.",
    )


HEADERS_CARRY = Rule(
    name="headers-carry-the-cut-ribs",
    title="Headers carry the ribs that an opening cuts",
    why="Everything that a cut rib carried goes through the header and the few nails at its ends.",
    cites=(timber_cite("6.1.5, 6.1.6 and 6.1.7"), BEAM_CITE),
    decide=_headers,
    asks=("opening", "opening.header", "opening.header_timber", "opening.hanger", "opening.along"),
)
TRIMMERS_CARRY = Rule(
    name="trimmers-carry-for-the-cut-ribs",
    title="The ribs beside an opening carry for those that it cuts",
    why="The two ribs beside a hole carry their own load and all of what was cut.",
    cites=(timber_cite("6.1.6"), BEAM_CITE),
    decide=_trimmers,
    asks=("opening", "opening.along"),
)
COLLARS_STAND_OUT = Rule(
    name="collars-stand-out-of-the-ground",
    title="Collars of openings in the shell stand out of the ground",
    why="Through a low collar soil, water and snow come in, and they rot the header first.",
    cites=(COLLAR_CITE,),
    decide=_collars,
    reads_ribs=False,
    asks=("opening.collar",),
)
