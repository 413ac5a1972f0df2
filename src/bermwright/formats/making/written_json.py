"""Files that were written, as plain data for JSON, documented in docs/reference/json.md."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED
from bermwright.formats.assessment_json import FORMAT

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path


def written_data(house: str, files: Iterable[Path], more: Mapping[str, Any]) -> dict[str, Any]:
    """Which files were written, and what there is to say of them in numbers and names."""
    return {
        "format": FORMAT,
        "house": house,
        "mark": NOT_REVIEWED,
        **more,
        "files": [str(path) for path in files],
    }
