"""A drawing as data: strokes, areas, text and dimensions on a sheet of real millimetres.

One kernel feeds SVG, PDF and DXF: writers draw these items and add nothing. A sheet's origin is its
lower left corner, x to the right, y up. A `View` maps metres of the house onto the sheet.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

Point = tuple[float, float]
Path = tuple[Point, ...]


class Pen(StrEnum):
    """What a line says; each writer gives it its width and dash (ISO 128 widths on paper)."""

    CUT = "cut"
    """Cut by the section; finished ground. 0.50 mm."""
    SEEN = "seen"
    """Seen beyond the cut. 0.25 mm."""
    LAYER = "layer"
    """Layers and joints. 0.18 mm."""
    HIDDEN = "hidden"
    """Hidden, or a limit. 0.18 mm dashed."""
    LIMIT = "limit"
    """What a rib can take: the corridor of its bending. 0.18 mm dotted."""
    NOT_YET = "not yet"
    """Not built yet, or the old state. 0.18 mm chain."""
    DIMENSION = "dimension"
    """Dimension and leader lines. 0.18 mm soft."""
    TICK = "tick"
    """The 45 degree stroke that ends a dimension. 0.35 mm."""
    HATCH = "hatch"
    """0.13 mm soft."""
    FORCE = "force"
    """A force on a wall or footing. 0.50 mm."""
    LOAD = "load"
    """Load arrows on a face. 0.18 mm soft."""
    STOP = "stop"
    """Stop mark and over-stress. 0.70 mm red."""
    FRAME = "frame"
    """Sheet frame and centring marks. 0.70 mm."""
    TEMPLATE = "template"
    """The line to cut along. 0.35 mm, full, black."""


class Ink(StrEnum):
    """Colour tokens; a writer resolves them for day, lamp or paper."""

    INK = "ink"
    SOFT = "soft"
    RED = "red"
    PAPER = "paper"


class Wash(StrEnum):
    """A thin flat tint under a hatch that says the same."""

    NONE = "none"
    PAPER = "paper"
    EARTH = "earth"
    INSITU = "insitu"
    TIMBER = "timber"
    LAGGING = "lagging"
    INSULATION = "insulation"
    SNOW = "snow"
    COLD = "cold"
    RED = "red"
    KEEP = "keep"
    """The tint on the side of a template that one keeps."""
    INK = "ink"
    """Solid ink: level triangles, registration marks, the print on a flag."""
    SOFT = "soft"
    """Solid soft ink: the heads of load arrows."""
    GREY = "grey"
    """Solid grey: bars of strength used."""
    PALE = "pale"
    """Pale grey: the bending comb."""
    STOP = "stop"
    """Solid red pencil: the flag of a stop mark."""


class Hatch(StrEnum):
    """The own set of hatches; drawn stroke by stroke with a fixed seed, scaled to the paper."""

    NONE = "none"
    TIMBER_ALONG = "timber along"
    TIMBER_ACROSS = "timber across"
    EARTH_IN_PLACE = "earth in place"
    EARTH_PLACED = "earth placed"
    INSULATION_SOFT = "insulation soft"
    INSULATION_RIGID = "insulation rigid"
    MEMBRANE = "membrane"
    MASONRY = "masonry"
    EARTH_TUBE = "earth tube"
    CONCRETE = "concrete"
    GRAVEL = "gravel"
    TURF = "turf"
    SNOW = "snow"
    OVERFILLED = "overfilled"
    """Soil past its stop mark: 60 degree red strokes."""


class Lettering(StrEnum):
    """Words are set in the serif face, figures and drawing lettering in the narrow one."""

    WORDS = "words"
    NOTE = "note"
    """Italic note in the drawing."""
    FIGURES = "figures"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A polyline, closed or open."""

    path: Path
    pen: Pen
    closed: bool = False
    ink: Ink = Ink.INK
    layer: str = "drawing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """An arc, counter-clockwise from `start` to `end` (radians); stays an arc in every format."""

    centre: Point
    radius: float
    start: float
    end: float
    pen: Pen
    ink: Ink = Ink.INK
    layer: str = "drawing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spline:
    """A smooth curve through points; SVG gets a Bezier chain, DXF a SPLINE."""

    path: Path
    pen: Pen
    ink: Ink = Ink.INK
    layer: str = "drawing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A closed area with its wash and hatch; `holes` are left out."""

    path: Path
    wash: Wash = Wash.NONE
    hatch: Hatch = Hatch.NONE
    outline: Pen | None = None
    holes: tuple[Path, ...] = ()
    along: float | None = None
    """Direction of the grain or of the layer, radians, where the hatch has one."""
    levels: tuple[float, ...] = ()
    """Heights (sheet mm) of the true lifts in placed earth, or of the courses of earth tube."""
    ink: Ink = Ink.INK
    """Ink of the outline."""
    layer: str = "drawing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A layer of constant thickness along a path: membrane, turf, soft insulation loops.

    The thickness lies to the left of the path's direction of travel: along a vault's curve from the
    left foot over the crown that is outwards, along a ground line from left to right upwards.
    """

    path: Path
    thickness: float
    hatch: Hatch
    wash: Wash = Wash.NONE
    outline: Pen | None = None
    """Pen of both long edges; none for a membrane or turf, which are lines themselves."""
    layer: str = "drawing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """Lettering. `at` is the foot of the letters; `height` is that of a capital in mm (ISO 3098).

    The floor is 1.9 mm, which every face here sets at a body size of at least 2.6 mm.
    """

    at: Point
    text: str
    height: float = 2.6
    anchor: str = "start"
    """start, middle or end."""
    angle: float = 0.0
    face: Lettering = Lettering.FIGURES
    strong: bool = False
    ink: Ink = Ink.INK
    halo: bool = True
    """A paper-coloured edge that keeps it legible on a hatch."""
    layer: str = "text"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A dimension between two points, its line `offset` mm to the left of start to end."""

    start: Point
    end: Point
    offset: float
    text: str
    layer: str = "dimension"
    shift: Point = (0.0, 0.0)
    """How far the figure stands along and over its place at the middle of the line (mm)."""
    scale: float | None = None
    """Scale of its own drawing on a sheet of several; None: that of the sheet's main view."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leader:
    """A numbered circle with a line to a dot on the thing."""

    to: Point
    at: Point
    text: str
    layer: str = "text"


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrow:
    """A load or a force: from tail to head."""

    tail: Point
    head: Point
    pen: Pen
    ink: Ink = Ink.INK
    layer: str = "load"


@dataclass(frozen=True, slots=True, kw_only=True)
class Clip:
    """Items seen through a rectangle (lower left, upper right): a template tile, a detail."""

    low: Point
    high: Point
    items: tuple[Item, ...]
    round: bool = False
    """Seen through the circle or ellipse that fits into the rectangle."""


Item = Stroke | Arc | Spline | Area | Band | Text | Dimension | Leader | Arrow | Clip


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet of real millimetres. Items are drawn in order, first at the bottom."""

    width: float
    height: float
    items: tuple[Item, ...]
    title: str = ""
    alt: str = ""
    """What a reader who cannot see it should know."""
    view: View | None = None
    """The main view, so that a writer can give the drawing at full size, measured from (0, 0)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Metres of the house onto sheet millimetres, at a scale of 1 : `scale`."""

    origin: Point
    """Sheet point (mm) of the house's (0, 0)."""
    scale: float
    seen: tuple[Point, Point] = field(default=((-1e9, -1e9), (1e9, 1e9)))
    """Lower left and upper right of what is shown, in metres."""

    def point(self, x: float, z: float) -> Point:
        """The sheet point (mm) of a place in the section (m)."""
        factor = 1000.0 / self.scale
        return (self.origin[0] + factor * x, self.origin[1] + factor * z)

    def length(self, metres: float) -> float:
        """A length in metres as sheet millimetres."""
        return metres * 1000.0 / self.scale
