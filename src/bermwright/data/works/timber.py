"""Works on timber: design standard, strength classes, textbooks behind the checks."""

from __future__ import annotations

from bermwright.base.sources import Work

EN1995 = Work(
    key="EN1995",
    authors="CEN",
    title="EN 1995-1-1 Eurocode 5: Design of timber structures, general rules and rules for buildings",
    year=2004,
    publisher="CEN",
    edition="with amendments A1:2008 and A2:2014",
)
EN338 = Work(
    key="EN338",
    authors="CEN",
    title="EN 338 Structural timber, strength classes",
    year=2016,
    publisher="CEN",
    locator="table as transcribed in github.com/egilmonsas/materialclasses, materialclasses/solidtimber.py",
)
EN1993 = Work(
    key="EN1993",
    authors="CEN",
    title="EN 1993-1-1 Eurocode 3: Design of steel structures, general rules and rules for buildings",
    year=2005,
    publisher="CEN",
    edition="annex BB.3: beams held along an edge",
)
PORTEOUS2007 = Work(
    key="PORTEOUS2007",
    authors="J. Porteous and A. Kermani",
    title="Structural Timber Design to Eurocode 5",
    year=2007,
    publisher="Blackwell",
    locator="pages opened at eurocode.us/structural-timber-design",
)
BENOIT2008 = Work(
    key="BENOIT2008",
    authors="Y. Benoit, B. Legrand and V. Tastet",
    title="Calcul des structures en bois",
    year=2008,
    publisher="Eyrolles, AFNOR",
    locator="example 2.3.1 as used by github.com/xcfem/xc, verif/tests/materials/ec5/timber_beam_test_01.py",
)
XCEC5 = Work(
    key="XCEC5",
    authors="XC project",
    title="Verification tests of timber after Eurocode 5",
    year=2023,
    publisher="github.com/xcfem/xc",
    locator="verif/tests/materials/ec5/test_EC5Wood_03.py and test_EC5Wood_04.py",
)
LVLHANDBOOK = Work(
    key="LVLHANDBOOK",
    authors="Federation of the Finnish Woodworking Industries",
    title="LVL Handbook Europe",
    year=2025,
    edition="table 5.1, which repeats the distances of EN 1995-1-1 table 8.2",
    locator="proofer.faktor.fi/epaper/LVLHandbook_2025/149",
)
SWEDISHWOOD = Work(
    key="SWEDISHWOOD",
    authors="Swedish Wood",
    title="Design of timber structures, volume 1",
    year=2016,
    locator="extract at 1library.co",
)
TIMOSHENKO = Work(
    key="TIMOSHENKO",
    authors="S. P. Timoshenko and J. M. Gere",
    title="Theory of Elastic Stability",
    year=1961,
    publisher="McGraw-Hill",
    edition="second edition",
)
LAYEREDRIB = Work(
    key="LAYEREDRIB",
    authors="The bermwright developers",
    title="Ribs nailed together from short pieces: beams on the nails of their neighbours",
    year=2026,
    edition="derived; docstrings of handbook/timber/joint.py, checked against a layered beam model",
)
