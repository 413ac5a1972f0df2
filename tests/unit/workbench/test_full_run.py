"""The full run behind the hand reads what lies beside the house file, and nothing else."""

from __future__ import annotations

from queue import SimpleQueue

import pytest

from bermwright.app.outside.files import FileError
from bermwright.app.outside.points import points_beside
from bermwright.formats.house_file import read
from bermwright.workbench import tasks

POINTS = "name,x [m],y [m],z [m]\nM,0,0,100.0\nA,-6,-6,99.9\nB,6,-6,100.1\nC,6,6,100.0\nD,-6,6,99.9\n"
SURVEYED = '\n[survey]\npoints = "points.csv"\nmiddle = "M"\n'


def test_it_holds_the_surveyed_points_against_the_drawn_ground(repository, tmp_path) -> None:
    text = (repository / "examples/larch-bank.toml").read_text(encoding="utf-8") + SURVEYED
    (tmp_path / "points.csv").write_text(POINTS, encoding="utf-8")
    tasks.begin([0], SimpleQueue(), own_process=False)
    found = tasks.full(0, text, str(tmp_path / "larch-bank.toml"))
    said = [one for one in found.findings if one.rule == "ground-as-surveyed"]
    assert [one.verdict.value for one in said] == ["holds"]
    assert said[0].ratio is not None


def test_points_outside_the_folder_are_not_read(repository, tmp_path) -> None:
    text = (repository / "examples/larch-bank.toml").read_text(encoding="utf-8")
    house = read(text + SURVEYED.replace("points.csv", "../points.csv"), "larch-bank.toml").house
    (tmp_path / "points.csv").write_text(POINTS, encoding="utf-8")
    folder = tmp_path / "house"
    folder.mkdir()
    with pytest.raises(FileError, match="outside the folder"):
        points_beside(house, folder)
