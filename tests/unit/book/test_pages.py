"""Pages of the site book: what stands where, and that nothing is claimed that is not known."""

from __future__ import annotations

import io
import math
from dataclasses import replace

import numpy as np
import pdfplumber
import pytest

from bermwright.base.document import (
    BLANK,
    Columns,
    FindingBlock,
    FullPage,
    Heading,
    Headline,
    Notice,
    Para,
    Points,
    SignatureLine,
    Table,
)
from bermwright.base.findings import Verdict
from bermwright.base.ranges import Range
from bermwright.base.sources import Provenance
from bermwright.book.pages import StopLine, site_book, template_book
from bermwright.book.pages.cover import first_failure, headline
from bermwright.book.pages.findings import ordered
from bermwright.book.pages.setting_out.curve import ordinate_tables
from bermwright.book.pages.stages import paged, stage_pages
from bermwright.book.templates import template_count
from bermwright.form.setout.ordinates import by_distance, by_height
from bermwright.formats.documents import pdf, text
from bermwright.stages.nouns import StageKind


def flat_blocks(blocks):
    for block in blocks:
        yield block
        if isinstance(block, Columns):
            yield from flat_blocks((*block.left, *block.right))


def of_kind(blocks, kind):
    return [block for block in flat_blocks(blocks) if isinstance(block, kind)]


def page_of(blocks, title):
    """The blocks from a chapter's heading to the next."""
    starts = [i for i, block in enumerate(blocks) if isinstance(block, Heading) and block.level == 1]
    first = next(i for i in starts if title in blocks[i].text)
    after = [i for i in starts if i > first]
    return blocks[first : after[0] if after else None]


@pytest.fixture(scope="module")
def document(book):
    return site_book(book, templates=False)


def with_findings(book, *changes):
    base = book.findings[0]
    return replace(book, findings=tuple(replace(base, **change) for change in changes))


def test_review_comes_before_everything(document):
    notice = of_kind(document.blocks, Notice)[0]
    assert notice.kind == "stop"
    assert notice.lines[0].startswith("*Have this reviewed before digging.*")
    assert document.mark == "calculation aid, not reviewed"


def test_every_chapter_is_there_in_order(document):
    chapters = [block.text for block in of_kind(document.blocks, Heading) if block.level == 1]
    wanted = [
        "What holds, and what does not",
        "Before anybody digs",
        "Stage 1.",
        "Setting out the curve",
        "The ribs of",
        "Quantities",
        "Findings with their working",
        "What was checked, and with which values",
        "Sources",
    ]
    places = [next(i for i, chapter in enumerate(chapters) if chapter.startswith(start)) for start in wanted]
    assert places == sorted(places)


@pytest.mark.parametrize(
    ("changes", "verdict"),
    [
        (({"verdict": Verdict.HOLDS}, {"verdict": Verdict.FAILS}), Verdict.FAILS),
        (({"verdict": Verdict.HOLDS}, {"verdict": Verdict.UNKNOWN}), Verdict.UNKNOWN),
        (({"verdict": Verdict.TIGHT}, {"verdict": Verdict.HOLDS}), Verdict.TIGHT),
        (({"verdict": Verdict.HOLDS},), Verdict.HOLDS),
    ],
)
def test_the_headline_claims_no_more_than_the_worst_finding(book, changes, verdict):
    said = headline(with_findings(book, *changes))
    assert said.verdict is verdict
    assert ("holds" in said.text) == (verdict in {Verdict.HOLDS, Verdict.TIGHT})
    assert "not checked" in said.lead


def test_the_headline_tells_the_worst_finding_not_the_first(book):
    changed = with_findings(
        book,
        {"verdict": Verdict.HOLDS, "template": "Fine."},
        {"verdict": Verdict.FAILS, "template": "It breaks."},
    )
    assert "It breaks." in headline(changed).text
    assert "Fine." not in headline(changed).text


def test_no_finding_is_unknown(book):
    said = headline(replace(book, findings=()))
    assert said.verdict is Verdict.UNKNOWN
    assert "Nothing could be checked" in said.text


def test_unknown_beside_failing_is_said(book):
    said = headline(with_findings(book, {"verdict": Verdict.FAILS}, {"verdict": Verdict.UNKNOWN}))
    assert "1 more cannot be said" in said.lead


