"""Every word of the trade that a title or a label uses is explained, once, in one plain sentence."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from bermwright.data.glossary import GLOSSARY, explained, terms_in
from bermwright.house import House
from bermwright.house.fields import Table, Tables, said_of
from bermwright.rules.registry import EVERY_RULE

ORDINARY = """
a across against air alarms all along an and are around away bare base be beams before behind below
beside between blocks boards both break breaking buried can carries carry catches closed corners
covered crushed curve cut cuts do does dry each earth earthquake embers end ends enough every everybody
falls fills find fire firm first fit floor floors for force forces free freeze fresh from frost give
goes graded ground has hillside hold holds house in inside intake is it its joins keep keeps known
lasts layer layers lead leak lean lets lies lifted load logs lost methods mould nails near
neighbours no not nothing of off on open opening openings or other out over past people pieces pipe
pipes place plane plank planks posts rests ring room shape short sideways sleep slide slipping snow
soil stand stands stay stays stores stove supports that the their them they those through timber tip
to tube tubes turn two under unheated unlike until upper wake walk wall walls water way ways what
wheels where whole wind winter with within without wood
drawn measured"""
EVERYDAY = frozenset(ORDINARY.split())
"""Words of rule titles that everybody uses."""

TRADE = """ballast batter bay bearing bevel brace buttress catenary characteristic cohesion collar compacted
conductivity crown design strength drainage ellipse fleece flue footing friction guy haunch headroom
hearth header heaves hinge insulation joist lagging lintel membrane mound permanent pinned
predrilled prop purlin rib rise salvaged sapwood saturated seasoned section service class shear
shell shoe soakaway socket span springing stage stiffness strength class tension thrust tie toe
trimmer turf umbrella unit weight vapour control vault yield strength"""
ONE_WORD = re.compile(r"[a-z]+")


def labels(model: type) -> list[str]:
    """What is said of every field."""
    said = said_of(model).values()
    inner = [one.kind.of for one in said if isinstance(one.kind, Table | Tables)]
    return [one.words for one in said] + [words for model in inner for words in labels(model)]


def unexplained(text: str) -> set[str]:
    """Words of a text that belong to no term."""
    rest = text.lower()
    for form in sorted((form for term in GLOSSARY for form in term.forms), key=len, reverse=True):
        rest = re.sub(rf"(?<![\w-]){re.escape(form.lower())}(?![\w-])", " ", rest)
    return set(ONE_WORD.findall(rest))


@pytest.mark.parametrize("rule", EVERY_RULE, ids=lambda rule: rule.name)
def test_every_word_of_a_title_is_everyday_or_explained(rule):
    left = unexplained(rule.title) - EVERYDAY
    assert left == set(), "explain it in data/glossary.py, or call it everyday here"


def test_every_word_of_the_trade_in_a_label_is_explained():
    known = {word for term in GLOSSARY for form in (*term.forms, term.name) for word in form.lower().split()}
    used = {word for label in labels(House) for word in ONE_WORD.findall(label.lower())}
    trade = set(TRADE.split()) - {"batter"}
    assert trade & used <= known


def test_the_sentences_are_plain_and_short():
    for term in GLOSSARY:
        assert term.says[0].isupper()
        assert term.says.endswith(".")
        assert len(term.says.split()) <= 24, term.name
        assert (
            not re.search(r"\d", term.says.replace("1.00", "").replace("C24", "")) or "service" in term.name
        )


def test_every_word_is_explained_once():
    forms = Counter(form.lower() for term in GLOSSARY for form in {*term.forms, term.name})
    assert [form for form, count in forms.items() if count > 1] == []


def test_the_longest_form_wins_and_each_is_named_once():
    found = [term.name for term in terms_in("Segment ribs have a butt joint; each rib stands on its feet.")]
    assert found == ["segment ribs", "butt joint", "rib", "foot"]


def test_a_verb_is_not_taken_for_a_noun():
    assert terms_in("Nails lead the cut layer.") == ()
    assert [term.name for term in terms_in("A lead of 0.10 m is too much.")] == ["lead"]
    assert explained("lead") is not None
    assert explained("house") is None
