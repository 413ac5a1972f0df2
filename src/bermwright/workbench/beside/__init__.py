"""The pages beside the drawing: start, sketch, compare, lessons, made by hand; and what the model view asks.

Start reading at `common.py`; each other module is one page with its questions and answers.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.workbench.beside import comparing, handmade, planning, sketching, starting, teaching, viewing

if TYPE_CHECKING:
    from starlette.routing import Route


def routes() -> list[Route]:
    """Every route of these pages."""
    return [
        *starting.routes(),
        *sketching.routes(),
        *comparing.routes(),
        *teaching.routes(),
        *viewing.routes(),
        *planning.routes(),
        *handmade.routes(),
    ]
