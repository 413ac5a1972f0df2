"""What is made by hand, in the workbench: every leaf is shown and made; what is wrong is said in place."""

from __future__ import annotations

import asyncio
import io
import json
import shutil
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

from bermwright.app.desk import Desk
from bermwright.app.handmade import LEAVES
from bermwright.base.errors import BermwrightError
from bermwright.workbench import tasks
from bermwright.workbench.beside.common import AskedWrongError
from bermwright.workbench.beside.working import MOST, Errand, _lines, worked
from bermwright.workbench.jobs import Workers
from bermwright.workbench.security import Door
from bermwright.workbench.server import application
from bermwright.workbench.table import Table

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"
HOST = "testserver"
SURVEY = """\
name,x [m],y [m],z [m]
M,0,0,100.0
A,-6,-6,98.2
B,6,-6,100.1
C,6,6,101.7
D,-6,6,99.8
E,0,8,101.0
F,0,-8,98.9
"""


class Bench:
    """One server without full runs; each test lays its house on the desk."""

    def __init__(self, client, table, door) -> None:
        self.client, self.table, self.door = client, table, door

    def lay(self, file):
        """Lay a house on the desk, or none."""
        self.file = file
        self.table.desk = None if file is None else Desk(file)
        self.table._page = None
        return self

    def lines(self, leaf, act, **options):
        """Every line of an answer."""
        answer = self.client.get(f"/making/{leaf}/{act}", params=options)
        return [json.loads(line) for line in answer.text.splitlines()]

    def shown(self, leaf, **options):
        last = self.lines(leaf, "show", **options)[-1]
        assert "done" in last, last
        return last["done"]

    def made(self, leaf, ending, **options):
        last = self.lines(leaf, "make", ending=ending, **options)[-1]
        assert "done" in last, last
        found = last["done"]
        return found, [self.client.get(found["at"] + name).content for name in found["files"]]


@pytest.fixture(scope="module")
def server():
    """One for all tests: workers that are threads share what they are told to end by."""
    door = Door(hosts=frozenset({HOST}))
    table = Table(None, workers=Workers(inline=True))
    with TestClient(application(table, door)) as client:
        client.get("/", params={"key": door.owner})
        yield Bench(client, table, door)


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """The vault and the dome."""
    names = ("larch-bank", "domes/rowan-ring")
    return [Path(shutil.copy(EXAMPLES / f"{name}.toml", tmp_path_factory.mktemp("house"))) for name in names]


@pytest.fixture
def vault(server, files):
    return server.lay(files[0])


@pytest.fixture
def dome(server, files):
    return server.lay(files[1])


