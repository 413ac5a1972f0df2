"""From an assessment to what the pages read. The only page module that knows House and Study."""

from __future__ import annotations

import re
from dataclasses import fields
from typing import TYPE_CHECKING

from bermwright.base.findings import Verdict
from bermwright.base.ranges import Range
from bermwright.base.units import DIMENSIONS, convert, show, show_range
from bermwright.book.pages.chapters import house_chapters
from bermwright.book.pages.inputs import BookInputs, Checked, StopLine, Value, VaultPages
from bermwright.book.pages.setting_out.gathered import set_out_pages
from bermwright.book.sheets import supports_of
from bermwright.house.fields import Quantity, Table, Tables, said_of
from bermwright.house.questions import label
from bermwright.house.values import Board, Nail
from bermwright.rules.soil.filling import STOP_MARKS
from bermwright.rules.supports.pressing import FOOT_FORCES
from bermwright.takeoff import vault_quantities

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from bermwright.base.document import Block
    from bermwright.base.findings import Finding
    from bermwright.base.sources import Cite
    from bermwright.form.rib.nails import Nailing
    from bermwright.form.setout import SurveyPoint
    from bermwright.house import House
    from bermwright.house.fields import Said
    from bermwright.rules.assess import Assessment
    from bermwright.rules.nouns import AnyRule
    from bermwright.rules.study import Study
    from bermwright.takeoff import Quantities

_LEFT_OUT = ("house", "format", "prices", "crew", "review")
"""Tables that no check reads."""
_MOST = 4
"""Most decimals of a printed value."""


def gather(  # noqa: PLR0913  (all by name)
    assessment: Assessment,
    *,
    rules: Sequence[AnyRule],
    revision: str,
    date: str,
    seasons: tuple[str, ...] = (),
    cites: tuple[Cite, ...] = (),
    system: str = "metric",
    paper: str = "A4",
    extra: tuple[Block, ...] = (),
    points: tuple[SurveyPoint, ...] | None = None,
) -> BookInputs:
    """Everything that the site book prints of an assessment."""
    house = assessment.house
    counted = {
        name: vault_quantities(house, study.vault, study.form) for name, study in assessment.studies.items()
    }
    return BookInputs(
        house=house.name,
        note=house.about.note,
        revision=revision,
        date=date,
        system=system,
        values=(*values(house, system), *_assumed(house)),
        checked=tuple(Checked(title=rule.title, why=rule.why) for rule in rules),
        findings=assessment.findings,
        questions=assessment.questions,
        not_checked=assessment.not_checked,
        not_read=assessment.not_read,
        vaults=tuple(
            vault_pages(study, assessment.findings, counted[name], system, points)
            for name, study in assessment.studies.items()
        ),
        quantities=tuple(counted.values()),
        cites=(*cites, *(cite for one in counted.values() for row in one.rows for cite in row.cites)),
        seasons=seasons,
        chapters=(*house_chapters(assessment, system), *extra),
        paper=paper,
    )


def vault_pages(
    study: Study,
    findings: tuple[Finding, ...],
    counted: Quantities,
    system: str,
    points: tuple[SurveyPoint, ...] | None = None,
) -> VaultPages:
    """What the pages read of one vault."""
    own = tuple(finding for finding in findings if finding.part == study.part)
    return VaultPages(
        name=study.vault.name,
        form=study.form,
        curve=str(study.vault.curve),
        stages=study.stages,
        stage_ratio=stage_ratios(study.stage_ratio, own),
        stops=tuple(_stops(study)),
        lifts=counted.lifts,
        foot_forces=tuple(one.says(system) for one in own if one.rule == FOOT_FORCES.name),
        basis=_basis(study, system),
        axis=study.vault.axis,
        supports=supports_of(study.vault, study.house),
        nailing=_nailing(study),
        setout=set_out_pages(study.house, study.vault, study.form, points=points, system=system),
    )


def stage_ratios(
    ribs: Mapping[str, float | None], findings: tuple[Finding, ...]
) -> Mapping[str, float | None]:
    """Largest strength used in every stage, of the ribs and by any finding; None where it is unknown."""
    ratios = dict(ribs)
    for finding in findings:
        if (
            finding.stage is None
            or finding.verdict is Verdict.DOES_NOT_APPLY
            or finding.rule == STOP_MARKS.name
        ):
            continue
        before = ratios.get(finding.stage, 0.0)
        if before is None or finding.verdict is Verdict.UNKNOWN:
            ratios[finding.stage] = None
        elif finding.ratio is not None:
            ratios[finding.stage] = max(before, finding.ratio)
    return ratios


