"""A vault made by hand: a half ellipse under a mound, so that pages and templates need no other layer."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from bermwright.base.findings import Finding, Question, Shown, Step, Verdict
from bermwright.base.ranges import Range
from bermwright.base.sources import Cite, Provenance, Work
from bermwright.base.units import Money
from bermwright.book.pages import (
    BookInputs,
    Checked,
    StopLine,
    Value,
    VaultPages,
)
from bermwright.book.templates import Nailing
from bermwright.form.shapes import (
    CoverBand,
    CurveLine,
    FrameMesh,
    GroundForm,
    Line,
    RibForm,
    RibPiece,
    VaultForm,
)
from bermwright.stages.nouns import Case, Compaction, Duration, Stage, StageKind
from bermwright.takeoff import CostRow, Group, LiftRow, Quantities
from bermwright.takeoff import Quantity as TakenOff

SPAN, RISE, SPRINGING, DEPTH, BOARD = 4.8, 2.2, 0.9, 0.17, 0.25


def curve(x, z):
    s = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(x), np.diff(z)))])
    return CurveLine(x=x, z=z, s=s, angle=np.arctan2(np.gradient(z), np.gradient(x)))


def offset(line, by):
    return curve(line.x - by * np.sin(line.angle), line.z + by * np.cos(line.angle))


def half_ellipse():
    t = np.linspace(np.pi, 0.0, 641)
    return curve(0.5 * SPAN * np.cos(t), SPRINGING + RISE * np.sin(t))


def piece(name, layer, centreline, start, end):
    s = np.linspace(start, end, 33)
    x, z, angle = centreline.at(s)
    inner = np.column_stack([x + DEPTH / 2 * np.sin(angle), z - DEPTH / 2 * np.cos(angle)])
    outer = np.column_stack([x - DEPTH / 2 * np.sin(angle), z + DEPTH / 2 * np.cos(angle)])
    outline = tuple(map(tuple, np.concatenate([inner, outer[::-1]]).tolist()))
    chord = np.arctan2(z[-1] - z[0], x[-1] - x[0])
    length = float(np.hypot(x[-1] - x[0], z[-1] - z[0]))
    return RibPiece(
        name=name,
        layer=layer,
        start=float(start),
        end=float(end),
        outline=outline,
        blank_width=BOARD,
        blank_length=length + 0.08,
        end_bevels=(float(abs(angle[0] - chord)), float(abs(angle[-1] - chord))),
        sagitta=0.03,
    )


def pieces_of(centreline, layer, cuts):
    half = len(cuts) // 2
    for i, (start, end) in enumerate(pairwise(cuts)):
        middle = 2 * i + 1 == len(cuts) - 1
        side = f"{layer}C" if middle else f"{layer}L{i + 1}" if i < half else f"{layer}R{len(cuts) - 1 - i}"
        yield piece(side, layer, centreline, start, end)


def rib_by_hand():
    centreline = half_ellipse()
    even = np.linspace(0.0, centreline.length, 7)
    odd = np.concatenate([[0.0], 0.5 * (even[:-1] + even[1:]), [centreline.length]])
    pieces = [
        p for layer, cuts in ((1, even), (2, odd), (3, even)) for p in pieces_of(centreline, layer, cuts)
    ]
    joints = np.array(sorted([*even[1:-1], *odd[1:-1]]))
    layers = tuple(1 if any(abs(s - e) < 1e-9 for e in even) else 2 for s in joints)
    return RibForm(
        depth=DEPTH,
        width=0.084,
        layers=3,
        centreline=centreline,
        inside=offset(centreline, -DEPTH / 2),
        outside=offset(centreline, DEPTH / 2),
        pieces=tuple(pieces),
        joints=joints,
        joint_layers=layers,
    )


def mesh_by_hand(centreline, soil):
    pick = np.linspace(0, 640, 9).astype(int)
    zero = np.zeros(9)
    return FrameMesh(
        s=centreline.s[pick],
        x=centreline.x[pick],
        z=centreline.z[pick],
        soil_x=soil.x[pick],
        soil_z=soil.z[pick],
        plan=np.full(9, 0.5),
        rise=zero,
        arc=np.full(9, 0.7),
        joint_nodes=(),
        crown=4,
    )


def form_by_hand():
    rib = rib_by_hand()
    lagging, insulation = offset(rib.outside, 0.05), offset(rib.outside, 0.2)
    ends = np.array([-7.0, -0.5, 0.5, 7.0])
    ground = GroundForm(
        natural=Line(x=np.array([-9.0, 9.0]), z=np.array([0.45, 0.45])),
        finished=Line(x=ends, z=np.array([0.45, 3.75, 3.75, 0.45])),
        turf=0.15,
        water_low=None,
        water_high=None,
    )
    bands = (
        CoverBand(
            name="planks",
            kind="lagging",
            thickness=0.05,
            unit_weight=4500.0,
            inner=rib.outside,
            outer=lagging,
        ),
        CoverBand(
            name="wool",
            kind="insulation",
            thickness=0.15,
            unit_weight=1000.0,
            inner=lagging,
            outer=insulation,
        ),
    )
    return VaultForm(
        name="day room",
        span=SPAN,
        rise=RISE,
        springing=SPRINGING,
        length=7.5,
        spacing=0.6,
        ribs=13,
        rib=rib,
        bands=bands,
        soil_face=insulation,
        ground=ground,
        mesh=mesh_by_hand(rib.centreline, insulation),
        crown_level=float(insulation.z.max()),
        undercut=0.0,
    )


@pytest.fixture(scope="session")
def form():
    return form_by_hand()


def stage_by_hand(
    form, kind, name, title, *, level=None, do=("Do it by hand.",), cautions=("Nobody inside.",)
):
    first = Case(
        name="permanent",
        title="Permanent only",
        duration=Duration.MEDIUM,
        actions=(),
        left=level,
        right=level,
        depth=np.zeros(form.mesh.x.size),
    )
    return Stage(
        name=name,
        kind=kind,
        title=title,
        do=do,
        cautions=cautions,
        level=level,
        compaction=Compaction.HAND,
        braced=False,
        long_term=False,
        cases=(first,),
    )


FILL_DO = (
    "One side is never more than 0.20 m ahead of the other, and never past its stop mark.",
    "Tamp by hand, and keep the rammer 0.6 m off the ribs.",
    "Break frozen lumps out; never bury them.",
    "Read the plumb line from the crown after each lift and write it down.",
)
FILL_CAUTIONS = (
    "Never stand between the shell and a bank that can slide. Banks collapse without warning.",
    "Nobody is inside while soil is placed.",
    "Local rules and the person who signs for the work come before this page.",
)
LEVELS = (0.85, 1.05, 1.25, 1.45, 1.65, 1.85, 2.05, 2.25, 2.45, 2.65, 2.85, 3.05, 3.25)


def stages_by_hand(form):
    yield stage_by_hand(form, StageKind.RIBS, "ribs up", "Raise and brace the ribs")
    yield stage_by_hand(form, StageKind.LAGGED, "lagged", "Nail on the lagging")
    yield stage_by_hand(form, StageKind.WRAPPED, "wrapped", "Lay membrane and insulation")
    for level in LEVELS:
        do = (
            f"Bring both sides to +{level:.2f} in layers of at most 0.20 m, left and right in turn.",
            *FILL_DO,
        )
        name, title = f"fill to +{level:.2f}", f"Fill to +{level:.2f}, both sides"
        yield stage_by_hand(form, StageKind.FILL, name, title, level=level, do=do, cautions=FILL_CAUTIONS)
    top = float(form.ground.finished.z.max())
    yield stage_by_hand(form, StageKind.COVER, "crown cover", "Cover the crown", level=top)
    yield stage_by_hand(form, StageKind.TURF, "turf", "Lay the turf", level=top)
    yield stage_by_hand(form, StageKind.SETTLED, "settled", "The house in use", level=top)
    yield stage_by_hand(form, StageKind.LONG_TERM, "long term", "The house after decades", level=top)


EN1995 = Work(
    key="EN1995",
    authors="CEN",
    title="EN 1995-1-1, Design of timber structures",
    year=2004,
    edition="with A2:2014",
)


def finding_by_hand(verdict, ratio, *, stage="fill to +2.45", rule="rib-bends"):
    cite = Cite(work=EN1995, place="6.2.4 (6.19)", provenance=Provenance.MEMORY)
    section = Step(
        says="One of three layers is cut at a joint: two thirds remain",
        symbol="W",
        formula="⅔ · b · h² / 6",
        filled="⅔ · 84 · 170² / 6",
        result=Shown(269.7e-6, "cm3", 0),
    )
    moment = Step(
        says="Bending in one rib, by frame, feet pinned",
        symbol="M",
        formula="",
        filled="",
        result=Shown(1500.0, "kNm", 2),
        cite=cite,
    )
    return Finding(
        rule=rule,
        title="The ribs bend",
        part='vault "day room"',
        verdict=verdict,
        template="With the fill at {level} the ribs bend with {moment} at the left haunch.",
        values={"level": Shown(2.45, "level", 2), "moment": Shown(1500.0, "kNm", 2)},
        stage=stage,
        case="left ahead",
        place="left haunch",
        demand=1500.0,
        capacity=1720.0,
        unit="kNm",
        ratio=ratio,
        corner={"soil run": "low", "unit weight": Shown(20000.0, "kN/m3", 1)},
        advice="Lay 0.24 m of crown soil before the fill goes on above +2.20.",
        steps=(moment, section),
        cites=(cite,),
    )


def vault_by_hand(form):
    stages = tuple(stages_by_hand(form))
    fills = [stage for stage in stages if stage.kind is StageKind.FILL]
    leads = [max(0.6 - 0.05 * i, 0.0) for i in range(len(fills))]
    stops = tuple(
        StopLine(
            level=stage.level,
            lead=round(lead, 2),
            governs="low run, unit weight 20 kN/m³",
            remedy="Do not fill above +3.25 without 0.24 m of soil on the crown." if lead < 0.05 else "",
        )
        for stage, lead in zip(fills, leads, strict=True)
    )
    lifts = tuple(
        LiftRow(
            below=stage.level - 0.2,
            above=stage.level,
            left=4.7,
            right=4.7,
            left_loose=Range(5.4, 5.9),
            right_loose=Range(5.4, 5.9),
            left_loads=Range(90.0, 99.0),
            right_loads=Range(90.0, 99.0),
        )
        for stage in fills
    )
    ratios = {stage.name: 0.4 for stage in stages} | {"fill to +2.45": 0.87}
    return VaultPages(
        name="day room",
        form=form,
        curve="ellipse",
        stages=stages,
        stage_ratio=ratios,
        stops=stops,
        lifts=lifts,
        basis="Ribs 3 × 28 × 170 C18 at 0.60 m, feet pinned, fill 19.0 to 20.0 kN/m³, EN 1990.",
        axis=1.3,
        nailing=Nailing(
            diameter=0.0034,
            length=0.09,
            count=8,
            rows=3,
            along=0.034,
            across=0.017,
            edge=0.024,
            end=0.051,
            spacing=0.1,
        ),
        foot_forces=("Each foot gives its wall 20.1 to 24.3 kN/m down and 1.2 outward to 4.8 kN/m inward.",),
    )


def book_by_hand(form):
    findings = (
        finding_by_hand(Verdict.TIGHT, 0.87),
        finding_by_hand(Verdict.HOLDS, 0.4, stage="lagged"),
        finding_by_hand(Verdict.HOLDS, 0.31, stage="long term", rule="rib-shear"),
    )
    question = Question(
        place="site.water_depth",
        asks="How deep is the ground water?",
        why="It decides whether a drain is enough.",
        cheapest_way="Dig a test pit in spring and look again after a week.",
        blocks=("blocked-drain",),
    )
    return BookInputs(
        house="Larch Bank",
        revision="14",
        date="2026-11-24",
        note="Invented example: this house does not exist.",
        values=tuple(
            Value(what=what, value=value, known=known)
            for what, value, known in (
                ("Fill, unit weight", "19.0 to 20.0 kN/m³", "the house file: trial pit 2, own bucket test"),
                ("Snow on the ground", "2.5 kN/m²", "the house file"),
                ("Rule set", "EN 1990, DA2", "assumed: the usual one"),
            )
        ),
        checked=(
            Checked(
                title="The ribs bend", why="Soil on one side bends a rib before the other side holds it."
            ),
            Checked(title="Shear in the ribs", why="Nails and wood slip before they break."),
        ),
        findings=findings,
        questions=(question,),
        not_checked=("wind on bare ribs", "earthquake", "the walls"),
        vaults=(vault_by_hand(form),),
        quantities=(quantities_by_hand(),),
    )


def quantities_by_hand():
    step = Step(
        says="All fill, compacted",
        symbol="V",
        formula="A·L",
        filled="15.0·7.5",
        result=Shown(112.4, "m3", 1),
        cite=Cite(work=EN1995, place="none", provenance=Provenance.MEMORY),
    )
    fill = TakenOff(
        name="fill, compacted",
        group=Group.EARTH,
        low=110.0,
        high=112.4,
        unit="m3",
        digits=1,
        working=(step,),
        note="above the natural ground only",
    )
    turf = TakenOff(
        name="turf", group=Group.EARTH, low=math.nan, high=math.nan, unit="m2", digits=0, working=()
    )
    cost = CostRow(name="fill", low=Money(900.0, "EUR"), high=Money(1000.0, "EUR"), working=step)
    return Quantities(
        vault="day room",
        rows=(fill, turf),
        pieces=(),
        lifts=(),
        costs=(cost,),
        totals=((Money(900.0, "EUR"), Money(1000.0, "EUR")),),
        not_priced=("turf",),
        not_timed=("raising ribs",),
        remarks=("Net of openings.",),
    )


@pytest.fixture(scope="session")
def book(form):
    return book_by_hand(form)
