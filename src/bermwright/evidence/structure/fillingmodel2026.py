"""Soil on a rib vault while it is filled: the bermwright developers' own calculation, not published.

Three kinds of values. *Sliders* are one-element frames so simple that the soil law can be solved by hand.
The *three-hinged arches* under a finished mound were found twice, by statics and by a frame written apart
from this program. The *vault of 4.8 m* was filled lift by lift in that second frame; what the continuum
model gave for it is tested in tests/published, since no frame agrees with it to three digits.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.frames import FILLINGMODEL2026
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.curves import catenary, ellipse, segment
from bermwright.handbook.frames import GROUND, Frame, Member, Response, Soil, States, Works, solve

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from bermwright.handbook.curves import PlaneCurve

    Array = NDArray[np.float64]

_LAW = Cite(work=FILLINGMODEL2026, place="the soil law, one place", provenance=Provenance.DERIVED)
_MOUND = Cite(
    work=FILLINGMODEL2026, place="three-hinged arches under a finished mound", provenance=Provenance.DERIVED
)
_VAULT = Cite(
    work=FILLINGMODEL2026, place="vault of 4.8 m by 2.2 m, frame columns", provenance=Provenance.DERIVED
)
_DENSE = Cite(work=FILLINGMODEL2026, place="uneven arch, every part at once", provenance=Provenance.DERIVED)

INFINITE = float("inf")
FREE = (0.0, 0.0, 0.0)


# ---------------------------------------------------------------- sliders
def _slider(
    *, feet: tuple[tuple[float, ...], ...], where: int = 0, joint: float = INFINITE, **face: float
) -> Frame:
    """Bars of 1 m along x with soil on one node, whose areas and arms are given."""
    nodes = 2 if where == 0 else 3

    def at(name: str) -> Array:
        return np.where(np.arange(nodes) == where, face.get(name, 0.0), 0.0)

    whole = np.full(nodes, INFINITE)
    whole[where] = joint
    return Frame(
        x=np.arange(nodes, dtype=float),
        z=np.zeros(nodes),
        axial=np.full(nodes - 1, 1e13),
        bending=np.full(nodes - 1, 1e13),
        joint=whole,
        feet=np.array(feet),
        plan=at("plan"),
        rise=at("rise"),
        lever_x=at("lever_x"),
        lever_z=at("lever_z"),
        cushion=at("cushion"),
    )


SLIDES = ((2e6, INFINITE, INFINITE), FREE)
TURNS = ((INFINITE, INFINITE, 5e4), FREE)
HELD = ((INFINITE, INFINITE, INFINITE), FREE)
BASIC: dict[str, Any] = {
    "ratio": 0.5,
    "weight": 20e3,
    "spring": 0.25,
    "modulus": 10e6,
    "active": 0.3,
    "passive": 1.6,
}


def _pressure(found: Response) -> float:
    return float(found.pressure[0, -1, 0])


def _slide(found: Response) -> float:
    return float(found.displacement[0, -1, 0, 0])


def _stiff(found: Response) -> float:
    return float(found.spring[0, -1, 0])


def _law(
    name: str,
    expected: str,
    note: str,
    *,
    frame: Frame,
    unit: str = "Pa",
    pick: Callable[[Response], float] = _pressure,
    soil: dict[str, Any] | None = None,
    **states: Any,
) -> Row:
    return Row(
        id=f"FILLINGMODEL2026-law-{name}",
        cite=_LAW,
        kind=Kind.DERIVED,
        call=solve,
        inputs={
            "frame": frame,
            "soil": Soil.lanes(**{**BASIC, **(soil or {})}),
            "states": States.build(frame.x.size, **states),
            "second_order": False,
        },
        expected=expected,
        unit=unit,
        pick=pick,
        note=note,
    )


_LEFT = _slider(feet=SLIDES, rise=2.0)
_RIGHT = _slider(feet=SLIDES, rise=-2.0)
_SPRING = "k = 0.25 Es sqrt(max(sv 2/3, 5 kPa)/50 kPa)"

SLIDERS = (
    _law(
        "elastic",
        "11937.1",
        f"u = (X + A K sv)/(kx + A k), p = K sv - k u; {_SPRING} = 1581.139 kPa/m at sv 30 kPa",
        frame=_LEFT,
        depth=1.5,
        across=[-20e3, 0.0],
    ),
    _law(
        "stiffness",
        "1581139",
        _SPRING,
        frame=_LEFT,
        unit="",
        pick=_stiff,
        depth=1.5,
        across=[-20e3, 0.0],
    ),
    _law(
        "least-stress",
        "1558.48",
        f"{_SPRING}; 790.569 kPa/m at the least stress",
        frame=_LEFT,
        depth=0.2,
        across=[-2e3, 0.0],
    ),
    _law(
        "active",
        "19.000",
        "u = (X + A Ka sv)/kx",
        frame=_LEFT,
        unit="mm",
        pick=_slide,
        depth=1.5,
        across=[20e3, 0.0],
    ),
    _law(
        "passive",
        "-32.000",
        "u = (X + A Kp sv)/kx with Kp 0.6",
        frame=_LEFT,
        unit="mm",
        pick=_slide,
        soil={"passive": 0.6},
        depth=1.5,
        across=[-100e3, 0.0],
    ),
    _law("right-hand-face", "11937.1", "mirror image", frame=_RIGHT, depth=1.5, across=[20e3, 0.0]),
    _law(
        "behind-insulation",
        "13100.6",
        "k in series with 1e-6 m/Pa: k/(1 + k c)",
        frame=_slider(feet=SLIDES, rise=2.0, cushion=1e-6),
        depth=1.5,
        across=[-20e3, 0.0],
    ),
    _law(
        "counts-from-the-lift",
        "12549.7",
        "the spring counts from the 4 mm that were there before the soil, two states on: "
        "u (kx + A k) = X + A (K sv + k u0)",
        frame=_LEFT,
        parent=[-1, 0, 1],
        depth=np.array([[0.0], [1.5], [1.5]]) * np.array([1.0, 0.0]),
        across=np.array([[-8e3], [-20e3], [-30e3]]) * np.array([1.0, 0.0]),
    ),
    _law(
        "surcharge-and-water",
        "12000",
        "K (gamma d + q - w) = 0.5 (30 + 4 - 10) kPa",
        frame=_slider(feet=HELD, rise=2.0),
        depth=1.5,
        surcharge=4e3,
        pore=10e3,
    ),
    _law(
        "weight-on-the-foot",
        "50400",
        "0.7 (30 + 4 - 10) kPa on 3 m2",
        frame=_slider(feet=HELD, plan=3.0),
        unit="N",
        pick=lambda found: float(found.feet[0, 0, 0, 1]),
        soil={"vertical": 0.7, "underside": 0.3},
        depth=1.5,
        surcharge=4e3,
        pore=10e3,
    ),
    _law(
        "lift-under-an-undercut",
        "-21600",
        "0.3 (30 + 4 - 10) kPa under 3 m2",
        frame=_slider(feet=HELD, plan=-3.0),
        unit="N",
        pick=lambda found: float(found.feet[0, 0, 0, 1]),
        soil={"vertical": 0.7, "underside": 0.3},
        depth=1.5,
        surcharge=4e3,
        pore=10e3,
    ),
    _law(
        "arm-of-the-soil-face",
        "-9840",
        "-0.1 · 50400 - 0.2 · 2 · 12000, counter-clockwise on the foot",
        frame=_slider(feet=HELD, plan=3.0, rise=2.0, lever_x=0.1, lever_z=0.2),
        unit="N m",
        pick=lambda found: float(found.feet[0, 0, 0, 2]),
        soil={"vertical": 0.7},
        depth=1.5,
        surcharge=4e3,
        pore=10e3,
    ),
    _law(
        "turning-foot",
        "12178.5",
        "t = (m - c A K sv)/(kt + A k c2), p = K sv + k c t, arm c 0.5 m",
        frame=_slider(feet=TURNS, rise=2.0, lever_z=0.5),
        depth=1.5,
        moment=[12e3, 0.0],
    ),
    _law(
        "turning-joint",
        "22182.9",
        "half of the arm's turn and of the moment lie behind the joint: "
        "t = (m - c A K sv)/2 / (kj + A k c2/4), p = K sv + k c t/2",
        pick=lambda found: float(found.pressure[0, -1, 1]),
        frame=_slider(feet=HELD, where=1, joint=5e4, rise=2.0, lever_z=0.5),
        depth=1.5,
        moment=[0.0, 24e3, 0.0],
    ),
)


# ---------------------------------------------------------------- everything at once
def _uneven_arch() -> tuple[Frame, States]:
    """Ten pieces, soft joints and a hinge, a foot on springs, a soil face outside, props and ties."""
    turn = np.linspace(2.8, 0.4, 11)
    x, z = 2.2 * np.cos(turn), 2.0 * np.sin(turn) + 0.1 * np.cos(3.0 * turn)
    joint = np.full(11, INFINITE)
    joint[[0, 1, 3, 6, 9]] = [9e4, 5e4, 3e4, 0.0, 2e4]
    plain = Frame.bare(
        x,
        z,
        axial=np.linspace(0.8e8, 1.2e8, 10),
        bending=np.linspace(5e4, 7e4, 10),
        feet=((3e6, 8e6, 4e5), (INFINITE, INFINITE, INFINITE)),
        joint=joint,
        width=0.6,
    )
    frame = replace(plain, lever_x=0.15 * np.cos(turn), lever_z=0.15 * np.sin(turn))
    low = np.maximum(np.where(x < 0.0, 1.5, 1.0) - z, 0.0)
    high = np.maximum(2.6 - 0.3 * np.abs(x) - z, 0.0)
    states = States.build(
        11,
        parent=[-1, 0, 1],
        depth=np.array([0.0 * low, low, high]),
        surcharge=np.array([[0.0], [0.0], [2e3]]) * (x < 0.5),
        down=150.0,
        across=60.0 * np.sin(turn),
        moment=30.0 * np.cos(turn),
        stiffness=[1.0, 0.9, 0.7],
        joint_stiffness=[1.0, 0.8, 0.5],
        members=(
            Member(start=5, end=GROUND, stiffness=2e6, works=Works.COMPRESSION, towards=(0.3, -0.8)),
            Member(start=2, end=8, stiffness=3e6, works=Works.BOTH),
            Member(start=1, end=7, stiffness=2e6, works=Works.TENSION),
        ),
        member_on=[[True, False, True], [True, True, True], [True, True, True]],
    )
    return frame, states


def _all_at_once(name: str, expected: str, unit: str, pick: Callable[[Response], float]) -> Row:
    frame, states = _uneven_arch()
    return Row(
        id=f"FILLINGMODEL2026-uneven-arch-{name}",
        cite=_DENSE,
        kind=Kind.INDEPENDENT,
        call=solve,
        inputs={
            "frame": frame,
            "soil": Soil.lanes(**{**BASIC, "modulus": 4e6, "passive": 0.9, "vertical": 0.9}),
            "states": states,
        },
        expected=expected,
        unit=unit,
        rel=1e-6,
        pick=pick,
        note="one dense system in all movements with every rotation written out, its root by scipy: "
        "tests/unit/handbook/frames/conftest.py",
    )


def _moved(node: int, way: int) -> Callable[[Response], float]:
    return lambda found: float(found.displacement[0, 2, node, way])


def _on_foot(side: int, way: int) -> Callable[[Response], float]:
    return lambda found: float(found.feet[0, 2, side, way])


def _in_member(member: int) -> Callable[[Response], float]:
    return lambda found: float(found.member[0, 2, member])


UNEVEN = (
    _all_at_once("second-node-across", "-16.10397", "mm", _moved(2, 0)),
    _all_at_once("fourth-node-up", "15.26005", "mm", _moved(4, 1)),
    _all_at_once("turn-behind-the-joint", "-0.02306633", "", _moved(3, 2)),
    _all_at_once("turn-behind-the-hinge", "0.03400094", "", _moved(6, 2)),
    _all_at_once("turn-of-the-foot", "-0.003416872", "", _moved(0, 2)),
    _all_at_once("left-foot-outwards", "514.6170", "N", _on_foot(0, 0)),
    _all_at_once("left-foot-down", "12613.44", "N", _on_foot(0, 1)),
    _all_at_once("left-foot-bending", "-138.2106", "N m", _on_foot(0, 2)),
    _all_at_once("right-foot-outwards", "3507.208", "N", _on_foot(1, 0)),
    _all_at_once("right-foot-down", "13090.93", "N", _on_foot(1, 1)),
    _all_at_once("right-foot-bending", "-1520.453", "N m", _on_foot(1, 2)),
    _all_at_once("prop", "-8406.437", "N", _in_member(0)),
    _all_at_once("strut-put-in-late", "1777.913", "N", _in_member(1)),
    _all_at_once("largest-axial", "12135.40", "N", lambda found: float(found.largest_axial[0, 2])),
)


# ---------------------------------------------------------------- vaults
def staged_vault(
    curve: PlaneCurve,
    *,
    base: float = 0.0,
    section: tuple[float, float] = (374.4e6, 738e3),
    hinge: bool = False,
    elements: int = 120,
) -> Frame:
    """A metre of vault along a curve that springs from the level `base`; EA and EI per metre."""
    even = np.linspace(0.0, curve.length, elements + 1)
    s = curve.s - curve.s[0]
    joint = np.where(hinge & (np.arange(elements + 1) == elements // 2), 0.0, INFINITE)
    return Frame.bare(
        np.interp(even, s, curve.x),
        base + np.interp(even, s, curve.z),
        axial=section[0],
        bending=section[1],
        joint=joint,
        width=1.0,
    )


def filled(
    frame: Frame, ground: Array, levels: tuple[float, ...], *, weight: float, right: float = 0.0
) -> States:
    """Bare, then filled to each level in turn; the right side may stay behind by `right` metres."""
    arc = np.hypot(np.diff(frame.x), np.diff(frame.z))
    down = 0.5 * weight * (np.append(arc, 0.0) + np.append(0.0, arc))
    behind = np.where(frame.x > 0.0, right, 0.0)
    depths = [np.maximum(np.minimum(ground, level - behind) - frame.z, 0.0) for level in levels]
    return States.build(
        frame.x.size,
        parent=range(-1, len(levels)),
        down=down,
        depth=np.array([np.zeros(frame.x.size), *depths]),
    )


def _largest(found: Response) -> float:
    return float(np.max(found.largest_bending))


def _finished(found: Response) -> float:
    return float(found.largest_bending[0, -1])


def _mound(name: str, curve: PlaneCurve, expected: str, *, hinge: bool = True) -> Row:
    frame = staged_vault(curve, hinge=hinge)
    top = frame.z.max() + 0.3
    ground = top - 0.5 * np.maximum(np.abs(frame.x) - 0.5, 0.0)
    return Row(
        id=f"FILLINGMODEL2026-mound-{name}{'' if hinge else '-continuous'}",
        cite=_MOUND,
        kind=Kind.INDEPENDENT,
        call=solve,
        inputs={
            "frame": frame,
            "soil": Soil.lanes(ratio=0.5, weight=18e3),
            "states": filled(frame, ground, (top,), weight=600.0),
            "second_order": False,
        },
        expected=expected,
        unit="kN m",
        rel=0.005 if hinge else 0.02,
        pick=_finished,
        note="per metre; span 5 m, 0.3 m of soil over a flat 1 m wide, then 1:2; K 0.5, 18 kN/m3; both are "
        "chains of straight pieces, 120 here",
    )


VAULT_LEVELS = (1.2, 1.5, 1.8, 2.1, 2.4, 2.7, 3.0, 3.3, 3.45)
VAULT_SECTION = (374.4e6, 1186e3)
ACTIVE, PASSIVE = 0.307, 3.255 / 2.0


def _vault(name: str, curve: PlaneCurve, ratio: float, spring: float, values: tuple[str, str]) -> list[Row]:
    frame = staged_vault(curve, base=0.9, section=VAULT_SECTION, elements=80)
    states = filled(frame, 3.45 - 0.4 * np.abs(frame.x), VAULT_LEVELS, weight=300.0)
    soil = Soil.lanes(ratio=ratio, spring=spring, weight=19e3, modulus=15e6, active=ACTIVE, passive=PASSIVE)
    return [
        Row(
            id=f"FILLINGMODEL2026-vault-{name}-K{ratio:g}-{what}",
            cite=_VAULT,
            kind=Kind.INDEPENDENT,
            call=solve,
            inputs={"frame": frame, "soil": soil, "states": states, "second_order": False},
            expected=expected,
            unit="kN m",
            rel=(0.01 if what == "largest" else 0.04 / float(expected)),
            pick=pick,
            note="per metre, largest over all lifts (1 %) or finished (0.04 kN m); the other frame's pieces "
            "are not those of this one, and its values are rounded",
        )
        for what, pick, expected in zip(("largest", "finished"), (_largest, _finished), values, strict=True)
    ]


ROWS = (
    *SLIDERS,
    *UNEVEN,
    _mound("catenary-4", catenary(5.0, 4.0), "32.12"),
    _mound("ellipse-4", ellipse(5.0, 4.0), "23.19"),
    _mound("ellipse-3.54", ellipse(5.0, 3.54), "13.98"),
    _mound("ellipse-3", ellipse(5.0, 3.0), "6.16"),
    _mound("catenary-2.5", catenary(5.0, 2.5), "7.69"),
    _mound("catenary-2", catenary(5.0, 2.0), "3.75"),
    _mound("catenary-1.5", catenary(5.0, 1.5), "1.18"),
    _mound("catenary-4", catenary(5.0, 4.0), "23.7", hinge=False),
    _mound("ellipse-3", ellipse(5.0, 3.0), "5.0", hinge=False),
    *_vault("segment", segment(4.8, 2.2), 0.307, 0.0, ("2.20", "0.39")),
    *_vault("segment", segment(4.8, 2.2), 0.47, 0.25, ("2.65", "1.25")),
    *_vault("segment", segment(4.8, 2.2), 0.55, 0.0, ("3.68", "1.95")),
    *_vault("catenary", catenary(4.8, 2.2), 0.307, 0.0, ("3.97", "3.16")),
    *_vault("catenary", catenary(4.8, 2.2), 0.47, 0.25, ("4.19", "3.57")),
    *_vault("catenary", catenary(4.8, 2.2), 0.55, 0.0, ("5.62", "4.84")),
)
