"""The desk: edits, undo, keeping, recovery after a kill, and two writers of one file."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from bermwright.app.desk import ChangedOnDiskError, Desk, StaleEditError
from bermwright.app.desk.history import MOST_REVISIONS, History
from bermwright.base.errors import HouseFileError

LARCH_BANK = Path(__file__).resolve().parents[3] / "examples" / "larch-bank.toml"
RISE = ("vault", 0, "rise")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return Path(shutil.copy(LARCH_BANK, tmp_path / "house.toml"))


def another_hand(file: Path) -> None:
    text = LARCH_BANK.read_text(encoding="utf-8")
    file.write_text(text.replace("Larch Bank", "Larch Bend"), encoding="utf-8")


def rise_of(desk: Desk) -> float | None:
    assert desk.opened is not None
    return desk.opened.house.vaults[0].rise


def test_an_edit_keeps_comments_and_can_be_undone_and_redone(file: Path) -> None:
    desk = Desk(file)
    before = desk.text
    assert desk.edit({RISE: "1.5 m"}, "rise 1.50 m") == 1
    assert rise_of(desk) == pytest.approx(1.5)
    assert desk.text.count("#") == before.count("#")
    assert desk.history.undoes == "rise 1.50 m"
    assert desk.undo() == 2
    assert desk.text == before
    assert desk.history.redoes == "rise 1.50 m"
    desk.redo()
    assert rise_of(desk) == pytest.approx(1.5)


def test_the_file_changes_only_when_it_is_kept(file: Path) -> None:
    desk = Desk(file)
    before = file.read_bytes()
    desk.edit({RISE: "1.5 m"}, "rise")
    assert file.read_bytes() == before
    assert not desk.kept
    desk.keep()
    assert desk.kept
    assert b'rise = "1.5 m"' in file.read_bytes()


def test_a_change_that_makes_the_file_wrong_is_refused(file: Path) -> None:
    desk = Desk(file)
    with pytest.raises(HouseFileError):
        desk.edit({RISE: "1.5"}, "rise")
    assert desk.number == 0
    assert desk.history.undoes is None


def test_a_text_with_mistakes_is_taken_and_the_last_good_house_stays(file: Path) -> None:
    desk = Desk(file)
    desk.write(desk.text.replace('rise = "1.4 m"', 'rise = "1.4"'), "typed")
    assert len(desk.mistakes) == 1
    assert rise_of(desk) == pytest.approx(1.4)
    desk.undo()
    assert desk.mistakes == ()


def test_a_killed_desk_is_found_again_with_its_undo(file: Path) -> None:
    first = Desk(file)
    first.edit({RISE: "1.5 m"}, "rise 1.50 m")
    first.edit({RISE: "1.6 m"}, "rise 1.60 m")
    first.undo()
    again = Desk(file)
    assert again.recovered
    assert rise_of(again) == pytest.approx(1.5)
    assert again.history.redoes == "rise 1.60 m"
    again.undo()
    assert rise_of(again) == pytest.approx(1.4)


def test_a_desk_that_was_kept_recovers_nothing_but_still_undoes(file: Path) -> None:
    first = Desk(file)
    first.edit({RISE: "1.5 m"}, "rise 1.50 m")
    first.keep()
    again = Desk(file)
    assert not again.recovered
    assert again.history.undoes == "rise 1.50 m"


def test_a_line_cut_off_by_a_power_cut_is_left_out(file: Path) -> None:
    Desk(file).edit({RISE: "1.5 m"}, "rise 1.50 m")
    journal = file.with_name(f".{file.name}.desk")
    journal.write_bytes(journal.read_bytes() + b'{"event": "edit", "text": "half')
    assert rise_of(Desk(file)) == pytest.approx(1.5)


def test_a_journal_that_is_no_journal_is_left_out(file: Path) -> None:
    file.with_name(f".{file.name}.desk").write_text("nonsense\n[1]\n", encoding="utf-8")
    desk = Desk(file)
    assert not desk.recovered
    assert rise_of(desk) == pytest.approx(1.4)


def test_what_another_program_wrote_is_not_overwritten(file: Path) -> None:
    desk = Desk(file)
    desk.edit({RISE: "1.5 m"}, "rise")
    file.write_text(
        LARCH_BANK.read_text(encoding="utf-8").replace("Larch Bank", "Larch Bend"), encoding="utf-8"
    )
    assert desk.on_disk() is not None
    with pytest.raises(ChangedOnDiskError):
        desk.keep()
    assert "Larch Bend" in file.read_text(encoding="utf-8")
    desk.take_from_disk()
    assert "Larch Bend" in desk.text
    desk.undo()
    assert rise_of(desk) == pytest.approx(1.5)
    desk.keep()
    assert "Larch Bend" not in file.read_text(encoding="utf-8")


def test_keeping_over_what_is_there_is_a_decision(file: Path) -> None:
    desk = Desk(file)
    file.write_text(LARCH_BANK.read_text(encoding="utf-8") + "\n# another hand\n", encoding="utf-8")
    desk.edit({RISE: "1.5 m"}, "rise")
    desk.keep(over=True)
    assert "another hand" not in file.read_text(encoding="utf-8")


def test_a_file_that_changed_between_two_sessions_comes_last_and_can_be_undone(file: Path) -> None:
    Desk(file).edit({RISE: "1.5 m"}, "rise")
    file.write_text(
        LARCH_BANK.read_text(encoding="utf-8").replace("Larch Bank", "Larch Bend"), encoding="utf-8"
    )
    again = Desk(file)
    assert "Larch Bend" in again.text
    again.undo()
    assert rise_of(again) == pytest.approx(1.5)


def test_two_windows_do_not_overwrite_each_other(file: Path) -> None:
    desk = Desk(file)
    desk.edit({RISE: "1.5 m"}, "first window", base=0)
    with pytest.raises(StaleEditError, match="another window"):
        desk.edit({RISE: "1.6 m"}, "second window", base=0)
    assert rise_of(desk) == pytest.approx(1.5)


def test_old_revisions_are_let_go() -> None:
    history = History.of("0")
    for count in range(MOST_REVISIONS + 5):
        history = history.with_edit(str(count + 1), "edit")
    assert len(history.revisions) == MOST_REVISIONS
    assert history.now.text == str(MOST_REVISIONS + 5)


def test_an_edit_after_an_undo_forgets_what_was_undone() -> None:
    history = History.of("a").with_edit("b", "to b").undone().with_edit("c", "to c")
    assert history.redoes is None
    assert [one.text for one in history.revisions] == ["a", "c"]
