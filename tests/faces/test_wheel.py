"""What a person installs: the wheel alone, in a clean environment, away from the repository.

No make, no system packages, no Node (the build brings its own): the search path holds nothing but the new
environment.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

from bermwright.app.outside.examples import EXAMPLES

pytestmark = pytest.mark.slow


def run(*command: str | Path, cwd: Path, good: tuple[int, ...] = (0,), **environment: str) -> str:
    """Run a program with next to no environment, and give what it printed."""
    keep = ("HOME", "TMPDIR", "SYSTEMROOT", "USERPROFILE", "APPDATA", "LOCALAPPDATA", "TEMP")
    variables = {name: os.environ[name] for name in keep if name in os.environ} | environment
    done = subprocess.run(
        [str(word) for word in command],
        cwd=cwd,
        env=variables,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode in good, f"{command} gave {done.returncode}\n{done.stdout}\n{done.stderr}"
    return done.stdout


@pytest.fixture(scope="module")
def wheel(repository: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built as it is published. The package settings of this machine stay in force."""
    folder = tmp_path_factory.mktemp("wheel")
    run(
        sys.executable, "-m", "build", "--wheel", "--outdir", folder, repository,
        cwd=folder, **packaging(),
    )  # fmt: skip
    return next(folder.glob("*.whl"))


def packaging() -> dict[str, str]:
    """What tells pip and npm where packages come from; the way to Python's own programs."""
    wanted = (
        "PIP_",
        "HTTP",
        "http",
        "NO_PROXY",
        "no_proxy",
        "SSL_",
        "REQUESTS_",
        "NODE_EXTRA_CA_",
        "NPM_",
        "npm_",
    )
    found = {name: value for name, value in os.environ.items() if name.startswith(wanted)}
    return {**found, "PATH": str(Path(sys.executable).parent), "PYTHONUTF8": "1"}


@pytest.fixture(scope="module")
def installed(wheel: Path, repository: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The programs of a clean environment that holds the wheel and what it needs."""
    folder = tmp_path_factory.mktemp("clean")
    venv.create(folder / "env", with_pip=shutil.which("uv") is None)
    programs = folder / "env" / ("Scripts" if os.name == "nt" else "bin")
    python = programs / ("python.exe" if os.name == "nt" else "python")
    constraints = repository / "constraints.txt"
    if quick := shutil.which("uv"):  # the same packages, only sooner
        install = [quick, "pip", "install", "--quiet", "--python", python, "-c", constraints, wheel]
        subprocess.run([str(word) for word in install], check=True)
    else:
        run(python, "-m", "pip", "install", "--quiet", "-c", constraints, wheel, cwd=folder, **packaging())
    return programs


def test_the_wheel_holds_the_program_and_nothing_else(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    tops = {name.partition("/")[0] for name in names}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"bermwright"}
    assert "bermwright/py.typed" in names
    assert any(name.endswith("licenses/LICENSE") for name in names)
    assert [name for name in names if "__pycache__" in name or name.endswith((".pyc", ".nbi", ".nbc"))] == []


def test_the_wheel_brings_the_view_in_three_dimensions(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        three = {
            name.partition("/vendor/three/")[2] for name in archive.namelist() if "/vendor/three/" in name
        }
    assert {"three.module.js", "three.core.js", "loaders/GLTFLoader.js", "LICENSE"} <= three
    assert wheel.stat().st_size < 5e6


def test_the_wheel_brings_what_the_start_page_offers(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    offered = {name.rpartition("/")[2] for name in names if name.startswith("bermwright/data/examples/")}
    assert offered == {f"{one.name}.toml" for one in EXAMPLES}
    assert "bermwright/workbench/pages/start.html" in names


def test_a_newcomer_gets_from_nothing_to_findings(installed: Path, tmp_path: Path) -> None:
    program = installed / "bermwright"
    path = {"PATH": str(installed), "PYTHONUTF8": "1"}
    assert "check" in run(program, "--help", cwd=tmp_path, **path)
    run(program, "new", "house.toml", cwd=tmp_path, **path)
    assert (tmp_path / "house.toml").read_text(encoding="utf-8").lstrip().startswith(("format", "#"))
    # The starter house leaves things open, so 1 (not every rule holds) is as good an answer as 0.
    answer = run(program, "check", "house.toml", cwd=tmp_path, good=(0, 1), **path)
    assert "not checked" in answer.lower()
