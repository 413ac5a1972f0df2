"""What the geometry needs from the house, or a clear word that it is missing."""

from __future__ import annotations

from typing import TypeVar

from bermwright.base.errors import BermwrightError

T = TypeVar("T")


class FormUnknownError(BermwrightError):
    """The file does not say enough for a geometry; `missing` are plain paths such as `vault.rise`."""

    def __init__(self, vault: str, missing: tuple[str, ...]) -> None:
        self.vault, self.missing = vault, missing
        whose = f' of "{vault}"' if vault else ""
        super().__init__(
            f"The geometry{whose} is not known: missing {', '.join(missing)}. `bermwright check` asks for "
            "each and says how to learn it."
        )


def known(value: T | None, path: str) -> T:
    """The value, or `FormUnknownError` naming its plain path."""
    if value is None:
        raise FormUnknownError("", (path,))
    return value
