"""What the commands do with files that are none, places that cannot be written, and their own faults."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from bermwright.app import assessing
from bermwright.app.outside import files

LARCH = Path(__file__).resolve().parent.parent.parent / "examples" / "larch-bank.toml"
COMMANDS = ("check", "count", "book", "templates", "draw")

TWELVE = [
    ("people = 3\nnote", "peeple = 3\nnote", 'Did you mean "people"'),
    ('latitude = "62.9 deg"', 'latitude = "95 deg"', "-90 deg to 90 deg"),
    ('ground_snow = "2.5 kN/m2"', 'ground_snow = "2.5 m"', "a length; a pressure is due"),
    ('slope = "0 deg"', 'slope = "2.5:1"', "68.2 degrees"),
    ('unit_weight = "18..19 kN/m3"', "unit_weight = 18", "without quotes"),
    ('friction_angle = "32..36 deg"', 'friction_angle = "36..32 deg"', "32..36 deg"),
    ('curve = "under cover"', 'curve = "catenry"', 'Did you mean "catenary"'),
    ('span = "4.2 m"', 'span = "4,2 m"', "4.2 m"),
    ('structure = "segment ribs"', 'structure = "masonry"', "not read yet"),
    ("layers = 5", "layers = 1", "from 2 to 12"),
    ('timber = "C24"\nseasoned', 'timber = "C25"\nseasoned', "C24"),
    ('crown = "0.35 m"', 'crown = "0.35"', "no unit"),
]


def strict_json(text):
    """JSON without NaN and infinity, which Python would read without a word."""

    def refuse(constant):
        raise AssertionError(f"{constant} in JSON")

    return json.loads(text, parse_constant=refuse)


@pytest.fixture
def spoilt(tmp_path):
    """The first example with twelve mistakes."""
    text = LARCH.read_text(encoding="utf-8")
    for right, wrong, _ in TWELVE:
        assert text.count(right) == 1, right
        text = text.replace(right, wrong)
    path = tmp_path / "spoilt.toml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("command", COMMANDS)
def test_twelve_mistakes_are_said_at_once_with_their_lines(run, spoilt, command):
    code, out, err = run(command, spoilt)
    text = spoilt.read_text(encoding="utf-8")
    assert (code, out) == (2, "")
    assert "12 things to put right" in err
    said = {line.split(":")[0].strip(): line for line in err.splitlines()}
    for _, wrong, teaches in TWELVE:
        line = text[: text.index(wrong)].count("\n") + 1
        assert teaches in said[f"line {line}"]
    assert sorted(path.name for path in spoilt.parent.iterdir()) == ["spoilt.toml"]


def test_mistakes_come_as_data_too(run, spoilt):
    code, out, err = run("check", spoilt, "--json")
    data = strict_json(out)
    assert (code, err) == (2, "")
    assert data["file"] == str(spoilt)
    assert len(data["mistakes"]) == 12
    assert all(set(one) == {"line", "place", "given", "allowed", "advice"} for one in data["mistakes"])


def test_a_syntax_error_alone_gives_line_column_and_cause(run, tmp_path):
    path = tmp_path / "house.toml"
    path.write_text('[house]\nname = "a\n', encoding="utf-8")
    code, _, err = run("check", path)
    assert code == 2
    assert "line 2" in err
    assert "column" in err


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (None, "no such file"),
        (b"", "empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "no text"),
        (b'[house]\nname = "\xe9"\n', "UTF-8"),
        (b"a = " + b"[" * 5000 + b"]" * 5000, "deep"),
        (b"# " + b"x" * 1_200_000, "MB"),
        (b'[house]\nname = "Empty"\n', "no vault"),
        (b"format = 99\n", "newer version"),
    ],
)
@pytest.mark.parametrize("command", ["check", "book"])
def test_what_is_no_house_file_is_told_so(run, tmp_path, command, content, says):
    path = tmp_path / "house.toml"
    if content is not None:
        path.write_bytes(content)
    code, out, err = run(command, path)
    assert (code, out) == (2, "")
    assert says in err
    assert "Traceback" not in err


@pytest.mark.parametrize("command", COMMANDS)
def test_a_folder_is_no_house_file(run, tmp_path, command):
    code, _, err = run(command, tmp_path)
    assert code == 2
    assert "folder" in err


def test_a_link_to_itself_is_no_house_file(run, tmp_path):
    path = tmp_path / "loop.toml"
    path.symlink_to(path)
    code, _, err = run("check", path)
    assert code == 2
    assert "points back to itself" in err


def test_a_name_cannot_steer_the_terminal(run, bare):
    bare.write_text(
        bare.read_text(encoding="utf-8").replace('"store"', r'"st\u009b31more\u202e"'), encoding="utf-8"
    )
    code, out, err = run("check", bare)
    assert code in {1, 2}
    assert not {"\x1b", "\x9b", "\u202e"} & set(out + err)


@pytest.mark.parametrize("name", ["Øst – 北 & <b>#x", "a*b_c", "%s {0} {name}", "$x #let y"])
def test_odd_names_pass_through_every_face(run, tmp_path, name):
    text = LARCH.read_text(encoding="utf-8")
    own = next(line for line in text.splitlines() if line.startswith("name ="))
    path = tmp_path / "odd.toml"
    path.write_text(text.replace(own, f'name = "{name}"', 1), encoding="utf-8")
    assert name in run("count", path)[1]
    code, _, err = run("draw", path, "-o", tmp_path / "odd.svg")
    assert (code, err) == (0, "")
    assert "not reviewed" in (tmp_path / "odd.svg").read_text(encoding="utf-8")
    assert run("draw", path, "-o", tmp_path / "odd.pdf")[0] == 0


# ---------------------------------------------------------------- where answers go
@pytest.mark.parametrize("command", ["book", "templates", "draw"])
def test_an_answer_goes_neither_into_a_folder_nor_over_a_file_of_another_kind(run, tmp_path, command):
    folder, letter = tmp_path / "out.pdf", tmp_path / "letter.pdf"
    folder.mkdir()
    letter.write_text("Dear neighbour,", encoding="utf-8")
    for target, says in (
        (folder, "is a folder"),
        (letter, "is no PDF"),
        (tmp_path / "house.toml", "must end in .pdf"),
        (letter / "book.pdf", "could not be written"),
        (tmp_path / ("x" * 400 + ".pdf"), "could not be written"),
    ):
        code, out, err = run(command, LARCH, "-o", target)
        assert (code, out) == (2, "")
        assert says in err
        assert err.count("\n") == 1
    assert letter.read_text(encoding="utf-8") == "Dear neighbour,"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["letter.pdf", "out.pdf"]


@pytest.mark.parametrize("text", ["24.11.2026", "2026-02-30", "0001-01-01", "tomorrow"])
def test_a_date_that_is_none_is_refused_before_anything_is_computed(run, text):
    code, _, err = run("book", LARCH, "--date", text)
    assert code == 2
    assert text in err


def test_a_full_disk_leaves_the_old_file_and_nothing_else(tmp_path, monkeypatch):
    path = tmp_path / "book.pdf"
    path.write_bytes(b"%PDF old")

    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(files.FileError, match=r"No space left on device\. Nothing was changed"):
        files.write_bytes(path, b"%PDF new")
    assert path.read_bytes() == b"%PDF old"
    assert [one.name for one in tmp_path.iterdir()] == ["book.pdf"]


def test_a_written_file_has_the_rights_of_any_other(tmp_path):
    plain, ours = tmp_path / "plain", tmp_path / "ours"
    plain.write_text("", encoding="utf-8")
    files.write_bytes(ours, b"")
    assert ours.stat().st_mode == plain.stat().st_mode
    ours.chmod(0o640)
    files.write_bytes(ours, b"again")
    assert ours.stat().st_mode & 0o777 == 0o640


def test_new_never_writes_over_a_file(run, tmp_path):
    path = tmp_path / "house.toml"
    code, out, _ = run("new", path, "--name", "Heron Bank")
    assert code == 0
    assert str(path) in out
    before = path.read_text(encoding="utf-8")
    assert run("new", path)[0] == 2
    assert path.read_text(encoding="utf-8") == before
    assert run("check", path)[0] in {0, 1}


def test_the_schema_is_written_as_json_only(run, tmp_path):
    assert run("schema", "-o", tmp_path / "house.toml")[0] == 2
    assert run("schema", "-o", tmp_path / "schema.json")[0] == 0
    assert strict_json((tmp_path / "schema.json").read_text(encoding="utf-8"))


# ---------------------------------------------------------------- endings
def test_ctrl_c_ends_with_130_and_no_traceback(run, monkeypatch):
    def stopped(*_args, **_more):
        raise KeyboardInterrupt

    monkeypatch.setattr(assessing, "assess", stopped)
    code, out, err = run("check", LARCH)
    assert (code, out) == (130, "")
    assert err == "Stopped. Nothing was written.\n"


def test_an_own_fault_is_called_one(run, monkeypatch):
    def broken(*_args, **_more):
        raise RuntimeError("wheel off")

    monkeypatch.setattr(assessing, "assess", broken)
    monkeypatch.delenv("BERMWRIGHT_TRACE", raising=False)
    code, out, err = run("check", LARCH)
    assert (code, out) == (3, "")
    assert "fault of the program" in err
    monkeypatch.setenv("BERMWRIGHT_TRACE", "1")
    with pytest.raises(RuntimeError):
        run("check", LARCH)


def test_no_command_prints_the_help(run):
    code, out, _ = run()
    assert code == 2
    assert "check" in out


@pytest.mark.parametrize(
    "words", [["fly"], ["check"], ["check", "a", "--units", "cubits"], ["draw", "a", "--what", "cat"]]
)
def test_a_wrong_command_line_ends_with_2(words, capsys):
    from bermwright.cli.main import main

    with pytest.raises(SystemExit) as ended:
        main(words)
    assert ended.value.code == 2
    assert "usage" in capsys.readouterr().err


def test_an_answer_that_finds_no_room_is_told_in_one_line():
    with open("/dev/full", "w") as full:  # noqa: PTH123  (a device, not a file)
        done = subprocess.run(
            [sys.executable, "-m", "bermwright", "schema"],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert done.returncode == 2
    assert done.stderr == "Something could not be read or written: No space left on device.\n"


def test_a_reader_that_leaves_is_no_success_and_no_traceback():
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        [sys.executable, "-m", "bermwright", "schema"],
        stdout=writing,
        stderr=subprocess.PIPE,
        text=True,
        check=False,
    )
    os.close(writing)
    assert done.returncode == 141
    assert done.stderr == ""
