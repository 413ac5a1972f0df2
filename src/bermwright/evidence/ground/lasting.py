"""Frost in the ground, water under a floor, pipes: a worked value, Neumann's solution again, statics.

The manual of the worked value was not open; its inputs are from memory and the equations are worked here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.actions import EN1997
from bermwright.data.works.lasting import ALDRICH1953, BURIEDPIPES, SPANGLER1941, STEFANWSDOT, TM5852
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.lasting import (
    frost_correction,
    frost_depth,
    insulated_frost_depth,
    latent_heat,
    lifting_head,
    pipe_flattening,
    stefan_depth,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.base.sources import Work

DAY = 86_400.0
TABLE = (
    (0.0, 0.05, "0.992"), (0.0, 0.3, "0.955"), (0.0, 1.0, "0.877"),
    (0.2, 0.1, "0.954"), (0.333, 0.2, "0.897"), (0.5, 0.5, "0.767"),
    (1.0, 0.05, "0.895"), (1.0, 0.2, "0.776"), (1.0, 1.0, "0.534"),
    (2.0, 0.3, "0.576"), (3.0, 0.1, "0.645"), (3.0, 1.0, "0.296"),
)  # fmt: skip
"""Warmth ratio, fusion parameter and the share of Stefan's depth."""
SILT = {
    "conductivity": 1.3135, "index": 1389 * DAY, "mean": 2.89, "duration": 160 * DAY, "latent": 80.5e6,
    "capacity": 1.895e6,
}  # fmt: skip


def _row(work: Work, name: str, call: Callable[..., Any], expected: str, note: str, **inputs: float) -> Row:
    return Row(
        id=f"{work.key}-{name}",
        cite=Cite(work=work, place=note, provenance=Provenance.DERIVED),
        kind=Kind.DERIVED,
        call=call,
        inputs=inputs,
        expected=expected,
        note=note,
    )


ROWS: tuple[Row, ...] = (
    *(
        _row(ALDRICH1953, f"correction-{alpha:g}-{mu:g}", frost_correction, expected,
             "Neumann's solution: e^(-x²)/erf x - α·e^(-x²)/erfc x = √π·x/μ, λ = x·√(2/μ)",
             warmth=alpha, fusion=mu)
        for alpha, mu, expected in TABLE
    ),
    _row(TM5852, "latent", latent_heat, "80.16e6", "ρ·w·334 kJ/kg = 1600·0.15·334e3",
         dry_density=1600.0, water=0.15),
    _row(STEFANWSDOT, "silt", stefan_depth, "1.979", "√(2·1.3135·1389·86400/80.5e6)",
         conductivity=1.3135, index=1389 * DAY, latent=80.5e6),
    _row(TM5852, "silt", frost_depth, "1.77",
         "inputs of a worked value from memory, 5.82 ft: λ = 0.896 of 6.49 ft", **SILT),
    _row(TM5852, "no-frost", frost_depth, "0.00", "nothing freezes without cold", **{**SILT, "index": 0.0}),
    _row(STEFANWSDOT, "insulated", insulated_frost_depth, "0.354", "√(3² + 1.5²) - 3",
         depth=1.5, conductivity=1.5, resistance=2.0),
    _row(EN1997, "slab-floats", lifting_head, "0.367", "0.15·24/9.81", weight=3600.0),
    _row(EN1997, "slab-floats-0.9", lifting_head, "0.330", "0.9·0.15·24/9.81", weight=3600.0, favourable=0.9),
    _row(BURIEDPIPES, "pipe-us-form", pipe_flattening, "0.01228",
         "the form with F/Δy of a plate test: 0.1·8.333/(0.149·46 + 0.061·1000) psi, 10 ft of soil",
         pressure=57456.0, stiffness=5907.1, reaction=6.894757e6, bedding=0.1),
    _row(BURIEDPIPES, "pipe-with-years", pipe_flattening, "0.0219",
         "1.5·0.1·40e3/(8·8000 + 0.061·3.45e6)",
         pressure=40e3, stiffness=8000.0, reaction=3.45e6, lag=1.5),
    _row(SPANGLER1941, "ring-alone", pipe_flattening, "0.05208",
         "elastic ring pressed evenly from above and below, no soil beside it: Δ = W·r³/(12·EI) = p·D/(96·S)",
         pressure=40e3, stiffness=8000.0, reaction=0.0, bedding=1.0 / 12.0),
)  # fmt: skip
