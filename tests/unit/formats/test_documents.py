"""Documents on paper and in the terminal: the same words, whatever a builder called the house."""

from __future__ import annotations

import io
import re

import pdfplumber
import pytest
from hypothesis import given, strategies

from bermwright.base.document import (
    BLANK,
    Columns,
    Contents,
    Document,
    Figure,
    FindingBlock,
    FullPage,
    Heading,
    Headline,
    Notice,
    PageBreak,
    Para,
    Points,
    SignatureLine,
    Table,
    plain,
)
from bermwright.base.drawing import Pen, Sheet, Stroke, Text
from bermwright.base.findings import Finding, Shown, Step, Verdict
from bermwright.base.sources import Cite, Provenance, Work
from bermwright.base.wording import finding_words, ratio_text, round_down
from bermwright.formats.documents import DocumentError, pdf, text
from bermwright.formats.documents.alike import leaves
from bermwright.formats.documents.inline import Voice, runs, words
from bermwright.formats.documents.plain_text import lines
from bermwright.formats.documents.typst_pdf import block, literal, markup

DATE = "2026-11-24"
WORK = Work(key="EN1995", authors="CEN", title="EN 1995-1-1, Timber", year=2004)
EVIL = (
    'Lärche #set page(fill: red) $x^2$ *b* _u_ "q" \\ `raw` <tag> @ref // no /* no */ 😀 שלום',
    '"); #panic("in") //',
    "a" * 200,
    "new\nline\x00\x1b[31m\u202eevil",
    "#" * 40,
    "\\",
)


def document(*blocks, house="Larch Bank", **more):
    fields = {"title": "Site book", "subtitle": "", "revision": "14", "date": DATE}
    mark = "calculation aid, not reviewed"
    return Document(house=house, mark=mark, blocks=blocks, **(fields | more))


def finding(verdict=Verdict.FAILS, ratio=1.3401, provenance=Provenance.MEMORY):
    cite = Cite(work=WORK, place="6.2.4 (6.19)", provenance=provenance)
    step = Step(
        says="Bending in one rib",
        symbol="M",
        formula="q l² / 8",
        filled="2 · 3² / 8",
        result=Shown(2670.0, "kNm", 2),
        cite=cite,
    )
    return Finding(
        rule="rib-bends",
        title="The ribs bend",
        part="day room",
        verdict=verdict,
        template="With the fill at {level} the ribs bend with {moment}.",
        values={"level": Shown(2.4, "level"), "moment": Shown(2670.0, "kNm", 2)},
        stage="fill to +2.40",
        case="left ahead",
        place="left haunch",
        ratio=ratio,
        corner={"soil run": "low", "unit weight": Shown(20e3, "kN/m3", 1)},
        advice="Take soil off the high side.",
        steps=(step,),
        cites=(cite,),
    )


SHEET = Sheet(
    width=120.0, height=40.0, items=(Stroke(path=((10.0, 10.0), (110.0, 10.0)), pen=Pen.CUT),), title="A line"
)

ALL_BLOCKS = (
    Heading(text="Larch Bank", level=0, lead="a _site_ book"),
    Headline(verdict=Verdict.UNKNOWN, text="Not known.", lead="Ask."),
    Contents(),
    Heading(text="Stage 5", lead="Four lifts."),
    Heading(text="Do", level=2),
    Para("Paint *marks*."),
    Para("Small print.", small=True),
    Points(items=("First.", "Then."), numbered=True),
    Points(items=("Either.",)),
    Table(head=("mark", "level", "read"), rows=(("L1", "+1.40", BLANK),), caption="Levels", strong=(1,)),
    Figure(sheet=SHEET, caption="1:100"),
    Notice(kind="stop", lines=("*Stop at +2.20.*",)),
    Notice(kind="caution", lines=("Stay out.",)),
    FindingBlock(finding=finding(), working=True),
    Columns(left=(Para("left"),), right=(Para("right"),)),
    SignatureLine(labels=("filled by", "date")),
    PageBreak(),
    FullPage(sheet=SHEET),
)


def read(made):
    with pdfplumber.open(io.BytesIO(made)) as book:
        return [page.extract_text() for page in book.pages]


