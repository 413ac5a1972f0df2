"""Works on the geometry and statics of curves."""

from __future__ import annotations

from bermwright.base.sources import Work

ROUTH1891 = Work(
    key="ROUTH1891",
    authors="E. J. Routh",
    title="A treatise on analytical statics, volume 1",
    year=1891,
    publisher="Cambridge University Press",
    locator="chapter X, on strings; not opened, the equations were derived again",
)
INGLIS1951 = Work(
    key="INGLIS1951",
    authors="C. E. Inglis",
    title="Applied mechanics for engineers",
    year=1951,
    publisher="Cambridge University Press",
    locator="the transformed catenary; not opened, the equations were derived again",
)
NPSGATEWAY = Work(
    key="NPSGATEWAY",
    authors="National Park Service, quoted by Rose-Hulman Institute of Technology",
    title="The equation of the Gateway Arch",
    year=1998,
    locator="rose-hulman.edu/Class/CalculusProbs/Problems/ARCH/ARCH_3_0_0.html",
)
DOCARMO1976 = Work(
    key="DOCARMO1976",
    authors="M. P. do Carmo",
    title="Differential geometry of curves and surfaces",
    year=1976,
    publisher="Prentice-Hall",
    locator="chapter 1: arc length, curvature, parallel curves; not opened",
)
DLMF = Work(
    key="DLMF",
    authors="National Institute of Standards and Technology",
    title="Digital library of mathematical functions",
    year=2010,
    locator="dlmf.nist.gov, sections 3.5 (Gauss quadrature), 3.7 (Runge-Kutta), 19.30 (ellipse); not opened",
)
HUNTER2004 = Work(
    key="HUNTER2004",
    authors="K. Hunter and D. Kiffmeyer",
    title="Earthbag building",
    year=2004,
    publisher="New Society Publishers",
    locator="pages on compasses, domes and corbelling, in excerpts on northernarchitecture.us",
)
DOYLE1958 = Work(
    key="DOYLE1958",
    authors="D. V. Doyle",
    title="Segmental rafters for gothic-roofed farm buildings",
    year=1958,
    publisher="United States Department of Agriculture, Forest Products Laboratory",
    locator="ufdc.ufl.edu/AA00025005, in excerpts",
)
