"""The cases of a stage: which actions meet, and for how long."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.works import actions as works
from bermwright.stages import loads
from bermwright.stages.nouns import Action, Case, Duration, StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.stages.given import Given

    Array = NDArray[np.float64]

WORKERS = 1000.0
"""Personnel with hand tools on a structure under construction (Pa), EN 1991-1-6, 4.11.1."""
SNOW_PSI0 = 0.7
"""EN 1990, table A1.1, places above 1,000 m and the Nordic countries; the worse of both values."""
PEOPLE_PSI0 = 0.7
"""EN 1990, table A1.1, areas where people are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One moment of the building, before its cases are spelled out."""

    kind: StageKind
    left: float | None
    right: float | None
    weight: tuple[Action, ...]
    """Self-weight of what stands, and ballast or crown soil."""
    turf: bool
    springs: bool
    ballast: bool
    duration: Duration

    @property
    def finished(self) -> bool:
        """Whether the house is complete."""
        return self.kind in {StageKind.SETTLED, StageKind.LONG_TERM}


def cases_of(form: VaultForm, given: Given, now: Moment) -> Iterator[Case]:
    """Every case of one moment; the first is its permanent state with level fill."""
    permanent = _case(form, now, "permanent", "nothing but what stays there", now.duration)
    yield permanent
    if now.kind is StageKind.FILL:
        yield from _leads(form, given, now)
    yield from _snow(form, given, now)
    yield from _people(form, given, now)
    if now.left is not None:
        yield from _water(form, given, now)
    if now.finished:
        yield _first_winter(form, now)


def _case(
    form: VaultForm,
    now: Moment,
    name: str,
    title: str,
    duration: Duration,
    *extra: Action,
    left: float | None = None,
    right: float | None = None,
    springs: bool | None = None,
) -> Case:
    at_left, at_right = (now.left, now.right) if left is None else (left, right)
    return Case(
        name=name,
        title=title,
        duration=duration,
        actions=(*now.weight, *extra),
        left=at_left,
        right=at_right,
        depth=loads.soil_depth(form, at_left, at_right, turf=now.turf),
        springs=now.springs if springs is None else springs,
        ballast=now.ballast,
    )


def _leads(form: VaultForm, given: Given, now: Moment) -> Iterator[Case]:
    assert now.left is not None
    behind = now.left - given.lead
    for side, levels in (("left", (now.left, behind)), ("right", (behind, now.left))):
        yield _case(
            form, now, f"{side} ahead", f"the {side} side one permitted lead ahead",
            Duration.MEDIUM, left=levels[0], right=levels[1],
        )  # fmt: skip


def _snow(form: VaultForm, given: Given, now: Moment) -> Iterator[Case]:
    if given.snow is None or given.snow == 0.0:
        return
    duration = Duration.SHORT if given.snow_short else Duration.MEDIUM
    titles = {"even": "full snow", "left": "snow drifted to the left", "right": "snow drifted to the right"}
    for shape, title in titles.items():
        yield _case(form, now, title, title, duration, _snow_action(form, given.snow, now, shape))
    if now.finished:
        half = loads.half(form.mesh, "left") * given.snow * 0.8
        for side, share in (("left", half), ("right", given.snow * 0.8 - half)):
            action = Action(
                name="snow", permanent=False, cite=works.SNOW_CITE, on_fill=share, psi0=SNOW_PSI0
            )
            title = f"snow on the {side} half only"
            yield _case(form, now, title, title, duration, action)


def _snow_action(form: VaultForm, snow: float, now: Moment, shape: str) -> Action:
    bare = loads.snow_on_bare_shell(form, snow, shape) * form.mesh.plan
    if now.kind is StageKind.RIBS:
        bare = bare * (form.rib.width / form.spacing)
    if now.left is None or now.right is None:
        return Action(name="snow", permanent=False, cite=works.SNOW_CITE, down=bare, psi0=SNOW_PSI0)
    depth = loads.soil_depth(form, now.left, now.right, turf=now.turf)
    on_fill = loads.snow_on_fill(form, snow, shape, now.left, now.right)
    return Action(
        name="snow",
        permanent=False,
        cite=works.SNOW_CITE,
        down=np.where(depth > 0, 0.0, bare),
        on_fill=np.where(depth > 0, on_fill, 0.0),
        psi0=SNOW_PSI0,
    )


def _people(form: VaultForm, given: Given, now: Moment) -> Iterator[Case]:
    if now.kind is StageKind.RIBS:
        load = loads.point_at_crown(form.mesh, 1000.0 / form.spacing)
        yield _case(
            form, now, "one person at the crown", "one person of 1 kN at the crown of a rib",
            Duration.SHORT, _people_action(down=load),
        )  # fmt: skip
        return
    pressure = given.roof_load if now.finished else WORKERS
    title = given.roof_title if now.finished else "workers with hand tools"
    if pressure is None:
        return
    for side in ("left", "right"):
        share = loads.half(form.mesh, side) * pressure
        depth = loads.soil_depth(form, now.left, now.right, turf=now.turf)
        action = _people_action(
            down=np.where(depth > 0, 0.0, share * np.maximum(form.mesh.plan, 0.0)),
            on_fill=np.where(depth > 0, share, 0.0),
        )
        name = f"{title}, {side} half"
        yield _case(form, now, name, name, Duration.SHORT, action)


def _people_action(down: Array | None = None, on_fill: Array | None = None) -> Action:
    return Action(
        name="people",
        permanent=False,
        cite=works.PEOPLE_CITE,
        down=down,
        on_fill=on_fill,
        psi0=PEOPLE_PSI0,
    )


def _water(form: VaultForm, given: Given, now: Moment) -> Iterator[Case]:
    assert now.left is not None
    assert now.right is not None
    depth = loads.soil_depth(form, now.left, now.right, turf=now.turf)
    if given.saturated_unit_weight is not None:
        extra = max(given.saturated_unit_weight - given.unit_weight, 0.0) * depth
        soaked = Action(name="water in the soil", permanent=True, cite=works.SOIL_CITE, on_fill=extra)
        yield _case(form, now, "soil soaked", "the fill full of rain or melt water", Duration.MEDIUM, soaked)
    if given.overflow is not None:
        level = min(given.overflow, min(now.left, now.right))
        pressure = np.where(depth > 0, loads.water_pressure(form.mesh, level), 0.0)
        if not pressure.any():
            return
        standing = Action(
            name="standing water",
            permanent=True,
            cite=works.WATER_CITE,
            down=pressure * form.mesh.plan,
            across=pressure * form.mesh.rise,
            pore=pressure,
        )
        yield _case(form, now, "drain blocked", "the drain blocked, water to the overflow", Duration.MEDIUM, standing)


def _first_winter(form: VaultForm, now: Moment) -> Case:
    return _case(
        form, now, "first winter unheated", "frozen fill that presses but does not hold",
        Duration.MEDIUM, springs=False,
    )  # fmt: skip
