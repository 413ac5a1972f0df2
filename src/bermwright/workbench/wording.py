"""Plain things of the program as messages of one window."""

from __future__ import annotations

import tomllib
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from bermwright.app.live.handles import read_out, text_in
from bermwright.app.live.telling import building_axis, finite, found_data, storm_axis
from bermwright.base.wording import NOT_REVIEWED, ratio_text
from bermwright.book.sheets.screen import MM_PER_PX
from bermwright.formats.house_file.reading import place_of
from bermwright.formats.house_file.scan import lines_of

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping

    from bermwright.app.desk import Desk
    from bermwright.app.live.handles import Grip
    from bermwright.app.live.nouns import Found, Look, StageFound
    from bermwright.app.live.scene import Drawn
    from bermwright.app.live.steps import Snap
    from bermwright.base.drawing import Sheet
    from bermwright.base.errors import Mistake as FileMistake
    from bermwright.book.sheets.screen import Frame
    from bermwright.house import House, Vault
    from bermwright.house.checks import Key
    from bermwright.workbench import messages as m


def key_text(key: Key) -> str:
    """A key of the file in one word: `vault.0.rise`."""
    return ".".join(str(part) for part in key)


def key_of(text: str) -> Key:
    """The same back; numbers count entries."""
    return tuple(int(part) if part.isdigit() else part for part in text.split("."))


def revision_message(desk: Desk, *, edits: bool, label: str, system: str) -> m.Revision:
    """Where the file in hand stands."""
    keys = _places(desk) if desk.mistakes else {}
    house = desk.opened.house if desk.opened is not None else None
    return {
        "say": "revision",
        "number": desk.number,
        "label": label,
        "file": desk.path.name,
        "house": house.name if house is not None else desk.path.stem,
        "kept": desk.kept,
        "undoes": desk.history.undoes,
        "redoes": desk.history.redoes,
        "recovered": desk.recovered,
        "changed_on_disk": desk.on_disk() is not None,
        "kept_at": desk.kept_at,
        "units": system,
        "mistakes": [mistake_data(one, keys) for one in desk.mistakes],
        "readonly": not edits,
        "reviewed": False,
        "mark": NOT_REVIEWED,
        "vaults": [vault.name for vault in house.vaults] if house is not None else [],
    }


def _places(desk: Desk) -> dict[str, str]:
    """Keys of the file by the words of their place."""
    try:
        document = tomllib.loads(desk.text)
        return {place_of(key, document): key_text(key) for key in lines_of(desk.text)}
    except ValueError:
        return {}


def mistake_data(one: FileMistake, keys: Mapping[str, str] | None = None) -> m.Mistake:
    """One mistake of the file."""
    return {
        "place": one.place,
        "key": (keys or {}).get(one.place, ""),
        "line": one.line,
        "value": one.given,
        "says": f"{one.allowed} {one.advice}".strip(),
    }


def mistakes_text(mistakes: list[m.Mistake], own: Collection[str] = ()) -> str:
    """The first mistake in words, with its place where that is not what was changed, and how many more."""
    first = mistakes[0]
    text = first["says"] if first["place"] in own else f"{first['place']}: {first['says']}"
    more = len(mistakes) - 1
    return text if not more else f"{text} {more} more {'things do' if more > 1 else 'thing does'} not fit."


def view_data(frame: Frame) -> m.ViewData:
    """How metres lie on the drawing (px)."""
    view, (wide, high) = frame.view, frame.size
    return {
        "scale": frame.scale,
        "x0": view.origin[0] / MM_PER_PX,
        "z0": (high - view.origin[1]) / MM_PER_PX,
        "width": wide / MM_PER_PX,
        "height": high / MM_PER_PX,
    }


def _name_of(house: House, vault: int) -> str:
    """The shown vault; of a house without one its dome."""
    return house.vaults[vault].name if house.vaults else house.domes[0].name


def _view(drawn: Drawn) -> m.ViewData | None:
    if drawn.frame is not None:
        return view_data(drawn.frame)
    return sheet_view(drawn.sheet) if drawn.sheet is not None else None


def sheet_view(sheet: Sheet) -> m.ViewData:
    """How metres lie on a sheet that was drawn for paper (mm, down from its top)."""
    assert sheet.view is not None  # noqa: S101  (plans and sections have their view)
    return {
        "scale": sheet.view.length(1.0),
        "x0": sheet.view.origin[0],
        "z0": sheet.height - sheet.view.origin[1],
        "width": sheet.width,
        "height": sheet.height,
    }


