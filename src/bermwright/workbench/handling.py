"""One function for each thing a window may ask; `HANDLERS` lists them by their word."""

from __future__ import annotations

import difflib
import tomllib
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from bermwright.adapt.winter.open_ground import WEEKS
from bermwright.app.desk import ChangedOnDiskError, StaleEditError
from bermwright.app.live.parts import mirrored_changes
from bermwright.base.errors import BermwrightError, HouseFileError
from bermwright.formats.house_file import edited, parts
from bermwright.formats.house_file.files import LARGEST
from bermwright.formats.house_file.reading import place_of
from bermwright.workbench import errands, wording
from bermwright.workbench.seat import RefusedError, Seat, fault
from bermwright.workbench.wording import key_of

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable, Iterator

    from bermwright.house.checks import Key

    Message = dict[str, Any]
    Handler = Callable[[Seat, Message], Awaitable[None]]

THEMES, SYSTEMS = ("day", "lamp", "paper"), ("metric", "imperial")
LONGEST_LABEL = 160
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
    if isinstance(message.get("height"), int | float):
        changes["height"] = int(min(max(message["height"], 0), MOST_WIDTH))
    if "stage" in message and message["stage"] != seat.look.stage:
        changes |= {"stage": _words(message["stage"]), "case": None}
    if "week" in message:
        changes["week"] = _week(message["week"])
    if "case" in message:
        changes["case"] = _words(message["case"])
    return replace(seat.look, **changes)


def _week(given: object) -> int | None:
    """A week of the year; None leaves the year out of the drawing."""
    return min(max(given, 1), WEEKS) if isinstance(given, int) and not isinstance(given, bool) else None


def _words(given: object) -> str | None:
    return given if isinstance(given, str) else None


async def drag(seat: Seat, message: Message) -> None:
    """A handle is being moved."""
    seat.may_edit()
    seat.drag(message)


async def edit(seat: Seat, message: Message) -> None:
    """Change values of the file."""
    desk = seat.desk()
    changes = {key_of(str(key)): value for key, value in message.get("changes", [])}
    if not changes:
        raise RefusedError("An edit needs at least one change.")
    label = _label(message, "edit")
    await seat.table.by_hand(lambda: desk.edit(changes, label, base=message.get("base")))
    await seat.table.changed(label, (seat, message.get("id")))


async def text(seat: Seat, message: Message) -> None:
    """The whole file, written by hand."""
    desk, whole = seat.desk(), str(message.get("text", ""))
    if len(whole.encode("utf-8")) > LARGEST:
        raise RefusedError("This text is too long for a house file.")
    label = _label(message, "written by hand")
    await seat.table.by_hand(lambda: desk.write(whole, label, base=message.get("base")))
    await seat.table.changed(label, (seat, message.get("id")))


async def undo(seat: Seat, message: Message) -> None:
    """One step back."""
    desk = seat.desk()
    label = desk.history.undoes
    await seat.table.by_hand(desk.undo)
    await seat.table.changed(f"undone: {label}" if label else "nothing to undo", (seat, message.get("id")))


async def redo(seat: Seat, message: Message) -> None:
    """One step forth."""
    desk = seat.desk()
    label = desk.history.redoes
    await seat.table.by_hand(desk.redo)
    said = f"done again: {label}" if label else "nothing to do again"
    await seat.table.changed(said, (seat, message.get("id")))


async def keep(seat: Seat, message: Message) -> None:
    """Write the text in hand into the file."""
    desk = seat.desk()
    await seat.table.by_hand(lambda: desk.keep(over=bool(message.get("over"))))
    await seat.table.stays("kept", (seat, message.get("id")))


async def take(seat: Seat, message: Message) -> None:
    """Take what stands in the file."""
    desk = seat.desk()
    await seat.table.by_hand(desk.take_from_disk)
    await seat.table.changed("taken from the file", (seat, message.get("id")))


async def part(seat: Seat, message: Message) -> None:
    """Add, copy, rename, remove or mirror a part."""
    desk, act = seat.desk(), str(message.get("act", ""))
    if act not in ACTS:
        raise RefusedError(f"A part can be: {', '.join(ACTS)}.")
    where = key_of(str(message.get("kind", "")))
    name = str(message.get("new_name") or "").strip()
    values = message.get("at") if isinstance(message.get("at"), dict) else {}
    place = None if act == "add" else _place(seat, where, message)
    label = _label(message, f"{message.get('name') or name or where[-1]}: {act}")

    def make(whole: str) -> str:
        return ACTS[act](whole, where if place is None else place, name, values or {})

    await seat.table.by_hand(lambda: desk.change(make, label, base=message.get("base")))
    await seat.table.changed(label, (seat, message.get("id")))


