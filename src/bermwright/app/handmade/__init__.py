"""What is made by hand, for a page of the workbench: pictures and tables to look at, files to take away.

Start reading at `leaves.py`; each other module is one leaf of that page.
"""

from __future__ import annotations

from bermwright.app.handmade.leaves import LEAVES, Leaf, leaf_named, made_of, shown_of

__all__ = ["LEAVES", "Leaf", "leaf_named", "made_of", "shown_of"]
