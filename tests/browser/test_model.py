"""The model beside the section: turned, peeled, cut, lit; drawn with lines where there is no such view."""

from __future__ import annotations

import pytest

CANVAS = ".model-place canvas"
DRAWN = f"Number(document.querySelector('{CANVAS}')?.dataset.drawn ?? 0)"
NO_VIEW = """
const real = HTMLCanvasElement.prototype.getContext;
HTMLCanvasElement.prototype.getContext = function (kind, ...more) {
  return kind.startsWith("webgl") ? null : real.call(this, kind, ...more);
};
"""


@pytest.fixture(scope="module")
def house(tmp_path_factory, repository):
    """The example that holds; these tests change nothing."""
    file = tmp_path_factory.mktemp("house") / "larch-bank.toml"
    file.write_text((repository / "examples/larch-bank.toml").read_text(encoding="utf-8"), encoding="utf-8")
    return file


def large(window):
    """The model in the place of the section, with its words, once the page has come to rest."""
    window.checked()
    window.until(f"{DRAWN} > 0")
    window.page.locator("[data-swap=model]").click()
    window.until("document.querySelector('.model-words fieldset')?.checkVisibility()")
    window.until(f"document.querySelector('{CANVAS}').clientWidth > 400")
    window.until("document.querySelector('.model-sun').textContent")
    window.page.wait_for_timeout(300)


def picture(window) -> bytes:
    return window.page.locator(CANVAS).screenshot()


def test_the_model_is_peeled_cut_and_lit(served, opened):
    window = opened(served, model=True, width=1290, height=760)
    large(window)
    page = window.page
    pictures = [picture(window)]

    def changes(act) -> None:
        before = page.evaluate(DRAWN)
        act()
        window.until(f"{DRAWN} > {before}")
        pictures.append(picture(window))

    changes(lambda: page.get_by_text("peel one").click())
    assert not page.get_by_label("turf", exact=True).is_checked()
    changes(lambda: page.get_by_text("put one back").click())
    assert page.get_by_label("turf", exact=True).is_checked()
    changes(lambda: page.get_by_label("Where the model is cut").select_option("along"))
    changes(lambda: page.get_by_label("Hour by the sun").press("End"))
    assert page.locator(".model-sun").inner_text() == "The sun is down."
    assert pictures[0] != pictures[1]
    assert pictures[0] == pictures[2]
    assert len(set(pictures)) == len(pictures) - 1
    assert window.wrong == []
    assert window.outside == []


def test_keys_turn_it_and_home_puts_it_back(served, opened):
    window = opened(served, model=True, width=1290, height=760)
    large(window)
    page = window.page
    page.locator(CANVAS).focus()
    page.keyboard.press("Home")  # from here on the ring of the keyboard stands round it
    page.wait_for_timeout(400)
    first = picture(window)
    for key in ("ArrowLeft", "ArrowUp", "+"):
        before = page.evaluate(DRAWN)
        page.keyboard.press(key)
        window.until(f"{DRAWN} > {before}")
        assert picture(window) != first
    page.keyboard.press("Home")
    page.wait_for_timeout(400)
    assert picture(window) == first
    box = window.box(CANVAS)
    page.mouse.click(box["x"] + box["width"] * 0.5, box["y"] + box["height"] * 0.5)
    said = page.locator(".model-says").inner_text()
    assert said in page.locator(".model-layers li").all_inner_texts()
    assert "Arrow keys" in page.locator(CANVAS).get_attribute("aria-label")


def test_lamp_light_reaches_the_model(served, opened):
    window = opened(served, model=True, width=1290, height=760)
    large(window)
    by_day = picture(window)
    before = window.page.evaluate(DRAWN)
    window.page.evaluate(
        "document.documentElement.dataset.light = 'lamp';"
        "document.dispatchEvent(new CustomEvent('light', { detail: 'lamp' }))"
    )
    window.until(f"{DRAWN} > {before}")
    assert picture(window) != by_day


def test_without_a_model_view_the_house_is_drawn_with_lines(served, opened):
    first = opened(served)
    page = first.page.context.new_page()
    wrong = []
    page.on("console", lambda one: one.type == "error" and wrong.append(one.text))
    page.add_init_script(NO_VIEW)
    page.goto(first.page.url)
    page.wait_for_selector(".model-place svg.model-lines path", timeout=60_000)
    assert "no model view" in page.locator(".model-says").inner_text()
    assert page.locator(CANVAS).count() == 0
    assert wrong == []
    page.close()


def test_on_a_phone_the_model_and_its_words_fit(served, opened):
    window = opened(served, model=True, width=390, height=844)
    window.page.locator(".foot-word", has_text="Book").click()
    window.until(f"{DRAWN} > 0")
    assert window.page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
