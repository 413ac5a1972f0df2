"""Answers that a worker makes in a process of its own: its steps in lines of JSON, at last what it gave.

A page that is left, or that stops asking, ends the work at its next step.
"""

from __future__ import annotations

import asyncio
import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from starlette.responses import StreamingResponse

from bermwright.base.errors import BermwrightError, HouseFileError
from bermwright.workbench import tasks
from bermwright.workbench.beside.common import AskedWrongError
from bermwright.workbench.wording import mistake_data

if TYPE_CHECKING:
    from collections.abc import AsyncIterator, Callable

    from starlette.responses import Response

    from bermwright.workbench.table import Table

    Data = dict[str, Any]

MOST = 6
"""Such answers that may wait or run at the same time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Errand:
    """What a worker is asked for."""

    task: Callable[..., Data]
    """One of `tasks.py`."""
    given: Callable[[int], tuple[Any, ...]]
    """What it is given, by the number of the job."""
    more: Callable[[int], Data]
    """What the page is told besides."""


def worked(table: Table, asking: set[int], errand: Errand) -> Response:
    """What a worker makes, with its steps. `asking` holds the numbers of all that is under way."""
    if len(asking) >= MOST:
        raise AskedWrongError("So much is under way already. Wait for it, or stop something.")
    lines = _lines(table, asking, table.workers.number(), errand)
    return StreamingResponse(lines, media_type="application/x-ndjson")


async def _lines(table: Table, asking: set[int], number: int, errand: Errand) -> AsyncIterator[str]:
    queue = asyncio.Queue[dict[str, Any]]()

    def told(step: str) -> None:
        queue.put_nowait({"step": step})

    async def work() -> None:
        try:
            made = await table.workers.do("job", number, told, errand.task, *errand.given(number))
            await queue.put({"done": {**made, **errand.more(number)}})
        except tasks.Stopped:
            await queue.put({"stopped": True})
        except BermwrightError as error:
            await queue.put(wrong(error))
        except Exception as error:  # noqa: BLE001  (the page waits for a last line whatever happens)
            says = f"bermwright itself went wrong: {type(error).__name__}: {error}"
            await queue.put({"wrong": says})

    asking.add(number)
    running = table.background(work())
    running.add_done_callback(lambda _task: asking.discard(number))
    try:
        yield _line({"step": "waiting for its turn", "job": number})
        while True:
            news = await queue.get()
            yield _line(news)
            if "step" not in news:
                return
    finally:
        if not running.done():
            table.workers.stop(number)


def _line(news: Data) -> str:
    return json.dumps(news, ensure_ascii=False, allow_nan=False) + "\n"


def wrong(error: BermwrightError) -> Data:
    """What is wrong, in a sentence; of a house file every mistake with its place and line."""
    if isinstance(error, HouseFileError):
        return {
            "wrong": "The house file has mistakes; put them right first.",
            "mistakes": [dict(mistake_data(one)) for one in error.mistakes],
        }
    return {"wrong": str(error)}
