"""What windows say and hear: looking, dragging, editing, two of them at one file."""

from __future__ import annotations

import re

import pytest

from bermwright.app.showing.ground import WeekInGround
from bermwright.workbench import tasks

RISE = "vault.0.rise"


def test_a_window_that_comes_gets_everything(bench) -> None:
    with bench.window() as window:
        kinds = {message["say"] for message in window.heard}
        scene = window.heard[-1]
    assert kinds >= {"revision", "handles", "scene", "found", "axes"}
    assert scene["revision"] == 0
    assert scene["stale_from"] is None
    assert scene["svg"].startswith("<svg")
    assert {foot["side"] for foot in scene["feet"]} == {"left", "right"}
    axes = next(message for message in window.heard if message["say"] == "axes")
    assert [step["stage"] for step in axes["building"]][-1] == "long term"
    assert sum(step["worst"] for step in axes["building"]) == 1
    assert len(axes["storm"]) > 1


def test_every_handle_has_its_range_steps_and_text(bench) -> None:
    with bench.window() as window:
        handles = next(one for one in window.heard if one["say"] == "handles")["list"]
    names = {one["name"] for one in handles}
    assert {
        "crown",
        "left foot",
        "right foot",
        "crown cover",
        "left slope",
        "right slope",
        "layer 3",
    } <= names
    for one in handles:
        assert all(one[key] for key in ("key", "label", "text", "snap", "fine", "page", "low", "high")), one
    crown = next(one for one in handles if one["name"] == "crown")
    assert (crown["value"], crown["text"], crown["free"], crown["per"]) == ("1.4 m", "1.40 m", "up", 1.0)


def test_a_drag_is_answered_with_what_the_place_means(bench) -> None:
    with bench.window() as window:
        scene = window.heard[-1]
        crown = next(one for one in scene["handles"] if one["name"] == "crown")
        window.say("drag", seq=7, key=RISE, handle="crown", x=crown["x"], z=crown["z"] + 0.211, id="d")
        dragged = window.hear("scene")
    assert (dragged["seq"], dragged["to"], dragged["provisional"]) == (7, "d", True)
    assert dragged["dragged"] == {"key": RISE, "value": "1.6 m", "text": "1.60 m", "was": "1.4 m", "says": ""}
    assert dragged["view"] == scene["view"]  # nothing jumps under the hand
    assert dragged["svg"] != scene["svg"]
    assert dragged["revision"] == 0  # a drag alone changes nothing


@pytest.mark.parametrize(
    ("value", "says"),
    [("3", "has no unit"), ("30 m", "must lie from"), ("cat", "length")],
)
def test_a_drag_that_cannot_be_is_refused_in_the_readers_words(bench, value, says) -> None:
    with bench.window() as window:
        window.say("drag", seq=1, key=RISE, value=value)
        wrong = window.hear("wrong")
    assert wrong["seq"] == 1
    assert says in wrong["text"]


def test_a_drag_that_something_else_forbids_names_it(bench) -> None:
    with bench.window() as window:
        window.say("drag", seq=1, key=RISE, value="0.6 m")  # the doors no longer fit under the crown
        wrong = window.hear("wrong")
    assert wrong["text"].startswith('opening "')
    assert "not fit." in wrong["text"]
    assert len(wrong["mistakes"]) > 1


def test_thirty_drags_at_once_lose_nothing_that_counts(bench) -> None:
    with bench.window() as window:
        for seq in range(1, 31):
            window.say("drag", seq=seq, key=RISE, value=f"{1.4 + 0.01 * seq:.2f} m")
        scene = window.hear("scene", lambda message: message["seq"] == 30)
    assert scene["dragged"]["value"] == "1.70 m"
    answered = [one["seq"] for one in window.heard if one["say"] == "scene" and one["seq"]]
    assert answered == sorted(answered)


