"""Everything of setting out as a document of its own: for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Document
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.pages.setting_out.between import between_blocks
from bermwright.book.pages.setting_out.daily.rounds import round_blocks
from bermwright.book.pages.setting_out.ground import ground_text
from bermwright.book.pages.setting_out.levelled import levelled_blocks
from bermwright.book.pages.setting_out.shop import measured_blocks, shop_tables

if TYPE_CHECKING:
    from bermwright.form.setout import Levels, MeasuredRow, SetOut
    from bermwright.form.setout.parts import Between
    from bermwright.form.setout.rounds import RoundOut
    from bermwright.takeoff.digging import Balance


def setout_document(  # noqa: PLR0913  (all by name)
    outs: tuple[tuple[SetOut, Balance | None], ...],
    *,
    house: str,
    revision: str,
    date: str,
    system: str = "metric",
    levels: Levels | None = None,
    measured: tuple[MeasuredRow, ...] = (),
    between: Between | None = None,
    rounds: tuple[RoundOut, ...] = (),
) -> Document:
    """All numbers, without drawings."""
    blocks = [block for out, balance in outs for block in ground_text(out, balance, system)]
    blocks += [block for one in rounds for block in round_blocks(one, system)]
    if between is not None:
        blocks += between_blocks(between, system)
    blocks += [block for out, _ in outs for block in shop_tables(out, system)]
    if levels is not None:
        blocks += levelled_blocks(levels, system)
    if measured:
        blocks += measured_blocks(measured, system)
    return Document(
        title="Setting out", subtitle="", house=house, revision=revision, date=date, mark=NOT_REVIEWED,
        blocks=tuple(blocks), system=system,
    )  # fmt: skip
