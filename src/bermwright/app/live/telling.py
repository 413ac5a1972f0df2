"""What a full run found, in words for one window: findings with their working, questions, and the axes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from bermwright.base.findings import Finding, Question, Shown, Verdict, verdict_of
from bermwright.base.units import show
from bermwright.base.wording import corner_text, filled_text, ratio_text, result_text, source_text
from bermwright.book.pages.mend.words import ONLY_HERE, no_way
from bermwright.formats.assessment_json import cite_data, cites_of
from bermwright.rules.registry import rule_named

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from bermwright.adapt.mend.nouns import Mended, Proposal
    from bermwright.adapt.winter.open_ground import OpenGround
    from bermwright.app.live.nouns import Found, StageFound
    from bermwright.base.findings import Step
    from bermwright.house import House


def found_data(found: Found, house: House, system: str) -> dict[str, Any]:
    """Everything a full run found, worst first."""
    return {
        "headline": headline(found, system),
        "counts": _counts(found),
        "findings": [
            finding_data(finding, number, found, house, system)
            for number, finding in enumerate(found.findings)
        ],
        "questions": [question_data(one, house) for one in found.questions],
        "not_checked": list(found.not_checked),
        "not_read": list(found.not_read),
    }


def _counts(found: Found) -> dict[str, int]:
    return {str(verdict): sum(one.verdict is verdict for one in found.findings) for verdict in Verdict}


def headline(found: Found, system: str) -> dict[str, str]:
    """One sentence that claims no more than the worst or unknown finding, and what next."""
    first = found.findings[0] if found.findings else None
    counts = _counts(found)
    failing, unknown, tight = (counts[str(one)] for one in (Verdict.FAILS, Verdict.UNKNOWN, Verdict.TIGHT))
    if failing and first is not None:
        more = f" {failing} checks do not hold." if failing > 1 else ""
        return {"verdict": "fails", "text": f"{first.says(system)}{more}", "next": first.advice}
    if unknown or first is None:
        are = "checks are" if unknown != 1 else "check is"
        text = f"{unknown} {are} not known; the rest holds with these values."
        return {
            "verdict": "unknown",
            "text": text,
            "next": "Answer the questions; each tells the cheapest way.",
        }
    if tight:
        text = f"Every check holds with these values, {tight} of them tightly."
        return {"verdict": "tight", "text": text, "next": first.advice}
    text = "Every check that was made holds with these values."
    return {"verdict": "holds", "text": text, "next": "See what was not checked, and have it reviewed."}


def finding_data(finding: Finding, number: int, found: Found, house: House, system: str) -> dict[str, Any]:
    """One finding, opened."""
    rule = rule_named(finding.rule)
    vault = vault_number(house, finding.part)
    return {
        "id": number,
        "rule": finding.rule,
        "title": finding.title,
        "why": rule.why,
        "part": finding.part,
        "stage": finding.stage,
        "case": finding.case,
        "place": finding.place,
        "verdict": str(finding.verdict),
        "text": finding.says(system),
        "ratio": finite(finding.ratio),
        "ratio_text": ratio_text(finding.ratio) if finding.ratio is not None else "",
        "advice": finding.advice,
        "corner": corner_text(finding.corner, system),
        "spot": None if finding.spot is None else {"vault": vault, "x": finding.spot.x, "z": finding.spot.z},
        "working": [_line(step, system) for step in finding.steps],
        "cites": [cite_data(one) for one in cites_of(finding)],
        "provenance": [str(one) for one in finding.provenances],
        "needs_review": finding.needs_review,
        "mendable": number in found.mendable,
    }


def vault_number(house: House, part: str) -> int | None:
    """Which vault a part's name speaks of, counted from 0."""
    for number, vault in enumerate(house.vaults):
        if f'"{vault.name}"' in part:
            return number
    return 0 if len(house.vaults) == 1 else None


def _line(step: Step, system: str) -> dict[str, str]:
    return {
        "says": step.says,
        "symbol": step.symbol,
        "formula": step.formula,
        "filled": filled_text(step, system),
        "result": result_text(step, system),
        "source": source_text(step.cite) if step.cite else "",
        "provenance": str(step.cite.provenance) if step.cite else "",
    }


def question_data(question: Question, house: House) -> dict[str, Any]:
    """One question, with the key that an answer goes to."""
    return {
        "place": question.place,
        "key": _key_of(question.place, house),
        "text": question.asks,
        "why": question.why,
        "how": question.cheapest_way,
        "blocks": list(question.blocks),
    }


def _key_of(place: str, house: House) -> str:
    """`vault.nails` as `vault.0.nails` where there is one vault; empty where it is not plain which one."""
    head, _, rest = place.partition(".")
    if head == "vault" and rest:
        return f"vault.0.{rest}" if len(house.vaults) == 1 else ""
    return place


def finite(value: float | None) -> float | None:
    """A number that JSON can carry; None where it is not known."""
    return value if value is not None and math.isfinite(value) else None


def building_axis(stages: Iterable[StageFound], system: str) -> list[dict[str, Any]]:
    """The stages in order with the strength used in each; the worst one is marked."""
    listed = list(stages)
    known = [one.ratio for one in listed if one.ratio is not None]
    top = max(known) if known else None
    return [
        {
            "stage": one.name,
            "kind": one.kind,
            "title": one.title,
            "ratio": finite(one.ratio),
            "ratio_text": ratio_text(one.ratio) if one.ratio is not None else "unknown",
            "verdict": str(verdict_of(one.ratio)),
            "left": None if one.left is None else show(one.left, "level", 2, system),
            "right": None if one.right is None else show(one.right, "level", 2, system),
            "stop": [show(stop, "level", 2, system) for stop in one.stops],
            "worst": one.ratio is not None and one.ratio == top,
        }
        for one in listed
    ]


