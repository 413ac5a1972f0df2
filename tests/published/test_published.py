"""Every row of evidence agrees, and is put down as a row should be."""

from __future__ import annotations

import pytest

from bermwright.base.sources import Provenance
from bermwright.data.works.catalogue import all_works
from bermwright.evidence import Kind, Row, all_rows, check
from docstrings import plain, public_functions

ROWS = all_rows()
PUBLIC = {described.name for described in public_functions()}


def row_id(row: Row) -> str:
    key = row.cite.work.key
    return row.id if row.id.upper().startswith(key.upper()) else f"{key}-{row.id}"


EACH_ROW = pytest.mark.parametrize("row", ROWS, ids=row_id)


@EACH_ROW
def test_agrees(row: Row) -> None:
    outcome = check(row)
    assert outcome.agrees, (
        f"{row.function}: computed {outcome.computed:.8g} {row.unit}, {row.cite} gives {row.expected}, "
        f"tolerance {outcome.tolerance:.3g}"
    )


def test_rows_exist_at_all() -> None:
    assert len(ROWS) > 100


def test_a_wider_tolerance_says_why() -> None:
    assert [row.id for row in ROWS if row.rel is not None and not row.note] == []


def test_a_closed_form_or_a_second_program_is_named_in_the_note() -> None:
    assert [row.id for row in ROWS if row.kind is not Kind.PUBLISHED and not row.note] == []


def test_what_a_builder_says_is_no_evidence() -> None:
    builder = [row.id for row in ROWS if row.cite.provenance is Provenance.BUILDER]
    assert builder == []


def test_every_cited_work_stands_in_the_bibliography() -> None:
    works = all_works()
    assert [row.id for row in ROWS if works.get(row.cite.work.key) != row.cite.work] == []


def test_every_row_calls_a_public_handbook_function() -> None:
    strangers = {
        row.function
        for row in ROWS
        if f"{row.call.__module__}.{getattr(plain(row.call), '__name__', '')}" not in PUBLIC
    }
    assert strangers == set()
