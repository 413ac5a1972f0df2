"""Every code block of the README and the tutorial runs, and prints what the page says.

`console` blocks: a line after `$ ` is run in a fresh copy of the examples; what follows is what it
prints, `...` standing for anything. `python` blocks run in the order of the page, as one program;
`>>>` lines are compared. `toml` blocks are house files and must be read without a mistake.
"""

from __future__ import annotations

import doctest
import os
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent.parent
PAGES = [ROOT / "README.md", *sorted((ROOT / "docs" / "tutorial").glob("*.md"))]
BLOCK = re.compile(r"^```(?P<language>\w+)\n(?P<code>.*?)^```$", re.MULTILINE | re.DOTALL)
FLAGS = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE
SHELL_ONLY = ("make ", "pipx ", "git ", "open ")
"""Commands that are tried elsewhere: make and the wheel have tests of their own."""


def blocks(page: Path, language: str) -> list[str]:
    found = BLOCK.finditer(page.read_text(encoding="utf-8"))
    return [block["code"] for block in found if block["language"] == language]


def commands(block: str) -> list[tuple[str, str]]:
    """Each command of a console block with what it is said to print."""
    parts = re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]
    return [(part.partition("\n")[0], part.partition("\n")[2]) for part in parts]


@pytest.mark.slow
@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_console_blocks(page: Path, tmp_path: Path) -> None:
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    for block in blocks(page, "console"):
        for command, promised in commands(block):
            if command.startswith(SHELL_ONLY):
                continue
            words = shlex.split(command.partition("  #")[0])
            assert words[0] == "bermwright", command
            done = subprocess.run(
                [sys.executable, "-m", *words],
                cwd=tmp_path,
                env={**os.environ, "COLUMNS": "100", "PYTHONUTF8": "1"},
                capture_output=True,
                text=True,
                encoding="utf-8",
                check=False,
            )
            assert done.returncode in {0, 1}, f"{command}\n{done.stdout}\n{done.stderr}"
            if promised.strip():
                same = doctest.OutputChecker().check_output(promised, done.stdout, FLAGS)
                assert same, f"{command}\nsaid:\n{promised}\nprinted:\n{done.stdout}\n{done.stderr}"


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_python_blocks(page: Path) -> None:
    globs: dict[str, object] = {}
    runner = doctest.DocTestRunner(optionflags=FLAGS)
    for block in blocks(page, "python"):
        if ">>>" in block:
            test = doctest.DocTestParser().get_doctest(block, globs, page.name, str(page), 0)
            said: list[str] = []
            runner.run(test, out=said.append, clear_globs=False)
            globs.update(test.globs)
            assert said == []
        else:
            exec(compile(block, str(page), "exec"), globs)  # noqa: S102  (our own page)


def test_the_pages_hold_code_at_all() -> None:
    assert sum(len(blocks(page, "console")) + len(blocks(page, "python")) for page in PAGES) >= 4
