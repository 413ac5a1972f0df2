"""What all windows share: the file on the desk, the last full run, and the workers."""

from __future__ import annotations

import asyncio
import tempfile
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from bermwright.app.live.handles import grips_of
from bermwright.app.live.scene import Easel, draw
from bermwright.app.live.telling import open_axis, year_axis
from bermwright.app.showing.ground import GroundYear, open_year
from bermwright.base.errors import BermwrightError
from bermwright.form import vault_form
from bermwright.formats.house_file.reading import Trials, parsed
from bermwright.workbench import tasks
from bermwright.workbench.jobs import Workers

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.app.desk import Desk
    from bermwright.app.live.handles import Grip
    from bermwright.app.live.nouns import Found, Look
    from bermwright.app.live.scene import Drawn
    from bermwright.app.showing.ground import WeekInGround
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House


@dataclass(slots=True)
class Page:
    """One revision of the house, with what was worked out of it once."""

    number: int
    house: House
    document: dict[str, Any]
    text: str
    path: str
    forms: dict[int, VaultForm | None] = field(default_factory=dict)
    grips: dict[int, tuple[Grip, ...]] = field(default_factory=dict)
    _trials: Trials | None = None

    @property
    def trials(self) -> Trials:
        """The house with other values, again and again."""
        if self._trials is None:
            self._trials = Trials(self.document)
        return self._trials

    @property
    def name(self) -> str:
        """The file's name without its folder."""
        return Path(self.path).name

    def form(self, vault: int) -> VaultForm | None:
        """The shape of one vault; None where it is not known."""
        if vault not in self.forms:
            try:
                self.forms[vault] = vault_form(self.house, self.house.vaults[vault])
            except (BermwrightError, IndexError):
                self.forms[vault] = None
        return self.forms[vault]

    def handles(self, vault: int) -> tuple[Grip, ...]:
        """The handles of one vault."""
        if vault not in self.grips:
            form = self.form(vault)
            self.grips[vault] = () if form is None else grips_of(self.house, vault, form)
        return self.grips[vault]


MOST_WINTERS = 4
"""Reckoned winters that are remembered, each of another text of the file."""
WATCH = 1.0
"""How often the house file is looked at (s)."""


