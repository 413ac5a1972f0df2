"""Whether the compiled kernels are on disk already, so that a first run can say why it takes long."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

if TYPE_CHECKING:
    from collections.abc import Callable

    Progress = Callable[[str], None]

PREPARING = "preparing fast kernels, once"


def kernels_are_ready() -> bool:
    """Whether a compiled frame kernel lies on disk that is newer than its source."""
    from bermwright.handbook.frames import kernel

    source, entrance = Path(str(kernel.__file__)), cast("Any", kernel.run_lanes)
    folder = Path(entrance.stats.cache_path)
    kept = [file.stat().st_mtime for file in folder.glob(f"{source.stem}.run_lanes-*.nbi")]
    return bool(kept) and max(kept) >= source.stat().st_mtime


def while_preparing(progress: Progress) -> Progress:
    """The same progress line; on the first run it says that the kernels are being compiled."""
    if kernels_are_ready():
        return progress
    return lambda step: progress(f"{step} ({PREPARING})")
