"""Works on glass and windows."""

from __future__ import annotations

from bermwright.base.sources import Work

EN673 = Work(
    key="EN673",
    authors="CEN",
    title="EN 673 Glass in building: determination of thermal transmittance, calculation method",
    year=2011,
    publisher="CEN",
    locator="not opened; method and gas properties from memory, its table values reproduced",
)
EN410 = Work(
    key="EN410",
    authors="CEN",
    title="EN 410 Glass in building: determination of luminous and solar characteristics of glazing",
    year=2011,
    publisher="CEN",
    locator="not opened; the sums over panes are elementary, optical values are usual catalogue values",
)
ISO10077 = Work(
    key="ISO10077",
    authors="ISO",
    title="ISO 10077-1 Thermal performance of windows, doors and shutters: simplified method",
    year=2017,
    publisher="International Organization for Standardization",
    locator="not opened; equation 1 and the table of shutters from memory",
)
FINLAYSON1993 = Work(
    key="FINLAYSON1993",
    authors="E. U. Finlayson, D. K. Arasteh, C. Huizenga, M. D. Rubin, M. S. Reilly",
    title="Documentation of calculation procedures for glazing systems",
    year=1993,
    publisher="Lawrence Berkeley Laboratory LBL-33943",
    locator="not opened; how coated panes follow the angle of clear ones",
)
ISO13790 = Work(
    key="ISO13790",
    authors="ISO",
    title="ISO 13790 Energy performance of buildings: energy use for space heating and cooling",
    year=2008,
    publisher="International Organization for Standardization",
)
ROARK2002 = Work(
    key="ROARK2002",
    authors="W. C. Young, R. G. Budynas",
    title="Roark's formulas for stress and strain",
    year=2002,
    publisher="McGraw-Hill",
    edition="7th edition, table 11.4 seen",
    locator="scribd.com/doc/248898958",
)
DIN18008 = Work(
    key="DIN18008",
    authors="DIN",
    title="DIN 18008-1 Glass in building: design and construction rules",
    year=2020,
    publisher="DIN",
    edition="not opened; factor for edges read in a trade journal",
    locator="glaswelt.de glasdickenbemessung-nach-der-neuen-din-18008",
)
SETTINGBLOCKS = Work(
    key="SETTINGBLOCKS",
    authors="anonymous",
    title="Setting blocks: place, length, hardness, drains",
    year=2026,
    edition="undated; two pages that agree",
    locator="glazingrubberproducts.com/more-about-setting-blocks; shidarubber.com setting-blocks",
)
GLAZINGGAP = Work(
    key="GLAZINGGAP",
    authors="anonymous",
    title="Allowances for glazing",
    year=2026,
    edition="undated",
    locator="glassservices.co.uk/faq.html",
)
GLASSBITE = Work(
    key="GLASSBITE",
    authors="S. Green",
    title="Meeting manufacturers specifications",
    year=2000,
    locator="usglassmag.com/USGlass/2000/0011/glaziersguild.html",
)
IRCR308 = Work(
    key="IRC-R308",
    authors="International Code Council",
    title="International Residential Code, R308.4: hazardous locations of glass",
    year=2015,
    locator="docslib.org/doc/12647532; interstateibc.org/glazing-hazardous-location; United States",
)
ADK = Work(
    key="ADK",
    authors="HM Government",
    title="Approved Document K, protection from glazing: critical locations",
    year=2013,
    locator="read in two builders' pages that agree: opeltheraven.blogspot.com; pro-fitwindowsystems.co.uk; England",
)