def squeezed(said):
    """Words without the breaks that paper puts between them."""
    return re.sub(r"[\s\u200b]+", "", said)


def test_every_block_reaches_paper_and_terminal():
    made = document(*ALL_BLOCKS)
    paper, screen = squeezed("".join(read(pdf(made, date=DATE)))), squeezed(text(made))
    for said in (
        "Four lifts.",
        "Paint marks.",
        "Then.",
        "+1.40",
        "Stop at +2.20.",
        "Stay out.",
        "filled by",
        "Levels",
    ):
        assert squeezed(said) in paper
        assert squeezed(said) in screen


def test_every_verdict_has_a_word_on_both():
    made = document(*(FindingBlock(finding=finding(verdict)) for verdict in Verdict))
    paper = "".join(read(pdf(made, date=DATE)))
    for verdict in Verdict:
        assert squeezed(verdict.upper()) in squeezed(paper)
        assert verdict.upper() in text(made)


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_paper_and_terminal_say_the_same_of_a_finding(system):
    made = document(FindingBlock(finding=finding(), working=True), system=system)
    said = finding_words(finding(), system)
    paper, screen = squeezed("".join(read(pdf(made, date=DATE)))), squeezed(text(made))
    parts = [said.says, said.ratio, said.where, said.corner, said.advice, said.doubt, *said.sources]
    parts += [part for step in said.steps for part in (step.says, step.line)]
    for part in parts:
        assert part
        # Raised figures come out of a PDF on a line of their own, so each word is looked for.
        for word in part.split():
            assert squeezed(word) in screen
            assert squeezed(word) in paper or not word.isascii()


def test_memory_is_named_and_reading_is_not():
    assert "from memory" in finding_words(finding()).doubt
    assert finding_words(finding(provenance=Provenance.READ)).doubt == ""


def test_the_ratio_is_rounded_against_the_builder():
    assert ratio_text(1.3401) == "1.35"
    assert ratio_text(1.0001) == "1.01"
    assert ratio_text(float("nan")) == ""
    assert round_down(0.4199, 0.05) == pytest.approx(0.4)


@pytest.mark.parametrize("name", EVIL)
def test_a_name_is_never_code(name):
    blocks = (
        Heading(text=name),
        Para(plain(name)),
        Points(items=(plain(name),)),
        Notice(kind="stop", lines=(plain(name),)),
    )
    table = Table(head=(name, name), rows=((plain(name), plain(name)),))
    made = document(*blocks, table, SignatureLine(labels=(name,)), house=name, revision=name)
    pages = read(pdf(made, date=DATE))
    assert len(pages) >= 1
    seen = re.sub(r"[^a-z#]", "", name.replace("\x1b[31m", "[31m").replace("\x00", ""))
    assert seen[:10] in re.sub(r"[^a-z#]", "", "".join(pages))
    assert "\x1b" not in text(made)
    assert "\u202e" not in text(made)


def test_a_long_name_stays_on_the_page():
    made = pdf(document(Heading(text="x" * 300), Para("y" * 300), house="z" * 300), date=DATE)
    with pdfplumber.open(io.BytesIO(made)) as book:
        for page in book.pages:
            assert max(letter["x1"] for letter in page.chars) < page.width - 40
            assert min(letter["x0"] for letter in page.chars) > 40


def test_same_input_and_date_print_the_same_bytes():
    made = document(*ALL_BLOCKS)
    assert pdf(made, date=DATE) == pdf(made, date=DATE)
    assert pdf(made, date=DATE) != pdf(made, date="2026-11-25")


def test_only_the_bundled_faces_are_used():
    with pdfplumber.open(io.BytesIO(pdf(document(*ALL_BLOCKS), date=DATE))) as book:
        names = {letter["fontname"].split("+")[-1] for page in book.pages for letter in page.chars}
    assert names
    assert all(name.startswith(("LibertinusSerif", "DejaVuSansMono")) for name in names)


def test_running_text_is_at_least_eleven_points():
    with pdfplumber.open(
        io.BytesIO(pdf(document(Para("Running text."), Points(items=("Point.",))), date=DATE))
    ) as book:
        sizes = {round(letter["size"], 1) for letter in book.pages[0].chars if "Serif" in letter["fontname"]}
    assert min(sizes) >= 11.0


