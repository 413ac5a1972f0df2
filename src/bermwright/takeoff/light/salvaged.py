"""Which salvaged window, pane or door goes into which hole: the best assignment by fit, sun and loss.

Every pair that fits is given its heat in the days that need it: sun that comes in, less what window and
packing lose. The assignment fills as many holes as can be filled, and of these the one with most heat.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.units import show
from bermwright.data.openings import MOST_PACKED, PACKING, STRIP_U
from bermwright.handbook.glazing import window_balance, window_year
from bermwright.house import OpeningKind, SafetyGlass, SalvagedKind
from bermwright.takeoff.light.holes import holes_of
from bermwright.takeoff.light.windows import site_horizon, windows_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.handbook.sun import Horizon, SunPath
    from bermwright.handbook.weather import WeatherYear
    from bermwright.house import House, Opening, Salvaged

UNFILLED = 1e9
"""What an empty hole counts, far above any heat (kWh)."""
FORBIDDEN = 1e12
"""What a pair that does not fit counts."""
UNKNOWN_LOSS = 1e6
"""What glass that nobody has described counts: it is offered last (kWh)."""
KWH = 3.6e6
DOOR_U = 2.0
"""Heat loss of a salvaged door that is not described: 50 mm of softwood (W/m2K)."""
HAIR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One window, pane or door at hand."""

    name: str
    line: Salvaged


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """An item in a hole: whether it goes in, and what it brings."""

    opening: Opening
    item: Item
    turned: bool
    """Whether a pane lies on its side."""
    width: float
    height: float
    refused: str = ""
    """Why it does not go in; empty where it does."""
    gain: float = float("nan")
    loss: float = float("nan")
    """In the days that need heat (kWh a year), packing included; not a number where it is not known."""
    u: float = float("nan")

    @property
    def strips(self) -> tuple[float, float]:
        """What is packed on each side, left and right alike, and above and below alike (m)."""
        return (0.5 * (self.opening.width - self.width), 0.5 * (self.opening.height - self.height))

    @property
    def known(self) -> bool:
        """Whether its heat is known."""
        return bool(np.isfinite(self.gain - self.loss))

    @property
    def net(self) -> float:
        """Sun less loss (kWh a year)."""
        return self.gain - self.loss


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """What a hole gets, and why."""

    opening: Opening
    pair: Pair | None
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """The whole assignment."""

    matches: tuple[Match, ...]
    left: tuple[str, ...]
    """Items that found no hole."""
    sun_counted: bool
    remarks: tuple[str, ...]


def fitted(house: House, weather: WeatherYear | None, system: str = "metric") -> Fitting | None:
    """The best assignment of the list in hand; None where there is no list or no hole."""
    holes = holes_of(house)
    items = list(_items(house))
    if not holes or not items:
        return None
    sky = _Sky(house, weather, system)
    pairs = [[best_way(house, hole, item, sky) for item in items] for hole in holes]
    chosen = assigned([[_cost(pair) for pair in row] for row in pairs])
    matches = tuple(
        _match(hole, row, place, set(chosen.values()), system)
        for hole, row, place in zip(holes, pairs, map(chosen.get, range(len(holes))), strict=True)
    )
    used = set(chosen.values())
    return Fitting(
        matches=matches,
        left=tuple(item.name for place, item in enumerate(items) if place not in used),
        sun_counted=weather is not None,
        remarks=() if weather else ("The file names no climate: sun is not counted, loss alone decides.",),
    )


def assigned(costs: list[list[float]]) -> dict[int, int]:
    """The item of each row so that the sum is least; rows that are better left empty are left out.

    >>> assigned([[1.0, 5.0], [2.0, FORBIDDEN]])
    {0: 1, 1: 0}
    """
    from scipy.optimize import linear_sum_assignment

    matrix = np.array(costs, dtype=float)
    rows = matrix.shape[0]
    empty = np.full((rows, rows), UNFILLED)
    found = linear_sum_assignment(np.hstack([matrix, empty]))
    return {
        int(row): int(column)
        for row, column in zip(*found, strict=True)
        if column < matrix.shape[1] and matrix[row, column] < UNFILLED
    }


def _cost(pair: Pair) -> float:
    if pair.refused:
        return FORBIDDEN
    return -pair.net if pair.known else UNKNOWN_LOSS


def _items(house: House) -> Iterator[Item]:
    for line in house.salvaged:
        for number in range(1, line.count + 1):
            yield Item(name=line.name if line.count == 1 else f"{line.name} {number}", line=line)


class _Sky:
    """The weather of the site, where the sun stands in it, and the units that sentences are in."""

    def __init__(self, house: House, weather: WeatherYear | None, system: str) -> None:
        self.weather = weather
        self.path: SunPath | None = None if weather is None else weather.path()
        self.horizon: Horizon | None = site_horizon(house)
        self.system = system


def best_way(house: House, hole: Opening, item: Item, sky: _Sky) -> Pair:
    """The item upright, or a pane on its side where that brings more or fits alone."""
    upright = _pair(house, hole, item, sky, turned=False)
    if item.line.kind is not SalvagedKind.PANE or item.line.width == item.line.height:
        return upright
    lying = _pair(house, hole, item, sky, turned=True)
    return min((upright, lying), key=lambda pair: (bool(pair.refused), _cost(pair)))


def _pair(house: House, hole: Opening, item: Item, sky: _Sky, *, turned: bool) -> Pair:
    line = item.line
    width, height = (line.height, line.width) if turned else (line.width, line.height)
    pair = Pair(opening=hole, item=item, turned=turned, width=width, height=height)
    refused = _refusal(pair, sky.system)
    return replace(pair, refused=refused) if refused else _warmed(house, pair, sky)


