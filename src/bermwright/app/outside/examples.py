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
)
"""In the order in which a beginner should look at them."""


def example_text(name: str) -> str:
    """The house file of an example."""
    return _folder().joinpath(f"{name}.toml").read_text(encoding="utf-8")


def _folder() -> Traversable:
    """Inside the installed program, or beside the sources where it runs from them."""
    packed = files("bermwright.data").joinpath("examples")
    return packed if packed.is_dir() else Path(bermwright.__file__).resolve().parents[2] / "examples"