def test_the_first_stage_to_fail_is_named_in_building_order(book):
    changed = with_findings(
        book,
        {"verdict": Verdict.FAILS, "stage": "turf", "ratio": 3.0},
        {"verdict": Verdict.FAILS, "stage": "fill to +1.45", "ratio": 1.1},
    )
    assert first_failure(changed) == "The first stage to fail is stage 7, fill to +1.45."
    assert first_failure(book) == ""


def test_findings_stand_worst_first(book):
    ratios = [0.5, 1.2, 0.95, 0.4]
    verdicts = [Verdict.HOLDS, Verdict.FAILS, Verdict.TIGHT, Verdict.UNKNOWN]
    changed = with_findings(
        book, *({"ratio": r, "verdict": v} for r, v in zip(ratios, verdicts, strict=True))
    )
    found = [finding.verdict for finding in ordered(changed.findings)]
    assert found == [Verdict.FAILS, Verdict.UNKNOWN, Verdict.TIGHT, Verdict.HOLDS]


def test_what_was_not_checked_and_what_is_asked_are_named(document):
    said = text(replace(document, blocks=page_of(document.blocks, "What holds")))
    for words in (
        "wind on bare ribs",
        "How deep is the ground water?",
        "Dig a test pit",
        "site.water_depth",
    ):
        assert words in said
    assert "DA2" in text(replace(document, blocks=page_of(document.blocks, "What was checked")))


def test_lifts_done_alike_share_a_page_of_four(book):
    pages = paged(book.vaults[0].stages)
    assert [len(page.stages) for page in pages] == [1, 1, 1, 4, 4, 4, 1, 1, 1, 1, 1]
    assert pages[3].number == "4 to 7"
    assert sum(len(page.stages) for page in pages) == len(book.vaults[0].stages)


def test_a_lift_with_another_way_of_working_gets_its_own_page(book):
    stages = list(book.vaults[0].stages)
    stages[5] = replace(stages[5], do=(stages[5].do[0], "Keep the ballast on."))
    assert [len(page.stages) for page in paged(tuple(stages))][3:6] == [2, 1, 4]


def test_a_stage_page_says_do_measure_stop_and_sign(book):
    blocks = page_of(stage_pages(book.vaults[0], book), "Stage 4 to 7")
    assert [block.text for block in of_kind(blocks, Heading)[1:]] == ["Do", "Measure", "Sign"]
    table = of_kind(blocks, Table)[0]
    assert [row[1] for row in table.rows] == ["+0.85", "+1.05", "+1.25", "+1.45"]
    assert [row[4] for row in table.rows] == ["0.60 m", "0.55 m", "0.50 m", "0.45 m"]
    assert all(row[-1] == BLANK for row in table.rows)
    assert {notice.kind for notice in of_kind(blocks, Notice)} == {"stop", "caution"}
    assert "0.45 m ahead at +1.45" in of_kind(blocks, Notice)[0].lines[0]
    assert len(of_kind(blocks, SignatureLine)) == 1


def test_every_stage_page_has_a_caution_and_the_local_rules(book):
    blocks = stage_pages(book.vaults[0], book)
    assert len([n for n in of_kind(blocks, Notice) if n.kind == "caution"]) == len(
        paged(book.vaults[0].stages)
    )


def test_where_no_lead_holds_the_remedy_is_printed_and_no_mark(book):
    blocks = page_of(stage_pages(book.vaults[0], book), "Stage 16")
    stop = of_kind(blocks, Notice)[0]
    assert (
        stop.lines[0] == "*Stop before +3.25.* Do not fill above +3.25 without 0.24 m of soil on the crown."
    )
    assert of_kind(blocks, Table)[0].rows[0][4] == "nothing"


@pytest.mark.parametrize("ratio", [None, float("nan")])
def test_an_unknown_stage_never_reads_as_holding(book, ratio):
    vault = replace(book.vaults[0], stage_ratio={"turf": ratio})
    blocks = page_of(stage_pages(vault, book), "Lay the turf")
    assert "Not known whether it holds" in of_kind(blocks, Notice)[0].lines[0]


def test_a_failing_stage_says_do_not_begin(book):
    vault = replace(book.vaults[0], stage_ratio=dict(book.vaults[0].stage_ratio) | {"fill to +1.25": 1.301})
    stop = of_kind(page_of(stage_pages(vault, book), "Fill to +1.45"), Notice)[0]
    assert "fill to +1.25 (1.31)" in stop.lines[0]
    assert "do not begin" in stop.lines[0]