class Window(Protocol):
    """What the table says to each window: see `seat.py`."""

    async def send(self, message: Any, to: str | None = None) -> None:  # noqa: ANN401  (one of `messages`)
        """One message."""

    async def revision(self, label: str, to: str | None = None) -> None:
        """Where the file stands."""

    async def drawing(self, to: str | None = None) -> None:
        """Handles and scene."""

    async def parts(self, to: str | None = None) -> None:
        """The parts, where their list is kept."""

    async def found(self) -> None:
        """What the last full run found."""

    async def axes(self) -> None:
        """The three axes of time."""

    def begin_anew(self) -> None:
        """Another house was laid on the desk."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Winter:
    """A year that was reckoned for one text of the file, by the name of the vault."""

    said: Mapping[str, Any]
    """What `winter` says of each."""
    ground: Mapping[str, tuple[WeekInGround, ...]]


@dataclass(slots=True)
class Result:
    """The last full run, and of which revision it speaks."""

    found: Found
    number: int


class Table:
    """The shared state of one server."""

    def __init__(self, desk: Desk | None, *, workers: Workers | None = None) -> None:
        self.desk = desk
        self.workers = workers or Workers()
        self.seats: set[Window] = set()
        self.result: Result | None = None
        self.winters: dict[str, Winter] = {}
        """Reckoned years by the text of the file: an undo brings them back."""
        self._open: tuple[Any, GroundYear] | None = None
        """Open ground, and of which climate and soil."""
        self._made: tempfile.TemporaryDirectory[str] | None = None
        self._hand: ThreadPoolExecutor | None = None
        self._page: Page | None = None
        self._run: asyncio.Task[None] | None = None
        self._running: int | None = None
        self._tasks: set[asyncio.Task[Any]] = set()

    # ------------------------------------------------------------------ begin and end

    def start(self) -> None:
        """Make the hand, the workers and the folder for what is made."""
        self._hand = ThreadPoolExecutor(1, thread_name_prefix="hand")
        self._made = tempfile.TemporaryDirectory(prefix="bermwright-")
        self.workers.start()
        self.background(self._watch())
        if self.desk is not None:
            self.follow()

    async def close(self) -> None:
        """End everything that runs; nothing is left behind."""
        for task in (self._run, *self._tasks):
            if task is not None:
                task.cancel()
        await asyncio.to_thread(self.workers.close)
        if self._hand is not None:
            self._hand.shutdown(wait=True, cancel_futures=True)
        if self._made is not None:
            self._made.cleanup()

    @property
    def made(self) -> Path:
        """Where jobs put what they make."""
        if self._made is None:
            raise BermwrightError("The workbench has not been started.")
        return Path(self._made.name)

    def made_for(self, number: int) -> Path:
        """A folder of its own for what one job makes."""
        folder = self.made / str(number)
        folder.mkdir(exist_ok=True)
        return folder

    async def by_hand(self, work: Callable[..., Any], *given: Any) -> Any:  # noqa: ANN401  (whatever it gives)
        """Do something in the one thread that touches house and drawing, in the order of asking."""
        if self._hand is None:
            raise BermwrightError("The workbench has not been started.")
        return await asyncio.get_running_loop().run_in_executor(self._hand, work, *given)

    # ------------------------------------------------------------------ the house

    @property
    def page(self) -> Page | None:
        """The house in hand; None where there is no file, or where it could never be read."""
        desk = self.desk
        if desk is None or desk.opened is None:
            return None
        if self._page is None or self._page.number != desk.number:
            text = desk.opened.document
            if self._page is not None and self._page.text == text:
                self._page.number = desk.number
            else:
                self._page = Page(
                    number=desk.number,
                    house=desk.opened.house,
                    document=parsed(text, desk.path.name),
                    text=text,
                    path=str(desk.path),
                )
        return self._page

    def scene(self, page: Page, look: Look, easel: Easel, *, hold: bool = False) -> Drawn:
        """The drawing of the house in hand."""
        if not page.house.vaults:
            return draw(page.house, look, self.found, easel, hold=hold)
        number = min(look.vault, len(page.house.vaults) - 1)
        form = page.form(number)
        if form is not None and form.cover_curve is not None:
            easel.curves[number] = form.cover_curve
        return draw(
            page.house, look, self.found, easel, hold=hold, form=form, ground=self.ground(page, number)
        )

    def ground(self, page: Page, vault: int) -> GroundYear:
        """What is known of the ground through the year: reckoned for this very house, else open ground."""
        winter = self.winters.get(page.text)
        name = page.house.vaults[vault].name
        if winter is not None and name in winter.ground:
            return GroundYear(reckoned=winter.ground[name])
        site = page.house.site
        key = (site.climate, site.soil[:1], page.path)
        if self._open is None or self._open[0] != key:
            self._open = key, GroundYear(open=open_year(page.house, Path(page.path).parent))
        return self._open[1]

    def year(self, page: Page, vault: int, system: str) -> dict[str, Any] | None:
        """The axis of the year; None where the file names no climate."""
        if not page.house.vaults:
            return None
        ground = self.ground(page, min(vault, len(page.house.vaults) - 1))
        if ground.reckoned:
            return year_axis(
                self.winters[page.text].said[page.house.vaults[min(vault, len(page.house.vaults) - 1)].name],
                system,
            )
        return open_axis(ground.open, system) if ground.open is not None else None

    def remember(self, text: str, winter: Winter) -> None:
        """Keep a reckoned winter; the oldest is let go."""
        self.winters[text] = winter
        while len(self.winters) > MOST_WINTERS:
            del self.winters[next(iter(self.winters))]

    @property
    def found(self) -> Found | None:
        """What the last full run found."""
        return None if self.result is None else self.result.found

    @property
    def settled(self) -> bool:
        """Whether the last full run speaks of the house in hand."""
        return self.result is not None and self.desk is not None and self.result.number == self.desk.number

    async def lay(self, desk: Desk, before: Desk | None) -> bool:
        """Another house on the desk; what was not kept of the one before stays in its journal.

        False where another window was quicker.
        """
        if not await self.by_hand(self._lay, desk, before):
            return False
        for seat in tuple(self.seats):
            seat.begin_anew()
        await self.changed("opened")
        return True

    def _lay(self, desk: Desk, before: Desk | None) -> bool:
        if self.desk is not before:
            return False
        if before is not None:
            desk.after(before)
        self.desk, self.result, self._page, self._open = desk, None, None, None
        return True

    async def _watch(self) -> None:
        """Notice when something else changes the house file, or puts it back as it was."""
        changed = False
        while True:
            await asyncio.sleep(WATCH)
            desk = self.desk
            now = desk is not None and await asyncio.to_thread(desk.on_disk) is not None
            if now is not changed:
                changed = now
                for seat in tuple(self.seats):
                    await seat.revision("changed by another program" if now else "as it was")

    # ------------------------------------------------------------------ full runs

    def follow(self) -> None:
        """Begin a full run of the house in hand; one that runs for an older one is ended."""
        if self._run is not None and not self._run.done():
            if self._running is not None:
                self.workers.stop(self._running)
            self._run.cancel()
        self._run = asyncio.get_running_loop().create_task(self._follow())

    async def _follow(self) -> None:
        page = self.page
        if page is None or self.desk is None:
            return
        self._running = number = self.workers.number()
        told = self._told(number, "full")
        try:
            found = await self.workers.do("run", number, told, tasks.full, page.text, str(self.desk.path))
        except tasks.Stopped:
            return
        except BermwrightError as error:
            await self.say_all({"say": "wrong", "kind": "fault", "text": str(error)})
            return
        self.result = Result(found=found, number=page.number)
        if self.desk.number == page.number:
            for seat in tuple(self.seats):
                await seat.found()

    def _told(self, number: int, what: str) -> Callable[[str], None]:
        """Progress of a job to every window."""

        def told(step: str) -> None:
            self.background(
                self.say_all({"say": "progress", "job": number, "what": what, "step": step, "share": None})
            )

        return told

    def background(self, work: Any) -> asyncio.Task[Any]:  # noqa: ANN401  (a coroutine)
        """Let something run that nobody waits for, and hold on to it until it is done."""
        task = asyncio.get_running_loop().create_task(work)
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)
        return task

    # ------------------------------------------------------------------ windows

    async def say_all(self, message: dict[str, Any]) -> None:
        """Send a message to every window."""
        for seat in tuple(self.seats):
            await seat.send(message)

    async def changed(self, label: str, asked: tuple[Window, str | None] | None = None) -> None:
        """The house has moved: tell every window, draw it anew, and begin a full run.

        `asked` is the window that moved it, and the message of its that is answered with this.
        """
        self.follow()
        for seat in tuple(self.seats):
            await seat.revision(label, asked[1] if asked is not None and asked[0] is seat else None)
        for seat in tuple(self.seats):
            await seat.drawing()
            await seat.parts()

    async def stays(self, label: str, asked: tuple[Window, str | None]) -> None:
        """The file has been kept; the house is the same."""
        for seat in tuple(self.seats):
            await seat.revision(label, asked[1] if asked[0] is seat else None)