def test_the_mark_stands_on_every_set_page():
    made = document(Heading(text="One"), Heading(text="Two"), PageBreak(), Para("three"))
    assert all("calculation aid, not reviewed" in page for page in read(pdf(made, date=DATE)))


def test_a_figure_prints_at_true_size():
    with pdfplumber.open(
        io.BytesIO(pdf(document(Figure(sheet=SHEET), FullPage(sheet=SHEET)), date=DATE))
    ) as book:
        for page in book.pages:
            line = max(page.lines, key=lambda item: item["linewidth"])
            assert (line["x1"] - line["x0"]) / 72.0 * 25.4 == pytest.approx(100.0, abs=0.1)
        assert float(book.pages[1].width) / 72.0 * 25.4 == pytest.approx(120.0, abs=0.01)


def test_lettering_that_several_full_pages_bear_alike_is_written_once():
    said = "The caption of every sheet, long enough to be worth a layer of its own."
    alike = Text(at=(10.0, 10.0), text=said, halo=False)
    sheets = [
        Sheet(width=150.0, height=50.0, items=(alike, Text(at=(10.0, 20.0), text=f"leaf {n}", halo=False)))
        for n in (1, 2, 3)
    ]
    pages, layers = leaves(sheets)
    assert [layer.items for layer in layers] == [(alike,)]
    assert [page.sheet.items for page in pages] == [sheet.items[1:] for sheet in sheets]
    printed = document(*(FullPage(sheet=sheet) for sheet in sheets))
    assert markup(printed).count(said) == 1
    with pdfplumber.open(io.BytesIO(pdf(printed, date=DATE))) as book:
        words = [page.extract_text() for page in book.pages]
    assert [said in page and f"leaf {n}" in page for n, page in enumerate(words, 1)] == [True] * 3


def test_a_sheet_of_another_size_keeps_its_own_lettering():
    alike = Text(at=(10.0, 10.0), text="x" * 100, halo=False)
    sheets = [Sheet(width=width, height=50.0, items=(alike,)) for width in (150.0, 160.0)]
    pages, layers = leaves(sheets)
    assert layers == ()
    assert [page.sheet for page in pages] == sheets


def test_a_date_that_is_none_is_refused():
    with pytest.raises(ValueError, match="isoformat"):
        pdf(document(Para("a")), date="today")


def test_what_typst_refuses_says_so():
    with pytest.raises(DocumentError, match="PDF could not be made"):
        pdf(document(Columns(left=(), right=(), left_share=float("nan"))), date=DATE)


def test_marks_inside_words_stay_as_written():
    assert words("2_000 and *two* \\*not\\*") == "2_000 and two *not*"
    assert [run.voice for run in runs("*a* _b_ c")] == [
        Voice.STRONG,
        Voice.PLAIN,
        Voice.EMPHASIS,
        Voice.PLAIN,
    ]
    assert words(plain("*a* _b_ \\ c")) == "*a* _b_ \\ c"


@given(strategies.text())
def test_plain_text_comes_back_as_written(said):
    assert words(plain(said)) == said


@given(strategies.text(alphabet="ab*_\\ "))
def test_marks_lose_no_letter(said):
    kept = words(said)
    assert kept.replace("*", "").replace("_", "").replace("\\", "") == re.sub(r"[*_\\]", "", said)


def test_a_string_literal_closes_only_at_its_end():
    assert literal('a"b\\') == '"a\\"b\\\\"'


def test_a_heading_names_a_part_as_it_is_called() -> None:
    named = Heading(text=f"Setting out {plain('the _old_ room*')}")
    assert "Setting out the _old_ room*" in lines(named)
    assert '"Setting out the _old_ room*"' in block(named, "metric")


def test_a_column_with_nothing_in_it_is_a_column() -> None:
    said = lines(Table(head=("peg", ""), rows=(("A", ""), ("B", ""))))
    assert [line.strip() for line in said if line.strip() in {"A", "B"}] == ["A", "B"]
