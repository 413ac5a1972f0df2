"""The file of a lesson to a `Lesson`, and the tables of its houses to house files."""

from __future__ import annotations

import tomllib
from string import ascii_lowercase
from typing import TYPE_CHECKING, Any

import tomlkit

from bermwright.adapt.lessons import Answer, Built, Finds, Lesson, Moved, RestsOn
from bermwright.base.sources import Cite, Provenance, Work

if TYPE_CHECKING:
    from collections.abc import Mapping


def house_tables(text: str) -> dict[str, Any]:
    """A house file as plain tables."""
    return tomllib.loads(text)


def house_text(tables: Mapping[str, Any], note: str) -> str:
    """Plain tables as a house file that begins with a note."""
    comment = "".join(f"# {line}\n" for line in note.splitlines())
    return comment + tomlkit.dumps(dict(tables))


def read_lesson(text: str, name: str) -> Lesson:
    """The text of a lesson's file."""
    tables = tomllib.loads(text)
    both, swept = tables.get("both", {}), tables.get("sweep", {})
    return Lesson(
        name=name,
        title=tables["title"],
        story=_one_line(tables["story"]),
        known=tuple(map(_one_line, tables["known"])),
        assumed=tuple(map(_one_line, tables["assumed"])),
        told_with=tables["told_with"],
        asks=tables["asks"],
        answers=_answers(tables["answers"], tables["right"]),
        failed=_one_line(tables["failed"]),
        remedy=_one_line(tables["remedy"]),
        rests_on=RestsOn(tables["rests_on"]),
        source=_cite(name, "source", tables["source"]),
        remedy_source=_cite(name, "remedy", tables["remedy_source"]),
        finds=Finds(
            rule=tables["finds"]["rule"],
            stage=tables["finds"].get("stage", ""),
            part=tables["finds"].get("part", ""),
        ),
        changes={one: {**both, **tables.get(_key(one), {})} for one in Built},
        sweep={one: (*_moved(swept, "both"), *_moved(swept, _key(one))) for one in Built},
    )


def _key(built: Built) -> str:
    return built.value.replace(" ", "_")


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _answers(texts: list[str], right: str) -> tuple[Answer, ...]:
    return tuple(
        Answer(letter=letter, text=text, right=letter == right)
        for letter, text in zip(ascii_lowercase, texts, strict=False)
    )


def _cite(name: str, what: str, table: Mapping[str, Any]) -> Cite:
    work = Work(
        key=f"{name}-{what}",
        authors=table.get("authors", ""),
        title=table["title"],
        year=table["year"],
        locator=table.get("address", ""),
    )
    return Cite(work=work, place=table["place"], provenance=Provenance(table["provenance"]))


def _moved(swept: Mapping[str, Any], key: str) -> tuple[Moved, ...]:
    return tuple(
        Moved(
            place=place,
            low=float(one["low"]),
            high=float(one["high"]),
            form=one["form"],
            why=one["why"],
        )
        for place, one in swept.get(key, {}).items()
    )
