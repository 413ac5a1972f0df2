"""Works on what time does: frost under footings, wood that rots, pipes and foam that are pressed."""

from __future__ import annotations

from bermwright.base.sources import Work

TM5852 = Work(
    key="TM5852",
    authors="US Army Corps of Engineers",
    title="Arctic and subarctic construction: calculation methods, TM 5-852-6, section 3-2",
    year=1988,
)
STEFANWSDOT = Work(
    key="STEFANWSDOT",
    authors="Washington State Department of Transportation",
    title="Stefan formula, pavement guide module 4",
    year=2003,
    locator="training.ce.washington.edu/WSDOT/Modules/04_design_parameters/stefan_formula.htm",
)
ALDRICH1953 = Work(
    key="ALDRICH1953",
    authors="H. P. Aldrich and H. M. Paynter",
    title="Analytical studies of freezing and thawing of soils, ACFEL technical report 42",
    year=1953,
)
IRCR403 = Work(
    key="IRCR403",
    authors="International Code Council",
    title="International Residential Code, R403.3 and table R403.3(1): frost-protected shallow foundations",
    year=2015,
)
IRCR405 = Work(
    key="IRCR405",
    authors="International Code Council",
    title="International Residential Code, R405.1: foundation drainage",
    year=2015,
    locator="thebuildingcodeforum.com/forum/threads/foundation-drainage.14064",
)
FROSTDATUM = Work(
    key="FROSTDATUM",
    authors="",
    title="Frost depth beside a sunken areaway, a comment on IRC R403.3",
    year=2015,
)
FROSTTHREE = Work(
    key="FROSTTHREE",
    authors="US Department of Defense",
    title="UFC 1-300-01, example text on frost action: susceptible soil, freezing and water",
    year=2020,
    locator="buildingcriteria1.tpub.com/ufc_1_300_01/ufc_1_300_010023.htm",
)
CAPILLARY = Work(
    key="CAPILLARY",
    authors="Civil Engineering (a teaching page)",
    title="Capillarity of soils",
    year=2017,
    locator="civil2050.blogspot.com/2017/07/capillarity.html",
)
SPANGLER1941 = Work(
    key="SPANGLER1941",
    authors="M. G. Spangler; R. K. Watkins",
    title="The structural design of flexible pipe culverts, with the modulus of soil reaction of 1958",
    year=1941,
)
HOWARD1977 = Work(
    key="HOWARD1977",
    authors="A. K. Howard",
    title="Modulus of soil reaction values for buried flexible pipe, Journal of the Geotechnical "
    "Engineering Division 103",
    year=1977,
)
AWWAM45 = Work(
    key="AWWAM45", authors="American Water Works Association", title="M45 Fiberglass pipe design", year=2005
)
EN335 = Work(key="EN335", authors="CEN", title="EN 335 Durability of wood: use classes", year=2013)
EN350 = Work(
    key="EN350", authors="CEN", title="EN 350 Natural durability of wood and wood-based products", year=2016
)
EN460 = Work(key="EN460", authors="CEN", title="EN 460 Natural durability needed by hazard class", year=1994)
BS8417 = Work(key="BS8417", authors="BSI", title="BS 8417 Preservation of wood", year=2011)
EN13163 = Work(
    key="EN13163", authors="CEN", title="EN 13163 Thermal insulation: expanded polystyrene", year=2012
)