def test_an_edit_is_answered_told_undone_and_done_again(bench) -> None:
    with bench.window() as window:
        moved = window.ask("edit", "revision", changes=[[RISE, "1.5 m"]], label="rise 1.50 m", base=0)
        assert (moved["number"], moved["undoes"], moved["kept"]) == (1, "rise 1.50 m", False)
        scene = window.hear("scene", lambda message: message["revision"] == 1)
        assert any(one["text"] == "1.50 m" for one in scene["handles"])
        assert window.ask("undo", "revision")["redoes"] == "rise 1.50 m"
        assert window.ask("redo", "revision")["number"] == 3


def test_keeping_writes_the_file_with_its_comments(bench, file) -> None:
    before = file.read_text(encoding="utf-8")
    with bench.window() as window:
        window.ask("edit", "revision", changes=[[RISE, "1.5 m"]], label="rise")
        kept = window.ask("keep", "revision")
    assert kept["kept"]
    assert len(kept["kept_at"]) == 5
    assert file.read_text(encoding="utf-8") == before.replace('rise = "1.4 m"', 'rise = "1.5 m"')


def test_two_windows_the_last_writer_is_told_and_nothing_is_overwritten(bench) -> None:
    with bench.window() as one, bench.window() as other:
        one.ask("edit", "revision", changes=[[RISE, "1.5 m"]], label="rise", base=0)
        assert other.hear("revision", lambda message: message["number"] == 1)["label"] == "rise"
        other.say("edit", changes=[[RISE, "1.6 m"]], label="rise", base=0, id="late")
        wrong = other.hear("wrong")
        assert (wrong["kind"], wrong["to"]) == ("stale", "late")
    assert bench.table.desk.opened.house.vaults[0].rise == pytest.approx(1.5)


def test_a_file_that_something_else_changed_is_left_alone(bench, file) -> None:
    with bench.window() as window:
        window.ask("edit", "revision", changes=[[RISE, "1.5 m"]], label="rise")
        theirs = file.read_text(encoding="utf-8").replace("Larch Bank", "Larch Bend")
        file.write_text(theirs, encoding="utf-8")
        window.say("keep", id="k")
        assert window.hear("wrong")["kind"] == "changed"
        assert file.read_text(encoding="utf-8") == theirs
        lines = window.ask("differs", "differs")["lines"]
        assert {"sign": "+", "text": 'rise = "1.5 m"'} in lines
        assert window.ask("take", "revision")["house"] == "Larch Bend"


def test_a_change_on_disk_is_noticed_by_itself(bench, file, monkeypatch) -> None:
    monkeypatch.setattr("bermwright.workbench.table.WATCH", 0.02)
    with bench.window() as window:
        text = file.read_text(encoding="utf-8")
        file.write_text(text + "# another hand\n", encoding="utf-8")
        assert window.hear("revision", lambda one: one["changed_on_disk"])["kept"]
        file.write_text(text, encoding="utf-8")
        assert window.hear("revision", lambda one: not one["changed_on_disk"])["label"] == "as it was"


def test_a_fault_of_the_program_ends_no_window(bench, monkeypatch) -> None:
    def breaks(*_given, **_more):
        raise RuntimeError("by design")

    with bench.window() as window:
        monkeypatch.setattr("bermwright.workbench.seat.draw", breaks)
        window.say("drag", seq=4, key=RISE, value="1.5 m")
        wrong = window.hear("wrong")
        assert (wrong["kind"], wrong["seq"]) == ("fault", 4)
        monkeypatch.undo()
        assert window.ask("look", "scene")["revision"] == 0


def test_mistakes_are_marked_where_they_stand(bench) -> None:
    with bench.window() as window:
        window.say("edit", changes=[[RISE, "99 m"]], label="rise", id="e")
        wrong = window.hear("wrong")
        assert wrong["kind"] == "mistakes"
        assert wrong["mistakes"][0]["key"] == RISE
        text = window.ask("written", "written")["text"]
        revision = window.ask(
            "text", "revision", text=text.replace('rise = "1.4 m"', 'rise = "tall"'), label="by hand"
        )
    assert [one["key"] for one in revision["mistakes"]] == [RISE]
    assert revision["mistakes"][0]["line"] > 1


