"""One page a stage: do, measure, stop, sign. Lifts of fill that are done alike share a page, four at most."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.document import (
    BLANK,
    Block,
    Columns,
    Figure,
    Heading,
    Notice,
    Para,
    Points,
    SignatureLine,
    Table,
    plain,
)
from bermwright.base.findings import Spot
from bermwright.base.marks import PlumbLine, Side, StopMark
from bermwright.base.units import lengths_in, show
from bermwright.base.wording import ratio_text
from bermwright.book.pages.stages.readings import readings
from bermwright.book.sheets import stage_sheet
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.marks import Mark
    from bermwright.book.pages.inputs import BookInputs, StopLine, VaultPages
    from bermwright.stages.nouns import Stage
    from bermwright.takeoff import LiftRow

MOST_LIFTS = 4
HARD_LIFTS = 2
"""Lifts on a page when one of them needs room for its warnings."""
TALL_FIGURE = 80.0
"""A taller drawing (mm) leaves no room for a heading over the lines to sign on."""
PLUMB_BOB = 0.25
"""Level of the plumb bob's point over the floor (m)."""
LEAST_LEAD = 0.05
"""Less than this nobody can rake to (m)."""
FIGURE_WIDTH = 174.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """Stages that share a page."""

    first: int
    """Number of the first stage, counted from 1."""
    stages: tuple[Stage, ...]

    @property
    def last(self) -> Stage:
        """The stage that the page ends with."""
        return self.stages[-1]

    @property
    def number(self) -> str:
        """`4` or `4 to 7`."""
        end = self.first + len(self.stages) - 1
        return str(self.first) if end == self.first else f"{self.first} to {end}"


def stage_pages(vault: VaultPages, book: BookInputs) -> tuple[Block, ...]:
    """A page for each stage, in the order of building."""
    pages = paged(vault.stages, _hard(vault))
    return tuple(block for page in pages for block in _page(page, vault, book))


def _hard(vault: VaultPages) -> frozenset[str]:
    """Stages with something to say under Stop besides their lead."""
    names = set()
    for stage in vault.stages:
        ratio = vault.stage_ratio.get(stage.name, 0.0)
        stop = _stop_of(stage, vault)
        if stop is None and stage.kind is StageKind.FILL and _is_top(stage, vault):
            continue
        blocked = stop is None or stop.lead is None or stop.lead < LEAST_LEAD
        if blocked or ratio is None or not ratio <= 1.0:
            names.add(stage.name)
    return frozenset(names)


def paged(stages: tuple[Stage, ...], hard: frozenset[str] = frozenset()) -> tuple[Page, ...]:
    """Stages put onto pages: lifts that are done alike go together, fewer where some are `hard`."""
    pages: list[list[Stage]] = []
    for stage in stages:
        crowded = pages and any(one.name in hard for one in (*pages[-1], stage))
        if (
            pages
            and len(pages[-1]) < (HARD_LIFTS if crowded else MOST_LIFTS)
            and _alike(pages[-1][-1], stage)
        ):
            pages[-1].append(stage)
        else:
            pages.append([stage])
    starts = [1 + sum(map(len, pages[:i])) for i in range(len(pages))]
    return tuple(Page(first=first, stages=tuple(page)) for first, page in zip(starts, pages, strict=True))


def _alike(one: Stage, other: Stage) -> bool:
    """Whether two lifts are done in the same way, but for the level in the first line."""
    both_fill = one.kind is StageKind.FILL and other.kind is StageKind.FILL
    return (
        both_fill
        and one.do[1:] == other.do[1:]
        and one.props == other.props
        and one.cautions == other.cautions
    )


def _page(page: Page, vault: VaultPages, book: BookInputs) -> Iterator[Block]:
    yield Heading(text=f"Stage {page.number}. {page.last.title}", lead=plain(_lead(page, book.system)))
    figure = _figure(page, vault, book.system)
    yield figure
    held_back = any(_strength_stops(page, vault))
    title = "Do, once it holds" if held_back else "Do"
    steps = tuple(plain(lengths_in(step, book.system)) for step in page.last.do)
    do = (Heading(text=title, level=2), Points(items=steps, numbered=True))
    if page.last.kind is StageKind.FILL:
        measure = (Heading(text="Measure", level=2), *_fill_table(page, vault, book.system))
        yield Columns(left=do, right=measure, left_share=0.4)
    else:
        measure = (Heading(text="Measure", level=2), readings(page.last, vault, book.system))
        yield Columns(left=do, right=measure, left_share=0.46)
    yield Notice(kind="stop", lines=tuple(_stops(page, vault, book.system)))
    if page.last.cautions:
        yield Notice(kind="caution", lines=(plain(" ".join(page.last.cautions)),))
    yield Para(f"{plain(vault.basis)} Marks rounded down; soil left/right.".strip(), small=True)
    if figure.sheet.height < TALL_FIGURE:
        yield Heading(text="Sign", level=2)
    yield SignatureLine(labels=_signed(page.last.kind, book.system))


