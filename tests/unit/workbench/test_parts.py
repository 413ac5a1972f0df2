"""Parts added, copied, renamed, removed and mirrored: each one undoable edit that keeps every comment."""

from __future__ import annotations

import tomllib

import pytest

from bermwright.base.errors import HouseFileError
from bermwright.formats.house_file import read
from bermwright.formats.house_file.parts import PartError, added, copied, removed, renamed


@pytest.fixture
def text(file):
    return file.read_text(encoding="utf-8")


def comments(text: str) -> int:
    return sum("#" in line for line in text.splitlines())


def test_a_part_acts_through_a_window_and_is_undone(bench, text) -> None:
    with bench.window() as window:
        listed = window.ask("parts", "parts")["list"]
        assert {"vault.0", "opening.3", "vault.0.cover.2", "site"} <= {one["at"] for one in listed}
        span = next(one for one in listed if one["at"] == "vault.0")["fields"][2]
        assert (span["key"], span["value"], span["low"], span["high"]) == (
            "vault.0.span", "4.2 m", "0.8 m", "8 m",
        )  # fmt: skip
        revision = window.ask(
            "part", "revision", act="copy", kind="opening", number=2, new_name="third window"
        )
        assert revision["number"] == 1
        assert window.hear("parts")["revision"] == 1
        assert len(bench.table.desk.opened.house.openings) == 5
        window.ask("edit", "revision", changes=[["vault.0.mound.left", "1:3"]], label="flatter")
        window.ask("part", "revision", act="mirror", kind="vault", number=0)
        mound = tomllib.loads(bench.table.desk.text)["vault"][0]["mound"]
        assert (mound["left"], mound["right"]) == ("1:2.5", "1:3")
        for _ in range(3):
            window.ask("undo", "revision")
    assert bench.table.desk.text == text


def test_a_copy_stands_beside_the_first_with_its_comments(text) -> None:
    new = copied(text, ("opening", 2), "second back window")
    openings = tomllib.loads(new)["opening"]
    assert [one["name"] for one in openings][2:4] == ["back window", "second back window"]
    assert comments(new) == comments(text) + 1
    assert len(read(new, "").house.openings) == 5


def test_a_vault_is_renamed_wherever_it_is_called(text) -> None:
    new = renamed(text, ("vault", 0), "big room")
    assert '"day room"' not in new
    assert read(new, "").house.vaults[0].name == "big room"
    assert comments(new) == comments(text)


def test_what_belongs_to_a_vault_goes_with_it(text) -> None:
    two = copied(text, ("vault", 0), "second")
    assert read(removed(two, ("vault", 1)), "").house == read(text, "").house
    gone = removed(two, ("vault", 0))
    house = read(gone, "").house
    assert [vault.name for vault in house.vaults] == ["second"]
    assert house.openings == ()


def test_the_last_vault_stays(text) -> None:
    with pytest.raises(HouseFileError, match="vault"):
        read(removed(text, ("vault", 0)), "")


def test_a_new_part_says_what_is_only_an_example(text) -> None:
    new = added(text, ("opening",), "side door", {"width": "0.8 m"})
    door = tomllib.loads(new)["opening"][4]
    assert (door["name"], door["width"], door["vault"]) == ("side door", "0.8 m", "day room")
    assert "write your own" in new
    read(new, "")


def test_a_layer_goes_on_top_of_the_others(text) -> None:
    new = added(text, ("vault", 0, "cover"), "", {"kind": "fleece", "thickness": "4 mm"})
    layers = read(new, "").house.vaults[0].cover
    assert [str(one.kind) for one in layers][-1] == "fleece"
    fewer = removed(new, ("vault", 0, "cover", 3))
    assert tomllib.loads(fewer) == tomllib.loads(text)


@pytest.mark.parametrize("place", [("opening", 12), ("nothing", 0), ("vault", 0, "cover", 9)])
def test_a_part_that_is_not_there_is_named(text, place) -> None:
    with pytest.raises(PartError):
        copied(text, place, None)