def test_an_unknown_lead_is_unknown_on_the_page(book):
    vault = replace(book.vaults[0], stops=(StopLine(level=0.85, lead=None),))
    blocks = page_of(stage_pages(vault, book), "Fill to +1.05")
    assert [row[4] for row in of_kind(blocks, Table)[0].rows] == ["unknown"] * 2
    assert "Not known how far" in of_kind(blocks, Notice)[0].lines[0]


def test_the_last_lift_has_nothing_that_could_be_ahead_of_it(book):
    vault = replace(book.vaults[0], stops=book.vaults[0].stops[:-1])
    blocks = page_of(stage_pages(vault, book), "Fill to +3.25")
    assert of_kind(blocks, Table)[0].rows[-1][4] == "keep level"
    assert not any("Not known" in line for line in of_kind(blocks, Notice)[0].lines)


def test_ordinates_lie_on_the_curve(form):
    heights = by_distance(form.rib, form.springing)
    for place, row in zip(heights.at, heights.right, strict=True):
        assert row[1] == pytest.approx(2.2 * math.sqrt(1.0 - (place / 2.4) ** 2), abs=2e-4)
    across = by_height(form.rib, form.springing)
    for place, row in zip(across.at, across.left, strict=True):
        assert row[1] == pytest.approx(2.4 * math.sqrt(1.0 - (place / 2.2) ** 2), abs=5e-4)
    assert heights.alike
    assert across.alike


def test_inside_and_outside_are_true_offsets_not_shifts(form):
    rib = form.rib
    heights = by_distance(rib, form.springing)
    crown = heights.right[0]
    assert crown[1] - crown[0] == pytest.approx(rib.depth / 2, abs=1e-4)
    last = heights.right[-1]
    assert last[1] - last[0] > rib.depth / 2 * 1.2


def test_the_two_families_meet(form):
    """Every place on the curve is caught by one family: the last rows reach past the same point."""
    heights, across = by_distance(form.rib, form.springing), by_height(form.rib, form.springing)
    place, height = heights.at[-1], across.at[-1]
    assert (place / 2.4) ** 2 + (height / 2.2) ** 2 >= 1.0


def test_a_lopsided_rib_prints_both_sides(form):
    line = form.rib.centreline
    leaning = replace(line, z=line.z + 0.02 * line.x)
    lopsided = replace(form.rib, centreline=leaning)
    assert not by_distance(lopsided, form.springing).alike
    assert np.isfinite(by_height(lopsided, form.springing).left).any()


def between(measured, curve):
    """Longest way along a curve, from foot to foot, without a point that is measured (m)."""
    way = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(curve.x), np.diff(curve.z)))])
    places = sorted(way[int(np.argmin(np.hypot(curve.x - x, curve.z - z)))] for x, z in measured)
    return float(np.max(np.diff([0.0, *places, way[-1]])))


def points_of(form):
    """Every point of the inside that both families of ordinates give."""
    near, feet = by_distance(form.rib, form.springing), by_height(form.rib, form.springing)
    for side, left, right in ((-1.0, near.left, feet.left), (1.0, near.right, feet.right)):
        yield from ((side * at, z + form.springing) for at, z in zip(near.at, left[:, 0], strict=True))
        yield from ((side * x, at + form.springing) for at, x in zip(feet.at, right[:, 0], strict=True))


def test_a_leaning_curve_is_measured_without_a_gap(form):
    """One side is flat farther out than the other: neither is left with a stretch that no row measures."""
    line = form.rib.inside
    leaning = replace(line, x=line.x + 0.6 * (line.z - form.springing) / 2.2)
    turned = replace(leaning, angle=np.unwrap(np.arctan2(np.gradient(leaning.z), np.gradient(leaning.x))))
    form = replace(form, rib=replace(form.rib, inside=turned, centreline=turned, outside=turned))
    found = [(x, z) for x, z in points_of(form) if np.isfinite(x) and np.isfinite(z)]
    for x, z in found:
        assert np.min(np.hypot(turned.x - x, turned.z - z)) < 0.006  # the curve's points lie 8 mm apart
    assert between(found, turned) < 0.3


def test_a_steep_point_is_measured_by_heights_alone(form):
    """A lancet is steeper than 50 degrees up to its point."""
    x = np.concatenate([np.linspace(-1.2, 0.0, 200), np.linspace(0.0, 1.2, 200)])
    steep = np.full(200, math.atan(3.0))
    line = replace(
        form.rib.centreline, x=x, z=form.springing + 3.0 * (1.2 - np.abs(x)),
        s=np.hypot(1.0, 3.0) * (x + 1.2), angle=np.concatenate([steep, -steep]),
    )  # fmt: skip
    lancet = replace(form, rib=replace(form.rib, inside=line, centreline=line, outside=line))
    near_crown, near_feet = ordinate_tables(lancet, "metric")
    assert near_crown == (Para("The curve is nowhere flatter than 50 degrees: heights alone will do."),)
    assert len(of_kind(near_feet, Table)[0].rows) > 5


