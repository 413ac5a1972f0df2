"""The finished section with a number on each kind of timber and on the sheet that keeps them dry."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bermwright.base.drawing import Leader
from bermwright.book.sheets.paper import Figures
from bermwright.book.sheets.scene import supports_of
from bermwright.book.sheets.section import Dress, section_sheet
from bermwright.house import CoverKind, Timbers

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.base.drawing import Sheet
    from bermwright.form.shapes import CurveLine, VaultForm
    from bermwright.rules.study import Study

ALONG: Mapping[Timbers, float] = {Timbers.RIBS: 0.24, Timbers.PLANKS: 0.5}
"""Where along the curve the leader ends, as a share of its length."""
ROOM = 0.62
"""How far the number stands from the place towards the middle of the room, as a share."""


def places_sheet(study: Study, numbers: Mapping[Timbers, int], sheet: int, *, system: str) -> Sheet:
    """The section; `numbers` are those of the table below it, `sheet` the one of the membrane."""
    form = study.form
    dress = Dress(
        figures=Figures(system=system, metres=True), axis=study.vault.axis, person=False, heights=False,
        dimensions=False,
    )  # fmt: skip
    drawn = section_sheet(
        form, scale=50.0, width=174.0, supports=supports_of(study.vault, study.house), dress=dress
    )
    view = drawn.view
    if view is None:
        return drawn
    middle = view.point(0.0, 0.5 * (form.springing + float(form.rib.inside.z.max())))

    def led(number: int, place: tuple[float, float]) -> Leader:
        to = view.point(*place)
        at = tuple(a + ROOM * (b - a) for a, b in zip(to, middle, strict=True))
        return Leader(to=to, at=(at[0], at[1]), text=str(number))

    leaders = [led(number, place) for number, place in _spots(study, numbers, sheet)]
    named = ", ".join(f"{number} {timbers}" for timbers, number in numbers.items())
    return replace(
        drawn, items=(*drawn.items, *leaders), title="Where the timbers lie",
        alt=f"Section of {form.name} with numbers: {named}, {sheet} the sheet that keeps them dry.",
    )  # fmt: skip


def _spots(
    study: Study, numbers: Mapping[Timbers, int], sheet: int
) -> Iterator[tuple[int, tuple[float, float]]]:
    form = study.form
    for timbers, number in numbers.items():
        if timbers is Timbers.RIBS:
            yield number, _on(form.rib.centreline, ALONG[timbers])
        elif timbers is Timbers.PLANKS:
            band = _band(form, CoverKind.LAGGING)
            if band is not None:
                yield number, band
        elif timbers in {Timbers.PLATES, Timbers.SOCKETS}:
            foot = form.rib.centreline
            yield number, (float(foot.x[-1]), float(foot.z[-1]))
    membrane = _band(form, CoverKind.MEMBRANE, share=0.74)
    if membrane is not None:
        yield sheet, membrane


def _band(form: VaultForm, kind: CoverKind, share: float | None = None) -> tuple[float, float] | None:
    """The middle of a layer over the ribs."""
    band = next((one for one in form.bands if one.kind == kind), None)
    if band is None:
        return None
    at = ALONG[Timbers.PLANKS] if share is None else share
    inner, outer = _on(band.inner, at), _on(band.outer, at)
    return 0.5 * (inner[0] + outer[0]), 0.5 * (inner[1] + outer[1])


def _on(curve: CurveLine, share: float) -> tuple[float, float]:
    x, z, _ = curve.at(share * curve.length)
    return float(x), float(z)
