"""The repository keeps its own rules: layers, sizes, words, and a quick start."""

from __future__ import annotations

import ast
import os
import re
import statistics
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "src" / "bermwright"
SOURCES = sorted(PACKAGE.rglob("*.py"))
TABLES = {"data", "evidence"}
"""Folders whose files are tables and may be long."""

LONGEST_FILE = 600
LONGEST_FUNCTION = 60
MEDIAN_FUNCTION = 9
MOST_FILES = 12
LONGEST_INIT = 40


def listed_files() -> list[Path]:
    """What belongs to the repository, by git where there is one."""
    found = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=False, encoding="utf-8"
    )
    if found.returncode == 0:
        return [ROOT / name for name in found.stdout.split("\0") if name and (ROOT / name).is_file()]
    roots = [ROOT / name for name in ("src", "tests", "tools", "docs", "examples", "bench")]
    return [path for root in roots for path in root.rglob("*") if path.is_file() and path.suffix != ".pyc"]


def is_table(path: Path) -> bool:
    return bool(TABLES & set(path.relative_to(PACKAGE).parts))


def code_lines(node: ast.FunctionDef) -> int:
    """Lines of a function, less its docstring."""
    lines = (node.end_lineno or node.lineno) - node.lineno + 1
    first = node.body[0]
    if ast.get_docstring(node, clean=False) is not None:
        lines -= (first.end_lineno or first.lineno) - first.lineno + 1
    return lines


def functions(path: Path) -> list[ast.FunctionDef]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]


def own_lines(text: str) -> int:
    """Lines of a package file, less the names that it passes on."""
    passed_on = (ast.Import, ast.ImportFrom, ast.Assign)
    names = [node for node in ast.parse(text).body if isinstance(node, passed_on)]
    return len(text.splitlines()) - sum((node.end_lineno or node.lineno) - node.lineno + 1 for node in names)


def texts(tree: ast.Module) -> list[str]:
    """Every string of a module that is not a docstring."""
    holders = (ast.Module, ast.ClassDef, ast.FunctionDef)
    bodies = [node.body for node in ast.walk(tree) if isinstance(node, holders)]
    notes = {id(line.value) for body in bodies for line in body if isinstance(line, ast.Expr)}
    constants = [node for node in ast.walk(tree) if isinstance(node, ast.Constant) and id(node) not in notes]
    return [node.value for node in constants if isinstance(node.value, str)]


def test_layers_are_kept() -> None:
    program = (
        "import sys; from importlinter.cli import lint_imports_command; sys.exit(lint_imports_command())"
    )
    run = subprocess.run(
        [sys.executable, "-c", program],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        encoding="utf-8",
    )
    assert run.returncode == 0, run.stdout + run.stderr


def test_no_file_is_too_long() -> None:
    lengths = {
        path: len(path.read_text(encoding="utf-8").splitlines()) for path in SOURCES if not is_table(path)
    }
    long = {str(path.relative_to(ROOT)): length for path, length in lengths.items() if length > LONGEST_FILE}
    assert long == {}


def test_no_function_is_too_long_and_most_are_short() -> None:
    lengths = {
        f"{path.relative_to(ROOT)}:{node.lineno} {node.name}": code_lines(node)
        for path in SOURCES
        if not is_table(path)
        for node in functions(path)
    }
    assert {name: lines for name, lines in lengths.items() if lines > LONGEST_FUNCTION} == {}
    assert statistics.median(lengths.values()) < MEDIAN_FUNCTION


def test_no_folder_is_too_full() -> None:
    folders = {path.parent for path in SOURCES if not path.is_relative_to(PACKAGE / "data")}
    full = {str(folder.relative_to(ROOT)): len(list(folder.glob("*.py"))) for folder in folders}
    assert {name: count for name, count in full.items() if count > MOST_FILES + 1} == {}  # + __init__.py


def test_every_folder_says_what_lives_in_it() -> None:
    folders = {up for path in SOURCES for up in path.parents if up.is_relative_to(PACKAGE)}
    silent = []
    for folder in sorted(folders):
        init = folder / "__init__.py"
        text = init.read_text(encoding="utf-8") if init.exists() else ""
        if not ast.get_docstring(ast.parse(text)) or own_lines(text) > LONGEST_INIT:
            silent.append(str(folder.relative_to(ROOT)))
    assert silent == []


def test_every_exception_to_the_linter_says_why() -> None:
    silent = [
        f"{path.relative_to(ROOT)}:{number}"
        for path in listed_files()
        if path.suffix == ".py" and not path.is_relative_to(ROOT / "tests")
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), start=1)
        if re.search(r"#\s*noqa\b(?!: [A-Z0-9, ]+  \()", line)
    ]
    assert silent == []


def test_nothing_is_left_undone() -> None:
    # Written in pieces, so that this file does not hold what it looks for.
    words = [
        "TO" + "DO",
        "FIX" + "ME",
        "XX" + "X:",
        "NotImplemented" + "Error",
        "x" + "fail",
        "pytest." + "skip",
    ]
    found = [
        f"{path.relative_to(ROOT)}: {word}"
        for path in listed_files()
        if path.suffix in {".py", ".md", ".toml", ".typ", ""}
        for word in words
        if word in path.read_text(encoding="utf-8")
    ]
    assert found == []


def test_the_build_machine_can_start_its_script() -> None:
    assert os.access(ROOT / ".ci" / "run", os.X_OK)


def test_nothing_knows_the_machine_it_was_written_on() -> None:
    private = re.compile(r"(?<![\w.:/-])/(?:home|root|Users)/\w")
    found = []
    for path in listed_files():
        data = path.read_bytes()
        text = "" if b"\0" in data else data.decode("utf-8")
        if private.search(text) or str(ROOT) + "/" in text:
            found.append(str(path.relative_to(ROOT)))
    assert found == []


@pytest.mark.parametrize("name", ["constraints.txt", "pyproject.toml", "Makefile", ".ci/run"])
def test_no_address_is_wired_in(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    assert "://" not in text
    assert "index-url" not in text


def test_nothing_is_called_safe() -> None:
    word = re.compile(r"\b(un)?safe(ly)?\b", re.IGNORECASE)
    found = [
        f"{path.relative_to(ROOT)}: {text[:60]}"
        for path in SOURCES
        for text in texts(ast.parse(path.read_text(encoding="utf-8")))
        if word.search(text)
    ]
    assert found == []


def test_names_are_portable() -> None:
    """No two names that differ only by case, and none that Windows refuses."""
    names = [str(path.relative_to(ROOT)) for path in listed_files()]
    assert len({name.lower() for name in names}) == len(names)
    assert [name for name in names if re.search(r'[<>:"|?*\\]', name)] == []


def test_help_does_not_load_the_heavy_libraries() -> None:
    program = (
        "import sys; sys.argv = ['bermwright', '--help']\n"
        "from bermwright.cli.main import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "heavy = {'numpy', 'scipy', 'numba', 'pydantic', 'tomlkit', 'typst', 'ezdxf', 'rich'}\n"
        "sys.exit(' '.join(sorted(heavy & set(sys.modules))) or 0)"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=False, encoding="utf-8"
    )
    assert run.returncode == 0, run.stderr
