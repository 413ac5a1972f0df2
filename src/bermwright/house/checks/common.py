"""What a check of a table is, and the words that several checks share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.units import show

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence, Sized
    from typing import Protocol

    from bermwright.base.ranges import Range
    from bermwright.house.around import Fill
    from bermwright.house.site import Soil

    class Named(Protocol):
        """A table with a name."""

        @property
        def name(self) -> str:
            """What it is called."""


Key = tuple[str | int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Contradiction:
    """Values that cannot all be true. `path` are the keys in the file, entries counted from 0."""

    path: Key
    given: str
    allowed: str
    advice: str


@dataclass(frozen=True, slots=True)
class Check:
    """A check of one table: the keys it reads, and what it finds."""

    here: Key
    reads: tuple[str, ...]
    clashes: Callable[[], Iterable[Contradiction]]
    also: tuple[Key, ...] = ()
    """What it reads elsewhere in the file, from the top."""

    def can_run(self, doubtful: frozenset[Key], above: frozenset[Key]) -> bool:
        """Whether nothing it reads is doubtful, lies in something doubtful or (`above`) holds it."""
        read = [*((*self.here, *name.split(".")) for name in self.reads), *self.also]
        return not any(need in above or doubtful.intersection(beginnings(need)) for need in read)


def each(group: Key, rows: Sized, *names: str) -> tuple[Key, ...]:
    """These fields of every entry of a list; of a first one where the list itself could not be read."""
    return tuple((*group, place, name) for place in range(max(1, len(rows))) for name in names)


def beginnings(key: Key) -> list[Key]:
    """A key and every key that holds it."""
    return [key[:size] for size in range(len(key) + 1)]


def clash(here: Key, name: str, given: str, allowed: str, advice: str) -> Contradiction:
    """What does not fit at the field `name` of the table `here`."""
    path = (*here, *name.split(".")) if name else here
    return Contradiction(path=path, given=given, allowed=allowed, advice=advice)


def listed(names: Iterable[str]) -> str:
    """Names as they stand in the file, or that there is none."""
    return ", ".join(f'"{name}"' for name in names) or "none"


def metres(value: float) -> str:
    """A length in words."""
    return f"{value:.4g} m"


def bound(
    check: Callable[..., Iterable[Contradiction]], *given: object
) -> Callable[[], Iterable[Contradiction]]:
    """A check that waits until it is known whether what it reads may be trusted."""
    return lambda: check(*given)


def names_once(group: Key, rows: Sequence[Named]) -> Check:
    """The check that no two entries of a list have the same name."""
    names = bound(each_name_once, group, [row.name for row in rows])
    return Check(group, (), names, each(group, rows, "name"))


def each_name_once(here: Key, names: Sequence[str]) -> Iterator[Contradiction]:
    """Every entry that has the name of an earlier one."""
    seen: dict[str, int] = {}
    for place, name in enumerate(names):
        first = seen.setdefault(name, place)
        if first < place:
            yield clash(
                (*here, place),
                "name",
                f'"{name}"',
                f"is the name of number {first + 1} too; every name is used once.",
                "Give this one a name of its own.",
            )


def lighter_when_wet(here: Key, soil: Soil | Fill) -> Iterator[Contradiction]:
    """A soil that weighs less full of water than moist."""
    moist: Range | None = soil.unit_weight
    wet: Range | None = soil.saturated_unit_weight
    if moist is not None and wet is not None and (wet.low < moist.low or wet.high < moist.high):
        yield clash(
            here,
            "saturated_unit_weight",
            f"{show(wet.low, 'kN/m3', 1)} to {show(wet.high, 'kN/m3', 1)}",
            "is less than the moist unit_weight; a soil full of water is heavier.",
            "Weigh both again, or swap the two.",
        )
