"""Two variants side by side: files of the folder, revisions of the file in hand, or what was kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from starlette.routing import Route

from bermwright.app.showing.variants import Variant, compare
from bermwright.base.errors import BermwrightError
from bermwright.formats.drawings import svg
from bermwright.formats.house_file.files import load_text
from bermwright.workbench.beside.common import (
    AskedWrongError,
    asked,
    folder_of,
    house_files,
    own_file,
    refused,
    show,
    table_of,
    telling,
    units_of,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from starlette.requests import Request
    from starlette.responses import Response

    from bermwright.app.showing.variants import Compared, Judged

SHOWN_REVISIONS = 30
"""Of the history, the newest."""
KEPT, NOW = "kept", "now"


def routes() -> list[Route]:
    """The page and its answer."""
    return [Route("/compare", page), Route("/compare/run", run, methods=["POST"])]


async def page(request: Request) -> Response:
    """The page itself."""
    return show(request, "compare.html", choices=_choices(request))


def _choices(request: Request) -> list[tuple[str, str]]:
    """What can be compared: how it is asked for, and what it is called."""
    desk, files = table_of(request).desk, house_files(folder_of(request))
    choices: list[tuple[str, str]] = []
    if desk is not None:
        choices += [(NOW, f"{desk.path.name}, now in hand"), (KEPT, f"{desk.path.name}, as kept")]
        files = [name for name in files if name != desk.path.name]
    choices += [(f"file {name}", name) for name in files]
    if desk is not None:
        revisions = list(enumerate(desk.history.revisions))[-SHOWN_REVISIONS:]
        choices += [(f"revision {at}", f"revision {at}: {one.label}") for at, one in reversed(revisions)]
    return choices


async def run(request: Request) -> Response:
    """Assess both and say what differs, step by step."""
    try:
        data = await asked(request)
        before, after = (_variant(request, str(data.get(key, ""))) for key in ("before", "after"))
    except BermwrightError as error:
        return refused(error)
    system = units_of(request)

    def work(step: Callable[[str], None]) -> dict[str, Any]:
        return _said(compare(before, after, system=system, progress=step))

    return telling(work)


def _variant(request: Request, wanted: str) -> Variant:
    """What was chosen, with its text."""
    desk = table_of(request).desk
    kind, _, name = wanted.partition(" ")
    if kind == "file":
        return Variant(name=name, text=load_text(own_file(folder_of(request), name)))
    if desk is None:
        raise AskedWrongError("Choose two variants.")
    if kind == NOW:
        return Variant(name="now in hand", text=desk.text)
    if kind == KEPT:
        return Variant(name="as kept", text=load_text(desk.path))
    revisions = desk.history.revisions
    if kind == "revision" and name.isascii() and name.isdigit() and int(name) < len(revisions):
        chosen = revisions[int(name)]
        return Variant(name=f"revision {name}: {chosen.label}", text=chosen.text)
    raise AskedWrongError("Choose two variants.")


def _said(found: Compared) -> dict[str, Any]:
    return {
        "before": _judged(found.before),
        "after": _judged(found.after),
        "differences": [
            {"place": one.place, "before": one.before, "after": one.after, "says": one.says}
            for one in found.differences
        ],
        "moved": [
            {
                "title": one.title,
                "part": one.part,
                "before": one.before.value if one.before else None,
                "after": one.after.value if one.after else None,
                "ratio_before": _ratio(one.ratio_before),
                "ratio_after": _ratio(one.ratio_after),
            }
            for one in found.moved
        ],
        "figures": [{"name": one.name, "before": one.before, "after": one.after} for one in found.figures],
        "sections": [
            {"vault": name, **{light: svg(sheet, light, prefix=f"c{at}") for light in ("day", "lamp")}}
            for at, (name, sheet) in enumerate(found.sections)
        ],
    }


def _judged(one: Judged) -> dict[str, Any]:
    counts = {verdict.value: count for verdict, count in one.counts.items() if count}
    return {"name": one.name, "headline": one.headline, "worst": one.worst.value, "counts": counts}


def _ratio(ratio: float | None) -> str:
    return "" if ratio is None else f"{ratio:.2f}"
