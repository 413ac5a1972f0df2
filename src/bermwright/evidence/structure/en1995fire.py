"""EN 1995-1-2, timber in a fire: numbers of the code as they are remembered, worked out by hand."""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.fire import EN1995FIRE
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import fire

_MINUTE = 60.0
_BETA = 0.8e-3 / _MINUTE


def _cite(place: str) -> Cite:
    return Cite(work=EN1995FIRE, place=place, provenance=Provenance.MEMORY)


ROWS = (
    *(
        Row(
            id=f"EN1995-1-2-CHAR-{minutes}",
            cite=_cite("eq. 3.2 and table 3.1"),
            kind=Kind.DERIVED,
            call=fire.char_depth,
            inputs={"rate": _BETA, "time": minutes * _MINUTE},
            expected=depth,
            unit="mm",
            note="0.8 mm/min of softwood with corners",
        )
        for minutes, depth in ((15, "12.0"), (30, "24.0"), (60, "48.0"))
    ),
    *(
        Row(
            id=f"EN1995-1-2-EFFECTIVE-{minutes}-{'BARE' if bare else 'LINED'}",
            cite=_cite("eq. 4.1, table 4.1"),
            kind=Kind.DERIVED,
            call=fire.effective_depth,
            inputs={"char": minutes * 0.8e-3, "time": minutes * _MINUTE, "zero_strength": 7e-3, "bare": bare},
            expected=depth,
            unit="mm",
            note="k0 = t/20 up to 1 on a bare face, 1 behind a lining",
        )
        for minutes, bare, depth in (
            (10, True, "11.5"),
            (10, False, "15.0"),
            (20, True, "23.0"),
            (30, True, "31.0"),
            (0, False, "0.0"),
        )
    ),
    *(
        Row(
            id=f"EN1995-1-2-LINING-{name}",
            cite=_cite(place),
            kind=Kind.DERIVED,
            call=fire.lining_time,
            inputs={"kind": kind, "thickness": h * 1e-3, "gaps": gaps, "rate": 0.65e-3 / _MINUTE},
            expected=minutes,
            unit="min",
            note=note,
        )
        for name, kind, h, gaps, minutes, place, note in (
            ("GYPSUM-15", "gypsum board", 15.0, False, "28.0", "eq. 3.11", "2.8 · 15 − 14"),
            ("GYPSUM-12", "gypsum board", 12.5, False, "21.0", "eq. 3.11", "2.8 · 12.5 − 14"),
            ("GYPSUM-OPEN", "gypsum board", 15.0, True, "19.0", "eq. 3.12", "2.8 · 15 − 23"),
            ("BOARDS-20", "boards", 20.0, False, "30.8", "eq. 3.10", "20/0.65"),
            ("BOARDS-OPEN", "boards", 20.0, True, "15.4", "eq. 3.10", "half of it: bermwright's own caution"),
            ("CLAY", "clay plaster", 20.0, False, "0.0", "3.4.3.3", "no value in the work"),
        )
    ),
    *(
        Row(
            id=f"EN1995-1-2-LINED-{minutes}",
            cite=_cite("figure 3.4, eq. 3.8"),
            kind=Kind.DERIVED,
            call=fire.lined_char_depth,
            inputs={"rate": _BETA, "time": minutes * _MINUTE, "lining": 20 * _MINUTE},
            expected=depth,
            unit="mm",
            note=note,
        )
        for minutes, depth, note in (
            (20, "0.0", "the lining still stands"),
            (30, "16.0", "2 · 0.8 · 10"),
            (35.625, "25.0", "2 · 0.8 · 15.6 = 25"),
            (60, "44.5", "25 + 0.8 · 24.4"),
        )
    ),
    Row(
        id="EN1995-1-2-LINED-NOT",
        cite=_cite("eq. 3.2"),
        kind=Kind.DERIVED,
        call=fire.lined_char_depth,
        inputs={"rate": _BETA, "time": 30 * _MINUTE, "lining": 0.0},
        expected="24.0",
        unit="mm",
        note="no lining: a bare face",
    ),
    *(
        Row(
            id=f"EN1995-1-2-LEFT-{name}",
            cite=_cite("4.2.2"),
            kind=Kind.DERIVED,
            call=fire.residual_rib,
            inputs={"layers": 5, "board": 0.045, "depth": 0.15, "side": 0.031, "inside": inside, "peak": 1.6},
            expected=expected,
            unit=unit,
            pick=pick,
            note=note,
        )
        for name, inside, pick, expected, unit, note in (
            ("WIDTH", 0.031, lambda left: left.width, "163.0", "mm", "5 · 45 − 2 · 31"),
            ("DEPTH", 0.031, lambda left: left.depth, "119.0", "mm", "150 − 31"),
            ("LAYERS", 0.031, lambda left: left.layers, "3.622", "", "163/45"),
            ("AREA", 0.031, lambda left: left.area, "14042", "mm2", "163 · 119 · 2.622/3.622"),
            (
                "MODULUS",
                0.031,
                lambda left: left.modulus,
                "217578",
                "mm3",
                "163 · 119²/6 / 1.6 · 2.6222/3.6222 · 5/4",
            ),
            ("GONE", 0.16, lambda left: left.modulus, "0", "mm3", "deeper than the rib"),
        )
    ),
    Row(
        id="EN1995-1-2-LEFT-ONE",
        cite=_cite("4.2.2"),
        kind=Kind.DERIVED,
        call=fire.residual_rib,
        inputs={"layers": 3, "board": 0.028, "depth": 0.17, "side": 0.031, "inside": 0.031, "peak": 1.5},
        expected="0",
        unit="mm2",
        pick=lambda left: left.area,
        note="22 mm are less than one board",
    ),
    Row(
        id="EN1995-1-2-STRENGTH",
        cite=_cite("eq. 2.4, table 2.1"),
        kind=Kind.DERIVED,
        call=fire.fire_strength,
        inputs={"strength": 24e6, "factor": 1.25},
        expected="30.0",
        unit="N/mm2",
        note="1.25 · 24",
    ),
    *(
        Row(
            id=f"EN1995-1-2-NAIL-{minutes}",
            cite=_cite("eq. 6.1"),
            kind=Kind.DERIVED,
            call=fire.nail_extra_depth,
            inputs={"rate": _BETA, "wanted": minutes * _MINUTE, "alone": 15 * _MINUTE},
            expected=extra,
            unit="mm",
            note="1.5 · 0.8 · (t − 15)",
        )
        for minutes, extra in ((30, "18.0"), (15, "0.0"), (10, "0.0"))
    ),
)
