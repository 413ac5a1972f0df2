"""The quick run against the full one, handles and their steps, frames that hold still."""

from __future__ import annotations

import pickle
from pathlib import Path

import numpy as np
import pytest

from bermwright.app.live.full import full_run
from bermwright.app.live.handles import grips_of, moved
from bermwright.app.live.kernel import Wanted, shown_case
from bermwright.app.live.nouns import Look
from bermwright.app.live.scene import Easel, draw, wanted_of
from bermwright.app.live.steps import snap_of, snapped, written
from bermwright.base.errors import HouseFileError
from bermwright.base.units import parse_exact
from bermwright.form import vault_form
from bermwright.formats.house_file import load
from bermwright.formats.house_file.reading import Trials, parsed, read, tried

EXAMPLES = Path(__file__).resolve().parents[4] / "examples"
LARCH_BANK = EXAMPLES / "larch-bank.toml"


@pytest.fixture(scope="module")
def opened():
    return load(LARCH_BANK)


@pytest.fixture(scope="module")
def found(opened):
    return full_run(opened.house, opened.not_read)[1]


@pytest.fixture(scope="module")
def form(opened):
    return vault_form(opened.house, opened.house.vaults[0])


def cases(found):
    """Some cases of every phase."""
    stages = found.vaults["day room"]
    return [(stage, case) for stage in stages[::3] for case in stage.cases[::2]]


def test_the_quick_run_gives_what_the_full_run_gave(opened, found, form) -> None:
    house, vault = opened.house, opened.house.vaults[0]
    for stage, case in cases(found):
        wanted = wanted_of(found, vault, Look(stage=stage.name, case=case.name))
        shown = shown_case(house, vault, form, wanted)
        assert (shown.stage.name, shown.case.name) == (stage.name, case.name)
        assert shown.ratio == pytest.approx(case.corners.ratio, rel=1e-9), (stage.name, case.name)


def test_without_a_full_run_some_corners_are_looked_at(opened, form) -> None:
    shown = shown_case(opened.house, opened.house.vaults[0], form, Wanted())
    assert shown.stage.name == "long term"
    assert shown.ratio is not None
    assert 1 < len(shown.analysis.lanes) <= 12


def test_a_stage_whose_level_has_moved_is_found_by_its_place(opened, found) -> None:
    house = tried(parsed(opened.document, ""), {("vault", 0, "rise"): "1.8 m"}, "")
    vault = house.vaults[0]
    top = [stage for stage in found.vaults["day room"] if stage.kind == "fill"][-1]
    wanted = wanted_of(found, vault, Look(stage=top.name))
    shown = shown_case(house, vault, vault_form(house, vault), wanted)
    assert shown.stage.kind.value == "fill"
    assert shown.stage.name != top.name


def test_a_scene_says_draws_and_weighs(opened, found) -> None:
    drawn = draw(opened.house, Look(stage="turf"), found, Easel())
    assert drawn.svg.count("<path") > 40
    assert " style=" not in drawn.svg
    assert {one.verdict for one in drawn.sentences} == {"holds"}
    assert all(len(one.text.split()) <= 24 for one in drawn.sentences)
    assert all(low <= high for foot in drawn.feet for low, high in (foot.down, foot.across))


def test_a_house_of_which_little_is_known_is_drawn_and_says_so() -> None:
    text = LARCH_BANK.read_text(encoding="utf-8")
    start, end = text.index("[vault.feet]"), text.index("[[vault.cover]]")
    drawn = draw(read(text[:start] + text[end:], "").house, Look(), None, Easel())
    assert drawn.frame is not None
    assert drawn.sentences[0].verdict == "unknown"
    assert drawn.ratio is None
    bare = draw(read(text.replace('rise = "1.4 m"', 'rise = "5.9 m"'), "").house, Look(), None, Easel())
    assert (bare.svg, bare.frame) == ("", None)
    assert "limited to" in bare.sentences[0].text


