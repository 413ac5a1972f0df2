"""The size of a sketch: its own unit, or lengths that are known on it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import QuantityError
from bermwright.base.units import parse_exact, show
from bermwright.form.sketch import Levelled, SketchError, arch_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from bermwright.formats.sketches.nouns import Drawn

AGREES = 0.01
"""Difference of two scales, or of a unit and a known length, that measuring explains."""

SPANS = (0.05, 100.0)
"""Between the smallest model and more than any vault (m): outside of it a unit is wrong."""

MEASURES: dict[str, Callable[[Levelled], float]] = {
    "span": lambda arch: arch.span,
    "rise": lambda arch: float(arch.z.max()),
    "chain": lambda arch: float(np.sum(np.hypot(np.diff(arch.x), np.diff(arch.z)))),
}
"""What may be known of a sketch."""


@dataclass(frozen=True, slots=True)
class Known:
    """A length that is known on the sketch."""

    what: str
    value: float
    """m."""

    def __str__(self) -> str:
        return f"{self.what} {show(self.value, 'm', 3)}"


def known_length(text: str) -> Known:
    """Read `span 4.8 m`, `rise 7 ft 3 in` or `chain 7.2 m`."""
    what, _, value = text.strip().partition(" ")
    if what not in MEASURES:
        raise SketchError(
            f'"{text}": a known length begins with {", ".join(MEASURES)}, such as "span 4.8 m".'
        )
    try:
        length = parse_exact(value, "length")
    except QuantityError as error:
        raise SketchError(f'"{text}": {error}') from None
    if length <= 0.0:
        raise SketchError(f'"{text}": a known length is more than nothing.')
    return Known(what, length)


def to_size(drawn: Drawn, known: Sequence[Known], *, mirror: bool = False, level: bool = False) -> Levelled:
    """The sketch upright and in metres."""
    arch = arch_of(drawn.x, drawn.z, mirror=mirror, level=level)
    scale, says = _scale(arch, drawn.unit, known)
    span = scale * arch.span
    if not SPANS[0] <= span <= SPANS[1]:
        raise SketchError(
            f"By its unit or known length the sketch spans {span:.4g} m; {SPANS[0]:g} m to {SPANS[1]:g} m is "
            "what a model or a vault has. Look at the unit, and at the known length."
        )
    return Levelled(x=arch.x * scale, z=arch.z * scale, says=(*drawn.says, *arch.says, *says))


def _scale(arch: Levelled, unit: float | None, known: Sequence[Known]) -> tuple[float, tuple[str, ...]]:
    """Metres of one unit of the sketch."""
    scales = [(one.value / MEASURES[one.what](arch), f"the known {one}") for one in known]
    if unit is not None:
        scales.insert(0, (unit, "the unit of the file"))
    if not scales:
        raise SketchError(
            "The sketch has no unit. Write the unit into the file, or say one length that is known on it, "
            "such as its span."
        )
    first, because = scales[0]
    for other, words in scales[1:]:
        if abs(other / first - 1.0) > AGREES:
            raise SketchError(
                f"{because[0].upper()}{because[1:]} and {words} do not agree: by the first one unit of the "
                f"sketch is {first:.4g} m, by the second {other:.4g} m "
                f"({100.0 * abs(other / first - 1.0):.0f} % apart). "
                "Measure both again, or keep the surer one."
            )
    return first, () if unit is not None else (f"Its size comes from {because}.",)
