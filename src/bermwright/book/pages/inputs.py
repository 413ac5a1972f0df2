"""What the site book reads, gathered once: the pages below know no rule and no file."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.base.wording import NOT_REVIEWED

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.base.document import Block
    from bermwright.base.findings import Finding, Question
    from bermwright.base.sources import Cite
    from bermwright.book.sheets import Support
    from bermwright.book.templates import Nailing
    from bermwright.form.shapes import VaultForm
    from bermwright.stages.nouns import Stage
    from bermwright.takeoff import LiftRow, Quantities


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """One value that the checks were made with."""

    what: str
    value: str
    known: str
    """How it is known: the house file, a work, an assumption with its reason."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A rule that was run."""

    title: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StopLine:
    """How far one side of the fill may be ahead of the other, standing at `level`."""

    level: float
    lead: float | None
    """Already rounded down (m); None when it is not known."""
    governs: str = ""
    """The soil run and corner that governs."""
    remedy: str = ""
    """What must come first where not even the least lead holds: a whole sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SetOutPages:
    """Setting out: three runs of pages that stand apart in the book."""

    ground: tuple[Block, ...] = ()
    """Pegs, boards, dig, a sheet for each day."""
    curve: tuple[Block, ...] = ()
    """Arcs, boards on nails, string, fairing: after the ordinates."""
    tools: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class VaultPages:
    """One vault as the book tells it."""

    name: str
    form: VaultForm
    curve: str
    """The kind of curve, as the house file calls it."""
    stages: tuple[Stage, ...]
    stage_ratio: Mapping[str, float | None]
    """Largest strength used of each stage that a finding names; None when it is not known."""
    stops: tuple[StopLine, ...] = ()
    lifts: tuple[LiftRow, ...] = ()
    foot_forces: tuple[str, ...] = ()
    """Sentences on what the feet give their support, as ranges."""
    basis: str = ""
    """Small print of the stage pages: ribs, timber, soil, rule set."""
    axis: float | None = None
    """Direction one looks when walking in (rad from north)."""
    supports: tuple[Support, ...] = ()
    nailing: Nailing | None = None
    setout: SetOutPages | None = None
    """Setting out on the ground, curve methods, tools; None where nothing was asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BookInputs:
    """Everything that the site book prints."""

    house: str
    revision: str
    date: str
    """ISO date."""
    note: str = ""
    """What the file says of itself, such as that the house is invented."""
    system: str = "metric"
    values: tuple[Value, ...] = ()
    checked: tuple[Checked, ...] = ()
    findings: tuple[Finding, ...] = ()
    questions: tuple[Question, ...] = ()
    not_checked: tuple[str, ...] = ()
    not_read: tuple[str, ...] = ()
    vaults: tuple[VaultPages, ...] = ()
    quantities: tuple[Quantities, ...] = ()
    cites: tuple[Cite, ...] = ()
    """Sources besides those of the findings."""
    seasons: tuple[str, ...] = field(default=())
    """Sentences on frost and winter dates."""
    chapters: tuple[Block, ...] = ()
    """Pages of the house as a whole: supports, ends, fire, erection, and what was asked for besides."""
    paper: str = "A4"
    """Paper of the templates."""
    mark: str = NOT_REVIEWED
