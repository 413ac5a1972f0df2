"""A scene: the drawing of one case, what it says, and what the feet give."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bermwright.app.live.kernel import shown_case
from bermwright.app.live.marks import feet_of, marks_of
from bermwright.app.live.saying import Sentence, sentences_of, unknown
from bermwright.base.errors import BermwrightError
from bermwright.book.sheets import scene_of, supports_of
from bermwright.book.sheets.screen import Frame, frame_of, screen_section
from bermwright.form import vault_form
from bermwright.formats.drawings import svg
from bermwright.rules import readings

if TYPE_CHECKING:
    from bermwright.app.live.kernel import Shown
    from bermwright.app.live.marks import FootShown
    from bermwright.app.live.nouns import Corners, Found, Look
    from bermwright.base.marks import Mark
    from bermwright.book.sheets import Scene
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault
    from bermwright.stages.nouns import Stage


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A scene ready to be sent."""

    vault: int
    stage: str | None
    case: str | None
    svg: str
    frame: Frame | None
    """None where there is nothing to draw."""
    sentences: tuple[Sentence, ...]
    """Worst first; never empty."""
    feet: tuple[FootShown, ...] = ()
    ratio: float | None = None
    form: VaultForm | None = None
    stages: tuple[Stage, ...] = ()


@dataclass(slots=True)
class Easel:
    """What stays between two scenes of one window: its frames."""

    frames: dict[tuple[int, int], Frame] = field(default_factory=dict)

    def frame(self, look: Look, scene: Scene, *, hold: bool) -> Frame:
        """The frame in which a scene is drawn; while a hand drags it is held."""
        key = (look.vault, look.width)
        old = self.frames.get(key)
        if old is not None and (hold or old.takes(scene)):
            return old
        self.frames[key] = frame_of(scene, look.width)
        return self.frames[key]


def draw(house: House, look: Look, found: Found | None, easel: Easel, *, hold: bool = False) -> Drawn:
    """The scene of one case of a house, with whatever is known of it."""
    number = min(look.vault, len(house.vaults) - 1)
    vault = house.vaults[number]
    try:
        form = vault_form(house, vault)
    except BermwrightError as error:
        return Drawn(
            vault=number, stage=None, case=None, svg="", frame=None, sentences=(unknown(str(error)),)
        )
    missing = readings.missing_for_statics(house, vault)
    if missing:
        words = f"The file does not say {', '.join(missing)}."
        return _bare(house, vault, form, look, easel, words)
    corners = _corners(found, vault, look)
    try:
        shown = shown_case(house, vault, form, stage=look.stage, case=look.case, corners=corners)
    except BermwrightError as error:
        return _bare(house, vault, form, look, easel, str(error))
    frame, drawing = _picture(house, vault, form, shown.stage, look, easel, marks_of(shown), hold=hold)
    return Drawn(
        vault=number,
        stage=shown.stage.name,
        case=shown.case.name,
        svg=drawing,
        frame=frame,
        sentences=sentences_of(shown, look.system),
        feet=feet_of(shown, look.system),
        ratio=shown.ratio,
        form=form,
        stages=shown.stages,
    )


def _bare(house: House, vault: Vault, form: VaultForm, look: Look, easel: Easel, words: str) -> Drawn:
    """The finished section of a vault about which too little is known to say more."""
    frame, drawing = _picture(house, vault, form, None, look, easel, (), hold=False)
    number = min(look.vault, len(house.vaults) - 1)
    return Drawn(
        vault=number,
        stage=None,
        case=None,
        svg=drawing,
        frame=frame,
        sentences=(unknown(words),),
        form=form,
    )


def _picture(
    house: House,
    vault: Vault,
    form: VaultForm,
    stage: Stage | None,
    look: Look,
    easel: Easel,
    marks: tuple[Mark, ...],
    *,
    hold: bool,
) -> tuple[Frame, str]:
    lifts = ()
    scene = scene_of(form, stage, lifts=lifts, supports=supports_of(vault, house))
    frame = easel.frame(look, scene, hold=hold)
    sheet = screen_section(scene, frame, marks, system=look.system, axis=vault.axis)
    return frame, svg(sheet, look.theme, background=False, prefix=f"v{look.vault}w")


def _corners(found: Found | None, vault: Vault, look: Look) -> Corners | None:
    """The corners that governed the shown case in the last full run."""
    stages = found.vaults.get(vault.name, ()) if found is not None else ()
    stage = next((one for one in stages if one.name == look.stage), stages[-1] if stages else None)
    if stage is None:
        return None
    case = next((one for one in stage.cases if one.name == look.case), stage.cases[0])
    return case.corners
