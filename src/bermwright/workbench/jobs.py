"""Work beside the hand: full runs and longer jobs in processes of their own, with progress and an end."""

from __future__ import annotations

import asyncio
import itertools
import multiprocessing
import queue as queues
import threading
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from bermwright.workbench import tasks

if TYPE_CHECKING:
    from collections.abc import Callable
    from concurrent.futures import Executor

    Told = Callable[[int, str], None]

SLOTS = 256
"""Jobs that can be told to end at the same time; numbers go round."""


@dataclass(slots=True)
class Workers:
    """Two processes: one follows the file with full runs, the other makes what takes longer.

    Made when the server starts and closed when it ends. In tests both are threads of this process.
    """

    inline: bool = False
    _pools: dict[str, Executor] = field(default_factory=dict)
    _stops: Any = None
    _lines: Any = None
    _numbers: Any = field(default_factory=lambda: itertools.count(1))
    _told: dict[int, Callable[[str], None]] = field(default_factory=dict)
    _listener: threading.Thread | None = None
    _loop: asyncio.AbstractEventLoop | None = None

    def start(self) -> None:
        """Make both pools; their processes warm up while the page loads."""
        self._loop = asyncio.get_running_loop()
        if self.inline:
            self._stops = bytearray(SLOTS)
            self._lines = queues.SimpleQueue()
            tasks.begin(self._stops, self._lines, own_process=False)
            self._pools = {name: ThreadPoolExecutor(1) for name in ("run", "job")}
        else:
            context = multiprocessing.get_context("spawn")
            self._stops = context.Array("b", SLOTS, lock=False)
            self._lines = context.SimpleQueue()
            self._pools = {name: self._pool(context) for name in ("run", "job")}
            for pool in self._pools.values():
                pool.submit(tasks.warm)
        self._listener = threading.Thread(target=self._listen, daemon=True, name="progress")
        self._listener.start()

    def _pool(self, context: Any) -> ProcessPoolExecutor:  # noqa: ANN401  (a multiprocessing context)
        return ProcessPoolExecutor(
            1, mp_context=context, initializer=tasks.begin, initargs=(self._stops, self._lines)
        )

    def close(self) -> None:
        """End everything: what runs is told to, what waits is dropped."""
        for slot in range(SLOTS):
            self._stops[slot] = 1
        for pool in self._pools.values():
            processes = list((getattr(pool, "_processes", None) or {}).values())
            pool.shutdown(wait=False, cancel_futures=True)
            for process in processes:
                process.terminate()
            for process in processes:
                process.join(3.0)
        self._lines.put(None)
        if self._listener is not None:
            self._listener.join(3.0)
        self._pools = {}

    def _listen(self) -> None:
        """Carry lines of progress from the workers into the loop."""
        while (line := self._lines.get()) is not None:
            number, step = line
            told, loop = self._told.get(number), self._loop
            if told is not None and loop is not None and not loop.is_closed():
                loop.call_soon_threadsafe(told, step)

    def number(self) -> int:
        """The number of a new job."""
        number: int = next(self._numbers)
        self._stops[number % SLOTS] = 0
        return number

    def stop(self, number: int) -> None:
        """Tell a job to end at its next step."""
        if number in self._told:
            self._stops[number % SLOTS] = 1

    async def do(
        self,
        pool: str,
        number: int,
        told: Callable[[str], None],
        task: Callable[..., Any],
        *given: Any,  # noqa: ANN401  (whatever the job takes)
    ) -> Any:  # noqa: ANN401  (whatever the task gives)
        """Run a task of `tasks.py` in a pool; raises `tasks.Stopped` where it was told to end."""
        self._told[number] = told
        try:
            return await asyncio.wrap_future(self._pools[pool].submit(task, number, *given))
        except BrokenProcessPool:
            # The process was killed, such as by a machine short of memory: the next job gets a new one.
            self._pools[pool] = self._pool(multiprocessing.get_context("spawn"))
            raise
        finally:
            self._told.pop(number, None)
