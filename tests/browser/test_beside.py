"""The pages beside the drawing in a real browser: start, from paper, lessons, the walk, the words."""

from __future__ import annotations

import base64
import os
import re
import subprocess
import sys

import pytest

FITS = "document.documentElement.scrollWidth <= window.innerWidth"
PNG = base64.b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg=="
)
"""A picture of one dot."""


@pytest.fixture(scope="module")
def house(tmp_path_factory, repository):
    """The example that holds."""
    file = tmp_path_factory.mktemp("house") / "larch-bank.toml"
    file.write_text((repository / "examples/larch-bank.toml").read_text(encoding="utf-8"), encoding="utf-8")
    return file


@pytest.fixture
def empty(tmp_path):
    """The workbench without a file, in an empty folder: its address."""
    folder = tmp_path / "empty"
    folder.mkdir()
    process = subprocess.Popen(
        [sys.executable, "-m", "bermwright", "open", "--no-browser"],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        cwd=folder,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    )
    assert process.stdout is not None
    address = next(found.group() for line in process.stdout if (found := re.search(r"http://\S+", line)))
    yield address
    process.terminate()
    process.wait(20)
    process.stdout.close()


@pytest.fixture
def visit(room):
    """Opens a page beside the drawing; gives the page and what was said to the console."""
    pages = []

    def visiting(start: str, place: str = "", *, width: int = 1440, light: str = "light"):
        context, address = room(start)
        page = context.new_page()
        pages.append(page)
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(color_scheme=light, reduced_motion="reduce")
        page.set_default_timeout(60_000)
        wrong: list[str] = []
        page.on("console", lambda one: one.type == "error" and wrong.append(f"{one.text} {one.location}"))
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.goto(address)
        if place:
            page.goto(start.partition("/?")[0] + place)
        return page, wrong

    yield visiting
    for page in pages:
        page.close()


def test_answers_on_a_phone_become_a_house(empty, visit):
    page, wrong = visit(empty, width=390)
    page.wait_for_selector(".plain-question svg")
    assert page.evaluate(FITS)
    page.fill("#answer-span", "4.8")
    page.press("#answer-span", "Tab")
    page.wait_for_selector("#wrong-span:not([hidden])")
    assert "has no unit" in page.inner_text("#wrong-span")
    for name, text in {"span": "4.8 m", "rise": "2.2 m", "springing": "0.9 m", "length": "7.5 m"}.items():
        page.fill(f"#answer-{name}", text)
    page.click('[data-unknown="water"]')
    assert page.inner_text("#tally") == "4 answered, 9 stay open."
    page.press("#answer-span", "Tab")
    page.wait_for_selector("#wrong-span", state="hidden")
    page.get_by_text("Write the file and open it").click()
    page.wait_for_selector("#verdict-text")
    assert wrong == []


def test_a_picture_is_marked_by_keys_alone_and_gives_a_curve(served, visit):
    page, wrong = visit(served.address, "/sketch")
    page.set_input_files("#photo", {"name": "dot.png", "mimeType": "image/png", "buffer": PNG})
    page.wait_for_selector("#paper svg")
    page.locator("#paper").focus()

    def go(right: int, down: int) -> None:
        """Move the cross by so many presses of the arrows, and mark."""
        sideways = "ArrowRight" if right > 0 else "ArrowLeft"
        upright = "ArrowDown" if down > 0 else "ArrowUp"
        keys = [sideways] * abs(right) + [upright] * abs(down) + ["Enter"]
        page.evaluate(
            "(keys) => keys.forEach((key) => document.getElementById('paper')"
            ".dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true })))",
            keys,
        )

    go(-80, 60)
    go(160, 0)
    page.fill("#length", "4 m")
    page.locator("#paper").focus()
    go(-160, 0)
    for step in ((20, -60), (60, -60), (60, 60), (20, 60)):
        go(*step)
    page.keyboard.press("Enter")
    page.keyboard.press("Delete")
    page.click("#fit")
    page.wait_for_selector("#offers .choice")
    assert page.locator("#fitted circle").count() == 5
    assert 'span = "' in page.inner_text("#lines")
    page.click("#take")
    page.wait_for_url("**/")
    page.wait_for_selector("#verdict-text")
    assert wrong == []


