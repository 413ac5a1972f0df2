"""Books, templates and drawings as files: what is said before they are written, and what they bear."""

from __future__ import annotations

import io
import shutil
from pathlib import Path

import pdfplumber
import pytest

from bermwright.app.booking import page_count

EXAMPLES = sorted((Path(__file__).resolve().parent.parent.parent / "examples").glob("*.toml"))
MARK = "calculation aid, not reviewed"


@pytest.fixture
def house(example, tmp_path, once):
    """An example in a folder of its own, as answers are written beside it."""
    assert once(example)
    return Path(shutil.copy(example, tmp_path / example.name))


def pages(path):
    with pdfplumber.open(path) as document:
        return [page.extract_text() for page in document.pages]


def beside(house):
    return sorted(path.name for path in house.parent.iterdir() if path != house)


def test_book_says_its_pages_before_it_writes_beside_the_house(run, house):
    before = house.read_bytes()
    code, out, _ = run("book", house, "--no-templates", "--date", "2026-11-24")
    name = f"{house.stem}-book.pdf"
    content = house.with_name(name).read_bytes()
    assert code == 0
    assert out.startswith(f"{page_count(content)} pages, 0 of them full-size templates")
    assert beside(house) == [name]
    assert str(house.with_name(name)) in out
    assert ("Not everything in it holds" in out) == (run("check", house)[0] != 0)
    assert house.read_bytes() == before


def test_every_page_of_a_book_bears_the_mark_and_the_day(run, bare):
    assert run("book", bare, "--date", "2026-11-24")[0] == 0
    said = pages(bare.with_name("bare-book.pdf"))
    assert len(said) > 5
    assert all(MARK in text and "2026-11-24" in text for text in said)


def test_templates_are_counted_and_alone(run, house):
    code, out, _ = run("templates", house, "--paper", "A3", "--date", "2026-11-24")
    path = house.with_name(f"{house.stem}-templates.pdf")
    sheets = int(out.split()[0])
    assert code == 0
    assert "full-size sheets on A3" in out
    with pdfplumber.open(path) as document:
        large = [page for page in document.pages if max(page.width, page.height) > 1100]
    assert len(large) == sheets > 0


def test_templates_of_an_unknown_house_are_refused(run, bare):
    code, out, err = run("templates", bare)
    assert (code, out) == (2, "")
    assert "no template" in err
    assert beside(bare) == []


def test_the_same_file_and_day_give_the_same_drawing(run, house):
    first, second = (house.with_name(name) for name in ("a.pdf", "b.pdf"))
    for path in (first, second):
        assert run("draw", house, "--date", "2026-11-24", "-o", path)[0] == 0
    assert first.read_bytes() == second.read_bytes()


@pytest.mark.parametrize("what", ["section", "ribs", "stages", "openings"])
def test_every_sheet_of_a_drawing_bears_the_mark(run, house, what):
    code, out, _ = run("draw", house, "--what", what, "--date", "2026-11-24")
    said = pages(house.with_name(f"{house.stem}-{what}.pdf"))
    assert code == 0
    assert out.startswith(f"{len(said)} sheet")
    assert all(MARK in text for text in said)
    assert all("2026-11-24" in text for text in said)


def test_drawings_for_screens_and_other_programs_bear_the_mark(run, house):
    svg, dxf = house.with_name("s.svg"), house.with_name("s.dxf")
    assert run("draw", house, "-o", svg)[0] == 0
    assert run("draw", house, "-o", dxf, "--full-size")[0] == 0
    assert MARK in svg.read_text(encoding="utf-8")
    assert MARK in dxf.read_text(encoding="utf-8")


def test_an_svg_holds_one_sheet_so_several_get_numbers(run, house):
    code, out, _ = run("draw", house, "--what", "ribs", "-o", house.with_name("rib.svg"))
    names = [line.split()[-1].rstrip(".") for line in out.splitlines()[1:]]
    assert code == 0
    assert [Path(name).name for name in names] == beside(house)
    assert all(MARK in Path(name).read_text(encoding="utf-8") for name in names)


def test_an_old_book_is_replaced_and_a_drawing_of_an_unknown_house_refused(run, bare):
    old = bare.with_name("old.pdf")
    old.write_bytes(b"%PDF-1.7 old")
    code, _, err = run("draw", bare, "-o", old)
    assert code == 2
    assert "not known" in err
    assert old.read_bytes() == b"%PDF-1.7 old"
    assert run("book", bare, "-o", old, "--date", "2026-11-24")[0] == 0
    assert page_count(old.read_bytes()) == len(pages(io.BytesIO(old.read_bytes())))


def test_stages_of_an_unknown_house_are_refused(run, bare):
    code, _, err = run("draw", bare, "--what", "stages")
    assert code == 2
    assert "nothing to draw" in err
