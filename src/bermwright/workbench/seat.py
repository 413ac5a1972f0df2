"""One window at the table: what it looks at, what it drags, and everything that is said to it."""

from __future__ import annotations

import asyncio
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from starlette.websockets import WebSocketDisconnect, WebSocketState

from bermwright.app.live.handles import Moved, grips_of, moved, text_in
from bermwright.app.live.nouns import Look
from bermwright.app.live.parts import parts_data
from bermwright.app.live.scene import Easel, draw
from bermwright.base.errors import BermwrightError, HouseFileError
from bermwright.formats.house_file.reading import place_of
from bermwright.workbench import wording
from bermwright.workbench.wording import key_of, key_text

if TYPE_CHECKING:
    from starlette.websockets import WebSocket

    from bermwright.adapt.mend.nouns import Proposal
    from bermwright.app.desk import Desk
    from bermwright.app.live.handles import Grip
    from bermwright.app.live.scene import Drawn
    from bermwright.house import House
    from bermwright.workbench.table import Page, Table


LONGEST_KEY = 80
"""Letters of a key that are repeated to whoever sent it."""


class RefusedError(BermwrightError):
    """A message that asks for what cannot be."""


def fault(error: Exception) -> dict[str, Any]:
    """A fault of the program itself, said without its inner workings."""
    text = f"bermwright itself went wrong: {type(error).__name__}: {error}. Nothing was changed."
    return {"say": "wrong", "kind": "fault", "text": text}


