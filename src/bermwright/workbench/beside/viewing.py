"""What the model view asks for: the bodies, the sun, and a line drawing where there is no such view."""

from __future__ import annotations

import asyncio
from dataclasses import asdict
from typing import TYPE_CHECKING

from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from bermwright.app.modelling import model_glb
from bermwright.app.showing.sun import sun_of_day
from bermwright.base.errors import BermwrightError
from bermwright.book.sheets.axonometric import axonometric_sheet
from bermwright.workbench.beside.common import AskedWrongError, drawing, not_known, page_in_hand

if TYPE_CHECKING:
    from starlette.requests import Request

    from bermwright.workbench.table import Page


def routes() -> list[Route]:
    """The bodies, the sun and the line drawing."""
    return [
        Route("/model.glb", bodies),
        Route("/model/sun", sun),
        Route("/model/lines", lines),
    ]


async def bodies(request: Request) -> Response:
    """The house as binary glTF."""
    try:
        house = page_in_hand(request).house
        if not (house.vaults or house.domes):
            raise AskedWrongError("The house has no vault and no dome to show as a model.")
        content = await asyncio.to_thread(model_glb, house)
    except BermwrightError as error:
        return not_known(error)
    return Response(content, media_type="model/gltf-binary")


async def sun(request: Request) -> Response:
    """Where the sun stands through one day."""
    try:
        page = page_in_hand(request)
        day = _whole(request.query_params.get("day", ""))
        found = sun_of_day(page.house, page.house.vaults[_vault(request, page)], day)
    except BermwrightError as error:
        return not_known(error)
    return JSONResponse(asdict(found))


async def lines(request: Request) -> Response:
    """The house as a drawing of lines seen from above."""
    try:
        page = page_in_hand(request)
        form = page.form(_vault(request, page))
        if form is None:
            raise AskedWrongError("The file says too little to draw this vault.")
    except BermwrightError as error:
        return not_known(error)
    return drawing(request, axonometric_sheet(form), "axonometric")


def _vault(request: Request, page: Page) -> int:
    number = _whole(request.query_params.get("vault", "0"))
    if number >= len(page.house.vaults):
        raise AskedWrongError("The house has no such vault.")
    return number


def _whole(text: str) -> int:
    if not (text.isascii() and text.isdigit()) or len(text) > 4:  # noqa: PLR2004  (days and vaults are fewer)
        raise AskedWrongError(f'"{text[:20]}" is no number.')
    return int(text)
