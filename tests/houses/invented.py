"""Houses that are none of the examples: other curves, sizes, slopes and units, made from their text."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from bermwright.formats.house_file import load

if TYPE_CHECKING:
    from bermwright.house import House

EXAMPLES = Path(__file__).parents[2] / "examples"
LEAN = (
    '[["-1.9 m","0 m"],["-1.8 m","0.7 m"],["-1.3 m","1.45 m"],["-0.5 m","1.85 m"],'
    '["0.3 m","1.8 m"],["1.1 m","1.3 m"],["1.6 m","0.7 m"],["1.9 m","0 m"]]'
)
SPAN, RISE, CURVE = 'span = "4.2 m"', 'rise = "1.4 m"\n', 'curve = "under cover"'
PLACED = ('latitude = "62.9 deg"', 'latitude = "62.9 deg"\nlongitude = "14.5 deg"')
CHANGES = {
    "lopsided": (
        "larch-bank.toml",
        (
            (CURVE, f'curve = "drawn"\npoints = {LEAN}'),
            (SPAN, 'span = "3.8 m"'),
            (RISE, ""),
            ('left = "1:2.5"', 'left = "1:2"'),
            ('right = "1:2.5"', 'right = "1:3"'),
        ),
    ),
    "feet": (
        "larch-bank.toml",
        (
            (SPAN, 'span = "13 ft 6 in"'),
            (RISE, 'rise = "5 ft"\n'),
            ('length = "7.5 m"', 'length = "24 ft"'),
            ('ends = "7.5 m"', 'ends = "24 ft"'),
            ('axis = "75 deg"', 'axis = "180 deg"'),
        ),
    ),
    "pointed": (
        "larch-bank.toml",
        (
            (CURVE, 'curve = "pointed"'),
            (SPAN, 'span = "3.4 m"'),
            (RISE, 'rise = "2.3 m"\n'),
            ('length = "7.5 m"', 'length = "5.05 m"'),
            ('ends = "7.5 m"', 'ends = "5 m"'),
            ('springing = "1.1 m"', 'springing = "0.4 m"'),
        ),
    ),
    "across the hill": (
        "sedge-bank.toml",
        (
            ('slope = "9 deg"', 'slope = "14 deg"'),
            ('faces = "255 deg"', 'faces = "165 deg"'),
            ('rises = "9 deg"\nhillside = "yes"\n', ""),
        ),
    ),
    "tall loft": (
        "alder-loft.toml",
        (
            ('span = "4.8 m"', 'span = "5.2 m"'),
            ('rise = "1.9 m"', 'rise = "2.4 m"'),
            (CURVE, 'curve = "catenary"'),
            ('length = "7.5 m"', 'length = "9.1 m"'),
        ),
    ),
}
SKEP = (
    ('curve = "pointed"', 'curve = "hemisphere"'),
    ('rise = "4.2 m"                       # as high as it is wide\n', ""),
    ('laid = "level"', 'laid = "tilted"'),
    ('unit = "earth tubes"', 'unit = "bricks"\nunit_length = "240 mm"'),
    ('thickness = "380 mm"', 'thickness = "240 mm"'),
    ('eyebrow = "0.25 m"\n', ""),
    ('head = "round"\n', ""),
    ('height = "2.05 m"', 'height = "1.8 m"'),
)
PANTRY = (
    ('name = "round room"', 'name = "pantry"\neast = "4.4 m"\nnorth = "-1.3 m"'),
    ('curve = "pointed"', 'curve = "catenary"'),
    ('span = "4.2 m"', 'span = "2.4 m"'),
    ('rise = "4.2 m"', 'rise = "2.6 m"'),
    ('axis = "165 deg"', 'axis = "287 deg"'),
    ('course = "125 mm"', 'course = "150 mm"'),
    ('width = "0.9 m"', 'width = "0.7 m"'),
    ('height = "2.05 m"', 'height = "1.5 m"'),
)


def changed(text: str, *pairs: tuple[str, str]) -> str:
    """A text with every first occurrence changed; what does not occur is a mistake of the test."""
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


@cache
def text_of(name: str) -> str:
    """The file of an invented house."""
    rowan = (EXAMPLES / "domes" / "rowan-ring.toml").read_text(encoding="utf-8")
    dome = re.search(r"(?ms)^\[\[dome\]\].*?(?=^\[sheet\])", rowan)
    assert dome is not None
    if name == "skep":
        return changed(rowan, PLACED_SOUTH, *SKEP)
    if name == "two domes":
        return changed(rowan, PLACED_SOUTH, ("[sheet]", changed(dome[0], *PANTRY) + "[sheet]"))
    if name == "vault and dome":
        larch = (EXAMPLES / "larch-bank.toml").read_text(encoding="utf-8")
        beside = changed(dome[0], ('name = "round room"', BESIDE))
        head = "# Ends and openings"
        return changed(larch, PLACED, (head, beside + rowan[rowan.index("[sheet]") :] + "\n" + head))
    file, pairs = CHANGES[name]
    return changed((EXAMPLES / file).read_text(encoding="utf-8"), PLACED, *pairs)


PLACED_SOUTH = ('latitude = "47.4 deg"', 'latitude = "47.4 deg"\nlongitude = "8.2 deg"')
BESIDE = 'name = "round room"\neast = "-9.0 m"\nnorth = "-2.4 m"'
VAULTS = tuple(CHANGES)
DOMES = ("skep", "two domes")
NAMES = (*VAULTS, *DOMES, "vault and dome")


@cache
def invented(name: str) -> House:
    """An invented house, read from its file."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "house.toml"
        path.write_text(text_of(name), encoding="utf-8")
        return load(path).house
