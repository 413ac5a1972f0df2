"""Every message between a window and the workbench: JSON over one WebSocket, each with `say`.

A window may give each of its messages an `id`; the answer repeats it as `to`. Places are metres of the
section: x to the right of the axis as seen walking in, z above the finished floor. All texts come ready in
the units that the window asked for.
"""

from __future__ import annotations

from typing import Any, Literal, NotRequired, TypedDict

# ---------------------------------------------------------------- from a window


class Hello(TypedDict):
    """The first message of a window; answered by everything that is known."""

    say: Literal["hello"]
    id: NotRequired[str]
    theme: NotRequired[str]
    """day, lamp or paper."""
    units: NotRequired[str]
    """metric or imperial."""
    width: NotRequired[int]
    height: NotRequired[int]
    """Of the drawing (px)."""


class LookAt(TypedDict):
    """Show another vault, stage or case, or the same in another manner; what is left out stays."""

    say: Literal["look"]
    id: NotRequired[str]
    vault: NotRequired[int]
    stage: NotRequired[str | None]
    case: NotRequired[str | None]
    theme: NotRequired[str]
    units: NotRequired[str]
    width: NotRequired[int]
    height: NotRequired[int]
    view: NotRequired[str]
    """section, plan or elevation."""
    week: NotRequired[int | None]
    """Week of the year (1 to 52) in which the ground is shown; null leaves it out."""


class Drag(TypedDict):
    """A handle is being moved: by the value as a builder writes it, or by the place of the hand."""

    say: Literal["drag"]
    id: NotRequired[str]
    seq: int
    """Counts up; the scene repeats it. Only the newest waiting drag is drawn, the last one always."""
    key: str
    """Such as `vault.0.rise`."""
    value: NotRequired[str]
    x: NotRequired[float]
    z: NotRequired[float]
    handle: NotRequired[str]
    """Name of the handle, with x and z."""
    fine: NotRequired[bool]
    """Whether it snaps to the fine steps."""


class Edit(TypedDict):
    """Change values in the file's text; comments and order stay. null takes a key out."""

    say: Literal["edit"]
    id: NotRequired[str]
    changes: list[tuple[str, Any]]
    label: str
    """What was done, in the words of the builder; it names the undo."""
    base: NotRequired[int]
    """Revision that the window saw."""


class WholeText(TypedDict):
    """The whole file, written by hand; mistakes may stand in it."""

    say: Literal["text"]
    id: NotRequired[str]
    text: str
    label: str
    base: NotRequired[int]


class Walk(TypedDict):
    """One step back or forth."""

    say: Literal["undo", "redo"]
    id: NotRequired[str]


class Keep(TypedDict):
    """Write the text in hand into the file."""

    say: Literal["keep"]
    id: NotRequired[str]
    over: NotRequired[bool]
    """Also where another program has changed the file meanwhile."""


class Take(TypedDict):
    """Take what stands in the file as one more edit."""

    say: Literal["take"]
    id: NotRequired[str]


class Part(TypedDict):
    """Add, copy, rename, remove or mirror a part."""

    say: Literal["part"]
    id: NotRequired[str]
    act: str
    kind: str
    """vault, end, opening, cover, wall, footing or any other list of tables of the file."""
    name: NotRequired[str]
    """Which one, by name; or give `number`."""
    number: NotRequired[int]
    new_name: NotRequired[str]
    at: NotRequired[dict[str, Any]]
    """Values that a new part begins with, by key; for a layer `vault` and `number` where it goes."""
    base: NotRequired[int]


class Mends(TypedDict):
    """Look for the remedies of a finding."""

    say: Literal["mends"]
    id: NotRequired[str]
    finding: int


class Evidence(TypedDict):
    """Give what checks the equations behind a rule."""

    say: Literal["evidence"]
    id: NotRequired[str]
    rule: str


class Remedy(TypedDict):
    """Put one remedy into the file, as one edit that can be undone."""

    say: Literal["remedy"]
    id: NotRequired[str]
    finding: int
    number: int
    base: NotRequired[int]


class Job(TypedDict):
    """Make something that takes longer."""

    say: Literal["job"]
    id: NotRequired[str]
    what: str
    """full, winter, shape, mend, book, draw, templates or count."""
    options: NotRequired[dict[str, Any]]


class Ask(TypedDict):
    """Give the parts of the house, the text of the file, or what differs between file and hand."""

    say: Literal["parts", "written", "differs"]
    id: NotRequired[str]


