"""Plates of paper under letters: what keeps them legible in print where they stand on a hatch or a line."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.lettering import text_width

if TYPE_CHECKING:
    from bermwright.base.drawing import Path, Text

BESIDE, ABOVE = 0.4, 0.35
"""Room left and right of the letters, and over and under them (mm)."""
UNDER, OVER, ACCENTS = 0.34, 1.0, 1.3
"""How far letters hang below their foot and stand over it, in capitals; accents stand higher."""
HANGING = frozenset("gjpqyQJ,;()[]{}|/_§µ≤≥≈↓↑")
ACCENTED = frozenset(map(chr, range(0xC0, 0x180))) - {"×", "÷"}


def plate_of(text: Text) -> Path:
    """The four corners of a text's plate, turned as it is.

    >>> from bermwright.base.drawing import Text
    >>> [round(y, 2) for _, y in plate_of(Text(at=(10.0, 20.0), text="604", height=2.0))]
    [19.65, 19.65, 22.35, 22.35]
    """
    wide, lead, trail = (_width(text, part) for part in _parts(text.text))
    before = {"start": 0.0, "middle": 0.5 * wide, "end": wide}[text.anchor]
    left, right = lead - before - BESIDE, wide - trail - before + BESIDE
    under = 0.0 if HANGING.isdisjoint(text.text) else UNDER
    over = OVER if ACCENTED.isdisjoint(text.text) else ACCENTS
    foot, top = -under * text.height - ABOVE, over * text.height + ABOVE
    cosine, sine = math.cos(text.angle), math.sin(text.angle)
    x, y = text.at
    corners = ((left, foot), (right, foot), (right, top), (left, top))
    return tuple((x + u * cosine - v * sine, y + u * sine + v * cosine) for u, v in corners)


def _parts(words: str) -> tuple[str, str, str]:
    """A text, and the spaces before and after its letters."""
    return words, words[: len(words) - len(words.lstrip())], words[len(words.rstrip()) :]


def _width(text: Text, words: str) -> float:
    return text_width(words, text.height, text.face, strong=text.strong)