def test_a_curve_that_is_led_on_is_the_curve(opened) -> None:
    document, near = parsed(opened.document, ""), vault_form(opened.house, opened.house.vaults[0]).cover_curve
    for rise in (1.45, 1.5, 1.6):
        house = tried(document, {("vault", 0, "rise"): f"{rise} m"}, "")
        quick = vault_form(house, house.vaults[0], near=near)
        exact = vault_form(house, house.vaults[0])
        near = quick.cover_curve
        off = np.hypot(
            quick.rib.centreline.x - exact.rib.centreline.x, quick.rib.centreline.z - exact.rib.centreline.z
        )
        assert off.max() < 2e-4  # a fifth of a millimetre


def test_the_frame_holds_while_a_hand_drags_and_moves_when_it_must(opened, found) -> None:
    easel, look = Easel(), Look()
    first = draw(opened.house, look, found, easel).frame
    document = parsed(opened.document, "")
    taller = tried(document, {("vault", 0, "rise"): "1.5 m"}, "")
    assert draw(taller, look, found, easel, hold=True).frame == first
    assert draw(taller, look, found, easel).frame == first
    wider = tried(document, {("vault", 0, "span"): "6.5 m", ("vault", 0, "rise"): "2.1 m"}, "")
    assert draw(wider, look, found, easel, hold=True).frame == first
    assert draw(wider, look, found, easel).frame != first


def test_a_low_window_gets_a_low_drawing(opened, found) -> None:
    frame = draw(opened.house, Look(height=320), found, Easel()).frame
    assert frame.size[1] / 0.27 <= 321
    phone = draw(opened.house, Look(width=390), found, Easel()).frame
    assert phone.scale >= 43.0


def test_what_a_full_run_leaves_travels_between_processes(found) -> None:
    again = pickle.loads(pickle.dumps(found))  # noqa: S301  (made one line above)
    assert again == found
    assert len(pickle.dumps(found)) < 1_000_000


def test_every_handle_moves_its_own_value(opened, form) -> None:
    document = parsed(opened.document, "")
    for grip in grips_of(opened.house, 0, form):
        at = (grip.x + 0.3 * grip.along[0], grip.z + 0.3 * grip.along[1])
        for system in ("metric", "imperial"):
            change = moved(grip, form, at, system=system)
            house = tried(document, {change.key: change.value}, "")
            again = grips_of(house, 0, vault_form(house, house.vaults[0]))
            now = next(one for one in again if one.name == grip.name).now
            assert now != pytest.approx(grip.now), grip.name
            wanted = grip.value_at(*at, natural=float(form.ground.natural.level(at[0])))
            assert now == pytest.approx(wanted, abs=0.12), grip.name


@pytest.mark.parametrize("dimension", ["length", "thickness", "slope", "level"])
@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_a_snapped_value_is_written_so_that_it_is_read_alike(dimension, system) -> None:
    snap = snap_of(dimension, system)
    for fine in (False, True):
        for raw in (0.1234, 0.391, 0.77):
            value = snapped(raw, snap, fine=fine, low=0.0, high=1.0)
            assert parse_exact(written(value, dimension, system), dimension) == pytest.approx(value, abs=6e-4)


def test_limits_hold_even_between_steps() -> None:
    snap = snap_of("length", "metric")
    assert snapped(9.0, snap, fine=False, low=0.2, high=1.22) == pytest.approx(1.2)
    assert snapped(9.0, snap, fine=False, low=0.2, high=1.24) == 1.24
    assert snapped(-1.0, snap, fine=False, low=0.22, high=1.0) == 0.22


def test_what_is_tried_is_what_is_read(opened) -> None:
    document = parsed(opened.document, "")
    changed = tried(
        document, {("vault", 0, "mound", "crown"): "0.5 m", ("vault", 0, "mound", "turf"): None}, ""
    )
    assert changed.vaults[0].mound.crown == pytest.approx(0.5)
    assert changed.vaults[0].mound.turf is None
    assert opened.house == tried(document, {}, "")
    trials = Trials(document)
    for value in ("0.5 m", "0.35 m", "0.6 m"):
        change = {("vault", 0, "mound", "crown"): value}
        assert trials.house(change) == tried(document, change, "")
    kept = len(trials.known)
    with pytest.raises(HouseFileError, match="crown"):
        trials.house({("vault", 0, "mound", "crown"): "9 m"})
    assert len(trials.known) == kept
    with pytest.raises(HouseFileError, match="rise"):
        tried(document, {("vault", 0, "rise"): "high"}, "")
