"""Works on quantities, hours of hand work, waste, and what people may lift.

Many are second-hand or undated; `edition` says how far each was seen. The year is the one in which an
undated page was read.
"""

from __future__ import annotations

from bermwright.base.sources import Work

FM5434 = Work(
    key="FM5434",
    authors="US Department of the Army",
    title="Earthmoving operations, field manual FM 5-434",
    year=2000,
    edition="opening of chapter 1 seen, tables not",
    locator="studylib.net/doc/10727501",
)
OUTPUTRATES = Work(
    key="OUTPUTRATES",
    authors="anonymous lecture notes",
    title="Productivity rate: output of plant, bulking of soils",
    year=2026,
    edition="undated, second-hand",
    locator="1library.net yrm38loq",
)
INDIANEARTHWORK = Work(
    key="INDIANEARTHWORK",
    authors="Indian handbook, not named",
    title="Compacted volume over bank volume by soil, as quoted on a page about earthwork",
    year=2026,
    edition="undated, second-hand",
)
MENLO = Work(
    key="MENLO",
    authors="Menlo Academy",
    title="Labour factors by trade: excavation",
    year=2026,
    edition="undated",
    locator="menlo-academy.com labour-factor-trades/excavation",
)
TURFLOG2016 = Work(
    key="TURFLOG2016",
    authors="a gardener's log",
    title="Cutting and stacking turf by hand, timed",
    year=2016,
    locator="nextsquaremetre.wordpress.com/2016/05/03",
)
CARPENTRYV4 = Work(
    key="CARPENTRYV4",
    authors="anonymous",
    title="Building construction, volume 4: carpentry, quantities of material",
    year=1899,
    edition="old textbook, parts 2 and 4 seen",
    locator="chestofbooks.com Building-Construction-V4 Carpentry-Part-2 and Carpentry-Part-4",
)
NAILTABLE = Work(
    key="NAILTABLE",
    authors="anonymous",
    title="Common nails, number to the pound",
    year=2026,
    edition="undated; two pages that agree",
    locator="woodtools.nov.ru about_nails.htm; diydata.com nail-sizes.php",
)
WORLDBANK1975 = Work(
    key="WORLDBANK1975",
    authors="World Bank",
    title="Haulage using wheelbarrows, technical memorandum 1",
    year=1975,
    edition="opening seen",
    locator="scribd.com/document/106280491",
)
JOHNSON1974 = Work(
    key="JOHNSON1974",
    authors="D. S. Johnson",
    title="Fast algorithms for bin packing",
    year=1974,
    publisher="Journal of Computer and System Sciences 8",
    edition="not opened",
)
CHVATAL1983 = Work(
    key="CHVATAL1983",
    authors="V. Chvátal",
    title="Linear programming",
    year=1983,
    publisher="Freeman",
    edition="not opened",
)
NIOSH94110 = Work(
    key="NIOSH94110",
    authors="T. R. Waters, V. Putz-Anderson, A. Garg",
    title="Applications manual for the revised NIOSH lifting equation, DHHS (NIOSH) 94-110",
    year=1994,
    publisher="National Institute for Occupational Safety and Health",
    edition="revised 2021; equation and constants seen as quoted",
    locator="what-when-how.com/Tutorial/topic-53604",
)
HSEMHOR = Work(
    key="HSEMHOR",
    authors="Health and Safety Executive",
    title="Guidance on the Manual Handling Operations Regulations 1992: handling in teams",
    year=1992,
    edition="as quoted",
    locator="reachback.builtintelligence.com/t 1478; safety.networkrail.co.uk",
)
