"""The start page: the examples, the plain questions, and house files that are there already."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from starlette.responses import JSONResponse
from starlette.routing import Route

from bermwright.app.asking import QUESTIONS, AnswerError, filled, question_named
from bermwright.app.desk import Desk
from bermwright.app.outside.examples import EXAMPLES, example_text
from bermwright.app.outside.files import write_new
from bermwright.app.showing.dome import dome_picture
from bermwright.app.showing.sketched import changes_of
from bermwright.base.errors import BermwrightError
from bermwright.book.sheets.asked import picture
from bermwright.formats.house_file import edited, read
from bermwright.workbench.beside.common import (
    AskedWrongError,
    asked,
    drawing,
    folder_of,
    house_files,
    measures_in,
    not_known,
    own_file,
    refused,
    show,
    small_section,
    table_of,
    units_of,
)

if TYPE_CHECKING:
    from pathlib import Path

    from starlette.requests import Request
    from starlette.responses import Response

    from bermwright.app.asking import Filled
    from bermwright.base.drawing import Sheet


def routes() -> list[Route]:
    """The start page and what it asks for."""
    return [
        Route("/start", start),
        Route("/start/picture/{name}", asked_picture),
        Route("/start/example/{name}", example_section),
        Route("/start/answer", answer, methods=["POST"]),
        Route("/start/begin", begin, methods=["POST"]),
        Route("/start/example", copy_example, methods=["POST"]),
        Route("/start/open", open_file, methods=["POST"]),
    ]


async def start(request: Request) -> Response:
    """The page itself."""
    folder, desk = folder_of(request), table_of(request).desk
    return show(
        request,
        "start.html",
        examples=EXAMPLES,
        questions=QUESTIONS,
        files=[name for name in house_files(folder) if desk is None or name != desk.path.name],
        folder=folder.name,
        desk=desk,
    )


async def asked_picture(request: Request) -> Response:
    """The picture of a question."""
    try:
        question = question_named(request.path_params["name"])
    except AnswerError as error:
        return refused(error)
    return drawing(request, picture(question.name), f"q-{question.name}")


async def example_section(request: Request) -> Response:
    """The small section of an example."""
    name = request.path_params["name"]
    if name not in {one.name for one in EXAMPLES}:
        return refused("There is no such example.")
    return drawing(request, await asyncio.to_thread(_section, name), f"e-{name}")


def _section(name: str) -> Sheet:
    house = read(example_text(name), name).house
    if not house.vaults:
        return dome_picture(house)
    return small_section(house, house.vaults[0])


async def answer(request: Request) -> Response:
    """Whether an answer can be taken, said as soon as it is written."""
    try:
        data = await asked(request)
        question_named(str(data.get("name", ""))).read(str(data.get("text", "")))
    except BermwrightError as error:
        return not_known(error)
    return JSONResponse({"taken": True})


async def begin(request: Request) -> Response:
    """Write the file of the answers and lay it on the desk."""
    try:
        data = await asked(request)
        answers = data.get("answers", {})
        if not isinstance(answers, dict):
            raise AskedWrongError("The answers cannot be read.")
        given = {str(name): str(text) for name, text in answers.items() if str(text).strip()}
        made = filled(str(data.get("house") or "My house"), given, units_of(request))
        path = own_file(folder_of(request), str(data.get("file", "")))
        write_new(str(path), _with_sketch(made, data.get("measures")))
    except BermwrightError as error:
        return refused(error)
    return await _taken(request, path)


def _with_sketch(made: Filled, given: object) -> str:
    """The text of the answers, with the curve of a sketch where one was brought along."""
    if not given:
        return made.text
    if made.undrawn:
        names = ", ".join(one.name for one in made.undrawn)
        raise AskedWrongError(f"The curve of the sketch needs a vault: answer {names} too.")
    text = edited(made.text, changes_of(0, measures_in(given)))
    read(text, "the answers")
    return text


async def copy_example(request: Request) -> Response:
    """Copy an example into the folder and lay it on the desk; one that is there already is opened."""
    try:
        name = str((await asked(request)).get("name", ""))
        if name not in {one.name for one in EXAMPLES}:
            raise AskedWrongError("There is no such example.")
        path = own_file(folder_of(request), f"{name}.toml")
        return await _taken(request, path if path.exists() else write_new(str(path), example_text(name)))
    except BermwrightError as error:
        return refused(error)


async def open_file(request: Request) -> Response:
    """Lay a file of the folder on the desk."""
    try:
        name = str((await asked(request)).get("file", ""))
        return await _taken(request, own_file(folder_of(request), name))
    except BermwrightError as error:
        return refused(error)


async def _taken(request: Request, path: Path) -> Response:
    """The file on the desk, and where the page goes now. What was there before keeps what was not kept."""
    table = table_of(request)
    before = table.desk
    if before is not None and before.path.name == path.name:  # both lie in one folder
        return JSONResponse({"go": "/"})
    try:
        desk = await asyncio.to_thread(Desk, path)
    except BermwrightError as error:
        return refused(error)
    if not await table.lay(desk, before):
        return refused("Another window laid a house on the desk just now. Look at it first.")
    return JSONResponse({"go": "/"})
