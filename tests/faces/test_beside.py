"""The pages beside the drawing, in this process: what they show, what they take, and what they refuse."""

from __future__ import annotations

import asyncio
import json
import re
import struct
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

from bermwright.app.asking import QUESTIONS
from bermwright.app.desk import Desk
from bermwright.app.lessons import all_lessons
from bermwright.app.outside.examples import EXAMPLES
from bermwright.data.glossary import GLOSSARY
from bermwright.data.walk import WALK
from bermwright.formats.house_file import load
from bermwright.workbench.jobs import Workers
from bermwright.workbench.security import Door
from bermwright.workbench.server import application
from bermwright.workbench.table import Table

HOST = "http://testserver"
ANSWERS = {question.name: question.example for question in QUESTIONS}
POINTS = [[100.0 + 20.0 * at, 300.0 - 200.0 * (1.0 - ((at - 10) / 10.0) ** 2)] for at in range(21)]
"""A parabola, 400 dots wide and 200 high."""


class Idle(Workers):
    """Nobody computes beside these tests."""

    def start(self) -> None:
        pass

    def close(self) -> None:
        pass

    def stop(self, number: int) -> None:
        pass

    def number(self) -> int:
        return 1

    async def do(self, *_given):
        await asyncio.Event().wait()


def client_on(file: Path | None):
    door = Door(hosts=frozenset({"testserver"}))
    app = application(Table(Desk(file) if file else None, workers=Idle()), door)
    client = TestClient(app, base_url=HOST, headers={"origin": HOST})
    return client, door


@pytest.fixture
def beginning(tmp_path, monkeypatch):
    """A workbench without a house."""
    monkeypatch.chdir(tmp_path)
    client, door = client_on(None)
    with client:
        client.get(f"/?key={door.owner}")
        yield client


@pytest.fixture
def house(tmp_path, repository):
    file = tmp_path / "larch-bank.toml"
    file.write_text((repository / "examples/larch-bank.toml").read_text(encoding="utf-8"), encoding="utf-8")
    return file


@pytest.fixture
def working(house):
    """A workbench with a house."""
    client, door = client_on(house)
    with client:
        client.get(f"/?key={door.owner}")
        yield client


def drawing(text):
    """An SVG text of our own, read back."""
    return ElementTree.fromstring(text)  # noqa: S314


def post(client, address, data):
    return client.post(address, json=data)


def last_line(answer):
    lines = [json.loads(line) for line in answer.text.splitlines()]
    return lines[:-1], lines[-1]


# ---------------------------------------------------------------- start


def test_without_a_house_the_start_page_comes(beginning):
    answer = beginning.get("/")
    assert answer.url.path == "/start"
    for one in EXAMPLES:
        assert one.title in answer.text
    for question in QUESTIONS:
        assert f'data-question="{question.name}"' in answer.text
    assert "style=" not in answer.text  # the policy forbids it
    assert "calculation aid, not reviewed" in answer.text


@pytest.mark.parametrize("light", ["day", "lamp"])
def test_every_question_has_a_picture_in_both_lights(beginning, light):
    for question in QUESTIONS:
        answer = beginning.get(f"/start/picture/{question.name}?light={light}")
        assert answer.headers["content-type"].startswith("image/svg+xml")
        drawing(answer.text)
    assert beginning.get("/start/picture/nothing").status_code == 422


def test_the_section_of_an_example_says_no_scale(beginning):
    answer = beginning.get("/start/example/kettle-hill")
    words = " ".join(one.text or "" for one in drawing(answer.text).iter() if one.tag.endswith("text"))
    assert "±0.00" in words
    assert "1:" not in words
    assert beginning.get("/start/example/other").status_code == 422


def test_an_answer_is_read_at_once(beginning):
    assert post(beginning, "/start/answer", {"name": "span", "text": "15 ft 9 in"}).json() == {"taken": True}
    assert "has no unit" in post(beginning, "/start/answer", {"name": "span", "text": "4.8"}).json()["wrong"]
    assert "no question" in post(beginning, "/start/answer", {"name": "x", "text": "4.8"}).json()["wrong"]
    assert "cannot be read" in beginning.post("/start/answer", content=b"{").json()["wrong"]
    assert "no table" in beginning.post("/start/answer", content=b"[]").json()["wrong"]


