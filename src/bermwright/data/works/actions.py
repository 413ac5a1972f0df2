"""Works on actions: what presses on a building, and with which factors."""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance, Work

EN1990 = Work(key="EN1990", authors="CEN", title="EN 1990 Basis of structural design", year=2002)
EN1991_1_1 = Work(
    key="EN1991-1-1",
    authors="CEN",
    title="EN 1991-1-1 Densities, self-weight, imposed loads for buildings",
    year=2002,
)
EN1991_1_3 = Work(key="EN1991-1-3", authors="CEN", title="EN 1991-1-3 Snow loads", year=2003)
EN1991_1_6 = Work(key="EN1991-1-6", authors="CEN", title="EN 1991-1-6 Actions during execution", year=2005)
EN1997 = Work(key="EN1997", authors="CEN", title="EN 1997-1 Geotechnical design, general rules", year=2004)
EN1991_1_4 = Work(key="EN1991-1-4", authors="CEN", title="EN 1991-1-4 Wind actions", year=2005)
EN1998 = Work(
    key="EN1998",
    authors="CEN",
    title="EN 1998-1 and -5 Design of structures for earthquake resistance",
    year=2004,
)
ASCE7 = Work(
    key="ASCE7",
    authors="ASCE",
    title="ASCE/SEI 7-16 Minimum design loads and associated criteria for buildings",
    year=2016,
)
WINDNOTE = Work(
    key="WINDNOTE",
    authors="",
    title="Wind load on a building with a duopitch roof to EN 1991-1-4, worked note",
    year=2022,
    locator="studylib.net/doc/25969297",
)

_MEMORY = Provenance.MEMORY
SNOW_CITE = Cite(work=EN1991_1_3, place="5.3.3 and 5.3.5", provenance=_MEMORY)
PEOPLE_CITE = Cite(work=EN1991_1_6, place="4.11.1", provenance=_MEMORY)
WEIGHT_CITE = Cite(work=EN1991_1_1, place="5.1", provenance=_MEMORY)
SOIL_CITE = Cite(work=EN1990, place="1.5.3.3: soil is a permanent action", provenance=_MEMORY)
WATER_CITE = Cite(work=EN1997, place="2.4.6.1", provenance=_MEMORY)
WIND_CITE = Cite(work=EN1991_1_4, place="4.5 and figure 7.11", provenance=_MEMORY)
QUAKE_CITE = Cite(work=EN1998, place="part 1, 4.3.3.2; part 5, 7.3.2 and annex E", provenance=_MEMORY)
AMERICAN_SNOW_CITE = Cite(work=ASCE7, place="7.3, 7.4 and 7.6.2", provenance=_MEMORY)
