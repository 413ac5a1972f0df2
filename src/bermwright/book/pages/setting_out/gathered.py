"""The pages of setting out of one vault, made where house and form are at hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Figure, Heading, Notice, plain
from bermwright.book.pages.inputs import SetOutPages
from bermwright.book.pages.setting_out.ground import ground_pages
from bermwright.book.pages.setting_out.shop import shop_pages
from bermwright.book.sheets.jigs import jig_sheets
from bermwright.form.setout import SetOutError, setting_out, surveyed, tape_of
from bermwright.takeoff.digging import balance_of

if TYPE_CHECKING:
    from bermwright.form.setout import SurveyPoint
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault


def set_out_pages(
    house: House,
    vault: Vault,
    form: VaultForm,
    *,
    points: tuple[SurveyPoint, ...] | None = None,
    system: str = "metric",
) -> SetOutPages:
    """The pages; where something cannot be set out, why, and the way out."""
    try:
        name = house.survey.points if house.survey is not None else ""
        ground = surveyed(house, vault, points, name=name) if points is not None else None
        out = setting_out(house, vault, form, ground, tape=tape_of(system))
    except SetOutError as error:
        heading = Heading(text=f"Setting out {plain(vault.name)} on the ground")
        lines = tuple(plain(line.strip()) for line in str(error).splitlines())
        return SetOutPages(ground=(heading, Notice(kind="caution", lines=lines)))
    return SetOutPages(
        ground=ground_pages(out, balance_of(house, vault, form, out), system),
        curve=shop_pages(out, system),
        tools=(
            Heading(
                text=f"Simple tools and jigs for {plain(vault.name)}",
                lead="Made from offcuts before the work begins; sizes in millimetres, from this house.",
            ),
            *(Figure(sheet=sheet) for sheet in jig_sheets(out, house, system)),
        ),
    )
