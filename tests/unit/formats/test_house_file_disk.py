from __future__ import annotations

import os
import sys
import time

import pytest

from bermwright.base.errors import HouseFileError
from bermwright.formats.house_file import edited, load, read, save, write

HOUSE = """\
# my house
format = 1

[house]
name = "Ash Row"   # invented

[[vault]]
name = "day room"  # the big one
# odd order on purpose
timber = "C18"
span = "4.8 m"     # measured twice
curve = "under cover"
rise = "2.2 m"
length = "7.5 m"
springing = "0.9 m"
structure = "segment ribs"
board = "32 x 195 mm"
layers = 4
spacing = "0.6 m"

[vault.mound]
crown = "0.35 m"
left = "1:2.5"
right = "1:3"      # garden side
"""


def says(path) -> str:
    with pytest.raises(HouseFileError) as caught:
        load(path)
    (mistake,) = caught.value.mistakes
    return mistake.allowed


def test_a_file_is_loaded(tmp_path):
    (tmp_path / "a.toml").write_bytes(b"\xef\xbb\xbf" + HOUSE.replace("\n", "\r\n").encode())
    assert load(tmp_path / "a.toml").house.name == "Ash Row"


def test_what_is_no_readable_text_is_one_clear_error(tmp_path):
    (tmp_path / "junk").write_bytes(bytes(range(256)) * 10)
    (tmp_path / "latin").write_bytes("name = 'Tür'\n".encode("latin-1"))
    (tmp_path / "wide").write_bytes(HOUSE.encode("utf-16"))
    (tmp_path / "empty").write_bytes(b"")
    assert "no such file" in says(tmp_path / "absent.toml")
    assert "no such file" in says(tmp_path / "empty" / "in it.toml")
    assert "folder" in says(tmp_path)
    assert "no text" in says(tmp_path / "junk")
    assert "UTF-8" in says(tmp_path / "latin")
    assert "UTF-16" in says(tmp_path / "wide")
    assert "empty" in says(tmp_path / "empty")
    assert "no name of a file" in says("a\x00b")
    assert "too long" in says("x" * 5000)


@pytest.mark.skipif(sys.platform == "win32", reason="links and pipes need rights on Windows")
def test_links_and_pipes_do_not_hang(tmp_path):
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    os.mkfifo(tmp_path / "pipe")
    assert "back to itself" in says(tmp_path / "loop")
    assert "no plain file" in says(tmp_path / "pipe")


def test_fifty_megabytes_are_refused_without_being_read(tmp_path):
    big = tmp_path / "big.toml"
    with big.open("wb") as file:
        for _ in range(50):
            file.write(b'name = "x"\n' * 95_000)
    start = time.perf_counter()
    assert "1 MB" in says(big)
    assert time.perf_counter() - start < 0.2


def test_a_large_text_full_of_mistakes_is_answered_soon():
    text = HOUSE + "".join(f'[[site.soil]]\nname = "s{i}"\nunit_weight = {i}\n' for i in range(5000))
    start = time.perf_counter()
    with pytest.raises(HouseFileError) as caught:
        read(text, "x")
    assert len(caught.value.mistakes) >= 5000
    assert time.perf_counter() - start < 5


def test_saving_keeps_comments_order_and_line_ends(tmp_path):
    path = tmp_path / "h.toml"
    text = save(HOUSE, {("vault", 0, "span"): "5 m", ("vault", 0, "mound", "crown"): "0.4 m"}, path)
    assert text == HOUSE.replace('"4.8 m"', '"5 m"').replace('"0.35 m"', '"0.4 m"')
    assert path.read_text(encoding="utf-8") == text
    windows = HOUSE.replace("\n", "\r\n")
    assert edited(windows, {("vault", 0, "span"): "5 m"}) == windows.replace('"4.8 m"', '"5 m"')
    assert edited(windows, {}) == windows
    assert edited(HOUSE, {}) == HOUSE


def test_a_saved_slope_shows_its_degrees_and_a_comment_of_the_builder_stays():
    text = edited(HOUSE, {("vault", 0, "mound", "left"): "1:2", ("vault", 0, "mound", "right"): "1:2"})
    assert 'left = "1:2" # 26.6 degrees\n' in text
    assert 'right = "1:2"      # garden side\n' in text
    assert 'left = "1:3" # 18.4 degrees\n' in edited(text, {("vault", 0, "mound", "left"): "1:3"})


def test_new_keys_tables_and_entries_are_added_and_keys_taken_out():
    text = edited(
        HOUSE,
        {
            ("site", "floor"): "-0.4 m",
            ("vault", 0, "feet", "hold"): "pinned",
            ("vault", 0, "cover", 0, "kind"): "lagging",
            ("vault", 0, "cover", 0, "thickness"): "50 mm",
            ("vault", 0, "mound", "line"): None,
            ("vault", 0, "mound", "left"): "1:2",
        },
    )
    house = read(text, "x").house
    assert house.site.floor == -0.4
    assert house.vaults[0].feet is not None
    assert house.vaults[0].cover[0].thickness == 0.05
    assert "# odd order on purpose" in text
    assert "rise" not in edited(HOUSE, {("vault", 0, "rise"): None})


def test_a_change_that_is_wrong_is_refused_and_the_file_stays(tmp_path):
    path = tmp_path / "h.toml"
    write(HOUSE, path)
    with pytest.raises(HouseFileError, match="no unit"):
        save(HOUSE, {("vault", 0, "span"): "5"}, path)
    assert path.read_text(encoding="utf-8") == HOUSE
    assert [one.name for one in tmp_path.iterdir()] == ["h.toml"]


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such rights")
def test_writing_follows_a_link_and_keeps_the_rights(tmp_path):
    real, link = tmp_path / "real.toml", tmp_path / "link.toml"
    real.write_text("old", encoding="utf-8")
    real.chmod(0o640)
    link.symlink_to(real)
    write("new\n", link)
    assert real.read_text(encoding="utf-8") == "new\n"
    assert link.is_symlink()
    assert real.stat().st_mode & 0o777 == 0o640


def test_when_writing_fails_nothing_is_left_over(tmp_path, monkeypatch):
    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    path = tmp_path / "h.toml"
    write("old", path)
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        write("new", path)
    assert path.read_text(encoding="utf-8") == "old"
    assert [one.name for one in tmp_path.iterdir()] == ["h.toml"]