def test_answers_become_a_file_on_the_desk(beginning, tmp_path):
    data = {"house": "Try", "file": "try.toml", "answers": {**ANSWERS, "snow": ""}}
    assert post(beginning, "/start/begin", data).json() == {"go": "/"}
    house = load(tmp_path / "try.toml").house
    assert house.name == "Try"
    assert house.site.ground_snow is None
    assert "Try" in beginning.get("/").text
    again = post(beginning, "/start/begin", {**data, "house": "Next", "file": "other.toml"})
    assert again.json() == {"go": "/"}
    assert "Next" in beginning.get("/").text
    text = beginning.get("/start").text
    assert 'data-file="try.toml"' in text
    assert 'data-file="other.toml"' not in text


@pytest.mark.parametrize(
    "name",
    [
        "../up.toml",
        "/etc/x.toml",
        "a/b.toml",
        ".hidden.toml",
        "x.txt",
        "",
        "a\\b.toml",
        "n\x00.toml",
        "c:x.toml",
        "x" * 90 + ".toml",
    ],
)
def test_a_file_outside_the_folder_is_refused(beginning, tmp_path, name):
    answer = post(beginning, "/start/begin", {"file": name, "answers": ANSWERS})
    assert answer.status_code == 422
    assert "is no name of a house file here" in answer.json()["wrong"]
    assert post(beginning, "/start/open", {"file": name}).status_code == 422
    assert list(tmp_path.iterdir()) == []


def test_a_link_that_leads_out_of_the_folder_is_refused(beginning, tmp_path, tmp_path_factory, house):
    out = tmp_path_factory.mktemp("elsewhere") / "secret.toml"
    out.write_text(house.read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "link.toml").symlink_to(out)
    assert post(beginning, "/start/open", {"file": "link.toml"}).status_code == 422


def test_a_file_that_is_there_is_never_written_over(beginning, tmp_path):
    (tmp_path / "mine.toml").write_text("mine", encoding="utf-8")
    answer = post(beginning, "/start/begin", {"file": "mine.toml", "answers": ANSWERS})
    assert "was left as it is" in answer.json()["wrong"]
    assert (tmp_path / "mine.toml").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("one", EXAMPLES, ids=lambda one: one.name)
def test_an_example_is_copied_and_opened(tmp_path, monkeypatch, repository, one):
    monkeypatch.chdir(tmp_path)
    client, door = client_on(None)
    with client:
        client.get(f"/?key={door.owner}")
        assert post(client, "/start/example", {"name": one.name}).json() == {"go": "/"}
        assert one.title in client.get("/").text
    folder = repository / ("examples/domes" if one.name == "rowan-ring" else "examples")
    original = (folder / f"{one.name}.toml").read_text(encoding="utf-8")
    assert (tmp_path / f"{one.name}.toml").read_text(encoding="utf-8") == original


def test_house_files_of_the_folder_are_offered_and_other_files_are_not(beginning, house, tmp_path):
    assert house.parent == tmp_path
    (tmp_path / "pyproject.toml").write_text("[tool.x]\ny = 1\n", encoding="utf-8")
    text = beginning.get("/start").text
    assert 'data-file="larch-bank.toml"' in text
    assert "pyproject.toml" not in text
    assert post(beginning, "/start/open", {"file": "larch-bank.toml"}).json() == {"go": "/"}


