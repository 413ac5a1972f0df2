"""The scripts and pages themselves: short files, nothing inline, nothing from outside."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

HERE = Path("src/bermwright/workbench")
MOST_LINES = 600
MOST_FILES = 13


@pytest.fixture(scope="module")
def root(repository: Path) -> Path:
    """The folder of the workbench."""
    return repository / HERE


def _files(root: Path, folder: str, ending: str) -> list[Path]:
    found = sorted(path for path in (root / folder).rglob(f"*{ending}") if "vendor" not in path.parts)
    assert found
    return found


def test_every_script_says_what_it_is_for_and_stays_short(root):
    for path in _files(root, "static/script", ".js"):
        text = path.read_text()
        assert text.startswith(("/** @file ", "/**\n * @file ", "// ")), path
        assert len(text.splitlines()) < MOST_LINES, path


def test_no_folder_of_scripts_or_styles_is_crowded(root):
    for folder in {
        path.parent for path in (*_files(root, "static/script", ".js"), *_files(root, "static/style", ".css"))
    }:
        count = sum(one.is_file() for one in folder.iterdir())
        assert count < MOST_FILES, f"{folder}: {count} files"


def test_pages_have_nothing_inline_and_nothing_from_outside(root):
    for path in _files(root, "pages", ".html"):
        text = path.read_text()
        assert not re.search(r"<script(?![^>]*\bsrc=)", text), path
        assert not re.search(r"<style|\sstyle=|\son[a-z]+=", text), path
        assert not re.search(r"(?:src|href)=\"(?:https?:)?//", text), path


def test_styles_and_scripts_name_no_address_and_styles_no_colour_of_their_own(root):
    for path in (*_files(root, "static/script", ".js"), *_files(root, "static/style", ".css")):
        addresses = set(re.findall(r"https?://[\w.]+", path.read_text())) - {"http://www.w3.org"}
        assert not addresses, path
    for path in _files(root, "static/style", ".css"):
        if path.name not in {"tokens.css", "print.css"}:
            assert not re.search(r"#[0-9a-fA-F]{3,8}\b(?![^{]*\{)", path.read_text()), path


def test_fonts_come_with_their_licence(root):
    fonts = {path.name for path in (root / "static/fonts").iterdir()}
    for family in ("vollkorn", "iosevka"):
        assert f"{family}-OFL.txt" in fonts
        assert "sil open font license" in (root / f"static/fonts/{family}-OFL.txt").read_text().lower()
    assert sum((root / "static/fonts" / name).stat().st_size for name in fonts) < 250_000
