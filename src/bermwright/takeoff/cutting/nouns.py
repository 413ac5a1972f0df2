"""What a cut list is: pieces wanted, boards sawn, offcuts kept, and what found no board."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bermwright.base.units import Money


class Part(StrEnum):
    """What a piece is for."""

    RIBS = "rib"
    LAGGING = "plank"
    HEADER = "header"
    LINTEL = "lintel"
    JOIST = "joist"
    BRACE = "brace"
    PROP = "prop"


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceKind:
    """Pieces that are cut alike."""

    name: str
    """"1L2, 3R2": the pieces of a rib that have this blank; "planks of 8 bays"."""
    part: Part
    vault: str
    length: float
    width: float
    thickness: float
    """The straight blank (m)."""
    labels: tuple[str, ...]
    """One for each piece, as written on it."""
    step: float
    """How far across a second outline lies beside the first in one wide blank, saw cut included (m)."""
    edges: tuple[tuple[float, float], ...] = ()
    """Lower and upper edge of the outline over its blank at even steps along it (m); none: straight."""

    @property
    def count(self) -> int:
        """How many are wanted."""
        return len(self.labels)

    @property
    def key(self) -> str:
        """What tells it from every other kind of the house."""
        return f"{self.vault}/{self.part}/{self.name}"

    def stack_width(self, number: int) -> float:
        """Width of a blank for so many of them beside each other (m)."""
        return self.width + (number - 1) * self.step


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """A shorter outline of another kind beside the first in one blank."""

    kind: PieceKind
    gap: float
    """From the lower edge of the first blank to that of this one, saw cut included (m)."""
    shift: float
    """From the marked end of the blank to the beginning of this outline (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """A blank that is laid out: one outline, or several beside each other."""

    kind: PieceKind
    beside: int
    count: int
    other: Other | None = None

    @property
    def width(self) -> float:
        """Width (m)."""
        return _width(self.kind, self.beside, self.other)

    @property
    def kinds(self) -> tuple[PieceKind, ...]:
        """One for each outline, from the lower edge."""
        return (self.kind,) * self.beside + (() if self.other is None else (self.other.kind,))


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A blank on a board; more than one label where outlines lie beside each other in it."""

    kind: PieceKind
    labels: tuple[str, ...]
    start: float
    end: float
    """From the marked end of the board (m)."""
    other: Other | None = None

    @property
    def width(self) -> float:
        """Of the blank (m)."""
        return _width(self.kind, len(self.labels) - (self.other is not None), self.other)

    @property
    def kinds(self) -> tuple[PieceKind, ...]:
        """One for each label."""
        alike = len(self.labels) - (self.other is not None)
        return (self.kind,) * alike + (() if self.other is None else (self.other.kind,))


def _width(kind: PieceKind, alike: int, other: Other | None) -> float:
    wide = kind.stack_width(alike)
    return wide if other is None else max(wide, other.gap + other.kind.width)


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """What is left of a board and worth keeping."""

    name: str
    board: str
    start: float
    end: float
    width: float
    thickness: float

    @property
    def length(self) -> float:
        """Length (m)."""
        return self.end - self.start


@dataclass(frozen=True, slots=True, kw_only=True)
class SawnBoard:
    """One board of the yard and everything that is cut out of it, from its marked end."""

    name: str
    """As it is labelled: "barn floor A 3"."""
    stock: str
    """The line of the house file."""
    length: float
    width: float
    thickness: float
    faults: tuple[tuple[float, float], ...]
    """Faults and trimmed ends (m)."""
    placed: tuple[Placed, ...]
    offcuts: tuple[Offcut, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """Pieces that found no board."""

    kind: PieceKind
    labels: tuple[str, ...]
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CutList:
    """The cutting plan for boards of one thickness."""

    thickness: float
    kinds: tuple[PieceKind, ...]
    boards: tuple[SawnBoard, ...]
    missing: tuple[Missing, ...]
    used: float
    """Clear length times width of every stretch that is cut into (m2)."""
    bound: float | None
    """No plan for these blanks from this stock can use less (m2); None where pieces are missing."""
    found_by: str
    nested: int
    """Blanks that hold more than one outline."""
    left: tuple[tuple[str, int], ...]
    """Boards that are not touched, by the line of the house file."""
    remarks: tuple[str, ...]
    cost: tuple[Money, ...]
    """Of the boards cut into, as far as they have a price, one for each currency."""
    unpriced: int
    """Boards cut into that have none."""

    @property
    def excess(self) -> float | None:
        """Share by which the plan lies above the bound at most (-)."""
        return None if not self.bound else max(0.0, self.used / self.bound - 1.0)

    @property
    def pieces(self) -> int:
        """Pieces that are cut."""
        return sum(len(placed.labels) for board in self.boards for placed in board.placed)

    @property
    def sawcuts(self) -> int:
        """Cuts across a board: behind every blank, and off ends and faults."""
        return sum(len(board.placed) + len(board.faults) for board in self.boards)

    @property
    def offcuts(self) -> tuple[Offcut, ...]:
        """All that is worth keeping."""
        return tuple(offcut for board in self.boards for offcut in board.offcuts)

    @property
    def taken(self) -> float:
        """Face of all boards cut into, whole (m2)."""
        return sum(board.length * board.width for board in self.boards)

    @property
    def wanted(self) -> float:
        """Face of the blanks that are cut, beside each other or not (m2)."""
        return sum(
            (placed.end - placed.start) * placed.width for board in self.boards for placed in board.placed
        )

    @property
    def kept(self) -> float:
        """Face of the offcuts kept (m2)."""
        return sum(offcut.length * offcut.width for offcut in self.offcuts)


@dataclass(frozen=True, slots=True, kw_only=True)
class LogYield:
    """What one log of a line gives."""

    name: str
    count: int
    diameter: float
    length: float
    volume: float | None
    """Of wood in one log (m3); None where its thick end is not given."""
    heart: str
    widths: tuple[float, ...]
    """Dry boards of one log, from the heart outwards (m)."""
    places: tuple[float, ...]
    """Middle of each board from the heart, as sawn (m)."""
    thickness: float
    shrinks: float
    """Share that it loses while it dries."""
    yields: float
    """Share of the thin end's circle that becomes boards (-)."""
    mill: float
    """Boards by the International rule with a saw cut of a quarter inch (m3)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SawWords:
    """The saw as counted with (m)."""

    kerf: float
    trim: float
    keep: float
    assumed: tuple[str, ...]
    """What the file does not say, in sentences."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HousePlan:
    """All cut lists of a house."""

    house: str
    saw: SawWords
    lists: tuple[CutList, ...]
    logs: tuple[LogYield, ...]
    remarks: tuple[str, ...]
    invented: bool
    """Whether no stock is given, so that boards of the wanted length were assumed in any number."""

    @property
    def codes(self) -> dict[str, str]:
        """A letter for every kind of piece, by its key: A to Z, then A2 and on."""
        kinds = [kind for one in self.lists for kind in one.kinds]
        return {kind.key: _letter(number) for number, kind in enumerate(kinds)}

    @property
    def complete(self) -> bool:
        """Whether every piece found a board."""
        return not any(one.missing for one in self.lists)

    @property
    def offcuts(self) -> tuple[Offcut, ...]:
        """All offcuts worth keeping."""
        return tuple(offcut for one in self.lists for offcut in one.offcuts)


LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without I and O, which are read as figures."""


def _letter(number: int) -> str:
    turn, place = divmod(number, len(LETTERS))
    return LETTERS[place] + (str(turn + 1) if turn else "")
