"""Boxes, forms and patterns: their drawings, and the same at full size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.app.formwork.forming import FormWishes, form_file
from bermwright.app.handmade.nouns import Made, Shown, bar_of, one_of, system_of, ticked, words_of
from bermwright.book.pages.forms import printed_patterns
from bermwright.book.templates.tiles import PAPERS

if TYPE_CHECKING:
    from pathlib import Path

    from bermwright.app.handmade.nouns import Options, Progress


def wishes_of(out: str | None, options: Options) -> FormWishes:
    """What the fields ask for."""
    return FormWishes(
        only=words_of(options, "only"),
        full_size=ticked(options, "full_size"),
        settlement=words_of(options, "settlement"),
        paper=one_of(options, "paper", tuple(PAPERS)),
        printer_bar=bar_of(options),
        out=out,
        system=system_of(options),
    )


def show(house_file: str, folder: Path, options: Options, progress: Progress) -> Shown:
    """Every box, sheet and meeting line with its drawing."""
    del folder
    made = form_file(house_file, wishes_of(None, options), progress)
    patterns = [pattern.name for pattern in printed_patterns(made.forms)]
    return Shown(document=made.document, facts={"patterns": patterns}, says=_says(len(patterns)))


def _says(count: int) -> str:
    if not count:
        return "Nothing in this file is cut after a pattern."
    return f"{count} pattern{'' if count == 1 else 's'} can be printed at full size."


def make(house_file: str, folder: Path, out: str, options: Options, progress: Progress) -> Made:
    """Pages, with tiles where wanted, as PDF; every pattern at 1:1 as SVG or DXF."""
    del folder
    made = form_file(house_file, wishes_of(out, options), progress)
    return Made(files=made.files, says=("Print at 100 % and measure the check square.",))
