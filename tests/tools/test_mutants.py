"""The mutation gate plants the right lies and leaves the bookkeeping alone."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from mutants import mutants_of
from mutate import read_survivors, write_survivors


def lies(source: str) -> list[tuple[str, str]]:
    return [(mutant.was, mutant.now) for mutant in mutants_of("bermwright.handbook.toy", source)]


@pytest.mark.parametrize(
    ("source", "expected"),
    [
        ("def f(q, span):\n    return q * span**2 / 8", [("** 2", "** (2 + 0.05)"), ("8", "8.16")]),
        ("def f(x, y):\n    return x - y", [("-", "+")]),
        ("def f(x, y):\n    return min(x, y)", [("min", "max")]),
        ("def f(x):\n    return np.sin(x)", [("sin", "cos")]),
        ("def f(x):\n    return -x", [("-", "+")]),
        ("def f(x):\n    x += 0.5\n    return x", [("+", "-"), ("0.5", "0.51")]),
        ("def f(x, factor=1.3):\n    return x * factor", [("1.3", "1.326")]),
        ("DENSITY = 420.0", [("420.0", "428.4")]),
        ("def f(x):\n    return x[0] + x[-1]", [("+", "-")]),
        ("def f(c, x):\n    return x / np.where(c, 1.0, x)", [("1.0", "1.02")]),
        ("def f(x):\n    if x > 7.0:\n        x = 0.0\n    return x", [("7.0", "7.14")]),
        ("def f(x):\n    return np.clip(x, 0.0, 1.0)", [("1.0", "1.02")]),
        ("def f(x):\n    return (x + 1.5) % TURN", [("+", "-"), ("1.5", "1.53")]),
        ("def f(c, x):\n    return np.where(c, x / np.where(c, 1.0, x), 0.0)", [("1.0", "1.02")]),
        ("def f(c, d, x):\n    return np.where(d, 0.0, x / np.where(c, 1.0, x))", [("1.0", "1.02")]),
        ("def f(c, x):\n    return np.where(c, 0.0, np.sum(x / np.where(c, 1.0, x)))", [("1.0", "1.02")]),
    ],
)
def test_a_lie_for_each_physical_number(source: str, expected: list[tuple[str, str]]) -> None:
    assert lies(source) == expected


@pytest.mark.parametrize(
    "source",
    [
        "def f(n):\n    return n + 1",
        "def f(x):\n    return len(x) - 1",
        "def f(x):\n    return np.roll(x, -1, axis=2)",
        "def f(x):\n    return np.zeros((3, 4))",
        "def f(x):\n    within('x', x, 0.1, 7.0, unit='m')",
        "def f(x):\n    raise ValueError(f'{x + 1} is not 3')",
        "def f(x, tolerance=0.001):\n    return x > 1e-9",
        "LARGEST = 8.0\ndef f(x):\n    within('x', x, 0.0, LARGEST)",
        "LEAST, MOST = 0.2, 0.6\ndef f(x):\n    within('x', x, LEAST, MOST)",
        "def f(x):\n    return x % 2",
        "TOLERANCE, SWEEPS = 0.02, 8",
        "def f(step):\n    step *= 0.4\n    return step",
        "def f(x):\n    found = len(x)\n    found += 1\n    return found",
        "def f(x):\n    for turning in (5, 6):\n        x[turning] = x",
        "def f(c, x):\n    return np.where(c, 0.0, x / np.where(c, 1.0, x))",
        "def f(c, x):\n    return np.where(c, x / np.where(c, x, 1.0), 0.0)",
        "def f(x):\n    return (x + np.pi) % TURN",
    ],
)
def test_bookkeeping_is_left_alone(source: str) -> None:
    assert lies(source) == []


def test_a_mutant_changes_one_place_only() -> None:
    source = "def f(x, y):\n    return 2.0 * x + 3.0 * y"
    first = mutants_of("bermwright.handbook.toy", source)[0]
    assert first.function == "f"
    assert ast.unparse(first.planted(source)) == "def f(x, y):\n    return 2.0 * x - 3.0 * y"


def test_the_list_of_survivors_may_only_shrink(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "survivors.txt"
    monkeypatch.setattr("mutate.SURVIVORS", path)
    write_survivors({"a": "start value", "b": "cancels"})
    assert read_survivors() == {"a": "start value", "b": "cancels"}
    write_survivors({"a": "start value"})
    assert "at most 1" in path.read_text(encoding="utf-8")
    path.write_text(path.read_text(encoding="utf-8") + "c :: new\n", encoding="utf-8")
    with pytest.raises(SystemExit, match="may not exceed 1"):
        read_survivors()


def test_every_listed_survivor_has_a_reason() -> None:
    assert [key for key, reason in read_survivors().items() if len(reason) < 8] == []
