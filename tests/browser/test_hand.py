"""The hand on the drawing: drag, keys, a typed value, undo, and how soon it shows."""

from __future__ import annotations

import math

import pytest

NOW = "window.workbench.store.now"


@pytest.fixture
def window(served, opened):
    """A window whose house is as it was afterwards."""
    one = opened(served)
    yield one
    one.undone()


def test_dragging_the_crown_makes_one_revision_and_undo_takes_it_back(window, served):
    first, page = window.know("revision.number"), window.page
    window.drag("crown", 0, 50)
    window.revised(first + 1)
    assert window.know("revision.label").startswith("rise ")
    assert window.know("revision.kept") is False
    rise = window.value("crown")
    assert 2.5 < float(rise.removesuffix(" m")) < 3.7
    assert 'rise = "4.0 m"' in served.file.read_text()  # the file is changed when it is kept, not before

    page.locator("[data-word=undo]").click()
    window.revised(first + 2)
    assert window.value("crown") == "4.0 m"
    page.locator("[data-word=redo]").click()
    window.revised(first + 3)
    assert window.value("crown") == rise
    assert window.wrong == []


def test_every_move_is_shown_while_it_is_held_and_the_last_one_counts(window):
    first, page = window.know("revision.number"), window.page
    x, y = window.hold("crown")
    for step in range(1, 41):
        page.mouse.move(x, y + step)
    window.until(f"{NOW}.held && {NOW}.held.text")
    window.until(f"{NOW}.scene.seq === window.workbench.section.hand.seq")
    assert page.locator(".held-was").text_content() == "was 4.00 m"
    assert page.locator(".old-lines path").count() > 0
    assert "provisional" in page.locator("#where").inner_text()
    held = window.know("held.value")
    page.mouse.up()
    window.revised(first + 1)
    assert window.value("crown") == held

    # Another movement is given up: nothing comes of it.
    x, y = window.hold("crown")
    page.mouse.move(x, y + 30, steps=4)
    window.until(f"{NOW}.scene.seq")
    page.keyboard.press("Escape")
    page.mouse.up()
    window.until(f"!{NOW}.scene.seq && !{NOW}.held")
    assert window.know("revision.number") == first + 1
    assert window.value("crown") == held


def test_keys_move_a_handle_by_its_steps_and_make_one_revision(window):
    first, page = window.know("revision.number"), window.page
    page.locator('[data-handle="crown"]').focus()
    for key in ("ArrowDown", "ArrowDown", "Shift+ArrowDown", "PageUp"):
        page.keyboard.press(key)
        page.wait_for_timeout(60)
    window.revised(first + 1)
    # 4.00 − 0.05 − 0.05 − 0.01 and a page of 0.25, on the step of 0.05 next to it
    assert window.value("crown") == "4.15 m"
    assert window.know("revision.number") == first + 1
    assert page.evaluate("document.activeElement.dataset.handle") == "crown"


def test_a_typed_value_says_what_is_wrong_where_it_stands(window):
    first, page = window.know("revision.number"), window.page
    page.locator('[data-handle="crown"]').focus()
    page.keyboard.press("Enter")
    page.keyboard.type("99 m")
    page.keyboard.press("Enter")
    window.until("document.querySelector('.typed-says.is-wrong')")
    assert "8 m" in page.locator(".typed-says").inner_text()
    page.locator(".typed input").fill("9 ft 10 in")
    page.keyboard.press("Enter")
    window.revised(first + 1)
    assert page.locator(".typed").count() == 0
    assert page.evaluate(f"{NOW}.handles.list.find((one) => one.name === 'crown').text") == "3.00 m"
    assert page.locator("[data-notice=refusal]").count() == 0


LENGTHS = {
    "0.05 m": 0.05,
    "10 mm": 0.01,
    "1/2 in": 0.0127,
    "7 ft 10 1/2 in": 2.4003,
    "−1 ft 6 in": -0.4572,
    "-0.45 m": -0.45,
    "±0.00 m": 0.0,
}


def test_the_page_reads_lengths_and_slopes_as_builders_write_them(window):
    read = window.page.evaluate(
        """async (texts) => {
            const { metresOf, slopeOf } = await import("/static/script/drawing/values.js");
            return [texts.map(metresOf), slopeOf("1:2.5"), slopeOf("45 deg"), metresOf("a yard")];
        }""",
        list(LENGTHS),
    )
    assert read[0] == pytest.approx(list(LENGTHS.values()))
    assert read[1] == 2.5
    assert read[2] == pytest.approx(1.0)
    assert math.isnan(read[3])


def test_a_drag_is_painted_soon(window):
    window.checked()
    waits = window.page.evaluate(
        """async () => {
            const { wire, section, store } = window.workbench;
            const hand = section.hand;
            const crown = store.now.handles.list.find((one) => one.name === "crown");
            const painted = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
            hand.take(crown);
            const waits = [];
            for (let step = 1; step <= 24; step++) {
                const heard = new Promise((done) =>
                    wire.on("scene", (scene) => scene.seq === hand.seq && done()));
                const begun = performance.now();
                hand.move({ x: 0, z: crown.z - 0.05 * (step % 12 + 1) }, false);
                await heard;
                await painted();
                waits.push(performance.now() - begun);
            }
            hand.giveUp();
            return waits;
        }"""
    )
    middle = sorted(waits)[len(waits) // 2]
    # 100 ms is promised on a quiet machine, and measured there; a machine that tests on every core is slower.
    assert middle < 400, f"median {middle:.0f} ms of {[round(one) for one in waits]}"
