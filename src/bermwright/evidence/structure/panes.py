"""Panes under wind and how they are set: plate table read, strengths from memory, blocks and gaps read.

Roark's table is printed for Poisson's ratio 0.3; its stress is β·q·b²/t² and its deflection α·q·b⁴/(E·t³).
"""

from __future__ import annotations

from typing import Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.glazing import DIN18008, GLAZINGGAP, ROARK2002, SETTINGBLOCKS
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.glazing import (
    GlassKind,
    Lasting,
    glass_strength,
    pane_deflection,
    pane_rebate,
    pane_stress,
    pane_thickness,
    setting_block,
)

_PLATE = Cite(work=ROARK2002, place="table 11.4, case 1a", provenance=Provenance.READ)
_STRENGTH = Cite(work=DIN18008, place="part 1, k_mod·k_c·f_k/γ_M", provenance=Provenance.MEMORY)
_BLOCKS = Cite(work=SETTINGBLOCKS, place="0.1 in a square foot, 4 in at least", provenance=Provenance.READ)
_GAP = Cite(work=GLAZINGGAP, place="3 mm all round", provenance=Provenance.READ)
_USUAL = Cite(work=GLAZINGGAP, place="usual practice around it", provenance=Provenance.MEMORY)

RATIOS = (1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 3.0, 4.0, 5.0)
BETA = ("0.2874", "0.3762", "0.4530", "0.5172", "0.5688", "0.6102", "0.7134", "0.7410", "0.7476")
ALPHA = ("0.0444", "0.0616", "0.0770", "0.0906", "0.1017", "0.1110", "0.1335", "0.1400", "0.1417")
SCATTER = "the table's last digits scatter around the exact series"


def _beta(ratio: float, expected: str) -> Row:
    return Row(
        id=f"ROARK2002-beta-{ratio:g}",
        cite=_PLATE,
        kind=Kind.PUBLISHED,
        call=pane_stress,
        inputs={"short": 1.0, "long": ratio, "thickness": 0.01, "pressure": 1000.0, "poisson": 0.3},
        expected=expected,
        pick=lambda stress: float(stress) * 1e-7,
        rel=7e-4,
        note=SCATTER,
    )


def _alpha(ratio: float, expected: str) -> Row:
    return Row(
        id=f"ROARK2002-alpha-{ratio:g}",
        cite=_PLATE,
        kind=Kind.PUBLISHED,
        call=pane_deflection,
        inputs={
            "short": 1.0, "long": ratio, "thickness": 0.01, "pressure": 1000.0, "young": 70e9, "poisson": 0.3,
        },
        expected=expected,
        pick=lambda deflection: float(deflection) * 70.0,
        rel=5e-3,
        note=SCATTER,
    )  # fmt: skip


def _strength(kind: GlassKind, lasting: Lasting, expected: str) -> Row:
    return Row(
        id=f"DIN18008-{kind}-{lasting}",
        cite=_STRENGTH,
        kind=Kind.DERIVED,
        call=glass_strength,
        inputs={"kind": kind, "lasting": lasting},
        expected=expected,
        unit="MPa",
        note="k_mod·k_c·f_k/γ_M",
    )


def _rebate(name: str, cite: Cite, expected: str, pick: str, inputs: dict[str, Any]) -> Row:
    memory = cite is _USUAL
    return Row(
        id=f"{cite.work.key}-{name}",
        cite=cite,
        kind=Kind.DERIVED if memory else Kind.PUBLISHED,
        call=pane_rebate,
        inputs=inputs,
        expected=expected,
        unit="mm",
        pick=lambda rebate: float(getattr(rebate, pick)),
        note="usual practice, from memory" if memory else "",
    )


_SINGLE = {"thickness": 0.004, "area": 1.0, "sealed": False}
_SEALED = {"thickness": 0.024, "area": 2.0, "sealed": True, "bead": 0.012}

ROWS = (
    *(_beta(ratio, expected) for ratio, expected in zip(RATIOS, BETA, strict=True)),
    *(_alpha(ratio, expected) for ratio, expected in zip(RATIOS, ALPHA, strict=True)),
    Row(
        id="ROARK2002-glass-square",
        cite=_PLATE,
        kind=Kind.DERIVED,
        call=pane_stress,
        inputs={"short": 1.0, "long": 1.0, "thickness": 0.01, "pressure": 1000.0},
        expected="2.7185",
        unit="MPa",
        note="Navier's double series with Poisson's ratio 0.23, 400 x 400 terms",
    ),
    Row(
        id="ROARK2002-glass-square-deflection",
        cite=_PLATE,
        kind=Kind.DERIVED,
        call=pane_deflection,
        inputs={"short": 1.0, "long": 1.0, "thickness": 0.01, "pressure": 1000.0},
        expected="0.65956",
        unit="mm",
        note="Navier's double series with Poisson's ratio 0.23, 400 x 400 terms",
    ),
    Row(
        id="ROARK2002-glass-half-as-wide",
        cite=_PLATE,
        kind=Kind.DERIVED,
        call=pane_deflection,
        inputs={"short": 0.5, "long": 0.5, "thickness": 0.01, "pressure": 1000.0},
        expected="0.041223",
        unit="mm",
        note="a sixteenth of a square twice as wide, by the fourth power",
    ),
    Row(
        id="ROARK2002-endless",
        cite=_PLATE,
        kind=Kind.DERIVED,
        call=pane_stress,
        inputs={"short": 0.1, "long": 5.0, "thickness": 0.01, "pressure": 1000.0},
        expected="0.0750",
        unit="MPa",
        note="a strip: q·a²/8 over t²/6",
    ),
    Row(
        id="ROARK2002-thickness",
        cite=_PLATE,
        kind=Kind.DERIVED,
        call=pane_thickness,
        inputs={"short": 1.2, "long": 1.0, "pressure": 1000.0, "strength": 30e6},
        expected="3.472",
        unit="mm",
        note="t = √(β·q·a²/f), β 0.36166 for Poisson's ratio 0.23 by Navier's series",
    ),
    _strength(GlassKind.FLOAT, Lasting.WIND, "31.5"),
    _strength(GlassKind.FLOAT, Lasting.SNOW, "18.0"),
    _strength(GlassKind.FLOAT, Lasting.ALWAYS, "11.25"),
    _strength(GlassKind.TOUGHENED, Lasting.WIND, "80"),
    Row(
        id="SETTINGBLOCKS-least",
        cite=_BLOCKS,
        kind=Kind.PUBLISHED,
        call=setting_block,
        inputs={"area": 1.0},
        expected="101.6",
        unit="mm",
    ),
    Row(
        id="SETTINGBLOCKS-large",
        cite=_BLOCKS,
        kind=Kind.PUBLISHED,
        call=setting_block,
        inputs={"area": 6.0},
        expected="164.0",
        unit="mm",
        rel=5e-4,
        note="27.34 mm for each square metre; another page rounds it to 27",
    ),
    _rebate("gap", _GAP, "3.0", "gap", _SINGLE),
    _rebate("cover", _USUAL, "6.0", "cover", _SINGLE),
    _rebate("cover-sealed", _USUAL, "12.0", "cover", _SEALED),
    _rebate("gap-large", _USUAL, "5.0", "gap", _SEALED),
    _rebate("depth", _USUAL, "9.0", "depth", _SINGLE),
    _rebate("depth-sealed", _USUAL, "17.0", "depth", _SEALED),
    _rebate("width", _USUAL, "25.0", "width", _SINGLE),
    _rebate("width-sealed", _USUAL, "42.0", "width", _SEALED),
    _rebate("bed", _USUAL, "3.0", "bed", _SINGLE),
)
