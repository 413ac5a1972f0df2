"""The JSON Schema of a house file, for editors: words, choices and examples beside the cursor.

It cannot check units or what fits together; the reader does.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, assert_never

from bermwright.formats.house_file.writing import as_toml
from bermwright.house import House
from bermwright.house.fields import (
    Choice,
    Cost,
    Day,
    Number,
    Path,
    Quantity,
    Said,
    Size,
    Table,
    Tables,
    Whole,
    Words,
    YesNo,
    said_of,
)
from bermwright.house.model import NOT_READ_YET

if TYPE_CHECKING:
    from bermwright.house.fields import Kind


def schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of a house file."""
    whole = _table(House)
    for name in NOT_READ_YET:
        whole["properties"][name] = {"description": "Planned; not read yet.", "type": ["object", "array"]}
    whole["required"] = ["house"]
    whole["anyOf"] = [{"required": ["vault"]}, {"required": ["dome"]}]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "bermwright house file",
        **whole,
    }


def _table(model: type) -> dict[str, Any]:
    said = said_of(model)
    required = [key for key, one in said.items() if one.required]
    found: dict[str, Any] = {
        "type": "object",
        "properties": {key: _field(one) for key, one in said.items()},
        "additionalProperties": False,
    }
    return found | ({"required": required} if required else {})


def _field(said: Said) -> dict[str, Any]:
    about = {
        "description": " ".join(part for part in (said.words, _limits(said.kind), _silence(said)) if part)
    }
    return about | _kind(said.kind) | ({"examples": [_example(said)]} if said.example else {})


def _limits(kind: Kind) -> str:
    match kind:
        case Quantity(low=low, high=high, because=because) if low:
            return f"From {low} to {high}: {because}."
        case Whole(low=low, high=high, because=because) | Number(low=low, high=high, because=because) if (
            because
        ):
            return f"From {low:g} to {high:g}: {because}."
        case _:
            return ""


def _silence(said: Said) -> str:
    if said.ask:
        return f"If left out it is asked: {said.ask.asks}"
    if said.source:
        return f"If left out: {as_toml(said.default, said.kind)} ({said.source})."
    return f"If left out: {said.missing}." if said.missing else ""


def _example(said: Said) -> object:
    match said.kind:
        case Whole():
            return int(said.example)
        case Number():
            return float(said.example)
        case Path():
            import json

            return json.loads(said.example)
        case _:
            return said.example


def _kind(kind: Kind) -> dict[str, Any]:
    match kind:
        case Quantity() | Size():
            # Only that there is a number and, beyond a slope, a unit: the reader knows the rest.
            return {"type": "string", "pattern": "[0-9]"}
        case Words(options=options) if options:
            return {"type": "string", "enum": list(options)}
        case Words() | Cost():
            return {"type": "string", "minLength": 1}
        case Day():
            return {"type": "string", "format": "date"}
        case Choice(options=options):
            return {"type": "string", "enum": [str(option) for option in options]}
        case YesNo():
            return {"enum": ["yes", "no", True, False]}
        case Whole(low=low, high=high):
            return {"type": "integer", "minimum": low, "maximum": high}
        case Number(low=low, high=high):
            return {"type": "number", "minimum": low, "maximum": high}
        case Path(least=least):
            point = {"type": "array", "items": {"type": "string"}, "minItems": 2, "maxItems": 2}
            return {"type": "array", "items": point, "minItems": least}
        case Table(of=model):
            return _table(model)
        case Tables(of=model):
            return {"type": "array", "items": _table(model)}
        case _:
            assert_never(kind)
