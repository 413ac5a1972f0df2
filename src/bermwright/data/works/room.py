"""Works on the room: comfort, people and animals, firewood, and the test rooms."""

from __future__ import annotations

from bermwright.base.sources import Work

ISO7730 = Work(
    key="ISO7730",
    authors="ISO",
    title="Ergonomics of the thermal environment: PMV and PPD",
    year=2005,
    edition="EN ISO 7730:2005",
)
ENISO17225 = Work(
    key="ENISO17225",
    authors="CEN/ISO",
    title="Solid biofuels: fuel specifications and classes",
    year=2021,
    edition="EN ISO 17225-1:2021, annex on net calorific value at different moisture",
)
BOILERMANUAL = Work(
    key="BOILERMANUAL",
    authors="maker of a log boiler",
    title="Installation manual of a log boiler, table of heating values of kinds of wood",
    year=2012,
    locator="read in a manual at manualshive.com, page 69",
)
COTTAGEWOOD = Work(
    key="COTTAGEWOOD",
    authors="mokki.life",
    title="Firewood: energy of a stacked cubic metre in Finland",
    year=2023,
    locator="mokki.life/basics/energy-and-fire/firewood",
)
CIGR1984 = Work(
    key="CIGR1984",
    authors="CIGR working group on climatization of animal houses",
    title="Climatization of animal houses: heat and moisture production",
    year=1984,
)
