"""Works on weather by the hour: clearness, the course of a day, damp, snow and the sky at night."""

from __future__ import annotations

from bermwright.base.sources import Work

FAO56 = Work(
    key="FAO56",
    authors="R. G. Allen, L. S. Pereira, D. Raes, M. Smith",
    title="Crop evapotranspiration: guidelines for computing crop water requirements",
    year=1998,
    publisher="FAO Irrigation and Drainage Paper 56",
)
HOLLANDS1983 = Work(
    key="HOLLANDS1983",
    authors="K. G. T. Hollands, R. G. Huget",
    title="A probability density function for the clearness index, with applications",
    year=1983,
    publisher="Solar Energy 30 (3) 195",
)
BENDT1981 = Work(
    key="BENDT1981",
    authors="P. Bendt, M. Collares-Pereira, A. Rabl",
    title="The frequency distribution of daily insolation values",
    year=1981,
    publisher="Solar Energy 27 (1) 1",
)
GRAHAM1988 = Work(
    key="GRAHAM1988",
    authors="V. A. Graham, K. G. T. Hollands, T. E. Unny",
    title="A time series model for Kt with application to global synthetic weather generation",
    year=1988,
    publisher="Solar Energy 40 (2) 83",
)
RICHARDSON1981 = Work(
    key="RICHARDSON1981",
    authors="C. W. Richardson",
    title="Stochastic simulation of daily precipitation, temperature, and solar radiation",
    year=1981,
    publisher="Water Resources Research 17 (1) 182",
)
ERBS1983 = Work(
    key="ERBS1983",
    authors="D. G. Erbs, S. A. Klein, W. A. Beckman",
    title="Estimation of degree-days and ambient temperature bin data from monthly-average temperatures",
    year=1983,
    publisher="ASHRAE Journal 25 (6) 60",
)
DEBOOR1978 = Work(
    key="DEBOOR1978",
    authors="C. de Boor",
    title="A practical guide to splines",
    year=1978,
    publisher="Springer",
)
HOCK2003 = Work(
    key="HOCK2003",
    authors="R. Hock",
    title="Temperature index melt modelling in mountain areas",
    year=2003,
    publisher="Journal of Hydrology 282 (1) 104",
)
STURM2010 = Work(
    key="STURM2010",
    authors="M. Sturm, B. Taras, G. E. Liston, C. Derksen, T. Jonas, J. Lea",
    title="Estimating snow water equivalent using snow depth data and climate classes",
    year=2010,
    publisher="Journal of Hydrometeorology 11 (6) 1380",
)
BERDAHL1984 = Work(
    key="BERDAHL1984",
    authors="P. Berdahl, M. Martin",
    title="Emissivity of clear skies",
    year=1984,
    publisher="Solar Energy 32 (5) 663",
)
UNSWORTH1975 = Work(
    key="UNSWORTH1975",
    authors="M. H. Unsworth, J. L. Monteith",
    title="Long-wave radiation at the ground. I. Angular distribution of incoming radiation",
    year=1975,
    publisher="Quarterly Journal of the Royal Meteorological Society 101 (427) 13",
)
WMO8 = Work(
    key="WMO8",
    authors="World Meteorological Organization",
    title="Guide to meteorological instruments and methods of observation",
    year=2008,
    publisher="WMO No. 8",
    edition="7th edition",
)
ISO2533 = Work(
    key="ISO2533",
    authors="ISO",
    title="ISO 2533 Standard atmosphere",
    year=1975,
    publisher="International Organization for Standardization",
)
ISO15927 = Work(
    key="ISO15927",
    authors="ISO",
    title="ISO 15927 Hygrothermal performance of buildings: calculation and presentation of climatic data",
    year=2004,
    publisher="International Organization for Standardization",
)
REALYEARS = Work(
    key="REALYEARS",
    authors="National Renewable Energy Laboratory; Deutscher Wetterdienst",
    title="Hourly years of 17 places: TMY3 of Sand Point, test reference years 2010 of Germany",
    year=2010,
    locator="in the packages pvlib 0.16.1 (data/703165TY.csv) and demandlib 0.2.2 (vdi/resources_weather)",
)
