"""What to measure at a stage that brings no lift of soil, with boxes for what is read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import BLANK, Table
from bermwright.base.units import show
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from bermwright.book.pages.inputs import VaultPages
    from bermwright.stages.nouns import Stage


def readings(stage: Stage, vault: VaultPages, system: str) -> Table:
    """The table of readings of a stage."""
    form = vault.form
    span = ("span between the feet, centre to centre", show(form.span, "m", 3, system))
    top = float(form.rib.inside.z.max())
    crown = ("underside of the ribs at the crown", show(top, "level", 3, system))
    plumb = ("plumb of the worst rib, in its height", "0 mm" if system == "metric" else "0 in")
    drop = ("underside of the ribs at the crown, for comparison", show(top, "level", 3, system))
    cover = float(form.ground.finished.level(0.0)) - form.crown_level
    depth = ("soil over the crown, turf included", show(cover, "m", 2, system))
    turf = ("turf, both layers", show(form.ground.turf, "m", 2, system))
    damp = ("damp, soft or cracked places: how many", "none")
    rows = {
        StageKind.RIBS: (span, crown, plumb),
        StageKind.LAGGED: (span, drop, plumb),
        StageKind.WRAPPED: (drop, ("level of each painted mark, by water level", "as painted")),
        StageKind.COVER: (depth, drop),
        StageKind.TURF: (turf, drop),
        StageKind.SETTLED: (drop, ("deepest hollow in the turf", "none")),
        StageKind.LONG_TERM: (drop, damp),
    }.get(stage.kind, (drop,))
    return Table(
        head=("what", "should be", "left", "right"),
        rows=tuple((what, value, BLANK, BLANK) for what, value in rows),
        align="lrrr",
        widths=(1, 0, 0, 0),
    )
