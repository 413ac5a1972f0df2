"""Layer names after ISO 13567: agent (2), element (6), presentation (2), such as `A-RIB---E-`."""

from __future__ import annotations

from bermwright.base.drawing import Pen

AGENT = "A-"
"""Architect or designer; the agent is always the one who draws the house."""
ELEMENTS = {
    "drawing": "GENRAL",
    "rib": "RIB",
    "shell": "SHELL",
    "lagging": "LAGGNG",
    "membrane": "MEMBRN",
    "vapour control": "VAPOUR",
    "insulation": "INSULN",
    "drainage": "DRAIN",
    "fleece": "FLEECE",
    "support": "SUPPRT",
    "floor": "FLOOR",
    "earth": "EARTH",
    "turf": "TURF",
    "person": "PERSON",
    "dimension": "DIMENS",
    "text": "TEXT",
    "frame": "FRAME",
    "load": "LOAD",
    "force": "FORCE",
    "bending": "BENDNG",
    "mark": "STOPMK",
    "axis": "AXIS",
    "template": "TEMPLT",
}
"""Element field for each layer of a sheet."""


def layer_name(layer: str, presentation: str) -> str:
    """The whole name; presentation is E element, T text, H hatching, D dimension or B border."""
    element = ELEMENTS.get(layer) or "".join(letter for letter in layer.upper() if letter.isalnum())[:6]
    kind = "B" if layer == "frame" and presentation == "E" else presentation
    return f"{AGENT}{element:-<6}{kind}-"


def line_type(pen: Pen) -> str:
    """Name of the line type of a pen."""
    return {Pen.HIDDEN: "BW_HIDDEN", Pen.NOT_YET: "BW_CHAIN", Pen.LIMIT: "BW_DOTTED"}.get(pen, "CONTINUOUS")
