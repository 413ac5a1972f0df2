"""The whole site book as PDF, read back page by page."""

from __future__ import annotations

import io
import re
from dataclasses import replace

import pdfplumber
import pytest

from bermwright.base.document import FullPage, Heading
from bermwright.book.pages import site_book
from bermwright.formats.documents import pdf

DATE = "2026-11-24"


@pytest.fixture(scope="module")
def document(book):
    return site_book(replace(book, paper="A3"))


@pytest.fixture(scope="module")
def made(document):
    return pdf(document, date=DATE)


@pytest.fixture(scope="module")
def read(made):
    """Text of every page, and how far its letters keep off the four edges (points)."""
    with pdfplumber.open(io.BytesIO(made)) as book:
        return [(page.extract_text(), clearance(page)) for page in book.pages]


def clearance(page):
    letters = [letter for letter in page.chars if letter["text"].strip()]
    right = float(page.width) - max(letter["x1"] for letter in letters)
    foot = float(page.height) - max(letter["bottom"] for letter in letters)
    left, head = (min(letter[edge] for letter in letters) for edge in ("x0", "top"))
    return min(left, head, right, foot)


@pytest.fixture(scope="module")
def pages(read):
    return [text for text, _ in read]


def test_the_mark_stands_on_every_page(pages):
    assert all("calculation aid, not reviewed" in page for page in pages)


def test_review_is_the_first_thing_on_the_first_page(pages):
    lines = [line for line in pages[0].splitlines() if line.strip()]
    first = next(i for i, line in enumerate(lines) if "Have this reviewed before digging." in line)
    assert first <= 4


def test_the_contents_name_the_page_of_every_chapter(document, pages):
    listed = dict(re.findall(r"^(.+?)\s*[. ]{3,}\s*(\d+)$", pages[1], flags=re.MULTILINE))
    chapters = [block.text for block in document.blocks if isinstance(block, Heading) and block.level == 1]
    assert set(chapters) <= set(listed)
    for chapter in chapters:
        assert chapter in pages[int(listed[chapter]) - 1]


def test_templates_are_pages_of_their_own(document, pages):
    sheets = [block for block in document.blocks if isinstance(block, FullPage)]
    assert sum("THIS FACE OUT" in page for page in pages) == len(sheets)
    assert all("THIS FACE OUT" in page for page in pages[-len(sheets) :])


def test_the_same_book_prints_the_same_bytes(book, made):
    assert pdf(site_book(replace(book, paper="A3")), date=DATE) == made


def test_nothing_runs_off_a_page(read):
    assert min(clear for _, clear in read) > 8.0
