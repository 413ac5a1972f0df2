"""What the tests of the faces share: the example houses, and each of them assessed once."""

from __future__ import annotations

from pathlib import Path

import pytest

from bermwright.app import assessing, booking, explaining
from bermwright.app.drawing import files as drawing
from bermwright.cli.main import main

EXAMPLES = sorted((Path(__file__).resolve().parent.parent.parent / "examples").glob("*.toml"), reverse=True)

BARE = """\
[house]
name = "Bare"

[[vault]]
name = "store"
curve = "catenary"
span = "4 m"
rise = "2 m"
length = "6 m"
springing = "1 m"
structure = "segment ribs"
board = "32 x 195 mm"
layers = 4
spacing = "0.6 m"
timber = "C18"
"""
"""A house of which almost nothing is known."""


ASSESS = assessing.assess_file
DONE: dict[bytes, assessing.Assessed] = {}


def assessed_once(path):
    """The assessment of a file, kept by what stands in it."""
    content = Path(path).read_bytes()
    if content not in DONE:
        DONE[content] = ASSESS(path)
    return DONE[content]


@pytest.fixture(params=EXAMPLES, ids=lambda path: path.stem)
def example(request):
    return request.param


@pytest.fixture
def once(monkeypatch):
    """Lets the commands take an assessment that is there already: what they print of it is looked at."""

    def remembered(path, *, stop_marks=True, progress=assessing.quiet):
        del stop_marks, progress
        return assessed_once(str(path))

    for module in (assessing, booking, drawing, explaining):
        monkeypatch.setattr(module, "assess_file", remembered)
    return assessed_once


@pytest.fixture
def bare(tmp_path):
    path = tmp_path / "bare.toml"
    path.write_text(BARE, encoding="utf-8")
    return path


@pytest.fixture
def run(capsys):
    """Runs a command in this process: its exit code, what it printed, what it complained of."""

    def running(*words):
        code = main([str(word) for word in words])
        printed = capsys.readouterr()
        return code, printed.out, printed.err

    return running
