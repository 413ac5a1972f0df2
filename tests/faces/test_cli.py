"""The commands: what they print, in words and as data, and how they end."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

import pytest

from bermwright.app.outside.behind import functions_behind
from bermwright.base.document import Document, FindingBlock
from bermwright.base.findings import Finding, Shown, Step, Verdict
from bermwright.base.wording import finding_words
from bermwright.evidence.catalogue import all_rows
from bermwright.formats.assessment_json import finding_data, shown_data, working_data
from bermwright.formats.assessment_text import finding_text
from bermwright.formats.documents import text as document_text
from bermwright.rules.registry import EVERY_RULE, NOT_CHECKED

EXAMPLES = sorted((Path(__file__).resolve().parent.parent.parent / "examples").glob("*.toml"), reverse=True)
LARCH = next(path for path in EXAMPLES if path.stem == "larch-bank")
KEYS = {
    "rule", "title", "part", "stage", "case", "place", "verdict", "says", "values", "demand", "capacity",
    "unit", "ratio", "corner", "provenance", "advice", "sources", "needs_review",
}  # fmt: skip
GOOD = {"holds", "does not apply"}


def strict_json(text):
    """JSON without NaN and infinity, which Python would read without a word."""

    def refuse(constant):
        raise AssertionError(f"{constant} in JSON")

    return json.loads(text, parse_constant=refuse)


def words_of(text):
    """Text without its folding into lines."""
    return " ".join(text.split())


# ---------------------------------------------------------------- check
def test_the_first_example_holds_and_the_second_teaches(run):
    codes = {path.stem: run("check", path)[0] for path in EXAMPLES}
    assert (codes["larch-bank"], codes["kettle-hill"]) == (0, 1)
    assert set(codes.values()) == {0, 1}


def test_check_prints_every_finding_every_question_and_what_is_not_checked(run, once, example):
    found = once(example).assessment
    code, out, err = run("check", example)
    said = words_of(out)
    assert err == ""
    assert code == (0 if all(one.verdict in GOOD for one in found.findings) else 1)
    for finding in found.findings:
        assert finding.rule in said
        assert words_of(finding.says()) in said
    assert all(words_of(question.asks) in said for question in found.questions)
    assert all(words_of(name) in said for name in NOT_CHECKED)
    assert "Calculation aid, not reviewed" in said


def test_check_names_the_stage_that_fails_first(run, once):
    kettle = next(path for path in EXAMPLES if path.stem == "kettle-hill")
    found = once(kettle).assessment
    (study,) = found.studies.values()
    failing = {one.stage for one in found.findings if one.verdict is Verdict.FAILS}
    first = next(stage.name for stage in study.stages if stage.name in failing)
    out = run("check", kettle)[1]
    assert f"first fails at: {first}." in out
    assert "first fails" not in run("check", LARCH)[1]


def test_findings_come_worst_first(run, example, once):
    data = strict_json(run("check", example, "--json")[1])
    order = [Verdict(one["verdict"]).severity for one in data["findings"]]
    assert order == sorted(order)
    assert data["verdict"] == data["findings"][0]["verdict"]
    assert len(data["findings"]) == len(once(example).assessment.findings)


def test_json_has_the_promised_keys_and_no_number_that_is_none(run, example, once):
    assert once(example)
    data = strict_json(run("check", example, "--json")[1])
    assert all(set(one) == KEYS for one in data["findings"])
    assert data["not_checked"] == list(NOT_CHECKED)
    assert data["reviewed"] is False


def test_what_is_not_known_is_said_in_plain_words(run, bare):
    for words in ((), ("--json",), ("--units", "imperial")):
        code, out, _ = run("check", bare, *words)
        assert code == 1
        assert not re.findall(r"\b(?:None|nan|inf)\b", out)


def test_tight_passes_only_where_it_is_accepted(run, once, monkeypatch):
    from dataclasses import replace

    from bermwright.app import assessing

    found = once(LARCH)
    holding = tuple(replace(one, verdict=Verdict.HOLDS) for one in found.assessment.findings)

    def with_first(verdict):
        first = replace(holding[0], verdict=verdict)
        assessment = replace(found.assessment, findings=(first, *holding[1:]))
        return lambda *_args, **_more: replace(found, assessment=assessment)

    for verdict, plain, accepting in (
        (Verdict.HOLDS, 0, 0),
        (Verdict.TIGHT, 1, 0),
        (Verdict.UNKNOWN, 1, 1),
        (Verdict.FAILS, 1, 1),
        (Verdict.DOES_NOT_APPLY, 0, 0),
    ):
        monkeypatch.setattr(assessing, "assess_file", with_first(verdict))
        assert run("check", "any")[0] == plain
        assert run("check", "any", "--accept-tight")[0] == accepting


def test_an_assessment_without_findings_does_not_hold(once):
    from dataclasses import replace

    from bermwright.app.assessing import holds

    assert not holds(replace(once(LARCH).assessment, findings=()))


def test_without_stop_marks_nobody_is_told_that_they_hold(run):
    code, out, _ = run("check", LARCH, "--no-stop-marks", "--json")
    verdicts = {one["rule"]: one["verdict"] for one in strict_json(out)["findings"]}
    assert code == 1
    assert verdicts["fill-keeps-to-its-stop-marks"] == "unknown"


def test_imperial_units_change_the_words_and_never_the_verdict(run, once):
    path = LARCH
    assert once(path)
    metric = strict_json(run("check", path, "--json")[1])
    imperial = strict_json(run("check", path, "--json", "--units", "imperial")[1])
    for one, other in zip(metric["findings"], imperial["findings"], strict=True):
        assert (one["verdict"], one["demand"], one["unit"]) == (
            other["verdict"],
            other["demand"],
            other["unit"],
        )
    assert any(
        one["says"] != other["says"]
        for one, other in zip(metric["findings"], imperial["findings"], strict=True)
    )
    assert " psi" in run("check", path, "--units", "imperial")[1]


def test_a_house_of_which_little_is_known_gets_questions_and_no_verdict_that_holds(run, bare):
    code, out, _ = run("check", bare, "--json")
    data = strict_json(out)
    assert code == 1
    assert {one["verdict"] for one in data["findings"]} <= {"unknown", "does not apply"}
    assert {one["rule"] for one in data["findings"]} == {rule.name for rule in EVERY_RULE}
    blocked = {rule for question in data["questions"] for rule in question["blocks"]}
    assert blocked <= {rule.name for rule in EVERY_RULE}
    assert len(data["questions"]) > 10


def test_tables_that_nothing_reads_yet_are_named(run, bare):
    bare.write_text(bare.read_text() + '\n[[furniture]]\nname = "pantry"\n', encoding="utf-8")
    assert strict_json(run("check", bare, "--json")[1])["not_read_yet"] == ["furniture"]
    assert "Not read yet: furniture." in run("check", bare)[1]


# ---------------------------------------------------------------- one finding on every face
def test_text_json_and_book_say_the_same(once, example):
    for finding in once(example).assessment.findings:
        data = finding_data(finding)
        words = finding_words(finding)
        terminal = words_of(finding_text(finding))
        page = Document(
            title="", subtitle="", house="", revision="", date="", mark="",
            blocks=(FindingBlock(finding=finding, working=True),),
        )  # fmt: skip
        book = words_of(document_text(page))
        assert data["says"] == words.says
        for said in (words.says, words.ratio, *(step.line for step in words.steps), *words.sources):
            assert words_of(said) in terminal
            assert words_of(said) in book
        assert {source["text"] for source in data["sources"]} >= set(words.sources)
        texts = [value["text"] for value in data["values"].values() if isinstance(value, dict)]
        shown = [value.text() for value in finding.values.values() if isinstance(value, Shown)]
        assert texts == shown


def test_unknown_numbers_are_null_on_every_place():
    nan = math.nan
    step = Step(says="A", symbol="a", formula="b", filled="c", result=Shown(nan, "kN"))
    finding = Finding(
        rule="r", title="T", part="p", verdict=Verdict.UNKNOWN, template="{a} of {b}",
        values={"a": Shown(nan, "kN"), "b": Shown(math.inf, "m")}, demand=nan, capacity=math.inf, unit="kN",
        ratio=nan, corner={"K": Shown(-math.inf)}, steps=(step,),
    )  # fmt: skip
    data = {**finding_data(finding), "working": working_data(finding)}
    strict_json(json.dumps(data, allow_nan=False))
    assert (data["demand"], data["capacity"], data["ratio"]) == (None, None, None)
    assert data["values"]["a"] == {"value": None, "unit": "kN", "text": "unknown"}
    assert data["working"][0]["result"]["value"] is None
    assert "unknown" in finding_text(finding)


def test_levels_and_slopes_have_a_plain_unit_in_json():
    assert shown_data(Shown(2.4, "level")) == {"value": 2.4, "unit": "m", "text": "+2.40"}
    slope = shown_data(Shown(math.atan(0.4), "slope"))
    assert slope["unit"] == "deg"
    assert slope["value"] == pytest.approx(21.8014, abs=1e-4)


# ---------------------------------------------------------------- explain
@pytest.mark.parametrize("rule", EVERY_RULE, ids=lambda rule: rule.name)
def test_every_rule_is_explained(run, once, rule):
    path = LARCH
    code, out, err = run("explain", rule.name.replace("-", " "), path)
    said = words_of(out)
    own = [one for one in once(path).assessment.findings if one.rule == rule.name]
    assert (code, err) == (0, "")
    for text in (rule.title, rule.why, *(cite.place for cite in rule.cites), *rule.asks):
        assert words_of(text) in said
    assert own
    for finding in own:
        assert words_of(finding.says()) in said
        assert all(words_of(step.says) in said for step in finding.steps)


def test_explain_needs_no_file_and_takes_words_without_quotes(run):
    assert (
        run("explain", "ribs", "bend")[1] == run("explain", "ribs-bend")[1] == run("explain", "Ribs Bend")[1]
    )
    data = strict_json(run("explain", "ribs-bend", "--json")[1])
    assert data["house"] is None
    assert data["findings"] == []
    assert all(row["agrees"] for row in data["evidence"])
    assert {row["function"] for row in data["evidence"]} <= set(data["functions"])


def test_explain_as_data_carries_the_working(run, once):
    data = strict_json(run("explain", "ribs-bend", LARCH, "--json")[1])
    assert data["house"] == once(LARCH).assessment.house.name
    worked = [one for one in data["findings"] if one["working"]]
    assert worked
    for one in worked:
        assert set(one) == KEYS | {"working"}
        assert set(one["working"][0]) == {"says", "symbol", "formula", "filled", "result", "source"}


@pytest.mark.parametrize("rule", EVERY_RULE, ids=lambda rule: rule.name)
def test_a_misspelt_rule_is_answered_with_the_nearest(run, rule):
    code, out, err = run("explain", rule.name[:3] + rule.name[4:])
    assert (code, out) == (2, "")
    assert f"Did you mean {rule.name}?" in err


def test_what_stands_behind_a_rule_is_found_and_has_evidence():
    known = {row.function for row in all_rows()}
    behind = {rule.name: functions_behind(rule) for rule in EVERY_RULE}
    bending = behind["ribs-bend"]
    assert "bermwright.handbook.timber.stress.bending_and_compression" in bending
    assert "bermwright.handbook.frames.solving.solve" in bending
    # Some rules only read the file: what is known, what is closed, what fits.
    assert sum(map(bool, behind.values())) >= 0.75 * len(EVERY_RULE)
    assert {name for names in behind.values() for name in names} <= known


# ---------------------------------------------------------------- count, evidence, schema
def test_count_says_every_amount_with_its_working(run, example):
    code, out, err = run("count", example)
    data = strict_json(run("count", example, "--json")[1])
    said = words_of(out)
    assert (code, err) == (0, "")
    rows = [row for vault in data["vaults"] for row in vault["quantities"]]
    assert len(rows) > 20
    for row in rows:
        assert words_of(f"{row['name']}: {row['text']}") in said
        assert row["working"] or row["note"]
        assert row["low"] is None or row["low"] <= row["high"]


def test_count_of_an_unknown_shape_says_what_is_missing(run, bare):
    code, out, err = run("count", bare)
    assert (code, out) == (2, "")
    assert "vault.cover" in err
    assert err.count("\n") == 1


def test_evidence_of_one_work_agrees(run):
    code, out, _ = run("evidence", "--work", "THOM1954", "--json")
    rows = strict_json(out)
    assert code == 0
    assert rows
    assert all(row["agrees"] and row["work"] == "THOM1954" for row in rows)
    assert {"id", "work", "expected", "computed", "unit", "provenance", "agrees"} <= set(rows[0])
    assert f"{len(rows)} values" in run("evidence", "--work", "THOM1954")[1]


def test_evidence_of_no_work_is_refused(run):
    code, _, err = run("evidence", "--work", "NOBODY1900")
    assert code == 2
    assert "THOM1954" in err


def test_schema_is_one_object_of_json(run):
    assert strict_json(run("schema")[1])["type"] == "object"
