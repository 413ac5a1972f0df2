"""Ribs of pieces: the equations of the docstrings solved a second way, by collocation.

The independent rows come from a boundary-value solver on the fourth-order equation itself (tolerance
1e-10), not from the closed form; `tests/unit/handbook/timber` compares both with a layered beam model
that has every nail as a spring.
"""

from __future__ import annotations

from operator import attrgetter

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.timber import LAYEREDRIB
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import timber

_SOLVED = Cite(work=LAYEREDRIB, place="equation solved by collocation", provenance=Provenance.DERIVED)
_BY_HAND = Cite(work=LAYEREDRIB, place="nails, by hand", provenance=Provenance.DERIVED)

_RIBS = {
    "short": (4, 178e3, 14e6, 50.4e3, 1.2),
    "turning": (3, 20e3, 1e5, 2e6, 1.0),
    "two-layers": (2, 178e3, 28e6, 100e3, 3.0),
    "long": (4, 178e3, 14e6, 50.4e3, 6.0),
}
_FOUND = {
    "short": ("0.19133", "2.41326", "1.78082e-6", "561538", "6.66530e-7", "3.56165e-6"),
    "turning": ("0.80005", "1.84978", "1.38847e-6", "720217", "1.66576e-7", "2.08271e-6"),
    "two-layers": ("0.70044", "2.00000", "1.80198e-6", "554946", "2.88117e-7", "1.45984e-6"),
    "long": ("0.83951", "1.57186", "4.02741e-7", "2482986", "1.81536e-7", "7.70622e-7"),
}
_NAMES = (
    "stiffness_ratio",
    "moment_peak",
    "joint_flexibility",
    "joint_stiffness",
    "end_slip",
    "end_rotation",
)
_PIECES = tuple(
    Row(
        id=f"LAYEREDRIB-{rib}-{name}",
        cite=_SOLVED,
        kind=Kind.INDEPENDENT,
        call=timber.pieces_in_rib,
        inputs={
            "layer_stiffness": _RIBS[rib][1],
            "layers": _RIBS[rib][0],
            "transverse": _RIBS[rib][2],
            "rotational": _RIBS[rib][3],
            "piece_length": _RIBS[rib][4],
        },
        expected=value,
        pick=attrgetter(name),
        rel=2e-5,
        note="collocation to 1e-10, printed to six digits",
    )
    for rib, values in _FOUND.items()
    for name, value in zip(_NAMES, values, strict=True)
)
_SINGLE = tuple(
    Row(
        id=f"LAYEREDRIB-single-{rib}-{name}",
        cite=_SOLVED,
        kind=Kind.INDEPENDENT,
        call=timber.single_joint,
        inputs={
            "layer_stiffness": _RIBS[rib][1],
            "layers": _RIBS[rib][0],
            "transverse": _RIBS[rib][2],
            "rotational": _RIBS[rib][3],
        },
        expected=value,
        pick=attrgetter(name),
        rel=2e-5,
        note="collocation to 1e-10, printed to six digits",
    )
    for rib, name, value in [
        ("short", "transfer_length", "0.43013"),
        ("short", "flexibility", "4.02741e-7"),
        ("short", "stiffness", "2482986"),
        ("turning", "flexibility", "1.36061e-6"),
    ]
)

_COUPLING = tuple(
    Row(
        id=f"LAYEREDRIB-coupling-{planes}-{name}",
        cite=_BY_HAND,
        kind=Kind.DERIVED,
        call=timber.nail_coupling,
        inputs={"slip_modulus": 700e3, "row_heights": [-0.06, 0.0, 0.06], "spacing": 0.1, "planes": planes},
        expected=value,
        pick=attrgetter(name),
        note="3·K/s and K·Σy²/s, times the shear planes",
    )
    for planes, name, value in [
        (1, "transverse", "21000000"),
        (1, "rotational", "50400"),
        (2, "transverse", "42000000"),
        (2, "rotational", "100800"),
    ]
)

_ONE_PLANE = Row(
    id="LAYEREDRIB-coupling-unsaid",
    cite=_BY_HAND,
    kind=Kind.DERIVED,
    call=timber.nail_coupling,
    inputs={"slip_modulus": 700e3, "row_heights": [-0.06, 0.06], "spacing": 0.1},
    expected="14000000",
    pick=attrgetter("transverse"),
    note="one shear plane where nothing is said",
)
_GROUP = {"layers": 4, "planes": 1, "along": [0.05, 0.05, 0.25, 0.25], "across": [0.04, 0.16, 0.04, 0.16]}
_FORCES = {
    "turned": ((2000.0, 0.0, 0.0), "1071.87", "59.0362"),
    "pulled": ((0.0, 8000.0, 0.0), "500.000", "0.0000"),
    "pushed": ((0.0, 0.0, -4000.0), "250.000", "90.0000"),
    "all": ((-2000.0, -8000.0, 4000.0), "1572.40", "48.0327"),
}
_NAILS = tuple(
    Row(
        id=f"LAYEREDRIB-group-{name}-{which}",
        cite=_BY_HAND,
        kind=Kind.DERIVED,
        call=timber.joint_nail_force,
        inputs={"moment": forces[0], "axial": forces[1], "shear": forces[2], **_GROUP},
        expected=value,
        unit=unit,
        pick=attrgetter(which),
        note="share 1/4 on four nails; Σ(x² + y²) = 0.0544 m², arms 0.06 and 0.10 m",
    )
    for name, (forces, force, angle) in _FORCES.items()
    for which, value, unit in (("force", force, "N"), ("angle", angle, "deg"))
)

ROWS: tuple[Row, ...] = (*_PIECES, *_SINGLE, *_COUPLING, _ONE_PLANE, *_NAILS)
