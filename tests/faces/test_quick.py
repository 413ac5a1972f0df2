"""What must be quick or quiet: help without heavy libraries, and a progress line where somebody looks."""

from __future__ import annotations

import io
import subprocess
import sys
import time

import pytest

from bermwright.app.assessing import threads
from bermwright.app.outside import kernels
from bermwright.cli import terminal
from bermwright.cli.main import COMMANDS
from bermwright.cli.terminal import Progress, printable

HEAVY = {"numpy", "scipy", "numba", "pydantic", "tomlkit", "typst", "ezdxf", "rich", "shapely"}


def loaded(*words):
    """Heavy libraries that a command has loaded when it ends."""
    program = (
        f"import sys\nfrom bermwright.cli.main import main\ntry:\n    main({list(words)!r})\n"
        f"except SystemExit:\n    pass\nprint('LOADED', *({HEAVY!r} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True, encoding="utf-8"
    )
    return set(done.stdout.splitlines()[-1].split()[1:])


@pytest.mark.parametrize("command", ["", *COMMANDS])
def test_help_loads_nothing_heavy(command):
    assert loaded(*([command] if command else []), "--help") == set()


def test_new_and_schema_never_load_the_kernels(tmp_path):
    heavy = {"numba", "scipy", "typst", "ezdxf", "shapely"}
    assert loaded("new", str(tmp_path / "house.toml")) & heavy == set()
    assert loaded("schema", "-o", str(tmp_path / "schema.json")) & heavy == set()


def test_check_and_count_do_not_load_the_writers(bare):
    assert loaded("check", str(bare)) & {"typst", "ezdxf", "rich", "tomlkit"} == set()


class Screen(io.StringIO):
    """An error stream that says somebody looks."""

    def isatty(self):
        return True


def test_a_watched_long_work_shows_its_step_and_clears_up(monkeypatch):
    monkeypatch.setattr(terminal, "WORTH_SHOWING", 0.0)
    monkeypatch.setattr(sys, "stderr", screen := Screen())
    with Progress() as progress:
        progress("[bold]day room[/bold]: shape\x1b[31m")
        until(lambda: "shape" in screen.getvalue())
        progress("stop marks")
        until(lambda: "stop marks" in screen.getvalue())
    assert "[bold]day room" in screen.getvalue()
    assert "\x1b[31m" not in screen.getvalue()


def test_quick_work_shows_nothing(monkeypatch):
    monkeypatch.setattr(sys, "stderr", screen := Screen())
    with Progress() as progress:
        progress("shape")
    progress._show()  # a timer that came too late
    assert screen.getvalue() == ""


def test_long_work_into_a_file_says_once_what_it_is_at(monkeypatch):
    monkeypatch.setattr(terminal, "WORTH_SAYING", 0.0)
    monkeypatch.setattr(sys, "stderr", stream := io.StringIO())
    with Progress() as progress:
        until(stream.getvalue)
        progress("another step")
    assert stream.getvalue() == "Working: reading ...\n"


def until(true, seconds=10.0):
    """Wait for the thing itself."""
    end = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < end


def test_the_first_run_says_that_kernels_are_prepared(monkeypatch):
    said = []
    monkeypatch.setattr(kernels, "kernels_are_ready", lambda: False)
    kernels.while_preparing(said.append)("ribs")
    monkeypatch.setattr(kernels, "kernels_are_ready", lambda: True)
    kernels.while_preparing(said.append)("ribs")
    assert said == [f"ribs ({kernels.PREPARING})", "ribs"]


def test_kernels_are_on_disk_after_an_assessment(once, example):
    assert once(example)
    assert kernels.kernels_are_ready()


def test_ctrl_c_drops_what_has_not_begun():
    begun = []

    def work(count):
        begun.append(count)
        if count == 0:
            raise KeyboardInterrupt
        until(lambda: len(begun) >= 2)

    with pytest.raises(KeyboardInterrupt), threads() as pool:
        for _ in pool.map(work, range(200)):
            pass
    assert len(begun) < 200


def test_only_line_breaks_survive_of_what_steers():
    assert printable("a\tb\r\nc\x00\u2028d\u200fe") == "ab\ncde"
