"""Where a number comes from: a work, a place in it, and how we know what it says."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Provenance(StrEnum):
    """How a value came to us. What rests on memory says so on every face."""

    READ = "read"
    """Seen in the work or in an opened page that quotes it."""
    DERIVED = "derived"
    """Follows from a closed form or an equation solved here."""
    MEMORY = "memory"
    """Known, but the work was not opened: confirm before relying on it."""
    PRACTICE = "common practice, no source"
    """A fact of the trade that nobody has published."""
    BUILDER = "given in the house file"
    """Said by the builder."""

    @property
    def needs_review(self) -> bool:
        """Whether somebody licensed must confirm the value before it is relied on."""
        return self in {Provenance.MEMORY, Provenance.PRACTICE}


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A published work; one constant each in `data/works.py`."""

    key: str
    authors: str
    title: str
    year: int
    """0 where the work bears no date."""
    publisher: str = ""
    edition: str = ""
    locator: str = ""
    """ISBN, DOI or address of the page that was opened."""

    def __str__(self) -> str:
        dated = str(self.year) if self.year else "no date"
        parts = [self.authors, self.title, self.edition, self.publisher, dated]
        return ", ".join(part for part in parts if part)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cite:
    """A place in a work, and how we know what stands there."""

    work: Work
    place: str
    provenance: Provenance

    def __str__(self) -> str:
        doubt = " (from memory)" if self.provenance is Provenance.MEMORY else ""
        return f"{self.work.authors} {self.work.title}, {self.place}{doubt}"
