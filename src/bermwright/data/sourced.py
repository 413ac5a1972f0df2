"""One number with the place it was taken from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bermwright.base.sources import Cite


@dataclass(frozen=True, slots=True)
class Sourced:
    """A constant of a standard or of practice, in SI, with its source."""

    value: float
    cite: Cite
    note: str = ""
