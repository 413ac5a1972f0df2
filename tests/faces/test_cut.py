"""`cut`: the words, every file read back by somebody else's reader, refusals, and Ctrl-C."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import openpyxl
import pdfplumber
import pytest

from bermwright.app import cutting
from bermwright.cli.main import main

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "larch-bank.toml"
MARK = "calculation aid, not reviewed"
MM = 72.0 / 25.4
PLANNED: dict[bytes, object] = {}
PLAN = cutting.planned


@pytest.fixture(autouse=True)
def plan_once(monkeypatch):
    """The plan of the example is made once: it is always the same."""

    def once(house, forms, progress=cutting.quiet, system="metric"):
        key = repr((house.stock, house.saw, house.logs, house.vaults, system)).encode()
        if key not in PLANNED:
            PLANNED[key] = PLAN(house, forms, progress, system)
        return PLANNED[key]

    monkeypatch.setattr(cutting, "planned", once)


@pytest.fixture
def house(tmp_path):
    path = tmp_path / "larch-bank.toml"
    path.write_text(EXAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
    return path


def cut(house, name, *more):
    path = house.with_name(name)
    code = main(["cut", str(house), "--date", "2026-11-24", "-o", str(path), *more])
    return code, path


def test_the_terminal_says_boards_bound_offcuts_walls_and_windows(house, capsys):
    assert main(["cut", str(house)]) == 0
    out = capsys.readouterr().out
    said = ("None for these blanks can use less", "Offcuts to keep", "Jig board", "from offcuts", "ward door")
    for words in (*said, "Look for nails first", MARK):
        assert words in out


def test_feet_and_inches(house, capsys):
    assert main(["cut", str(house), "--units", "imperial"]) == 0
    out = capsys.readouterr().out
    assert " in" in out
    assert "3 ft" in out
    assert (
        " mm"
        not in out.split("Setting", maxsplit=1)[0].split("Look for nails")[0].split("What is optimised")[0]
    )


def test_json_holds_every_piece_once(house, capsys):
    assert main(["cut", str(house), "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    one = data["lists"][0]
    labels = [label for board in one["boards"] for cut in board["cuts"] for label in cut["labels"]]
    assert data["complete"]
    assert len(labels) == sum(kind["wanted"] for kind in one["pieces"])
    assert one["bound_m2"] <= one["used_m2"]
    assert {hole["opening"] for hole in data["windows"]["holes"]} == {
        "front door",
        "south window",
        "back window",
    }


def test_csv_read_back_has_every_piece_in_order_on_its_board(house):
    code, path = cut(house, "cut.csv")
    rows = list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8"))))
    assert code == 0
    pieces = [row for row in rows if row["what"] == "piece"]
    assert len({row["label"] for row in pieces if row["code"] < "T"}) > 600
    for row in rows:
        assert 0.0 <= float(row["from mm"]) < float(row["to mm"]) <= float(row["board length mm"])


def test_a_name_that_looks_like_a_formula_stays_a_name(house):
    text = house.read_text(encoding="utf-8").replace('name = "barn floor A"', 'name = "=1+1"')
    house.write_text(text, encoding="utf-8")
    _, path = cut(house, "cut.csv")
    assert ", =1+1 1," in path.read_text(encoding="utf-8")
    _, book = cut(house, "cut.xlsx")
    cells = [cell for row in openpyxl.load_workbook(book)["cuts"].iter_rows(min_row=2) for cell in row[:2]]
    assert all(cell.data_type == "s" for cell in cells)


def test_xlsx_read_back_agrees_with_csv_and_is_always_the_same(house):
    _, path = cut(house, "cut.xlsx")
    _, again = cut(house, "again.xlsx")
    _, listed = cut(house, "cut.csv")
    book = openpyxl.load_workbook(path, read_only=True)
    rows = list(book["cuts"].iter_rows(values_only=True))
    expected = list(csv.reader(io.StringIO(listed.read_text(encoding="utf-8"))))
    assert path.read_bytes() == again.read_bytes()
    assert book.sheetnames == ["cuts", "pieces", "offcuts", "missing", "left in the yard"]
    assert len(rows) == len(expected)
    assert [str(cell) for cell in rows[1][:2]] == expected[1][:2]
    assert float(rows[7][8]) == float(expected[7][8])


def test_pdf_has_labels_of_true_size_and_the_mark_everywhere(house):
    code, path = cut(house, "cut.pdf")
    _, again = cut(house, "again.pdf")
    assert code == 0
    assert path.read_bytes() == again.read_bytes()
    with pdfplumber.open(path) as document:
        last = document.pages[-1]
        across = sorted({round(one["x0"] / MM, 2) for one in last.lines if abs(one["x0"] - one["x1"]) < 0.01})
        assert across[1] - across[0] == pytest.approx(38.1, abs=0.05)
        assert across[2] - across[0] == pytest.approx(40.6, abs=0.05)
        assert all(MARK in (page.extract_text() or "") for page in (document.pages[2], last))


def test_without_labels_the_pdf_is_short(house):
    _, path = cut(house, "cut.pdf", "--no-labels")
    with pdfplumber.open(path) as document:
        assert len(document.pages) < 20


def test_dxf_read_back_is_sound(house):
    import ezdxf

    _, path = cut(house, "cut.dxf", "--no-labels")
    document = ezdxf.readfile(path)
    assert not document.audit().errors
    assert len(document.modelspace()) > 100


def test_svgs_are_numbered(house):
    _, path = cut(house, "cut.svg", "--no-labels")
    found = sorted(path.parent.glob("cut-*.svg"))
    assert len(found) > 5
    assert all(MARK in one.read_text(encoding="utf-8") for one in found)


def test_pieces_without_boards_give_1_and_are_named(house, capsys):
    text = house.read_text(encoding="utf-8")
    house.write_text(text.replace("count = 70", "count = 6"), encoding="utf-8")
    assert main(["cut", str(house)]) == 1
    out = capsys.readouterr().out
    assert "find no board" in out
    assert "Way out" in out


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('kerf = "4 mm"', 'kerf = "-4 mm"', "saw > kerf"),
        ('["2.95 m", "3.05 m"]', '["2.95 m", "3.95 m"]', "faults"),
        ('length = "3.9 m"', 'length = "39 m"', "no board"),
    ],
)
def test_a_yard_that_cannot_be_is_refused(house, capsys, old, new, says):
    house.write_text(house.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    code, path = cut(house, "cut.pdf")
    assert code == 2
    assert says in capsys.readouterr().err
    assert not path.exists()


def test_a_house_without_ribs_and_windows_has_nothing_to_cut(house, capsys):
    house.write_text('[house]\nname = "Bare"\n', encoding="utf-8")
    assert main(["cut", str(house)]) == 2
    assert "no vault" in capsys.readouterr().err


def test_a_foreign_file_is_not_replaced(house, capsys):
    path = house.with_name("accounts.csv")
    path.write_text("date,amount\n", encoding="utf-8")
    assert main(["cut", str(house), "-o", str(path)]) == 2
    assert "left as it is" in capsys.readouterr().err
    assert path.read_text(encoding="utf-8") == "date,amount\n"


def test_stopped_early_nothing_is_kept(house, monkeypatch, capsys):
    def stopped(*_args):
        raise KeyboardInterrupt

    monkeypatch.setattr(cutting, "planned", stopped)
    code, path = cut(house, "cut.pdf")
    assert code == 130
    assert "Nothing was written" in capsys.readouterr().err
    assert not path.exists()


def test_what_the_solver_prints_stays_out_of_the_answer(capfd):
    import os

    with cutting.hushed():
        os.write(1, b"chatter of a solver")
    os.write(1, b"the answer")
    assert capfd.readouterr().out == "the answer"
