"""Pointing at parts, the ground of a week, and a drawing that follows the hand by changing itself."""

from __future__ import annotations

SAME = """() => import('/static/script/core/sheet.js').then(({ readDrawing }) => {
  const { lines, svg, head } = window.workbench.section.board.drawing;
  const whole = readDrawing([head, ...lines, '</svg>'].join('\\n'));
  return whole.children.length === svg.children.length
    && [...whole.children].every((one, at) => one.isEqualNode(svg.children[at]));
})"""


def test_a_drawing_that_follows_the_hand_is_the_one_that_was_sent(served, opened) -> None:
    window = opened(served)
    window.page.evaluate("window.first = window.workbench.section.board.drawing.svg")
    window.drag("crown", 0, -8, steps=4)  # so little that the frame of the drawing stays
    window.revised(1)
    assert window.page.evaluate("window.first === window.workbench.section.board.drawing.svg")
    assert window.page.evaluate(SAME)
    window.undone()
    assert window.page.evaluate(SAME)


def test_a_part_is_pointed_at_and_the_ground_of_a_week_is_drawn(served, opened) -> None:
    window = opened(served)
    page = window.page
    window.checked()  # nothing moves any more
    box = window.box('#section [data-place="vault.0.mound"]')
    page.mouse.click(box["x"] + 0.3 * box["width"], box["y"] + 0.8 * box["height"])
    window.until("document.querySelector('.part-head')")
    assert page.locator("#section .place.is-chosen").count() >= 1
    assert "mound" in page.locator(".part-head h3").inner_text()
    page.locator('[data-axis="year"]').focus()
    page.keyboard.press("Home")
    window.until("document.querySelector('#section .laid').textContent.includes('open ground')")
    page.locator("#where >> text=without").click()
    window.until("!document.querySelector('#section .laid').textContent.includes('open ground')")
    assert not window.wrong
