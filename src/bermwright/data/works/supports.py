"""Works on walls, footings, buttresses and what ties them."""

from __future__ import annotations

from bermwright.base.sources import Work

OKABE1926 = Work(
    key="OKABE1926",
    authors="S. Okabe; N. Mononobe and H. Matsuo",
    title="General theory of earth pressure; determination of earth pressures during earthquakes",
    year=1926,
)
EN1998_5 = Work(
    key="EN1998-5",
    authors="CEN",
    title="EN 1998-5 Foundations, retaining structures and geotechnical aspects in earthquakes",
    year=2004,
)
EN1992 = Work(key="EN1992", authors="CEN", title="EN 1992-1-1 Design of concrete structures", year=2004)
EN1996 = Work(key="EN1996", authors="CEN", title="EN 1996-1-1 Design of masonry structures", year=2005)
INGOLD1979 = Work(
    key="INGOLD1979",
    authors="T. S. Ingold",
    title="The effects of compaction on retaining walls, Géotechnique 29",
    year=1979,
)
HEYMAN1995 = Work(
    key="HEYMAN1995", authors="J. Heyman", title="The stone skeleton", year=1995, publisher="Cambridge"
)
OCHSENDORF2004 = Work(
    key="OCHSENDORF2004",
    authors="J. A. Ochsendorf, J. I. Hernando and S. Huerta",
    title="Collapse of masonry buttresses, Journal of Architectural Engineering 10",
    year=2004,
)
WALLEXAMPLE = Work(
    key="WALLEXAMPLE",
    authors="XC project, after a worked example of gravity retaining walls",
    title="Verification test of a gravity wall after EN 1997-1",
    year=2026,
    publisher="github.com/xcfem/xc",
    locator="verif/tests/geotechnics/earth_retaining/test_gravity_wall_01.py",
)
MASSWALL = Work(
    key="MASSWALL",
    authors="",
    title="A small mass wall set as an exercise",
    year=2010,
    locator="physicsforums.com, thread 396854",
)
MEYERHOF1953 = Work(
    key="MEYERHOF1953",
    authors="G. G. Meyerhof",
    title="The bearing capacity of foundations under eccentric and inclined loads",
    year=1953,
)
MEYERHOF1963 = Work(
    key="MEYERHOF1963",
    authors="G. G. Meyerhof",
    title="Some recent research on the bearing capacity of foundations",
    year=1963,
)
VESIC1973 = Work(
    key="VESIC1973",
    authors="A. S. Vesić",
    title="Analysis of ultimate loads of shallow foundations",
    year=1973,
)
HANSEN1970 = Work(
    key="HANSEN1970",
    authors="J. Brinch Hansen",
    title="A revised and extended formula for bearing capacity",
    year=1970,
)
SKEMPTON1951 = Work(
    key="SKEMPTON1951", authors="A. W. Skempton", title="The bearing capacity of clays", year=1951
)
BEARINGTABLE = Work(
    key="BEARINGTABLE",
    authors="Geotechnical Information",
    title="Bearing capacity factors",
    year=2012,
    locator="geotechnicalinfo.com/bearing_capacity_factors.html",
)
TG20 = Work(
    key="TG20",
    authors="NASC",
    title="TG20:13 design guide, appendix E: sole boards on soil",
    year=2013,
    locator="fliphtml5.com/jgqdh/zrpr/TG20-13_design_guide/176",
)
IBC2012 = Work(
    key="IBC2012",
    authors="International Code Council",
    title="International Building Code, table 1806.2, presumptive load-bearing values",
    year=2012,
    locator="quoted at docslib.org/doc/1487422",
)
NBCPART9 = Work(
    key="NBCPART9",
    authors="a Canadian plan service, after the National Building Code, part 9",
    title="Allowable bearing pressures for soil or rock",
    year=2015,
    locator="ibdn.io/plans/18",
)
BS8004 = Work(
    key="BS8004", authors="BSI", title="BS 8004 Code of practice for foundations, table 1", year=1986
)
FHWANHI10024 = Work(
    key="FHWANHI10024",
    authors="R. R. Berg, B. R. Christopher and N. C. Samtani, for the Federal Highway Administration",
    title="Design and construction of mechanically stabilized earth walls and reinforced soil slopes, volume I",
    year=2009,
    publisher="FHWA-NHI-10-024",
)
FHWANHI10025 = Work(
    key="FHWANHI10025",
    authors="R. R. Berg, B. R. Christopher and N. C. Samtani, for the Federal Highway Administration",
    title="Design and construction of mechanically stabilized earth walls and reinforced soil slopes, volume II",
    year=2009,
    publisher="FHWA-NHI-10-025",
    locator="single values, as quoted on public pages",
)
TM58188 = Work(
    key="TM58188",
    authors="Departments of the Army and the Air Force",
    title="Engineering use of geotextiles, TM 5-818-8, chapter 7",
    year=1995,
    locator="buildingcriteria1.tpub.com/ufc_3_220_08fa/ufc_3_220_08fa0055.htm",
)
HORVATH1996 = Work(
    key="HORVATH1996",
    authors="J. S. Horvath",
    title="The compressible inclusion function of EPS geofoam: an overview, EPS Tokyo",
    year=1996,
    locator="scribd.com/document/610096130 (its first page was read)",
)