def storm_axis(stages: Iterable[StageFound], stage: str | None) -> list[dict[str, Any]]:
    """The cases of one stage with the strength used in each."""
    chosen = next((one for one in stages if one.name == stage), None)
    return [
        {
            "case": case.name,
            "name": case.title,
            "ratio": finite(case.corners.ratio),
            "ratio_text": ratio_text(case.corners.ratio) if case.corners.ratio is not None else "unknown",
            "verdict": str(verdict_of(case.corners.ratio)),
        }
        for case in (chosen.cases if chosen is not None else ())
    ]


def mend_rows(mended: Mended, system: str) -> tuple[list[dict[str, Any]], str]:
    """The remedies of a finding, cheapest first, and what to know where there are none."""
    rows = [_remedy(one, number, system) for number, one in enumerate(mended.proposals, 1)]
    if rows:
        return rows, ONLY_HERE
    if mended.questions:
        asked = " ".join(f"{one.asks} {one.cheapest_way}" for one in mended.questions)
        return rows, f"Nothing is guessed here. Answer first: {asked}"
    return rows, " ".join(mended.remarks) or no_way(mended, system)


def _remedy(one: Proposal, number: int, system: str) -> dict[str, Any]:
    before, after = (
        f"{rows[0].verdict} {ratio_text(rows[0].ratio)}".strip() for rows in (one.before, one.after)
    )
    cost = one.cost.shown()
    hours, lifted = (
        value.text(system) if isinstance(value, Shown) else value for value in (cost["hours"], cost["lifted"])
    )
    also = [f"Mends too: {'; '.join(one.mends)}."] if one.mends else []
    also += [f"Then tight or not known: {'; '.join(one.worse)}."] if one.worse else []
    also += [f"Still failing in the house with it: {one.fails}."] if one.fails else []
    return {
        "number": number,
        "text": " ".join(change.sentence() for change in one.changes),
        "before": before,
        "after": after,
        "why": " ".join(also),
        "money": str(cost["money"]),
        "hours": hours,
        "lifted": f"{lifted} built in",
        "works": all(
            row.verdict in {Verdict.HOLDS, Verdict.TIGHT, Verdict.DOES_NOT_APPLY} for row in one.after
        ),
        "changes": [[".".join(str(part) for part in key), value] for key, value in one.writes],
    }


MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
"""Of a year without a leap day."""
LEAST_FROST = 0.005
"""Frost that is less deep than this (m) is none."""


def year_axis(winter: Mapping[str, Any], system: str) -> dict[str, Any]:
    """The weeks of a year with the depth of frost in the ground, from what `winter` says of one vault."""
    weeks = [_week(one, system) for one in winter["weeks"]]
    frozen = [one["frost"] is not None and one["frost"] > LEAST_FROST for one in weeks]
    deepest = max(weeks, key=lambda one: one["frost"] or 0.0)
    return {
        "weeks": weeks,
        "months": list(MONTHS),
        "frozen": _spells(frozen),
        "frost": deepest["frost"],
        "deepest": {"at": deepest["week"], "text": deepest["text"]} if any(frozen) else None,
        "place": winter["weather"]["place"],
        "kind": "reckoned",
        "says": "reckoned for this house, with its warmth and snow",
    }


def open_axis(ground: OpenGround, system: str) -> dict[str, Any]:
    """The same at once: open ground of the climate's average year, far from the house and without snow."""
    rows = [
        {"week": number + 1, "outdoors": float(air), "room": None, "frozen": float(frost)}
        for number, (air, frost) in enumerate(zip(ground.air, ground.frost, strict=True))
    ]
    axis = year_axis({"weeks": rows, "weather": {"place": ""}}, system)
    return {**axis, "kind": "open", "says": "open ground of an average year: no snow, no house"}


def _week(one: Mapping[str, Any], system: str) -> dict[str, Any]:
    label = week_name(one["week"])
    frost, air, room = one["frozen"], one["outdoors"], one["room"]
    depth = (
        "no frost in the ground"
        if not frost or frost <= LEAST_FROST
        else f"frost {show(frost, 'm', 2, system)} deep"
    )
    said = [
        f"{name} {show(value, 'degC', 0, system)}"
        for name, value in (("air", air), ("room", room))
        if value is not None
    ]
    text = f"{label}: {', '.join([*said, depth])}."
    return {"week": one["week"], "label": label, "air": air, "room": room, "frost": frost, "text": text}


def week_name(week: int) -> str:
    """A week of the year by its month: `early March`."""
    day = 7 * (week - 1) + 3
    for name, days in zip(MONTHS, DAYS, strict=True):
        if day < days:
            return f"{('early', 'mid', 'late')[min(day * 3 // days, 2)]} {name}"
        day -= days
    return "late Dec"


def _spells(wanted: list[bool]) -> list[list[float]]:
    """Shares of the year from and to which something lasts."""
    spells: list[list[float]] = []
    for place, true in enumerate(wanted):
        if true and spells and spells[-1][1] == place / len(wanted):
            spells[-1][1] = (place + 1) / len(wanted)
        elif true:
            spells.append([place / len(wanted), (place + 1) / len(wanted)])
    return spells
