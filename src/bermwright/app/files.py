"""Writing files without losing any."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from bermwright.base.errors import BermwrightError


class FileError(BermwrightError, OSError):
    """A file that cannot be written or read."""


def write_new(path: str, text: str) -> Path:
    """Write a file that is not there yet."""
    target = Path(path)
    if target.exists():
        raise FileError(f"{target} is there already and was left as it is. Give another name.")
    return write_text(path, text)


def write_text(path: str | Path, text: str) -> Path:
    """Write text as UTF-8, whole or not at all."""
    return write_bytes(path, text.encode("utf-8"))


def write_bytes(path: str | Path, content: bytes) -> Path:
    """Write a file whole or not at all: a temporary file beside it, then one rename."""
    target = Path(path)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".part")
        try:
            with os.fdopen(handle, "wb") as stream:
                stream.write(content)
            Path(temporary).replace(target)
        except BaseException:
            Path(temporary).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise FileError(f"{target} could not be written: {error.strerror or error}.") from error
    return target
