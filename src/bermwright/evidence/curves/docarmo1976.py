"""Plane curves: M. P. do Carmo, Differential geometry of curves and surfaces (1976), chapter 1.

The work was not opened; the rows are circles, right-angled triangles and other plain geometry.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.curves import DOCARMO1976
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import curves

if TYPE_CHECKING:
    from collections.abc import Callable

_CITE = Cite(work=DOCARMO1976, place="chapter 1", provenance=Provenance.DERIVED)
_BOX: dict[str, Any] = {"x": [0.0, 0.0, 2.0, 2.0], "z": [0.0, 1.0, 1.0, 0.0]}
_ROOF: dict[str, Any] = {"x": [1.0, 2.0, 4.0], "z": [1.0, 3.0, 1.0]}
_HALF_CIRCLE = curves.segment(4.0, 2.0)
_LANCET = curves.arc_chain(curves.pointed_arcs(4.2, 4.2), points=800)
_TILT = np.radians(20.0)
_TILTED = curves.PlaneCurve(
    x=_LANCET.x * np.cos(_TILT) + _LANCET.z * np.sin(_TILT),
    z=_LANCET.z * np.cos(_TILT) - _LANCET.x * np.sin(_TILT),
    s=_LANCET.s,
    angle=_LANCET.angle - _TILT,
    curvature=_LANCET.curvature,
)
"""The lancet turned by 20 degrees, so that nothing at its point is even."""
_POINT = int(np.argmax(_LANCET.z))
_TURN = np.linspace(np.pi, 0.0, 37)


def _row(name: str, call: Callable[..., Any], expected: str, note: str, unit: str = "m", **more: Any) -> Row:
    pick = more.pop("pick", None)
    return Row(
        id=f"DOCARMO1976-{name}",
        cite=_CITE,
        kind=Kind.DERIVED,
        call=call,
        inputs=more,
        expected=expected,
        unit=unit,
        note=note,
        **({} if pick is None else {"pick": pick}),
    )


_LOW: dict[str, Any] = {"span": 4.0, "rise": 1.5, "side_radius": 1.0}
_HIGH: dict[str, Any] = {"span": 2.0, "rise": 2.0, "side_radius": 4.0}
_EGG: dict[str, Any] = {
    "span": 2.4,
    "rise": 7.6,
    "base_centre": 1.6,
    "flank_radius": 5.0,
    "crown_radius": 1.0,
}
_EGG_ARCS = curves.egg_arcs(**_EGG)

_CIRCLES = (
    _row("segment-higher", curves.segment_radius, "2.0833", "(4 + 2.25)/3", span=4.0, rise=1.5),
    _row("segment-radius", curves.segment_radius, "2.5000", "(4 + 1)/2", span=4.0, rise=1.0),
    _row("segment-angle", curves.segment_angle, "53.130", "2 atan(1/2)", "deg", span=4.0, rise=1.0),
    _row(
        "segment-length", curves.segment, "4.6365", "2 R angle", span=4.0, rise=1.0, pick=lambda c: c.length
    ),
    _row(
        "segment-foot", curves.segment, "0.0000", "springing line", span=4.0, rise=1.0, pick=lambda c: c.z[0]
    ),
    _row(
        "segment-right", curves.segment, "2.0000", "half the span", span=4.0, rise=1.0, pick=lambda c: c.x[-1]
    ),
    _row(
        "segment-curvature",
        curves.segment,
        "0.4000",
        "1/2.5",
        "1/m",
        span=4.0,
        rise=1.0,
        pick=lambda c: c.curvature[7],
    ),
    _row(
        "horseshoe",
        curves.segment,
        "126.870",
        "2 atan(4/2): it leans out",
        "deg",
        span=4.0,
        rise=4.0,
        pick=lambda c: c.angle[0],
    ),
)

_CHAINS = (
    _row(
        "three-low-crown",
        curves.three_centred_arcs,
        "2.25",
        "(4 + 2.25 - 4)/(2 0.5)",
        pick=lambda a: a[1].radius,
        **_LOW,
    ),
    _row("three-low-centre", curves.three_centred_arcs, "-0.75", "h - R", pick=lambda a: a[1].z, **_LOW),
    _row(
        "three-low-joint",
        curves.three_centred_arcs,
        "36.870",
        "atan(0.75/1)",
        "deg",
        pick=lambda a: a[2].start,
        **_LOW,
    ),
    _row(
        "three-low-side", curves.three_centred_arcs, "-1.0", "the left centre", pick=lambda a: a[0].x, **_LOW
    ),
    _row(
        "three-low-left",
        curves.three_centred_arcs,
        "143.130",
        "mirrored",
        "deg",
        pick=lambda a: a[0].end,
        **_LOW,
    ),
    _row(
        "three-low-top",
        curves.three_centred_arcs,
        "143.130",
        "the crown arc begins there",
        "deg",
        pick=lambda a: a[1].start,
        **_LOW,
    ),
    _row(
        "three-high-crown",
        curves.three_centred_arcs,
        "0.75",
        "(1 + 4 - 8)/(2 (2 - 4))",
        pick=lambda a: a[1].radius,
        **_HIGH,
    ),
    _row(
        "three-high-joint",
        curves.three_centred_arcs,
        "22.620",
        "atan(1.25/3)",
        "deg",
        pick=lambda a: a[2].start,
        **_HIGH,
    ),
    _row("egg-base", curves.egg_arcs, "2.0", "hypot(1.2, 1.6)", pick=lambda a: a[4].radius, **_EGG),
    _row("egg-flank-x", curves.egg_arcs, "-2.4", "triangle 3-4-5 on the axis", pick=lambda a: a[3].x, **_EGG),
    _row("egg-flank-z", curves.egg_arcs, "3.4", "1.6 + 9/5", pick=lambda a: a[3].z, **_EGG),
    _row(
        "egg-lower-joint",
        curves.egg_arcs,
        "-36.870",
        "atan(-1.8/2.4)",
        "deg",
        pick=lambda a: a[4].start,
        **_EGG,
    ),
    _row(
        "egg-upper-joint",
        curves.egg_arcs,
        "53.130",
        "atan(3.2/2.4)",
        "deg",
        pick=lambda a: a[3].start,
        **_EGG,
    ),
    _row("egg-foot", curves.egg_arcs, "-53.130", "atan(-1.6/1.2)", "deg", pick=lambda a: a[4].end, **_EGG),
    _row("egg-crown", curves.egg_arcs, "6.6", "rise less crown radius", pick=lambda a: a[2].z, **_EGG),
    _row(
        "egg-left",
        curves.egg_arcs,
        "126.870",
        "the crown arc begins at the left flank",
        "deg",
        pick=lambda a: a[2].start,
        **_EGG,
    ),
    _row("smooth", curves.tangent_break, "0.000", "an egg has no kink", "deg", arcs=_EGG_ARCS),
    _row(
        "kink",
        curves.tangent_break,
        "73.740",
        "lancet: 180 - 2 53.13",
        "deg",
        arcs=curves.pointed_arcs(4.2, 4.2),
    ),
    _row(
        "offset",
        curves.offset_arcs,
        "5.5",
        "R + d",
        arcs=curves.pointed_arcs(4.2, 4.2),
        distance=0.25,
        pick=lambda a: a[0].radius,
    ),
    _row(
        "egg-length",
        curves.arc_chain,
        "18.1301",
        "2 (2 0.283794 + 5 1.570796) + 1.287002: radii times angles",
        arcs=_EGG_ARCS,
        pick=lambda c: c.length,
    ),
    _row(
        "lancet-length",
        curves.arc_chain,
        "9.7366",
        "2 5.25 acos(0.6)",
        arcs=curves.pointed_arcs(4.2, 4.2),
        pick=lambda c: c.length,
    ),
    _row(
        "lancet-point",
        curves.arc_chain,
        "4.2000",
        "the rise",
        arcs=curves.pointed_arcs(4.2, 4.2),
        pick=lambda c: c.crown,
    ),
    _row(
        "lancet-slope",
        curves.arc_chain,
        "-36.870",
        "right of the point",
        "deg",
        arcs=curves.pointed_arcs(4.2, 4.2),
        pick=lambda c: c.angle[int(np.argmax(c.z)) + 1],
    ),
    _row(
        "lancet-foot",
        curves.arc_chain,
        "90.000",
        "upright at the left foot",
        "deg",
        arcs=curves.pointed_arcs(4.2, 4.2),
        pick=lambda c: c.angle[0],
    ),
    _row(
        "lancet-half",
        curves.arc_chain,
        "4.8683",
        "arc length of the point",
        arcs=curves.pointed_arcs(4.2, 4.2),
        pick=lambda c: c.s[int(np.argmax(c.z))],
    ),
    _row("egg-right", curves.arc_chain, "1.2000", "half the span", arcs=_EGG_ARCS, pick=lambda c: c.x[-1]),
    _row(
        "egg-curvature",
        curves.arc_chain,
        "0.5",
        "1/R1",
        "1/m",
        arcs=_EGG_ARCS,
        pick=lambda c: c.curvature[-1],
    ),
)

_PARALLEL = (
    _row(
        "outside-length",
        curves.parallel,
        "7.854",
        "pi (2 + 0.5)",
        curve=_HALF_CIRCLE,
        distance=0.5,
        pick=lambda c: c.length,
    ),
    _row(
        "inside-length",
        curves.parallel,
        "4.712",
        "pi (2 - 0.5)",
        curve=_HALF_CIRCLE,
        distance=-0.5,
        pick=lambda c: c.length,
    ),
    _row(
        "outside-foot",
        curves.parallel,
        "-2.5",
        "square to the left foot",
        curve=_HALF_CIRCLE,
        distance=0.5,
        pick=lambda c: c.x[0],
    ),
    _row(
        "outside-crown",
        curves.parallel,
        "2.5",
        "over the crown",
        curve=_HALF_CIRCLE,
        distance=0.5,
        pick=lambda c: c.crown,
    ),
    _row(
        "outside-curvature",
        curves.parallel,
        "0.4000",
        "1/(2 + 0.5)",
        "1/m",
        curve=_HALF_CIRCLE,
        distance=0.5,
        pick=lambda c: c.curvature[9],
    ),
    _row(
        "point-outside",
        curves.parallel,
        "4.5125",
        "4.2 + 0.25/cos 36.87 deg: both faces run on straight",
        curve=_LANCET,
        distance=0.25,
        pick=lambda c: c.crown,
    ),
    _row(
        "point-outside-length",
        curves.parallel,
        "10.575",
        "2 (5.5 0.927295 + 0.25 tan 36.87 deg)",
        curve=_LANCET,
        distance=0.25,
        pick=lambda c: c.length,
    ),
    _row(
        "point-inside",
        curves.parallel,
        "3.883",
        "sqrt(25 - 3.15^2): cut off where they meet",
        curve=_LANCET,
        distance=-0.25,
        pick=lambda c: c.crown,
    ),
    _row(
        "point-inside-length",
        curves.parallel,
        "8.892",
        "2 5 acos(0.63)",
        curve=_LANCET,
        distance=-0.25,
        pick=lambda c: c.length,
    ),
    _row(
        "point-inside-middle",
        curves.parallel,
        "0.000",
        "and that is mid-span",
        curve=_LANCET,
        distance=-0.25,
        pick=lambda c: c.x[int(np.argmax(c.z))],
    ),
)

_AT_A_POINT = (
    *(
        _row(
            f"tilted-{side}-{axis}",
            curves.parallel,
            expected,
            note,
            curve=_TILTED,
            distance=distance,
            pick=lambda c, axis=axis: getattr(c, axis)[_POINT],
        )
        for side, distance, note, places in (
            ("outside", 0.25, "4.5125 turned by 20 deg", ("1.5434", "4.2404")),
            ("inside", -0.25, "3.882976 turned by 20 deg", ("1.3281", "3.6488")),
        )
        for axis, expected in zip("xz", places, strict=True)
    ),
    _row(
        "tilted-inside-length",
        curves.parallel,
        "8.892",
        "as upright",
        curve=_TILTED,
        distance=-0.25,
        pick=lambda c: c.length,
    ),
    _row(
        "tilted-inside-half",
        curves.parallel,
        "4.446",
        "half of it",
        curve=_TILTED,
        distance=-0.25,
        pick=lambda c: c.s[_POINT],
    ),
)

_MEASURES = (
    _row(
        "headroom-width",
        curves.headroom_strip,
        "3.200",
        "2 sqrt(4 - 1.44)",
        x=_HALF_CIRCLE.x,
        z=_HALF_CIRCLE.z,
        height=1.2,
        pick=lambda s: s.width,
    ),
    _row(
        "drawn-flank",
        curves.through_points,
        "0.500",
        "at 45 deg",
        "1/m",
        x=2.0 * np.cos(_TURN),
        z=2.0 * np.sin(_TURN),
        pick=lambda c: float(np.interp(0.7071 * 2.0, c.x, c.curvature)),
    ),
    _row("area-box", curves.enclosed_area, "2.0", "2 by 1", "m2", **_BOX),
    _row("area-roof", curves.enclosed_area, "3.0", "3 2/2", "m2", **_ROOF),
    _row("centroid-roof-x", curves.area_centroid, "2.3333", "(1 + 2 + 4)/3", pick=lambda p: p[0], **_ROOF),
    _row("centroid-roof-z", curves.area_centroid, "1.6667", "(1 + 3 + 1)/3", pick=lambda p: p[1], **_ROOF),
    _row(
        "centroid-half-disc",
        curves.area_centroid,
        "0.8488",
        "4 R/(3 pi)",
        x=_HALF_CIRCLE.x,
        z=_HALF_CIRCLE.z,
        pick=lambda p: p[1],
    ),
    _row("rod-box-x", curves.line_centroid, "1.0000", "by symmetry", pick=lambda p: p[0], **_BOX),
    _row("rod-box-z", curves.line_centroid, "0.7500", "(0.5 + 2 1 + 0.5)/4", pick=lambda p: p[1], **_BOX),
    _row(
        "rod-half-circle",
        curves.line_centroid,
        "1.2732",
        "2 R/pi",
        x=_HALF_CIRCLE.x,
        z=_HALF_CIRCLE.z,
        pick=lambda p: p[1],
    ),
    _row(
        "headroom-left",
        curves.headroom_strip,
        "-1.600",
        "sqrt(4 - 1.44)",
        x=_HALF_CIRCLE.x,
        z=_HALF_CIRCLE.z,
        height=1.2,
        pick=lambda s: s.left,
    ),
    _row(
        "headroom-right",
        curves.headroom_strip,
        "1.600",
        "sqrt(4 - 1.44)",
        x=_HALF_CIRCLE.x,
        z=_HALF_CIRCLE.z,
        height=1.2,
        pick=lambda s: s.right,
    ),
    _row(
        "headroom-leaning-left",
        curves.headroom_strip,
        "-1.0",
        "the foot stands in the way",
        x=[-1.0, -2.0, 0.0, 2.0, 1.5],
        z=[0.0, 1.0, 3.0, 1.0, 0.0],
        height=1.0,
        pick=lambda s: s.left,
    ),
    _row(
        "headroom-leaning-right",
        curves.headroom_strip,
        "1.5",
        "the foot stands in the way",
        x=[-1.0, -2.0, 0.0, 2.0, 1.5],
        z=[0.0, 1.0, 3.0, 1.0, 0.0],
        height=1.0,
        pick=lambda s: s.right,
    ),
    _row(
        "drawn-length",
        curves.through_points,
        "6.283",
        "points of a half circle of radius 2",
        x=2.0 * np.cos(_TURN),
        z=2.0 * np.sin(_TURN),
        pick=lambda c: c.length,
    ),
    _row(
        "drawn-curvature",
        curves.through_points,
        "0.500",
        "at its crown",
        "1/m",
        x=2.0 * np.cos(_TURN),
        z=2.0 * np.sin(_TURN),
        pick=lambda c: c.curvature[int(np.argmax(c.z))],
    ),
    _row(
        "drawn-angle",
        curves.through_points,
        "0.00",
        "level at its crown",
        "deg",
        x=2.0 * np.cos(_TURN),
        z=2.0 * np.sin(_TURN),
        pick=lambda c: c.angle[int(np.argmax(c.z))],
    ),
)

ROWS = (*_CIRCLES, *_CHAINS, *_PARALLEL, *_AT_A_POINT, *_MEASURES)
