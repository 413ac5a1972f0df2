"""Works on fire, escape and flues. None of them was open: every value is from memory and says so."""

from __future__ import annotations

from bermwright.base.sources import Work

EN1995FIRE = Work(
    key="EN1995-1-2", authors="CEN", title="EN 1995-1-2: Design of timber structures, structural fire design",
    year=2004, locator="not opened; from memory",
)  # fmt: skip
ADB = Work(
    key="ADB", authors="HM Government", title="Approved Document B, fire safety, volume 1: dwellings", year=2019,
    locator="not opened; from memory; England. Other countries have other numbers",
)  # fmt: skip
IRC_ESCAPE = Work(
    key="IRC-R310", authors="International Code Council", title="International Residential Code, R310 and R314",
    year=2021, locator="not opened; from memory; United States",
)  # fmt: skip
ADJ = Work(
    key="ADJ", authors="HM Government", title="Approved Document J, combustion appliances and fuel storage",
    year=2010, edition="with amendments", locator="not opened; from memory; England",
)  # fmt: skip
