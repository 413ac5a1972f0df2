"""Works on the fabric of the house, its dampness and its air."""

from __future__ import annotations

from bermwright.base.sources import Work
from bermwright.data.works.groundheat import CARSLAW1959 as CARSLAW1959  # noqa: PLC0414  (of both subjects)
from bermwright.data.works.groundheat import LANGMUIR1913 as LANGMUIR1913  # noqa: PLC0414  (of both subjects)

EN12524 = Work(
    key="EN12524",
    authors="CEN",
    title="EN 12524 Building materials and products: hygrothermal properties, tabulated design values",
    year=2000,
    publisher="European Committee for Standardization",
    locator="as carried in the package ht 1.2.0, module insulation; carried on in ISO 10456",
)
ISO10456 = Work(
    key="ISO10456",
    authors="ISO",
    title="ISO 10456 Building materials and products: hygrothermal properties",
    year=2007,
    publisher="International Organization for Standardization",
)
ISO6946 = Work(
    key="ISO6946",
    authors="ISO",
    title="ISO 6946 Thermal resistance and thermal transmittance: calculation methods",
    year=2017,
    publisher="International Organization for Standardization",
)
ISO13370 = Work(
    key="ISO13370",
    authors="ISO",
    title="ISO 13370 Heat transfer via the ground: calculation methods",
    year=2017,
    publisher="International Organization for Standardization",
)
ISO13786 = Work(
    key="ISO13786",
    authors="ISO",
    title="ISO 13786 Dynamic thermal characteristics: calculation methods",
    year=2017,
    publisher="International Organization for Standardization",
)
ISO13788 = Work(
    key="ISO13788",
    authors="ISO",
    title="ISO 13788 Internal surface temperature to avoid critical surface humidity and interstitial "
    "condensation",
    year=2012,
    publisher="International Organization for Standardization",
)
DIN4108 = Work(
    key="DIN4108",
    authors="DIN",
    title="DIN 4108-2, -3 and -4 Thermal protection and energy economy in buildings",
    year=2018,
    publisher="Deutsches Institut für Normung",
    locator="12.6 °C and 0.70 read on a page of a sealing maker's lexicon; the rest not opened",
)
APPROVEDL = Work(
    key="APPROVEDL",
    authors="HM Government",
    title="Approved Document L1: table of U-values of solid ground floors on clay",
    year=1995,
    locator="example of an L-shaped house: P = 33.8 m, A = 58.89 m2, quoted at briangwilliams.us",
)
ASHRAEHOF = Work(
    key="ASHRAEHOF",
    authors="ASHRAE",
    title="Handbook: Fundamentals",
    year=2017,
    locator="ch. 1, tables 2 and 3 as quoted in the tests of psychrolib 2.5.0 (psychrometrics/psychrolib)",
)
HUSAGERD = Work(
    key="HUSAGERD",
    authors="Háskóli Íslands",
    title="BYG601G Húsagerð: lecture notes on heat, moisture and air",
    year=2020,
    locator="github.com/edbook/haskoli-islands, projects/byg601g/kafli02.rst to kafli05.rst and its images",
)
INCROPERA = Work(
    key="INCROPERA",
    authors="F. P. Incropera, D. P. DeWitt",
    title="Fundamentals of heat and mass transfer, table 4.1: conduction shape factors",
    year=2007,
    publisher="Wiley",
)
KUSUDA1965 = Work(
    key="KUSUDA1965",
    authors="T. Kusuda, P. R. Achenbach",
    title="Earth temperature and thermal diffusivity at selected stations in the United States",
    year=1965,
    publisher="ASHRAE Transactions 71 (1), p. 61",
)
PSYCHROLIB = Work(
    key="PSYCHROLIB",
    authors="D. Meyer, D. Thevenard",
    title="PsychroLib: properties of moist air",
    year=2019,
    publisher="Journal of Open Source Software 4 (33)",
    edition="2.5.0",
    locator="computed with the package at 101 325 Pa",
)
FLUIDSLIB = Work(
    key="FLUIDSLIB",
    authors="C. Bell",
    title="fluids: fluid dynamics component of the chemical engineering design library",
    year=2024,
    edition="1.3.1",
    locator="computed with the package; friction factor at (1e5, 1e-4) is printed in its documentation",
)
GNIELINSKI1976 = Work(
    key="GNIELINSKI1976",
    authors="V. Gnielinski",
    title="New equations for heat and mass transfer in turbulent pipe and channel flow",
    year=1976,
    publisher="International Chemical Engineering 16 (2)",
)
COLEBROOK1939 = Work(
    key="COLEBROOK1939",
    authors="C. F. Colebrook",
    title="Turbulent flow in pipes, with particular reference to the transition region",
    year=1939,
    publisher="Journal of the Institution of Civil Engineers 11",
)
EN16798 = Work(
    key="EN16798",
    authors="CEN",
    title="EN 16798-1 Energy performance of buildings: indoor environmental input parameters",
    year=2019,
    publisher="European Committee for Standardization",
    locator="20 and 13.6 l/h of carbon dioxide a person read on a page of the active house alliance",
)
ASHRAE622 = Work(
    key="ASHRAE622",
    authors="ASHRAE",
    title="Standard 62.2 Ventilation and acceptable indoor air quality in residential buildings",
    year=2013,
    locator="table E605.1.3.1 as reproduced at tvch.moe",
)
WOODHANDBOOK = Work(
    key="WOODHANDBOOK",
    authors="Forest Products Laboratory",
    title="Wood handbook: wood as an engineering material, FPL-GTR-190, chapter 4, table 4-2 and eq. 4-5",
    year=2010,
    publisher="USDA Forest Service",
)
HUKKA1999 = Work(
    key="HUKKA1999",
    authors="A. Hukka, H. A. Viitanen",
    title="A mathematical model of mould growth on wooden material",
    year=1999,
    publisher="Wood Science and Technology 33",
)
VIITANEN2010 = Work(
    key="VIITANEN2010",
    authors="H. Viitanen, T. Toratti, L. Makkonen, R. Peuhkuri, T. Ojanen, L. Ruokolainen, J. Räisänen",
    title="Towards modelling of decay risk of wooden materials",
    year=2010,
    publisher="European Journal of Wood and Wood Products 68",
)
SWST1719 = Work(
    key="SWST1719",
    authors="H. Kubler",
    title="Air convection in self-heating piles and combustion air of wood: 6 g of air for 1 g of wood",
    year=1982,
    locator="abstract 1719 at wfs.swst.org",
)
USATM1976 = Work(
    key="USATM1976",
    authors="NOAA, NASA, USAF",
    title="U.S. Standard Atmosphere",
    year=1976,
    locator="computed with psychrolib 2.5.0 and fluids 1.3.1",
)
WHORADON = Work(
    key="WHORADON",
    authors="World Health Organization",
    title="WHO handbook on indoor radon: a public health perspective",
    year=2009,
    publisher="WHO",
)
SOLARHOUSING = Work(
    key="SOLARHOUSING",
    authors="S. R. Hastings, M. Wall",
    title="Sustainable solar housing, volume 2, table 10.1.1: emission of water vapour",
    year=2007,
    publisher="Earthscan",
    locator="read at northernarchitecture.us/solar-housing-2/humidity.html and oxygen-and-co2-levels.html",
)
SIMPSON1998 = Work(
    key="SIMPSON1998",
    authors="W. T. Simpson",
    title="Equilibrium moisture content of wood in outdoor locations, research note FPL-RN-0268",
    year=1998,
    publisher="USDA Forest Service",
    locator="examples read at stoves.bioenergylists.org/emccalc and liquisearch.com",
)
STOICHIOMETRY = Work(
    key="STOICHIOMETRY",
    authors="",
    title="Combustion of wood C 0.50, H 0.06, O 0.43: oxygen and air by molar masses",
    year=2026,
    locator="closed form; 6 g of air for 1 g of wood in abstract 1719 at wfs.swst.org",
)
LAUNDRY = Work(
    key="LAUNDRY",
    authors="University of Minnesota Extension",
    title="Household moisture sources",
    year=1985,
    locator="table reprinted at covenantinspectionstx.com/2017/02/moisture-creation",
)
