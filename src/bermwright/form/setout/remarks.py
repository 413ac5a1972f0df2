"""What the sheets cannot say by themselves: what the file leaves open, and what cannot be as it is placed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.base.units import show

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout.earthwork.dig import Dig
    from bermwright.form.setout.heights import Heights
    from bermwright.form.setout.nouns import Plan, Spot
    from bermwright.form.setout.surveyed import Surveyed

THIN = 0.02
"""Ground that lies lower by less is level with the bottom (m)."""
BEYOND = 1.0
"""Boards further outside the surveyed points than this stand on ground that is a guess (m)."""
SHARED = 0.05
"""Digs that share less of the ground only touch (m2)."""


def remarks(
    *,
    heights: Heights,
    plan: Plan,
    survey: Surveyed | None,
    dig: Dig | None,
    others: tuple[tuple[str, tuple[Spot, ...]], ...],
    system: str,
) -> Iterator[str]:
    """Remarks on one vault that is set out."""
    yield from _in_the_air(heights, system)
    yield from _steep_steps(heights, system)
    if survey is not None:
        yield from _beyond(survey, plan, system)
    if dig is not None:
        yield from _shared(dig.outline, others, system)


def _in_the_air(heights: Heights, system: str) -> Iterator[str]:
    """Corners at which the ground lies under what should stand in it."""
    for what, deep in (
        ("bottom of the dig", {one.peg: one.to_bottom for one in heights.corners}),
        ("underside of the footing", {one.peg: one.to_footing for one in heights.corners}),
    ):
        low = {peg: value for peg, value in deep.items() if value is not None and value < -THIN}
        if low:
            most = show(-min(low.values()), "m", 2, system)
            yield (
                f"At {_and(list(low))} the natural ground lies up to {most} lower than the {what}: nothing "
                "is dug there, it would stand on fill. Lower the floor (site.floor), move the house into the "
                "hill, or found deeper; fill under a house is a matter for an engineer."
            )


def _and(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _steep_steps(heights: Heights, system: str) -> Iterator[str]:
    for one in heights.steps:
        if not one.fits:
            run, lap = (show(value, "m", 2, system) for value in (one.run, one.lap))
            yield (
                f"On the {one.side} the ground is too steep for steps: each would be {run} long and lap the "
                f"next by {lap}. Keep the footing level, as the file has it, or take fewer, higher steps "
                "(setting_out.step) with an engineer."
            )


def _beyond(survey: Surveyed, plan: Plan, system: str) -> Iterator[str]:
    """How far boards and post stand outside what was measured."""
    known = shapely.MultiPoint([place.at for place in survey.places]).convex_hull
    spots = {board.name: np.mean([board.start, board.end], axis=0) for board in plan.boards}
    spots["H"] = np.array(plan.peg("H").at)
    away = {name: float(known.distance(shapely.Point(spot))) for name, spot in spots.items()}
    far = [name for name, value in away.items() if value > BEYOND]
    if far:
        yield (
            f"The survey does not reach {_and(far)}: up to {show(max(away.values()), 'm', 1, system)} "
            "outside the points the ground is a guess, and with it the tops of boards. Measure points there "
            "too."
        )


def _shared(
    outline: tuple[Spot, ...], others: tuple[tuple[str, tuple[Spot, ...]], ...], system: str
) -> Iterator[str]:
    own = shapely.Polygon(outline)
    for name, edge in others:
        area = float(own.intersection(shapely.Polygon(edge)).area)
        if area > SHARED:
            yield (
                f"This dig and that of {name} share {show(area, 'm2', 1, system)} of ground: what lies there "
                "is counted in both, and their boards stand outside both."
            )
