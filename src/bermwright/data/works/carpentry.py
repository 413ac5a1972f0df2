"""Works on notches, lintels, floors, posts in the ground and grading by eye."""

from __future__ import annotations

from bermwright.base.sources import Work

TRADA1994 = Work(
    key="TRADA1994",
    authors="TRADA Technology",
    title="Design examples to Eurocode 5, example F6: end-notched beams",
    year=1994,
    locator="de.scribd.com/document/320894378",
)
UFC310_05A = Work(
    key="UFC310-05A",
    authors="US Department of Defense",
    title="UFC 3-310-05A Masonry structural design for buildings",
    year=2005,
    edition="chapter 8, lintels",
    locator="buildingcriteria1.tpub.com/ufc_3_310_05a/ufc_3_310_05a0072.htm and 0073",
)
TALY2010 = Work(
    key="TALY2010",
    authors="N. Taly",
    title="Design of Reinforced Masonry Structures",
    year=2010,
    publisher="McGraw-Hill",
    edition="example 4.27",
    locator="digilib.universitaspertamina.ac.id, page 236",
)
UKNA1995 = Work(
    key="UKNA1995",
    authors="BSI",
    title="UK National Annex to Eurocode 5: Design of timber structures, part 1-1",
    year=2006,
    publisher="BSI",
)
BROMS1964 = Work(
    key="BROMS1964",
    authors="B. B. Broms",
    title="Lateral resistance of piles in cohesionless soils",
    year=1964,
    publisher="Journal of the Soil Mechanics and Foundations Division, ASCE, 90 (SM3)",
)
NDS = Work(
    key="NDS",
    authors="American Wood Council",
    title="National Design Specification for Wood Construction",
    year=2018,
    publisher="AWC",
)
DIN4074 = Work(
    key="DIN4074",
    authors="DIN",
    title="DIN 4074-1 Strength grading of wood, part 1: coniferous sawn timber",
    year=2012,
    publisher="DIN",
)
HFM4074 = Work(
    key="HFM4074",
    authors="Holzforschung München",
    title="Sortierhilfen und Erläuterungen zur Anwendung der DIN 4074 in der Praxis",
    year=2003,
    edition="part N1, squared timber and boards on edge",
    locator="pdfcoffee.com/erlaeuterungen-zur-din-4074-1-pdf-free.html",
)
EN1912 = Work(
    key="EN1912",
    authors="CEN",
    title="EN 1912 Structural timber, assignment of visual grades and species to strength classes",
    year=2012,
    publisher="CEN",
)
