"""Surveyed points that a house file names, read from beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.app.outside.files import FileError
from bermwright.formats.survey import read_points

if TYPE_CHECKING:
    from pathlib import Path

    from bermwright.form.setout import SurveyPoint
    from bermwright.house import House


def points_beside(house: House, folder: Path) -> tuple[tuple[SurveyPoint, ...] | None, str]:
    """The points and the name of their file; none where the house file names none."""
    if house.survey is None:
        return None, ""
    path = folder / house.survey.points
    # A house file may come from somebody else, and the workbench may be shared: nothing else is read for it.
    if not path.resolve().is_relative_to(folder.resolve()):
        raise FileError(f"{path.name} lies outside the folder of the house file. Put it beside that file.")
    return read_points(path.name, content_of(path), house.site.latitude), path.name


def content_of(path: Path) -> bytes:
    """What stands in a file, or a clear word that it cannot be read."""
    try:
        return path.read_bytes()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise FileError(f"{path} cannot be read: {reason}.") from None
