"""Small pictures that say what a plain question asks for: one thing measured on an invented house.

Start reading at `pictures.py`.
"""

from __future__ import annotations

from bermwright.book.sheets.asked.pictures import PICTURES, picture

__all__ = ["PICTURES", "picture"]
