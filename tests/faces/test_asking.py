"""`bermwright new --ask`: typed answers, refused ones asked again, Ctrl-D and Ctrl-C."""

from __future__ import annotations

import io

import pytest

from bermwright.app.asking import QUESTIONS
from bermwright.formats.house_file import load


@pytest.fixture
def typed(monkeypatch):
    def typing(*lines: str) -> None:
        monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))

    return typing


def test_every_answer_can_be_typed(run, typed, tmp_path):
    typed(*(question.example for question in QUESTIONS))
    code, said, _ = run("new", tmp_path / "house.toml", "--ask", "--name", "Try")
    assert code == 0
    assert "13 answered, 0 left open" in said
    assert load(tmp_path / "house.toml").house.vaults[0].span == pytest.approx(4.8)


def test_a_wrong_answer_is_asked_again_after_one_sentence(run, typed, tmp_path):
    typed("3", "4.8", "4.8 m", *(question.example for question in QUESTIONS[2:]))
    code, _, complained = run("new", tmp_path / "house.toml", "--ask")
    assert code == 0
    assert complained.count("has no unit") == 1
    assert load(tmp_path / "house.toml").house.vaults[0].span == pytest.approx(4.8)


def test_enter_alone_leaves_open_and_nothing_is_assumed(run, typed, tmp_path):
    typed(*("" for _ in QUESTIONS))
    code, said, _ = run("new", tmp_path / "house.toml", "--ask")
    assert code == 0
    assert said.count("Left open.") == len(QUESTIONS)
    assert "stays a remark" in said


def test_the_end_of_input_keeps_what_was_answered(run, typed, tmp_path):
    typed("3", "4.8 m", "2.2 m", "0.9 m", "7.5 m")
    code, said, _ = run("new", tmp_path / "house.toml", "--ask")
    house = load(tmp_path / "house.toml").house
    assert code == 0
    assert "Enough" in said
    assert house.vaults[0].axis is None
    assert house.site.latitude is None


def test_a_stop_writes_nothing(run, monkeypatch, tmp_path):
    class Stopping:
        def readline(self) -> str:
            raise KeyboardInterrupt

    monkeypatch.setattr("sys.stdin", Stopping())
    code, _, complained = run("new", tmp_path / "house.toml", "--ask")
    assert code == 130
    assert "Nothing was written" in complained
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_there_is_refused_before_anything_is_asked(run, typed, tmp_path):
    typed("3")
    (tmp_path / "house.toml").write_text("mine", encoding="utf-8")
    code, said, complained = run("new", tmp_path / "house.toml", "--ask")
    assert code == 2
    assert "1 of 13" not in said
    assert "was left as it is" in complained
    assert (tmp_path / "house.toml").read_text(encoding="utf-8") == "mine"


def test_examples_come_in_the_units_of_the_builder_and_either_is_read(run, typed, tmp_path):
    typed("3", "15 ft 9 in")
    code, _, asked = run("new", tmp_path / "house.toml", "--ask", "--units", "imperial")
    assert code == 0
    assert "[15 ft 9 in]" in asked
    assert 'span = "15 ft 9 in"' in (tmp_path / "house.toml").read_text(encoding="utf-8")