def test_whoever_only_looks_writes_nothing(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    door, keys = Door(hosts=frozenset({"testserver"})), []
    door.share(edits=False, told=keys.append)
    client = TestClient(
        application(Table(None, workers=Idle()), door), base_url=HOST, headers={"origin": HOST}
    )
    with client:
        client.get(f"/?key={keys[0]}")
        assert "disabled" in client.get("/start").text
        for address, data in (
            ("/start/begin", {"file": "x.toml", "answers": ANSWERS}),
            ("/start/example", {"name": "larch-bank"}),
            ("/start/open", {"file": "x.toml"}),
            ("/sketch/take", {"vault": 0, "measures": [["curve", "parabola"]]}),
        ):
            answer = post(client, address, data)
            assert (answer.status_code, "Nothing was changed." in answer.text) == (403, True)
        assert post(client, "/start/answer", {"name": "span", "text": "4 m"}).json() == {"taken": True}
        assert post(client, "/sketch/fit", sketched()).json()["offers"]
        assert "Choose two variants" in post(client, "/compare/run", {"before": "x", "after": "y"}).text
        assert "no lesson" in post(client, "/lessons/nothing/reveal", {}).text
        assert post(client, "/compare/run/x", {}).status_code == 403
    assert list(tmp_path.iterdir()) == []


def test_a_curve_from_a_sketch_comes_along_into_a_new_house(beginning, tmp_path):
    measures = post(beginning, "/sketch/fit", sketched()).json()["offers"][0]["measures"]
    data = {"file": "drawn.toml", "answers": ANSWERS, "measures": measures}
    assert post(beginning, "/start/begin", data).json() == {"go": "/"}
    (vault,) = load(tmp_path / "drawn.toml").house.vaults
    assert (vault.curve, vault.span, vault.rise) == ("parabola", 4.0, 2.0)
    assert vault.length == pytest.approx(7.5)


@pytest.mark.parametrize(
    ("answers", "measures", "says"),
    [
        ({"rise": "2 m"}, [["curve", "parabola"]], "answer span, springing, length too"),
        (ANSWERS, [["curve", "egg"], ["span", "4 m"], ["rise", "2 m"]], "base_centre"),
        (ANSWERS, [["curve", "parabola"], ["span", "4"]], "has no unit"),
        (ANSWERS, "x", "No curve"),
    ],
)
def test_a_curve_that_makes_no_house_writes_no_file(beginning, tmp_path, answers, measures, says):
    answer = post(beginning, "/start/begin", {"file": "drawn.toml", "answers": answers, "measures": measures})
    assert answer.status_code == 422
    assert says in answer.json()["wrong"]
    assert list(tmp_path.iterdir()) == []


# ---------------------------------------------------------------- sketch


def sketched(**more):
    ends = [POINTS[0], POINTS[-1]]
    return {"points": POINTS, "ends": ends, "length": "4 m", "vault": 0, **more}


def test_marked_points_become_a_curve_with_its_residual(working):
    answer = post(working, "/sketch/fit", sketched()).json()
    best = answer["offers"][0]
    assert best["family"] == "parabola"
    assert dict(best["measures"]) == {"curve": "parabola", "span": "4.000 m", "rise": "2.000 m"}
    assert best["spread"] == "0.0 mm"
    assert len(answer["off"]) == len(answer["points"]) == len(POINTS)


def test_a_point_that_slipped_is_named(working):
    points = [list(point) for point in POINTS]
    points[5][1] -= 25.0
    answer = post(working, "/sketch/fit", sketched(points=points)).json()
    assert answer["outliers"] == [6]


def test_a_fitted_curve_goes_into_the_house_as_one_edit(working, house):
    before = house.read_text(encoding="utf-8")
    measures = post(working, "/sketch/fit", sketched()).json()["offers"][0]["measures"]
    assert post(working, "/sketch/take", {"vault": 0, "measures": measures}).json() == {"go": "/"}
    desk = working.app.state.table.desk
    assert desk.opened.house.vaults[0].curve == "parabola"
    assert desk.history.undoes == "curve from a sketch: parabola"
    desk.undo()
    assert desk.text == before == house.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"points": POINTS[:2]}, "Mark 3 to 400 points"),
        ({"points": POINTS * 30}, "at most 400"),
        ({"points": [[0, 1], [2, "x"], [3, 4]]}, "has no place"),
        ({"points": [[0, 1], [2, 1e300], [3, 4]]}, "has no place"),
        ({"points": "x"}, "at most 400"),
        ({"ends": [POINTS[0]]}, "both ends"),
        ({"ends": [POINTS[0], POINTS[0]]}, "one apart from the other"),
        ({"length": "4"}, "has no unit"),
        ({"length": "-4 m"}, "more than nothing"),
        ({"points": [[0, 0], [100, 0], [200, 0], [300, 0]]}, ""),
        ({"ground": True, "vault": 7}, "no such vault"),
    ],
)
def test_marks_that_give_no_curve_are_refused(working, more, says):
    answer = post(working, "/sketch/fit", sketched(**more))
    assert answer.status_code == 422
    assert says in answer.json()["wrong"]


