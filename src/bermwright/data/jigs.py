"""Sizes of simple tools that do not follow from the house: each from common practice, said so."""

from __future__ import annotations

from typing import Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.works.practice import TRADE


def _practice(value: float, place: str) -> Sourced:
    return Sourced(value, Cite(work=TRADE, place=place, provenance=Provenance.PRACTICE))


RAMMER_FACE: Final = _practice(0.15, "hand rammer with a face of 150 by 150 mm")
RAMMER_BLOCK: Final = _practice(
    0.12, "its block of hardwood or concrete 120 mm high, 6 to 8 kg with the handle"
)
RAMMER_HANDLE: Final = _practice(1.2, "a handle of 1.2 m, held at the hip")
STICK: Final = _practice(0.045, "a straight batten of about 45 by 20 mm")
HOSE: Final = _practice(0.010, "clear hose with a bore of 10 mm")
HOSE_SPARE: Final = _practice(2.0, "2 m of hose to spare for both ends")
STAFF: Final = _practice(1.5, "staffs of 1.5 m for both ends of the hose")
BOARD: Final = _practice(1.0, "slope board 1 m long, so that the drop reads as parts of a thousand")
BOARD_FEET: Final = _practice(1.2192, "slope board 4 ft long where feet and inches are measured")
CHUTE_EASE: Final = _practice(0.010, "the chute 10 mm narrower than the tube, so that it slides on")
CHUTE_LONG: Final = _practice(0.45, "chute 450 mm long: the tube is gathered on it")
STAND_HIGH: Final = _practice(0.75, "mouth of the stand at 0.75 m, a bucket's lift")
BLOCKS: Final = _practice(0.40, "blocks of a rib jig every 0.4 m along the curve")
BLOCK: Final = _practice(0.09, "blocks of 90 mm, screwed twice")
SHOE_SIDE: Final = _practice(0.10, "cheeks of a shoe 100 mm high")
