"""One function for each thing a window may ask; `HANDLERS` lists them by their word."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from bermwright.app.desk import ChangedOnDiskError, StaleEditError
from bermwright.base.errors import BermwrightError, HouseFileError
from bermwright.workbench import wording
from bermwright.workbench.seat import RefusedError, Seat
from bermwright.workbench.wording import key_of

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable

    from bermwright.app.desk import Desk

    Message = dict[str, Any]
    Handler = Callable[[Seat, Message], Awaitable[None]]

THEMES, SYSTEMS = ("day", "lamp", "paper"), ("metric", "imperial")
LEAST_WIDTH, MOST_WIDTH = 280, 4000
"""Width of a drawing (px)."""


async def hello(seat: Seat, message: Message) -> None:
    """A window has come."""
    seat.look = _look(seat, message)
    await seat.everything(message.get("id"))


async def look(seat: Seat, message: Message) -> None:
    """Show something else, or the same in another manner."""
    before = seat.look
    seat.look = _look(seat, message)
    if seat.look.system != before.system:
        await seat.revision("units")
        await seat.found()
    await seat.drawing(message.get("id"))
    if (seat.look.stage, seat.look.vault) != (before.stage, before.vault):
        await seat.axes()


def _look(seat: Seat, message: Message) -> Any:  # noqa: ANN401  (a Look)
    page = seat.table.page
    count = len(page.house.vaults) if page is not None else 1
    changes: dict[str, Any] = {}
    if isinstance(message.get("vault"), int):
        changes["vault"] = min(max(message["vault"], 0), max(count - 1, 0))
    for name, options in (("theme", THEMES), ("view", ("section", "plan", "elevation"))):
        if message.get(name) in options:
            changes[name] = message[name]
    if message.get("units") in SYSTEMS:
        changes["system"] = message["units"]
    if isinstance(message.get("width"), int | float):
        changes["width"] = int(min(max(message["width"], LEAST_WIDTH), MOST_WIDTH))
    if "stage" in message and message["stage"] != seat.look.stage:
        changes |= {"stage": _words(message["stage"]), "case": None}
    if "case" in message:
        changes["case"] = _words(message["case"])
    return replace(seat.look, **changes)


def _words(given: object) -> str | None:
    return given if isinstance(given, str) else None


async def drag(seat: Seat, message: Message) -> None:
    """A handle is being moved."""
    _may_edit(seat)
    seat.drag(message)


async def edit(seat: Seat, message: Message) -> None:
    """Change values of the file."""
    desk = _desk(seat)
    changes = {key_of(str(key)): value for key, value in message.get("changes", [])}
    if not changes:
        raise RefusedError("An edit needs at least one change.")
    label = str(message.get("label") or "edit")
    base = message.get("base")
    await seat.table.by_hand(lambda: desk.edit(changes, label, base=base))
    await seat.table.changed(label)


async def text(seat: Seat, message: Message) -> None:
    """The whole file, written by hand."""
    desk = _desk(seat)
    whole, label = str(message.get("text", "")), str(message.get("label") or "written by hand")
    await seat.table.by_hand(lambda: desk.write(whole, label, base=message.get("base")))
    await seat.table.changed(label)


async def undo(seat: Seat, _message: Message) -> None:
    """One step back."""
    desk = _desk(seat)
    label = desk.history.undoes
    await seat.table.by_hand(desk.undo)
    await seat.table.changed(f"undone: {label}" if label else "nothing to undo")


async def redo(seat: Seat, _message: Message) -> None:
    """One step forth."""
    desk = _desk(seat)
    label = desk.history.redoes
    await seat.table.by_hand(desk.redo)
    await seat.table.changed(f"done again: {label}" if label else "nothing to do again")


async def keep(seat: Seat, message: Message) -> None:
    """Write the text in hand into the file."""
    desk = _desk(seat)
    await seat.table.by_hand(lambda: desk.keep(over=bool(message.get("over"))))
    for one in tuple(seat.table.seats):
        await one.revision("kept")


async def take(seat: Seat, _message: Message) -> None:
    """Take what stands in the file."""
    desk = _desk(seat)
    await seat.table.by_hand(desk.take_from_disk)
    await seat.table.changed("taken from the file")


def _desk(seat: Seat) -> Desk:
    _may_edit(seat)
    if seat.table.desk is None:
        raise RefusedError("No house file is open.")
    return seat.table.desk


def _may_edit(seat: Seat) -> None:
    if not seat.edits:
        raise RefusedError("This house was shared to look at only.")


HANDLERS: dict[str, Handler] = {
    "hello": hello,
    "look": look,
    "drag": drag,
    "edit": edit,
    "text": text,
    "undo": undo,
    "redo": redo,
    "keep": keep,
    "take": take,
}


async def handle(seat: Seat, message: object) -> None:
    """Answer one message; whatever goes wrong is said, and nothing is changed."""
    if not isinstance(message, dict) or message.get("say") not in HANDLERS:
        await seat.send({"say": "wrong", "kind": "refused", "text": "This message is not understood."})
        return
    to = message.get("id")
    try:
        await HANDLERS[message["say"]](seat, message)
    except StaleEditError as error:
        await seat.send({"say": "wrong", "kind": "stale", "text": str(error)}, to)
        await seat.revised("changed in another window")
    except ChangedOnDiskError as error:
        await seat.send({"say": "wrong", "kind": "changed", "text": str(error)}, to)
    except HouseFileError as error:
        mistakes = [wording.mistake_data(one, _keys(message)) for one in error.mistakes]
        says = " ".join(one["says"] for one in mistakes)
        await seat.send({"say": "wrong", "kind": "mistakes", "text": says, "mistakes": mistakes}, to)
    except BermwrightError as error:
        await seat.send({"say": "wrong", "kind": "refused", "text": str(error)}, to)
    except (TypeError, ValueError, KeyError, IndexError, AttributeError) as error:
        says = f"This cannot be done with the file as it is ({type(error).__name__}: {error})."
        await seat.send({"say": "wrong", "kind": "fault", "text": says}, to)


def _keys(message: dict[str, Any]) -> dict[str, str]:
    """Keys of an edit by the words of a mistake's place; only where one value was changed."""
    del message
    return {}
