"""From an example's house file to its site book, the way an owner gets it."""

from __future__ import annotations

import io
import math
import time
from pathlib import Path

import pdfplumber
import pytest

from bermwright.base.document import FullPage, Heading
from bermwright.base.findings import Verdict, worst
from bermwright.base.wording import finding_words
from bermwright.book.pages import site_book
from bermwright.book.pages.gather import gather
from bermwright.book.templates import template_count
from bermwright.formats.documents import pdf, text
from bermwright.formats.house_file import load
from bermwright.rules.assess import assess
from bermwright.rules.registry import EVERY_RULE

DATE = "2026-11-24"
EXAMPLE = Path(__file__).parents[2] / "examples" / "larch-bank.toml"
POINTS = 72.0 / 25.4
GATE = 4.0
"""Seconds of processor time for everything after the assessment, in the one run that a builder makes."""


@pytest.fixture(scope="module")
def assessment():
    return assess(load(EXAMPLE).house)


@pytest.fixture(scope="module")
def made(assessment):
    start = time.process_time()
    document = site_book(gather(assessment, rules=EVERY_RULE, revision="1", date=DATE))
    paper = pdf(document, date=DATE)
    return document, paper, time.process_time() - start


def test_the_book_is_made_within_its_gate(made):
    assert made[2] < GATE


def test_the_first_page_claims_no_more_than_was_found(assessment, made):
    with pdfplumber.open(io.BytesIO(made[1])) as book:
        first = book.pages[0].extract_text()
    assert "Have this reviewed before digging." in first
    assert "calculation aid, not reviewed" in first
    assert "invented" in first.lower()
    verdict = worst(assessment.findings)
    if verdict is not Verdict.HOLDS:
        assert "What was checked holds, with the values listed here." not in first


def test_every_finding_question_and_gap_is_printed(assessment, made):
    said = " ".join(text(made[0]).split())
    for finding in assessment.findings:
        assert " ".join(finding_words(finding).says.split()) in said
    for question in assessment.questions:
        assert question.asks in said
    for gap in assessment.not_checked:
        assert gap in said


def test_every_stage_has_its_page(assessment, made):
    titles = " ".join(block.text for block in made[0].blocks if isinstance(block, Heading))
    for study in assessment.studies.values():
        for stage in study.stages:
            assert stage.title in titles or stage.kind == "fill"


def test_the_last_sheet_of_the_templates_prints_true(assessment, made):
    count = sum(template_count(study.form) for study in assessment.studies.values())
    assert sum(isinstance(block, FullPage) for block in made[0].blocks) == count
    with pdfplumber.open(io.BytesIO(made[1])) as book:
        page = book.pages[-1]
        assert "template page" in page.extract_text()
        ends = [curve["pts"][1] for curve in page.curves if is_corner(curve["pts"])]
    xs, ys = [x for x, _ in ends], [y for _, y in ends]
    assert (max(xs) - min(xs)) / POINTS == pytest.approx(100.0, abs=0.1)
    assert (max(ys) - min(ys)) / POINTS == pytest.approx(100.0, abs=0.1)


def is_corner(points):
    """Whether a stroke is one of the four L marks: three points, legs of 8 mm."""
    if len(points) != 3:
        return False
    return all(abs(math.dist(points[1], end) / POINTS - 8.0) < 0.01 for end in (points[0], points[2]))


def test_the_same_file_and_date_print_the_same_bytes(assessment, made):
    again = site_book(gather(assessment, rules=EVERY_RULE, revision="1", date=DATE))
    assert pdf(again, date=DATE) == made[1]