def scene_message(  # noqa: PLR0913  (a scene has many sides, all by name)
    drawn: Drawn,
    *,
    house: House,
    revision: int,
    provisional: bool,
    stale_from: int | None,
    grips: Iterable[Grip],
    system: str,
    seq: int | None = None,
    dragged: m.Dragged | None = None,
    view_of: str = "section",
    week: int | None = None,
) -> m.Scene:
    """One drawing and what it says."""
    sentences: list[m.SentenceData] = [
        {"verdict": one.verdict, "text": one.text, "next": one.next} for one in drawn.sentences
    ]
    return {
        "say": "scene",
        "revision": revision,
        "seq": seq,
        "provisional": provisional,
        "stale_from": stale_from,
        "vault": drawn.vault,
        "vault_name": _name_of(house, drawn.vault),
        "stage": drawn.stage,
        "case": drawn.case,
        "stages": [
            {
                "name": stage.name,
                "kind": str(stage.kind),
                "title": stage.title,
                "cases": [{"name": case.name, "title": case.title} for case in stage.cases],
            }
            for stage in drawn.stages
        ],
        "view_of": view_of,
        "week": week,
        "svg": drawn.svg,
        "view": _view(drawn),
        "sentence": sentences[0],
        "sentences": sentences,
        "feet": [_foot(one) for one in drawn.feet],
        "ratio": finite(drawn.ratio),
        "ratio_text": ratio_text(drawn.ratio) if drawn.ratio is not None else "unknown",
        "handles": [_place(grip, system) for grip in grips],
        "places": list(drawn.places),
        "dragged": dragged,
    }


def _foot(one: Any) -> m.FootData:  # noqa: ANN401  (a FootShown)
    data = asdict(one)
    data["down"] = [finite(value) for value in data["down"]]
    data["across"] = [finite(value) for value in data["across"]]
    return data  # type: ignore[return-value]


def _place(grip: Grip, system: str) -> dict[str, Any]:
    return {"name": grip.name, "x": grip.x, "z": grip.z, "text": read_out(grip.now, grip.kind, system)}


def handles_message(
    grips: Iterable[Grip], document: Mapping[str, Any], *, revision: int, vault: int, system: str, edits: bool
) -> m.Handles:
    """All handles of a vault."""
    listed = [_handle(grip, document, system, edits=edits) for grip in grips]
    return {"say": "handles", "revision": revision, "vault": vault, "list": listed}


def _handle(grip: Grip, document: Mapping[str, Any], system: str, *, edits: bool) -> m.Handle:
    given, snap = text_in(document, grip.key), grip.snap(system)
    up = {"up": f"{grip.up}"} if grip.up else {}
    return {
        "name": grip.name,
        "key": key_text(grip.key),
        "keys": up,
        "label": grip.label,
        "x": grip.x,
        "z": grip.z,
        "free": grip.free,
        "along": list(grip.along),
        "per": grip.per,
        "value": given or "",
        "text": read_out(grip.now, grip.kind, system),
        "unit": grip.kind.dimension,
        "low": grip.kind.low,
        "high": grip.kind.high,
        "because": grip.kind.because,
        "snap": snap.step,
        "fine": snap.fine,
        "page": snap.page,
        "reach": {
            name: _reach(grip, snap, text)
            for name, text in (("snap", snap.step), ("fine", snap.fine), ("page", snap.page))
        },
        "source": grip.said.source,
        "given": given is not None,
        "fixed": not edits,
    }


def _reach(grip: Grip, snap: Snap, text: str) -> float | None:
    """How far one step moves the hand (m); None for the foot of a slope."""
    return snap.of(text) / abs(grip.per) if grip.per else None


def axes_message(
    found: Found | None, look: Look, house: House, *, revision: int, stage: str | None
) -> m.Axes:
    """The axes of time under the drawing."""
    vault = house.vaults[min(look.vault, len(house.vaults) - 1)] if house.vaults else None
    stages: tuple[StageFound, ...] = ()
    if found is not None and vault is not None:
        stages = found.vaults.get(vault.name, ())
    worst = max(
        (one for one in stages if one.ratio is not None), key=lambda one: one.ratio or 0.0, default=None
    )
    return {
        "say": "axes",
        "revision": revision,
        "vault": look.vault,
        "stage": stage,
        "now": {"stage": stage, "case": look.case, "week": None},
        "shape": _shape(vault),
        "worst": None
        if worst is None
        else {
            "stage": worst.name,
            "name": worst.title,
            "text": f"worst at {worst.name}: {ratio_text(worst.ratio)}",
        },
        "building": building_axis(stages, look.system),  # type: ignore[typeddict-item]
        "year": None,
        "storm": storm_axis(stages, stage),  # type: ignore[typeddict-item]
    }


def _shape(vault: Vault | None) -> dict[str, float | None]:
    """What the small sections of the axis need."""
    if vault is None:
        return {"rise": None, "span": None, "crown_cover": None}
    cover = vault.mound.crown if vault.mound is not None else None
    return {"rise": finite(vault.rise), "span": finite(vault.span), "crown_cover": finite(cover)}


def found_message(found: Found, house: House, system: str, revision: int) -> m.FoundData:
    """Everything a full run found."""
    data = found_data(found, house, system)
    return {"say": "found", "revision": revision, **data}  # type: ignore[typeddict-item]
