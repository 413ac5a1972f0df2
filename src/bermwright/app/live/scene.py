"""A scene: the drawing of one case, what it says, and what the feet give."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from bermwright.app.live.handles import grips_of
from bermwright.app.live.kernel import Wanted, shown_case
from bermwright.app.live.marks import feet_of, marks_of
from bermwright.app.live.saying import Sentence, sentences_of, unknown
from bermwright.app.live.telling import week_name
from bermwright.app.showing.dome import NEXT, SAYS, dome_section_sheet
from bermwright.app.showing.ground import ground_mark
from bermwright.app.showing.places import section_places
from bermwright.base.errors import BermwrightError
from bermwright.base.findings import Verdict
from bermwright.book.sheets import scene_of, supports_of
from bermwright.book.sheets.screen import Frame, frame_of, screen_section
from bermwright.form import vault_form
from bermwright.formats.drawings import svg
from bermwright.rules import readings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.app.live.marks import FootShown
    from bermwright.app.live.nouns import Found, Look
    from bermwright.app.showing.ground import GroundYear
    from bermwright.base.drawing import Sheet
    from bermwright.base.marks import Mark
    from bermwright.book.sheets import Scene
    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.curves import CoverCurve
    from bermwright.house import House, Vault
    from bermwright.stages.nouns import Stage


HAIR = 5e-4
"""How far soil may be cut from the true face on a screen, where it is a thirtieth of a pixel (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A scene ready to be sent."""

    vault: int
    stage: str | None = None
    case: str | None = None
    svg: str = ""
    frame: Frame | None = None
    """None where there is nothing to draw, or no vault."""
    sheet: Sheet | None = None
    """The drawing of a house without a vault: the one that `svg` was written from."""
    sentences: tuple[Sentence, ...]
    """Worst first; never empty."""
    feet: tuple[FootShown, ...] = ()
    ratio: float | None = None
    form: VaultForm | None = None
    stages: tuple[Stage, ...] = ()
    places: tuple[dict[str, Any], ...] = ()
    """Parts that can be chosen by pointing; none while a hand drags."""


@dataclass(slots=True)
class Easel:
    """What stays between two scenes of one window: its frames, and from where the next curve is sought."""

    frames: dict[tuple[int, int, int], Frame] = field(default_factory=dict)
    curves: dict[int, CoverCurve] = field(default_factory=dict)

    def frame(self, look: Look, scene: Scene, *, hold: bool) -> Frame:
        """The frame in which a scene is drawn; while a hand drags it is held."""
        key = (look.vault, look.width, look.height)
        old = self.frames.get(key)
        if old is not None and (hold or old.takes(scene)):
            return old
        self.frames[key] = frame_of(scene, look.width, look.height)
        return self.frames[key]

    def form(self, house: House, number: int, *, hold: bool) -> VaultForm:
        """The shape of a vault; while a hand drags it goes on from the last one."""
        near = self.curves.get(number) if hold else None
        form = vault_form(house, house.vaults[number], near=near)
        if form.cover_curve is not None:
            self.curves[number] = form.cover_curve
        return form


def draw(
    house: House,
    look: Look,
    found: Found | None,
    easel: Easel,
    *,
    hold: bool = False,
    form: VaultForm | None = None,
    ground: GroundYear | None = None,
) -> Drawn:
    """The scene of one case of a house, with whatever is known of it; `form` where it is known already."""
    if not house.vaults:
        return _dome(house, look)
    number = min(look.vault, len(house.vaults) - 1)
    try:
        shape = form if form is not None else easel.form(house, number, hold=hold)
    except BermwrightError as error:
        return Drawn(vault=number, sentences=(unknown(str(error)),))
    artist = _Artist(house, number, shape, look, easel, hold=hold, ground=ground)
    missing = readings.missing_for_statics(house, artist.vault)
    if missing:
        return artist.bare(f"The file does not say {', '.join(missing)}.")
    try:
        return artist.whole(found)
    except BermwrightError as error:
        return artist.bare(str(error))


def _dome(house: House, look: Look) -> Drawn:
    """A house of domes alone: a file without a vault has one."""
    sentence = Sentence(verdict=str(Verdict.UNKNOWN), text=SAYS, next=NEXT)
    try:
        sheet = dome_section_sheet(house, look.width, look.height, look.system)
    except BermwrightError as error:
        return Drawn(vault=0, sentences=(unknown(str(error)),))
    drawing = svg(sheet, look.theme, background=False, prefix="dw")
    return Drawn(vault=0, svg=drawing, sheet=sheet, sentences=(sentence,))


class _Artist:
    """One vault, seen in one way."""

    def __init__(
        self,
        house: House,
        number: int,
        form: VaultForm,
        look: Look,
        easel: Easel,
        *,
        hold: bool,
        ground: GroundYear | None,
    ) -> None:
        self.house, self.number, self.form = house, number, form
        self.look, self.easel, self.hold, self.ground = look, easel, hold, ground

    @property
    def vault(self) -> Vault:
        """The vault."""
        return self.house.vaults[self.number]

    def whole(self, found: Found | None) -> Drawn:
        """The chosen case, solved."""
        wanted = replace(wanted_of(found, self.vault, self.look), quick=self.hold)
        shown = shown_case(self.house, self.vault, self.form, wanted)
        frame, drawing = self.picture(shown.stage, marks_of(shown, self.look.system))
        return Drawn(
            places=self.places(shown.stage, frame),
            vault=self.number,
            stage=shown.stage.name,
            case=shown.case.name,
            svg=drawing,
            frame=frame,
            sentences=sentences_of(shown, self.look.system),
            feet=feet_of(shown, self.look.system),
            ratio=shown.ratio,
            form=self.form,
            stages=shown.stages,
        )

    def bare(self, words: str) -> Drawn:
        """The finished section of a vault about which too little is known to say more."""
        frame, drawing = self.picture(None, ())
        places = self.places(None, frame)
        return Drawn(
            vault=self.number,
            svg=drawing,
            frame=frame,
            sentences=(unknown(words),),
            form=self.form,
            places=places,
        )

    def places(self, stage: Stage | None, frame: Frame) -> tuple[dict[str, Any], ...]:
        """What can be pointed at."""
        if self.hold:
            return ()
        scene = scene_of(self.form, stage, lifts=(), supports=supports_of(self.vault, self.house))
        edges = (frame.low, frame.high, frame.bottom)
        return tuple(section_places(self.house, self.number, self.form, scene, edges))

    def picture(self, stage: Stage | None, marks: tuple[Mark, ...]) -> tuple[Frame, str]:
        """The drawing in its frame."""
        look, supports = self.look, supports_of(self.vault, self.house)
        scene = replace(scene_of(self.form, stage, lifts=(), supports=supports), coarse=HAIR)
        frame = self.easel.frame(look, scene, hold=self.hold)
        marks = (*marks, *self.in_ground(scene, frame))
        handles = tuple((one.x, one.z) for one in grips_of(self.house, self.number, self.form))
        sheet = screen_section(
            scene, frame, marks, system=look.system, axis=self.vault.axis, keep_off=handles
        )
        return frame, svg(sheet, look.theme, background=False, prefix=f"v{self.number}w", quick=True)

    def in_ground(self, scene: Scene, frame: Frame) -> Iterator[Mark]:
        """Frost and warmth of the ground in the chosen week."""
        week = self.look.week
        if self.ground is None or week is None:
            return
        words = {"when": week_name(week), "system": self.look.system}
        mark = ground_mark(self.ground, week - 1, scene, (frame.low, frame.high), **words)
        if mark is not None:
            yield mark


def wanted_of(found: Found | None, vault: Vault, look: Look) -> Wanted:
    """Which case is wanted, and the corners that governed it in the last full run."""
    stages = found.vaults.get(vault.name, ()) if found is not None else ()
    stage = next((one for one in stages if one.name == look.stage), stages[-1] if stages else None)
    if stage is None:
        return Wanted(stage=look.stage, case=look.case)
    case = next((one for one in stage.cases if one.name == look.case), stage.cases[0])
    alike = [one.name for one in stages if one.kind == stage.kind]
    return Wanted(
        stage=stage.name,
        case=case.name,
        kind=stage.kind,
        place=alike.index(stage.name),
        corners=case.corners,
    )
