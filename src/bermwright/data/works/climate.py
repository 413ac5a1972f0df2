"""Works on climate: tables of monthly normals, and how cold is counted."""

from __future__ import annotations

from bermwright.base.sources import Work

DWDCLIMAT = Work(
    key="DWDCLIMAT",
    authors="Deutscher Wetterdienst",
    title="CLIMAT messages of the national weather services, raw, March 2003 to July 2021",
    year=2021,
    publisher="DWD Climate Data Center, open data",
    edition="section 2: the services' own 30-year normals; section 1: standard deviation of daily means",
    locator=(
        "climate_environment/CDC/observations_global/CLIMAT/monthly/raw/CLIMAT_RAW_200303.txt to "
        "CLIMAT_RAW_202107.txt, read in the copy github.com/tacitvenom/climate-analysis, commit "
        "af6f92e57e6a37a360f5e3b67453c03517738241, folder raw_data/opendata.dwd.de"
    ),
)
ECCCNORMALS = Work(
    key="ECCCNORMALS",
    authors="Environment Canada",
    title="Canadian climate normals 1981-2010, station Brandon A, climate id 5010480",
    year=2013,
    publisher="Environment Canada",
    locator=(
        "read in github.com/ropensci/weathercan, commit 4e8db537f4db96fd29eed7fc068b0428a78b78c4, "
        "tests/testthat/_snaps/08_normals.md"
    ),
)
THOM1954 = Work(
    key="THOM1954",
    authors="H. C. S. Thom",
    title="The rational relationship between heating degree days and temperature",
    year=1954,
    publisher="Monthly Weather Review 82 (1)",
)
BOYD1973 = Work(
    key="BOYD1973",
    authors="D. W. Boyd",
    title="Normal freezing and thawing degree-days for Canada 1931-1960",
    year=1973,
    publisher="Environment Canada, Atmospheric Environment, CLI 4-73",
    locator="definition quoted at www.yamz.net/term/ark/h7190",
)
ISO8601 = Work(
    key="ISO8601",
    authors="ISO",
    title="ISO 8601-1 Date and time: representations for information interchange",
    year=2019,
    publisher="International Organization for Standardization",
)

WMONORMALS = Work(
    key="WMONORMALS",
    authors="World Meteorological Organization",
    title="Climatological standard normals 1991-2020, station files",
    year=2023,
    publisher="WMO",
    locator=(
        "read in github.com/victor-guan-5067/WMOWeatherBox, commit 027bfce0bba740479dd108ec04b604b00f57bd5a"
    ),
)
CITYTABLES = Work(
    key="CITYTABLES",
    authors="A. Magnusson",
    title="Climate tables of cities, copied from encyclopedic pages that quote the national normals",
    year=2023,
    locator="read in github.com/arni-magnusson/weather, commit 6f8f96d5ddd97b0a8dda5f05fd7f032c5ad36a13",
)
TRENTINO = Work(
    key="TRENTINO",
    authors="Meteotrentino",
    title="Monthly normals 1981-2010 of stations in the Trentino",
    year=2016,
    publisher="CRAN package ClimClass",
    locator=(
        "read in github.com/cran/ClimClass, commit faca80ec87a8ac58615e981e24091fa327b85f4d, "
        "data/Trent_climate.RData"
    ),
)
LEHTABLE = Work(
    key="LEHTABLE",
    authors="Amazing Ladakh",
    title="Information of Ladakh: climatological data of Leh",
    year=2015,
    locator="amazingladakh.com/information-of-ladakh.php; the years of the normals are not stated",
)
MORONTABLE = Work(
    key="MORONTABLE",
    authors="encyclopedic page in Vietnamese",
    title="Khí hậu Mörön, after NOAA",
    year=2020,
    locator="the address of the page was not kept",
)
ARDAHANTABLE = Work(
    key="ARDAHANTABLE",
    authors="encyclopedic page in Korean",
    title="Ardahan, climate table of the Turkish weather service",
    year=2020,
    locator="ko.m.wikipedia.org, Ardahan",
)