def test_a_file_of_points_is_read(beginning):
    rows = "\n".join(f"{x / 100.0}, {(300.0 - z) / 100.0}" for x, z in POINTS)
    file = {"file": ("points.csv", f"x [m], z [m]\n{rows}\n".encode())}
    answer = beginning.post("/sketch/read?units=imperial", files=file, data={"known": ""}).json()
    assert answer["offers"][0]["says"].startswith("parabola: span 13 ft 1 1/2 in")
    for name, content, says in [
        ("points.csv", b"", "empty"),
        ("points.png", b"\x89PNG", "a sketch ends in"),
        ("points.svg", b"<!DOCTYPE x><svg/>", "declares entities"),
        ("points.dxf", b"no drawing", "no DXF"),
    ]:
        refused = beginning.post("/sketch/read", files={"file": (name, content)})
        assert refused.status_code == 422
        assert says in refused.json()["wrong"]
    assert "No file came" in beginning.post("/sketch/read", data={"known": "x"}).json()["wrong"]


def test_a_curve_that_does_not_fit_the_house_is_refused_and_nothing_changes(working):
    desk = working.app.state.table.desk
    for measures in (
        [["curve", "parabola"], ["span", "40 m"], ["rise", "2 m"]],
        [["span", "4 m"]],
        [],
        "x",
        [["curve"]],
    ):
        answer = post(working, "/sketch/take", {"vault": 0, "measures": measures})
        assert answer.status_code == 422
        assert answer.json()["wrong"]
    assert (
        post(working, "/sketch/take", {"vault": True, "measures": [["curve", "parabola"]]}).status_code == 422
    )
    assert desk.history.undoes is None


# ---------------------------------------------------------------- compare


@pytest.mark.slow
def test_two_revisions_are_compared_in_words(working, house):
    desk = working.app.state.table.desk
    desk.edit({("vault", 0, "rise"): "1.5 m"}, "rise 1.5 m")
    page = working.get("/compare").text
    assert 'value="kept"' in page
    assert "rise 1.5 m" in page
    steps, last = last_line(post(working, "/compare/run", {"before": "revision 0", "after": "now"}))
    assert steps[0]["step"].startswith("assessing")
    found = last["done"]
    assert found["differences"] == [
        {
            "place": 'vault "day room", rise',
            "before": "1.4 m",
            "after": "1.5 m",
            "says": "Height of the crown over the feet, on the middle line of the ribs.",
        }
    ]
    assert found["moved"]
    assert any(one["name"] == "rib boards, volume bought" for one in found["figures"])
    drawing(found["sections"][0]["lamp"])
    assert load(house).house.vaults[0].rise == pytest.approx(1.4)


def test_a_comparison_with_what_cannot_be_read_says_so(working, tmp_path):
    (tmp_path / "broken.toml").write_text("[house]\nname = 3\n", encoding="utf-8")
    _, last = last_line(post(working, "/compare/run", {"before": "file broken.toml", "after": "now"}))
    assert "to put right" in last["wrong"]
    for wanted in ("", "file ../x.toml", "revision 99", "revision x", "elsewhere"):
        assert post(working, "/compare/run", {"before": wanted, "after": "now"}).status_code == 422


# ---------------------------------------------------------------- lessons, glossary, walk


def test_every_lesson_keeps_its_end_to_itself(beginning):
    listed = beginning.get("/lessons").text
    for one in all_lessons():
        assert f"/lessons/{one.name}" in listed
        text = beginning.get(f"/lessons/{one.name}").text
        assert len(re.findall(r'name="answer"', text)) == len(one.answers)
        assert one.failed not in text
        assert one.remedy not in text
    assert beginning.get("/lessons/nothing").status_code == 422


