"""Works on the sun: its position, what passes the air, sunshine on planes."""

from __future__ import annotations

from bermwright.base.sources import Work

REDA2004 = Work(
    key="REDA2004",
    authors="I. Reda, A. Andreas",
    title="Solar position algorithm for solar radiation applications",
    year=2004,
    publisher="National Renewable Energy Laboratory",
    edition="NREL/TP-560-34302, revised 2008",
    locator="its worked example and tables read in the package pvlib 0.16.1 (spa.py, tests/test_spa.py)",
)
PVLIB = Work(
    key="PVLIB",
    authors="W. F. Holmgren, C. W. Hansen, M. A. Mikofski and others",
    title="pvlib python: a python package for modeling solar energy systems",
    year=2018,
    publisher="Journal of Open Source Software 3 (29) 884",
    edition="version 0.16.1, run and its tests read",
    locator="doi 10.21105/joss.00884",
)
SPENCER1971 = Work(
    key="SPENCER1971",
    authors="J. W. Spencer",
    title="Fourier series representation of the position of the sun",
    year=1971,
    publisher="Search 2 (5) 172",
)
IAU2015 = Work(
    key="IAU2015",
    authors="International Astronomical Union",
    title="Resolution B3 on recommended nominal conversion constants: total solar irradiance 1361 W/m2",
    year=2015,
    publisher="IAU",
)
DUFFIE2013 = Work(
    key="DUFFIE2013",
    authors="J. A. Duffie, W. A. Beckman",
    title="Solar engineering of thermal processes",
    year=2013,
    publisher="Wiley",
    edition="4th edition",
)
ERBS1982 = Work(
    key="ERBS1982",
    authors="D. G. Erbs, S. A. Klein, J. A. Duffie",
    title="Estimation of the diffuse radiation fraction for hourly, daily and monthly-average global radiation",
    year=1982,
    publisher="Solar Energy 28 (4) 293",
)
COLLARES1979 = Work(
    key="COLLARES1979",
    authors="M. Collares-Pereira, A. Rabl",
    title="The average distribution of solar radiation",
    year=1979,
    publisher="Solar Energy 22 (2) 155",
)
LIUJORDAN1963 = Work(
    key="LIUJORDAN1963",
    authors="B. Y. H. Liu, R. C. Jordan",
    title="The long-term average performance of flat-plate solar-energy collectors",
    year=1963,
    publisher="Solar Energy 7 (2) 53",
)
KASTEN1989 = Work(
    key="KASTEN1989",
    authors="F. Kasten, A. T. Young",
    title="Revised optical air mass tables and approximation formula",
    year=1989,
    publisher="Applied Optics 28 (22) 4735",
)
BIRD1981 = Work(
    key="BIRD1981",
    authors="R. E. Bird, R. L. Hulstrom",
    title="A simplified clear sky model for direct and diffuse insolation on horizontal surfaces",
    year=1981,
    publisher="Solar Energy Research Institute",
    edition="SERI/TR-642-761",
    locator="table of one place and day read in pvlib 0.16.1, tests/data/BIRD_08_16_2012.csv",
)
HAYDAVIES1980 = Work(
    key="HAYDAVIES1980",
    authors="J. E. Hay, J. A. Davies",
    title="Calculation of the solar radiation incident on an inclined surface",
    year=1980,
    publisher="Proceedings of the First Canadian Solar Radiation Data Workshop",
)
PEREZ1990 = Work(
    key="PEREZ1990",
    authors="R. Perez, P. Ineichen, R. Seals, J. Michalsky, R. Stewart",
    title="Modeling daylight availability and irradiance components from direct and global irradiance",
    year=1990,
    publisher="Solar Energy 44 (5) 271",
    locator="coefficients of all sites, read in pvlib 0.16.1",
)
HOTTEL1967 = Work(
    key="HOTTEL1967",
    authors="H. C. Hottel, A. F. Sarofim",
    title="Radiative transfer",
    year=1967,
    publisher="McGraw-Hill",
)
