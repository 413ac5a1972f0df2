"""Whether the compiled kernels are on disk already, so that a first run can say why it takes long."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

if TYPE_CHECKING:
    from collections.abc import Callable
    from types import ModuleType

    Progress = Callable[[str], None]

PREPARING = "preparing fast kernels, once"


def kernels_are_ready() -> bool:
    """Whether a compiled frame kernel lies on disk that is newer than its source."""
    from bermwright.handbook.frames import kernel

    return _is_kept(kernel, kernel.run_lanes)


def cutting_is_ready() -> bool:
    """The same of the kernel that lays pieces into boards."""
    from bermwright.handbook.boards.cutting import kernel

    return _is_kept(kernel, kernel.board_after_board)


def _is_kept(kernel: ModuleType, function: Callable[..., object]) -> bool:
    source, entrance = Path(str(kernel.__file__)), cast("Any", function)
    folder = Path(entrance.stats.cache_path)
    kept = [file.stat().st_mtime for file in folder.glob(f"{source.stem}.{function.__name__}-*.nbi")]
    return bool(kept) and max(kept) >= source.stat().st_mtime


def while_preparing(progress: Progress, ready: Callable[[], bool] | None = None) -> Progress:
    """The same progress line; on the first run it says that the kernels are being compiled.

    `ready` tells whether they are there; those of the frame unless it is given.
    """
    if (ready or kernels_are_ready)():
        return progress
    return lambda step: progress(f"{step} ({PREPARING})")
