"""Full-size templates of the rib pieces, cut onto sheets that a home printer takes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.drawing import Sheet
from bermwright.book.templates.drawn import Laying, piece_items
from bermwright.book.templates.lengths import METRIC
from bermwright.book.templates.marks import nail_words
from bermwright.book.templates.sheets import sheet_line, stamp_line, whole_sheet
from bermwright.book.templates.tiles import PAPERS, TRUE, caption_items, frame_items, laid, tiling
from bermwright.form.rib.flat import patterns
from bermwright.form.rib.nails import nail_sets

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Item, Point
    from bermwright.book.templates.lengths import Lengths
    from bermwright.book.templates.sheets import Stamp
    from bermwright.book.templates.tiles import Tiling
    from bermwright.form.rib.flat import Flat, Pattern
    from bermwright.form.rib.nails import Nailing, NailSet
    from bermwright.form.shapes import VaultForm

_MM = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One pattern on its way to paper."""

    pattern: Pattern
    laying: Laying
    plan: Tiling


@dataclass(frozen=True, slots=True, kw_only=True)
class TemplateSummary:
    """What there is to print, known before anything is drawn."""

    paper: str
    patterns: tuple[Pattern, ...]
    sheets: tuple[int, ...]
    """Sheets of each pattern."""
    ribs: int
    jobs: tuple[Job, ...]

    @property
    def total(self) -> int:
        """All sheets."""
        return sum(self.sheets)

    def first(self, number: int) -> int:
        """Number of the first sheet of a pattern, counted from 1 over all templates."""
        return 1 + sum(self.sheets[:number])


def template_count(form: VaultForm, paper: str = "A4", *, stretch: Point = TRUE) -> int:
    """How many sheets the templates of a vault's ribs take."""
    return template_summary(form, paper, stretch=stretch).total


def template_summary(form: VaultForm, paper: str = "A4", *, stretch: Point = TRUE) -> TemplateSummary:
    """The different pieces and how many sheets each takes."""
    jobs = tuple(_job(pattern, paper, stretch) for pattern in patterns(form.rib))
    return TemplateSummary(
        paper=paper,
        patterns=tuple(job.pattern for job in jobs),
        sheets=tuple(len(job.plan.cells) for job in jobs),
        ribs=form.ribs,
        jobs=jobs,
    )


def rib_templates(
    form: VaultForm,
    paper: str = "A4",
    *,
    stamp: Stamp,
    nailing: Nailing | None = None,
    stretch: Point = TRUE,
    lengths: Lengths = METRIC,
) -> tuple[Sheet, ...]:
    """Every sheet of the templates, pattern by pattern from the foot end."""
    summary = template_summary(form, paper, stretch=stretch)
    return summed_templates(form, summary, stamp=stamp, nailing=nailing, lengths=lengths)


def summed_templates(
    form: VaultForm,
    summary: TemplateSummary,
    *,
    stamp: Stamp,
    nailing: Nailing | None = None,
    lengths: Lengths = METRIC,
) -> tuple[Sheet, ...]:
    """The same, of what was counted before."""
    sheets: list[Sheet] = []
    for number, job in enumerate(summary.jobs):
        words = _lines(form, job, nailing, lengths)
        drawing = piece_items(job.laying, _sets(job.pattern, nailing), lengths)
        first, total = summary.first(number), summary.total
        sheets += _sheets(job, drawing, words, stamp, lengths, first=first, total=total)
    return tuple(sheets)


def _lines(form: VaultForm, job: Job, nailing: Nailing | None, lengths: Lengths) -> tuple[str, ...]:
    """What is cut, how, and what proves it."""
    return (
        piece_line(form, job, lengths),
        _cutting_line(job, nailing, lengths),
        check_line(job.pattern.flat, lengths),
    )


def whole_templates(
    form: VaultForm, *, stamp: Stamp, nailing: Nailing | None = None, lengths: Lengths = METRIC
) -> tuple[Sheet, ...]:
    """Every template uncut, at 1:1, lying with its foot at the left."""
    sheets = []
    for pattern in patterns(form.rib):
        laying = Laying(flat=pattern.flat, upright=False)
        plan = tiling(laying.outline, PAPERS["A3"])
        job = Job(pattern=pattern, laying=laying, plan=plan)
        piece, cutting, check = _lines(form, job, nailing, lengths)
        lines = (piece, *cutting.replace(" · figures", "\nfigures").split("\n"), check, stamp_line(stamp))
        sheets.append(
            whole_sheet(
                piece_items(laying, _sets(pattern, nailing), lengths),
                laying.outline,
                pattern_title(pattern),
                lines,
            )
        )
    return tuple(sheets)


