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
EN335 = Work(key="EN335", authors="CEN", title="EN 335 Durability of wood: use classes", year=2013)
EN460 = Work(key="EN460", authors="CEN", title="EN 460 Natural durability needed by hazard class", year=1994)
BS8417 = Work(key="BS8417", authors="BSI", title="BS 8417 Preservation of wood", year=2011)
EN13163 = Work(
    key="EN13163", authors="CEN", title="EN 13163 Thermal insulation: expanded polystyrene", year=2012
)
EN350TABLE = Work(
    key="EN350TABLE",
    authors="",
    title="Natural durability of wood by EN 350-2, a table of a maker of preservatives",
    year=0,
    locator="wolman.de/en/infocenter-wood/from-tree-to-wood/durability",
)
EN350NORDIC = Work(
    key="EN350NORDIC",
    authors="Nordic Wood Preservation Council",
    title="Natural durability of wood, and how to find the right wood",
    year=2021,
    locator="nwpc.eu/index.php/2021/12/21/natural-durability-of-wood",
)
USECLASSES = Work(
    key="USECLASSES",
    authors="Timber Trade Federation and others",
    title="Treated timber, trade topics: use classes and their parts of a house",
    year=0,
    locator="woodcampus.co.uk/builder-and-trade_treated-timber; kopperspc.eu/specification-guide",
)
BURIEDLIVES = Work(
    key="BURIEDLIVES",
    authors="",
    title="Durability classes of wood and their years outdoors, two trade pages that agree",
    year=0,
    locator="betterwood.co/lexikon/dauerhaftigkeitsklassen; "
    "e-woodproducts.be/en/pages/wat-zijn-de-duurzaamheidsklassen-van-hout",
)
TREATEDLIVES = Work(
    key="TREATEDLIVES",
    authors="Timber Trades Journal; Timber Trade Federation",
    title="Service lives of treated timber by BS 8417: 15, 30 or 60 years",
    year=0,
    locator="ttjonline.com/analysis/preserving-reputations; woodcampus.co.uk/1628",
)
BURIEDPIPES = Work(
    key="BURIEDPIPES",
    authors="A. P. Moser; American Society of Civil Engineers",
    title="Buried Pipe Design, pages 91 and 116; modified Iowa formula, an appendix on inspecting pipelines",
    year=2001,
    locator="digilib.universitaspertamina.ac.id/ebook/Buried%20Pipe%20Design; scribd.com/document/355460366",
)
MODULUSNOTE = Work(
    key="MODULUSNOTE",
    authors="",
    title="Modulus of soil reaction, an information brief of a pipe maker",
    year=0,
    locator="vi.scribd.com/document/220612410",
)
UFCDRAINS = Work(
    key="UFCDRAINS",
    authors="US Department of Defense",
    title="UFC 3-270-04, 12.6: slope and envelope of drain pipes",
    year=0,
    locator="buildingcriteria1.tpub.com/ufc_3_270_04",
)
