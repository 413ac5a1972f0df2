"""Works on heat in the ground: numerical methods, standards of thermal bridges, test cases."""

from __future__ import annotations

from bermwright.base.sources import Work

ISO10211 = Work(
    key="ISO10211",
    authors="ISO",
    title="ISO 10211 Thermal bridges in building construction: heat flows and surface temperatures, detailed "
    "calculations",
    year=2007,
    publisher="International Organization for Standardization",
    locator="validation cases 1 and 2 as quoted on public pages; the text itself was not opened",
)
RUPPERT1995 = Work(
    key="RUPPERT1995",
    authors="J. Ruppert",
    title="A Delaunay refinement algorithm for quality 2-dimensional mesh generation, Journal of Algorithms 18",
    year=1995,
    locator="doi:10.1006/jagm.1995.1021; not opened",
)
GRIMME1997 = Work(
    key="GRIMME1997",
    authors="E. J. Grimme",
    title="Krylov projection methods for model reduction",
    year=1997,
    publisher="University of Illinois at Urbana-Champaign",
    locator="thesis; not opened",
)
MEYER2014 = Work(
    key="MEYER2014",
    authors="C. D. Meyer, D. S. Balsara, T. D. Aslam",
    title="A stabilized Runge-Kutta-Legendre method for explicit super-time-stepping of parabolic and mixed "
    "equations, Journal of Computational Physics 257",
    year=2014,
    locator="doi:10.1016/j.jcp.2013.08.021; not opened",
)
CARSLAW1959 = Work(
    key="CARSLAW1959",
    authors="H. S. Carslaw, J. C. Jaeger",
    title="Conduction of heat in solids",
    year=1959,
    publisher="Clarendon Press, Oxford",
    edition="2nd edition",
)
LANGMUIR1913 = Work(
    key="LANGMUIR1913",
    authors="I. Langmuir, E. Q. Adams, G. S. Meikle",
    title="Flow of heat through furnace walls: the shape factor, Transactions of the American Electrochemical "
    "Society 24",
    year=1913,
    locator="not opened",
)
NREL2008 = Work(
    key="NREL2008",
    authors="J. Neymark, R. Judkoff and others",
    title="In-depth diagnostic cases for ground coupled heat transfer related to slab-on-grade construction, "
    "NREL/TP-550-43388",
    year=2008,
    publisher="National Renewable Energy Laboratory",
    locator="values as carried in public test sources; the report itself was not opened",
)
JOHANSEN1975 = Work(
    key="JOHANSEN1975",
    authors="Ø. Johansen",
    title="Thermal conductivity of soils",
    year=1975,
    publisher="University of Trondheim",
    locator="thesis; not opened",
)