def _place(seat: Seat, where: Key, message: Message) -> Key:
    """Which entry is meant: by its number, else by its name; a single table by its place alone."""
    entries: Any = seat.page().document
    for step in where:
        try:
            entries = entries[step]
        except (KeyError, IndexError, TypeError):
            raise RefusedError("There is no such part.") from None
    if isinstance(entries, dict):
        return where
    number = message.get("number")
    if isinstance(number, int) and 0 <= number < len(entries):
        return (*where, number)
    names = [one.get("name") for one in entries]
    if message.get("name") in names:
        return (*where, names.index(message["name"]))
    raise RefusedError("There is no such part.")


def _renamed(whole: str, place: Key, name: str, _values: Message) -> str:
    if not name:
        raise RefusedError("A part needs a name.")
    return parts.renamed(whole, place, name)


def _mirrored(whole: str, place: Key, _name: str, _values: Message) -> str:
    table: Any = tomllib.loads(whole)
    for step in place:
        table = table[step]
    changes = mirrored_changes(table, place)
    if not changes:
        raise RefusedError("Left and right of this part are alike.")
    return edited(whole, changes)


ACTS: dict[str, Callable[[str, Key, str, Message], str]] = {
    "add": parts.added,
    "copy": lambda whole, place, name, _values: parts.copied(whole, place, name or None),
    "rename": _renamed,
    "remove": lambda whole, place, _name, _values: parts.removed(whole, place),
    "mirror": _mirrored,
}
"""What can be done with a part: the text of the file before, and after."""


async def list_parts(seat: Seat, message: Message) -> None:
    """The parts of the house, now and after every change."""
    seat.page()
    seat.wants_parts = True
    await seat.parts(message.get("id"))


async def written(seat: Seat, message: Message) -> None:
    """The text of the file in hand."""
    desk = seat.table.desk
    if desk is None:
        raise RefusedError("No house file is open.")
    answer = {"say": "written", "number": desk.number, "name": desk.path.name, "text": desk.text}
    await seat.send(answer, message.get("id"))


async def differs(seat: Seat, message: Message) -> None:
    """What stands in the file against what is in hand."""
    desk = seat.table.desk
    if desk is None:
        raise RefusedError("No house file is open.")
    there = desk.on_disk()
    lines = list(_lines(desk.text if there is None else there, desk.text))
    await seat.send({"say": "differs", "lines": lines}, message.get("id"))


def _lines(there: str, here: str) -> Iterator[dict[str, str]]:
    compared = difflib.unified_diff(there.splitlines(), here.splitlines(), n=2, lineterm="")
    for line in list(compared)[2:]:
        if line.startswith("@@"):
            yield {"sign": " ", "text": "…"}
        else:
            yield {"sign": line[:1], "text": line[1:]}


def _label(message: Message, otherwise: str) -> str:
    """What an edit is called, at most a line long."""
    return str(message.get("label") or otherwise)[:LONGEST_LABEL]


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
    "part": part,
    "parts": list_parts,
    "written": written,
    "differs": differs,
    "mends": errands.mends,
    "evidence": errands.evidence,
    "remedy": errands.remedy,
    "job": errands.job,
    "stop": errands.stop,
}
"""What a window may say, and who answers."""


async def handle(seat: Seat, message: object) -> None:
    """Answer one message; whatever goes wrong is said, and nothing is changed."""
    if not isinstance(message, dict) or str(message.get("say")) not in HANDLERS:
        await seat.send({"say": "wrong", "kind": "refused", "text": "This message is not understood."})
        return
    to = message.get("id")
    try:
        await HANDLERS[str(message["say"])](seat, message)
    except StaleEditError as error:
        await seat.send({"say": "wrong", "kind": "stale", "text": str(error)}, to)
        await seat.revision("changed in another window")
        await seat.drawing()
    except ChangedOnDiskError as error:
        await seat.send({"say": "wrong", "kind": "changed", "text": str(error)}, to)
    except HouseFileError as error:
        keys = _keys(seat, message)
        mistakes = [wording.mistake_data(one, keys) for one in error.mistakes]
        says = wording.mistakes_text(mistakes, keys)
        await seat.send({"say": "wrong", "kind": "mistakes", "text": says, "mistakes": mistakes}, to)
    except BermwrightError as error:
        await seat.send({"say": "wrong", "kind": "refused", "text": str(error)}, to)
    except (TypeError, ValueError, KeyError, IndexError, AttributeError) as error:
        says = f"This cannot be done with the file as it is ({type(error).__name__}: {error})."
        await seat.send({"say": "wrong", "kind": "fault", "text": says}, to)
    except Exception as error:  # noqa: BLE001  (one message must not end the window)
        await seat.send(fault(error), to)


def _keys(seat: Seat, message: dict[str, Any]) -> dict[str, str]:
    """Keys of an edit by the words of their place in the file."""
    page, changes = seat.table.page, message.get("changes", [])
    if page is None or not isinstance(changes, list):
        return {}
    keys = [str(one[0]) for one in changes if isinstance(one, list) and one]
    return {place_of(key_of(key), page.document): key for key in keys}
