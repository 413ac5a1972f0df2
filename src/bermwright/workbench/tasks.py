"""What runs in the workers: plain functions that take and give plain things."""

from __future__ import annotations

import multiprocessing
import os
import shutil
import signal
import tempfile
import threading
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bermwright.base.errors import BermwrightError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from bermwright.adapt.mend.nouns import Mended
    from bermwright.app.live.nouns import Found

    Progress = Callable[[str], None]
    Made = dict[str, Any]

_HERE: dict[str, Any] = {}


class Stopped(Exception):  # noqa: N818  (nothing is wrong: somebody has had enough)
    """The job was told to end."""


class NoSuchJobError(BermwrightError):
    """A job that nobody knows."""


def begin(stops: Any, lines: Any, *, own_process: bool = True) -> None:  # noqa: ANN401  (shared between processes)
    """Remember by what a worker is told to end and where it tells how far it is."""
    _HERE["stops"], _HERE["lines"] = stops, lines
    if own_process:
        # Ctrl-C in the terminal goes to every process of the group: the server ends its workers itself.
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        threading.Thread(target=_with_parent, daemon=True, name="parent").start()


def _with_parent() -> None:
    """End with the server, even where that is killed and can tell nobody."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(0)


def warm() -> None:
    """Load what every run needs, so that the first one does not wait for it."""
    from bermwright.app.live import full, scene  # noqa: F401  (loaded before they are asked for)
    from bermwright.handbook.frames import kernel  # noqa: F401  (loaded before they are asked for)


def teller(number: int) -> Progress:
    """The progress line of a job; it ends the job once that is wanted."""

    def told(step: str) -> None:
        stops = _HERE["stops"]
        if stops[number % len(stops)]:
            raise Stopped
        _HERE["lines"].put((number, step))

    return told


def full(number: int, text: str, name: str) -> Found:
    """Every rule on the house of a text, with the surveyed points beside its file."""
    from bermwright.app.assessing import survey_beside, threads
    from bermwright.app.live.full import full_run
    from bermwright.formats.house_file import read

    opened = read(text, name)
    survey = survey_beside(opened.house, Path(name).parent)
    with threads() as pool:
        return full_run(
            opened.house, opened.not_read, progress=teller(number), share=pool.map, survey=survey
        )[1]


def mends(number: int, text: str, name: str, rule: str, part: str) -> Mended:
    """What would make one rule hold for one part."""
    from bermwright.adapt.mend.mend import targets
    from bermwright.app.assessing import survey_beside, threads
    from bermwright.app.mending import NothingToMendError, mends_of
    from bermwright.formats.house_file import read
    from bermwright.rules.assess import assess

    told = teller(number)
    opened = read(text, name)
    kept: dict[str, Any] = _HERE.setdefault("assessed", {})
    if text not in kept:
        kept.clear()  # one house at a time
        with threads() as pool:
            kept[text] = assess(
                opened.house, not_read=opened.not_read, progress=told, share=pool.map,
                survey=survey_beside(opened.house, Path(name).parent),
            )  # fmt: skip
    chosen = tuple(one for one in targets(kept[text]) if (one.rule, one.part) == (rule, part))
    if not chosen:
        raise NothingToMendError("This finding holds, or is not there any more.")
    return mends_of(kept[text], chosen[:1], progress=told)[0]


def job(number: int, what: str, text: str, path: str, folder: str, options: Mapping[str, Any]) -> Made:
    """One of the longer jobs; the names of the files that it left in `folder`, or its data."""
    if what not in JOBS:
        raise NoSuchJobError(f"There is no job named {what[:40]}. There are: {', '.join(JOBS)}.")
    with _on_disk(text, path) as house_file:
        return JOBS[what](house_file, Path(folder), options, teller(number))


def handmade(
    number: int, act: str, leaf: str, text: str, path: str, folder: str, options: Mapping[str, str]
) -> Made:
    """A leaf of what is made by hand: to look at (`show`), or as files in `folder` (`make`)."""
    from bermwright.app.handmade import made_of, shown_of

    of = {"show": shown_of, "make": made_of}[act]
    with _on_disk(text, path) as house_file:
        return of(leaf, house_file, Path(folder), options, teller(number))


@contextmanager
def _on_disk(text: str, path: str) -> Iterator[str]:
    """A file with this text: the house file itself where it says the same, else a copy beside its climate."""
    real = Path(path)
    with suppress(OSError):
        if real.read_bytes() == text.encode("utf-8"):
            yield str(real)
            return
    with tempfile.TemporaryDirectory(prefix="bermwright-") as folder:
        copy = Path(folder) / real.name
        copy.write_text(text, encoding="utf-8", newline="")
        _bring(text, real.parent, Path(folder))
        yield str(copy)


def _bring(text: str, source: Path, goal: Path) -> None:
    """Files that the house file names, of weather and surveyed points, are taken along."""
    import tomllib

    house = tomllib.loads(text)
    for named in (house.get("site", {}).get("climate", ""), house.get("survey", {}).get("points", "")):
        plain = isinstance(named, str) and named and ":" not in named and "/" not in named
        if plain and (source / named).is_file():
            shutil.copy(source / named, goal / named)


def _out(house_file: str, folder: Path, what: str, ending: str) -> str:
    return str(folder / f"{Path(house_file).stem}-{what}{ending}")


def _one_of(options: Mapping[str, Any], name: str, allowed: tuple[str, ...]) -> str:
    wanted = options.get(name, allowed[0])
    if wanted not in allowed:
        raise NoSuchJobError(f"{name} must be one of: {', '.join(allowed)}.")
    return str(wanted)


def _system(options: Mapping[str, Any]) -> str:
    return _one_of(options, "units", ("metric", "imperial"))


def _book(house_file: str, folder: Path, options: Mapping[str, Any], told: Progress) -> Made:
    from bermwright.app.booking import ALSO, Wishes, make_book

    also = tuple(name for name in options.get("also", ()) if name in ALSO)
    wishes = Wishes(
        out=_out(house_file, folder, "book", ".pdf"),
        paper=_one_of(options, "paper", ("A4", "A3")),
        system=_system(options),
        also=also,
    )
    made = make_book(house_file, wishes, told)
    return {"name": made.write().name, "data": {"pages": made.pages, "holds": made.holds}}


def _templates(house_file: str, folder: Path, options: Mapping[str, Any], told: Progress) -> Made:
    from bermwright.app.making.templating import TemplateWishes, make_templates, plan_templates

    wishes = TemplateWishes(
        out=_out(house_file, folder, "templates", ".pdf"),
        paper=_one_of(options, "paper", ("A4", "A3")),
        printer_bar=options.get("printer_bar") or None,
        system=_system(options),
    )
    planned = plan_templates(house_file, wishes)
    told(f"{planned.sheets} full-size sheets")
    made = make_templates(planned, told)
    return {"name": made.write()[0].name, "data": {"sheets": planned.sheets, "pages": made.pages}}


def _setout(house_file: str, folder: Path, options: Mapping[str, Any], told: Progress) -> Made:
    from bermwright.app.making.settingout import SetOutWishes, set_out_file
    from bermwright.formats.setout import setout_data

    out = _out(house_file, folder, "setout", ".pdf")
    made = set_out_file(house_file, SetOutWishes(out=out, system=_system(options)), told)
    data = setout_data(made.house, made.outs)
    return {"name": made.write()[0].name, "data": {"sheets": made.sheets, "setout": data}}


def _draw(house_file: str, folder: Path, options: Mapping[str, Any], told: Progress) -> Made:
    from bermwright.app.drawing import KINDS, Order, draw_file

    what = _one_of(options, "drawing", KINDS)
    ending = _one_of(options, "ending", (".pdf", ".dxf"))
    out = _out(house_file, folder, what, ending)
    drawn = draw_file(house_file, Order(what=what, out=out, system=_system(options)), told)
    return {"name": drawn.write()[0].name, "data": {"sheets": drawn.sheets}}


def _shape(house_file: str, folder: Path, options: Mapping[str, Any], told: Progress) -> Made:
    from bermwright.app.shaping import ShapeWishes, shape_file
    from bermwright.formats.shape_text import shape_text

    out = _out(house_file, folder, "shape", ".pdf")
    shaped = shape_file(house_file, ShapeWishes(out=out, system=_system(options)), told)
    path = shaped.write()
    text = shape_text(shaped.house, shaped.advices, _system(options))
    return {"name": path.name if path is not None else None, "data": {"text": text, "holds": shaped.holds}}


def _winter(house_file: str, folder: Path, options: Mapping[str, Any], told: Progress) -> Made:
    from bermwright.app.showing.ground import reckoned_weeks
    from bermwright.app.wintering import WinterWishes, winter_file
    from bermwright.formats.winter_json import winter_data

    out = _out(house_file, folder, "winter", ".pdf")
    wintered = winter_file(house_file, WinterWishes(out=out, system=_system(options)), told)
    path = wintered.write()
    data = winter_data(wintered.house, wintered.years, _system(options))
    ground = reckoned_weeks(wintered.years)
    return {"name": path.name if path is not None else None, "data": data, "ground": ground}


def _count(house_file: str, _folder: Path, options: Mapping[str, Any], _told: Progress) -> Made:
    from bermwright.app.counting import count_file
    from bermwright.formats.quantities_text import quantities_text

    counted = count_file(house_file)
    return {"name": None, "data": {"text": quantities_text(counted.house, counted.vaults, _system(options))}}


JOBS: dict[str, Callable[[str, Path, Mapping[str, Any], Progress], Made]] = {
    "book": _book,
    "draw": _draw,
    "templates": _templates,
    "setout": _setout,
    "shape": _shape,
    "winter": _winter,
    "count": _count,
}
"""Every longer job by its word."""
