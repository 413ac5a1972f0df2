"""One house file on the desk. Every edit has a label, can be undone, and survives a kill."""

from __future__ import annotations

import threading
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.app.desk.history import History
from bermwright.app.desk.journal import Journal
from bermwright.app.outside.clock import time_of_day
from bermwright.app.outside.files import write_bytes
from bermwright.base.errors import BermwrightError, HouseFileError
from bermwright.formats.house_file import edited, read
from bermwright.formats.house_file.files import load_text
from bermwright.formats.house_file.reading import parsed

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.base.errors import Mistake
    from bermwright.formats.house_file import Opened
    from bermwright.formats.house_file.editing import Written
    from bermwright.house.checks import Key


class StaleEditError(BermwrightError):
    """An edit that was made to an older revision, such as in another window."""


class ChangedOnDiskError(BermwrightError):
    """The house file was changed by something else since it was opened or kept."""


class Desk:
    """The file, its history and what is wrong with it. Safe to use from several threads."""

    def __init__(self, path: str | Path) -> None:
        self.path = Path(path)
        self._lock = threading.RLock()
        self._journal = Journal(self.path)
        self._kept = load_text(self.path)
        """The text as it stood in the file when it was opened or kept."""
        self.recovered = False
        """Whether edits were found that had not been kept."""
        self.kept_at = ""
        """When the file was last written from here, such as `09:41`."""
        self.number = 0
        """Counts up with every change, undo and redo, so that windows know what is old."""
        self._history = self._found() or History.of(self._kept)
        self._journal.write_anew(self._history, self._kept)
        self._opened: Opened | None = None
        self.mistakes: tuple[Mistake, ...] = ()
        self._read()

    def _found(self) -> History | None:
        """The history of last time: its undo, and edits that were not kept."""
        left = self._journal.read()
        if left is None:
            return None
        history, kept = left
        if kept == self._kept:
            self.recovered = history.now.text != self._kept
            return history
        # The file was changed by something else meanwhile: what it says now comes last, nothing is lost.
        self.recovered = history.now.text != kept
        return history.with_edit(self._kept, "changed by another program")

    # ------------------------------------------------------------------ what is there

    @property
    def text(self) -> str:
        """The text in hand."""
        return self._history.now.text

    @property
    def history(self) -> History:
        """Every revision."""
        return self._history

    @property
    def opened(self) -> Opened | None:
        """The house of the last revision that could be read; None when there never was one."""
        return self._opened

    @property
    def kept(self) -> bool:
        """Whether the text in hand is the one in the file."""
        return self.text == self._kept

    # ------------------------------------------------------------------ changing

    def edit(self, changes: Mapping[Key, Written], label: str, *, base: int | None = None) -> int:
        """Change values, comments kept; the new number. A change that makes the file wrong is refused."""
        with self._lock:
            self._fresh(base)
            self._taken_apart()
            text = edited(self.text, changes)
            read(text, str(self.path))
            return self._take(text, label)

    def change(self, make: Callable[[str], str], label: str, *, base: int | None = None) -> int:
        """Change the text by a function of it; the new number. What makes the file wrong is refused."""
        with self._lock:
            self._fresh(base)
            self._taken_apart()
            text = make(self.text)
            read(text, str(self.path))
            return self._take(text, label)

    def write(self, text: str, label: str, *, base: int | None = None) -> int:
        """Take a whole new text, even one with mistakes: a person is still writing it."""
        with self._lock:
            self._fresh(base)
            return self._take(text, label)

    def undo(self) -> int:
        """One step back."""
        with self._lock:
            return self._walk(self._history.undone())

    def redo(self) -> int:
        """One step forth."""
        with self._lock:
            return self._walk(self._history.redone())

    def after(self, other: Desk) -> None:
        """Count on from another desk: what a window still sends to that one is then old for this one."""
        with self._lock:
            self.number = max(self.number, other.number + 1)

    def _fresh(self, base: int | None) -> None:
        if base is not None and base != self.number:
            raise StaleEditError(
                "This was changed in another window meanwhile; nothing was overwritten. Look at what "
                "changed, and make the change again."
            )

    def _taken_apart(self) -> None:
        """Raises `HouseFileError` where the text in hand is no TOML: no value of it can be found."""
        if self.mistakes:
            parsed(self.text, str(self.path))

    def _take(self, text: str, label: str) -> int:
        history = self._history.with_edit(text, label)
        if history is self._history:
            return self.number
        long = self._journal.add(event="edit", text=text, label=label)
        self._history = history
        if long:
            self._journal.write_anew(history, self._kept)
        return self._moved()

    def _walk(self, history: History) -> int:
        if history.at == self._history.at:
            return self.number
        self._journal.add(event="at", at=history.at)
        self._history = history
        return self._moved()

    def _moved(self) -> int:
        self.number += 1
        self._read()
        return self.number

    def _read(self) -> None:
        try:
            self._opened = read(self.text, str(self.path))
            self.mistakes = ()
        except HouseFileError as error:
            self.mistakes = error.mistakes

    # ------------------------------------------------------------------ the file

    def on_disk(self) -> str | None:
        """What stands in the file now, where that is not what was opened or kept; else None."""
        try:
            text = load_text(self.path)
        except BermwrightError:
            return None
        return None if text == self._kept else text

    def keep(self, *, over: bool = False) -> Path:
        """Write the text in hand into the file, whole or not at all.

        Where something else has changed the file meanwhile, it is left alone unless `over` says otherwise.
        """
        with self._lock:
            if not over and self.on_disk() is not None:
                raise ChangedOnDiskError(
                    f"{self.path.name} was changed by another program since it was opened. Compare both, "
                    "then keep yours over it or take what is there."
                )
            written = write_bytes(self.path, self.text.encode("utf-8"))
            self._kept = self.text
            self.kept_at = time_of_day()
            self._journal.add(event="kept", text=self._kept)
            return written

    def take_from_disk(self) -> int:
        """Take what stands in the file as one more edit, which can be undone."""
        with self._lock:
            text = load_text(self.path)
            self._kept = text
            self._journal.add(event="kept", text=text)
            return self._take(text, "taken from the file")
