"""The revised lifting equation: Waters, Putz-Anderson, Garg, DHHS (NIOSH) 94-110, metric form.

Constants as quoted at what-when-how.com/Tutorial/topic-53604. The printed examples are in inches; the
metric form gives 2 to 3 % less, so they are compared with that width.
"""

from __future__ import annotations

import math

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.rates import NIOSH94110
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.lifting import recommended_weight_limit

_POUND = 0.45359237
_INCH = 0.0254
_CONSTANTS = Cite(work=NIOSH94110, place="equation and constants", provenance=Provenance.READ)
_EVALUATED = Cite(work=NIOSH94110, place="multipliers, evaluated", provenance=Provenance.DERIVED)
_EXAMPLES = Cite(work=NIOSH94110, place="section 3, examples", provenance=Provenance.MEMORY)


def _in_pounds(mass: float) -> float:
    return float(mass) / _POUND


def _row(
    name: str,
    expected: str,
    note: str,
    cite: Cite = _EVALUATED,
    *,
    inches: bool = False,
    rel: float | None = None,
    refused: bool = False,
    **asked: float,
) -> Row:
    inputs = {
        "reach": 0.25,
        "height": 0.75,
        "travel": 0.25,
        "twist": 0.0,
        "frequency_factor": 1.0,
        "grip_factor": 1.0,
        **asked,
    }
    return Row(
        id=f"NIOSH94110-{name}",
        cite=cite,
        kind=Kind.DERIVED if cite is _EVALUATED else Kind.PUBLISHED,
        call=recommended_weight_limit,
        refused=refused,
        inputs=inputs,
        expected=expected,
        unit="" if inches else "kg",
        pick=_in_pounds if inches else float,
        rel=rel,
        note=note,
    )


_INCHES = "printed for the form in inches, which gives 2 to 3 % more"

ROWS = (
    _row("load-constant", "23.0", "", _CONSTANTS),
    _row("farthest", "9.1270", "23·0.25/0.63", reach=0.63),
    _row("beyond-reach", "1", "refused: farther than 63 cm nothing may be lifted", refused=True, reach=0.64),
    _row("from-the-floor", "17.825", "23·(1 − 0.3·0.75)", height=0.0),
    _row("to-the-highest", "16.100", "23·(1 − 0.3·1.00)", height=1.75),
    _row("longest-way", "19.4514", "23·(0.82 + 4.5/175)", travel=1.75),
    _row("widest-twist", "13.0640", "23·(1 − 0.0032·135)", twist=math.radians(135.0)),
    _row("very-close", "23.0", "closer than 25 cm counts as 25 cm", reach=0.10),
    _row("short-way", "23.0", "less than 25 cm counts as 25 cm", travel=0.10),
    _row("poor-grip", "20.7", "23·0.9", grip_factor=0.9),
    _row("often", "17.25", "23·0.75", frequency_factor=0.75),
    _row(
        "heavy-bag-low",
        "9.49",
        "0.40 m out, hands at 0.15 m, lifted 0.60 m, poor grip",
        reach=0.40,
        height=0.15,
        travel=0.60,
        grip_factor=0.9,
    ),
    _row(
        "heavy-bag-high",
        "11.58",
        "0.40 m out, hands at 0.75 m, lifted 0.60 m, poor grip",
        reach=0.40,
        height=0.75,
        travel=0.60,
        grip_factor=0.9,
    ),
    _row(
        "hopper",
        "18.9",
        f"{_INCHES}; and its multipliers are rounded to two digits",
        _EXAMPLES,
        inches=True,
        rel=0.045,
        reach=18 * _INCH,
        height=15 * _INCH,
        travel=21 * _INCH,
        twist=math.radians(45.0),
        grip_factor=0.95,
    ),
    _row(
        "supply-rolls",
        "20.9",
        _INCHES,
        _EXAMPLES,
        inches=True,
        rel=0.03,
        reach=20 * _INCH,
        height=27 * _INCH,
        travel=17 * _INCH,
        grip_factor=0.9,
    ),
)
