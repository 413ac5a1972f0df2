"""The parts of a house as a plain list: what each has, what it may be, and what is not written yet."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.app.live.handles import text_in
from bermwright.base.errors import QuantityError
from bermwright.base.units import parse_exact
from bermwright.formats.house_file.writing import as_toml
from bermwright.house import House
from bermwright.house.fields import Choice, Cost, Quantity, Size, Table, Tables, Whole, Words, YesNo, said_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.house.checks import Key
    from bermwright.house.fields import Said

SWAPPED = (("left", "right"), ("left_toe", "right_toe"))
"""Keys that change places when a part is mirrored."""
TURNED = ("across",)
"""Keys whose sign turns."""
LINES = ("points", "line", "natural")
"""Lines from left to right."""


def parts_data(document: Mapping[str, Any]) -> dict[str, Any]:
    """Every table of the file that a person may choose, and what may be added."""
    return {"list": list(_parts(House, document, ())), "can_add": list(_can_add(document))}


def _parts(model: type, table: Mapping[str, Any], way: Key) -> Iterator[dict[str, Any]]:
    for key, one in said_of(model).items():
        match one.kind:
            case Tables(of=inner):
                for number, entry in enumerate(_entries(table.get(key))):
                    yield _part(inner, entry, (*way, key, number), key)
                    yield from _parts(inner, entry, (*way, key, number))
            case Table(of=inner) if isinstance(table.get(key), dict):
                yield _part(inner, table[key], (*way, key), key)
                yield from _parts(inner, table[key], (*way, key))


def _entries(given: object) -> list[dict[str, Any]]:
    return [one for one in given if isinstance(one, dict)] if isinstance(given, list) else []


def _part(model: type, table: Mapping[str, Any], at: Key, key: str) -> dict[str, Any]:
    number = at[-1] if isinstance(at[-1], int) else None
    return {
        "kind": _dotted(at if number is None else at[:-1]),
        "kind_label": key.replace("_", " "),
        "name": str(table.get("name", "") or table.get("kind", "") or ""),
        "at": _dotted(at),
        "number": number,
        "vault": table.get("vault") if isinstance(table.get("vault"), str) else None,
        "copies": number is not None,
        "removes": number is not None or at == ("stages", "ballast"),
        "mirrors": bool(mirrored_changes(table, at)),
        "fields": [
            field_data(one, table, (*at, name))
            for name, one in said_of(model).items()
            if not isinstance(one.kind, Table | Tables)
        ],
    }


def field_data(one: Said, table: Mapping[str, Any], key: Key) -> dict[str, Any]:
    """One value of a part, with all that a field must know."""
    given = one.key in table
    low, high, because = _limits(one)
    return {
        "key": _dotted(key),
        "label": one.key.replace("_", " "),
        "help": one.words,
        "value": _text(table[one.key]) if given else "",
        "given": given,
        "choices": _choices(one),
        "low": low,
        "high": high,
        "because": because,
        "unit": one.kind.dimension if isinstance(one.kind, Quantity) else "",
        "default": as_toml(one.default, one.kind).strip('"')
        if one.source and one.default is not None
        else "",
        "source": one.source,
        "needed": one.required or one.ask is not None,
        "asks": one.ask.asks if one.ask is not None else "",
        "how": one.ask.cheapest_way if one.ask is not None else "",
        "example": one.example,
    }


def _limits(one: Said) -> tuple[str, str, str]:
    match one.kind:
        case Quantity(low=low, high=high, because=because):
            return low, high, because
        case Whole(low=least, high=most, because=because):
            return str(least), str(most), because
        case Size(first=first, second=second):
            low = f"{first.low} x {second.low}" if first.low else ""
            return low, f"{first.high} x {second.high}" if low else "", first.because
        case Cost() | _:
            return "", "", ""


def _choices(one: Said) -> list[str]:
    match one.kind:
        case Choice(options=options):
            return [str(option) for option in options]
        case YesNo():
            return ["yes", "no"]
        case Words(options=options) if options:
            return list(options)
        case _:
            return []


def _text(value: object) -> str:
    return value if isinstance(value, str) else str(value)


def _can_add(document: Mapping[str, Any]) -> Iterator[dict[str, str]]:
    """Lists that a new entry may be added to."""
    for key, one in said_of(House).items():
        if isinstance(one.kind, Tables):
            yield {"kind": key, "label": key.replace("_", " ")}
    for number, vault in enumerate(_entries(document.get("vault"))):
        yield {"kind": f"vault.{number}.cover", "label": f"layer over {vault.get('name', 'the vault')}"}
    for path, label in (("site.soil", "soil layer"), ("stages.prop", "props"), ("stages.tie", "ties")):
        yield {"kind": path, "label": label}
    if "ballast" not in document.get("stages", {}):
        yield {"kind": "stages.ballast", "label": "ballast on the crown"}


def mirrored_changes(table: Mapping[str, Any], at: Key) -> dict[Key, Any]:
    """What has to be written so that left and right of a part change places; empty where they are alike."""
    changes: dict[Key, Any] = {}
    for one, other in SWAPPED:
        if (one in table or other in table) and table.get(one) != table.get(other):
            changes[*at, one], changes[*at, other] = table.get(other), table.get(one)
    for key in TURNED:
        if isinstance(table.get(key), str) and (turned := _turned(table[key])) != table[key]:
            changes[*at, key] = turned
    for key in LINES:
        if isinstance(table.get(key), list) and table[key]:
            changes[*at, key] = [[_turned(str(x)), z] for x, z in reversed(table[key])]
    if table.get("side") in {"left", "right"}:
        changes[*at, "side"] = "left" if table["side"] == "right" else "right"
    for key, inner in table.items():
        if isinstance(inner, dict):
            changes |= mirrored_changes(inner, (*at, key))
    return changes


def _turned(text: str) -> str:
    """A length on the other side: its sign turned, its unit kept."""
    try:
        value = parse_exact(text, "level")
    except QuantityError:
        return text
    if value == 0.0:
        return text
    bare = text.strip()
    return bare[1:].lstrip() if bare[:1] in {"-", "−"} else f"-{bare.lstrip('+')}"


def _dotted(key: Key) -> str:
    return ".".join(str(part) for part in key)


__all__ = ["field_data", "mirrored_changes", "parts_data", "text_in"]
