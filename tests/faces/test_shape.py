"""`shape` and `book --with shape`: what they print, in words, as data and on paper, and how they end."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from bermwright.app import shaping
from bermwright.base.document import Para
from bermwright.book.pages.shape.advice import shape_pages

EXAMPLES = Path(__file__).resolve().parent.parent.parent / "examples"
KETTLE = EXAMPLES / "kettle-hill.toml"


@pytest.fixture(scope="module")
def advices():
    """The advice on the failing example, once."""
    return shaping.advices_of(shaping.open_house(KETTLE).house)


@pytest.fixture
def once(monkeypatch, advices):
    """Lets the commands take the advice that is there already."""
    monkeypatch.setattr(shaping, "advices_of", lambda *_args, **_named: advices)


@pytest.mark.slow
def test_the_failing_example_gets_a_curve_that_holds(once, run):
    del once
    code, out, err = run("shape", KETTLE)
    flat = " ".join(out.split())
    assert (code, err) == (0, "")
    assert 'Take the curve "under cover", 1.13 m high on walls of 1.50 m' in flat
    assert "times as much" in flat
    assert 'curve = "under cover"' in out
    assert "Order of work for curve A" in out
    assert out.rstrip().endswith("It does not replace a licensed engineer or local rules.")


def test_a_curve_that_cannot_be_looked_at_in_full_is_named_and_the_rest_compared(advices, run, monkeypatch):
    (advice,) = advices
    why = "parabola from the floor: its ribs have 73 joints"
    told = replace(advice, comparison=replace(advice.comparison, left_out=(why,)))
    monkeypatch.setattr(shaping, "advices_of", lambda *_args, **_named: (told,))
    assert f"Not compared: {why}" in " ".join(run("shape", KETTLE)[1].split())
    assert json.loads(run("shape", KETTLE, "--json")[1])["vaults"][0]["not_compared"] == [why]
    pages = shape_pages(told)
    assert any(isinstance(one, Para) and one.text.startswith("Not compared: parabola") for one in pages)


def test_the_tall_catenary_stands_beside_the_better_curves(advices):
    (advice,) = advices
    own = advice.comparison.own
    assert own.envelope.bending / advice.chosen.envelope.bending > 20.0
    walls = [one for one in advice.comparison.others if str(one.stand) == "on walls"]
    assert all(one.envelope.bending < 0.4 * own.envelope.bending for one in walls)


def test_json_and_imperial(once, run):
    del once
    code, out, _ = run("shape", KETTLE, "--json")
    data = json.loads(out, parse_constant=pytest.fail)
    assert code == 0
    assert data["mark"] == "calculation aid, not reviewed"
    assert [one["letter"] for one in data["vaults"][0]["curves"]][:2] == ["A", "B"]
    feet = run("shape", KETTLE, "--units", "imperial")[1]
    assert "lb ft/ft" in feet
    assert "kNm" not in feet


def test_the_pages_are_written_and_the_same_twice(once, run, tmp_path):
    del once
    one, two = tmp_path / "one.pdf", tmp_path / "two.pdf"
    for path in (one, two):
        assert run("shape", KETTLE, "--out", path, "--date", "2026-11-25")[0] == 0
    assert one.read_bytes() == two.read_bytes()
    assert one.read_bytes().startswith(b"%PDF")


def test_the_book_holds_the_pages_only_when_asked(once, run, tmp_path, monkeypatch):
    del once
    from bermwright.app import booking
    from bermwright.formats.documents import text

    seen = []
    monkeypatch.setattr(booking, "pdf", lambda document, **_: seen.append(text(document)) or b"%PDF")
    monkeypatch.setattr(
        booking, "assess_file", lambda path, progress: booking_assessed(path, progress=progress)
    )
    for words in ((), ("--with", "shape")):
        assert run("book", KETTLE, "--out", tmp_path / "b.pdf", "--no-templates", *words)[0] == 0
    plain, with_shape = seen
    assert "The curve of great room" not in plain
    assert "The curve of great room" in with_shape
    assert "Every curve at its best" in with_shape


ASSESSED = {}


def booking_assessed(path, progress):
    """The assessment of a file without stop marks, once."""
    from bermwright.app.assessing import assess_file

    if path not in ASSESSED:
        ASSESSED[path] = assess_file(path, stop_marks=False, progress=progress)
    return ASSESSED[path]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--vault", "grate room"), 'no vault "grate room"; it has: great room. Did you mean "great room"?'),
        (("--out", "advice.txt"), "must end in .pdf"),
    ],
)
def test_what_cannot_be_done_says_what_to_do(run, words, says):
    code, out, err = run("shape", KETTLE, *words)
    assert (code, out) == (2, "")
    assert says in err


def test_a_headroom_that_cannot_fit_is_bad_input(run, tmp_path):
    text = (EXAMPLES / "larch-bank.toml").read_text(encoding="utf-8")
    low = tmp_path / "low.toml"
    low.write_text(text + '\n[rules]\nheadroom = "2.6 m"\n', encoding="utf-8")
    code, _, err = run("shape", low)
    assert code == 2
    assert "less than the headroom of 2.60 m" in err
    assert "raise [vault] springing or rise" in err


def test_a_file_that_says_too_little_is_bad_input(run, tmp_path):
    text = KETTLE.read_text(encoding="utf-8")
    bare = tmp_path / "bare.toml"
    bare.write_text(text.replace('hold = "pinned"', ""), encoding="utf-8")
    code, _, err = run("shape", bare)
    assert code == 2
    assert "vault.feet.hold" in err
