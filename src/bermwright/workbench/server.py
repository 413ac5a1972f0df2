"""The application: pages, static files, the socket, and the guard before all of it."""

from __future__ import annotations

from contextlib import asynccontextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from jinja2 import Environment, FileSystemLoader, select_autoescape
from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.responses import FileResponse, HTMLResponse, PlainTextResponse, RedirectResponse
from starlette.routing import Mount, Route, WebSocketRoute
from starlette.staticfiles import StaticFiles
from starlette.websockets import WebSocketDisconnect

from bermwright import __version__
from bermwright.base.wording import NOT_REVIEWED
from bermwright.workbench import beside
from bermwright.workbench.handling import handle
from bermwright.workbench.seat import Seat
from bermwright.workbench.security import Guard, TooLargeError

if TYPE_CHECKING:
    from collections.abc import AsyncIterator

    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.websockets import WebSocket

    from bermwright.workbench.security import Door
    from bermwright.workbench.table import Table

HERE = Path(__file__).resolve().parent
LARGEST = 24_000_000
"""Of anything that is sent to the server, such as the photo of a sketch (bytes)."""
UNREADABLE = ValueError, KeyError, TypeError, RecursionError
"""What comes of a message that is no text, no JSON, or a list in lists without end."""
LARGEST_MESSAGE = 2_000_000
"""Of one message of a window (bytes)."""


def application(table: Table, door: Door) -> Starlette:
    """The workbench as an ASGI application."""

    @asynccontextmanager
    async def lifespan(_app: Starlette) -> AsyncIterator[None]:
        table.start()
        try:
            yield
        finally:
            await table.close()

    app = Starlette(
        routes=[
            Route("/", page),
            Route("/made/{job:int}/{name}", made),
            WebSocketRoute("/live", live),
            *beside.routes(),
            Mount("/static", StaticFiles(directory=HERE / "static", check_dir=False), name="static"),
        ],
        middleware=[Middleware(Guard, door=door, largest=LARGEST)],
        exception_handlers={TooLargeError: too_large},
        lifespan=lifespan,
    )
    app.state.table = table
    app.state.door = door
    app.state.pages = Environment(
        loader=FileSystemLoader(HERE / "pages"), autoescape=select_autoescape(default=True)
    )
    return app


async def page(request: Request) -> Response:
    """The drawing board."""
    table: Table = request.app.state.table
    if table.desk is None:
        return RedirectResponse("/start", status_code=303)
    found = table.page
    house = found.house.name if found is not None else table.desk.path.stem
    return render(request, "workbench.html", house=house, file=table.desk.path.name, version=__version__)


async def made(request: Request) -> Response:
    """Something that a job made, by its plain name."""
    table: Table = request.app.state.table
    job, name = request.path_params["job"], request.path_params["name"]
    folder = (table.made / str(job)).resolve()
    wanted = (folder / name).resolve()
    if wanted.parent != folder or not wanted.is_file():
        return PlainTextResponse("There is no such file.", 404)
    return FileResponse(wanted, filename=name)


def render(request: Request, name: str, **values: object) -> Response:
    """A page by its template."""
    template = request.app.state.pages.get_template(name)
    return HTMLResponse(template.render(mark=NOT_REVIEWED, edits=request.state.edits, **values))


async def too_large(_request: Request, _error: Exception) -> Response:
    """More was sent than may be."""
    return PlainTextResponse("What was sent is too large.", 413)


async def live(socket: WebSocket) -> None:
    """One window: every message in order, until it goes."""
    table: Table = socket.app.state.table
    await socket.accept()
    seat = Seat(table, socket, edits=bool(socket.state.edits))
    table.seats.add(seat)
    try:
        while True:
            try:
                message = await socket.receive_json()
            except UNREADABLE:
                message = None
            await handle(seat, message)
    except WebSocketDisconnect:
        pass
    finally:
        table.seats.discard(seat)
