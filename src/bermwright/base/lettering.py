"""The faces of the lettering and how much room a text takes: the one place that names a font.

A sheet is laid out before any font file is at hand, so widths are estimated from the faces' own
proportions, a little on the wide side.
"""

from __future__ import annotations

from dataclasses import dataclass

from bermwright.base.drawing import Lettering


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A type face: its names in order of preference and its proportions."""

    families: tuple[str, ...]
    capital: float
    """Height of a capital as a share of the body size."""
    condense: float
    """Width it is set to; 1 is as drawn."""
    italic: bool = False


_SERIF = ("Libertinus Serif", "Vollkorn", "Source Serif Pro", "DejaVu Serif", "serif")

FACES = {
    Lettering.WORDS: Face(families=_SERIF, capital=0.645, condense=1.0),
    Lettering.NOTE: Face(families=_SERIF, capital=0.645, condense=1.0, italic=True),
    Lettering.FIGURES: Face(
        families=("DejaVu Sans Mono", "Iosevka", "monospace"), capital=0.729, condense=0.84
    ),
}
"""The faces in use; figures are set narrow, near to drawing-office lettering."""

_FIGURE_ADVANCE = 0.602
_NARROW = frozenset("iljtfrI.,:;'!|()[] -·")
_WIDE = frozenset("mwMWQOGDHNCU%—")


def body_size(height: float, face: Lettering) -> float:
    """Body size (mm) at which a capital of `face` is `height` tall."""
    return height / FACES[face].capital


def text_width(
    text: str, height: float, face: Lettering = Lettering.FIGURES, *, strong: bool = False
) -> float:
    """Estimated width (mm) of a line of text whose capitals are `height` tall."""
    kind = FACES[face]
    if face is Lettering.FIGURES:
        share = _FIGURE_ADVANCE * len(text)
    else:
        share = sum(map(_serif_advance, text)) * (1.06 if strong else 1.0) * (0.95 if kind.italic else 1.0)
    return share * kind.condense * body_size(height, face)


def _serif_advance(letter: str) -> float:
    """Width of one serif letter as a share of the body size."""
    if letter in _NARROW:
        return 0.31
    if letter in _WIDE:
        return 0.76
    return 0.63 if letter.isupper() else 0.49