class Seat:
    """One WebSocket."""

    def __init__(self, table: Table, socket: WebSocket, *, edits: bool) -> None:
        self.table = table
        self.socket = socket
        self.edits = edits
        self.look = Look()
        self.remedies: dict[int, tuple[int, tuple[Proposal, ...]]] = {}
        """What was found for a finding, and for which revision."""
        self.jobs: set[int] = set()
        self.wants_parts = False
        """Whether this window keeps the list of parts."""
        self.easel = Easel()
        self._waiting: dict[str, Any] | None = None
        self._dragging: asyncio.Task[None] | None = None
        self._sending = asyncio.Lock()

    async def send(self, message: Any, to: str | None = None) -> None:  # noqa: ANN401  (one of `messages`)
        """Send one message; a window that has gone is passed over."""
        whole = message if to is None else {**message, "to": to}
        async with self._sending:
            if self.socket.application_state is not WebSocketState.CONNECTED:
                return
            try:
                await self.socket.send_json(whole)
            except (WebSocketDisconnect, RuntimeError):
                return

    # ------------------------------------------------------------------ asking

    def may_edit(self) -> None:
        """Raises `RefusedError` for a window that may only look."""
        if not self.edits:
            raise RefusedError("This house was shared to look at only.")

    def desk(self) -> Desk:
        """The file in hand, for a change."""
        self.may_edit()
        if self.table.desk is None:
            raise RefusedError("No house file is open.")
        return self.table.desk

    def page(self) -> Page:
        """The house in hand."""
        page = self.table.page
        if page is None:
            raise RefusedError("No house is open, or its file cannot be read yet.")
        return page

    def begin_anew(self) -> None:
        """Look at another house from its beginning."""
        self.look = replace(self.look, vault=0, stage=None, case=None, week=None)
        self.easel, self.wants_parts, self._waiting = Easel(), False, None
        self.remedies.clear()

    # ------------------------------------------------------------------ saying

    async def everything(self, to: str | None = None) -> None:
        """All that is known, for a window that has just come."""
        await self.revision("opened", to)
        await self.drawing()
        if self.table.result is not None:
            await self.found()
        else:
            await self.axes()

    async def revision(self, label: str, to: str | None = None) -> None:
        """Where the file stands."""
        desk = self.table.desk
        if desk is not None:
            message = wording.revision_message(desk, edits=self.edits, label=label, system=self.look.system)
            await self.send(message, to)

    async def parts(self, to: str | None = None) -> None:
        """The parts of the house, for a window that keeps their list."""
        page = self.table.page
        if page is not None and self.wants_parts:
            data = await self.table.by_hand(parts_data, page.document)
            await self.send({"say": "parts", "revision": page.number, **data}, to)

    async def drawing(self, to: str | None = None) -> None:
        """Handles and scene of the house in hand."""
        page = self.table.page
        if page is None:
            return
        look = self.look
        scene, handles = await self.table.by_hand(self._settled, page, look)
        await self.send(handles)
        await self.send(scene, to)

    def _settled(self, page: Page, look: Look) -> tuple[Any, Any]:
        drawn = self.table.scene(page, look, self.easel)
        self.look = replace(self.look, stage=drawn.stage or look.stage, case=drawn.case or look.case)
        grips = page.handles(drawn.vault)
        handles = wording.handles_message(
            grips,
            page.document,
            revision=page.number,
            vault=drawn.vault,
            system=look.system,
            edits=self.edits,
        )
        return self._scene(page, look, drawn, page.house, grips), handles

    def _scene(
        self,
        page: Page,
        look: Look,
        drawn: Drawn,
        house: House,
        grips: tuple[Grip, ...],
        **more: Any,  # noqa: ANN401  (what only a drag has)
    ) -> Any:  # noqa: ANN401  (a scene)
        settled = self.table.settled and "seq" not in more
        result = self.table.result
        return wording.scene_message(
            drawn,
            house=house,
            revision=page.number,
            provisional=not settled,
            stale_from=result.number if result is not None and not settled else None,
            grips=grips,
            system=look.system,
            view_of=look.view,
            week=look.week,
            **more,
        )

    async def found(self) -> None:
        """What the last full run found, and the drawing that now stands on it."""
        page, result = self.table.page, self.table.result
        if page is None or result is None:
            return
        message = await self.table.by_hand(
            wording.found_message, result.found, page.house, self.look.system, result.number
        )
        await self.send(message)
        await self.axes()
        await self.drawing()

    async def axes(self, to: str | None = None) -> None:
        """The axes of time."""
        page, result = self.table.page, self.table.result
        if page is None:
            return
        revision = result.number if result is not None else page.number
        message = wording.axes_message(
            self.table.found, self.look, page.house, revision=revision, stage=self.look.stage
        )
        vault = self.look.vault
        message["now"]["week"] = self.look.week
        message["year"] = await self.table.by_hand(self.table.year, page, vault, self.look.system)
        await self.send(message, to)

    # ------------------------------------------------------------------ dragging

    def drag(self, message: dict[str, Any]) -> None:
        """Note the newest place of the hand; what waited before it is passed over."""
        self._waiting = message
        if self._dragging is None or self._dragging.done():
            self._dragging = self.table.background(self._drags())

    async def _drags(self) -> None:
        while self._waiting is not None:
            message, self._waiting = self._waiting, None
            try:
                answer = await self.table.by_hand(self._dragged, self.page(), message)
            except RefusedError as error:
                answer = {"say": "wrong", "kind": "refused", "text": str(error), "seq": message.get("seq")}
            except Exception as error:  # noqa: BLE001  (the hand must learn that no drawing will come)
                answer = fault(error) | {"seq": message.get("seq")}
            await self.send(answer, message.get("id"))

    def _dragged(self, page: Page, message: dict[str, Any]) -> Any:  # noqa: ANN401  (a scene, or what is wrong)
        look, seq = self.look, message.get("seq")
        try:
            change = self._meant(page, look, message)
            house = page.trials.house({change.key: change.value}, page.name)
            ground = self.table.ground(page, min(look.vault, len(house.vaults) - 1))
            drawn = draw(house, look, self.table.found, self.easel, hold=True, ground=ground)
        except HouseFileError as error:
            place = place_of(key_of(str(message.get("key", ""))), page.document)
            mistakes = [wording.mistake_data(one) for one in error.mistakes]
            text = wording.mistakes_text(mistakes, (place,))
            return {"say": "wrong", "kind": "mistakes", "text": text, "seq": seq, "mistakes": mistakes}
        except BermwrightError as error:
            return {"say": "wrong", "kind": "refused", "text": str(error), "seq": seq}
        except (KeyError, IndexError, TypeError, ValueError, AttributeError):
            key = str(message.get("key", ""))[:LONGEST_KEY]
            return {"say": "wrong", "kind": "refused", "text": f"The file has no {key}.", "seq": seq}
        grips = grips_of(house, drawn.vault, drawn.form) if drawn.form is not None else ()
        dragged = {
            "key": key_text(change.key),
            "value": change.value,
            "text": change.text,
            "was": text_in(page.document, change.key) or "",
            "says": "",
        }
        return self._scene(page, look, drawn, house, grips, seq=seq, dragged=dragged)

    def _meant(self, page: Page, look: Look, message: dict[str, Any]) -> Moved:
        """What the hand means: a value as it was typed, or the place of a handle."""
        key = key_of(str(message.get("key", "")))
        value = message.get("value")
        if isinstance(value, str):
            return Moved(key=key, value=value, text=value)
        x, z = message.get("x"), message.get("z")
        vault = key[1] if len(key) > 1 and isinstance(key[1], int) else look.vault
        if (
            not isinstance(x, int | float)
            or not isinstance(z, int | float)
            or vault >= len(page.house.vaults)
        ):
            raise RefusedError("A drag needs a value, or the place of the hand.")
        name = message.get("handle")
        grips = [one for one in page.handles(vault) if one.key == key and name in {None, one.name}]
        form = page.form(vault)
        if not grips or form is None:
            raise RefusedError("There is no such handle.")
        return moved(grips[0], form, (float(x), float(z)), system=look.system, fine=bool(message.get("fine")))
