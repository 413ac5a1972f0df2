"""How fast the ground is: a periodic hourly year, many of them, and a year of frost, against plain solvers.

    .venv/bin/python bench/heat.py

The baseline of the year is what one would write with scikit-fem: linear triangles on the same mesh, backward
Euler by the hour, scipy's splu as it comes, three years until the ground no longer remembers its start and
the fourth that counts. Its steps are measured, the years are extrapolated from them. The baseline of frost is
Newton's method on the enthalpy by the hour, extrapolated from its first days. Accuracy is judged against
the whole section marched in steps of two minutes, second order, with the room inside. Times of one thread
are processor times on both sides; where two threads work it is the clock.
"""

from __future__ import annotations

import os
import platform
import resource
import time
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # threads are given by hand; two sets of them fight

import numpy as np

from bermwright.form import vault_form
from bermwright.form.heat import heat_section
from bermwright.formats.house_file import load
from bermwright.handbook.groundheat import (
    Drive,
    Node,
    assemble,
    error_of,
    freeze_year,
    isotherms,
    make_mesh,
    periodic_year,
    reduce_family,
    reduce_model,
    snow_loss,
    steady,
)
from bermwright.handbook.groundheat.frost.freezing import enthalpy, frost_grid
from measure import leave, line, median_seconds

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.handbook.groundheat import Conduction, Course, Mesh, Reduced, Section

HOURS = 8760
YEARS_OF_BASELINE = 4
BASELINE_STEPS = 60
FROST_STEPS = 40
FINE = 2.25
"""Fineness at which the example has about 27,000 points."""


def processor_seconds(work: Callable[[], object], *, times: int = 7) -> float:
    """Median processor time of some runs on one thread, to which other programs matter less."""
    work()
    taken = []
    for _ in range(times):
        start = time.process_time()
        work()
        taken.append(time.process_time() - start)
    return float(np.median(taken))


def example(fineness: float) -> tuple[Section, Mesh, Conduction]:
    """Larch Bank in its ground."""
    house = load("examples/larch-bank.toml").house
    section = heat_section(
        house, house.vaults[0], vault_form(house, house.vaults[0]), fineness=fineness
    ).section
    mesh = make_mesh(section)
    return section, mesh, assemble(mesh, section)


def weather() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """A cold year by the hour: sol-air temperature, sun on the floor, snow."""
    hour = np.arange(HOURS)
    year = np.cos(2.0 * np.pi * (hour / HOURS - 20.0 / 365.0))
    rise = np.maximum(np.sin(2.0 * np.pi * (hour - 6.0) / 24.0), 0.0)
    air = 3.0 - 13.0 * year - 4.0 * np.cos(2.0 * np.pi * (hour - 3.0) / 24.0)
    sun = rise * (180.0 - 120.0 * year)
    return air + rise * (6.0 - 5.0 * year), sun, np.where(year > 0.45, 0.3, 0.0)


def driven(full: Conduction) -> Drive:
    """The room heated to 20 °C by at most 900 W/m, snow on the roof."""
    air, sun, snow = weather()
    room = Node(port="room", capacity=3e4, loss=8.0, outside=air, gains=30.0, set_point=20.0, power=900.0)
    roof = Node(port="roof", loss=snow_loss(full.lengths["roof"], snow, 0.2), outside=air)
    return Drive(given={"field": air, "deep": 5.0}, sources={"floor": sun}, nodes=(room, roof))


# ---------------------------------------------------------------- the plain year
def plain_step(section: Section, mesh: Mesh) -> float:
    """Seconds of one hourly step with scikit-fem's matrices and splu as it comes."""
    from scipy.sparse.linalg import splu
    from skfem import Basis, BilinearForm, ElementTriP0, ElementTriP1, FacetBasis, MeshTri

    triangles = MeshTri(mesh.points.T.copy(), mesh.triangles.T.copy())
    basis = Basis(triangles, ElementTriP1())
    kinds = [region.material for region in section.regions]
    values = np.array([[k.conductivity, k.capacity] if k else [np.nan] * 2 for k in kinds])[mesh.material]

    @BilinearForm
    def conduct(u, v, w):  # noqa: ANN001, ANN202  (scikit-fem's own shape)
        return w["k"] * (u.grad[0] * v.grad[0] + u.grad[1] * v.grad[1])

    @BilinearForm
    def hold(u, v, w):  # noqa: ANN001, ANN202  (as the library calls it)
        return w["k"] * u * v

    each = basis.with_element(ElementTriP0())
    stiff = conduct.assemble(basis, k=each.interpolate(values[:, 0]))
    mass = hold.assemble(basis, k=each.interpolate(values[:, 1]))
    skin = FacetBasis(triangles, ElementTriP1())
    film = hold.assemble(skin, k=10.0 + 0.0 * skin.dx)
    solve = splu((mass / 3600.0 + stiff + film).tocsc()).solve
    warm = np.full(mass.shape[0], 8.0)
    load = film @ np.ones(len(warm))
    taken = []
    for step in range(BASELINE_STEPS):
        start = time.process_time()
        warm = solve(mass @ warm / 3600.0 + load * (5.0 + np.sin(step)))
        taken.append(time.process_time() - start)
    return float(np.median(taken))


