"""What is made by hand, on a phone beside the dome: a course, the ring as laid, a drawing to take away."""

from __future__ import annotations

import pytest

FITS = "document.documentElement.scrollWidth <= window.innerWidth"
SAYS = "document.querySelector('.leaf-verdict').textContent"


@pytest.fixture(scope="module")
def house(tmp_path_factory, repository):
    """The dome: it has no vault to be checked, so that nothing else is under way."""
    file = tmp_path_factory.mktemp("house") / "rowan-ring.toml"
    dome = repository / "examples/domes/rowan-ring.toml"
    file.write_text(dome.read_text(encoding="utf-8"), encoding="utf-8")
    return file


def test_a_ring_is_corrected_by_keys_on_a_phone(served, opened):
    seen = opened(served, width=390, height=800, drawn=False)
    page = seen.page
    page.goto(f"{served.address.partition('?')[0]}making/compass")
    seen.until("document.getElementById('shown')?.hidden === false")
    assert page.evaluate(FITS)
    page.focus("#course-up")
    page.keyboard.press("Enter")
    seen.until(f"{SAYS}.includes('Course 2')")
    page.focus("#as-laid summary")
    page.keyboard.press("Enter")
    for place in page.query_selector_all("[data-radius]"):
        place.fill("2.11 m")
    page.keyboard.press("Enter")
    seen.until(f"{SAYS}.includes('led back')")
    assert page.evaluate(FITS)
    page.focus("[data-take=svg]")
    page.keyboard.press("Enter")
    seen.until("document.querySelector('#made a')")
    with page.expect_download() as taken:
        page.keyboard.press("Enter")  # the file has the focus as soon as it is there
    assert taken.value.suggested_filename == "rowan-ring-compass-svg.zip"
    page.click("[data-light-switch]")
    assert page.evaluate("document.querySelector('.laid-drawing svg').outerHTML.includes('#f2e4c9')")
    assert (seen.wrong, seen.outside) == ([], [])