def test_units_follow_the_window(bench) -> None:
    with bench.window() as window:
        window.say("look", units="imperial")
        found = window.hear("found")
        scene = window.hear("scene", lambda message: any("ft" in one["text"] for one in message["handles"]))
        assert "lb" in scene["feet"][0]["text"]
        assert any(" psi" in one["text"] or " lb" in one["text"] for one in found["findings"])
        crown = next(one for one in scene["handles"] if one["name"] == "crown")
        window.say("drag", seq=1, key=RISE, handle="crown", x=crown["x"], z=crown["z"] + 0.1)
        assert window.hear("scene", lambda message: message["seq"] == 1)["dragged"]["value"] == "5 ft"


def test_a_stage_and_a_case_are_shown_by_name(bench) -> None:
    with bench.window() as window:
        scene = window.heard[-1]
        stage = [one for one in scene["stages"] if one["kind"] == "fill"][-2]
        shown = window.ask("look", "scene", stage=stage["name"], case="left ahead")
        assert (shown["stage"], shown["case"]) == (stage["name"], "left ahead")
        axes = window.hear("axes")
    assert axes["stage"] == stage["name"]
    by_name = {one["case"]: one["ratio"] for one in axes["storm"]}
    assert shown["ratio"] == pytest.approx(by_name["left ahead"], rel=1e-9)


@pytest.mark.parametrize(
    "message",
    [
        "no table",
        {},
        {"say": "shout"},
        {"say": ["hello"]},
        {"say": {}},
        {"say": "part", "act": "copy", "kind": "nowhere.9.x", "number": 0},
        {"say": "edit", "changes": []},
        {"say": "edit", "changes": [["vault.9.rise", "1 m"]]},
        {"say": "edit", "changes": "all of it"},
        {"say": "drag", "seq": 1, "key": "vault.0.rise"},
        {"say": "drag", "seq": 1, "key": "nothing", "x": 0, "z": 1},
        {"say": "drag", "seq": 1, "key": "vault.77.rise", "value": "1 m"},
        {"say": "part", "act": "burn", "kind": "opening", "number": 0},
        {"say": "part", "act": "copy", "kind": "opening", "number": 99},
        {"say": "part", "act": "copy", "kind": "nowhere", "number": 0},
        {"say": "remedy", "finding": 0, "number": 1},
        {"say": "mends", "finding": 10_000},
        {"say": "job", "what": "harm"},
        {"say": "job", "what": "draw", "options": "all"},
        {"say": "stop"},
        {"say": "text", "text": "x" * 1_100_000},
    ],
)
def test_nonsense_is_answered_and_changes_nothing(bench, message) -> None:
    before = bench.table.desk.text
    with bench.window() as window:
        window.socket.send_json(message)
        assert window.hear("wrong")["text"]
        assert window.ask("look", "scene")["revision"] == 0  # the window lives on
    assert bench.table.desk.text == before


@pytest.mark.parametrize("raw", ["", "{", "[" * 100_000, '{"say": "drag", "x": NaN}', b"\x00\x01", b"{}"])
def test_what_is_no_message_at_all_ends_no_window(bench, raw) -> None:
    with bench.window() as window:
        if isinstance(raw, bytes):
            window.socket.send_bytes(raw)
        else:
            window.socket.send_text(raw)
        assert window.hear("wrong")["text"]
        assert window.ask("look", "scene")["revision"] == 0


def test_a_part_is_not_added_to_a_text_that_is_no_file_yet(bench) -> None:
    with bench.window() as window:
        window.ask("text", "revision", text=bench.table.desk.text + "\nspan = \n", label="by hand")
        window.say("part", act="add", kind="opening", name="east window", id="p")
        wrong = window.hear("wrong")
        assert wrong["kind"] == "mistakes"
        assert "no value after the sign =" in wrong["text"]


