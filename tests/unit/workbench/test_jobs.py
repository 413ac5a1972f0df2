"""What takes longer: progress, an end, files to fetch, remedies put in as one edit."""

from __future__ import annotations

import threading

import pytest

from bermwright.adapt.mend.nouns import Change, Cost, Mended, Proposal, Target
from bermwright.workbench import tasks

RISE = ("vault", 0, "rise")


def test_a_job_tells_its_steps_and_gives_a_file(bench) -> None:
    with bench.window() as window:
        done = window.ask("job", "done", what="draw", options={"drawing": "section"})
        steps = [one["step"] for one in window.heard if one["say"] == "progress" and one["what"] == "draw"]
    assert done["name"] == "house-section.pdf"
    assert "drawing" in steps
    file = bench.client.get(done["url"])
    assert file.status_code == 200
    assert file.content.startswith(b"%PDF")
    assert bench.client.get(done["url"].replace("section", "other")).status_code == 404


def test_a_job_draws_what_is_in_hand_not_what_was_kept(bench, file, monkeypatch) -> None:
    seen = []

    def looked(house_file, _folder, _options, _told):
        with open(house_file, encoding="utf-8") as stream:  # noqa: PTH123  (a plain path of a worker)
            seen.append(stream.read())
        return {"name": None, "data": None}

    monkeypatch.setitem(tasks.JOBS, "count", looked)
    with bench.window() as window:
        window.ask("edit", "revision", changes=[["vault.0.rise", "1.5 m"]], label="rise")
        window.ask("job", "done", what="count")
    assert 'rise = "1.5 m"' in seen[0]
    assert 'rise = "1.4 m"' in file.read_text(encoding="utf-8")


def test_a_job_is_stopped_at_its_next_step(bench, monkeypatch) -> None:
    begun, go_on = threading.Event(), threading.Event()

    def slow(_house_file, _folder, _options, told):
        told("first step")
        begun.set()
        go_on.wait(10.0)
        told("second step")
        raise AssertionError

    monkeypatch.setitem(tasks.JOBS, "count", slow)
    with bench.window() as window:
        window.say("job", what="count", id="c")
        number = window.hear("progress", lambda one: one["what"] == "count")["job"]
        assert begun.wait(10.0)
        window.ask("look", "scene")  # nothing blocks meanwhile
        window.say("stop", job=number)
        window.ask("look", "scene")
        go_on.set()
        assert window.hear("stopped")["job"] == number


def test_a_job_that_cannot_be_done_says_why(bench) -> None:
    with bench.window() as window:
        window.say("job", what="draw", options={"drawing": "the moon"}, id="d")
        wrong = window.hear("wrong")
    assert (wrong["kind"], wrong["to"]) == ("refused", "d")
    assert "drawing must be one of" in wrong["text"]


@pytest.fixture
def failing(found):
    number = next(at for at, one in enumerate(found.findings))
    return number, found.findings[number]


def test_a_remedy_goes_in_as_one_edit_with_its_reason_beside_it(bench, failing, monkeypatch) -> None:
    number, finding = failing
    target = Target(rule=finding.rule, part=finding.part, vault="day room")
    change = Change(
        lever="rise", does="Raise the crown", says="1.5 m in place of 1.4 m", writes=((RISE, "1.5 m"),)
    )
    proposal = Proposal(
        target=target,
        changes=(change,),
        before=(finding,),
        after=(finding,),
        cost=Cost(money=None, currency="", hours=2.0, lifted=10.0),
        mends=(),
        worse=(),
        fails=0,
    )
    mended = Mended(target=target, before=(finding,), proposals=(proposal,), tried=(), pairs=0)
    monkeypatch.setattr(tasks, "mends", lambda *_given: mended)
    with bench.window() as window:
        mends = window.ask("mends", "mends", finding=number)
        row = mends["list"][0]
        assert row["text"] == "Raise the crown: 1.5 m in place of 1.4 m."
        assert row["changes"] == [["vault.0.rise", "1.5 m"]]
        revision = window.ask("remedy", "revision", finding=number, number=1, base=0)
        assert revision["undoes"] == "Raise the crown: 1.5 m in place of 1.4 m."
        assert f"mend: {finding.rule}" in bench.table.desk.text
        window.say("remedy", finding=number, number=1)  # found for the revision before
        assert "another revision" in window.hear("wrong")["text"]
        window.ask("undo", "revision")
    assert f"mend: {finding.rule}" not in bench.table.desk.text
