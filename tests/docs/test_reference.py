"""The generated reference is what the program says today, and every link in the docs leads somewhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from make_docs import main, old_pages, pages

PAGES = sorted(pages())


@pytest.mark.parametrize("name", PAGES)
def test_page_is_not_old(name: str) -> None:
    assert name not in old_pages(), "run make docs"


def test_check_says_which_page_is_old(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("make_docs.old_pages", lambda: ["rules.md"])
    monkeypatch.setattr("make_docs.FOLDER", tmp_path)
    assert main(["--check"]) == 1
    assert "rules.md is old" in capsys.readouterr().out
    assert list(tmp_path.iterdir()) == []


def broken_links(page: Path) -> list[str]:
    targets = re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8"))
    return [target for target in targets if "://" not in target and not (page.parent / target).exists()]


def test_links_lead_somewhere(repository: Path) -> None:
    pages_of_docs = [*repository.glob("*.md"), *repository.glob("docs/**/*.md")]
    broken = {page.name: broken_links(page) for page in pages_of_docs}
    assert {name: links for name, links in broken.items() if links} == {}


@pytest.mark.parametrize("name", ["README.md", "ARCHITECTURE.md", "CONTRIBUTING.md"])
def test_named_files_exist(repository: Path, name: str) -> None:
    """A path in backticks is a promise; words in capitals in it stand for a name to choose."""
    text = (repository / name).read_text(encoding="utf-8")
    paths = re.findall(r"`((?:src|docs|tools|tests|examples|bench)/[\w./-]+)`", text)
    missing = [
        path for path in paths if not re.search(r"[A-Z]{3}", path) and not (repository / path).exists()
    ]
    assert missing == []