def _signed(kind: StageKind, system: str) -> tuple[str, ...]:
    done = {
        StageKind.FILL: "filled by",
        StageKind.SETTLED: "looked at by",
        StageKind.LONG_TERM: "looked at by",
    }
    degrees = "°F" if system == "imperial" else "°C"
    return (done.get(kind, "done by"), "checked by", f"air and soil, {degrees}", "date")


def _lead(page: Page, system: str) -> str:
    if page.last.kind is StageKind.FILL:
        levels = [stage.level for stage in page.stages if stage.level is not None]
        count = len(page.stages)
        lifts = "One lift" if count == 1 else f"{count} lifts"
        reach = f" up to {show(levels[-1], 'level', 2, system)}" if levels else ""
        return f"{lifts}{reach}, left and right in turn. Neither side runs past its stop mark."
    return {
        StageKind.RIBS: "Nothing is covered before every rib is braced, plumb and measured.",
        StageKind.LAGGED: "From both feet upwards, both sides in step.",
        StageKind.WRAPPED: "Look at every lap before it disappears.",
        StageKind.CROWN_SOIL: "A strip on the crown, before the sides are filled.",
        StageKind.COVER: "By hand, from both sides at once.",
        StageKind.TURF: "From the toes upwards.",
        StageKind.SETTLED: "What to look at in the first year.",
        StageKind.LONG_TERM: "What to look at every year.",
    }.get(page.last.kind, "")


def _figure(page: Page, vault: VaultPages, system: str) -> Figure:
    fill = page.last.kind is StageKind.FILL
    marks: tuple[Mark, ...] = (*_stop_marks(page.last, vault), _plumb_line(vault)) if fill else ()
    sheet = stage_sheet(
        vault.form,
        page.last,
        width=FIGURE_WIDTH,
        lifts=_levels(vault) if fill else (),
        supports=vault.supports,
        marks=marks,
        axis=vault.axis,
        system=system,
    )
    return Figure(sheet=sheet)


def _levels(vault: VaultPages) -> tuple[float, ...]:
    """Levels of all lifts, from the lowest."""
    return tuple(
        stage.level for stage in vault.stages if stage.kind is StageKind.FILL and stage.level is not None
    )


def _stop_marks(stage: Stage, vault: VaultPages) -> Iterator[StopMark]:
    stop = _stop_of(stage, vault)
    if stop is not None and stop.lead is not None and stop.lead >= LEAST_LEAD:
        for side in Side:
            yield StopMark(level=stop.level + stop.lead, side=side)


def _plumb_line(vault: VaultPages) -> PlumbLine:
    inside = vault.form.rib.inside
    top = int(inside.z.argmax())
    crown = Spot(float(inside.x[top]), float(inside.z[top]))
    return PlumbLine(top=crown, bottom=PLUMB_BOB, text="plumb line from the crown")


def _stop_of(stage: Stage, vault: VaultPages) -> StopLine | None:
    if stage.level is None:
        return None
    level = stage.level
    return next((stop for stop in vault.stops if abs(stop.level - level) < LEAST_LEAD / 10.0), None)


def _lift_of(stage: Stage, vault: VaultPages) -> LiftRow | None:
    if stage.level is None:
        return None
    level = stage.level
    return next((lift for lift in vault.lifts if abs(lift.above - level) < LEAST_LEAD / 10.0), None)


def _fill_table(page: Page, vault: VaultPages, system: str) -> tuple[Block, ...]:
    """Level, soil, stop mark and boxes for what the plumb line reads, lift by lift."""
    unit = "m³" if system == "metric" else "ft³"
    head = (
        "mark",
        "level",
        f"placed {unit}",
        f"loose {unit}",
        "may be ahead",
        "plumb line, mm" if system == "metric" else "plumb line, in",
    )
    first = 1 + sum(stage.kind is StageKind.FILL for stage in vault.stages[: page.first - 1])
    rows = tuple(
        _fill_row(number, stage, vault, system) for number, stage in enumerate(page.stages, start=first)
    )
    table = Table(head=head, rows=rows, align="lrrrrr", strong=(4,))
    lifts = [lift for stage in page.stages if (lift := _lift_of(stage, vault))]
    return (table, Para(_barrows(lifts))) if lifts else (table,)


def _fill_row(number: int, stage: Stage, vault: VaultPages, system: str) -> tuple[str, ...]:
    lift = _lift_of(stage, vault)
    level = show(stage.level, "level", 2, system) if stage.level is not None else "unknown"
    placed = _pair(lift.left, lift.right, system) if lift else "unknown"
    loose = _pair(lift.left_loose.high, lift.right_loose.high, system) if lift else "unknown"
    return (f"L{number} R{number}", level, placed, loose, _ahead(stage, vault, system), BLANK)


