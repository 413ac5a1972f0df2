"""Works on domes, forms and patterns made by hand."""

from __future__ import annotations

from bermwright.base.sources import Work

MAKING_FORMS = Work(
    key="MAKINGFORMS",
    authors="The bermwright developers",
    title="Rings, boxes and unrolled patterns: closed forms",
    year=2026,
    locator="circles, cylinders, cones and spheres; each formula stands beside its function and was derived here",
)
DOME_ADVICE = Work(
    key="DOMEADVICE",
    authors="A building school, quoted by owner-builders",
    title="Width of bags for the width of a dome",
    year=0,
    locator="an owner-builders' forum, thread 1cwstnf (mirror), read in excerpt; second-hand",
)
DOME_LIMITS = Work(
    key="DOMELIMITS",
    authors="Owner-builders",
    title="Advice on domes of bags: largest width, and a dome that was taken down for its shape",
    year=0,
    locator="naturalbuildingblog.com/earthbag-dome-advice, read in excerpt",
)
TEEN_DOME = Work(
    key="CLOSINGDOME",
    authors="An owner-builder",
    title="A dome closed too soon: its compass was changed while it was being built",
    year=2022,
    locator="an owner-builder's log on the web, November and December 2022, read in excerpt",
)
FAILED_DOME = Work(
    key="FAILEDDOME",
    authors="Builders of domes of bags",
    title="A dome of beach-like sand that fell, and rings that went straight before they folded in",
    year=0,
    locator="naturalbuildingblog.com/a-cautionary-tale; earthbagbuilding.com/faqs/failure.htm, read in excerpts",
)
GILLY1797 = Work(
    key="GILLY1797",
    authors="D. Gilly",
    title="Handbuch der Land-Bau-Kunst",
    year=1797,
    locator="goobi.tib.eu 1832488853, page 244: the hip rib by equal parts, read in excerpt",
)
FORM_PRESSURE = Work(
    key="FORMPRESSURE",
    authors="M. K. Hurd",
    title="Use updated wall pressure formulas (on ACI 347-04)",
    year=2006,
    locator="concreteconstruction.net/how-to/use-updated-wall-pressure-formulas_o",
)
RAMMED_FORMS = Work(
    key="RAMMEDFORMS",
    authors="G. Minke",
    title="Building with Earth: Design and Technology of a Sustainable Architecture, formwork",
    year=2006,
    locator="issuhub.com/view/index/5203?pageIndex=51, read in excerpt",
)