def _stops(study: Study) -> Iterator[StopLine]:
    """The marks, never wider than the lead that the file permits and the stages were checked with."""
    for mark in study.marks:
        remedy = study.remedy(mark) if mark.blocked else ""
        yield StopLine(level=mark.level, lead=study.lead(mark), governs=mark.corner, remedy=remedy)


def _basis(study: Study, system: str) -> str:
    rib, strength = study.form.rib, study.strength
    board, depth = (show(size, "mm", 0, system) for size in (strength.board, rib.depth))
    fill = study.house.fill(study.vault)
    soil = f", fill {show_range(fill.unit_weight, 'kN/m3', 1, system)}" if fill and fill.unit_weight else ""
    feet = f", feet {study.vault.feet.hold}" if study.vault.feet and study.vault.feet.hold else ""
    return (
        f"Ribs of {rib.layers} boards {board} × {depth} {study.vault.timber} at "
        f"{show(study.form.spacing, 'm', 2, system)}{feet}{soil}, {study.house.rules.set}."
    )


def _nailing(study: Study) -> Nailing | None:
    joint = study.strength.joint
    return None if joint is None else joint.nailing


def _assumed(house: House) -> Iterator[Value]:
    for one in house.assumptions:
        yield Value(what=one.place, value=one.value.strip('"'), known=f"assumed: {one.source}")


def values(house: House, system: str) -> tuple[Value, ...]:
    """Every value that the file gives, in the file's order."""
    return tuple(_walk(house, "", system))


def _walk(table: object, place: str, system: str) -> Iterator[Value]:
    source = getattr(table, "source", "")
    for key, said in said_of(type(table)).items():
        value, here = getattr(table, said.attribute), f"{place}.{key}".lstrip(".")
        if key in {*_LEFT_OUT, "name", "source"} or value is None or value in ((), ""):
            continue
        if isinstance(said.kind, Table):
            yield from _walk(value, here, system)
        elif isinstance(said.kind, Tables):
            for count, entry in enumerate(value, 1):
                yield from _walk(entry, f"{here} {label(entry, count)}", system)
        elif said.required or value != said.default:
            known = f"{here}: {source}" if source else here
            yield Value(what=_name_of(said), value=_text(value, said, system), known=known)


def _name_of(said: Said) -> str:
    """What a field is, without the explanations behind it."""
    return re.split(r"[;:(]|, (?:as|where|in|or|measured)", said.words)[0].strip(" .")


def _text(value: object, said: Said, system: str) -> str:
    """A value as a reader would write it."""
    if isinstance(said.kind, Quantity) and isinstance(value, Range | float):
        return _quantity(value, said.kind.dimension, system)
    match value:
        case bool():
            return "yes" if value else "no"
        case int() | float():
            return f"{value:g}"
        case tuple():
            return f"{len(value)} points"
        case Board() | Nail():
            return _sizes([getattr(value, one.name) for one in fields(value)], system)
        case _:
            return str(value)


def _sizes(sizes: list[float], system: str) -> str:
    """Thickness and width, diameter and length: `45 × 195 mm`."""
    if system == "metric":
        return f"{' × '.join(f'{size * 1000.0:g}' for size in sizes)} mm"
    return " × ".join(show(size, "mm", 1, system) for size in sizes)


def _quantity(value: Range | float, dimension: str, system: str) -> str:
    unit = {"slope": "slope", "level": "level"}.get(dimension, DIMENSIONS[dimension].metric)
    if isinstance(value, Range):
        return show_range(value, unit, max(_decimals(end, unit) for end in value.ends), system)
    return show(value, unit, _decimals(value, unit), system)


def _decimals(value: float, unit: str) -> int:
    """As many decimals as the file gave, four at most."""
    shown = value if unit in {"slope", "level"} else convert(value, unit)
    return next((n for n in range(_MOST) if abs(round(shown, n) - shown) < 1e-6 * abs(shown)), _MOST)
