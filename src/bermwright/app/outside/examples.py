"""The example houses that come with the program."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

import bermwright

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


@dataclass(frozen=True, slots=True)
class Example:
    """One of them."""

    name: str
    """That of its file, without the ending."""
    title: str
    says: str


EXAMPLES = (
    Example("larch-bank", "Larch Bank", "A low vault on walls under a gentle mound: nothing fails."),
    Example(
        "kettle-hill", "Kettle Hill", "A tall catenary from the ground: beautiful, and bent by the soil."
    ),
    Example("alder-loft", "Alder Loft", "Larch Bank with an upper floor, its beams and posts."),
    Example("sedge-bank", "Sedge Bank", "Larch Bank dug into a hillside, with its front open to the view."),
    Example("rowan-ring", "Rowan Ring", "A dome of earth tubes: set out by compass, not checked."),
)
"""In the order in which a beginner should look at them."""


def example_text(name: str) -> str:
    """The house file of an example."""
    return _file(f"{name}.toml").read_text(encoding="utf-8")


def _file(name: str) -> Traversable:
    """Inside the installed program, or beside the sources where it runs from them."""
    packed = files("bermwright.data").joinpath("examples")
    if packed.is_dir():
        return packed.joinpath(name)
    folder = Path(bermwright.__file__).resolve().parents[2] / "examples"
    return next((one for one in (folder / name, folder / "domes" / name) if one.is_file()), folder / name)
