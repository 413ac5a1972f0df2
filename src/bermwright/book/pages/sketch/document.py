"""Everything that is said of a sketch, as a document for the terminal and for paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Columns, Document, Figure, Heading, Para, Points, Table, plain
from bermwright.base.units import show
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.sketch import arc_sheet, fitted_sheet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.adapt.shape.envelope import Envelope
    from bermwright.adapt.sketch import ArcChoice, Better, SketchAdvice, SketchFits
    from bermwright.handbook.fitting import Fit

ROUNDLY = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven"}


def sketch_document(
    advice: SketchAdvice,
    *,
    title: str,
    house: str,
    revision: str,
    date: str,
    system: str = "metric",
    measures: tuple[tuple[str, str], ...] = (),
) -> Document:
    """The whole document; `measures` are lines for the house file."""
    blocks = (
        Heading(text=f"Sketch: {plain(title)}", level=0),
        Para(headline(advice, system)),
        Figure(sheet=fitted_sheet(advice.fits, advice.better, system=system), caption=_caption(advice)),
        *_remarks(advice),
        *_fits(advice.fits, system),
        *_bending(advice, system),
        *_arcs(advice.arcs, system),
        *_lines(measures),
        Para(
            "A calculation aid, not reviewed: it says how well a curve fits the points that were given and "
            "what the ribs of this file would bend with it, not that a house of this shape stands.",
            small=True,
        ),
    )
    return Document(
        title="Sketch", subtitle=title, house=house, revision=revision, date=date, mark=NOT_REVIEWED,
        blocks=blocks, system=system,
    )  # fmt: skip


def headline(advice: SketchAdvice, system: str) -> str:
    """What it is and what it bends, in two sentences."""
    best, alike = advice.fits.best, advice.fits.alike
    span, rise = show(best.span, "m", 2, system), show(best.rise, "m", 2, system)
    what = f"Your sketch is nearest to a {best.family}, {span} wide and {rise} high."
    if not any(advice.fits.likely):
        what += " There are too few points to tell it from another family."
    elif len(alike) > 1:
        what += f" It cannot be told from a {' or a '.join(fit.family for fit in alike[1:])}."
    if advice.better is None:
        rest = advice.silent and f"Its bending is not known: {advice.silent.rstrip('.')}."
        return f"{what} {rest or 'Nothing of the same span and rise bends clearly less on this ground.'}"
    return f"{what} {better_words(advice.better, system)}"


def better_words(better: Better, system: str) -> str:
    """How much more the sketch bends, and how little would mend it."""
    times = round(better.times)
    often = ROUNDLY.get(times, f"{times}") if better.times >= 1.75 else f"{better.times:.1f}"
    bends = f"It bends {often} times as much as it need, worst at {better.stage}"
    move = show(abs(better.outward), "cm" if system == "metric" else "m", 0, system)
    way = "more" if better.outward > 0.0 else "less"
    return f"{bends}; {move} {way} at the haunch, as a {better.vault.curve}, mends it."


def _caption(advice: SketchAdvice) -> str:
    words = f"Crosses: the points. Full line: the {advice.fits.best.family}."
    if advice.better is not None:
        words += f" Dashed: the {advice.better.vault.curve} that bends least at this span and rise."
    if advice.fits.outliers:
        words += " Ringed: points left out of the fit."
    return words


def _remarks(advice: SketchAdvice) -> Iterator[Block]:
    says = list(advice.fits.arch.says)
    if advice.fits.outliers:
        says.append(_outlying(advice.fits.outliers))
    if says:
        yield Points(items=tuple(says))


def _outlying(points: tuple[int, ...]) -> str:
    if len(points) == 1:
        return (
            f"Point {points[0]} lies far off the curve that all others follow, and was left out: measure it "
            "again."
        )
    names = ", ".join(str(at) for at in points)
    return f"Points {names} lie far off the curve of all others, and were left out: measure them again."


def _fits(fits: SketchFits, system: str) -> Iterator[Block]:
    yield Heading(text="How well every family fits", level=2)
    yield Table(
        head=("family", "span", "rise", "mean distance", "largest", "how likely"),
        rows=tuple(_fit_row(fit, weight, system) for fit, weight in zip(fits.fits, fits.likely, strict=True)),
        caption="± is the 95 % interval from the scatter of the points. How likely: beside the other "
        "families, with the number of measures of each counted against it.",
    )
    if fits.left_out:
        yield Para("Not fitted: " + "; ".join(fits.left_out) + ".", small=True)


def _fit_row(fit: Fit, weight: float, system: str) -> tuple[str, ...]:
    def measure(name: str, value: float) -> str:
        half = fit.errors.get(name)
        text = show(value, "m", 3, system)
        return text if half is None else f"{text} ± {show(half, 'm', 3, system)}"

    return (
        fit.family,
        measure("span", fit.span),
        measure("rise", fit.rise),
        show(fit.spread, "mm", 1, system),
        show(fit.largest, "mm", 1, system),
        _likely(fit, weight),
    )


def _likely(fit: Fit, weight: float) -> str:
    if weight == 0.0 and not fit.errors:
        return "not known"
    return "under 1 %" if weight < 0.01 else f"{100.0 * weight:.0f} %"


def _bending(advice: SketchAdvice, system: str) -> Iterator[Block]:
    if advice.own is None:
        return
    yield Heading(text="What it bends on this ground", level=2)
    rows = [_bending_row(f"your sketch ({advice.fits.best.family})", advice.own, system)]
    if advice.better is not None:
        rows.append(_bending_row(str(advice.better.vault.curve), advice.better.envelope, system))
    yield Table(
        head=("curve", "largest bending", "stage", "place", "soil run"),
        rows=tuple(rows),
        align="lrlll",
        caption="Per metre of vault, over all soil runs, stages and cases, with characteristic loads.",
    )


def _bending_row(name: str, envelope: Envelope, system: str) -> tuple[str, ...]:
    return (
        name,
        show(envelope.bending, "kN m/m", 1, system),
        envelope.stage,
        envelope.place,
        envelope.run,
    )


def _arcs(arcs: tuple[ArcChoice, ...], system: str) -> Iterator[Block]:
    """Chains for the compass, two side by side, then their measures."""
    if not arcs:
        return
    yield Heading(text="Arcs for the compass", level=2)
    yield Para(
        "Arcs with one tangent where they meet: two neighbouring centres and their joint lie on one straight "
        "line. More arcs come nearer to the curve."
    )
    pairs = [arcs[at : at + 2] for at in range(0, len(arcs), 2)]
    for pair in pairs:
        shown = tuple((_arc_figure(choice, system),) for choice in pair)
        yield Columns(left=shown[0], right=shown[1] if len(shown) > 1 else (), left_share=0.5)
    for choice in arcs:
        yield _arc_table(choice, system)


def _arc_figure(choice: ArcChoice, system: str) -> Figure:
    off = show(choice.chain.deviation, "mm", 0, system)
    bends = "" if choice.bending is None else f", bends {show(choice.bending, 'kN m/m', 1, system)}"
    return Figure(
        sheet=arc_sheet(choice.chain, system=system), caption=f"{_count(choice)}: at most {off} off{bends}."
    )


def _count(choice: ArcChoice) -> str:
    number = len(choice.chain.arcs)
    return f"{number} arc{'' if number == 1 else 's'}"


def _arc_table(choice: ArcChoice, system: str) -> Table:
    def place(x: float, z: float) -> str:
        side = "right" if x > 0.0 else "left"
        across = "on the axis" if abs(x) < 5e-4 else f"{show(abs(x), 'm', 3, system)} {side}"
        up = f"{show(abs(z), 'm', 3, system)} {'above' if z > 0.0 else 'below'} the feet"
        return f"{across}, {'level with the feet' if abs(z) < 5e-4 else up}"

    rows = []
    for number, arc in enumerate(choice.chain.arcs, 1):
        start, end = arc.point(arc.start), arc.point(arc.end)
        rows.append(
            (
                str(number),
                show(arc.radius, "m", 3, system),
                place(arc.x, arc.z),
                place(float(start[0]), float(start[1])),
                place(float(end[0]), float(end[1])),
            )
        )
    return Table(
        head=("arc", "radius", "centre", "from", "to"), rows=tuple(rows), align="lrlll",
        caption=f"{_count(choice)}, from the left foot to the right.", widths=(0.0, 0.0, 1.0, 1.0, 1.0),
    )  # fmt: skip


def _lines(measures: tuple[tuple[str, str], ...]) -> Iterator[Block]:
    if measures:
        yield Heading(text="For the house file", level=2)
        lines = "; ".join(f"{key} = {value}" for key, value in measures)
        yield Para(f"Write into its [[vault]]: {plain(lines)}.")
