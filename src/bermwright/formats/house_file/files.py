"""House files on disk: opened with guards, written whole or not at all."""

from __future__ import annotations

import errno
import os
import stat
import tempfile
from contextlib import suppress
from pathlib import Path

from bermwright.base.errors import HouseFileError, Mistake
from bermwright.formats.house_file.reading import Opened, read

LARGEST = 1_000_000
"""A house file is a few thousand letters; more than this is another kind of file (bytes)."""

_MARKS = {b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16"}


def load(path: str | Path) -> Opened:
    """Read a house file from disk; one clear error for anything that is no house file."""
    return read(load_text(path), str(path))


def load_text(path: str | Path) -> str:
    """The text of a house file, whatever it says; one clear error for anything that is no text."""
    name = str(path)
    return _decoded(_content(Path(path), name), name)


def _content(path: Path, name: str) -> bytes:
    try:
        about = path.stat()
    except OSError as error:
        raise _refused(name, error) from None
    except ValueError:
        raise _alone(name, "This is no name of a file.", "Look for stray signs in it.") from None
    if stat.S_ISDIR(about.st_mode):
        raise _alone(name, "This is a folder.", f"Name the file in it, such as {path / 'house.toml'}.")
    if not stat.S_ISREG(about.st_mode):
        raise _alone(name, "This is no plain file.", "Name a house file.")
    if about.st_size > LARGEST:
        size = about.st_size / 1e6
        raise _alone(
            name, f"The file has {size:.0f} MB; a house file has far less than 1 MB.", "Is it the right one?"
        )
    try:
        with path.open("rb") as file:
            return file.read(LARGEST + 1)
    except OSError as error:
        raise _refused(name, error) from None


def _refused(name: str, error: OSError) -> HouseFileError:
    match error.errno:
        case errno.ENOENT | errno.ENOTDIR:
            return _alone(name, "There is no such file.", "`bermwright new` writes a starter file.")
        case errno.ELOOP:
            return _alone(name, "The link points back to itself.", "Name the file itself.")
        case errno.EACCES | errno.EPERM:
            return _alone(name, "The file may not be read.", "Give yourself the right to read it.")
        case errno.ENAMETOOLONG:
            return _alone(name[:40] + "...", "The name is too long to be a file.", "Name a house file.")
        case _:
            return _alone(
                name,
                f"The file cannot be read: {error.strerror}.",
                "Copy it to a local folder and try again.",
            )


def _decoded(content: bytes, name: str) -> str:
    encoding = _MARKS.get(content[:2])
    if encoding:
        raise _alone(name, f"The file is written in {encoding}.", "Save it as UTF-8 in your editor.")
    if b"\x00" in content:
        raise _alone(name, "This is no text.", "A house file is a plain text file ending in .toml.")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        advice = "Save it as UTF-8 in your editor."
        raise _alone(name, "A sign in this line is not in UTF-8.", advice, line=line) from None


def _alone(name: str, allowed: str, advice: str, line: int | None = None) -> HouseFileError:
    return HouseFileError(
        name, (Mistake(place="the file", line=line, given="", allowed=allowed, advice=advice),)
    )


def write(text: str, path: str | Path) -> None:
    """Write a text so that the file is the old one or the new one at every moment.

    A link is followed, and the file keeps its rights.
    """
    goal = Path(os.path.realpath(path))
    handle, temporary = tempfile.mkstemp(prefix=f".{goal.name}.", suffix=".part", dir=goal.parent)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        _keep_rights(goal, temporary)
        Path(temporary).replace(goal)
    except BaseException:
        with suppress(FileNotFoundError):
            Path(temporary).unlink()
        raise


def _keep_rights(goal: Path, temporary: str) -> None:
    """The rights of the old file, else those a new file would have got."""
    if goal.exists():
        rights = stat.S_IMODE(goal.stat().st_mode)
    else:
        mask = os.umask(0)
        os.umask(mask)
        rights = 0o666 & ~mask
    Path(temporary).chmod(rights)
