"""Works on soil: how it presses, what it weighs, how rough a membrane is to it."""

from __future__ import annotations

from bermwright.base.sources import Work

DAS = Work(
    key="DAS",
    authors="B. M. Das",
    title="Principles of Foundation Engineering",
    year=2011,
    edition="7th edition",
)
DASTABLE = Work(
    key="DASTABLE",
    authors="XC project",
    title="Verification tests of earth pressure after Das, table 6.4",
    year=2023,
    publisher="github.com/xcfem/xc",
    locator="verif/tests/geotechnics/soil_mechanics/test_coulomb.py",
)
PETTERSSON2014 = Work(
    key="PETTERSSON2014",
    authors="L. Pettersson and H. Sundquist",
    title="Design of soil steel composite bridges",
    year=2014,
    publisher="KTH, TRITA-BKN report 112",
    edition="5th edition",
    locator="title read, equations from memory",
)
EM2504 = Work(
    key="EM2504",
    authors="US Army Corps of Engineers",
    title="EM 1110-2-2504 Design of sheet pile walls",
    year=1994,
    locator="dnrweblink.state.co.us/CWCB/0/doc/55340/Page17.aspx",
)
USBR1977 = Work(
    key="USBR1977",
    authors="Bureau of Reclamation",
    title="Design of small dams, average effective shear strength of compacted soils",
    year=1977,
    locator="table 3.1 of a later book in a scan at dnrweblink.state.co.us/DRMSSearch/0/doc/484489/Page13.aspx",
)
CSAS6 = Work(
    key="CSAS6",
    authors="CSA Group",
    title="CSA S6 Canadian highway bridge design code, section 7, buried structures",
    year=2014,
)
ICSMGE2013 = Work(
    key="ICSMGE2013",
    authors="18th International Conference on Soil Mechanics and Geotechnical Engineering",
    title="Proceedings, page 3055: friction of sand on membranes by ramp test",
    year=2013,
    locator="cfms-sols.org",
)
MARTIN1984 = Work(
    key="MARTIN1984",
    authors="J. P. Martin, R. M. Koerner and J. E. Whitty",
    title="Experimental friction evaluation of slippage between geomembranes, geotextiles and soils",
    year=1984,
    publisher="International Conference on Geomembranes, Denver",
)
