"""The study of one vault: form, stages and the ribs' response, made once and read by every rule."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import wraps
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeVar

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.wording import level_text, round_down
from bermwright.data.rule_sets import SERVICE, rule_sets
from bermwright.data.timber_classes import strength_class
from bermwright.form import vault_form
from bermwright.handbook.frames import Frame
from bermwright.rules import readings
from bermwright.rules.analysis.model import RibModel
from bermwright.rules.analysis.remedies import FillRemedy, fill_remedies
from bermwright.rules.analysis.stop_marks import STEP, LeadMark, lead_marks
from bermwright.rules.analysis.strength import RibStrength, rib_ratios
from bermwright.stages import build_of, staged
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.frames.solving import Share
    from bermwright.house import House, Vault
    from bermwright.rules.analysis.response import Analysis
    from bermwright.stages.given import Given
    from bermwright.stages.nouns import Stage

    Array = NDArray[np.float64]

Asked = ParamSpec("Asked")
Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True, kw_only=True)
class Study:
    """Everything that the rules read of one vault."""

    house: House
    vault: Vault
    part: str
    form: VaultForm
    given: Given
    stages: tuple[Stage, ...]
    model: RibModel
    strength: RibStrength
    analyses: tuple[Analysis, ...]
    """One for each set of partial factors of the rule set."""
    service: Analysis
    """All factors 1."""
    marks: tuple[LeadMark, ...]
    """Stop marks of the fill levels; empty when they were not asked for."""
    stage_ratio: Mapping[str, float | None]
    """Largest strength of the ribs used in each stage, by its name; None when it is not known."""

    remedies: tuple[FillRemedy, ...]
    """What lets a blocked fill go on, the least work first; empty where nothing is blocked."""
    kept: dict[tuple[str, tuple[int, ...]], tuple[object, object]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    """What several rules ask of it (`once`), by who works it out and what it was asked of."""

    def lead(self, mark: LeadMark) -> float | None:
        """How far one side may be ahead at a mark (m): never more than the file permits.

        The stages were checked with the file's lead, and with no wider one.
        """
        if mark.lead is None or self.given.lead < STEP:
            return mark.lead
        return min(mark.lead, round_down(self.given.lead, STEP))

    def stop(self, mark: LeadMark) -> float | None:
        """The level that neither side may pass while the other stands at the mark (m)."""
        lead = self.lead(mark)
        return None if lead is None else mark.level + lead

    def remedy(self, mark: LeadMark) -> str:
        """What must come first where the fill cannot go on: a whole sentence."""
        if self.remedies:
            return self.remedies[0].says()
        return f"Do not fill above {level_text(mark.level)} before its stop mark is known."


def once(
    work: Callable[Concatenate[Study, Asked], Answer],
) -> Callable[Concatenate[Study, Asked], Answer]:
    """Work whose answer stays with its study, so that the rules that ask again wait for nothing.

    The very same objects must be asked of: what is only equal is worked out anew.
    """
    name = f"{work.__module__}.{work.__qualname__}"

    @wraps(work)
    def kept(study: Study, /, *asked: Asked.args, **named: Asked.kwargs) -> Answer:
        key = (name, tuple(id(one) for one in (*asked, *named.values())))
        if key not in study.kept:
            # What was asked of is kept beside the answer: another object can then never have its number.
            study.kept[key] = ((asked, named), work(study, *asked, **named))
        answer: Answer = study.kept[key][1]  # type: ignore[assignment]
        return answer

    return kept


def study_vault(
    house: House,
    vault: Vault,
    *,
    stop_marks: bool = True,
    progress: Callable[[str], None] = lambda _step: None,
    share: Share = map,
) -> Study:
    """Form, stages, response and stop marks of one vault. Needs what `missing_for_statics` names."""
    progress(f"{vault.name}: shape")
    form = vault_form(house, vault)
    timber = strength_class(vault.timber)
    given = readings.given(house, vault, form, timber)
    build = build_of(form, given)
    stages = staged(build)
    strength = RibStrength.of(vault, form, timber)
    model = replace(rib_model(house, vault, form, strength), share=share)
    progress(f"{vault.name}: ribs under {sum(len(stage.cases) for stage in stages)} cases")
    analyses = model.analyse(stages)
    service = model.serve(stages, SERVICE)
    marks: tuple[LeadMark, ...] = ()
    remedies: tuple[FillRemedy, ...] = ()

    def used(one: Analysis) -> Array:
        return rib_ratios(one, strength)

    if stop_marks:
        progress(f"{vault.name}: stop marks")
        marks = lead_marks(model, build, stages, house.rules.lead_limit, used)
        progress(f"{vault.name}: what lets a blocked fill go on")
        remedies = fill_remedies(model, form, given, used, marks)
    return Study(
        house=house,
        vault=vault,
        part=f'vault "{vault.name}"',
        form=form,
        given=given,
        stages=stages,
        model=model,
        strength=strength,
        analyses=analyses,
        service=service,
        marks=marks,
        remedies=remedies,
        stage_ratio=stage_ratios(analyses, stages, strength),
    )


def stage_ratios(
    analyses: Sequence[Analysis], stages: Sequence[Stage], strength: RibStrength
) -> Mapping[str, float | None]:
    """The worst of bending, shear and nails in every stage, over all lanes that count.

    Fill that does not reach the shell yet has no cases of its own but its weight: what the stage before
    it used still holds.
    """
    used = [rib_ratios(one, strength).max(axis=0) for one in analyses]
    worst: dict[str, float | None] = {}
    before: float | None = None
    for stage in stages:
        if stage.kind is StageKind.FILL and not stage.cases[0].depth.any():
            worst[stage.name] = before
            continue
        tops = [
            float(np.max(ratio[one.where_situation(lambda now, stage=stage: now.stage is stage)]))  # type: ignore[misc]
            for one, ratio in zip(analyses, used, strict=True)
        ]
        before = worst[stage.name] = max(tops) if np.isfinite(tops).all() else None
    return worst


def rib_model(house: House, vault: Vault, form: VaultForm, strength: RibStrength) -> RibModel:
    """The ribs as a frame, with their soil and rule set."""
    feet = vault.feet
    if feet is None:
        raise OutOfRangeError("The file does not say what the feet stand on: [vault.feet].")
    mesh, width = form.mesh, form.spacing
    elements = mesh.x.size - 1
    joint = np.full(mesh.x.size, np.inf)
    joint[list(mesh.joint_nodes)] = strength.joint_stiffness
    if feet.crown_hinge:
        joint[mesh.crown] = 0.0
    if form.rib.apex is not None:
        # At a pointed crown every layer is cut and only a tie plate joins the halves: a hinge.
        joint[int(np.argmin(np.abs(mesh.s - form.rib.apex)))] = 0.0
    frame = Frame(
        x=mesh.x,
        z=mesh.z,
        axial=np.full(elements, strength.axial_stiffness),
        bending=np.full(elements, strength.bending_stiffness),
        joint=joint,
        feet=readings.feet_stiffness(feet, width),
        plan=mesh.plan * width,
        rise=mesh.rise * width,
        lever_x=mesh.soil_x - mesh.x,
        lever_z=mesh.soil_z - mesh.z,
        cushion=readings.cushion(vault, form),
    )
    return RibModel(
        form=form,
        frame=frame,
        members=readings.members(house, form),
        softening=strength.softening,
        soil=readings.soil_input(house, vault, form),
        placing=readings.placing(house),
        factor_sets=rule_sets(house.rules.approach, house.rules.set),
        model_factor=house.rules.model_factor,
    )
