"""The curve by numbers: ordinates both ways, and the length of string."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.document import Block, Columns, Heading, Para, Table
from bermwright.base.units import show
from bermwright.form.setout.ordinates import by_distance, by_height

if TYPE_CHECKING:
    from bermwright.book.pages.inputs import BookInputs, VaultPages
    from bermwright.form.setout.ordinates import Ordinates
    from bermwright.form.shapes import RibForm, VaultForm

_CURVES = ("inside", "centreline", "outside")
_FLAT = "The curve is nowhere steeper than 50 degrees: distances alone will do."
_STEEP = "The curve is nowhere flatter than 50 degrees: heights alone will do."


def setting_out_pages(vault: VaultPages, book: BookInputs) -> tuple[Block, ...]:
    """The curve by ordinates, for a floor, a board or a wall."""
    rib, system = vault.form.rib, book.system
    near_crown, near_feet = ordinate_tables(vault.form, system)
    return (
        Heading(
            text=f"Setting out the curve of {vault.name}",
            lead="Paper stretches, numbers do not: set the curve out from these, then compare.",
        ),
        Para(
            "All measures are true, full size. Distances count from the axis of the vault, heights from "
            f"the springing ({show(vault.form.springing, 'level', 3, system)} above the finished floor). "
            "Inside and outside are true parallels of the centreline, measured square to it. Bend a "
            "batten through the points: a point that will not lie on a fair curve is a mistake. Look for "
            "it."
        ),
        Columns(
            left=(
                Heading(text="Near the crown: heights at distances", level=2),
                *near_crown,
            ),
            right=(
                Heading(text="Near the feet: distances at heights", level=2),
                *near_feet,
            ),
            left_share=0.5,
        ),
        Heading(text="Lengths along the curve", level=2),
        _lengths(rib, system),
        Para(_string_note(vault, system)),
    )


def ordinate_tables(form: VaultForm, system: str) -> tuple[tuple[Block, ...], tuple[Block, ...]]:
    """Ordinates by distance near the crown, and by height near the feet."""
    distances, heights = by_distance(form.rib, form.springing), by_height(form.rib, form.springing)
    return _table("from axis", distances, system, _STEEP), _table("height", heights, system, _FLAT)


def _table(first: str, ordinates: Ordinates, system: str, without: str) -> tuple[Block, ...]:
    if not ordinates.at:
        return (Para(without),)
    if ordinates.alike:
        return (
            Table(
                head=(f"{first} m", *_CURVES),
                rows=_rows(ordinates.at, ordinates.left, system),
                align="rrrr",
                strong=(2,),
            ),
        )
    sides = (("left", ordinates.left), ("right", ordinates.right))
    return tuple(
        Table(
            head=(f"{first} m", *_CURVES),
            rows=_rows(ordinates.at, values, system),
            align="rrrr",
            caption=f"{side} of the axis",
            strong=(2,),
        )
        for side, values in sides
    )


def _rows(at: tuple[float, ...], values: np.ndarray, system: str) -> tuple[tuple[str, ...], ...]:
    return tuple(
        (_metres(place, 2, system), *(_metres(float(value), 3, system) for value in row))
        for place, row in zip(at, values, strict=True)
        if np.isfinite(row).any()
    )


def _metres(value: float, digits: int, system: str) -> str:
    """A length without its unit; empty where the curve does not reach."""
    return show(value, "m", digits, system).removesuffix(" m") if math.isfinite(value) else ""


def _lengths(rib: RibForm, system: str) -> Table:
    lines = zip(_CURVES, (rib.inside, rib.centreline, rib.outside), strict=True)
    rows = tuple(
        (
            f"{name}, foot to foot",
            show(line.length, "m", 3, system),
            show(float(line.z.max()), "level", 3, system),
        )
        for name, line in lines
    )
    return Table(
        head=("line", "length", "level of its top"), rows=rows, align="lrr", widths=(2, 1, 1), strong=(1,)
    )


def _string_note(vault: VaultPages, system: str) -> str:
    length = show(vault.form.rib.centreline.length, "m", 3, system)
    if vault.curve == "catenary":
        return (
            f"*String: {length}.* A chain or limp cord of this length, hung from the two feet of the "
            "centreline, traces the *centreline* upside down. It does not trace the inside or the "
            "outside: a chain hung on another span is another curve. Draw those by measuring half the "
            "depth of the rib square to the centreline."
        )
    return (
        f"*String: {length}* along the centreline, to check a finished rib with a tape. A hung chain does "
        "*not* give this curve: use the ordinates. (Where a chain does serve, it traces the centreline, "
        "never the inside or outside.)"
    )
