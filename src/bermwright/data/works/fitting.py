"""Works on fitting curves to points."""

from __future__ import annotations

from bermwright.base.sources import Work

HUBER1981 = Work(
    key="HUBER1981", authors="P. J. Huber", title="Robust statistics", year=1981, publisher="Wiley",
    locator="not opened; from memory",
)  # fmt: skip
ROUSSEEUW1987 = Work(
    key="ROUSSEEUW1987", authors="P. J. Rousseeuw and A. M. Leroy", title="Robust regression and outlier detection",
    year=1987, publisher="Wiley", locator="not opened; from memory",
)  # fmt: skip
SEBERWILD1989 = Work(
    key="SEBERWILD1989", authors="G. A. F. Seber and C. J. Wild", title="Nonlinear regression", year=1989,
    publisher="Wiley", locator="not opened; from memory",
)  # fmt: skip
BURNHAM2002 = Work(
    key="BURNHAM2002", authors="K. P. Burnham and D. R. Anderson", title="Model selection and multimodel inference",
    year=2002, edition="2nd edition", publisher="Springer", locator="not opened; from memory",
)  # fmt: skip
NOCEDAL2006 = Work(
    key="NOCEDAL2006", authors="J. Nocedal and S. J. Wright", title="Numerical optimization", year=2006,
    edition="2nd edition", publisher="Springer", locator="not opened; from memory",
)  # fmt: skip
ARCHES_BY_ARCS = Work(
    key="ARCHESBYARCS",
    authors="The bermwright developers",
    title="Three-centred arches by the diagonal, and their distance from the ellipse (closed forms, derived)",
    year=2026,
    locator="c = root(a² + b²), r = c(c − a + b)/2a, R = c(c + a − b)/2b; the construction is the stone-masons' own",
)
