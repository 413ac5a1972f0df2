"""Mending a house file: searched once, printed as text or JSON, or put into a copy of the file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.adapt.mend.mend import mend, targets
from bermwright.app.assessing import assess_file, quiet, threads
from bermwright.app.outside.files import FileError, beside, write_new
from bermwright.app.outside.kernels import while_preparing
from bermwright.app.shaping import stoppable
from bermwright.base.errors import BermwrightError
from bermwright.base.findings import Verdict
from bermwright.formats.mends import mended_copy
from bermwright.rules.registry import rule_named

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from bermwright.adapt.mend.nouns import Mended, Proposal, Target
    from bermwright.formats.house_file import Opened
    from bermwright.rules.assess import Assessment

    Progress = Callable[[str], None]


class NothingToMendError(BermwrightError):
    """No finding of that name has to be mended, or there is no such proposal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MendWishes:
    """What is to be mended."""

    finding: str | None = None
    """A rule's name in words; the first failing finding in the order of building where it is not given."""
    part: str | None = None
    """Words that the part's name holds."""
    every: bool = False
    """Every finding that does not hold, one after the other."""
    accept_tight: bool = False
    apply: int | None = None
    """Number of the proposal that goes into a copy of the file."""
    out: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MendedFile:
    """What was found, ready to be printed."""

    opened: Opened
    mends: tuple[Mended, ...]
    waiting: tuple[Target, ...]
    """What does not hold and was not looked at."""
    copy: tuple[Path, str] | None
    """Where the copy goes and its text; None where nobody asked for it."""

    @property
    def holds(self) -> bool:
        """Whether everything that was looked at can be made to hold."""
        return all(one.proposals or one.remarks for one in self.mends)

    def write(self) -> Path | None:
        """Put the copy on disk; never over a file that is there."""
        return None if self.copy is None else write_new(str(self.copy[0]), self.copy[1])


def mend_file(house_file: str, wishes: MendWishes, progress: Progress = quiet) -> MendedFile:
    """Mend one finding of a house file, or several. Ctrl-C ends it."""
    path = _copy_path(house_file, wishes)
    if wishes.finding is not None:
        rule_named(wishes.finding)  # a slip in its name is told before the house is looked at
    assessed = assess_file(house_file, progress=progress)
    opened, found = assessed.opened, assessed.assessment
    waiting = targets(found, accept_tight=wishes.accept_tight)
    chosen = chosen_of(waiting, found, wishes)
    mends = mends_of(found, chosen, accept_tight=wishes.accept_tight, progress=progress)
    copy = None
    if path is not None:
        proposal = _picked(mends, wishes.apply)
        copy = (path, mended_copy(opened.document, proposal, str(path)))
    left = tuple(one for one in waiting if one not in chosen)
    return MendedFile(opened=opened, mends=mends, waiting=left, copy=copy)


def mends_of(
    assessment: Assessment,
    chosen: tuple[Target, ...],
    *,
    accept_tight: bool = False,
    progress: Progress = quiet,
) -> tuple[Mended, ...]:
    """Mend some findings of an assessed house."""
    with threads() as pool, stoppable(while_preparing(progress)) as told:
        return tuple(
            mend(assessment, target, accept_tight=accept_tight, progress=told, share=pool.map)
            for target in chosen
        )


def mended_first(
    assessment: Assessment, progress: Progress = quiet
) -> tuple[tuple[Mended, ...], tuple[Target, ...]]:
    """The first finding in the order of building, mended, and all that are left."""
    waiting = targets(assessment)
    chosen = chosen_of(waiting, assessment, MendWishes())
    left = tuple(one for one in waiting if one not in chosen)
    return mends_of(assessment, chosen, progress=progress), left


def chosen_of(waiting: tuple[Target, ...], found: Assessment, wishes: MendWishes) -> tuple[Target, ...]:
    """What is looked at: what is named, else everything, else the first failing in the order of building."""
    named = waiting
    if wishes.finding is not None:
        rule = rule_named(wishes.finding).name
        named = tuple(one for one in named if one.rule == rule)
    if wishes.part is not None:
        named = tuple(one for one in named if wishes.part.lower() in one.part.lower())
    if not named and (wishes.finding or wishes.part):
        listed = ", ".join(dict.fromkeys(one.rule for one in waiting)) or "nothing"
        raise NothingToMendError(f"Nothing of that name or part has to be mended. Not holding: {listed}.")
    if wishes.every or wishes.finding or wishes.part:
        return named
    unknown = {(one.rule, one.part) for one in found.findings if one.verdict is Verdict.UNKNOWN}
    known = [one for one in named if (one.rule, one.part) not in unknown]
    return tuple(known[:1] or named[:1])


def _copy_path(house_file: str, wishes: MendWishes) -> Path | None:
    """Where the copy goes, refused before anything is computed where a file is there."""
    from pathlib import Path

    if wishes.apply is None:
        if wishes.out is not None:
            raise NothingToMendError("Say which proposal goes into the copy: --apply 1.")
        return None
    if wishes.apply < 1:
        raise NothingToMendError(
            f"There is no proposal {wishes.apply}; they count from 1. Nothing was written."
        )
    path = Path(wishes.out) if wishes.out else beside(house_file, "mended", ".toml")
    if path.suffix.lower() != ".toml":
        raise FileError(f"{path} must end in .toml.")
    if path.exists() or path.is_symlink():
        raise FileError(f"{path} is there already and was left as it is. Give another name.")
    return path


def _picked(mends: tuple[Mended, ...], number: int | None) -> Proposal:
    every = [proposal for mended in mends for proposal in mended.proposals]
    if number is None or not 1 <= number <= len(every):
        raise NothingToMendError(
            f"There is no proposal {number}; there are {len(every)}. Nothing was written."
        )
    return every[number - 1]