def test_a_chain_is_offered_for_a_catenary_alone(book):
    for curve, said in (("catenary", "hung from the two feet"), ("under cover", "does *not* give")):
        made = site_book(replace(book, vaults=(replace(book.vaults[0], curve=curve),)), templates=False)
        notes = [block.text for block in of_kind(made.blocks, Para) if block.text.startswith("*String")]
        assert len(notes) == 1
        assert said in notes[0]
        assert "centreline" in notes[0]


def test_the_pieces_of_all_ribs_are_counted(book, document):
    table = next(block for block in of_kind(document.blocks, Table) if "in all" in block.head)
    assert sum(int(row[-1]) for row in table.rows) == 13 * len(book.vaults[0].form.rib.pieces)


def test_templates_follow_with_their_count_said_before(book):
    made = site_book(book)
    count = template_count(book.vaults[0].form)
    assert len(of_kind(made.blocks, FullPage)) == count
    assert any(f"{count} sheets of A4" in block.lead for block in of_kind(made.blocks, Heading))
    assert len(of_kind(template_book(replace(book, paper="A3")).blocks, FullPage)) < count


def test_sources_mark_what_rests_on_memory(book, document):
    table = of_kind(page_of(document.blocks, "Sources"), Table)[0]
    assert "from memory" in table.rows[0][2]
    read = replace(book.findings[0].cites[0], provenance=Provenance.READ)
    clean = replace(book, findings=(replace(book.findings[0], cites=(read,), steps=()),))
    table = of_kind(page_of(site_book(clean, templates=False).blocks, "Sources"), Table)[0]
    assert table.rows[0][2] == "read"


def test_working_shows_every_finding_that_has_steps(book, document):
    blocks = of_kind(page_of(document.blocks, "Findings with"), FindingBlock)
    assert len(blocks) == len(book.findings)
    assert all(block.working for block in blocks)


def test_nothing_is_ever_called_safe(book):
    assert "safe" not in text(site_book(book)).lower().replace("fail-safe", "")


def test_imperial_pages_show_feet(book):
    made = text(site_book(replace(book, system="imperial"), templates=False))
    assert "+4 ft 9 1/16 in" in made
    assert "1 ft 5 11/16 in" in made


def test_a_house_without_vaults_still_makes_a_book(book):
    bare = replace(book, vaults=(), findings=(), quantities=(), questions=())
    made = site_book(bare)
    assert of_kind(made.blocks, Headline)[0].verdict is Verdict.UNKNOWN
    assert "leaves no question open" in " ".join(block.text for block in of_kind(made.blocks, Para))


def test_every_kind_of_stage_has_something_to_measure(book):
    for page in paged(book.vaults[0].stages):
        if page.last.kind is not StageKind.FILL:
            blocks = page_of(stage_pages(book.vaults[0], book), page.last.title)
            rows = of_kind(blocks, Table)[0].rows
            assert all(row[2:] == (BLANK, BLANK) for row in rows)
            assert len(rows) >= 2
    assert of_kind(stage_pages(book.vaults[0], book), Points)


def test_every_stage_keeps_to_one_page(book):
    """Even where nothing is known, some lifts are blocked, and left and right differ."""
    vault = book.vaults[0]
    first, second, third, *_ = vault.stops
    stops = (
        first,
        replace(second, lead=0.3),
        replace(third, lead=0.0, remedy="Do not fill without two props."),
    )
    ratios = {stage.name: 1.2 if i % 2 else None for i, stage in enumerate(vault.stages)}
    lifts = tuple(replace(lift, left=14.7, left_loose=Range(18.0, 19.9)) for lift in vault.lifts)
    hard = replace(vault, stops=stops, stage_ratio=ratios, lifts=lifts)
    document = replace(site_book(book, templates=False), blocks=stage_pages(hard, book))
    with pdfplumber.open(io.BytesIO(pdf(document, date="2026-11-24"))) as made:
        chapters = [block for block in document.blocks if isinstance(block, Heading) and block.level == 1]
        assert len(made.pages) == len(chapters)
