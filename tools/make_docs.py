"""Writes docs/reference from the program itself, so that it cannot lag.

.venv/bin/python tools/make_docs.py            write the pages
.venv/bin/python tools/make_docs.py --check    say which pages are old, and change nothing
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import program_pages
import reference_pages

if TYPE_CHECKING:
    from collections.abc import Sequence

FOLDER = Path(__file__).resolve().parent.parent / "docs" / "reference"


def pages() -> dict[str, str]:
    """Every page by its file name."""
    made = {**reference_pages.PAGES, **program_pages.PAGES}
    return {name: page() for name, page in sorted(made.items())}


def old_pages(folder: Path = FOLDER) -> list[str]:
    """The names of pages that are missing or not what the program says now."""
    return [
        name
        for name, text in pages().items()
        if not (folder / name).exists() or (folder / name).read_text(encoding="utf-8") != text
    ]


def main(arguments: Sequence[str] | None = None) -> int:
    """Write or check the pages; 1 when a checked page is old."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--check", action="store_true", help="change nothing")
    wanted = parser.parse_args(arguments)
    old = old_pages()
    for name in old:
        print(f"docs/reference/{name} {'is old: run make docs' if wanted.check else 'written'}")
        if not wanted.check:
            FOLDER.mkdir(parents=True, exist_ok=True)
            (FOLDER / name).write_text(pages()[name], encoding="utf-8", newline="\n")
    return int(wanted.check and bool(old))


if __name__ == "__main__":
    sys.exit(main())