def _pair(left: float, right: float, system: str) -> str:
    """Left and right, or one figure for both."""
    sides = [show(volume, "m3", 1, system).split(" ")[0] for volume in (left, right)]
    return "/".join(dict.fromkeys(sides))


def _ahead(stage: Stage, vault: VaultPages, system: str) -> str:
    """How far one side may be ahead, in a word."""
    stop = _stop_of(stage, vault)
    if stop is None and _is_top(stage, vault):
        return "keep level"
    if stop is None or stop.lead is None:
        return "unknown"
    return "nothing" if stop.lead < LEAST_LEAD else show(stop.lead, "m", 2, system)


def _is_top(stage: Stage, vault: VaultPages) -> bool:
    """Whether the fill ends with this lift: nothing can be ahead of it, the crown is covered next."""
    fills = [one for one in vault.stages if one.kind is StageKind.FILL]
    return bool(vault.stops) and stage.name == fills[-1].name


def _barrows(lifts: list[LiftRow]) -> str:
    """Loads to have ready for each lift, left and right."""
    counts = [(f"{lift.left_loads.high:.0f}", f"{lift.right_loads.high:.0f}") for lift in lifts]
    said = ", ".join("/".join(dict.fromkeys(pair)) for pair in counts)
    side = "a side" if all(left == right for left, right in counts) else "left/right"
    return f"Barrow loads {side}, at most: *{said}*."


def _stops(page: Page, vault: VaultPages, system: str) -> Iterator[str]:
    """When to stop, in the order of weight."""
    yield from _strength_stops(page, vault)
    if page.last.kind is StageKind.FILL:
        yield from _lead_stops(page, vault, system)
    yield (
        "*Stop if a rib creaks, a joint opens, a foot shifts or the plumb line moves by itself.* "
        "Everybody out, and ask whoever signs for the work."
    )


def _strength_stops(page: Page, vault: VaultPages) -> Iterator[str]:
    """What the findings say of these stages, when they do not hold or nobody knows."""
    known = vault.stage_ratio
    ratios = {plain(stage.name): known[stage.name] for stage in page.stages if stage.name in known}
    failing = {name: ratio for name, ratio in ratios.items() if ratio is not None and ratio > 1.0}
    unknown = [name for name, ratio in ratios.items() if ratio is None or math.isnan(ratio)]
    if failing:
        said = ", ".join(f"{name} ({ratio_text(ratio)})" for name, ratio in failing.items())
        yield f"*Does not hold: do not begin.* Strength used: {said}."
    if unknown:
        yield f"*Not known whether it holds:* {', '.join(unknown)}. Do not begin."


def _lead_stops(page: Page, vault: VaultPages, system: str) -> Iterator[str]:
    stops = [(stage, _stop_of(stage, vault)) for stage in page.stages]
    stops = [(stage, stop) for stage, stop in stops if stop is not None or not _is_top(stage, vault)]
    unknown = [plain(stage.name) for stage, stop in stops if stop is None or stop.lead is None]
    if unknown:
        yield f"*Not known how far one side may be ahead:* {', '.join(unknown)}. Keep both sides level."
    leads = [stop for _, stop in stops if stop is not None and stop.lead is not None]
    yield from _no_lead_lines([s for s in leads if s.lead is not None and s.lead < LEAST_LEAD], system)
    marked = [stop for stop in leads if stop.lead is not None and stop.lead >= LEAST_LEAD]
    if marked:
        yield _lead_line(marked, system)


def _no_lead_lines(stops: list[StopLine], system: str) -> Iterator[str]:
    """The levels at which nothing may be ahead, those with the same remedy in one line."""
    levels: dict[str, list[str]] = {}
    for stop in stops:
        remedy = plain(stop.remedy) or "No lead holds there: ask before you go on."
        levels.setdefault(remedy, []).append(show(stop.level, "level", 2, system))
    for remedy, shown in levels.items():
        yield f"*Stop before {' and before '.join(shown)}.* {remedy}"


def _lead_line(stops: list[StopLine], system: str) -> str:
    """The last mark of the page in words, and how it changes on the way."""
    last = stops[-1]
    said = f"*Stop if one side is {_lead_at(last, system, 'ahead at')}.*"
    others = [stop for stop in stops[:-1] if stop.lead != last.lead]
    if others:
        said += f" On the way: {', '.join(_lead_at(stop, system, 'at') for stop in others)}."
    return f"{said} Either side; never past the red mark."


def _lead_at(stop: StopLine, system: str, word: str) -> str:
    lead = "an unknown lead" if stop.lead is None else show(stop.lead, "m", 2, system)
    return f"{lead} {word} {show(stop.level, 'level', 2, system)}"
