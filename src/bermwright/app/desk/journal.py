"""A file beside the house file that holds every edit since it was last kept, and the undo before that.

Each line is one event, written and flushed before the edit is answered: a kill loses nothing that was
shown. A line that was cut off by a power cut is left out.
"""

from __future__ import annotations

import json
import os
from typing import TYPE_CHECKING, Any

from bermwright.app.desk.history import History, Revision
from bermwright.app.outside.files import write_bytes

if TYPE_CHECKING:
    from pathlib import Path

LONGEST = 4_000_000
"""A journal longer than this is written anew with the history alone (bytes)."""


class Journal:
    """The journal of one house file."""

    def __init__(self, house_file: Path) -> None:
        self.path = house_file.with_name(f".{house_file.name}.desk")
        self._size = 0

    def write_anew(self, history: History, kept: str) -> None:
        """Begin with a whole history; `kept` is the text as it stands in the house file."""
        lines: list[dict[str, Any]] = [{"event": "begin", "kept": kept}]
        lines += [{"event": "edit", "text": one.text, "label": one.label} for one in history.revisions]
        lines.append({"event": "at", "at": history.at})
        content = "".join(json.dumps(line) + "\n" for line in lines).encode("utf-8")
        write_bytes(self.path, content)
        self._size = len(content)

    def add(self, **event: Any) -> bool:  # noqa: ANN401  (plain data)
        """Write one event; whether the journal has grown so long that it should be written anew."""
        line = (json.dumps(event) + "\n").encode("utf-8")
        with self.path.open("ab") as stream:
            stream.write(line)
            stream.flush()
            os.fsync(stream.fileno())
        self._size += len(line)
        return self._size > LONGEST

    def read(self) -> tuple[History, str] | None:
        """The history that was left, and the text that the house file had then; None where there is none."""
        try:
            content = self.path.read_bytes()
        except OSError:
            return None
        self._size = len(content)
        return _replayed(content.decode("utf-8", errors="replace").splitlines())

    def forget(self) -> None:
        """Take the journal away."""
        self.path.unlink(missing_ok=True)


def _replayed(lines: list[str]) -> tuple[History, str] | None:
    kept: str | None = None
    revisions: list[Revision] = []
    at = 0
    for line in lines:
        event = _event(line)
        match event.get("event"):
            case "begin":
                kept, revisions, at = str(event.get("kept", "")), [], 0
            case "edit":
                revisions = [*revisions[: at + 1], Revision(str(event["text"]), str(event["label"]))]
                at = len(revisions) - 1
            case "at":
                at = min(max(int(event.get("at", 0)), 0), max(len(revisions) - 1, 0))
            case "kept":
                kept = str(event["text"])
            case _:
                continue
    if kept is None or not revisions:
        return None
    return History(revisions=tuple(revisions), at=at), kept


def _event(line: str) -> dict[str, Any]:
    """One line as an event; nothing where it is damaged."""
    try:
        event = json.loads(line)
    except ValueError:
        return {}
    complete = isinstance(event, dict) and (event.get("event") != "edit" or {"text", "label"} <= event.keys())
    return event if complete else {}
