"""Assessing a house file: the core is called once, with threads for its heavy part."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.app.opening import open_house
from bermwright.app.outside.kernels import while_preparing
from bermwright.app.outside.points import points_beside
from bermwright.base.errors import BermwrightError
from bermwright.base.findings import Verdict
from bermwright.rules.assess import assess
from bermwright.rules.nouns import SurveyAtHand

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from bermwright.formats.house_file import Opened
    from bermwright.house import House
    from bermwright.rules.assess import Assessment

THREADS = 2
"""The compiled kernels let other threads run; more than two gain little on the machines of builders."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessed:
    """A house file and what was found of it."""

    opened: Opened
    assessment: Assessment


def quiet(_step: str) -> None:
    """Progress that nobody sees."""


def assess_file(
    path: str | Path, *, stop_marks: bool = True, progress: Callable[[str], None] = quiet
) -> Assessed:
    """Open a house file and run every rule. Ctrl-C ends it; nothing is left behind."""
    opened = open_house(path)
    with threads() as pool:
        assessment = assess(
            opened.house,
            not_read=opened.not_read,
            stop_marks=stop_marks,
            progress=while_preparing(progress),
            share=pool.map,
            survey=survey_beside(opened.house, Path(path).parent),
        )
    return Assessed(opened=opened, assessment=assessment)


def survey_beside(house: House, folder: Path) -> SurveyAtHand | None:
    """The surveyed points that the file names, or why they cannot be read."""
    if house.survey is None:
        return None
    try:
        points, name = points_beside(house, folder)
    except BermwrightError as error:
        return SurveyAtHand(name=house.survey.points, why_not=error)
    return SurveyAtHand(name=name, points=points or ())


def holds(assessment: Assessment, *, accept_tight: bool = False) -> bool:
    """Whether every rule holds or does not apply; what was never looked at does not hold."""
    good = {Verdict.HOLDS, Verdict.DOES_NOT_APPLY} | ({Verdict.TIGHT} if accept_tight else set())
    return bool(assessment.findings) and all(one.verdict in good for one in assessment.findings)


@contextmanager
def threads() -> Iterator[ThreadPoolExecutor]:
    """A small pool that drops what has not begun when it is left by an error or by Ctrl-C."""
    pool = ThreadPoolExecutor(THREADS)
    try:
        yield pool
    finally:
        pool.shutdown(wait=False, cancel_futures=True)
