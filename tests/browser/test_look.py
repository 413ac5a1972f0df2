"""The page at every width and in both lights: nothing sideways, nothing from outside, no fault."""

from __future__ import annotations

import pytest

NOW = "window.workbench.store.now"
FITS = "document.documentElement.scrollWidth <= window.innerWidth"
SMALL_TARGETS = """[...document.querySelectorAll("button, a, input, select, [role=slider]")]
    .filter((one) => one.checkVisibility() && !one.closest(".laid, .skip"))
    .map((one) => [one.textContent.trim().slice(0, 30) || one.tagName, one.getBoundingClientRect()])
    .filter(([, box]) => box.width > 0 && (box.width < 43.5 || box.height < 43.5))
    .map(([name, box]) => `${name} ${Math.round(box.width)}x${Math.round(box.height)}`)"""


@pytest.fixture(scope="module")
def house(tmp_path_factory, repository):
    """The example that holds; these tests change nothing that they do not take back."""
    file = tmp_path_factory.mktemp("house") / "larch-bank.toml"
    file.write_text((repository / "examples/larch-bank.toml").read_text())
    return file


def test_nothing_is_said_to_the_console_and_nothing_comes_from_outside(served, opened):
    window = opened(served, model=True)
    window.checked()
    for leaf in ("questions", "parts", "findings"):
        window.page.locator(f"[data-leaf={leaf}]").click()
        window.page.wait_for_timeout(100)
    window.until("document.querySelector('#plan .laid svg')")
    assert window.wrong == []
    assert window.outside == []


def test_at_1440_nothing_has_to_be_scrolled(served, opened):
    window = opened(served)
    window.checked()
    page = window.page
    assert page.evaluate(FITS)
    assert page.evaluate("document.documentElement.scrollHeight <= window.innerHeight")
    assert page.locator("#mark").inner_text() == "calculation aid, not reviewed"
    assert page.evaluate("document.querySelector('.laid svg').getBoundingClientRect().width > 700")


def test_a_phone_shows_steppers_and_never_scrolls_sideways(served, opened):
    window = opened(served, width=390, height=844)
    window.checked()
    page = window.page
    assert not page.locator(".handles").is_visible()
    page.get_by_label("rise: one step more").click()
    page.get_by_label("rise: one step more").click()
    window.revised(1)
    assert window.value("crown") == "1.5 m"
    window.undone()
    page.get_by_label("stage before").click()
    window.until(f"{NOW}.scene.stage !== 'long term'")
    for word in ("Checks", "Parts", "Book", "Drawing"):
        page.locator(".foot-word", has_text=word).click()
        page.wait_for_timeout(150)
        assert page.evaluate(FITS), word
        assert page.evaluate(SMALL_TARGETS) == [], word
        assert page.locator("#mark").is_visible()
    assert window.wrong == []


def test_lamp_light_follows_the_machine_and_the_word_in_the_title_block(served, opened):
    window = opened(served, light="lamp")
    page = window.page
    paper = "getComputedStyle(document.querySelector('.sheet')).backgroundColor"
    assert page.evaluate(paper) == "rgb(38, 32, 25)"
    assert "#f2e4c9" in page.evaluate("document.querySelector('.laid').innerHTML")
    page.locator("[data-word=light]").click()
    window.until("document.querySelector('.laid').innerHTML.includes('#1f252b')")
    assert page.evaluate(paper) == "rgb(248, 244, 234)"
    page.reload()
    window.drawn()
    assert (
        page.evaluate("document.documentElement.dataset.light") == "day"
    )  # kept, against the machine's wish


def test_feet_and_inches_reach_handles_drawing_and_fields(served, opened):
    window = opened(served)
    window.page.locator("[data-word=units]").click()
    window.until(f"{NOW}.handles.list.find((one) => one.name === 'crown').text.includes('ft')")
    window.until("document.querySelector('#section .laid').textContent.includes(' ft')")


def test_the_axes_are_walked_by_keys(served, opened):
    window = opened(served)
    window.checked()
    page = window.page
    page.locator("[data-axis=building]").focus()
    page.keyboard.press("Home")
    window.until(f"{NOW}.scene.stage === {NOW}.scene.stages[0].name")
    page.keyboard.press("ArrowRight")
    window.until(f"{NOW}.scene.stage === {NOW}.scene.stages[1].name")
    assert page.evaluate("document.activeElement.dataset.axis") == "building"
    assert "stage 2 of" in page.locator("#where").inner_text()
    page.locator("[data-axis=storm]").focus()
    page.keyboard.press("End")
    window.until(f"{NOW}.scene.case === {NOW}.axes.storm.at(-1).case")


def test_paper_carries_the_drawing_the_findings_and_the_mark(served, opened):
    window = opened(served)
    window.checked()
    page = window.page
    page.emulate_media(media="print")
    assert page.locator(".laid svg").first.is_visible()
    assert page.locator("#mark").is_visible()
    assert not page.locator(".over").first.is_visible()
    assert len(page.pdf()) > 20_000