@pytest.mark.slow
def test_a_lesson_is_revealed_by_running_both_houses(beginning):
    _, last = last_line(post(beginning, "/lessons/bare-ribs/reveal", {}))
    told = last["done"]
    assert told["right"] in told["answers"]
    assert any(one["verdict"] == "fails" for one in told["found"]["as built"])
    assert not any(one["verdict"] == "fails" for one in told["found"]["twin"])
    assert told["source"]["provenance"]


@pytest.mark.parametrize("built", ["as-built", "twin"])
def test_both_houses_of_a_lesson_are_drawn(beginning, built):
    drawing(beginning.get(f"/lessons/bare-ribs/section/{built}?light=lamp").text)
    assert beginning.get("/lessons/bare-ribs/section/other").status_code == 422


def test_the_glossary_never_marks_a_verb(beginning):
    told = beginning.get("/glossary").json()
    assert len(told) == len(GLOSSARY)
    names = {one["term"] for one in told} | {form for one in told for form in one["forms"]}
    assert "lead" not in names
    assert "rib" in names


def test_the_walk_points_at_places_that_the_page_has(working):
    page = working.get("/").text
    for step in working.get("/walk/steps").json():
        assert any(f'id="{place}"' in page for place in step["places"])
    assert len(WALK) == 5
    assert working.get("/walk", follow_redirects=False).headers["location"] == "/#walk"


def test_the_walk_begins_by_choosing_a_house(beginning):
    assert beginning.get("/walk", follow_redirects=False).headers["location"] == "/start"


# ---------------------------------------------------------------- model


def test_the_model_comes_as_bodies_with_the_layers_that_peel_away(working):
    content = working.get("/model.glb?revision=0").content
    assert content[:4] == b"glTF"
    size = struct.unpack("<I", content[12:16])[0]
    nodes = json.loads(content[20 : 20 + size])["nodes"]
    layers = [
        node["name"] for node in nodes if "layer" in node.get("extras", {}) and "of" not in node["extras"]
    ]
    assert {"ground", "ribs", "fill", "turf", "walls"} <= set(layers)


def test_the_sun_stands_where_it_should(working):
    noon = working.get("/model/sun?day=172").json()
    # Larch Bank lies at 62.9° north: at midsummer 90 - 62.9 + 23.4 degrees; its axis looks to 75°.
    assert max(noon["height"]) == pytest.approx(50.5, abs=0.3)
    assert noon["turn"][24] == pytest.approx(180.0 - 75.0, abs=0.1)
    assert max(working.get("/model/sun?day=355").json()["height"]) == pytest.approx(3.9, abs=0.4)
    for day in ("0", "366", "x", "-1", "99999"):
        assert working.get(f"/model/sun?day={day}").json()["wrong"]


def test_without_an_axis_the_sun_has_no_place(tmp_path, house):
    text = house.read_text(encoding="utf-8")
    file = tmp_path / "no-axis.toml"
    file.write_text(text.replace('axis = "75 deg"', ""), encoding="utf-8")
    client, door = client_on(file)
    with client:
        client.get(f"/?key={door.owner}")
        assert "vault.axis" in client.get("/model/sun?day=172").json()["wrong"]


def test_where_there_is_no_model_view_the_house_is_drawn_with_lines(working):
    drawn = drawing(working.get("/model/lines?light=lamp").text)
    assert len(list(drawn.iter())) > 30
    assert working.get("/model/lines?vault=9").json()["wrong"]


def test_a_house_of_a_dome_has_its_model_and_its_pages(repository, tmp_path):
    text = (repository / "examples/domes/rowan-ring.toml").read_text(encoding="utf-8")
    (tmp_path / "dome.toml").write_text(text, encoding="utf-8")
    client, door = client_on(tmp_path / "dome.toml")
    with client:
        client.get(f"/?key={door.owner}")
        assert client.get("/model.glb").content[:4] == b"glTF"
        assert "no such vault" in client.get("/model/lines").json()["wrong"]
        for place in ("/sketch", "/compare", "/start", "/lessons"):
            assert client.get(place).status_code == 200


def test_without_a_house_there_is_no_model(beginning):
    for address in ("/model.glb", "/model/sun?day=1", "/model/lines"):
        assert "No house is open" in beginning.get(address).json()["wrong"]
