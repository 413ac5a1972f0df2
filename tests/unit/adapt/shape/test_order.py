"""The order of work: the cheapest that holds, of several levers where one is too little."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from bermwright.adapt.shape.envelope import Ribs, ribs_of
from bermwright.adapt.shape.order import Site, merged, order_of_work
from bermwright.adapt.shape.works import Bags, Effort, Works, effort, steps_of, written
from bermwright.base.findings import Shown
from bermwright.formats.house_file import read
from bermwright.house import CurveKind, Tamping

if TYPE_CHECKING:
    from bermwright.house import House

BAGS = Bags(weight=3e3, width=1.4, start=1.5, until=2.5)
EVERYTHING = Works(
    gentle=True, lead=0.05, lift=0.2, crown_soil=0.15, crown_width=1.7, bags=BAGS, props="haunches"
)


def standing(house: House, **changed: Any) -> Ribs:
    vault = replace(
        house.vaults[0], **{"curve": CurveKind.SEGMENT, "springing": 1.5, "chain": None, **changed}
    )
    return ribs_of(house, vault)


@pytest.fixture(scope="module")
def tight(kettle_hill: House) -> Ribs:
    """A vault whose nails a little too much is asked of while it is filled."""
    return standing(kettle_hill, rise=1.66)


def test_nothing_is_asked_where_everything_holds(kettle_hill: House) -> None:
    order = order_of_work(standing(kettle_hill, rise=1.5))
    assert order.before.holds
    assert not order.needed
    assert order.writes == {}
    assert order.chosen.effort == Effort(hours=0.0, lifted=0.0)


def test_the_cheapest_that_holds_is_taken(tight: Ribs) -> None:
    order = order_of_work(tight)
    assert not order.before.holds
    assert order.chosen.holds
    assert order.needed
    site = Site(ribs=tight, fill=100.0)
    again = site.tried(order.chosen.works, quick=False)
    assert again.used == pytest.approx(order.chosen.used)
    for lever in order.levers:
        # Whatever one lever does alone for less work does not hold.
        if lever.effort.rank < order.chosen.effort.rank:
            assert not site.tried(lever.works, quick=False).holds


def test_what_is_written_is_what_was_solved(tight: Ribs) -> None:
    order = order_of_work(tight)
    assert order.writes
    assert all(place.startswith("stages.") for place in order.writes)


def test_levers_are_combined(kettle_hill: House) -> None:
    order = order_of_work(standing(kettle_hill, rise=1.9))
    assert not order.before.holds
    assert len(order.chosen.works.named) > 1
    assert order.chosen.used < order.before.used


def test_where_nothing_holds_the_one_that_goes_furthest_is_named(kettle_hill: House) -> None:
    order = order_of_work(standing(kettle_hill, rise=2.4))
    assert not order.chosen.holds
    assert order.chosen.used <= order.before.used


def test_a_plate_beside_the_ribs_is_the_first_thing_to_go(kettle_hill: House) -> None:
    stages = replace(kettle_hill.stages, compaction=Tamping.PLATE, compactor_distance=0.1)
    ribs = standing(replace(kettle_hill, stages=stages), rise=1.62)
    order = order_of_work(ribs)
    assert order.before.bending > 1.3 * order.chosen.bending
    assert order.chosen.works == Works(gentle=True)
    assert order.writes == {"stages.compactor_distance": "0.6 m", "stages.wet_fill": "no"}


def test_works_change_only_what_they_name(kettle_hill: House, tight: Ribs) -> None:
    like = kettle_hill.stages
    assert Works().stages(like, tight.form) == like
    changed = EVERYTHING.stages(like, tight.form)
    assert (changed.lead, changed.lift, changed.crown_first) == (0.05, 0.2, 0.15)
    assert changed.ballast is not None
    assert changed.ballast.weight == BAGS.weight
    assert [prop.level for prop in changed.props] == [pytest.approx(1.5 + 0.6 * 1.66, abs=1e-3)]
    assert changed.start == like.start


def test_works_together_are_all_of_them() -> None:
    parts = [Works(gentle=True), Works(lead=0.05), Works(crown_soil=0.1, crown_width=1.0), Works(bags=BAGS)]
    together = merged(parts)
    assert together == Works(gentle=True, lead=0.05, crown_soil=0.1, crown_width=1.0, bags=BAGS)
    assert merged([]) == Works()


def test_effort_is_weight_and_hours(kettle_hill: House, tight: Ribs) -> None:
    cost = effort(Works(bags=BAGS), like=kettle_hill.stages, form=tight.form, fill=100.0, unit_weight=19e3)
    mass = 3e3 * 1.4 * tight.form.length / 9.80665
    assert cost.lifted == pytest.approx(mass, rel=1e-3)
    assert cost.hours == pytest.approx(2 * 1.9 * mass * 9.80665 / 19e3, rel=1e-3)
    thin = effort(Works(lift=0.2), like=kettle_hill.stages, form=tight.form, fill=100.0, unit_weight=19e3)
    assert thin.hours == pytest.approx(100.0 * 3.5 * 0.3)
    posts = effort(
        Works(props="haunches"), like=kettle_hill.stages, form=tight.form, fill=1.0, unit_weight=19e3
    )
    assert posts.hours == 2 * 8 * 0.5
    free = effort(
        Works(gentle=True, lead=0.05), like=kettle_hill.stages, form=tight.form, fill=1.0, unit_weight=1e4
    )
    assert free.rank == (0.0, 0.0)


def test_every_work_is_a_sentence_and_a_line(kettle_hill: House, tight: Ribs) -> None:
    says = [
        text.format_map({k: v.text() if isinstance(v, Shown) else v for k, v in values.items()})
        for text, values in steps_of(EVERYTHING, tight.form)
    ]
    assert len(says) == len(EVERYTHING.named) == 6
    assert not any("{" in line for line in says)
    assert "Lay 0.15 m of soil on the middle 1.7 m of the crown before any fill at the sides." in says
    lines = written(EVERYTHING, kettle_hill.stages, tight.form)
    assert lines["stages.ballast.from"] == "1.5 m"
    assert lines["stages.prop.section"] == "100 x 100 mm"
    assert "stages.compaction" not in lines


def test_the_lines_are_read_back_as_what_was_tried(tight: Ribs, repository: Any) -> None:
    text = (repository / "examples" / "kettle-hill.toml").read_text(encoding="utf-8")
    lines = written(EVERYTHING, tight.house.stages, tight.form)
    plain = {place.removeprefix("stages."): value for place, value in lines.items()}
    own = [f'{k} = "{v}"' for k, v in plain.items() if "." not in k and k not in {"lift", "lead"}]
    own = [line for line in own if not line.startswith(("compaction", "wet_fill"))]
    tables = []
    for name, head in (("ballast", "[stages.ballast]"), ("prop", "[[stages.prop]]")):
        inside = [f'{k.split(".")[1]} = "{v}"' for k, v in plain.items() if k.startswith(f"{name}.")]
        tables += [head, *inside]
    text = text.replace('lift = "0.5 m"', 'lift = "0.2 m"').replace('lead = "0.25 m"', 'lead = "0.05 m"')
    head, tail = text.split("[crew]")
    house = read("\n".join([head, *own, *tables, "[crew]" + tail]), "kettle").house
    wanted = EVERYTHING.stages(tight.house.stages, tight.form)
    assert house.stages == replace(wanted, compaction=house.stages.compaction)
    assert math.isclose(house.stages.permitted_lead, 0.05)