def test_line_ends_of_another_system_stay(text) -> None:
    new = copied(text.replace("\n", "\r\n"), ("opening", 2), "twin")
    assert new.count("\n") == new.count("\r\n")
    assert tomllib.loads(new)["opening"][3]["name"] == "twin"


def test_parts_are_places_of_the_section_and_of_every_view(bench) -> None:
    with bench.window() as window:
        scene = window.heard[-1]
        parts = {one["at"] for one in window.ask("parts", "parts")["list"]}
        window.say("drag", seq=1, key="vault.0.rise", value="1.45 m")
        assert window.hear("scene", lambda one: one["seq"] == 1)["places"] == []
    by = {one["at"]: one for one in scene["places"]}
    assert {
        "vault.0",
        "vault.0.mound",
        "vault.0.cover.2",
        "wall.0",
        "footing.0",
        "end.1",
        "opening.2",
    } <= by.keys()
    assert by.keys() <= parts
    assert "opening.0" not in by  # the front door is behind whoever looks at the section
    window_ = by["opening.2"]["ring"]
    assert max(x for x, _ in window_) - min(x for x, _ in window_) == pytest.approx(0.9)
    for drawing, wanted in (("floor", {"wall.0", "end.0", "opening.0"}), ("front", {"end.0", "opening.0"})):
        plan = bench.client.get("/plan", params={"drawing": drawing, "vault": "0", "large": "yes"}).json()
        places = {one["at"] for one in plan["places"]}
        assert wanted <= places <= parts
    assert "end.1" not in places


def test_ballast_is_added_dragged_drawn_and_taken_away(bench, file) -> None:
    with bench.window() as window:
        adds = window.ask("parts", "parts")["can_add"]
        assert {"kind": "stages.ballast", "label": "ballast on the crown"} in adds
        window.ask("part", "revision", act="add", kind="stages.ballast", label="ballast")
        handles = window.hear("handles")["list"]
        bags = {one["name"]: one for one in handles if one["key"].startswith("stages.ballast.")}
        assert bags.keys() == {"ballast", "ballast width"}
        weight = bags["ballast"]
        assert (weight["value"], weight["text"], weight["unit"]) == ("3 kN/m2", "3.00 kPa", "pressure")
        assert weight["reach"]["snap"] == pytest.approx(250.0 / weight["per"])
        assert window.ask("look", "scene", stage="fill to +2.25")["stage"] == "fill to +2.25"
        place = {"x": weight["x"], "z": weight["z"] + weight["reach"]["page"]}
        window.say("drag", seq=1, key="stages.ballast.weight", handle="ballast", **place)
        scene = window.hear("scene", lambda one: one["seq"] == 1)
        assert (scene["dragged"]["value"], scene["dragged"]["was"]) == ("4 kN/m2", "3 kN/m2")
        assert "ballast 4.00 kPa" in scene["svg"]
        listed = window.ask("parts", "parts")
        assert "stages.ballast" not in {one["kind"] for one in listed["can_add"]}
        (part,) = [one for one in listed["list"] if one["at"] == "stages.ballast"]
        assert (part["removes"], part["copies"]) == (True, False)
        window.ask("part", "revision", act="remove", kind="stages.ballast", label="away")
    assert bench.table.desk.text == file.read_text(encoding="utf-8")


@pytest.mark.parametrize("where", [("stages", "ballast"), ("stages", "prop")])
def test_a_table_is_added_where_its_holder_is_not_written(where) -> None:
    kind = ".".join(where)
    text = added('format = 1\n\n[house]\nname = "Bare"\n', where, "", {})
    table = tomllib.loads(text)["stages"][where[1]]
    assert (table[0] if isinstance(table, list) else table)["from"]
    if kind == "stages.ballast":
        with pytest.raises(PartError, match="already"):
            added(text, where, "", {})