class Stop(TypedDict):
    """End a job."""

    say: Literal["stop"]
    id: NotRequired[str]
    job: int


# ---------------------------------------------------------------- to a window


class Mistake(TypedDict):
    """What is wrong with the file, where, and what to do."""

    place: str
    """As a builder says it: `vault "day room" > mound > left`."""
    key: str
    """As an edit names it: `vault.0.mound.left`; empty where it has none."""
    line: int | None
    value: str
    says: str


class Revision(TypedDict):
    """The file in hand has moved, or has been kept."""

    say: Literal["revision"]
    to: NotRequired[str]
    number: int
    label: str
    file: str
    house: str
    kept: bool
    kept_at: str
    """When the file was last written here, such as `09:41`; empty where it was not."""
    units: str
    undoes: str | None
    redoes: str | None
    recovered: bool
    changed_on_disk: bool
    mistakes: list[Mistake]
    readonly: bool
    reviewed: bool
    mark: str
    """What every drawing of this house bears: `calculation aid, not reviewed`."""
    vaults: list[str]


class SentenceData(TypedDict):
    """A verdict in words, and what next."""

    verdict: str
    text: str
    next: str


class ViewData(TypedDict):
    """How metres lie on the drawing: left = x0 + scale · x, down = z0 − scale · z."""

    scale: float
    x0: float
    z0: float
    width: float
    height: float


class FootData(TypedDict):
    """What one foot gives its support."""

    side: str
    x: float
    z: float
    down: list[float | None]
    across: list[float | None]
    """Least and largest (N per metre of vault), inward positive."""
    text: str


class Dragged(TypedDict):
    """What the hand's place means: the value as it goes into the file, and as it is read."""

    key: str
    value: str
    text: str
    was: str
    says: str
    """Why it cannot be so, in the reader's words; empty where it can."""


class Scene(TypedDict):
    """One drawing, what it says, and whether it is still provisional."""

    say: Literal["scene"]
    to: NotRequired[str]
    revision: int
    seq: int | None
    provisional: bool
    stale_from: int | None
    """The revision of the last full run, where that is not this one."""
    vault: int
    vault_name: str
    stage: str | None
    case: str | None
    stages: list[dict[str, Any]]
    """name, kind, title, cases: [{name, title}]: all of the shown stage, of the others their own state."""
    view_of: str
    week: int | None
    """Week of the year in which the ground is shown."""
    svg: str
    view: ViewData | None
    sentence: SentenceData
    sentences: list[SentenceData]
    feet: list[FootData]
    ratio: float | None
    ratio_text: str
    handles: list[dict[str, Any]]
    """Where each handle stands now: name, x, z, value, text."""
    places: list[dict[str, Any]]
    """Parts to be pointed at: at, name, kind, ring (m); none while a hand drags."""
    dragged: Dragged | None


class Handle(TypedDict):
    """Something that may be dragged or typed."""

    name: str
    key: str
    keys: dict[str, str]
    """Which key moves across and which moves up, where both do."""
    label: str
    x: float
    z: float
    free: str
    """across, up, both or along."""
    along: list[float]
    """Direction of the whiskers (x, z), for `along`."""
    per: float
    """Change of the value (m) for a metre of the hand along its direction; 0 where it is no length."""
    value: str
    """As it stands in the file."""
    text: str
    """As it is read in the chosen units."""
    unit: str
    low: str
    high: str
    because: str
    snap: str
    fine: str
    page: str
    reach: dict[str, float | None]
    """How far snap, fine and page move the hand (m)."""
    source: str
    """Why the value is what it is, where it is a default."""
    given: bool
    """Whether the file says it."""
    fixed: bool
    """Whether it cannot be moved."""


class Handles(TypedDict):
    """All handles of the shown vault."""

    say: Literal["handles"]
    to: NotRequired[str]
    revision: int
    vault: int
    list: list[Handle]


class BuildingStep(TypedDict):
    """One stage on the axis of the building."""

    stage: str
    kind: str
    title: str
    ratio: float | None
    ratio_text: str
    verdict: str
    left: str | None
    right: str | None
    stop: list[str]
    worst: bool


class Storm(TypedDict):
    """One case of the shown stage on the axis of the storm."""

    case: str
    name: str
    ratio: float | None
    ratio_text: str
    verdict: str


