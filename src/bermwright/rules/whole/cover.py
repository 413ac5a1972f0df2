"""Whether soil and turf stay on the slippery sheet over the vault, carried by the fill beside it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.wording import level_text
from bermwright.data.works.slopes import CIRCLE_CITE, VENEER_CITE
from bermwright.handbook.stability import wedge_path_factor
from bermwright.rules import readings
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import step
from bermwright.rules.study import once
from bermwright.rules.whole.slopes import ASKED, ASKED_CITE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.form.shapes import CurveLine
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

SHEET_SLICES, FILL_SLICES = 30, 20
LEAVES = np.linspace(0.15, 1.0, 12)
"""Shares of the arc from crown to foot at which a slip is tried to leave the sheet (-)."""
WAYS = np.linspace(0.04, 1.0, 16)
"""Shares of the way from there to the toe at which it is tried to come out (-)."""
WATER = 9810.0
NARROW = 1e-6
"""Slices under an undercut foot have no width; they carry nothing (m)."""
UPRIGHT = np.radians(89.0)
SHORT = 0.05
"""A stretch over which nothing can slide (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slide:
    """A slip that follows the sheet from the crown and leaves it through the fill."""

    factor: float
    right: bool
    leaves: Spot
    comes_out: Spot


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """What the slip needs to know."""

    weight: float
    friction: float
    sheet: float
    wet: float
    """Share of the soil over the sheet that is full of running water (-)."""
    wet_fill: float = 0.0
    """The same of the fill beside it (-)."""


def worst_slide(study: Study, cover: Cover) -> Slide | None:
    """The least factor over both sides, all places to leave the sheet and all to come out; None: no slip."""
    paths = _paths(study)
    if not paths.sign.size:
        return None
    factors = _factors(study, cover, paths)
    known = np.where(np.isfinite(factors), factors, np.inf)
    at = int(np.argmin(known))
    if not np.isfinite(known[at]):
        return None
    sign, x, z = float(paths.sign[at]), paths.x[at], paths.z[at]
    return Slide(
        factor=float(known[at]),
        right=sign > 0.0,
        leaves=Spot(sign * float(x[SHEET_SLICES]), float(z[SHEET_SLICES])),
        comes_out=Spot(sign * float(x[-1]), float(z[-1])),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Paths:
    """Slips as seen from the crown outward: the side (N,), and their edges (N, slices + 1) (m)."""

    sign: Array
    x: Array
    z: Array


@once
def _paths(study: Study) -> _Paths:
    """Every slip that is tried: it is the same whatever the soil."""
    parts = [
        (sign, *_from_sheet(study, leave, sign)) for sign, leave in product((-1.0, 1.0), LEAVES.tolist())
    ]
    return _Paths(
        sign=np.concatenate([np.full(len(x), sign) for sign, x, _ in parts]),
        x=np.concatenate([x for _, x, _ in parts]),
        z=np.concatenate([z for _, _, z in parts]),
    )


def _from_sheet(study: Study, leave: float, sign: float) -> tuple[Array, Array]:
    """On the sheet from the crown, then straight through the fill to every place where it can come out."""
    line = study.form.ground.finished
    x, z = _sheet(study.form.soil_face, sign, leave)
    toe = float(line.x[-1] if sign > 0.0 else -line.x[0])
    ends = x[-1] + WAYS * (toe - x[-1])
    out = line.level(sign * ends)
    comes_out = (ends - x[-1] >= SHORT) & (out <= z[-1] + SHORT)
    share = np.linspace(0.0, 1.0, FILL_SLICES + 1)[1:]
    ways = int(comes_out.sum())
    through = [start[-1] + share * (end[comes_out, None] - start[-1]) for start, end in ((x, ends), (z, out))]
    on_sheet = [np.broadcast_to(one, (ways, one.size)) for one in (x, z)]
    return np.hstack([on_sheet[0], through[0]]), np.hstack([on_sheet[1], through[1]])


def _factors(study: Study, cover: Cover, paths: _Paths) -> Array:
    """Factors of all paths at once."""
    line = study.form.ground.finished
    x, z, sign = paths.x, paths.z, paths.sign[:, None]
    width = np.maximum(np.diff(x), NARROW)
    middle, low = 0.5 * (x[:, 1:] + x[:, :-1]), 0.5 * (z[:, 1:] + z[:, :-1])
    depth = np.maximum(line.level(sign * middle) - low, 0.0)
    angle = np.clip(np.arctan2(-np.diff(z), width), -UPRIGHT, UPRIGHT)
    on_sheet = np.arange(width.shape[1]) < SHEET_SLICES
    wet = np.where(on_sheet, cover.wet, cover.wet_fill)
    return wedge_path_factor(
        cover.weight * depth * width,
        angle,
        width,
        cohesion=0.0,
        friction=np.where(on_sheet, cover.sheet, cover.friction),
        pore=WATER * wet * depth * np.cos(angle) ** 2,
    )


def _sheet(face: CurveLine, sign: float, leave: float) -> tuple[Array, Array]:
    """Places on the sheet from the crown down one side, as seen from the crown outward."""
    top = float(face.s[int(np.argmax(face.z))])
    far = face.length - top if sign > 0.0 else -top
    s = top + far * leave * np.linspace(0.0, 1.0, SHEET_SLICES + 1)
    x, z, _ = face.at(s)
    # An undercut foot carries nothing: the slip ends where the sheet stands upright.
    return np.maximum.accumulate(sign * x), z


def _decide(study: Study) -> Iterator[Said]:
    sheet, fill = readings.membrane_friction(study.vault), study.house.fill(study.vault)
    if sheet is None or fill is None or fill.friction_angle is None or fill.unit_weight is None:
        yield _not_known("vault.cover.friction")
        return
    grip = min(sheet, fill.friction_angle.low)
    dry = Cover(weight=fill.unit_weight.high, friction=fill.friction_angle.low, sheet=grip, wet=0.0)
    yield _said("drained", worst_slide(study, dry))
    if fill.drained is None:
        yield _not_known("vault.fill.drained")
    elif fill.saturated_unit_weight is None:
        yield _not_known("vault.fill.saturated_unit_weight")
    else:
        # A drain at the foot leaves what runs on the sheet itself: a third of the cover after a thaw.
        on_sheet, beside = (THAW, 0.0) if fill.drained else (1.0, 1.0)
        soaked = Cover(
            weight=fill.saturated_unit_weight.high,
            friction=dry.friction,
            sheet=grip,
            wet=on_sheet,
            wet_fill=beside,
        )
        yield _said("seeping", worst_slide(study, soaked))


THAW = 1.0 / 3.0
"""Share of the cover that counts as full of running water on a drained sheet after a thaw (judgement, -)."""


def _not_known(place: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="Whether the cover stays on its sheet is not known: the file does not say {place}.",
        values={"place": place},
        advice=f"Answer the question about {place}.",
    )


def _said(state: str, slide: Slide | None) -> Said:
    if slide is None:
        return Said(
            verdict=Verdict.HOLDS,
            template="{state}: the soil beside the vault is so wide that no slip of the cover comes out.",
            values={"state": state.capitalize()},
            case=state,
        )
    ratio = ASKED / slide.factor
    verdict, side = verdict_of(ratio), "right" if slide.right else "left"
    return Said(
        verdict=verdict,
        template="{state}: what holds the cover on the {side} is {factor} times what drives it; "
        "{asked} is asked.",
        values={
            "state": state.capitalize(),
            "side": side,
            "factor": Shown(slide.factor, "", 2),
            "asked": Shown(ASKED, "", 2),
        },
        case=state,
        place=f"{side}, at {level_text(slide.leaves.z)}",
        demand=ASKED,
        capacity=slide.factor,
        ratio=ratio,
        corner={"friction": "least of fill and sheet"},
        advice="" if verdict is Verdict.HOLDS else HELP,
        steps=tuple(_steps(slide, ratio)),
        spot=slide.leaves,
    )


HELP = (
    "Bring the side fill up wider and first, lay a rougher sheet (greater [vault.cover] friction), a drain "
    "layer on it, or a geogrid over the crown that both sides hold."
)


def _steps(slide: Slide, ratio: float) -> Iterator[Step]:
    yield step(
        f"Worst slip: sheet to {level_text(slide.leaves.z)}, out {slide.comes_out.x:.1f} m beside the axis",
        "F",
        "Σ[(W − u·b)·tan φ/(cos²α·(1 + tan α·tan φ/F))] / Σ W·tan α",
        "",
        Shown(slide.factor, "", 3),
        CIRCLE_CITE,
    )
    yield step(
        "Asked over there", "ratio", "1.25 / F", f"1.25 / {slide.factor:.3f}", Shown(ratio, "", 3), ASKED_CITE
    )


COVER_STAYS = Rule(
    name="cover-stays-on-its-sheet",
    title="Soil and turf stay on the membrane",
    why="Soil on a slippery sheet is not held by the vault: it leans on the fill beside it. Where that is "
    "too narrow, or water runs on the sheet, it comes down all at once.",
    cites=(VENEER_CITE, CIRCLE_CITE, ASKED_CITE),
    decide=_decide,
    reads_ribs=False,
    asks=("vault.cover.friction", "vault.fill.drained", "vault.fill.saturated_unit_weight"),
)
