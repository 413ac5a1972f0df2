"""A vault made by hand: a half ellipse under a mound, so that pages and templates need no other layer."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.form.shapes import CoverBand, CurveLine, FrameMesh, GroundForm, Line, RibForm, RibPiece, VaultForm

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
    for i, (start, end) in enumerate(zip(cuts[:-1], cuts[1:], strict=True)):
        middle = 2 * i + 1 == len(cuts) - 1
        side = f"{layer}C" if middle else f"{layer}L{i + 1}" if i < half else f"{layer}R{len(cuts) - 1 - i}"
        yield piece(side, layer, centreline, start, end)


def rib_by_hand():
    centreline = half_ellipse()
    even = np.linspace(0.0, centreline.length, 7)
    odd = np.concatenate([[0.0], 0.5 * (even[:-1] + even[1:]), [centreline.length]])
    pieces = [p for layer, cuts in ((1, even), (2, odd), (3, even)) for p in pieces_of(centreline, layer, cuts)]
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
        s=centreline.s[pick], x=centreline.x[pick], z=centreline.z[pick],
        soil_x=soil.x[pick], soil_z=soil.z[pick],
        plan=np.full(9, 0.5), rise=zero, arc=np.full(9, 0.7), joint_nodes=(), crown=4,
    )  # fmt: skip


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
        CoverBand(name="planks", kind="lagging", thickness=0.05, unit_weight=4500.0, inner=rib.outside, outer=lagging),
        CoverBand(name="wool", kind="insulation", thickness=0.15, unit_weight=1000.0, inner=lagging, outer=insulation),
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
