"""The leaf of templates shows what is made."""

from __future__ import annotations

from pathlib import Path

from bermwright.app.handmade.templates import show
from bermwright.base.document import Figure
from bermwright.base.drawing import Text

EXAMPLE = Path(__file__).resolve().parents[3] / "examples" / "kettle-hill.toml"


def test_the_first_sheet_shows_the_nails_of_the_house(tmp_path) -> None:
    shown = show(str(EXAMPLE), tmp_path, {"paper": "A4"}, lambda _: None)
    (first,) = (
        block
        for block in shown.document.blocks
        if isinstance(block, Figure) and "first sheet" in block.caption
    )
    said = " ".join(one.text for one in first.sheet.items if isinstance(one, Text))
    assert "not in the house file" not in said
    assert "4.6 mm × 130 mm" in said
