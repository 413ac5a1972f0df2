"""From paper: a photo is marked in the browser and never sent; its points come here, or a file of points."""

from __future__ import annotations

import asyncio
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from starlette.datastructures import UploadFile
from starlette.responses import JSONResponse
from starlette.routing import Route

from bermwright.app.showing.sketched import MOST_POINTS, Marked, changes_of, fit_file, fit_marked
from bermwright.base.errors import BermwrightError
from bermwright.formats.sketches import ENDINGS
from bermwright.formats.sketches.reading import LARGEST
from bermwright.workbench.beside.common import (
    AskedWrongError,
    asked,
    desk_in_hand,
    measures_in,
    page_in_hand,
    refused,
    show,
    table_of,
    units_of,
)

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from bermwright.app.showing.sketched import Fitted
    from bermwright.house import House, Vault

FAR = 1e6
"""No picture has more dots in a line."""


def routes() -> list[Route]:
    """The page and what it asks for."""
    return [
        Route("/sketch", page),
        Route("/sketch/fit", fit, methods=["POST"]),
        Route("/sketch/read", read_points, methods=["POST"]),
        Route("/sketch/take", take, methods=["POST"]),
    ]


async def page(request: Request) -> Response:
    """The page itself."""
    held = table_of(request).page
    vaults = [vault.name for vault in held.house.vaults] if held is not None else []
    return show(request, "sketch.html", vaults=vaults, endings=", ".join(ENDINGS))


async def fit(request: Request) -> Response:
    """Fit points that were marked on a picture."""
    try:
        data = await asked(request)
        marked = _marked(data)
        house, vault = _ground(request, data)
        fitted = await asyncio.to_thread(fit_marked, marked, house, vault, system=units_of(request))
    except BermwrightError as error:
        return refused(error)
    return JSONResponse(_said(fitted))


async def read_points(request: Request) -> Response:
    """Fit the curve of a file of points."""
    try:
        async with request.form(max_files=1, max_fields=4, max_part_size=LARGEST) as form:
            sent = form.get("file")
            if not isinstance(sent, UploadFile) or not sent.filename:
                raise AskedWrongError(f"No file came. A file of points ends in {', '.join(ENDINGS)}.")
            content, name = await sent.read(LARGEST + 1), sent.filename
            known = [text for text in (str(form.get("known") or "").strip(),) if text]
        fitted = await asyncio.to_thread(fit_file, name, content, known, None, None, units_of(request))
    except BermwrightError as error:
        return refused(error)
    return JSONResponse(_said(fitted))


async def take(request: Request) -> Response:
    """Put a fitted curve into the house file, as one edit that can be undone."""
    try:
        data = await asked(request)
        held, desk = page_in_hand(request), desk_in_hand(request)
        vault = _number(data.get("vault"), len(held.house.vaults))
        measures = measures_in(data.get("measures"))
        label = f"curve from a sketch: {measures[0][1]}"
        desk.edit(changes_of(vault, measures), label, base=held.number)
        await table_of(request).changed(label)
    except BermwrightError as error:
        return refused(error)
    return JSONResponse({"go": "/"})


def _marked(data: dict[str, Any]) -> Marked:
    points = _points(data.get("points"))
    ends = _points(data.get("ends"))
    if len(ends) != 2:  # noqa: PLR2004  (a length has two ends)
        raise AskedWrongError("Mark both ends of a length that you know.")
    return Marked(
        points=points,
        ends=(ends[0], ends[1]),
        length=str(data.get("length", "")),
        mirror=bool(data.get("mirror")),
        level=bool(data.get("level")),
    )


def _points(given: object) -> tuple[tuple[float, float], ...]:
    """Places on the picture."""
    if not isinstance(given, list) or len(given) > MOST_POINTS:
        raise AskedWrongError(f"Mark at most {MOST_POINTS} points.")
    if not all(isinstance(one, list) and len(one) == 2 and all(map(_is_place, one)) for one in given):  # noqa: PLR2004  (two coordinates)
        raise AskedWrongError("A point has no place. Mark it again.")
    return tuple((float(x), float(y)) for x, y in given)


def _is_place(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < FAR


def _ground(request: Request, data: dict[str, Any]) -> tuple[House | None, Vault | None]:
    """The house whose soil gives curves of its own, where that was asked for."""
    if not data.get("ground"):
        return None, None
    held = page_in_hand(request)
    return held.house, held.house.vaults[_number(data.get("vault"), len(held.house.vaults))]


def _number(given: object, count: int) -> int:
    if not isinstance(given, int) or isinstance(given, bool) or not 0 <= given < count:
        raise AskedWrongError("The house has no such vault.")
    return given


def _said(fitted: Fitted) -> dict[str, Any]:
    return asdict(fitted)
