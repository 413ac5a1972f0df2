"""What a block of fill with geogrid uses of what it has: each layer, and the block as one body.

By allowable stress, as the American highway manuals do it: greatest weight, least friction, and one safety
for each way to fail. No partial factor of another family comes in.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.soils import DAS
from bermwright.data.works.supports import FHWANHI10024, FHWANHI10025, OKABE1926, TM58188
from bermwright.handbook.bearing import drained_capacity, effective_width, weight_with_water
from bermwright.handbook.retaining import (
    beyond_wedge,
    earthquake_active_ratio,
    face_bulge,
    layer_hold,
    layer_pull,
    soil_push,
)
from bermwright.handbook.soils import active_ratio, sloping_active_ratio

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.rules.grids.blocks import Block

SAFETY = 1.5
"""On a layer that tears or slips, and on the block that slides (-)."""
SHAKEN_SAFETY = 1.1
"""The same in an earthquake (-)."""
SHAKEN_GRIP = 0.8
"""Share of the grip that is left while it shakes (-)."""
LEAST_BEHIND = 1.0
"""Least length behind the wedge (m)."""
LEAST_SHARE = 0.7
"""Least length of the layers over the height (-)."""
SIXTH = 1.0 / 6.0
THIRD = 1.0 / 3.0
"""How far the force may leave the middle of the base in an earthquake, over the length (-)."""
GROUND_SAFETY = 2.5
"""On the ground under the block (-)."""
SHAKEN_GROUND_SAFETY = 1.9
"""The same in an earthquake (-)."""
SHORTEST = 0.3
"""Length over height from which the curve of the bulge is published (-)."""
TEARS_CITE = Cite(
    work=FHWANHI10024, place="simplified method, grids that stretch", provenance=Provenance.MEMORY
)
SLIPS_CITE = Cite(work=FHWANHI10025, place="pages 9-5, E8-6 and B-2", provenance=Provenance.READ)
LEAST_CITE = Cite(work=TM58188, place="7-8: 3 feet behind the wedge, safety 1.5", provenance=Provenance.READ)
LENGTH_CITE = Cite(work=FHWANHI10024, place="length of the layers", provenance=Provenance.MEMORY)
BODY_CITE = Cite(work=DAS, place="gravity walls", provenance=Provenance.MEMORY)
GROUND_CITE = Cite(
    work=FHWANHI10024, place="bearing on the length that carries, safety 2.5", provenance=Provenance.MEMORY
)
BULGE_CITE = Cite(work=FHWANHI10024, place="movement while it is built", provenance=Provenance.MEMORY)
SHAKEN_CITE = Cite(work=OKABE1926, place="with the inertia of the block", provenance=Provenance.MEMORY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """One way to fail."""

    way: str
    """In a sentence after "the worst is"."""
    says: str
    symbol: str
    demand: float
    capacity: float
    unit: str
    cite: Cite
    advice: str

    @property
    def ratio(self) -> float:
        """Demand over capacity; infinite where nothing holds."""
        return self.demand / self.capacity if self.capacity > 0.0 else math.inf


def shares(block: Block) -> tuple[Share, ...]:
    """Every way to fail. Raises `OutOfRangeError` beyond the equations."""
    found = [*_layers(block), *_body(block), _bulge(block)]
    if block.shaking > 0.0:
        found += _shaken(block)
    return tuple(found)


def worst(block: Block) -> Share:
    """The way in which it is nearest to failing; NaN outranks all."""
    return max(shares(block), key=lambda one: math.inf if math.isnan(one.ratio) else one.ratio)


def thrust(block: Block) -> tuple[float, float]:
    """Push of the ground behind the block (N/m), and how high it acts (m)."""
    angle = block.angle.low
    slope = min(block.rises, angle)
    ratio = float(sloping_active_ratio(angle, slope) * np.cos(slope))
    push = soil_push(max(block.back, 0.0), weight=block.weight.high, ratio=ratio, surcharge=block.load)
    return float(push.force), float(push.arm)


def body_weight(block: Block) -> float:
    """Least weight of the block, buoyant where water may stand in it (N/m)."""
    return _pressure(block, 0.0) * block.length


def _pressure(block: Block, height: float) -> float:
    """Least pressure of the soil itself on a layer (Pa)."""
    over = max(block.shallowest - height, 0.0)
    wet = min(max(block.water - height, 0.0), over)
    return block.weight.low * (over - wet) + block.buoyant * wet


def _layers(block: Block) -> Iterator[Share]:
    angle = block.angle.low
    ratio = float(active_ratio(angle))
    for number, height in enumerate(block.layers, start=1):
        called = f"layer {number} from below"
        pull = float(
            layer_pull(
                max(block.deepest - height, 0.0), spacing=block.spacing, weight=block.weight.high,
                ratio=ratio, surcharge=block.load,
            )
        )  # fmt: skip
        behind = float(beyond_wedge(block.length, height=height, angle=angle))
        held = _held(block, height, behind)
        yield Share(
            way=f"{called} tears", says=f"Pull in {called}, times {SAFETY:g}, against its long-term strength",
            symbol="1.5·K_a·(γ·z + q)·S_v / T_al", demand=SAFETY * pull, capacity=block.strength, unit="kN/m",
            cite=TEARS_CITE, advice="Take a stronger grid (strength), or lay the layers nearer together "
            "(spacing).",
        )  # fmt: skip
        buried = block.shallowest > height
        yield Share(
            way=f"{called} slips out" if buried else f"{called} comes out of the mound",
            says=f"Pull in {called}, times {SAFETY:g}, against its grip",
            symbol="1.5·T / (2·0.67·tan φ·α·σ'·L_e)", demand=SAFETY * pull, capacity=held, unit="kN/m",
            cite=SLIPS_CITE, advice="Let the layers reach further back (length)." if buried
            else "Write shorter layers (length), or flatter slopes of the mound.",
        )  # fmt: skip
        yield Share(
            way=f"{called} ends too near", says=f"Least length of {called} behind the wedge",
            symbol="1 m / (L − h·tan(45° − φ/2))", demand=LEAST_BEHIND, capacity=behind, unit="m",
            cite=LEAST_CITE, advice="Let the layers reach further back (length).",
        )  # fmt: skip


def _held(block: Block, height: float, behind: float) -> float:
    pressure = _pressure(block, height)
    deep = pressure / block.weight.low
    return float(layer_hold(behind, depth=deep, weight=block.weight.low, angle=block.angle.low))


def _body(block: Block) -> Iterator[Share]:
    push, arm = thrust(block)
    weight = body_weight(block)
    held = weight * float(np.tan(block.ground_angle))
    lean = push * arm / weight if weight > 0.0 else math.inf
    longer = "Let the layers reach further back (length)."
    yield Share(
        way="the block slides", says=f"Push of the ground behind, times {SAFETY:g}, against friction",
        symbol="1.5·P / (W·tan φ)", demand=SAFETY * push, capacity=held, unit="kN/m", cite=BODY_CITE,
        advice=longer,
    )  # fmt: skip
    yield Share(
        way="the block leans", says="Its force leaves the middle of its base by, at most a sixth of it",
        symbol="(P·a/W) / (L/6)", demand=lean, capacity=SIXTH * block.length, unit="m", cite=BODY_CITE,
        advice=longer,
    )  # fmt: skip
    yield Share(
        way="the layers are short for the height", says="Seven tenths of the height against the length",
        symbol="0.7·H / L", demand=LEAST_SHARE * block.deepest, capacity=block.length, unit="m",
        cite=LENGTH_CITE, advice=longer,
    )  # fmt: skip
    heavy = block.weight.high * block.deepest * block.length + block.load * block.length
    for down, called in ((weight, "lightest"), (heavy, "heaviest")):
        yield Share(
            way="the ground under it gives way",
            says=f"Weight of the block at its {called} against what the ground carries",
            symbol=GROUND_SYMBOL, demand=down,
            capacity=ground_carries(block, down, along=push, moment=push * arm) / GROUND_SAFETY,
            unit="kN/m", cite=GROUND_CITE, advice=longer,
        )  # fmt: skip


GROUND_SYMBOL = "N / ((½·γ·B'·N_γ·i_γ + c·N_c·i_c)·B' / 2.5)"


def ground_carries(block: Block, down: float, *, along: float, moment: float) -> float:
    """Most that the weakest ground under a block carries, without what lies beside it (N/m)."""
    if down <= 0.0 or along >= down:
        return 0.0
    width = float(effective_width(block.length, moment / down))
    if width <= 0.0:
        return 0.0
    return min(
        width
        * float(
            drained_capacity(
                angle=one.friction,
                cohesion=one.cohesion,
                weight=weight_with_water(one.weight, one.saturated, water=block.ground_water, width=width),
                surcharge=0.0,
                width=width,
                inclination=along / down,
            )
        )
        for one in block.under
    )


def _bulge(block: Block) -> Share:
    above = max(block.deepest - block.height, 0.0) * block.weight.high + block.load
    tall = max(block.height, 0.1)
    # Layers shorter than the curve reaches are refused by their length; here they count as its shortest.
    moves = float(face_bulge(max(block.length, SHORTEST * tall), height=tall, surcharge=min(above, 100e3)))
    return Share(
        way="the face reaches the wall", says="Movement of the face against what the soft layer gives",
        symbol="δ_R·H/75·(1 + q/80 kPa) / s", demand=moves, capacity=block.gives, unit="mm", cite=BULGE_CITE,
        advice="Take a softer or thicker layer (soft_gives), or longer layers of grid.",
    )  # fmt: skip


def _shaken(block: Block) -> Iterator[Share]:
    """Inertia of the block and of the wedge in it, with the shaken push of the ground behind."""
    angle, shaking = block.angle.low, block.shaking
    ratio = float(earthquake_active_ratio(angle, 0.0, sideways=shaking, slope=min(block.rises, angle)))
    if not math.isfinite(ratio):
        raise OutOfRangeError("In that earthquake no soil behind the block finds a state of rest.")
    push = soil_push(max(block.back, 0.0), weight=block.weight.high, ratio=ratio, surcharge=0.0)
    heavy = block.weight.high * block.deepest * block.length
    drives = float(push.force) + shaking * heavy
    weight = body_weight(block)
    # An earthquake while a blocked drain stands full is two accidents at once: it weighs as if drained.
    stands = block.weight.low * max(block.shallowest, 0.0) * block.length
    sways = float(push.force) + shaking * stands
    tips = 0.5 * max(block.back, 0.0) * float(push.force) + 0.5 * block.deepest * shaking * stands
    longer = "Let the layers reach further back (length)."
    yield Share(
        way="the block leans in an earthquake",
        says="Its force leaves the middle of its base by, at most a third of it",
        symbol="((P_AE·h/2 + k·W·H/2)/W) / (L/3)", demand=tips / stands if stands > 0.0 else math.inf,
        capacity=THIRD * block.length, unit="m", cite=SHAKEN_CITE, advice=longer,
    )  # fmt: skip
    yield Share(
        way="the ground under it gives way in an earthquake",
        says="Weight of the block against what the ground then carries",
        symbol=GROUND_SYMBOL.replace(f"{GROUND_SAFETY:g}", f"{SHAKEN_GROUND_SAFETY:g}"), demand=stands,
        capacity=ground_carries(block, stands, along=sways, moment=tips) / SHAKEN_GROUND_SAFETY,
        unit="kN/m", cite=SHAKEN_CITE, advice=longer,
    )  # fmt: skip
    yield Share(
        way="the block slides in an earthquake", says="Push and inertia, times 1.1, against friction",
        symbol="1.1·(P_AE + k·W) / (W·tan φ)", demand=SHAKEN_SAFETY * drives,
        capacity=weight * float(np.tan(block.ground_angle)), unit="kN/m", cite=SHAKEN_CITE,
        advice="Let the layers reach further back (length).",
    )  # fmt: skip
    wedge = 0.5 * block.weight.high * block.deepest**2 * math.tan(math.pi / 4.0 - 0.5 * angle)
    extra = shaking * wedge / len(block.layers)
    height = block.layers[-1]
    own = float(
        layer_pull(
            max(block.deepest - height, 0.0), spacing=block.spacing, weight=block.weight.high,
            ratio=float(active_ratio(angle)),
        )
    )  # fmt: skip
    lowest = float(
        layer_pull(block.deepest, spacing=block.spacing, weight=block.weight.high,
                   ratio=float(active_ratio(angle)))
    )  # fmt: skip
    yield Share(
        way="the lowest layer tears in an earthquake", says="Pull with its share of inertia, times 1.1",
        symbol="1.1·(T + k·W_w/n) / T_al", demand=SHAKEN_SAFETY * (lowest + extra), capacity=block.strength,
        unit="kN/m", cite=SHAKEN_CITE, advice="Take a stronger grid (strength).",
    )  # fmt: skip
    behind = float(beyond_wedge(block.length, height=height, angle=angle))
    yield Share(
        way="the top layer slips out in an earthquake", says="Pull with its share of inertia, times 1.1",
        symbol="1.1·(T + k·W_w/n) / 0.8·P", demand=SHAKEN_SAFETY * (own + extra),
        capacity=SHAKEN_GRIP * _held(block, height, behind), unit="kN/m", cite=SHAKEN_CITE,
        advice="Let the layers reach further back (length).",
    )  # fmt: skip
