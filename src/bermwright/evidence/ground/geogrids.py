"""Fill held by layers of geogrid: values of the American highway manuals, of a textbook, and trial wedges.

The two volumes of the manual (Berg, Christopher and Samtani, FHWA-NHI-10-024 and -025, 2009) were not open
here. What is marked as read was quoted with its page on public pages: strengths of its example E1, the least
grip without a pull-out test, the safety and the length behind the wedge. The curve of the bulge and the
textbook's example (B. M. Das, Principles of Foundation Engineering, wall of 5 m with geotextile) are from
memory.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.soils import DAS
from bermwright.data.works.supports import FHWANHI10024, FHWANHI10025
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import retaining

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.base.sources import Work

POUND_A_FOOT = 14.593903
_HAND = "worked out by hand from the equation"
_WEDGE = "the straight wedge that pushes most, found by a search over its slope"


def _row(  # noqa: PLR0913, PLR0917  (one row of the tables below)
    name: str,
    work: Work,
    place: str,
    call: Callable[..., Any],
    inputs: Mapping[str, Any],
    expected: str,
    pick: Callable[[Any], float] = float,
    unit: str = "",
    kind: Kind = Kind.DERIVED,
    note: str = _HAND,
    provenance: Provenance = Provenance.DERIVED,
) -> Row:
    return Row(
        id=f"{work.key}-{name}",
        cite=Cite(work=work, place=place, provenance=provenance),
        kind=kind,
        call=call,
        inputs=inputs,
        expected=expected,
        unit=unit,
        pick=pick,
        note=note,
    )


def _strengths() -> list[Row]:
    table = ((3000, 1.3, "1085"), (6000, 1.3, "2169"), (9000, 1.2, "3525"))
    return [
        _row(
            f"strength-{quick}", FHWANHI10025, "table E1-7.3, page E1-15", retaining.long_term_strength,
            {"ultimate": quick * POUND_A_FOOT, "creep": 1.85, "damage": damage, "ageing": 1.15}, printed,
            float, "lb/ft", Kind.PUBLISHED, "", Provenance.READ,
        )
        for quick, damage, printed in table
    ]  # fmt: skip


def _pulls() -> list[Row]:
    book = {"spacing": 0.5, "weight": 15.7e3, "ratio": 0.26}
    found = [
        _row(
            f"spacing-{deep}", DAS, "geotextile wall of 5 m", retaining.layer_pull, {"depth": deep, **book},
            printed, lambda pull: 0.5 * 14e3 / 1.5 / float(pull), "m", Kind.PUBLISHED,
            "the distance of layers of 14 kN/m with safety 1.5, from the pull at 0.5 m", Provenance.MEMORY,
        )
        for deep, printed in ((2.0, "1.14"), (4.0, "0.57"), (5.0, "0.46"))
    ]  # fmt: skip
    loaded = {"depth": 2.0, "spacing": 0.3, "weight": 18e3, "ratio": 0.3, "surcharge": 5e3}
    return [
        *found,
        _row("pull-loaded", FHWANHI10024, "simplified method", retaining.layer_pull, loaded, "3690"),
    ]


def _wedges() -> list[Row]:
    book = {"length": 5.0, "height": 1.0, "angle": math.radians(36.0)}
    searched = ((30.0, "1.8453"), (36.0, "1.98095"), (40.0, "2.0674"))
    return [
        _row(
            "wedge", DAS, "geotextile wall of 5 m", retaining.beyond_wedge, book, "0.51",
            lambda left: 5.0 - float(left), "m", Kind.PUBLISHED, "length in the wedge a metre up",
            Provenance.MEMORY,
        ),
        *[
            _row(
                f"wedge-{angle:.0f}", FHWANHI10024, "wedge of Rankine", retaining.beyond_wedge,
                {"length": 3.0, "height": 2.0, "angle": math.radians(angle)}, printed,
                kind=Kind.INDEPENDENT, note=_WEDGE,
            )
            for angle, printed in searched
        ],
        _row(
            "wedge-short", FHWANHI10024, "wedge of Rankine", retaining.beyond_wedge,
            {"length": 1.0, "height": 3.0, "angle": math.radians(30.0)}, "0.0",
        ),
    ]  # fmt: skip


def _holds() -> list[Row]:
    bare = {"embedment": 0.5, "depth": 1.0, "weight": 10e3, "angle": math.pi / 4.0, "scale": 1.0}
    soil = {"embedment": 1.5, "depth": 1.0, "weight": 18e3, "angle": math.radians(34.0)}
    return [
        _row(
            "grip", FHWANHI10025, "page E8-6: 0.67 tan φ", retaining.layer_hold, bare, "0.67",
            lambda held: float(held) / 10e3, "", Kind.PUBLISHED, "for an angle of 45 degrees",
            Provenance.READ,
        ),
        _row("hold", FHWANHI10025, "page E8-6 and B-2", retaining.layer_hold, soil, "19523.0"),
        _row(
            "hold-cloth", FHWANHI10025, "page E8-6 and B-2", retaining.layer_hold, {**soil, "scale": 0.6},
            "14642.2",
        ),
    ]  # fmt: skip


def _bulges() -> list[Row]:
    read = "movement while it is built"
    curve = ((0.5, "1.4929"), (0.9, "0.81389"), (1.0, "0.7410"), (2.0, "0.70571"))
    return [
        _row(
            "bulge-usual", FHWANHI10024, read, retaining.face_bulge, {"length": 2.1, "height": 3.0}, "1.0",
            lambda moved: 75.0 * float(moved) / 3.0, "", Kind.PUBLISHED,
            "relative bulge of layers seven tenths as long as the face is high", Provenance.MEMORY,
        ),
        _row(
            "bulge-loaded", FHWANHI10024, read, retaining.face_bulge,
            {"length": 2.1, "height": 3.0, "surcharge": 20e3}, "1.25",
            lambda moved: float(moved) / 0.0403292, "", Kind.PUBLISHED,
            "a quarter more for each 20 kPa on top", Provenance.MEMORY,
        ),
        _row(
            "bulge-loaded-more", FHWANHI10024, read, retaining.face_bulge,
            {"length": 2.1, "height": 3.0, "surcharge": 80e3}, "80.658e-3",
        ),
        *[
            _row(
                f"bulge-{share:g}", FHWANHI10024, read, retaining.face_bulge,
                {"length": share * 3.0, "height": 3.0}, printed, lambda moved: 75.0 * float(moved) / 3.0,
            )
            for share, printed in curve
        ],
    ]  # fmt: skip


ROWS: tuple[Row, ...] = (*_strengths(), *_pulls(), *_wedges(), *_holds(), *_bulges())
