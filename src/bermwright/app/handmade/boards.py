"""Boards: the cut list with its bars and bound, and labels for every board and piece."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bermwright.app.cutting import CutWishes, cut_file
from bermwright.app.handmade.nouns import Made, Shown, one_of, system_of
from bermwright.base.document import Figure, Heading, Notice, Para
from bermwright.base.units import show as shown
from bermwright.book.sheets.cutting import label_sheets
from bermwright.formats.drawings import pdf

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from bermwright.app.cutting import CutOut
    from bermwright.app.handmade.nouns import Options, Progress
    from bermwright.base.document import Block

LABELS = ("with labels", "without labels", "labels alone")


def show(house_file: str, folder: Path, options: Options, progress: Progress) -> Shown:
    """Whether every piece has its board; every board with its cuts; one sheet of labels."""
    del folder
    cut = cut_file(house_file, CutWishes(system=system_of(options), labels=False), progress)
    document = cut.document
    head, *rest = document.blocks
    # What guards the saw stands before the first board, not behind the last list.
    guards = [one for one in rest if isinstance(one, Notice)][:1]
    blocks = (head, *_saw(cut), *guards, *(one for one in rest if one not in guards), *_labels(cut))
    return Shown(
        document=replace(document, blocks=blocks),
        facts={"complete": cut.plan.complete, "lists": len(cut.plan.lists)},
        verdict=_verdict(cut),
        says=_says(cut),
    )


def _verdict(cut: CutOut) -> str:
    if not cut.plan.lists:
        return ""
    if not cut.plan.complete:
        return "fails"
    return "unknown" if cut.plan.invented else "holds"


def _says(cut: CutOut) -> str:
    short = sum(len(missing.labels) for one in cut.plan.lists for missing in one.missing)
    if short:
        return f"{short} pieces find no board." if short > 1 else "1 piece finds no board."
    if not cut.plan.lists:
        return "Nothing is cut from boards here."
    return "Which boards are at hand?" if cut.plan.invented else "Every piece has its board."


def _saw(cut: CutOut) -> Iterator[Block]:
    """What is lost at the blade and at the ends."""
    if not cut.plan.lists:
        return
    saw = cut.plan.saw
    kerf, trim = shown(saw.kerf, "mm", 0, cut.system), shown(saw.trim, "mm", 0, cut.system)
    keep = shown(saw.keep, "m", 2, cut.system)
    yield Para(
        f"The saw takes {kerf} at each cut, {trim} is trimmed off each end of a board, and offcuts of {keep} "
        "and more are kept."
    )


def _labels(cut: CutOut) -> Iterator[Block]:
    sheets = label_sheets(cut.plan.lists, cut.plan.codes, system=cut.system)
    if sheets:
        yield Heading(text="Labels", level=2, lead="One for every board and every piece.")
        yield Figure(sheet=sheets[0], caption=f"Sheet 1 of {len(sheets)}.")


def make(house_file: str, folder: Path, out: str, options: Options, progress: Progress) -> Made:
    """The list in the wanted kind; a PDF with its labels, without them, or of labels alone."""
    del folder
    labels = one_of(options, "labels", LABELS)
    wishes = CutWishes(out=out, system=system_of(options), labels=labels != LABELS[1])
    cut = cut_file(house_file, wishes, progress)
    says = (_says(cut),)
    if labels == LABELS[2] and cut.path is not None and cut.path.suffix == ".pdf":
        sheets = label_sheets(cut.plan.lists, cut.plan.codes, system=cut.system)
        if sheets:
            return Made(files=((cut.path, pdf(*sheets, date=cut.date)),), says=says)
    progress("pages")
    return Made(files=cut.files(), says=says)
