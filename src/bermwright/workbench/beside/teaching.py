"""Lessons: predict what fails, then see both houses run. The glossary and the beginner's walk as data."""

from __future__ import annotations

import asyncio
from functools import cache
from typing import TYPE_CHECKING, Any

from starlette.responses import JSONResponse, RedirectResponse
from starlette.routing import Route

from bermwright.adapt.lessons import Built, changed, drawn
from bermwright.app.lessons import NoSuchLessonError, all_lessons, lesson_named, ordinary, reveal
from bermwright.base.errors import BermwrightError
from bermwright.data.glossary import GLOSSARY
from bermwright.data.walk import WALK
from bermwright.formats.house_file import read
from bermwright.formats.lessons import house_text, lesson_data
from bermwright.workbench.beside.common import (
    drawing,
    refused,
    show,
    small_section,
    table_of,
    telling,
    units_of,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from starlette.requests import Request
    from starlette.responses import Response

    from bermwright.base.drawing import Sheet
    from bermwright.data.glossary import Term


def routes() -> list[Route]:
    """The pages and what they ask for."""
    return [
        Route("/lessons", lessons),
        Route("/lessons/{name}", lesson),
        Route("/lessons/{name}/section/{built}", section),
        Route("/lessons/{name}/reveal", revealed, methods=["POST"]),
        Route("/glossary", glossary),
        Route("/walk", walk),
        Route("/walk/steps", walk_steps),
    ]


async def lessons(request: Request) -> Response:
    """Every lesson by its title."""
    return show(request, "lessons.html", lessons=all_lessons(), lesson=None)


async def lesson(request: Request) -> Response:
    """One lesson without its end."""
    try:
        found = lesson_named(request.path_params["name"])
    except NoSuchLessonError as error:
        return refused(error)
    return show(request, "lessons.html", lessons=all_lessons(), lesson=found)


async def section(request: Request) -> Response:
    """The section of one of the two houses of a lesson."""
    name, built = request.path_params["name"], request.path_params["built"]
    try:
        sheet = await asyncio.to_thread(_section, name, Built(built.replace("-", " ")))
    except (BermwrightError, ValueError):
        return refused("There is no such section.")
    return drawing(request, sheet, f"l-{built}")


def _section(name: str, built: Built) -> Sheet:
    told = lesson_named(name)
    house = read(house_text(changed(ordinary(), drawn(told, built)), told.title), told.name).house
    return small_section(house, house.vaults[0])


async def revealed(request: Request) -> Response:
    """Run both houses, and tell the end."""
    try:
        found = lesson_named(request.path_params["name"])
    except NoSuchLessonError as error:
        return refused(error)
    system = units_of(request)

    def work(step: Callable[[str], None]) -> dict[str, Any]:
        return lesson_data(found, reveal(found, step).found, system)

    return telling(work)


async def glossary(_request: Request) -> Response:
    """Every term with all its forms, and the sentence that explains it."""
    return JSONResponse(_glossary(), headers={"cache-control": "private, max-age=3600"})


@cache
def _glossary() -> list[dict[str, Any]]:
    return [{"term": _head(one), "forms": list(one.forms), "text": one.says} for one in GLOSSARY]


def _head(term: Term) -> str:
    """The word over its explanation; one that is a verb as well is never marked by itself."""
    return term.name if term.marked else f"the {term.name}"


async def walk(request: Request) -> Response:
    """Begin the walk: on the house in hand, else by choosing one first."""
    there = table_of(request).desk is not None
    return RedirectResponse("/#walk" if there else "/start", status_code=303)


async def walk_steps(_request: Request) -> Response:
    """The steps of the beginner's walk."""
    steps = [
        {"title": one.title, "does": one.does, "look": one.look, "places": list(one.places)} for one in WALK
    ]
    return JSONResponse(steps)
