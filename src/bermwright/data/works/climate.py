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