def whole_year(met: list[bool]) -> None:
    """A periodic hourly year on the fine mesh."""
    section, mesh, full = example(FINE)
    drive = driven(full)
    line("points of the mesh", len(mesh.points), "")
    with ThreadPoolExecutor(2) as pool:
        offline = median_seconds(lambda: reduce_model(full, share=pool.map), times=3)
    model = reduce_model(full)
    online = processor_seconds(lambda: periodic_year(model, drive), times=15)
    plain = plain_step(section, mesh) * HOURS * YEARS_OF_BASELINE
    line("four hourly years, scikit-fem and splu (from 60 steps)", plain, "s")
    line("reduced model, two threads, its error included", offline, "s")
    line("periodic year with room and snow inside", online * 1e3, "ms")
    met.append(line("ratio, once the model is there", plain / online, "x", gate=5000.0, least=True))
    met.append(line("ratio with preparation", plain / (online + offline), "x", gate=100.0, least=True))
    print(f"the model says of itself: {model.error}")
    met.append(line("its error at the watched points", model.error.temperature, "K", gate=0.05))
    year = periodic_year(model, drive)
    met.append(line("heat in less heat out, over the year", year.balance, "", gate=1e-6))
    field = year.field(500)
    picture = processor_seconds(lambda: isotherms(mesh, year.field(500), np.arange(-20.0, 25.0, 1.0)))
    met.append(line("isotherms of one hour, each degree", picture * 1e3, "ms", gate=50.0))
    assert np.isfinite(field).all()
    frost(met, section, full)


# ---------------------------------------------------------------- accuracy
def refined(model: Reduced, drive: Drive, course: Course, first: int, hours: int) -> float:
    """Largest difference at the watched points and in the room from the whole section in small steps (K)."""
    from scipy import sparse
    from scipy.sparse.linalg import splu

    full, steps = model.full, 30
    small = drive.step / steps
    mass = full.capacity / small
    ports = list(full.ports)
    inputs = np.zeros((hours * steps + 1, len(ports) + len(full.sources)))
    marks = first + np.arange(hours * steps + 1) / steps
    whole = np.arange(HOURS)

    def at(values: object) -> np.ndarray:
        return np.interp(marks, whole, np.broadcast_to(np.asarray(values, dtype=float), (HOURS,)))

    for name, values in drive.given.items():
        inputs[:, ports.index(name)] = at(values)
    for name, values in drive.sources.items():
        inputs[:, len(ports) + full.sources.index(name)] = at(values)
    brings = np.concatenate([full.films, full.shares], axis=1)
    nodes = [ports.index(node.port) for node in drive.nodes]
    solve = splu(
        (full.stiffness / 2.0 + sparse.diags(mass)).tocsc(),
        permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True},
    ).solve  # fmt: skip
    echo = np.stack([solve(full.films[:, node] / 2.0) for node in nodes], axis=1)
    warm, air = course.field(first), np.array([course.air[node.port][first] for node in drive.nodes])
    worst = 0.0
    room = drive.nodes[0]
    series = [[at(getattr(node, name)) for name in ("loss", "outside", "gains")] for node in drive.nodes]
    for step in range(hours * steps):
        load = mass * warm - full.stiffness @ warm / 2.0 + brings @ (inputs[step] + inputs[step + 1]) / 2.0
        load += full.films[:, nodes] @ air / 2.0
        free = solve(load)
        matrix = -full.films[:, nodes].T @ echo
        right = full.films[:, nodes].T @ free
        for p, node in enumerate(drive.nodes):
            loss, outside, gains = (one[step + 1] for one in series[p])
            matrix[p, p] += loss + node.capacity / small + full.conductances[nodes[p]]
            right[p] += loss * outside + gains + node.capacity / small * air[p]
        found = np.linalg.solve(matrix, right)
        if found[0] < room.set_point:
            held = matrix.copy()
            held[0], pull = [1.0, *np.zeros(len(nodes) - 1)], right.copy()
            pull[0] = room.set_point
            found = np.linalg.solve(held, pull)
            if matrix[0] @ found - right[0] > room.power:
                pull = right.copy()
                pull[0] += room.power
                found = np.linalg.solve(matrix, pull)
        air, warm = found, free + echo @ found
        if (step + 1) % steps == 0:
            mark = first + (step + 1) // steps
            seen = [course.watch[name][mark] for name in full.watched]
            room_there = course.air[room.port][mark]
            worst = max(worst, float(np.abs(full.looking @ warm - seen).max()), abs(room_there - air[0]))
    return worst