def _refusal(pair: Pair, system: str) -> str:
    """Why an item does not go into a hole."""
    hole, line = pair.opening, pair.item.line
    is_door = hole.kind is OpeningKind.DOOR
    if is_door != (line.kind is SalvagedKind.DOOR):
        return f"it is a {line.kind}"
    if hole.opens and not line.opens:
        return "it does not open, and the hole is a way out"
    if hole.kind is OpeningKind.ROOFLIGHT and line.safety is not SafetyGlass.LAMINATED:
        return "glass overhead must be laminated"
    side, top = pair.strips
    for strip, name in ((side, "wide"), (top, "high")):
        if strip < PACKING.value - HAIR:
            more = 2.0 * (PACKING.value - strip)
            return f"it is {show(more, 'mm', 0, system)} too {name} for the hole with its packing"
        if strip > MOST_PACKED.value + HAIR:
            return f"more than {show(MOST_PACKED.value, 'mm', 0, system)} would have to be packed beside it"
    return ""


def _warmed(house: House, pair: Pair, sky: _Sky) -> Pair:
    """The pair with its heat, as far as glass and climate are known."""
    hole, line = pair.opening, pair.item.line
    rest = hole.area - pair.width * pair.height
    if hole.kind is OpeningKind.DOOR:
        u_value = DOOR_U if line.u_value is None else line.u_value
        hours = _kelvin_hours(sky)
        return replace(
            pair, u=u_value, gain=0.0, loss=hours * (u_value * (hole.area - rest) + STRIP_U.value * rest)
        )
    if line.panes is None:
        return pair
    seen = replace(
        hole,
        width=pair.width,
        height=pair.height,
        panes=line.panes,
        salvaged=True,
        u_value=line.u_value,
        g_value=None,
        frame_share=None,
        shutter=None,
    )
    window = windows_of(replace(house, openings=(seen,)))[0].window
    if window is None:
        return pair
    if sky.weather is None or sky.path is None:
        return replace(pair, u=window.u, gain=0.0, loss=window.u * window.area + STRIP_U.value * rest)
    balance = window_balance(window_year(window, sky.weather, sky.path, horizon=sky.horizon), sky.weather)
    strip = STRIP_U.value * rest * balance.loss / window.u
    return replace(
        pair,
        u=window.u,
        gain=balance.gain * window.area / KWH,
        loss=(balance.loss * window.area + strip) / KWH,
    )


def _kelvin_hours(sky: _Sky) -> float:
    """Kelvins times thousands of hours in the days that need heat; 1 where no climate is known."""
    if sky.weather is None:
        return 1.0
    from bermwright.handbook.glazing.year import HEATED_BELOW, HOURS_A_DAY, INDOOR
    from bermwright.handbook.weather import daily

    heated = np.repeat(daily(sky.weather.temperature) < HEATED_BELOW, HOURS_A_DAY)
    return float(np.sum(np.maximum(INDOOR - sky.weather.temperature[heated], 0.0))) / 1e3


def _match(hole: Opening, row: list[Pair], place: int | None, used: set[int], system: str) -> Match:
    pair = None if place is None else row[place]
    line = None if place is None else row[place].item.line
    others = [one for at, one in enumerate(row) if at != place and not one.refused and one.item.line != line]
    free = [one for one in others if row.index(one) not in used] or others
    following = min(free, key=_cost, default=None)
    return Match(opening=hole, pair=pair, reasons=tuple(_reasons(hole, pair, (row, following), system)))


def _reasons(
    hole: Opening, pair: Pair | None, others: tuple[list[Pair], Pair | None], system: str
) -> Iterator[str]:
    row, following = others
    if pair is None:
        yield from _nothing(hole, row, system)
        return
    side, top = pair.strips
    turned = " on its side" if pair.turned else ""
    yield (
        f"It fits{turned} with {show(side, 'mm', 0, system)} to pack on each side and "
        f"{show(top, 'mm', 0, system)} above and below."
    )
    if not pair.known:
        what = (
            "Its glass is not described"
            if pair.item.line.panes is None
            else "Which way it looks is not said (axis)"
        )
        yield f"{what}, so it is taken only where nothing else fits."
    elif hole.kind is not OpeningKind.DOOR and pair.gain > 0.0:
        brings = f"{pair.gain:.0f} kWh of sun and loses {pair.loss:.0f} kWh"
        yield f"While the house is heated it brings {brings} a year."
    if following is not None and following.known and pair.known and pair.gain + following.gain > 0.0:
        less = pair.net - following.net
        word = "less" if less >= 0.0 else "more; it serves better in another hole"
        yield f"The next, {following.item.name}, would bring {abs(less):.0f} kWh {word}."


def _nothing(hole: Opening, row: list[Pair], system: str) -> Iterator[str]:
    """Why nothing goes in, and the way out."""
    kind = SalvagedKind.DOOR if hole.kind is OpeningKind.DOOR else None
    own = [one for one in row if (one.item.line.kind is SalvagedKind.DOOR) == (kind is SalvagedKind.DOOR)]
    if not own:
        yield "Nothing of this kind is in the list."
        return
    for pair in sorted(own, key=lambda one: abs(one.width * one.height - hole.area))[:2]:
        why = pair.refused or "it serves better in another hole"
        yield f"{pair.item.name} stays out: {why}."
    near = min(own, key=lambda one: abs(one.width - hole.width) + abs(one.height - hole.height))
    size = " × ".join(show(side + 2.0 * PACKING.value, "mm", 0, system) for side in (near.width, near.height))
    yield f"Way out: make the hole {size} for {near.item.name}, or find another."
