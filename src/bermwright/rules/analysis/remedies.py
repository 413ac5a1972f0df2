"""What must come first where the fill cannot go on: found by search, tried through every stage of filling.

Each kind of work is tried from the least upwards, first with the soil runs that govern; what holds there is
solved again with all runs, corners and cases, and only what holds then is named.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown
from bermwright.handbook.frames import GROUND, Member, Works
from bermwright.rules.analysis.states import situations_of
from bermwright.rules.analysis.temporary import prop_stiffness, tie_stiffness
from bermwright.stages import (
    FILLING,
    Ballast,
    Compaction,
    Given,
    StageKind,
    Standing,
    build_of,
    fill_base,
    staged,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.rules.analysis.lanes import Lane
    from bermwright.rules.analysis.model import RibModel
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.analysis.states import Situation
    from bermwright.rules.analysis.stop_marks import LeadMark
    from bermwright.stages import Build, Stage

    Array = NDArray[np.float64]
    Ratios = Callable[[Analysis], Array]

WEIGHTS = (0.5e3, 1.0e3, 1.5e3, 2.0e3, 2.5e3, 3.0e3, 4.0e3, 5.0e3, 6.0e3)
"""Ballast that is tried (Pa): from a thin layer of sand bags to what people just carry up."""
PROBES = (1.5e3, 3.0e3, 6.0e3)
"""Ballast that is tried first at each width, to see whether and where it helps (Pa)."""
MIDDLE_PROBE = 3.0e3
"""Ballast with which the fill levels are chosen from and until which it lies (Pa)."""
HOPEFUL = 1.15
"""Strength used at the best probe above which no weight between the probes is tried."""
CROWN_SOIL = (0.1, 0.2, 0.3, 0.45, 0.6)
"""Thickness of crown soil that is tried (m)."""
WIDTHS = (1 / 4, 1 / 3, 1 / 2)
"""Width of ballast and crown soil that is tried, over the span (-)."""
WIDTH_STEP = 0.1
"""Widths are rounded to this (m)."""
POST, POST_SPACING = 0.1, 1.2
"""Props that are tried: posts of 100 x 100 mm every 1.2 m."""
ROD, ROD_SPACING = 0.012, 1.2
"""Ties that are tried: steel rods of 12 mm every 1.2 m."""
HAUNCH = 0.6
"""Props that are not under the crown stand at this share of the rise."""
SMALL_LEAD = 0.05
"""The least lead that can be kept on a site (m)."""
NEXT_BEST = 2
"""Weights of ballast at one width that go on to be solved in full."""
MOST_FULL = 3
"""Candidates of one kind that are solved in full before it is given up."""
HOPELESS = 3.0
"""Strength used while filling above which no temporary works are tried."""
WITH_THAT = " With that the ribs use at most {used} of their strength while filling."
NEVER_AHEAD = " Never let one side be more than {lead} ahead."


@dataclass(frozen=True, slots=True, kw_only=True)
class FillRemedy:
    """One way to go on with the fill, or that none was found."""

    name: str
    """plate kept off, crown soil first, ballast, props, ties, smaller lead, or nothing found."""
    works: bool
    template: str
    """The sentence, with `{name}` for each of `values`."""
    values: Mapping[str, Shown | str]
    ratio: float
    """Largest strength used while filling with it; NaN where none was found."""
    writes: Mapping[str, str] = field(default_factory=dict)
    """What to write into the house file, by its place."""

    def says(self, system: str = "metric") -> str:
        """The sentence with its numbers filled in."""
        texts = {k: v.text(system) if isinstance(v, Shown) else v for k, v in self.values.items()}
        return self.template.format_map(texts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A change of the building that may help."""

    name: str
    model: RibModel
    given: Given
    template: str
    values: Mapping[str, Shown | str] = field(default_factory=dict)
    writes: Mapping[str, str] = field(default_factory=dict)
    posts: tuple[int, float] | None = None
    """Index of the first new member, and the distance of such members along the vault (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """What is to be mended: the ribs, what is given of their building, and where the fill stops."""

    model: RibModel
    build: Build
    ratios: Ratios
    lanes: Mapping[str, frozenset[Lane]]
    """The lanes that govern somewhere while filling, for each set of factors."""
    levels: tuple[float, ...]
    """Levels of the fill, from its base to the crown (m)."""
    holds_to: int
    """The last level up to which everything holds, by its number."""
    fails_to: int
    """The last level at which something fails."""
    used: float
    """Largest strength used while filling, as things are."""

    @property
    def given(self) -> Given:
        """What is given now."""
        return self.build.given

    @property
    def form(self) -> VaultForm:
        """The vault."""
        return self.build.form

    def with_lead(self, lead: float) -> Trouble:
        """The same with another permitted lead."""
        return replace(self, build=replace(self.build, given=replace(self.given, lead=lead)))


def fill_remedies(
    model: RibModel,
    form: VaultForm,
    given: Given,
    ratios: Ratios,
    marks: Sequence[LeadMark],
) -> tuple[FillRemedy, ...]:
    """Whatever makes the blocked levels hold, the least work first; () where nothing is blocked.

    `ratios` gives the strength used in every lane and situation, less than 0 where a lane does not count.
    Where nothing is found with the permitted lead, everything is tried with the least; where nothing is
    found at all, the one remedy says what was tried.
    """
    if not any(mark.blocked for mark in marks):
        return ()
    trouble = _trouble(model, build_of(form, given), ratios)
    if trouble.used > HOPELESS:
        return (_hopeless(trouble),)
    found = list(_search(trouble, _kinds(trouble)))
    if not found and given.lead > SMALL_LEAD:
        strict = trouble.with_lead(SMALL_LEAD)
        kinds = {"less of a lead": _smaller_lead(trouble), **_kinds(strict)}
        found = [_with_small_lead(one) for one in _search(strict, kinds)]
    return tuple(found) or (_nothing(trouble),)


def _search(trouble: Trouble, kinds: Mapping[str, Iterator[Candidate]]) -> Iterator[FillRemedy]:
    for candidates in kinds.values():
        works = _first_that_works(trouble, candidates)
        if works is not None:
            yield works


def _with_small_lead(one: FillRemedy) -> FillRemedy:
    if one.name == "smaller lead":
        return one
    return replace(
        one,
        template=one.template.removesuffix(WITH_THAT) + NEVER_AHEAD + WITH_THAT,
        values={**one.values, "lead": Shown(SMALL_LEAD, "m", 2)},
        writes={**one.writes, "stages.lead": f"{SMALL_LEAD:g} m"},
    )


def _trouble(model: RibModel, build: Build, ratios: Ratios) -> Trouble:
    situations = situations_of(_filling_stages(build, quick=True))
    analyses = model.analyse_situations(situations)
    used = [ratios(one) for one in analyses]
    top = np.max([ratio.max(axis=0) for ratio in used], axis=0)
    levels = (fill_base(build.form), *(level for level in _fill_levels(situations)))
    failing = {now.stage.level for now, value in zip(situations, top, strict=True) if not value <= 1.0}
    bad = [i for i, level in enumerate(levels) if level in failing]
    return Trouble(
        model=model,
        build=build,
        ratios=ratios,
        lanes={one.factors.name: _governing(one, r) for one, r in zip(analyses, used, strict=True)},
        levels=levels,
        holds_to=max(min(bad, default=1) - 1, 0),
        fails_to=max(bad, default=len(levels) - 1),
        used=float(np.max(top)) if np.isfinite(top).all() else math.inf,
    )


def _fill_levels(situations: Sequence[Situation]) -> Iterator[float]:
    """The level of every stage of fill, once."""
    for now in situations:
        if (
            now.stage.kind is StageKind.FILL
            and now.stage.level is not None
            and now.case is now.stage.cases[0]
        ):
            yield now.stage.level


def _governing(analysis: Analysis, used: Array) -> frozenset[Lane]:
    """The worst lane of every run while filling: with ballast the heavy run comes in too."""
    filling = np.array([now.stage.kind in FILLING for now in analysis.situations])
    top = np.where(np.isfinite(used), used, np.inf)[:, filling].max(axis=1)
    worst: dict[str, int] = {}
    for i, lane in enumerate(analysis.lanes):
        if lane.run not in worst or top[i] > top[worst[lane.run]]:
            worst[lane.run] = i
    return frozenset(analysis.lanes[i] for i in worst.values())


def _filling_stages(build: Build, *, quick: bool) -> tuple[Stage, ...]:
    """The wrapped shell and the stages of filling; quickly without what comes and goes."""
    wanted = FILLING | {StageKind.WRAPPED}
    return tuple(stage for stage in staged(build, variable=not quick) if stage.kind in wanted)


def _first_that_works(trouble: Trouble, candidates: Iterator[Candidate]) -> FillRemedy | None:
    full = 0
    for candidate in candidates:
        if _largest(trouble, candidate, quick=True)[0] > 1.0:
            continue
        ratio, force = _largest(trouble, candidate, quick=False)
        if ratio <= 1.0:
            return _remedy(trouble, candidate, ratio, force)
        full += 1
        if full == MOST_FULL:
            return None
    return None


def _largest(trouble: Trouble, candidate: Candidate, *, quick: bool) -> tuple[float, float]:
    """Largest strength used while filling (infinite: not known), and force in the new members (N)."""
    build = replace(trouble.build, given=candidate.given)
    situations = situations_of(_filling_stages(build, quick=quick))
    analyses = candidate.model.analyse_situations(situations, only=trouble.lanes if quick else None)
    filling = np.array([now.stage.kind in FILLING for now in situations])
    tops = [float(trouble.ratios(one)[:, filling].max()) for one in analyses]
    top = float(np.max(tops))
    return (top if math.isfinite(top) else math.inf), _force(candidate, analyses)


def _force(candidate: Candidate, analyses: Sequence[Analysis]) -> float:
    """Largest design force in one of the new props or ties (N)."""
    if candidate.posts is None:
        return math.nan
    first, apart = candidate.posts
    tops = [float(np.abs(one.response.member[:, :, first:]).max()) for one in analyses]
    return max(tops) * apart / candidate.model.form.spacing


def _remedy(trouble: Trouble, candidate: Candidate, ratio: float, force: float) -> FillRemedy:
    values: dict[str, Shown | str] = {
        "level": Shown(trouble.levels[trouble.holds_to], "level", 2),
        "used": Shown(math.ceil(100.0 * ratio) / 100.0, "", 2),
        **candidate.values,
    }
    if candidate.posts is not None:
        values["force"] = Shown(force, "kN", 1)
    return FillRemedy(
        name=candidate.name,
        works=True,
        template=candidate.template
        + " With that the ribs use at most {used} of their strength while filling.",
        values=values,
        ratio=ratio,
        writes=candidate.writes,
    )


def _nothing(trouble: Trouble) -> FillRemedy:
    return FillRemedy(
        name="nothing found",
        works=False,
        template="Do not fill above {level}: nothing that was tried lets the fill go on ({tried}). "
        "Change the curve, the ribs, or the height of the fill.",
        values={
            "level": Shown(trouble.levels[trouble.holds_to], "level", 2),
            "tried": ", ".join(["less of a lead", *_kinds(trouble)]),
        },
        ratio=math.nan,
    )


def _hopeless(trouble: Trouble) -> FillRemedy:
    much = (
        "more than can be computed"
        if math.isinf(trouble.used)
        else f"{trouble.used:.1f} times what they have"
    )
    return FillRemedy(
        name="nothing found",
        works=False,
        template="Do not fill above {level}: while filling the ribs would need {much}, and no ballast or "
        "prop makes up for that. Change the curve, the ribs, or the height of the fill.",
        values={"level": Shown(trouble.levels[trouble.holds_to], "level", 2), "much": much},
        ratio=math.nan,
    )


def _kinds(trouble: Trouble) -> dict[str, Iterator[Candidate]]:
    """What is tried, the least work first."""
    kinds: dict[str, Iterator[Candidate]] = {}
    if trouble.model.placing.heavy:
        kinds["gentler compaction"] = _gentler(trouble)
    kinds |= {
        "crown soil first": _crown_soil(trouble),
        "ballast on the crown": _ballast(trouble),
        "props": _props(trouble),
    }
    if not np.isinf(trouble.model.frame.feet[:, 0]).all():
        kinds["ties at the feet"] = _ties(trouble)
    return kinds


def _gentler(trouble: Trouble) -> Iterator[Candidate]:
    now = trouble.model.placing
    tool = Compaction(trouble.given.compaction)
    hand = (
        replace(trouble.given, compaction=str(Compaction.HAND))
        if tool is Compaction.UNKNOWN
        else trouble.given
    )
    away = "Do not fill above {level} with a compactor nearer to the ribs than 0.6 m."
    dry = "Do not fill above {level} with wet soil: stop when a squeezed handful shows water."
    both = "Do not fill above {level} with wet soil, or with a compactor nearer to the ribs than 0.6 m."
    off = (
        {"stages.compaction": "hand rammer"}
        if tool is Compaction.UNKNOWN
        else {"stages.compactor_distance": "0.6 m"}
    )
    ways = [
        (now.plate_near and not now.wet, False, now.wet, hand, away, off),
        (
            now.wet and not now.plate_near,
            now.plate_near,
            False,
            trouble.given,
            dry,
            {"stages.wet_fill": "no"},
        ),
        (now.wet and now.plate_near, False, False, hand, both, {**off, "stages.wet_fill": "no"}),
    ]
    for counts, plate_near, wet, given, template, writes in ways:
        if counts:
            model = trouble.model.placed(plate_near=plate_near, wet=wet)
            yield Candidate(
                name="plate kept off" if now.plate_near else "fill kept dry",
                model=model,
                given=given,
                template=template,
                writes=writes,
            )


def _smaller_lead(trouble: Trouble) -> Iterator[Candidate]:
    yield Candidate(
        name="smaller lead",
        model=trouble.model,
        given=replace(trouble.given, lead=SMALL_LEAD),
        template="Do not fill above {level} with one side more than {lead} ahead.",
        values={"lead": Shown(SMALL_LEAD, "m", 2)},
        writes={"stages.lead": f"{SMALL_LEAD:g} m"},
    )


def _widths(trouble: Trouble) -> list[float]:
    return [round(share * trouble.form.span / WIDTH_STEP) * WIDTH_STEP for share in WIDTHS]


def _crown_soil(trouble: Trouble) -> Iterator[Candidate]:
    room = trouble.build.face.top_under - trouble.form.crown_level
    thicknesses = sorted({math.floor(100.0 * min(one, room)) / 100.0 for one in CROWN_SOIL} - {0.0})
    sizes = [(thick, wide) for thick in thicknesses for wide in _widths(trouble)]
    for thick, wide in sorted(sizes, key=lambda size: size[0] * size[1]):
        yield Candidate(
            name="crown soil first",
            model=trouble.model,
            given=replace(trouble.given, crown_first=thick, crown_first_width=wide),
            template="Do not fill above {level} before {thick} of soil lies on the middle {wide} of the "
            "crown; lay it before any fill at the sides.",
            values={"thick": Shown(thick, "m", 2), "wide": Shown(wide, "m", 1)},
            writes={"stages.crown_first": f"{thick:g} m", "stages.crown_first_width": f"{wide:.2g} m"},
        )


def _ballast(trouble: Trouble) -> Iterator[Candidate]:
    """The least load at every width that helps, lightest first."""
    probes = [(MIDDLE_PROBE, trouble.form.span / 3.0, window) for window in _windows(trouble)]
    window = min(probes, key=lambda probe: _bags_use(trouble, *probe))[2]
    found = [one for wide in _widths(trouble) for one in _ballast_of(trouble, wide, window)]
    yield from sorted(found, key=_bags_weigh)


def _bags_use(trouble: Trouble, weight: float, wide: float, window: tuple[float, float]) -> float:
    return _largest(trouble, _bags(trouble, weight, wide, window), quick=True)[0]


def _bags_weigh(candidate: Candidate) -> float:
    bags = candidate.given.ballast
    return math.inf if bags is None else bags.weight * bags.width


def _ballast_of(trouble: Trouble, wide: float, window: tuple[float, float]) -> Iterator[Candidate]:
    """At one width: the lightest weights that hold, looked for from the probe below the best one upwards."""
    probed = {weight: _bags_use(trouble, weight, wide, window) for weight in PROBES}
    holding = [weight for weight in PROBES if probed[weight] <= 1.0]
    best = holding[0] if holding else min(PROBES, key=lambda weight: probed[weight])
    if probed[best] > HOPEFUL:
        return
    at, told = PROBES.index(best), 0
    low, high = PROBES[at - 1] if at else 0.0, PROBES[min(at + 1, len(PROBES) - 1)]
    for weight in (one for one in WEIGHTS if low < one <= high):
        used = probed[weight] if weight in probed else _bags_use(trouble, weight, wide, window)
        if used <= 1.0 and told < NEXT_BEST:
            told += 1
            yield _bags(trouble, weight, wide, window)


def _windows(trouble: Trouble) -> list[tuple[float, float]]:
    """Fill levels from and until which bags may lie: as short as can be, a lift earlier, up to the crown."""
    levels, start, end = trouble.levels, trouble.holds_to, trouble.fails_to
    starts = (start, start - 1) if start > 0 else (start,)
    ends = dict.fromkeys((end, len(levels) - 1))
    return [(levels[one], levels[other]) for one in starts for other in ends if one < other]


def _bags(trouble: Trouble, weight: float, wide: float, window: tuple[float, float]) -> Candidate:
    start, until = window
    return Candidate(
        name="ballast",
        model=trouble.model,
        given=replace(trouble.given, ballast=Ballast(weight=weight, width=wide, start=start, until=until)),
        template="Do not fill above {level} without ballast of {weight} on the middle {wide}, "
        "from {start} until {until}.",
        values={
            "weight": Shown(weight, "kPa", 1),
            "wide": Shown(wide, "m", 1),
            "start": Shown(start, "level", 2),
            "until": Shown(until, "level", 2),
        },
        writes={
            "stages.ballast.weight": f"{weight / 1e3:g} kPa",
            "stages.ballast.width": f"{wide:.2g} m",
            "stages.ballast.from": f"{start:.3f} m",
            "stages.ballast.until": f"{until:.3f} m",
        },
    )


def _props(trouble: Trouble) -> Iterator[Candidate]:
    """A row of posts under the crown, and one under each haunch, in until the fill is at the crown."""
    mesh, form = trouble.form.mesh, trouble.form
    level = form.springing + HAUNCH * form.rise
    left = int(np.argmin(np.abs(mesh.z[: mesh.crown] - level)))
    right = mesh.crown + int(np.argmin(np.abs(mesh.z[mesh.crown :] - level)))
    for where, nodes in (("the crown", (mesh.crown,)), ("each haunch", (left, right))):
        height = float(mesh.z[nodes[0]])
        stiffness = prop_stiffness(POST**2, height) * form.spacing / POST_SPACING
        new = [Member(start=n, end=GROUND, stiffness=stiffness, works=Works.COMPRESSION) for n in nodes]
        standing = Standing(start=trouble.levels[0], until=form.crown_level)
        yield Candidate(
            name="props",
            model=replace(trouble.model, members=(*trouble.model.members, *new)),
            given=replace(trouble.given, members=(*trouble.given.members, *[standing] * len(new))),
            template="Do not fill above {level} without posts of 100 x 100 mm every {apart} under {where} at "
            "{height}, set before the first lift and taken out with the fill at {until}; the most that one "
            "carries is {force}.",
            values={
                "apart": Shown(POST_SPACING, "m", 1),
                "where": where,
                "height": Shown(height, "level", 2),
                "until": Shown(form.crown_level, "level", 2),
            },
            posts=(len(trouble.model.members), POST_SPACING),
        )


def _ties(trouble: Trouble) -> Iterator[Candidate]:
    """Rods from foot to foot, for good, where the feet give way."""
    form = trouble.form
    last = form.mesh.x.size - 1
    width = float(form.mesh.x[last] - form.mesh.x[0])
    stiffness = tie_stiffness(math.pi / 4.0 * ROD**2, width) * form.spacing / ROD_SPACING
    tie = Member(start=0, end=last, stiffness=stiffness, works=Works.TENSION)
    standing = Standing(start=trouble.levels[0], until=math.inf, tie=True)
    yield Candidate(
        name="ties",
        model=replace(trouble.model, members=(*trouble.model.members, tie)),
        given=replace(trouble.given, members=(*trouble.given.members, standing)),
        template="Do not fill above {level} without steel rods of 12 mm every {apart} from foot to foot, "
        "fitted before the first lift and left in; the most that one carries is {force}.",
        values={"apart": Shown(ROD_SPACING, "m", 1)},
        posts=(len(trouble.model.members), ROD_SPACING),
    )
