"""Advice on the curve of a house file: searched once, printed as text, JSON or pages."""

from __future__ import annotations

import difflib
import threading
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.adapt.shape.advice import Advice, advise
from bermwright.app.assessing import quiet, threads
from bermwright.app.opening import open_house, revision_of
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import beside, output, write_bytes
from bermwright.app.outside.kernels import while_preparing
from bermwright.base.errors import BermwrightError
from bermwright.book.pages.shape import shape_document
from bermwright.formats.documents import pdf

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from bermwright.base.document import Document
    from bermwright.house import House, Vault

    Progress = Callable[[str], None]


class NoVaultError(BermwrightError):
    """The house has no vault of that name."""


class _Stopped(Exception):  # noqa: N818  (nothing is wrong: somebody has had enough)
    """The search is to end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeWishes:
    """How the advice is wanted."""

    vault: str | None = None
    """One vault by its name; every vault where it is not given."""
    out: str | None = None
    date: str | None = None
    system: str = "metric"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaped:
    """The advice on a house, ready to be printed."""

    house: str
    advices: tuple[Advice, ...]
    document: Document
    path: Path | None
    """Where the pages go; None where nobody asked for them."""

    @property
    def holds(self) -> bool:
        """Whether every curve that is advised holds, filled in the order that is advised."""
        return all(advice.holds for advice in self.advices)

    def write(self) -> Path | None:
        """Put the pages on disk, if they are wanted."""
        if self.path is None:
            return None
        return write_bytes(self.path, pdf(self.document, date=self.document.date))


def shape_file(house_file: str, wishes: ShapeWishes, progress: Progress = quiet) -> Shaped:
    """The advice on one vault or on every vault of a house file. Ctrl-C ends it."""
    path = None if wishes.out is None else output(wishes.out, beside(house_file, "shape", ".pdf"), (".pdf",))
    date = day(wishes.date)
    opened = open_house(house_file)
    advices = advices_of(opened.house, wishes.vault, progress)
    document = shape_document(
        advices, house=opened.house.name, revision=revision_of(opened), date=date, system=wishes.system
    )
    return Shaped(house=opened.house.name, advices=advices, document=document, path=path)


def advices_of(house: House, name: str | None = None, progress: Progress = quiet) -> tuple[Advice, ...]:
    """The advice on one vault of a house, or on all of them."""
    with threads() as pool, stoppable(while_preparing(progress)) as told:
        vaults = vaults_named(house, name)
        return tuple(advise(house, vault, progress=told, share=pool.map) for vault in vaults)


def vaults_named(house: House, name: str | None) -> tuple[Vault, ...]:
    """The vault of that name, or all; raises `NoVaultError` with the nearest name."""
    if name is None:
        return house.vaults
    found = tuple(vault for vault in house.vaults if vault.name == name)
    if not found:
        names = [vault.name for vault in house.vaults]
        near = difflib.get_close_matches(name, names, n=1, cutoff=0.0)
        hint = f' Did you mean "{near[0]}"?' if near else ""
        raise NoVaultError(f'{house.name} has no vault "{name}"; it has: {", ".join(names)}.{hint}')
    return found


@contextmanager
def stoppable(progress: Progress) -> Iterator[Progress]:
    """A progress line that ends the work of the threads once its block is left."""
    over = threading.Event()

    def told(step: str) -> None:
        if over.is_set():
            raise _Stopped
        progress(step)

    try:
        yield told
    finally:
        over.set()