@pytest.fixture
def own(server, tmp_path):
    """A house that a test may change."""

    def opened(name="domes/rowan-ring", change=lambda text: text):
        file = tmp_path / "house.toml"
        file.write_text(change((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")), encoding="utf-8")
        return server.lay(file)

    return opened


@pytest.fixture
def guest(own):
    """A window that may only look; the owner's cookie comes back afterwards."""
    bench, keys = own(), []
    kept = dict(bench.client.cookies)
    bench.client.cookies.clear()
    bench.door.share(edits=False, told=keys.append)
    yield bench, keys
    bench.client.cookies.clear()
    bench.client.cookies.update(kept)


def all_words(found):
    """Everything that a leaf says, in one text."""
    return json.dumps([found["says"], found["sections"]], ensure_ascii=False)


def drawings(section):
    return [one for one in section["blocks"] if one["kind"] == "drawing"]


# ---------------------------------------------------------------- pages


@pytest.mark.parametrize("leaf", [leaf.name for leaf in LEAVES])
def test_every_leaf_is_a_page_with_its_fields_and_its_files(vault, leaf) -> None:
    answer = vault.client.get(f"/making/{leaf}")
    assert answer.status_code == 200
    assert all(f"/making/{one.name}" in answer.text for one in LEAVES)
    assert "calculation aid, not reviewed" in answer.text
    assert "style=" not in answer.text
    wanted = next(one for one in LEAVES if one.name == leaf)
    if leaf != "compass":  # this house has no dome
        assert all(f'data-take="{ending}"' in answer.text for ending in wanted.endings)


def test_a_leaf_that_the_house_has_nothing_for_says_so_and_leads_on(server, files) -> None:
    without = server.lay(files[0]).client.get("/making/compass").text
    assert "no dome" in without
    assert "[[dome]]" in without
    assert "no vault" in server.lay(files[1]).client.get("/making/templates").text
    assert 'data-take="pdf"' in server.client.get("/making/setout").text
    assert 'data-take="pdf"' in server.client.get("/making/compass").text


def test_the_first_leaf_is_one_that_the_house_has_something_for(server, files) -> None:
    paths = [server.lay(file).client.get("/making").url.path for file in files]
    assert paths == ["/making/setout", "/making/compass"]


def test_there_is_no_other_leaf(vault) -> None:
    assert "There is no such leaf" in vault.client.get("/making/cake").json()["wrong"]
    assert "There is no such leaf" in vault.client.get("/making/cake/show").json()["wrong"]


def test_without_a_house_the_page_leads_to_the_start(server) -> None:
    bench = server.lay(None)
    assert 'href="/start"' in bench.client.get("/making/boards").text
    assert "No house is open" in bench.client.get("/making/boards/show").json()["wrong"]
    assert bench.client.get("/making/now").json() == {"revision": None, "mistakes": []}


# ---------------------------------------------------------------- looking


def test_setting_out_shows_readings_then_survey_and_days_before_the_tables(own) -> None:
    survey = '\n[survey]\npoints = "points.csv"\nmiddle = "M"\n'
    bench = own("sedge-bank", lambda text: text + survey)
    bench.file.with_name("points.csv").write_text(SURVEY, encoding="utf-8")
    # The points come along where the house in hand is not the one in the file.
    bench.table.desk.edit({("vault", 0, "rise"): "1.45 m"}, "rise")
    readings = "from,to,back [m],fore [m]\nA,B,1.20,1.00\nB,A,1.00,1.196"
    found = bench.shown("setout", levels=readings)
    level, first = found["sections"][:2]
    assert level["title"] == "Heights by water level"
    table = next(one for one in level["blocks"] if one["kind"] == "table")
    assert [row[0][0][0] for row in table["rows"]] == ["A", "B"]
    titles = [one["title"] for one in drawings(first)]
    assert [title.partition(":")[0] for title in titles[1:]] == [f"Day {number}" for number in range(1, 7)]
    assert "urvey" in all_words(found)
    kinds = [one["kind"] for one in first["blocks"]]
    assert "table" not in kinds[: kinds.index("drawing")]
    assert any("jig" in one["title"].lower() for section in found["sections"] for one in drawings(section))
    for light in ("day", "lamp"):
        ElementTree.fromstring(drawings(first)[0][light])  # noqa: S314  (our own)
    assert drawings(first)[0]["day"] != drawings(first)[0]["lamp"]
    assert found["facts"]["survey"] == "points.csv"
    assert found["mark"] == "calculation aid, not reviewed"


def test_readings_that_are_none_are_refused_with_their_line(vault) -> None:
    last = vault.lines("setout", "show", levels="from,to,back [m],fore [m]\nA,A,1.2,1.0")[-1]
    assert "readings of the water level" in last["wrong"]
    assert "line 2" in last["wrong"]


def test_templates_say_how_many_sheets_and_show_the_first(vault) -> None:
    found = vault.shown("templates", paper="A3")
    assert found["says"] == f"{found['facts']['sheets']} full-size sheets on A3."
    tiles = next(one for one in found["sections"] if one["title"].startswith("Templates for"))
    assert drawings(tiles)[0]["width"] == 420.0
    counted = next(one for one in tiles["blocks"] if one["kind"] == "table")
    assert sum(int(row[2][0][0]) for row in counted["rows"]) == found["facts"]["sheets"]


def test_a_printer_that_cannot_be_corrected_is_refused_as_on_the_terminal(vault) -> None:
    last = vault.lines("templates", "show", across="90", up="100")[-1]
    assert "90 mm across" in last["wrong"]
    assert "Nothing was written" in last["wrong"]
    assert "both" in vault.lines("templates", "show", across="100")[-1]["wrong"]


def test_boards_are_shown_with_cuts_bound_caution_and_labels(vault) -> None:
    found = vault.shown("boards")
    assert (found["verdict"], found["says"]) == ("holds", "Every piece has its board.")
    head, list_ = found["sections"][:2]
    # What guards the saw stands before the first board.
    assert [one["kind"] for one in head["blocks"]] == ["para", "notice"]
    assert "Look for nails first" in json.dumps(head)
    assert list_["title"].startswith("Boards ")
    assert [one["kind"] for one in list_["blocks"]][:2] == ["para", "drawing"]
    assert "can use less" in json.dumps(list_)
    assert "The saw takes 4 mm" in all_words(found)
    assert drawings(found["sections"][-1])[0]["caption"][0][0].startswith("Sheet 1 of")


def test_the_course_in_hand_stands_first_and_the_stop_over_it(dome) -> None:
    found = dome.shown("compass", course="7")
    assert found["says"] == "Course 7 of 33 in round room."
    head, course = found["sections"][:2]
    assert head["blocks"][0]["guards"] == "stop"
    assert course["title"] == "Course 7"
    table = course["blocks"][-1]
    assert [row[0][0][0] for row in table["rows"]] == ["7"]
    assert "courses 1 to 33, not 99" in dome.lines("compass", "show", course="99")[-1]["wrong"]


def test_a_ring_as_laid_corrects_the_next_course(dome) -> None:
    ring = "\n".join(f"{turn} deg,2.11 m" for turn in range(0, 360, 45))
    found = dome.shown("compass", course="3", radii=ring)
    assert found["verdict"] == ""  # nothing is said of its strength
    assert found["says"].startswith("The ring can be led back")
    titles = [one["title"] for one in found["sections"]]
    assert titles.index("Course 3 as measured") < titles.index("Course 3")
    table = next(one for one in found["sections"][1]["blocks"] if one["kind"] == "table")
    assert table["head"][2] == "radius to lay"


def test_a_ring_that_folds_in_stops_the_work(dome) -> None:
    radii = [2.10, 2.10, 1.80, 1.78, 1.80, 2.10, 2.10, 2.10]
    ring = "\n".join(f"{45 * at} deg,{radius} m" for at, radius in enumerate(radii))
    found = dome.shown("compass", course="3", radii=ring)
    assert found["verdict"] == "fails"
    assert found["says"].startswith("Stop:")


def test_radii_that_are_none_are_refused_each_in_its_place(dome) -> None:
    last = dome.lines("compass", "show", course="3", radii="0 deg,2.10 m\n45 deg,two\n90 deg,2.1")[-1]
    first, second = last["wrong"].splitlines()
    assert first.startswith('radius at 45 deg: "two"')
    assert second.startswith("radius at 90 deg:")


def test_boxes_and_forms_show_their_drawings_with_the_caution_first(dome) -> None:
    found = dome.shown("forms")
    assert found["facts"]["patterns"][0] == "door: side"
    assert found["sections"][0]["blocks"][0]["guards"] == "caution"
    assert drawings(found["sections"][1])


def test_bodies_and_take_off_stand_side_by_side(vault) -> None:
    found = vault.shown("model", units="imperial")
    assert "ft³" in all_words(found)
    table = next(one for one in found["sections"][1]["blocks"] if one["kind"] == "table")
    assert table["head"] == ["amount", "take-off", "bodies along its lines", "as built"]
    assert len(table["rows"]) > 5


# ---------------------------------------------------------------- taking away


@pytest.mark.parametrize(
    ("leaf", "ending", "options", "begins"),
    [
        ("boards", "pdf", {"labels": "labels alone"}, b"%PDF"),
        ("model", "stl", {"scale": "1:50"}, b"bermwright model"),
    ],
)
def test_files_of_the_vault_are_made_and_fetched(vault, leaf, ending, options, begins) -> None:
    found, contents = vault.made(leaf, ending, **options)
    assert found["files"] == [f"larch-bank-{leaf}.{ending}"]
    assert contents[0].startswith(begins)
    beside = vault.table.desk.path.parent.iterdir()
    assert not [one.name for one in beside if one.suffix == f".{ending}"]


def test_bands_of_the_compass_are_added_to_its_pages(dome) -> None:
    _, (plain,) = dome.made("compass", "pdf")
    found, (banded,) = dome.made("compass", "pdf", band="yes", across="100.6", up="99.8")
    assert plain.startswith(b"%PDF")
    assert len(banded) > len(plain)
    assert "100 %" in found["says"][0]


def test_several_drawings_come_as_one_file_and_each_alone(dome) -> None:
    found, contents = dome.made("forms", "svg", only="door")
    assert found["files"][0] == "rowan-ring-forms-svg.zip"
    with zipfile.ZipFile(io.BytesIO(contents[0])) as archive:
        assert archive.namelist() == found["files"][1:]
        assert archive.read(found["files"][1]) == contents[1]


@pytest.mark.parametrize(
    ("leaf", "options", "says"),
    [
        ("model", {"ending": "exe"}, "none of"),
        ("model", {"ending": "stl", "scale": "big"}, "no scale"),
        ("model", {"ending": "stl", "scale": "2"}, "must lie between"),
        ("forms", {"ending": "svg", "only": "cake"}, 'No pattern is called "cake"'),
        ("forms", {"ending": "pdf", "settlement": "5 m"}, "200 mm"),
        ("boards", {"ending": "pdf", "labels": "gold"}, "none of"),
    ],
)
def test_what_cannot_be_made_is_refused_with_a_sentence(vault, leaf, options, says) -> None:
    assert says in vault.lines(leaf, "make", **options)[-1]["wrong"]


# ---------------------------------------------------------------- what is wrong with the house


def test_boards_that_are_too_short_say_which_pieces_find_none(own) -> None:
    def shortened(text):
        kept, _, _ = text.partition("[[stock]]")
        return kept + '[[stock]]\nname = "stubs"\nsection = "45 x 225 mm"\nlength = "0.7 m"\ncount = 400\n'

    found = own("larch-bank", shortened).shown("boards")
    assert found["verdict"] == "fails"
    assert found["says"].endswith("pieces find no board.")
    assert "Way out: add boards" in all_words(found)


def test_a_yard_that_nobody_has_written_down_is_asked_for(own) -> None:
    found = own("larch-bank", lambda text: text.partition("[[stock]]")[0]).shown("boards")
    assert (found["verdict"], found["says"]) == ("unknown", "Which boards are at hand?")
    assert "The file lists no boards" in all_words(found)


def test_an_opening_wider_than_the_dome_is_refused_with_its_place(own) -> None:
    def widened(text):
        return text.replace('width = "0.9 m"', 'width = "2.9 m"', 1).replace("2.05 m", "3.6 m")

    bench = own(change=widened)
    last = bench.lines("forms", "show")[-1]
    assert 'opening "door"' in last["wrong"]
    assert "narrower" in last["wrong"]


def test_mistakes_of_the_file_stand_with_place_and_line_and_the_last_good_house_is_shown(own) -> None:
    bench = own()
    desk = bench.table.desk
    wrong = desk.text.replace('span = "4.2 m"', 'span = "wide"')
    desk.write(wrong, "by hand")
    now = bench.client.get("/making/now").json()
    page = bench.client.get("/making/compass").text
    found = bench.shown("compass")
    line = wrong.splitlines().index('span = "wide"') + 1
    assert [(one["line"], one["value"]) for one in now["mistakes"]] == [(line, '"wide"')]
    assert f"line {line}" in page
    assert now["revision"] == 1
    assert found["says"].startswith("Course 1 of 33")


def test_an_open_page_learns_that_the_house_has_moved_on(own) -> None:
    bench = own()
    before = bench.shown("compass")
    assert bench.client.get("/making/now").json()["revision"] == before["revision"]
    bench.table.desk.edit({("dome", 0, "course"): "150 mm"}, "course")
    assert bench.client.get("/making/now").json()["revision"] != before["revision"]
    after = bench.shown("compass")
    # What is in hand is drawn, not what was kept.
    assert after["facts"]["courses"] < before["facts"]["courses"]
    assert "125 mm" in bench.file.read_text(encoding="utf-8")


# ---------------------------------------------------------------- work


def test_a_guest_who_may_only_look_takes_a_sheet_to_the_site(guest) -> None:
    bench, keys = guest
    assert bench.client.get("/making/compass/show").status_code == 403  # not without a key
    bench.client.get("/", params={"key": keys[0]})
    assert bench.shown("compass")["verdict"] == ""
    assert bench.made("compass", "svg")[1][1].startswith(b"<svg")


def test_steps_are_told_and_a_fault_of_the_program_ends_the_answer(dome, monkeypatch) -> None:
    def broken(*_given):
        raise ZeroDivisionError("no")

    assert [one.get("step") for one in dome.lines("compass", "show")][:2] == [
        "waiting for its turn",
        "courses",
    ]
    monkeypatch.setattr(tasks, "handmade", broken)
    assert "bermwright itself went wrong" in dome.lines("compass", "show")[-1]["wrong"]


class Slow:
    """A table whose workers never come to an end by themselves."""

    def __init__(self) -> None:
        self.workers, self.stopped, self.held = self, [], []

    def number(self):
        return 5

    def stop(self, number):
        self.stopped.append(number)

    def background(self, work):
        self.held.append(asyncio.get_running_loop().create_task(work))
        return self.held[-1]

    async def do(self, *_given):
        await asyncio.Event().wait()


def test_a_page_that_is_left_ends_its_work() -> None:
    table, asking = Slow(), set()

    async def left():
        lines = _lines(table, asking, 5, Errand(task=dict, given=lambda _n: (), more=lambda _n: {}))
        first = json.loads(await anext(lines))
        assert (first["job"], asking) == (5, {5})
        await lines.aclose()
        table.held[0].cancel()
        await asyncio.gather(*table.held, return_exceptions=True)

    asyncio.run(left())
    assert table.stopped == [5]
    assert asking == set()


def test_work_that_was_told_to_end_says_so(dome, monkeypatch) -> None:
    def ended(*_given):
        raise tasks.Stopped

    monkeypatch.setattr(tasks, "handmade", ended)
    assert dome.lines("compass", "show")[-1] == {"stopped": True}


def test_so_much_at_the_same_time_is_refused() -> None:
    errand = Errand(task=dict, given=lambda _n: (), more=lambda _n: {})
    with pytest.raises(AskedWrongError, match="under way already"):
        worked(Slow(), set(range(MOST)), errand)
    assert issubclass(AskedWrongError, BermwrightError)