def test_a_file_with_mistakes_is_opened_said_and_put_right(serve, file) -> None:
    right = file.read_text(encoding="utf-8")
    file.write_text(right.replace('rise = "1.4 m"', 'rise = "tall"'), encoding="utf-8")
    with serve(file) as bench:
        page = bench.client.get("/", params={"key": bench.door.owner})
        assert page.status_code == 200
        with bench.client.websocket_connect("/live", headers={"origin": "http://testserver"}) as socket:
            socket.send_json({"say": "hello"})
            revision = socket.receive_json()
            assert [one["key"] for one in revision["mistakes"]] == [RISE]
            socket.send_json({"say": "drag", "seq": 1, "key": RISE, "value": "1 m"})
            assert socket.receive_json()["seq"] == 1
            socket.send_json({"say": "parts", "id": "p"})
            assert socket.receive_json()["kind"] == "refused"
            socket.send_json({"say": "text", "text": right, "label": "put right", "id": "t"})
            while (message := socket.receive_json())["say"] != "scene":
                if message["say"] == "revision":
                    assert message["mistakes"] == []
            assert message["svg"]


def test_the_year_is_there_at_once_and_its_ground_is_drawn_in_the_chosen_week(bench) -> None:
    with bench.window() as window:
        year = next(one for one in window.heard if one["say"] == "axes")["year"]
        assert (year["kind"], len(year["weeks"])) == ("open", 52)
        assert "no snow" in year["says"]
        bare = window.ask("look", "scene")
        cold = window.ask("look", "scene", week=8)
        summer = window.ask("look", "scene", week=34)
        assert window.ask("look", "scene", week=None)["svg"] == bare["svg"]
        window.say("look", week=8)
        window.say("drag", seq=1, key=RISE, value="1.45 m")
        dragged = window.hear("scene", lambda one: one["seq"] == 1)
    assert (bare["week"], cold["week"], summer["week"]) == (None, 8, 34)
    assert year["weeks"][7]["frost"] > 1.0 > year["weeks"][33]["frost"]
    assert "frost line" in cold["svg"]
    assert "open ground, late Feb: average year, no snow, no house" in cold["svg"]
    assert "frost line" not in summer["svg"]
    assert "frost line" in dragged["svg"]


def test_a_reckoned_winter_is_drawn_for_just_the_house_it_was_made_for(bench, monkeypatch) -> None:
    week = WeekInGround(
        ice=(((-6.0, 0.0), (-4.0, 0.0), (-4.0, -1.0), (-6.0, -1.0)),),
        frost=(((-6.0, -1.0), (-4.0, -1.0)),),
        isotherms=((((-6.0, -0.6), (6.0, -0.6)),), (), (), ()),
        depth=1.0,
    )
    said = {"outdoors": -7.0, "room": 18.0, "snow": 0.3, "frozen": 1.0}
    vault = {"vault": "day room", "weather": {"place": "here"}}
    vault["weeks"] = [{"week": number + 1, **said} for number in range(52)]

    def reckoned(_house_file, _folder, _options, _told):
        return {"name": None, "data": {"vaults": [vault]}, "ground": {"day room": (week,) * 52}}

    monkeypatch.setitem(tasks.JOBS, "winter", reckoned)
    with bench.window() as window:
        window.ask("look", "scene", week=3)
        window.ask("job", "done", what="winter")
        year = window.hear("axes")["year"]
        scene = window.hear("scene")
        assert (year["kind"], year["weeks"][2]["room"]) == ("reckoned", 18.0)
        assert "ground of this house" in scene["svg"]
        assert "+4°" in scene["svg"]
        window.ask("edit", "revision", changes=[[RISE, "1.5 m"]], label="rise")
        assert "open ground" in window.hear("scene", lambda one: one["revision"] == 1)["svg"]
        window.ask("undo", "revision")
        assert "ground of this house" in window.hear("scene", lambda one: one["revision"] == 2)["svg"]


