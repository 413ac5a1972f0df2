"""The revisions of a text, with undo and redo."""

from __future__ import annotations

from dataclasses import dataclass, replace

MOST_REVISIONS = 400
"""Older ones are let go."""


@dataclass(frozen=True, slots=True)
class Revision:
    """One state of the file's text."""

    text: str
    label: str
    """What was done to come here, in the words of the builder: `rise 2.40 m`."""


@dataclass(frozen=True, slots=True)
class History:
    """All revisions that can be walked through; never empty."""

    revisions: tuple[Revision, ...]
    at: int

    @classmethod
    def of(cls, text: str, label: str = "opened") -> History:
        """A history that begins with one text."""
        return cls(revisions=(Revision(text, label),), at=0)

    @property
    def now(self) -> Revision:
        """The revision in hand."""
        return self.revisions[self.at]

    @property
    def undoes(self) -> str | None:
        """What an undo would take back; None where there is nothing."""
        return self.now.label if self.at > 0 else None

    @property
    def redoes(self) -> str | None:
        """What a redo would do again; None where there is nothing."""
        return self.revisions[self.at + 1].label if self.at + 1 < len(self.revisions) else None

    def with_edit(self, text: str, label: str) -> History:
        """A new revision after the one in hand; what was undone before is let go."""
        if text == self.now.text:
            return self
        kept = (*self.revisions[: self.at + 1], Revision(text, label))[-MOST_REVISIONS:]
        return History(revisions=kept, at=len(kept) - 1)

    def undone(self) -> History:
        """One step back, where there is one."""
        return replace(self, at=max(self.at - 1, 0))

    def redone(self) -> History:
        """One step forth, where there is one."""
        return replace(self, at=min(self.at + 1, len(self.revisions) - 1))
