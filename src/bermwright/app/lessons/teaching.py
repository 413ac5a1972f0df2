"""The lessons that come with the program: list them, tell one, run its two houses."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from bermwright.adapt.lessons import Built, changed, drawn
from bermwright.app.assessing import quiet, threads
from bermwright.app.outside.kernels import while_preparing
from bermwright.base.errors import BermwrightError
from bermwright.formats.house_file import read
from bermwright.formats.lessons import house_tables, house_text, read_lesson
from bermwright.rules.assess import assess

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from bermwright.adapt.lessons import Lesson
    from bermwright.base.findings import Finding

_ORDINARY = "ordinary.toml"
"""The house that every lesson changes."""


class NoSuchLessonError(BermwrightError):
    """A name that is no lesson."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taught:
    """A lesson with what its rule says of both houses, worst first."""

    lesson: Lesson
    found: Mapping[Built, Sequence[Finding]]


def ordinary() -> dict[str, Any]:
    """The tables of the house that every lesson changes."""
    return house_tables(_text(_ORDINARY))


def all_lessons() -> tuple[Lesson, ...]:
    """Every lesson, by name."""
    folder = files("bermwright.data").joinpath("lessons")
    names = sorted(one.name for one in folder.iterdir() if one.name.endswith(".toml"))
    return tuple(read_lesson(_text(name), name.removesuffix(".toml")) for name in names if name != _ORDINARY)


def lesson_named(name: str) -> Lesson:
    """The lesson of that name, with spaces or hyphens."""
    wanted = name.strip().lower().replace(" ", "-")
    lessons = {one.name: one for one in all_lessons()}
    if wanted in lessons:
        return lessons[wanted]
    near = get_close_matches(wanted, lessons, n=1)
    hint = f" Did you mean {near[0]}?" if near else ""
    raise NoSuchLessonError(f"There is no lesson named {name!r}.{hint} There are: {', '.join(lessons)}.")


def look_with(
    lesson: Lesson, progress: Callable[[str], None] = quiet
) -> Callable[[dict[str, Any]], tuple[Finding, ...]]:
    """What gives everything that the lesson's rule says of the tables of a house."""

    def look(tables: dict[str, Any]) -> tuple[Finding, ...]:
        house = read(house_text(tables, lesson.title), lesson.name).house
        with threads() as pool:
            found = assess(
                house, stop_marks=False, only={lesson.finds.rule}, progress=progress, share=pool.map
            )
        return lesson.finds.about(found.findings)

    return look


def reveal(lesson: Lesson, progress: Callable[[str], None] = quiet) -> Taught:
    """Run both houses of a lesson, what is assumed in the middle of its ranges."""
    look, house = look_with(lesson, while_preparing(progress)), ordinary()
    return Taught(lesson=lesson, found={built: look(changed(house, drawn(lesson, built))) for built in Built})


def _text(name: str) -> str:
    return files("bermwright.data").joinpath("lessons", name).read_text(encoding="utf-8")
