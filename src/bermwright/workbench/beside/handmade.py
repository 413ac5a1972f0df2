"""What is made by hand, leaf by leaf: setting out, templates, boards, compass, forms, models.

Looking and taking away change nothing, so both are asked for with GET: a phone that may only look can
stand on the site with them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from starlette.responses import JSONResponse, RedirectResponse
from starlette.routing import Route

from bermwright.app.handmade import LEAVES, leaf_named
from bermwright.app.handmade.boards import LABELS
from bermwright.base.errors import BermwrightError
from bermwright.book.templates.tiles import PAPERS
from bermwright.workbench import tasks
from bermwright.workbench.beside.common import not_known, page_in_hand, refused, show, table_of, units_of
from bermwright.workbench.beside.working import Errand, worked
from bermwright.workbench.wording import mistake_data

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from bermwright.workbench.table import Page

DIRECTIONS = tuple(range(0, 360, 45))
"""Where a ring is measured as a rule (degrees from the zero mark)."""


def routes() -> list[Route]:
    """The page, where the file stands, and what a leaf shows and makes."""
    return [
        Route("/making", first),
        Route("/making/now", now),
        Route("/making/{leaf}", page),
        Route("/making/{leaf}/show", shown),
        Route("/making/{leaf}/make", made),
    ]


async def first(request: Request) -> Response:
    """The first leaf that this house has something for."""
    found = table_of(request).page
    dome_only = found is not None and found.house.domes and not found.house.vaults
    return RedirectResponse("/making/compass" if dome_only else "/making/setout", status_code=303)


async def page(request: Request) -> Response:
    """One leaf: its fields at once, its drawings as soon as they are made."""
    try:
        leaf = leaf_named(request.path_params["leaf"])
    except BermwrightError as error:
        return refused(error)
    table = table_of(request)
    house = table.page.house if table.page is not None else None
    return show(
        request,
        "making.html",
        leaves=LEAVES,
        leaf=leaf,
        there=house is not None,
        open=table.desk is not None,
        vaults=[vault.name for vault in house.vaults] if house is not None else [],
        domes=[dome.name for dome in house.domes] if house is not None else [],
        papers=tuple(PAPERS),
        labels=LABELS,
        directions=DIRECTIONS,
        mistakes=_mistakes(request),
    )


async def now(request: Request) -> Response:
    """Which revision is in hand, and what is wrong with the file: a page that stands open asks."""
    desk = table_of(request).desk
    number = desk.number if desk is not None else None
    return JSONResponse({"revision": number, "mistakes": _mistakes(request)})


def _mistakes(request: Request) -> list[dict[str, Any]]:
    desk = table_of(request).desk
    return [dict(mistake_data(one)) for one in desk.mistakes] if desk is not None else []


async def shown(request: Request) -> Response:
    """What a leaf shows, step by step."""
    return _asked(request, "show")


async def made(request: Request) -> Response:
    """Files of a leaf, step by step; they are fetched by their addresses."""
    return _asked(request, "make")


def _asked(request: Request, act: str) -> Response:
    try:
        leaf, found = leaf_named(request.path_params["leaf"]), page_in_hand(request)
        table = table_of(request)
        options = {**dict(request.query_params), "units": units_of(request)}

        def given(number: int) -> tuple[Any, ...]:
            return (act, leaf.name, found.text, found.path, str(table.made_for(number)), options)

        errand = Errand(task=tasks.handmade, given=given, more=lambda job: _more(found, job))
        return worked(table, _asking(request), errand)
    except BermwrightError as error:
        return not_known(error)


def _more(found: Page, job: int) -> dict[str, Any]:
    """What the page must know of an answer: of which revision it is, and where its files lie."""
    return {"revision": found.number, "at": f"/made/{job}/"}


def _asking(request: Request) -> set[int]:
    """Numbers of all answers that are being made."""
    state = request.app.state
    if not hasattr(state, "asking"):
        state.asking = set()
    asking: set[int] = state.asking
    return asking
