"""A working can be followed with a calculator: what is filled in comes to what is printed beside it."""

from __future__ import annotations

import math
import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bermwright.formats.house_file import load
from bermwright.rules.assess import assess

if TYPE_CHECKING:
    from bermwright.base.findings import Step

EXAMPLES = Path(__file__).parents[2] / "examples"
TEXT = (
    ("·", "*"), ("−", "-"), ("²", "**2"), ("³", "**3"), ("½", "0.5"), (";", ","), ("[", "("), ("]", ")"),
    ("^", "**"), ("√(", "sqrt("),
)  # fmt: skip
ANGLES = re.compile(r"(tan|cos|sin) ([0-9.]+)°")
ARITHMETIC = re.compile(r"(?:[0-9.+\-*/(), e]|max|min|sqrt|atan|tan|cos|sin|radians)+")
SCALES = {"%": 100.0, "°": 180.0 / math.pi, "kN": 1e-3, "m³/h": 3600.0}
"""Units in which a result is printed, over those of its arithmetic, where they differ."""
LEAST_FOLLOWED = 120
"""Lines of each example that are arithmetic."""


def arithmetic(filled: str) -> float | None:
    """What the numbers of a line come to; None where it is not arithmetic alone."""
    text = filled if filled.startswith(("max(", "min(")) else filled.split(", ", maxsplit=1)[0]
    for sign, means in TEXT:
        text = text.replace(sign, means)
    text = ANGLES.sub(r"\1(radians(\2))", text)
    if not ARITHMETIC.fullmatch(text) or not re.search(r"[-+*/(]", text):
        return None
    known = {name: getattr(math, name) for name in ("sqrt", "atan", "tan", "cos", "sin", "radians")}
    try:
        return float(eval(text, {"__builtins__": {}}, known | {"max": max, "min": min}))  # noqa: S307
    except ZeroDivisionError:
        return None


def agrees(step: Step, value: float) -> bool:
    """Whether a line comes to its result, within the rounding of what is printed."""
    printed = re.match(r"[−-]?[0-9.]+", step.result.text())
    if printed is None:
        return True
    told = printed.group()
    wanted = float(told.replace("−", "-"))
    last = 10.0 ** -len(told.partition(".")[2])
    unit = step.result.text()[len(told) :].strip()
    return any(
        math.isclose(value * scale, wanted, rel_tol=0.01, abs_tol=0.6 * last)
        for scale in {1.0, SCALES.get(unit, 1.0)}
    )


@pytest.mark.parametrize("name", ["larch-bank", "kettle-hill"])
def test_every_line_of_arithmetic_comes_to_its_result(name: str) -> None:
    found = assess(load(EXAMPLES / f"{name}.toml").house, stop_marks=False)
    followed, wrong = 0, []
    for finding in found.findings:
        for step in finding.steps:
            value = arithmetic(step.filled)
            if value is None:
                continue
            followed += 1
            if not agrees(step, value):
                line = f"{step.formula} = {step.filled} is {value:.5g}, not {step.result.text()}"
                wrong.append(f"{finding.rule}: {line}")
    assert not wrong, "\n".join(wrong)
    assert followed >= LEAST_FOLLOWED


def test_a_line_that_does_not_come_out_is_seen() -> None:
    assert arithmetic("1.35 · 0.600 · (19.0 · 2.118²/2 + 15.04 · 2.118)") == pytest.approx(60.32, abs=0.01)
    assert arithmetic("51.9 · tan 32.0° / 1.1") == pytest.approx(29.48, abs=0.01)
    by_bars = "max(0.12 · 1.761 · (100 · 0.00164 · 8)^(1/3); 0.035 · 1.761^1.5 · √(8)) · 345"
    assert arithmetic(by_bars) == pytest.approx(79.8, rel=2e-3)
    assert arithmetic("φ = 32°, 0.4 m deep") is None
