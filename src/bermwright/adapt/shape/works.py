"""What can be varied in the order of work: what it costs in hours and lifted weight, how it is written."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.data.densities import GRAVITY
from bermwright.data.rates import LOAD
from bermwright.house import Ballast, Prop, Tamping
from bermwright.house.values import Board
from bermwright.rules.analysis.remedies import HAUNCH

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.form.shapes import VaultForm
    from bermwright.house import Stages

KEPT_OFF = 0.6
"""How far a compactor is kept off the ribs (m)."""
POST, POST_SPACING = 0.1, 1.2
"""Props: posts of 100 x 100 mm every 1.2 m."""
POST_HOURS = 0.5
"""To cut, set, wedge and take out one post (person-hours; common practice, no source)."""
THIN_LIFT_HOURS = 3.5
"""Hours that one cubic metre takes longer for each metre by which a lift is thinner: a published list gives
0.6 h for 30 cm at once and 1.3 h for 10 cm (crew not stated, so a rough figure)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bags:
    """Ballast on the crown."""

    weight: float
    """Pressure (Pa)."""
    width: float
    start: float
    until: float
    """Fill levels from and until which they lie (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Works:
    """How the fill is placed and what stands or lies meanwhile. None: as the file has it."""

    gentle: bool = False
    """No plate within 0.6 m of the ribs, and no wet soil."""
    lead: float | None = None
    lift: float | None = None
    """Greatest lead of one side and thickness of a lift (m)."""
    crown_soil: float = 0.0
    crown_width: float = 0.0
    """Soil that goes up before the sides are filled (m)."""
    bags: Bags | None = None
    props: str = ""
    """`crown`, `haunches`, or nowhere."""

    def stages(self, like: Stages, form: VaultForm) -> Stages:
        """The stages of the file with these works."""
        changed = like
        if self.gentle:
            changed = replace(
                changed,
                compaction=Tamping.HAND if like.compaction is None else like.compaction,
                compactor_distance=KEPT_OFF,
                wet_fill=False,
            )
        if self.lead is not None:
            changed = replace(changed, lead=self.lead)
        if self.lift is not None:
            changed = replace(changed, lift=self.lift)
        if self.crown_soil:
            changed = replace(changed, crown_first=self.crown_soil, crown_first_width=self.crown_width)
        if self.bags is not None:
            bags = self.bags
            ballast = Ballast(weight=bags.weight, width=bags.width, start=bags.start, until=bags.until)
            changed = replace(changed, ballast=ballast)
        if self.props:
            changed = replace(changed, props=(*changed.props, self.prop_of(form)))
        return changed

    def prop_of(self, form: VaultForm) -> Prop:
        """The row of props as the file has it."""
        share = 1.0 if self.props == "crown" else HAUNCH
        return Prop(
            level=round(form.springing + share * form.rise, 3),
            start=round(form.springing, 3),
            until=round(form.crown_level, 3),
            section=Board(thickness=POST, width=POST),
            spacing=POST_SPACING,
        )

    @property
    def named(self) -> tuple[str, ...]:
        """The kinds of work, in the order in which they are done."""
        kinds = {
            "plate kept off, soil kept dry": self.gentle,
            f"props under the {self.props}": bool(self.props),
            "crown soil first": self.crown_soil > 0.0,
            "ballast on the crown": self.bags is not None,
            "thinner lifts": self.lift is not None,
            "less of a lead": self.lead is not None,
        }
        return tuple(name for name, done in kinds.items() if done)


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """What works cost beyond filling as the file has it."""

    hours: float
    """Person-hours, rough."""
    lifted: float
    """Weight carried up onto the crown by hand (kg)."""

    @property
    def rank(self) -> tuple[float, float]:
        """Less is cheaper: hours first."""
        return self.hours, self.lifted


def effort(works: Works, *, like: Stages, form: VaultForm, fill: float, unit_weight: float) -> Effort:
    """Rough hours and lifted weight of works, for so much compacted fill (m3) of a unit weight (N/m3)."""
    hours, lifted = 0.0, 0.0
    if works.lift is not None:
        hours += fill * THIN_LIFT_HOURS * max(like.lift - works.lift, 0.0)
    if works.crown_soil:
        volume = works.crown_soil * works.crown_width * form.length
        hours += volume * LOAD.hours.high
        lifted += volume * unit_weight / GRAVITY
    if works.bags is not None:
        mass = works.bags.weight * works.bags.width * form.length / GRAVITY
        # Filled and carried up, and carried down again.
        hours += 2.0 * LOAD.hours.high * mass * GRAVITY / unit_weight
        lifted += mass
    if works.props:
        rows = 1 if works.props == "crown" else 2
        hours += rows * (int(form.length / POST_SPACING) + 1) * POST_HOURS
    return Effort(hours=hours, lifted=lifted)


def written(works: Works, like: Stages, form: VaultForm) -> Mapping[str, str]:
    """What to write into the house file, by its place."""
    return dict(_written(works, like, form))


def _written(works: Works, like: Stages, form: VaultForm) -> Iterator[tuple[str, str]]:
    if works.gentle:
        if like.compaction is None:
            yield "stages.compaction", str(Tamping.HAND)
        yield "stages.compactor_distance", f"{KEPT_OFF:g} m"
        yield "stages.wet_fill", "no"
    if works.lead is not None:
        yield "stages.lead", f"{works.lead:g} m"
    if works.lift is not None:
        yield "stages.lift", f"{works.lift:g} m"
    if works.crown_soil:
        yield "stages.crown_first", f"{works.crown_soil:g} m"
        yield "stages.crown_first_width", f"{works.crown_width:g} m"
    if works.bags is not None:
        yield "stages.ballast.weight", f"{works.bags.weight / 1e3:g} kPa"
        yield "stages.ballast.width", f"{works.bags.width:g} m"
        yield "stages.ballast.from", f"{works.bags.start:g} m"
        yield "stages.ballast.until", f"{works.bags.until:g} m"
    if works.props:
        prop = works.prop_of(form)
        yield "stages.prop.level", f"{prop.level:g} m"
        yield "stages.prop.from", f"{prop.start:g} m"
        yield "stages.prop.until", f"{prop.until:g} m"
        yield "stages.prop.section", f"{1e3 * POST:g} x {1e3 * POST:g} mm"
        yield "stages.prop.spacing", f"{POST_SPACING:g} m"


POSTS_SAY = (
    "Before the first lift set posts of 100 × 100 mm every {apart} under the {where} at {level}; take them "
    "out with the fill at {until}."
)
BAGS_SAY = (
    "Lay bags of {weight} on the middle {wide} of the crown with the fill at {start}, and take them off with "
    "the fill at {until}."
)


def steps_of(works: Works, form: VaultForm) -> Iterator[tuple[str, Mapping[str, Shown | str]]]:
    """What to do, in its order: sentences with `{name}` for each value."""
    if works.gentle:
        says = "Compact with a hand rammer, or keep the plate {off} off the ribs; place no wet soil."
        yield says, {"off": Shown(KEPT_OFF, "m", 1)}
    if works.props:
        prop = works.prop_of(form)
        yield (
            POSTS_SAY,
            {
                "apart": Shown(POST_SPACING, "m", 1),
                "where": works.props,
                "level": Shown(prop.level, "level", 2),
                "until": Shown(prop.until, "level", 2),
            },
        )
    if works.crown_soil:
        thick, wide = Shown(works.crown_soil, "m", 2), Shown(works.crown_width, "m", 1)
        says = "Lay {thick} of soil on the middle {wide} of the crown before any fill at the sides."
        yield says, {"thick": thick, "wide": wide}
    if works.bags is not None:
        yield (
            BAGS_SAY,
            {
                "weight": Shown(works.bags.weight, "kPa", 2),
                "wide": Shown(works.bags.width, "m", 1),
                "start": Shown(works.bags.start, "level", 2),
                "until": Shown(works.bags.until, "level", 2),
            },
        )
    if works.lift is not None:
        yield "Fill in lifts of no more than {lift}.", {"lift": Shown(works.lift, "m", 2)}
    if works.lead is not None:
        yield "Never let one side be more than {lead} ahead.", {"lead": Shown(works.lead, "m", 2)}
