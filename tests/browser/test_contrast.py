"""Words can be read in both lights: contrast computed from the tokens, as WCAG 2 defines it."""

from __future__ import annotations

import re
from itertools import product

import pytest

from bermwright.base.drawing import Ink
from bermwright.formats.drawings.styles import THEMES

ROOT = "src/bermwright/workbench/static/style/tokens.css"
LEAST = 4.5
"""Contrast of AA for text of ordinary size."""
GLOW = "#453727"
"""The brightest point of the lamp on the sheet (look of the board: glow over paper)."""
WORDS_ON = ("paper", "paper2", "board", "earth", "insitu", "cold", "redw")
"""Grounds on which words stand; on timber there are only lines."""


@pytest.fixture(scope="module")
def tokens(request):
    """The colours of each light by name."""
    css = (request.config.rootpath / ROOT).read_text()
    day = _block(css, r":root \{(.*?)\}")
    lamp = _block(css, r'\n\[data-light="lamp"\] \{(.*?)\}')
    paper = _block(css[css.index("@media print") :], r"\{\s*:root.*?\{(.*?)\}")
    return {"day": day, "lamp": day | lamp, "paper": day | paper}


def _block(css: str, pattern: str) -> dict[str, str]:
    found = re.search(pattern, css, re.DOTALL)
    assert found is not None
    return dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", found.group(1)))


def luminance(colour: str) -> float:
    """Relative luminance of sRGB (WCAG 2)."""
    channels = [int(colour[at : at + 2], 16) / 255.0 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast of two colours (WCAG 2), 1 to 21."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_formula_itself():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


@pytest.mark.parametrize(
    ("light", "word", "ground"), list(product(("day", "lamp"), ("ink", "soft", "red"), WORDS_ON))
)
def test_words_stand_out_from_every_ground(tokens, light, word, ground):
    colours = tokens[light]
    assert contrast(colours[word], colours[ground]) >= LEAST, f"{word} on {ground} by {light}"


@pytest.mark.parametrize("word", ["ink", "soft", "red"])
def test_words_stand_out_from_the_brightest_point_of_the_lamp(tokens, word):
    assert contrast(tokens["lamp"][word], GLOW) >= LEAST


@pytest.mark.parametrize("word", ["ink", "soft", "red"])
def test_words_stand_out_from_white_paper(tokens, word):
    assert contrast(tokens["paper"][word], tokens["paper"]["paper"]) >= LEAST


@pytest.mark.parametrize("light", ["day", "lamp"])
def test_page_and_drawing_have_the_same_ink(tokens, light):
    drawn = {str(ink): colour for ink, colour in THEMES[light].inks.items()}
    assert {ink: tokens[light][ink] for ink in map(str, Ink)} == drawn
