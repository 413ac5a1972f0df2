"""Nothing is lost: a kill, two windows, a file changed on disk, a line that breaks, mistakes in the file."""

from __future__ import annotations

import os

NOW = "window.workbench.store.now"


def _free(handle: str) -> str:
    return f"{NOW}.handles.list.find((one) => one.name === '{handle}').value"


def test_a_kill_loses_nothing_that_was_shown(served, opened, again):
    window = opened(served.address)
    window.drag("crown", 0, 40)
    window.revised(1)
    rise = window.page.evaluate(_free("crown"))
    served.kill()
    window.until(f"{NOW}.line === 'lost'")
    assert "line" in window.page.locator("[data-notice=lost]").inner_text()

    other = opened(again(served.file).address)
    assert other.page.evaluate(_free("crown")) == rise
    assert other.page.locator("[data-notice=recovered]").count() == 1
    other.page.locator("[data-word=undo]").click()
    other.until(f"{_free('crown')} === '4.0 m'")


def test_a_change_made_while_the_line_is_down_is_sent_when_it_is_back(served, opened):
    window = opened(served.address)
    window.page.evaluate("window.workbench.wire.socket.close()")
    window.page.evaluate("clearTimeout(window.workbench.wire.timer)")
    window.until(f"{NOW}.line === 'lost'")
    window.page.evaluate("clearTimeout(window.workbench.wire.timer)")
    window.page.locator('[data-handle="crown"]').focus()
    window.page.keyboard.press("PageDown")
    window.until("window.workbench.wire.unsent().length === 1")
    assert "1 change is kept here" in window.page.locator("[data-notice=lost]").inner_text()
    window.page.locator("[data-notice=lost] button").click()
    window.revised(1)
    window.until("window.workbench.wire.unsent().length === 0")
    assert window.page.evaluate(_free("crown")) == "3.75 m"
    assert window.page.locator("[data-notice=lost]").count() == 0


def test_two_windows_see_each_other_and_overwrite_nothing(served, opened):
    first = opened(served.address)
    second = opened(first.page.url, room=first.page.context)
    first.drag("crown", 0, 40)
    first.revised(1)
    second.revised(1)
    rise = first.page.evaluate(_free("crown"))
    assert second.page.evaluate(_free("crown")) == rise

    # A window that has not heard of revision 1 changes the same value: it is told, nothing is overwritten.
    second.page.evaluate(
        "window.workbench.wire.send({ say: 'edit', changes: [['vault.0.rise', '3.9 m']], label: 'rise 3.90 m', base: 0 })"
    )
    second.until("document.querySelector('[data-notice=refusal]')")
    assert second.page.evaluate(_free("crown")) == rise
    second.page.locator("[data-notice=refusal] button").first.click()
    first.revised(2)
    first.until(f"{_free('crown')} === '3.9 m'")


def test_a_file_changed_by_another_program_is_not_overwritten(served, opened):
    window = opened(served.address)
    window.drag("crown", 0, 40)
    window.revised(1)
    text = served.file.read_text().replace("people = 4", "people = 5")
    served.file.write_text(text)
    os.utime(served.file, (2_000_000_000, 2_000_000_000))
    window.page.locator("[data-word=keep]").click()
    window.until("document.querySelector('[data-notice=changed]')")
    assert served.file.read_text() == text
    window.page.get_by_role("button", name="take what is there").click()
    window.until(f"{_free('crown')} === '4.0 m'")
    window.until("!document.querySelector('[data-notice=changed]')")
    assert served.file.read_text() == text


def test_keeping_writes_the_file_and_leaves_its_comments(served, opened):
    window = opened(served.address)
    before = served.file.read_text()
    window.drag("crown", 0, 40)
    window.revised(1)
    rise = window.page.evaluate(_free("crown"))
    window.page.keyboard.press("Control+s")
    window.until(f"{NOW}.revision.kept")
    assert served.file.read_text() == before.replace('rise = "4.0 m"', f'rise = "{rise}"')
