"""The drawn ground against points that were measured."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from bermwright.app.assessing import survey_beside
from bermwright.app.opening import open_house
from bermwright.base.findings import Verdict
from bermwright.form import vault_form
from bermwright.form.setout import SetOutError, SurveyPoint
from bermwright.house import Survey
from bermwright.rules.nouns import SurveyAtHand, Whole
from bermwright.rules.whole.surveyed import GROUND_AS_SURVEYED

EXAMPLE = Path(__file__).resolve().parents[3] / "examples" / "larch-bank.toml"


@pytest.fixture(scope="module")
def drawn():
    """Larch Bank, on level ground, with a file of points."""
    house = replace(open_house(EXAMPLE).house, survey=Survey(points="points.csv", middle="M"))
    return house, vault_form(house, house.vaults[0])


def points(slope=0.0, *, bump=0.0, away=0.0):
    """Twenty-five points on a plane that falls to the north; one of them may stand out."""
    found = []
    for k, (east, north) in enumerate((e, n) for e in range(-8, 9, 4) for n in range(-8, 9, 4)):
        height = 312.0 - np.tan(slope) * north + (bump if (east, north) == (4, 4) else 0.0)
        name = "M" if (east, north) == (0, 0) else f"P{k}"
        found.append(SurveyPoint(name=name, east=east + away, north=float(north), height=height, line=k + 2))
    return tuple(found)


def said(drawn, survey):
    house, form = drawn
    vault = house.vaults[0]
    study = SimpleNamespace(house=house, vault=vault, form=form, part=f'vault "{vault.name}"')
    (finding,) = GROUND_AS_SURVEYED.run(Whole(house=house, studies={vault.name: study}, survey=survey))
    return finding


def at_hand(found):
    return SurveyAtHand(name="points.csv", points=found)


def test_level_ground_that_was_measured_level_holds(drawn):
    finding = said(drawn, at_hand(points(bump=0.06)))
    assert finding.verdict is Verdict.HOLDS
    assert finding.demand == pytest.approx(0.06, abs=0.005)


def test_ground_that_falls_fails_with_what_to_write(drawn):
    finding = said(drawn, at_hand(points(np.radians(4.0))))
    assert finding.verdict is Verdict.FAILS
    # The farthest points beside the house lie eight metres from its middle, up or down the slope.
    assert finding.demand == pytest.approx(8.0 * np.tan(np.radians(4.0)), rel=1e-6)
    assert 'slope = "4.0 deg" and faces = "0 deg"' in finding.advice
    assert len(finding.says().split()) <= 24


def test_what_cannot_be_used_is_unknown_and_says_why(drawn):
    odd = said(drawn, at_hand(points(bump=1.5)))
    assert odd.verdict is Verdict.UNKNOWN
    assert "these points do not lie on the ground" in odd.says()
    broken = SurveyAtHand(name="points.csv", why_not=SetOutError("points.csv: there is no point in it."))
    assert "there is no point in it" in said(drawn, broken).says()


def test_without_points_it_does_not_apply(drawn):
    assert said(drawn, None).verdict is Verdict.DOES_NOT_APPLY
    house, form = drawn
    assert said((replace(house, survey=None), form), None).verdict is Verdict.DOES_NOT_APPLY


def test_points_are_read_from_beside_the_file(drawn, tmp_path):
    house, _ = drawn
    missing = survey_beside(house, tmp_path)
    with pytest.raises(Exception, match="cannot be read"):
        missing.known  # noqa: B018  (it raises)
    (tmp_path / "points.csv").write_text("name,x,y,z\nM,0,0,3\nA,4,0,3\nB,0,4,3\n", encoding="utf-8")
    assert [one.name for one in survey_beside(house, tmp_path).known] == ["M", "A", "B"]
    assert survey_beside(replace(house, survey=None), tmp_path) is None
