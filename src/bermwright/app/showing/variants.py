"""Two variants of a house beside each other: what they say otherwise, and what follows from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.app.assessing import quiet, threads
from bermwright.app.outside.kernels import while_preparing
from bermwright.app.showing.differences import differences
from bermwright.base.errors import BermwrightError
from bermwright.base.findings import Verdict
from bermwright.book.sheets.compared import overlay_sheet
from bermwright.form import vault_form
from bermwright.formats.assessment_text import headline
from bermwright.formats.house_file import read
from bermwright.rules.assess import assess
from bermwright.takeoff import vault_quantities

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from bermwright.app.showing.differences import Difference
    from bermwright.base.drawing import Sheet
    from bermwright.base.findings import Finding
    from bermwright.house import House
    from bermwright.rules.assess import Assessment

    Progress = Callable[[str], None]

UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """One of the two."""

    name: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What was found of one variant."""

    name: str
    headline: str
    worst: Verdict
    counts: Mapping[Verdict, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A rule that says something else of the same part."""

    title: str
    part: str
    before: Verdict | None
    after: Verdict | None
    """None: the rule says nothing of this part there."""
    ratio_before: float | None
    ratio_after: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A quantity of both, in the units of the reader."""

    name: str
    before: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """Everything that is said of two variants."""

    before: Judged
    after: Judged
    differences: tuple[Difference, ...]
    moved: tuple[Moved, ...]
    figures: tuple[Figure, ...]
    sections: tuple[tuple[str, Sheet], ...]
    """Vault by vault; none where one of the two has no shape yet."""


def compare(
    before: Variant, after: Variant, *, system: str = "metric", progress: Progress = quiet
) -> Compared:
    """Assess both and lay them side by side. Raises `HouseFileError` where one of them cannot be read."""
    houses = [read(one.text, one.name).house for one in (before, after)]
    found = []
    for one, house in zip((before, after), houses, strict=True):
        progress(f"assessing {one.name}")
        found.append(_assessed(house, progress))
    names = (before.name, after.name)
    return Compared(
        before=_judged(before.name, found[0]),
        after=_judged(after.name, found[1]),
        differences=differences(before.text, after.text),
        moved=tuple(_moved(found[0].findings, found[1].findings)),
        figures=tuple(_figures(_counted(houses[0], system), _counted(houses[1], system))),
        sections=tuple(_sections(houses[0], houses[1], names, system)),
    )


def _assessed(house: House, progress: Progress) -> Assessment:
    with threads() as pool:
        return assess(house, stop_marks=False, progress=while_preparing(progress), share=pool.map)


def _judged(name: str, found: Assessment) -> Judged:
    counts = dict.fromkeys(Verdict, 0)
    for one in found.findings:
        counts[one.verdict] += 1
    first = next((verdict for verdict in Verdict if counts[verdict]), Verdict.UNKNOWN)
    return Judged(name=name, headline=headline(found), worst=first, counts=counts)


def _moved(before: Iterable[Finding], after: Iterable[Finding]) -> Iterator[Moved]:
    """Rules that say something else, the largest step first."""
    old, new = _worst_of(before), _worst_of(after)
    steps = [
        Moved(
            title=(old.get(key) or new[key]).title,
            part=key[1],
            before=old[key].verdict if key in old else None,
            after=new[key].verdict if key in new else None,
            ratio_before=old[key].ratio if key in old else None,
            ratio_after=new[key].ratio if key in new else None,
        )
        for key in dict.fromkeys([*old, *new])
    ]
    told = [one for one in steps if one.before != one.after or _apart(one.ratio_before, one.ratio_after)]
    yield from sorted(told, key=lambda one: (one.before == one.after, -_step(one)))


def _worst_of(findings: Iterable[Finding]) -> dict[tuple[str, str], Finding]:
    """The worst finding of each rule and part: findings come worst first."""
    found: dict[tuple[str, str], Finding] = {}
    for one in findings:
        found.setdefault((one.rule, one.part), one)
    return found


def _apart(before: float | None, after: float | None) -> bool:
    """Whether two ratios differ as they are shown."""
    if before is None or after is None:
        return before is not after
    return f"{before:.2f}" != f"{after:.2f}"


def _step(one: Moved) -> float:
    if one.ratio_before is None or one.ratio_after is None:
        return 0.0
    return abs(one.ratio_after - one.ratio_before)


def _counted(house: House, system: str) -> dict[str, str]:
    """The quantities of every vault whose shape is known."""
    rows: dict[str, str] = {}
    for vault in house.vaults:
        try:
            counted = vault_quantities(house, vault, vault_form(house, vault))
        except BermwrightError:
            continue
        told = f" ({vault.name})" if len(house.vaults) > 1 else ""
        rows |= {f"{row.name}{told}": row.text(system) for row in counted.rows}
        rows |= {f"cost{told}": f"{low} to {high}" for low, high in counted.totals}
    return rows


def _figures(before: Mapping[str, str], after: Mapping[str, str]) -> Iterator[Figure]:
    """Every quantity that is another."""
    for name in dict.fromkeys([*before, *after]):
        old, new = before.get(name, UNKNOWN), after.get(name, UNKNOWN)
        if old != new:
            yield Figure(name=name, before=old, after=new)


def _sections(
    before: House, after: House, names: tuple[str, str], system: str
) -> Iterator[tuple[str, Sheet]]:
    old = {vault.name: vault for vault in before.vaults}
    for vault in after.vaults:
        if vault.name not in old:
            continue
        try:
            forms = vault_form(before, old[vault.name]), vault_form(after, vault)
        except BermwrightError:
            continue
        yield vault.name, overlay_sheet(*forms, names=names, system=system)
