"""Works on cutting boards to length, on logs and on what comes out of them."""

from __future__ import annotations

from bermwright.base.sources import Work

GILMOREGOMORY1961 = Work(
    key="GILMOREGOMORY1961",
    authors="P. C. Gilmore, R. E. Gomory",
    title="A linear programming approach to the cutting-stock problem",
    year=1961,
    publisher="Operations Research 9",
    edition="not opened",
)
FARLEY1990 = Work(
    key="FARLEY1990",
    authors="A. A. Farley",
    title="A note on bounding a class of linear programming problems, including cutting stock problems",
    year=1990,
    publisher="Operations Research 38",
    edition="not opened",
)
PAPERMILL = Work(
    key="PAPERMILL",
    authors="anonymous",
    title="Cutting stock of a paper mill: thirteen widths out of rolls of 5600 mm",
    year=2026,
    edition="undated, widely copied",
    locator="nvidia/Nemotron-CC-Math-v1",
)
DOYLETABLE = Work(
    key="DOYLETABLE",
    authors="anonymous",
    title="Doyle log scale, board feet by diameter and length",
    year=2026,
    edition="undated",
    locator="tinytimbers.com/doylescale.htm",
)
LOGRULES = Work(
    key="LOGRULES",
    authors="anonymous",
    title="Log rules: Scribner and International 1/4 inch",
    year=2026,
    edition="undated; formula of Scribner, taper and rounding of the International rule seen",
    locator="poletoparis.com/what-is-the-international-14-log-rule",
)
CLARK1906 = Work(
    key="CLARK1906",
    authors="J. F. Clark",
    title="Measurement of sawlogs (the International log rule)",
    year=1906,
    publisher="Forestry Quarterly 4",
    edition="not opened",
)
LOGVOLUME = Work(
    key="LOGVOLUME",
    authors="anonymous",
    title="Cubic volume of logs: Smalian, Huber, Newton, frusta",
    year=2026,
    edition="undated",
    locator="oakmissouri.org/forestfunction/cubicvolume.html",
)
QUARTERGIRTH = Work(
    key="QUARTERGIRTH",
    authors="anonymous",
    title="Quarter girth (Hoppus) rule for round timber",
    year=2026,
    edition="undated",
    locator="forestrynepal.org quarter-girth",
)
WENGERT = Work(
    key="WENGERT",
    authors="E. M. Wengert",
    title="Yield from small logs",
    year=2026,
    edition="undated",
    locator="woodweb.com/knowledge_base/Yield_from_Small_Logs.html",
)