def test_what_is_no_picture_is_refused_in_the_browser(served, visit):
    page, _ = visit(served.address, "/sketch")
    for name, kind, says in (("a.gif", "image/gif", "no PNG or JPEG"), ("a.png", "image/png", "no picture")):
        page.set_input_files("#photo", {"name": name, "mimeType": kind, "buffer": b"nothing"})
        page.wait_for_selector("#wrong:not([hidden])")
        assert says in page.inner_text("#wrong")
    assert page.locator("#marking").is_hidden()


def test_a_lesson_is_predicted_before_it_is_revealed(served, visit):
    page, wrong = visit(served.address, "/lessons/bare-ribs", width=390, light="dark")
    page.wait_for_selector(".lesson-section svg")
    assert page.locator("#predict button").is_disabled()
    assert page.locator("#revealed").is_hidden()
    page.locator("input[name=answer]").first.check()
    page.get_by_text("Run both houses").click()
    page.wait_for_selector("#revealed:not([hidden]) .arch-fails")
    assert page.inner_text("#failed")
    assert page.evaluate(FITS)
    assert wrong == []


def test_the_walk_goes_through_five_places(served, visit):
    page, _ = visit(served.address, "/walk")
    seen = []
    for number in range(1, 6):
        page.wait_for_selector(f".walk-at:has-text('Step {number} of 5')")
        seen.append(page.locator(".walked").get_attribute("id"))
        place, box = (page.locator(one).bounding_box() for one in (".walked", ".walk"))
        if seen[-1] in {"verdict", "checks", "title-block"}:
            assert (
                place["x"] + place["width"] <= box["x"]
                or box["x"] + box["width"] <= place["x"]
                or (place["y"] + place["height"] <= box["y"])
            )
        page.locator(".walk-words .word", has_text=re.compile("^(next|done)$")).click()
    assert seen == ["verdict", "section", "axes", "checks", "title-block"]
    assert page.locator(".walk").count() == 0


def test_a_word_of_the_trade_is_explained_on_focus_and_on_a_tap(served, visit):
    page, _ = visit(served.address, "/sketch")
    term = page.locator("dfn", has_text="vault").first
    term.focus()
    assert page.locator("#term-box").is_visible()
    assert "stands by being pressed together" in page.inner_text("#term-box")
    page.keyboard.press("Escape")
    assert page.locator("#term-box").is_hidden()
    term.click()
    assert page.locator("#term-box").is_visible()


def test_a_mark_is_moved_by_the_hand(served, visit):
    page, wrong = visit(served.address, "/sketch")
    page.set_input_files("#photo", {"name": "dot.png", "mimeType": "image/png", "buffer": PNG})
    page.wait_for_selector("#paper svg")
    page.click('[data-mark="points"]')
    box = page.locator("#paper svg").bounding_box()
    x, y = box["x"] + 200, box["y"] + 100
    page.mouse.click(x, y)
    page.mouse.move(x + 2, y + 2)
    page.mouse.down()
    page.mouse.move(x + 90, y + 40, steps=4)
    page.mouse.up()
    page.mouse.move(x + 300, y)
    assert page.locator("#paper .point").count() == 1
    moved = page.locator("#paper .point").bounding_box()
    assert moved["x"] + moved["width"] / 2 == pytest.approx(x + 90, abs=3.0)
    assert moved["y"] + moved["height"] / 2 == pytest.approx(y + 40, abs=3.0)
    assert wrong == []


def test_a_sketch_begins_a_house(empty, visit):
    page, wrong = visit(empty, "/sketch", width=390)
    rows = "".join(f"{x / 10.0}, {1.8 - 0.45 * (x / 10.0 - 2.0) ** 2}\n" for x in range(0, 41, 4))
    table = {"name": "points.csv", "mimeType": "text/csv", "buffer": f"x [m], z [m]\n{rows}".encode()}
    page.set_input_files("#points-file", table)
    page.wait_for_selector("#offers .choice")
    page.click("#begin")
    page.wait_for_selector("#sketched:not([hidden])")
    assert "parabola" in page.inner_text("#sketched-curve")
    assert page.input_value("#answer-span") == "4.000 m"
    page.fill("#answer-length", "6 m")
    page.fill("#answer-springing", "1 m")
    page.get_by_text("Write the file and open it").click()
    page.wait_for_selector("#verdict-text")
    assert page.evaluate(FITS)
    assert wrong == []
