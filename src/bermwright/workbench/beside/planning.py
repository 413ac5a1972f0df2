"""Plans, elevations and the section along, with the parts that can be chosen in the plan."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Any

from starlette.responses import JSONResponse
from starlette.routing import Route

from bermwright.app.showing.dome import dome_plan_sheet
from bermwright.app.showing.places import seen_places
from bermwright.base.errors import BermwrightError
from bermwright.book.sheets.plans import elevation_sheet, floor_plan, section_along, site_plan
from bermwright.form.solids import vault_solids
from bermwright.formats.drawings import svg
from bermwright.workbench.beside.common import LIGHTS, AskedWrongError, not_known, page_in_hand, units_of
from bermwright.workbench.wording import sheet_view

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from bermwright.base.drawing import Sheet
    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House
    from bermwright.workbench.table import Page

SIDES = ("front", "back", "left", "right")
DRAWINGS = ("site", "floor", "along", *SIDES)
SMALL, LARGE = 110.0, 300.0
"""Width of a sheet (mm): beside the section, and in its place."""
TALL = 170.0
"""Most height of a sheet in the place of the section (mm)."""


def routes() -> list[Route]:
    """One question: a drawing by its name."""
    return [Route("/plan", plan)]


async def plan(request: Request) -> Response:
    """A plan or an elevation with its view, and the parts that can be chosen in it."""
    try:
        page = page_in_hand(request)
        data = await asyncio.to_thread(_plan, request, page)
    except BermwrightError as error:
        return not_known(error)
    return JSONResponse(data)


def _plan(request: Request, page: Page) -> dict[str, Any]:
    asked = request.query_params
    name, number = asked.get("drawing", "site"), asked.get("vault", "0")
    if name not in DRAWINGS:
        raise AskedWrongError(f"There is no such drawing; there are {', '.join(DRAWINGS)}.")
    light = asked.get("light", "day")
    if page.house.domes and not page.house.vaults:
        return _of_dome(page.house, name, units_of(request), light, large=asked.get("large") == "yes")
    if not number.isdecimal() or int(number) >= len(page.house.vaults):
        raise AskedWrongError("The house has no such vault.")
    form = page.form(int(number))
    if form is None:
        raise AskedWrongError("The file says too little to draw this vault.")
    solids = vault_solids(page.house, page.house.vaults[int(number)], form)
    size = (LARGE, TALL) if asked.get("large") == "yes" else (SMALL, SMALL)
    sheet = _sheet(page.house, (int(number), form, solids), name, size, units_of(request))
    return {
        "svg": svg(sheet, light if light in LIGHTS else "day", background=False, prefix=f"{name}{number}w"),
        "view": sheet_view(sheet),
        "title": sheet.title,
        "places": seen_places(page.house, int(number), solids, name),
    }


def _of_dome(house: House, name: str, system: str, light: str, *, large: bool) -> dict[str, Any]:
    if name not in {"site", "floor"}:
        raise AskedWrongError("Of a dome the plan is drawn here; its sides are among the drawings to print.")
    sheet = dome_plan_sheet(house, *((LARGE, TALL) if large else (SMALL, SMALL)), system)
    drawing = svg(sheet, light if light in LIGHTS else "day", background=False, prefix="domew")
    return {"svg": drawing, "view": sheet_view(sheet), "title": sheet.title, "places": []}


def _sheet(
    house: House,
    of: tuple[int, VaultForm, VaultSolids],
    name: str,
    size: tuple[float, float],
    system: str,
) -> Sheet:
    number, form, solids = of
    vault, (width, height) = house.vaults[number], size
    match name:
        case "site":
            return site_plan(house, vault, form, solids, width=width, height=height, system=system)
        case "floor":
            return floor_plan(house, vault, form, solids, width=width, height=height, system=system)
        case "along":
            return section_along(house, form, solids, width=width, height=height, system=system)
        case _:
            return elevation_sheet(house, form, solids, name, width=width, height=height, system=system)
