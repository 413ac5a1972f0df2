"""Writing files without losing any: whole or not at all, and never over a file of another kind."""

from __future__ import annotations

import os
import stat
import tempfile
from pathlib import Path

from bermwright.base.errors import BermwrightError

_STARTS = {
    ".pdf": (b"%PDF",),
    ".svg": (b"<svg", b"<?xml"),
    ".dxf": (b"  0", b"0\n", b"0\r\n", b"999", b"AutoCAD"),
    ".json": (b"{", b"["),
    ".csv": (b"what,",),
    ".xlsx": (b"PK",),
    ".glb": (b"glTF",),
    ".ifc": (b"ISO-10303-21",),
    ".stl": (b"bermwright model",),
    ".geojson": (b"{",),
}
"""How a file of each kind begins, by which a file that is there is known as one that may be replaced."""


class FileError(BermwrightError, OSError):
    """A file that cannot be written or read."""

    def __str__(self) -> str:
        return str(self.args[0])


def beside(house_file: str | Path, what: str, ending: str) -> Path:
    """The name of an answer next to its house file: `larch-bank-book.pdf`."""
    path = Path(house_file)
    return path.with_name(f"{path.stem}-{what}{ending}")


def output(given: str | None, default: Path, endings: tuple[str, ...]) -> Path:
    """Where an answer goes, refused before anything is computed where it cannot go there."""
    target = Path(given) if given else default
    if target.suffix.lower() not in endings:
        raise FileError(f"{target} must end in {' or '.join(endings)}.")
    try:
        _may_be_replaced(target)
    except (OSError, ValueError) as error:
        raise _refused(target, error) from error
    return target


def _may_be_replaced(target: Path) -> None:
    if target.is_dir():
        raise FileError(f"{target} is a folder. Give the name of a file in it.")
    if not target.exists():
        _folder_takes_files(target)
        return
    starts = _STARTS[target.suffix.lower()]
    with target.open("rb") as file:
        start = file.read(16).lstrip(b"\xef\xbb\xbf")
    if start and not start.startswith(starts):
        kind = target.suffix[1:].upper()
        raise FileError(
            f"{target} is there already and is no {kind}; it was left as it is. Give another name."
        )


def _folder_takes_files(target: Path) -> None:
    """The nearest folder that is there must be one, and one that may be written into."""
    folder = next(parent for parent in target.absolute().parents if parent.exists())
    if not folder.is_dir():
        raise FileError(f"{target} could not be written: {folder} is no folder. Nothing was changed.")
    if not os.access(folder, os.W_OK):
        raise FileError(f"{target} could not be written: {folder} may not be written into.")


def write_new(path: str, text: str) -> Path:
    """Write a file that is not there yet."""
    new_file(path)
    return write_text(path, text)


def new_file(path: str) -> Path:
    """The path of a file that is not there yet, refused where there is one."""
    target = Path(path)
    try:
        there = target.exists() or target.is_symlink()
    except (OSError, ValueError) as error:
        raise _refused(target, error) from error
    if there:
        raise FileError(f"{target} is there already and was left as it is. Give another name.")
    return target


def write_text(path: str | Path, text: str) -> Path:
    """Write text as UTF-8, whole or not at all."""
    return write_bytes(path, text.encode("utf-8"))


def write_bytes(path: str | Path, content: bytes) -> Path:
    """Write a file whole or not at all: a temporary file beside it, then one rename."""
    target = Path(path)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        _swap_in(target, content)
    except (OSError, ValueError) as error:
        raise _refused(target, error) from error
    return target


def _swap_in(target: Path, content: bytes) -> None:
    goal = Path(os.path.realpath(target))
    handle, temporary = tempfile.mkstemp(dir=goal.parent, prefix=".bermwright-", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        Path(temporary).chmod(_rights(goal))
        Path(temporary).replace(goal)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise


def _rights(goal: Path) -> int:
    """The rights of the file that is replaced, else those that a new file gets."""
    if goal.exists():
        return stat.S_IMODE(goal.stat().st_mode)
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _refused(target: Path, error: OSError | ValueError) -> FileError:
    if isinstance(error, FileError):
        return error
    why = (error.strerror if isinstance(error, OSError) else None) or str(error)
    return FileError(f"{_short(target)} could not be written: {why}. Nothing was changed.")


def _short(target: Path) -> str:
    name = str(target)
    return name if len(name) <= 200 else f"{name[:200]}..."  # noqa: PLR2004  (a line of a terminal)