def accuracy(met: list[bool]) -> None:
    """A week of January and one of April against the whole section in steps of two minutes."""
    _, mesh, full = example(0.75)
    model, drive = reduce_model(full), driven(full)
    course = periodic_year(model, drive)
    line("points of the mesh", len(mesh.points), "")
    for name, first in (("January", 24 * 10), ("April", 24 * 100)):
        off = refined(model, drive, course, first, 24 * 5)
        met.append(line(f"five days of {name}: off the section in steps of 2 min", off, "K", gate=0.05))


# ---------------------------------------------------------------- many years
def family(met: list[bool]) -> None:
    """Hourly years for other soils and insulations of one shape."""
    section, mesh, full = example(0.8)
    drive = driven(full)
    limits = {"the fill": (1.0, 3.0), "rigid foam": (0.025, 0.05)}
    line("points of the mesh", len(mesh.points), "")
    with ThreadPoolExecutor(2) as pool:
        start = time.perf_counter()
        made = reduce_family(mesh, section, limits, share=pool.map)
        line("preparation", time.perf_counter() - start, "s")

        def heat(count: int) -> float:
            chosen = {"the fill": 1.2 + 0.01 * count, "rigid foam": 0.03 + 0.0001 * count}
            return float(periodic_year(made.at(chosen), drive, states=False).heat["room"].sum())

        list(pool.map(heat, range(8)))
        start = time.perf_counter()
        list(pool.map(heat, range(150)))
        rate = 150.0 / (time.perf_counter() - start)
    met.append(line("periodic hourly years, two threads", rate, "/s", gate=200.0, least=True))
    one = made.at({"the fill": 1.7, "rigid foam": 0.034})
    print(f"in the middle it lies {error_of(one)} off")
    here, there = periodic_year(one, drive), periodic_year(reduce_model(one.full), drive)
    off = max(float(np.abs(here.watch[name] - there.watch[name]).max()) for name in here.watch)
    met.append(line("off the model of that choice alone", off, "K", gate=0.05))
    line("the same, heat of the year", abs(here.heat["room"].sum() / there.heat["room"].sum() - 1.0), "")


# ---------------------------------------------------------------- frost
def newton_step(full: Conduction, section: Section, warm: np.ndarray, steps: int) -> float:
    """Seconds of one implicit hour of freezing ground: Newton on the enthalpy, splu as it comes."""
    from scipy import sparse
    from scipy.sparse.linalg import splu

    grid = frost_grid(full, section)
    latent, mushy = grid.latent, 0.05
    heat = enthalpy(warm, grid)
    taken = []
    for step in range(steps):
        begin = time.process_time()
        load = full.films @ np.array([20.0, -10.0 - step, -10.0 - step, 5.0])
        now = warm.copy()
        for _ in range(25):
            held = enthalpy(now, grid)
            slope = np.where(now >= 0.0, grid.thawed, grid.hardened)
            soft = (now < 0.0) & (now > -mushy) & (latent > 0.0)
            slope = np.where(soft, latent / mushy, slope)
            rest = (held - heat) / 3600.0 + full.stiffness @ now - load
            change = splu((full.stiffness + sparse.diags(slope / 3600.0)).tocsc()).solve(-rest)
            now = now + change
            if np.abs(change).max() < 1e-4:
                break
        warm, heat = now, enthalpy(now, grid)
        taken.append(time.process_time() - begin)
    return float(np.median(taken))


def frost(met: list[bool], section: Section, full: Conduction) -> None:
    """A year of freezing ground."""
    air, _, _ = weather()
    start = steady(full, {"room": 20.0, "roof": 3.0, "field": 3.0, "deep": 5.0}).temperature
    given = {"room": 20.0, "roof": air, "field": air, "deep": 5.0}
    plain = newton_step(full, section, start, FROST_STEPS) * HOURS
    line("a year of frost, implicit by the hour (from 40 steps)", plain, "s")
    freeze_year(full, section, given, start=start, days=2)
    for step, gate in ((10800.0, 1000.0), (3600.0, None)):
        begin = time.process_time()
        course = freeze_year(full, section, given, start=start, step=step)
        taken = time.process_time() - begin
        what = f"a year of frost, steps of {step / 3600.0:.0f} h, one thread"
        line(what, taken, "s")
        met.append(line("ratio", plain / taken, "x", gate=gate, least=True))
    met.append(line("heat in less heat out of the frozen year", course.balance, "", gate=1e-6))


def main() -> None:
    """Print every figure and whether its gate is met."""
    print(f"{platform.machine()}, Python {platform.python_version()}, numpy {np.__version__}")
    met: list[bool] = []
    parts: tuple[Callable[[list[bool]], None], ...] = (whole_year, accuracy, family)
    for part in parts:
        part(met)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    line("memory at its highest, baselines included", peak, "MB")
    leave(met)


if __name__ == "__main__":
    main()
