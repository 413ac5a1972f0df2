"""`bermwright sketch`: a hung chain becomes a curve, weighed on the ground of a house."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest

from bermwright.cli.main import main
from bermwright.handbook import curves

ROOT = Path(__file__).resolve().parents[2]
KETTLE_HILL = str(ROOT / "examples" / "kettle-hill.toml")


@pytest.fixture
def chain(tmp_path: Path) -> str:
    """A chain that was measured with one wrong reading, hanging."""
    curve = curves.catenary(4.8, 2.2, points=7)
    height = curve.z.copy()
    height[3] += 0.15
    rows = [f"{x:.3f},{2.5 - z:.3f}" for x, z in zip(curve.x, height, strict=True)]
    path = tmp_path / "chain.csv"
    path.write_text("\n".join(["x [m],z [m]", *rows]), encoding="utf-8")
    return str(path)


def test_a_hung_chain_alone(chain: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sketch", chain]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "nearest to a catenary, 4.80 m wide and 2.20 m high" in said
    assert "Point 4 lies far off" in said
    assert "3 arcs: at most" in said
    assert "not known: no house file was given" in said


def test_the_same_chain_on_the_ground_of_a_house(
    chain: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "chain.pdf"
    assert main(["sketch", chain, KETTLE_HILL, "--out", str(out), "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["fits"][0]["family"] == "catenary"
    assert data["outliers"] == [4]
    assert data["better"]["times"] > 1.5
    assert data["better"]["outward"] > 0.1
    assert data["better"]["bending"]["moment_per_metre"] < data["bending"]["moment_per_metre"]
    assert all(arc["moment_per_metre"] > 0.0 for arc in data["arcs"])
    assert out.read_bytes().startswith(b"%PDF")


def test_three_points_say_that_they_are_few(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "old.csv"
    path.write_text("x [ft],z [ft]\n0,0\n8,7\n16,0\n", encoding="utf-8")
    assert main(["sketch", str(path), "--units", "imperial"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "too few points to tell" in said
    assert "16 ft" in said


def test_the_points_of_a_drawn_vault_are_a_sketch_too(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    x = np.linspace(-2.5, 2.5, 9)
    points = ", ".join(f'["{a:.4f} m", "{4.0 * (1.0 - (a / 2.5) ** 2):.4f} m"]' for a in x)
    text = Path(KETTLE_HILL).read_text(encoding="utf-8")
    text = text.replace('curve = "catenary"', f'curve = "drawn"\npoints = [{points}]').replace(
        'rise = "4.0 m"\n', ""
    )
    path = tmp_path / "drawn.toml"
    path.write_text(text, encoding="utf-8")
    assert main(["sketch", str(path), "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["fits"][0]["family"] == "parabola"
    assert data["bending"] is not None


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["nowhere.csv"], "cannot be read"),
        ([KETTLE_HILL], 'no vault with the curve "drawn"'),
        (["CHAIN", KETTLE_HILL, "--vault", "barn"], 'no vault "barn"'),
        (["CHAIN", "--known", "span 4"], "span 4"),
        (["CHAIN", "--known", "span 6 m"], "do not agree"),
    ],
)
def test_bad_input_says_what_to_do(
    words: list[str], says: str, chain: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["sketch", *(chain if word == "CHAIN" else word for word in words)]) == 2
    assert says in capsys.readouterr().err
