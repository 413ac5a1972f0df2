"""What these pages share: templates, plain answers, answers that tell their progress, names of files."""

from __future__ import annotations

import asyncio
import json
import re
import threading
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from starlette.responses import HTMLResponse, JSONResponse, Response, StreamingResponse

from bermwright.base.drawing import Text
from bermwright.base.errors import BermwrightError, HouseFileError
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets import section_sheet, supports_of
from bermwright.book.sheets.paper import Figures
from bermwright.book.sheets.section import Dress
from bermwright.form import vault_form
from bermwright.formats.drawings import svg

if TYPE_CHECKING:
    from collections.abc import AsyncIterator, Callable

    from starlette.requests import Request

    from bermwright.app.desk import Desk
    from bermwright.base.drawing import Sheet
    from bermwright.house import House, Vault
    from bermwright.workbench.table import Page, Table

LIGHTS = ("day", "lamp", "paper")
REFUSED = 422
LONGEST_NAME = 80
SMALL = 120.0
"""Width of a small section (mm)."""


class AskedWrongError(BermwrightError):
    """A page or a request that asks for what cannot be."""


def table_of(request: Request) -> Table:
    """What all windows share."""
    table: Table = request.app.state.table
    return table


def show(request: Request, name: str, **values: object) -> Response:
    """A page by its template."""
    page = table_of(request).page
    house = page.house.name if page is not None else None
    template = request.app.state.pages.get_template(name)
    return HTMLResponse(template.render(mark=NOT_REVIEWED, edits=request.state.edits, house=house, **values))


def refused(error: BermwrightError | str) -> Response:
    """Nothing was done; one clear error, for the page to put where the mistake stands."""
    text = str(error)
    if isinstance(error, HouseFileError):
        text = " ".join(f"{one.place}: {one.allowed} {one.advice}".rstrip() for one in error.mistakes)
    return JSONResponse({"wrong": text}, REFUSED)


def not_known(error: BermwrightError | str) -> Response:
    """An answer as good as any: what was asked cannot be said, and why."""
    return JSONResponse({"wrong": str(error)})


def drawing(request: Request, sheet: Sheet, prefix: str) -> Response:
    """A drawing in the light that the page has now."""
    light = request.query_params.get("light", "day")
    content = svg(sheet, light if light in LIGHTS else "day", prefix=prefix)
    return Response(content, media_type="image/svg+xml")


def small_section(house: House, vault: Vault) -> Sheet:
    """The section of a vault with as few words as can be, for a place of any size on the screen."""
    dress = Dress(figures=Figures(metres=True), dimensions=False, heights=False, sides=False)
    sheet = section_sheet(
        vault_form(house, vault), scale=100.0, width=SMALL, supports=supports_of(vault, house), dress=dress
    )
    # On a screen no scale is true.
    items = tuple(one for one in sheet.items if not (isinstance(one, Text) and one.text.startswith("1:")))
    return replace(sheet, items=items)


def units_of(request: Request) -> str:
    """The units that the page wants."""
    return "imperial" if request.query_params.get("units") == "imperial" else "metric"


async def asked(request: Request) -> dict[str, Any]:
    """The JSON that a page sent. Raises `AskedWrongError` where it is none."""
    try:
        data = await request.json()
    except (ValueError, RecursionError):
        raise AskedWrongError("What the page sent cannot be read.") from None
    if not isinstance(data, dict):
        raise AskedWrongError("What the page sent is no table of values.")
    return data


def measures_in(given: object) -> tuple[tuple[str, str], ...]:
    """The lines of a fitted curve as a page sends them. Raises `AskedWrongError` for anything else."""
    if not isinstance(given, list) or not given:
        raise AskedWrongError("No curve was chosen.")
    pairs = tuple((str(one[0]), str(one[1])) for one in given if isinstance(one, list) and len(one) == 2)  # noqa: PLR2004  (a pair)
    if len(pairs) != len(given) or pairs[0][0] != "curve":
        raise AskedWrongError("No curve was chosen.")
    return pairs


def page_in_hand(request: Request) -> Page:
    """The house in hand. Raises `AskedWrongError` where there is none."""
    page = table_of(request).page
    if page is None:
        raise AskedWrongError("No house is open, or its file cannot be read yet.")
    return page


def desk_in_hand(request: Request) -> Desk:
    """The file in hand. Raises `AskedWrongError` where there is none."""
    desk = table_of(request).desk
    if desk is None:
        raise AskedWrongError("No house is open.")
    return desk


def folder_of(request: Request) -> Path:
    """Where everything is read and written: the folder of the file in hand, else where we were started."""
    desk = table_of(request).desk
    return desk.path.resolve().parent if desk is not None else Path.cwd()


def own_file(folder: Path, name: str) -> Path:
    """A house file of the folder by its plain name. Raises `AskedWrongError` for anything else."""
    plain = re.fullmatch(r"[^\x00-\x1f/\\:*?\"<>|.][^\x00-\x1f/\\:*?\"<>|]*\.toml", name)
    if plain is None or len(name) > LONGEST_NAME or (folder / name).resolve().parent != folder:
        raise AskedWrongError(
            f'"{name[:LONGEST_NAME]}" is no name of a house file here. Write one such as house.toml.'
        )
    return folder / name


def house_files(folder: Path) -> list[str]:
    """The names of the house files of the folder."""
    return sorted(path.name for path in folder.glob("*.toml") if path.is_file() and _is_house(path))


def _is_house(path: Path) -> bool:
    """Whether a file has a table of the house: other programs keep their settings in such files too."""
    try:
        return re.search(r"(?m)^\s*\[house\]", path.read_text(encoding="utf-8")[:200_000]) is not None
    except (OSError, UnicodeDecodeError):
        return False


def telling(work: Callable[[Callable[[str], None]], dict[str, Any]]) -> Response:
    """An answer in lines of JSON: each step as it begins, at last what was found.

    A page that is left ends the work at its next step.
    """
    return StreamingResponse(_lines(work), media_type="application/x-ndjson")


class _LeftError(BermwrightError):
    """Nobody waits for the answer any more."""


async def _lines(work: Callable[[Callable[[str], None]], dict[str, Any]]) -> AsyncIterator[str]:
    loop, queue, left = asyncio.get_running_loop(), asyncio.Queue[dict[str, Any]](), threading.Event()

    def step(text: str) -> None:
        if left.is_set():
            raise _LeftError
        loop.call_soon_threadsafe(queue.put_nowait, {"step": text})

    async def done() -> None:
        try:
            found = await asyncio.to_thread(work, step)
            json.dumps(found, allow_nan=False)  # a number that JSON has no word for is a fault to be told
            queue.put_nowait({"done": found})
        except _LeftError:
            return
        except BermwrightError as error:
            queue.put_nowait({"wrong": str(error)})
        except Exception as error:  # the page waits for a last line whatever happens
            queue.put_nowait({"wrong": f"bermwright itself went wrong: {type(error).__name__}: {error}"})
            raise

    task = loop.create_task(done())
    try:
        while True:
            line = await queue.get()
            yield json.dumps(line, ensure_ascii=False, allow_nan=False) + "\n"
            if "step" not in line:
                return
    finally:
        left.set()
        task.add_done_callback(_seen)


def _seen(task: asyncio.Task[None]) -> None:
    """A fault that the page was told of is no fault of the loop."""
    if not task.cancelled():
        task.exception()
