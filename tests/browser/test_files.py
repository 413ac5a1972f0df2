"""Nothing is lost: a kill, two windows, a file changed on disk, a line that breaks, a file that is kept."""

from __future__ import annotations

import os
import shutil

import pytest

NOW = "window.workbench.store.now"


@pytest.fixture
def window(served, opened):
    """A window whose house is as it was afterwards."""
    one = opened(served)
    yield one
    one.undone()


def test_a_change_made_while_the_line_is_down_is_sent_when_it_is_back(window):
    first, page = window.know("revision.number"), window.page
    # The line breaks, and cannot be joined again for a while.
    page.evaluate("window.workbench.wire.again = () => undefined")
    page.evaluate("window.workbench.wire.socket.close()")
    window.until(f"{NOW}.line === 'lost'")
    page.locator('[data-handle="crown"]').focus()
    page.keyboard.press("PageDown")
    window.until("window.workbench.wire.unsent().length === 1")
    assert "1 change is kept here" in page.locator("[data-notice=lost]").inner_text()
    page.evaluate("delete window.workbench.wire.again")
    page.locator("[data-notice=lost] button").click()
    window.revised(first + 1)
    window.until("window.workbench.wire.unsent().length === 0")
    assert window.value("crown") == "3.75 m"
    assert page.locator("[data-notice=lost]").count() == 0


def test_two_windows_see_each_other_and_overwrite_nothing(window, served, opened):
    first = window.know("revision.number")
    second = opened(served)
    window.drag("crown", 0, 40)
    window.revised(first + 1)
    second.revised(first + 1)
    rise = window.value("crown")
    assert second.value("crown") == rise

    # A window that has not heard of that revision changes the same value: it is told, nothing is overwritten.
    second.page.evaluate(
        """(base) => window.workbench.wire.send({
            say: "edit", changes: [["vault.0.rise", "3.9 m"]], label: "rise 3.90 m", base,
        })""",
        first,
    )
    second.until("document.querySelector('[data-notice=refusal]')")
    assert second.value("crown") == rise
    second.page.locator("[data-notice=refusal] button").first.click()
    window.revised(first + 2)
    assert window.value("crown") == "3.9 m"


def test_a_file_changed_by_another_program_is_not_overwritten(window, served):
    first, page = window.know("revision.number"), window.page
    before = served.file.read_text()
    window.drag("crown", 0, 40)
    window.revised(first + 1)
    text = before.replace("people = 4", "people = 5")
    served.file.write_text(text)
    os.utime(served.file, (2_000_000_000, 2_000_000_000))
    page.locator("[data-word=keep]").click()
    window.until("document.querySelector('[data-notice=changed]')")
    assert served.file.read_text() == text
    page.get_by_role("button", name="compare", exact=True).click()
    window.until("document.querySelector('.differs .is-theirs')")
    assert "people = 5" in page.locator(".differs").inner_text()
    page.get_by_role("button", name="close", exact=True).click()
    page.get_by_role("button", name="take what is there").click()
    window.revised(first + 2)
    assert window.value("crown") == "4.0 m"
    window.until("!document.querySelector('[data-notice=changed]')")
    assert served.file.read_text() == text


def test_the_file_is_written_by_hand_and_mistakes_are_marked_where_they_stand(window):
    first, page = window.know("revision.number"), window.page
    page.get_by_role("button", name="write the file by hand").click()
    area = page.locator("textarea.writing")
    area.wait_for()
    text = area.input_value()
    area.fill(text.replace('span = "5.0 m"', 'span = "50 m"'))
    page.get_by_role("button", name="take this text").click()
    window.until(f"{NOW}.revision.number > {first} && {NOW}.revision.mistakes.length")
    assert page.locator(".gutter .is-wrong").count() == 1
    assert "8 m" in page.locator(".writing-wrong").inner_text()
    assert page.locator("[data-notice=mistakes]").count() == 1
    area.fill(text.replace('span = "5.0 m"', 'span = "4.6 m"'))
    page.get_by_role("button", name="take this text").click()
    window.revised(first + 2)
    assert window.value("right foot") == "4.6 m"
    page.get_by_role("button", name="close", exact=True).click()


def test_a_kill_loses_nothing_and_what_is_kept_leaves_the_comments(house, tmp_path, opened, again):
    served = again(shutil.copy(house, tmp_path / "killed.toml"))
    window, before = opened(served), served.file.read_text()
    window.drag("crown", 0, 40)
    window.revised(1)
    rise = window.value("crown")
    served.kill()
    window.until(f"{NOW}.line === 'lost'")
    assert "line" in window.page.locator("[data-notice=lost]").inner_text()

    other = opened(again(served.file))
    assert other.value("crown") == rise
    assert other.page.locator("[data-notice=recovered]").count() == 1
    other.page.keyboard.press("Control+s")
    other.until(f"{NOW}.revision.kept")
    assert served.file.read_text() == before.replace('rise = "4.0 m"', f'rise = "{rise}"')
    other.page.locator("[data-word=undo]").click()
    other.until(f"{NOW}.handles.list.find((one) => one.name === 'crown').value === '4.0 m'")


def test_a_file_that_cannot_be_read_opens_at_its_first_mistake(house, tmp_path, opened, again):
    broken = tmp_path / "broken.toml"
    broken.write_text(house.read_text().replace('lift = "0.6 m"', 'lift = "6 m"'))
    window = opened(again(broken), drawn=False)
    page = window.page
    page.locator("textarea.writing").wait_for()
    assert "nothing can be drawn yet" in page.locator("#verdict-text").inner_text()
    window.until("document.querySelector('.gutter .is-wrong')")
    area = page.locator("textarea.writing")
    area.fill(house.read_text())
    page.get_by_role("button", name="take this text").click()
    window.drawn()
    assert page.locator("[data-notice=mistakes]").count() == 0
    assert window.wrong == []