def test_another_house_is_laid_on_the_desk_and_the_first_keeps_what_was_not_kept(bench, file) -> None:
    other = file.with_name("other.toml")
    other.write_text(file.read_text(encoding="utf-8").replace("Larch Bank", "Other Bank"), encoding="utf-8")
    with bench.window() as window:
        window.ask("edit", "revision", changes=[[RISE, "1.5 m"]], label="rise 1.50 m", base=0)
        assert lay(bench, "other.toml") == {"go": "/"}
        moved = window.hear("revision", lambda one: one["file"] == "other.toml")
        assert (moved["house"], moved["kept"], moved["undoes"]) == ("Other Bank", True, None)
        # What a window still sends to the house that is gone is old for this one.
        window.say("edit", changes=[[RISE, "1.6 m"]], label="late", base=1, id="late")
        assert window.hear("wrong")["kind"] == "stale"
        assert lay(bench, "house.toml") == {"go": "/"}
        back = window.hear("revision", lambda one: one["file"] == "house.toml")
        assert (back["recovered"], back["undoes"], back["kept"]) == (True, "rise 1.50 m", False)
        assert lay(bench, "house.toml") == {"go": "/"}  # it lies there already
    assert 'rise = "1.4 m"' in file.read_text(encoding="utf-8")
    assert other.read_text(encoding="utf-8").count('rise = "1.4 m"') == 1


def lay(bench, name):
    return bench.client.post(
        "/start/open", json={"file": name}, headers={"origin": "http://testserver"}
    ).json()


def test_a_dome_is_drawn_and_nothing_more_is_claimed(serve, file, repository, speaking) -> None:
    file.write_text(
        (repository / "examples/domes/rowan-ring.toml").read_text(encoding="utf-8"), encoding="utf-8"
    )
    with serve(file) as bench:
        bench.client.get("/", params={"key": bench.door.owner})
        with bench.client.websocket_connect("/live", headers={"origin": "http://testserver"}) as socket:
            window = speaking(socket)
            window.say("hello", width=968, height=420)
            scene = window.hear("scene")
            assert (scene["sentence"]["verdict"], scene["vault_name"]) == ("unknown", "round room")
            assert scene["svg"].startswith("<svg")
            assert scene["view"]["width"] > 0
            assert window.hear("axes")["year"] is None
            handles = next(one for one in window.heard if one["say"] == "handles")
            assert handles["list"] == []
            window.say("drag", seq=1, key=RISE, value="2 m")
            assert window.hear("wrong")["seq"] == 1
        plan = bench.client.get("/plan", params={"drawing": "floor", "vault": "0"}).json()
        assert plan["svg"].startswith("<svg")
        assert "among the drawings" in bench.client.get("/plan", params={"drawing": "front"}).json()["wrong"]


def test_what_checks_the_equations_behind_a_finding_is_computed_and_shown(bench) -> None:
    with bench.window() as window:
        proof = window.ask("evidence", "evidence", rule="slopes-stay")
        window.say("evidence", rule="nothing-like-it")
        assert "nothing-like-it" in window.hear("wrong")["text"]
        bare = window.ask("evidence", "evidence", rule="stands-its-first-winter")
    assert re.match(
        r"Behind it: \d+ functions of the handbook, compared now with \d+ values \(", proof["says"]
    )
    (one, *_) = proof["functions"]
    assert one["title"]
    assert one["off"] == "by nothing" or one["off"].endswith("%")
    for row in one["rows"]:
        assert row["kind"] in {"published", "independent", "derived"}
        assert all(row[key] for key in ("expected", "computed", "off", "source", "provenance"))
    assert bare["functions"] == []
    assert "No equation" in bare["says"]