def _job(pattern: Pattern, paper: str, stretch: Point = TRUE) -> Job:
    """The way of laying a piece that needs fewer sheets; upright when both need the same."""
    if paper not in PAPERS:
        raise ValueError(f"Templates are printed on A4 or A3 or a roll, not on {paper!r}.")
    jobs = []
    for upright in (True, False):
        laying = Laying(flat=pattern.flat, upright=upright)
        jobs.append(
            Job(pattern=pattern, laying=laying, plan=tiling(laying.outline, PAPERS[paper], stretch=stretch))
        )
    return min(jobs, key=lambda job: len(job.plan.cells))


def _sheets(
    job: Job,
    drawing: tuple[Item, ...],
    words: tuple[str, ...],
    stamp: Stamp,
    lengths: Lengths,
    *,
    first: int,
    total: int,
) -> Iterator[Sheet]:
    whole = laid(drawing)
    title = pattern_title(job.pattern)
    for index, cell in enumerate(job.plan.cells):
        lines = (
            *words,
            sheet_line(job.plan, index, first=first, total=total, lengths=lengths),
            stamp_line(stamp),
        )
        items = (*frame_items(job.plan, cell, whole), *_caption(job, cell, title, lines))
        yield Sheet(
            width=job.plan.paper[0],
            height=job.plan.paper[1],
            items=items,
            title=f"{title}, sheet {index + 1} of {len(job.plan.cells)}",
            alt=f"Full-size template of {title}: print at 100 %, check the 100 mm square.",
        )


def _caption(job: Job, cell: tuple[int, int], title: str, lines: tuple[str, ...]) -> Iterator[Item]:
    return caption_items(job.plan, cell, title, lines, turned=job.laying.upright)


def pattern_title(pattern: Pattern) -> str:
    """`Rib pieces 1L2, 1R2`: the names that one template serves."""
    word = "Rib piece" if len(pattern.names) == 1 else "Rib pieces"
    return f"{word} {', '.join(pattern.names)}"


def piece_line(form: VaultForm, job: Job, lengths: Lengths = METRIC) -> str:
    """What is cut, for which part: board, number, bevels."""
    piece = job.pattern.flat.piece
    layers = job.pattern.layers
    thick = form.rib.width / form.rib.layers
    board = lengths.board(thick * _MM, piece.blank_width * _MM, piece.blank_length * _MM)
    bevels = foot_first(piece.end_bevels, mirrored=job.pattern.flat.mirrored)
    degrees = " and ".join(f"{abs(math.degrees(bevel)):.1f}°" for bevel in bevels)
    parts = [
        form.name,
        f"layer {', '.join(map(str, layers))} of {form.rib.layers}",
        "L left, R right of the crown, walking in",
        f"board {board}",
        f"cut {job.pattern.per_rib * form.ribs}",
        f"ends {degrees} off square, foot first",
    ]
    return " · ".join(parts)


def foot_first(bevels: tuple[float, float], *, mirrored: bool) -> tuple[float, float]:
    """The two end bevels in the order foot end, crown end."""
    return (bevels[1], bevels[0]) if mirrored else bevels


def _cutting_line(job: Job, nailing: Nailing | None, lengths: Lengths) -> str:
    way = "foot below, crown above" if job.laying.upright else "foot at the left, crown at the right"
    face = "THIS FACE OUT (to the door)"
    if job.pattern.turned:
        face = f"THIS FACE OUT (to the door), turned over for {', '.join(job.pattern.turned)}"
    nails = _nails_line(job.pattern, nailing, lengths)
    figures = f"figures: {lengths.unit} along the board / from its straight edge"
    cut = f"cut on the line, tint is the side you keep, {lengths.tolerance}"
    return f"{face} · {way} · {cut} · {figures} · {nails}"


def _nails_line(pattern: Pattern, nailing: Nailing | None, lengths: Lengths) -> str:
    if nailing is None:
        return "nails: not in the house file"
    if not pattern.nailed:
        return "no nails: layer 1 lies on the jig, layer 2 is nailed to it"
    long = lengths.whole(nailing.length * _MM, 0)
    size = f"nails {nailing.diameter * _MM:.1f} mm × {long}"
    marks = ", ".join(
        f"{nail_words(one.turn)} in layer {' and '.join(map(str, one.layers))}"
        for one in nail_sets(pattern, nailing)
    )
    return f"{size}: {marks}" if pattern.nailed == pattern.names else f"{size}: {marks}, not in layer 1"


def _sets(pattern: Pattern, nailing: Nailing | None) -> tuple[NailSet, ...]:
    return () if nailing is None else nail_sets(pattern, nailing)


def check_line(flat: Flat, lengths: Lengths = METRIC) -> str:
    """Three lengths of the whole piece: whoever has joined the sheets measures them, the diagonal last."""
    foot_room, foot_soil, crown_soil, crown_room = flat.corners
    room, soil, across = (
        lengths.whole(_MM * math.dist(one, other))
        for one, other in ((foot_room, crown_room), (foot_soil, crown_soil), (foot_room, crown_soil))
    )
    return (
        f"whole piece, corner to corner: room side {room} · soil side {soil} · "
        f"diagonal, foot room side to crown soil side {across}"
    )
