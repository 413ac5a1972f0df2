"""What is said where mending finds nothing: each reason in its own words, and what to do next."""

from __future__ import annotations

import math

from bermwright.adapt.mend.nouns import Mended, Target, Tried
from bermwright.base.findings import Finding, Verdict
from bermwright.book.pages.mend.words import no_way


def said(*, tried: tuple[Tried, ...] = (), pairs: int = 0, **verdicts: Verdict) -> str:
    found = tuple(
        Finding(rule="a-rule", title="", part="house", verdict=verdict, template="So.", advice=f"Do {name}.")
        for name, verdict in verdicts.items()
    )
    target = Target(rule="a-rule", part="house", vault=None)
    return no_way(Mended(target=target, before=found, proposals=(), tried=tried, pairs=pairs))


def test_what_is_not_known_is_asked() -> None:
    assert said(this=Verdict.UNKNOWN) == "Not known: Do this."


def test_where_no_lever_helps_the_advice_of_the_rule_stands() -> None:
    assert said(this=Verdict.FAILS, that=Verdict.HOLDS) == "No lever here helps this rule. Do this."


def test_the_nearest_and_the_pairs_are_named_and_what_is_not_known_besides() -> None:
    tried = (
        Tried(name="far", says="2", ratio=math.inf, why="no such house"),
        Tried(name="near", says="3", ratio=1.2, why="not enough alone"),
    )
    text = said(tried=tried, pairs=1, this=Verdict.FAILS, that=Verdict.UNKNOWN)
    assert "the one pair of those that come nearest" in text
    assert "Near (3) comes nearest, at 1.20" in text
    assert text.endswith("Not known besides: Do that.")
    assert "any of 3 pairs" in said(tried=tried, pairs=3, this=Verdict.FAILS)
