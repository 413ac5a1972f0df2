"""Compiled kernels that are kept on disk belong to all the sources that they were made of."""

from pathlib import Path

from bermwright.handbook import frames
from bermwright.handbook.frames import compiled, kernel, sturm


def test_every_module_with_kernels_is_in_the_stamp() -> None:
    folder = Path(frames.__file__).parent
    with_kernels = {
        file.stem for file in folder.glob("*.py") if "@compiled" in file.read_text(encoding="utf-8")
    }
    assert with_kernels
    assert with_kernels <= set(compiled.KERNELS)
    assert {"compiled", "records"} <= set(compiled.KERNELS)


def test_numba_takes_the_stamp_for_the_source() -> None:
    for entrance in (kernel.run_lanes, sturm.critical, kernel.settle):
        own, all_together = entrance._cache._cache_file._source_stamp
        assert own
        assert all_together == compiled.STAMP
