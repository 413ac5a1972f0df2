"""Lines of working in words, in metric and in other units."""

from __future__ import annotations

from bermwright.base.findings import Shown, Step
from bermwright.base.wording import step_words


def line(filled: str, result: Shown, system: str) -> str:
    step = Step(says="Push of the soil", symbol="P", formula="K·γ·h²/2", filled=filled, result=result)
    return step_words(step, system).line


def test_numbers_filled_in_come_to_a_metric_result_before_another_unit() -> None:
    push = Shown(9e3, "kN/m", 1)
    assert line("0.50 · 18.0 · 1.41²/2", push, "metric") == "P = K·γ·h²/2 = 0.50 · 18.0 · 1.41²/2 = 9.0 kN/m"
    told = line("0.50 · 18.0 · 1.41²/2", push, "imperial")
    assert told == "P = K·γ·h²/2 = 0.50 · 18.0 · 1.41²/2 = 9.0 kN/m = 617 lb/ft"


def test_what_has_no_unit_or_no_numbers_is_said_once() -> None:
    assert line("4.1 / 8.2", Shown(0.5, "", 2), "imperial") == "P = K·γ·h²/2 = 4.1 / 8.2 = 0.50"
    told = line("by the frame", Shown(9e3, "kN/m", 1), "imperial")
    assert told == "P = K·γ·h²/2 = by the frame = 617 lb/ft (9.0 kN/m)"
