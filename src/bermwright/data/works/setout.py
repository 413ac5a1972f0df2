"""Works on setting out: tapes, levels, traverses, fairing, heaps."""

from __future__ import annotations

from typing import Final

from bermwright.base.sources import Work

TAPE_GEOMETRY: Final = Work(
    key="TAPEGEOMETRY",
    authors="",
    title="plane geometry of tape and chord",
    year=0,
    locator="closed forms, derived here: Pythagoras, cosine rule, circle over its chord, inscribed angle",
)
CHORD_DATA: Final = Work(
    key="CHORDDATA",
    authors="",
    title="worked surveying questions on circular curves (a study page)",
    year=0,
    locator="askfilo.com, page 3438353934343531, questions 1 and 2; data read in an excerpt",
)
DEFLECTION_DATA: Final = Work(
    key="DEFLECTIONDATA",
    authors="",
    title="setting out a curve by deflection angles (an engineers' blog)",
    year=2011,
    locator="truengineers.blogspot.com/2011/06; data read, it prints 19°6′ for 19°05′55″",
)
LEVEL_BOOK: Final = Work(
    key="LEVELBOOK",
    authors="",
    title="rise-and-fall booking, a worked exercise",
    year=0,
    locator="expertsmind.com, page 91876; readings and sums read, differences derived",
)
PAGE_CHECK: Final = Work(
    key="PAGECHECK",
    authors="",
    title="booking and reduction of levels: the page check",
    year=0,
    locator="structural.community, booking-and-reduction-of-levels; sums read",
)
LEVEL_LOOP: Final = Work(
    key="LEVELLOOP",
    authors="",
    title="closing errors of levelling in German practice",
    year=0,
    locator="level-online.net, example 2: limits of 5, 10 and 15 mm for a root of a kilometre; rule read",
)
LEVEL_NET: Final = Work(
    key="LEVELNET",
    authors="",
    title="least squares for levelling nets and planes",
    year=0,
    locator="normal equations, derived here; a net of two unknown points solved by hand",
)
TRAVERSE_DATA: Final = Work(
    key="TRAVERSE",
    authors="J. Mahun",
    title="Traverse computations, chapter I",
    year=0,
    locator="jerrymahun.com/index.php/home/open-access/49-travcomps-chap-i; latitudes and departures read",
)
WGS84: Final = Work(
    key="WGS84",
    authors="National Geospatial-Intelligence Agency",
    title="World Geodetic System 1984",
    year=2014,
    edition="NGA.STND.0036",
    locator="ellipsoid constants, from memory; not opened",
)
FAIRING: Final = Work(
    key="FAIRING",
    authors="",
    title="fairing a table of offsets by differences",
    year=0,
    locator="finite differences, derived here; the habit of lofting floors (skills.woodenboat.com, read in part)",
)
EB1911: Final = Work(
    key="EB1911",
    authors="",
    title="Encyclopaedia Britannica, eleventh edition, article Hydraulics",
    year=1911,
    locator="section 111, egg-shaped sewers, as copied out on bitlit.ru: crown twice the invert, width "
    "two thirds of the height; radii of the flanks derived",
)
HEAPS: Final = Work(
    key="HEAPS",
    authors="",
    title="cones and triangles of loose soil",
    year=0,
    locator="closed forms, derived here",
)
