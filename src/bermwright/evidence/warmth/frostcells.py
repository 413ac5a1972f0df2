"""Freezing ground in ten points: the same equations by a general integrator, and its steps by hand.

The mesh is written out, so that nothing here rests on how meshes are made. The second program follows the
heat of every point with scipy's `solve_ivp` (LSODA, relative tolerance 1e-10).
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.groundheat import CARSLAW1959, MEYER2014
from bermwright.evidence.rows import Kind, Row
from bermwright.evidence.warmth.groundheat import Once
from bermwright.handbook.groundheat import Border, Material, Region, Section, assemble, freeze_year
from bermwright.handbook.groundheat.mesh import Mesh

if TYPE_CHECKING:
    from collections.abc import Callable

_CELLS = Cite(work=CARSLAW1959, place="conduction with freezing, ten points", provenance=Provenance.DERIVED)
_STEPS = Cite(work=MEYER2014, place="stable steps of the scheme RKL1", provenance=Provenance.DERIVED)

_WET = Material(
    name="wet", conductivity=1.4, capacity=2.6e6, frozen_conductivity=2.3, frozen_capacity=1.9e6, latent=24e6
)
_DRY = Material(name="dry", conductivity=0.9, capacity=1.5e6, frozen_conductivity=1.1, frozen_capacity=1.2e6)
_BARE = Material(name="bare", conductivity=1.2, capacity=1.8e6)
_WIDE = 0.1


def _ladder(depths: tuple[float, ...], material: tuple[int, ...]) -> Mesh:
    """Two columns of points 0.1 m apart, each cell of two triangles."""
    rows = len(depths)
    points = np.array([(x, -depth) for depth in depths for x in (0.0, _WIDE)])
    cells = [((2 * k, 2 * k + 2, 2 * k + 3), (2 * k, 2 * k + 3, 2 * k + 1)) for k in range(rows - 1)]
    sides = [(2 * k, 2 * k + 2) for k in range(rows - 1)] + [(2 * k + 1, 2 * k + 3) for k in range(rows - 1)]
    return Mesh(
        points=points,
        triangles=np.array([triangle for cell in cells for triangle in cell]),
        material=np.repeat(np.array(material), 2),
        edges=np.array([(0, 1), (2 * rows - 2, 2 * rows - 1), *sides]),
    )


def _section(materials: tuple[Material, ...], deep: float, films: tuple[float, float]) -> Section:
    return Section(
        regions=tuple(Region.box(one, (0.0, _WIDE), (-deep, 0.0)) for one in materials),
        borders=(
            Border.of("top", [(0.0, 0.0), (_WIDE, 0.0)], films[0]),
            Border.of("deep", [(0.0, -deep), (_WIDE, -deep)], films[1]),
        ),
    )


def _case(
    depths: tuple[float, ...],
    cells: tuple[int, ...],
    materials: tuple[Material, ...],
    films: tuple[float, float],
    rest: dict[str, Any],
) -> Once:
    def make() -> dict[str, Any]:
        section = _section(materials, depths[-1], films)
        return {"full": assemble(_ladder(depths, cells), section), "section": section, **rest}

    return Once(make)


_HOURS = np.arange(24.0)
_SWING = _case(
    (0.0, 0.05, 0.1, 0.15, 0.2),
    (0, 0, 1, 1),
    (_WET, _DRY),
    (20.0, 8.0),
    {
        "temperatures": {
            "top": -4.0 + 3.0 * np.sin(2.0 * math.pi * _HOURS / 24.0) + 0.1 * _HOURS,
            "deep": 4.0,
        },
        "start": np.array([2.0, -1.5, -0.02, 0.5, 0.3, -0.04, -1.0, 0.2, 1.0, -2.0]),
        "step": 120.0,
        "days": 2,
    },
)


_STIFF = Material(
    name="stiff", conductivity=1.2, capacity=1.8e6, frozen_conductivity=2.0, frozen_capacity=1.5e6
)


def _plain(step: float, film: float, below: Material = _STIFF, **rest: Any) -> Once:
    """Three square cells of 0.1 m; the film at the top decides which step is stable."""
    return _case(
        (0.0, 0.1, 0.2, 0.3),
        (0, 1, 1),
        (_STIFF, below),
        (film, 5.0),
        {"temperatures": {"top": 1.0, "deep": 1.0}, "start": np.full(8, 3.0), "step": step, "days": 1} | rest,
    )


def _film(stable: float) -> float:
    """The film with which the right point of the top bears steps so long: 2500/(2.0 + 0.05·h)."""
    return 20.0 * (2500.0 / stable - 2.0)


def _row(name: str, inputs: Once, expected: str, pick: Callable[[Any], float], **more: Any) -> Row:
    return Row(
        id=f"FROSTCELLS-{name}",
        cite=more.pop("cite", _CELLS),
        kind=Kind.INDEPENDENT,
        call=freeze_year,
        inputs=inputs,
        expected=expected,
        pick=pick,
        **more,
    )


def _weighed(day: int) -> Callable[[Any], float]:
    """Σ (i + 1)·T_i at the end of a day."""
    return lambda course: float(np.arange(1.0, 11.0) @ course.temperature[day])


_LSODA = "solve_ivp; steps of 120 s are first order"
_SAME = (
    _row("ice", _SWING, "232702", lambda course: float(course.ice[0]), rel=1e-4, note=_LSODA),
    _row("first-day", _SWING, "31.266", _weighed(0), rel=2e-3, note=_LSODA),
    _row("second-day", _SWING, "-24.335", _weighed(1), rel=2e-3, note=_LSODA),
    _row(
        "slush",
        _SWING,
        "0.8176",
        lambda course: float(course.frozen(0)[5]),
        rel=2e-3,
        note=f"T/-0.05; {_LSODA}",
    ),
    _row(
        "all-frozen",
        _SWING,
        "1.000",
        lambda course: float(course.frozen(1)[0]),
        note="colder than -0.05 °C is frozen whole",
    ),
    _row(
        "kept", _SWING, "0.0000000", lambda course: course.balance, note="what enters is what the points hold"
    ),
)

_BEARS = "a point of 2500 J/K loses 2.0 + 0.05·h W/K; (s² + s)/2 plain steps"
_SWEEPS = tuple(
    _row(
        f"sweeps-{name}",
        inputs,
        expected,
        lambda course: float(course.stages),
        cite=_STEPS,
        note=note,
    )
    for name, inputs, expected, note in (
        ("just", _plain(3600.0, _film(360.0 * (1.0 + 1e-5))), "4", f"{_BEARS}: a hair under ten"),
        ("no-longer", _plain(3600.0, _film(360.0 * (1.0 - 1e-5))), "5", f"{_BEARS}: a hair over ten"),
        ("least", _plain(600.0, _film(720.0)), "2", "never fewer than two"),
        ("held", _plain(7200.0, 20200.0), "4", "1010 W/K hold the top; 2500/2.25 s bear 7200 s in four"),
    )
)
_EASED = tuple(
    _row(
        f"eased-{name}",
        _plain(3600.0, _film(150.0 / (1.0 + over)), below=_BARE),
        expected,
        lambda course: course.added,
        cite=_STEPS,
        note=note,
    )
    for name, over, expected, note in (
        ("little", 0.0038, "2.11e-4", "3000·0.0038/54 000; 2500·0.0038 is less than 2e-4 of 51 000"),
        ("not", 0.00412, "0.000000", "2500·0.00412 is more than 2e-4 of 51 000, and 75 s are borne"),
    )
)
_ENDS = (
    _row(
        "moved",
        _plain(1200.0, 20.0, days=4),
        "108000",
        lambda course: course.moved,
        cite=_STEPS,
        rel=1e-3,
        note="54 000 J/K cooled by 2 K, never warmed",
    ),
    _row(
        "year",
        _plain(86400.0, 20.0, days=None),
        "365",
        lambda course: float(len(course.ice)),
        cite=_STEPS,
        note="temperatures that never change go on for a year",
    ),
)

ROWS = (*_SAME, *_SWEEPS, *_EASED, *_ENDS)
