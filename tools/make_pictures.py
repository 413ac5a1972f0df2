"""Makes the pictures of the README again, from the first example (needs pdftoppm of poppler)."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
HOUSE = ROOT / "examples" / "larch-bank.toml"
PICTURES = ROOT / "docs" / "pictures"
DATE = "2027-05-01"
HEADING = "Fill to"
"""The page shown is the first whose text holds these words in its first line."""


def run(*command: str | Path) -> str:
    """Run a program and give what it prints."""
    done = subprocess.run(
        [str(word) for word in command], check=True, capture_output=True, text=True, encoding="utf-8"
    )
    return done.stdout


def page_with(pdf: Path, words: str) -> int:
    """Number of the first page that is headed by `words`."""
    pages = run("pdftotext", "-layout", pdf, "-").split("\f")
    heads = [" ".join(page.split("\n")[:5]) for page in pages]
    return next(number for number, head in enumerate(heads, 1) if words in head and "Stage" in head)


def picture(pdf: Path, page: int, dots: int, name: str) -> None:
    """One page as a PNG."""
    number = str(page)
    run("pdftoppm", "-r", str(dots), "-png", "-singlefile", "-f", number, "-l", number, pdf, PICTURES / name)
    print(f"docs/pictures/{name}.png: page {page} of {pdf.name}")


def main() -> None:
    """Make both pictures."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        book, section = Path(folder) / "book.pdf", Path(folder) / "section.pdf"
        tool = [sys.executable, "-m", "bermwright"]
        run(*tool, "book", HOUSE, "--no-templates", "--date", DATE, "--out", book)
        run(*tool, "draw", HOUSE, "--date", DATE, "--out", section)
        picture(book, page_with(book, HEADING), 80, "book-page")
        picture(section, 1, 90, "section")


if __name__ == "__main__":
    main()