class Axes(TypedDict):
    """The three axes of time under the drawing."""

    say: Literal["axes"]
    to: NotRequired[str]
    revision: int
    vault: int
    stage: str | None
    now: dict[str, Any]
    """stage, case and week in hand."""
    shape: dict[str, float | None]
    """rise, span and crown_cover (m), for the small sections."""
    worst: dict[str, str] | None
    """stage, name and text of the worst stage."""
    building: list[BuildingStep]
    year: dict[str, Any] | None
    """Weeks with air and frost; `kind` is open (no house, no snow, at once) or reckoned (by `winter`)."""
    storm: list[Storm]


class WorkingLine(TypedDict):
    """One line of working."""

    says: str
    symbol: str
    formula: str
    filled: str
    result: str
    source: str
    provenance: str


class FindingData(TypedDict):
    """One finding, opened."""

    id: int
    rule: str
    title: str
    why: str
    part: str
    stage: str | None
    case: str | None
    place: str | None
    verdict: str
    text: str
    ratio: float | None
    ratio_text: str
    advice: str
    corner: str
    spot: dict[str, Any] | None
    """vault (number), x and z."""
    working: list[WorkingLine]
    cites: list[dict[str, str]]
    provenance: list[str]
    needs_review: bool
    mendable: bool


class QuestionData(TypedDict):
    """Something that is not known, and the cheapest way to learn it."""

    place: str
    key: str
    text: str
    why: str
    how: str
    blocks: list[str]


class FoundData(TypedDict):
    """Everything a full run found, worst first."""

    say: Literal["found"]
    to: NotRequired[str]
    revision: int
    headline: SentenceData
    counts: dict[str, int]
    findings: list[FindingData]
    questions: list[QuestionData]
    not_checked: list[str]
    not_read: list[str]


class MendData(TypedDict):
    """One remedy."""

    number: int
    text: str
    before: str
    after: str
    why: str
    money: str
    hours: str
    lifted: str
    works: bool
    changes: list[tuple[str, Any]]


class MendsData(TypedDict):
    """The remedies of one finding."""

    say: Literal["mends"]
    to: NotRequired[str]
    revision: int
    finding: int
    list: list[MendData]
    says: str
    """Why there are none, or what to know of them."""


class EvidenceData(TypedDict):
    """The functions behind a rule, each with the values it is compared with."""

    say: Literal["evidence"]
    to: NotRequired[str]
    rule: str
    says: str
    functions: list[dict[str, Any]]
    """name, title, kinds, published (count), agrees, off (largest deviation), rows."""
    bare: list[str]
    """Functions for which there is no value yet."""


class FieldData(TypedDict):
    """One value of a part, with all that a field must know."""

    key: str
    label: str
    help: str
    value: str
    """As it stands in the file; empty where it does not."""
    given: bool
    choices: list[str]
    low: str
    high: str
    because: str
    unit: str
    default: str
    source: str
    needed: bool
    asks: str
    how: str
    example: str


class PartData(TypedDict):
    """One table of the file."""

    kind: str
    """Place of its list, such as `opening` or `vault.0.cover`."""
    kind_label: str
    name: str
    at: str
    """Its own place, such as `opening.2`."""
    number: int | None
    vault: str | None
    copies: bool
    removes: bool
    mirrors: bool
    fields: list[FieldData]


class PartsData(TypedDict):
    """Every part of the house, and what may be added."""

    say: Literal["parts"]
    to: NotRequired[str]
    revision: int
    list: list[PartData]
    can_add: list[dict[str, str]]


class WrittenData(TypedDict):
    """The text of the file in hand."""

    say: Literal["written"]
    to: NotRequired[str]
    number: int
    name: str
    text: str


class DiffersData(TypedDict):
    """What stands in the file (-) against what is in hand (+)."""

    say: Literal["differs"]
    to: NotRequired[str]
    lines: list[dict[str, str]]


class ProgressData(TypedDict):
    """How far a job is."""

    say: Literal["progress"]
    job: int
    what: str
    step: str
    share: float | None


class Done(TypedDict):
    """A job has ended well."""

    say: Literal["done"]
    to: NotRequired[str]
    job: int
    what: str
    revision: int
    url: str | None
    name: str | None
    data: Any


class Stopped(TypedDict):
    """A job was ended."""

    say: Literal["stopped"]
    job: int
    what: str


class Wrong(TypedDict):
    """Something that was asked could not be done; nothing was changed."""

    say: Literal["wrong"]
    to: NotRequired[str]
    kind: Literal["stale", "changed", "mistakes", "refused", "fault"]
    text: str
    seq: NotRequired[int]
    job: NotRequired[int]
    mistakes: NotRequired[list[Mistake]]
