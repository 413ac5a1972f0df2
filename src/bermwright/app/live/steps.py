"""Steps of a handle, and a value as a builder writes it into the file."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bermwright.base.units import parse_exact, show


@dataclass(frozen=True, slots=True)
class Snap:
    """How far one step goes, by hand, finely and by a page; texts as a builder writes them.

    The steps are those of a rule and a pencil: habits of hand, no measure of anything.
    """

    step: str
    fine: str
    page: str
    dimension: str

    def size(self, *, fine: bool = False) -> float:
        """One step (SI; for a slope in metres along to one up)."""
        return self.of(self.fine if fine else self.step)

    def of(self, text: str) -> float:
        """A step in SI."""
        if self.dimension == "slope":
            return float(text)
        return parse_exact(text, "pressure" if self.dimension == "pressure" else "length")


_STEPS = {
    ("length", "metric"): ("0.05 m", "0.01 m", "0.25 m"),
    ("length", "imperial"): ("2 in", "1/2 in", "10 in"),
    ("thickness", "metric"): ("10 mm", "1 mm", "50 mm"),
    ("thickness", "imperial"): ("1/2 in", "1/16 in", "2 in"),
    ("pressure", "metric"): ("0.25 kN/m2", "0.05 kN/m2", "1 kN/m2"),
    ("pressure", "imperial"): ("5 psf", "1 psf", "20 psf"),
    ("slope", "metric"): ("0.1", "0.05", "0.5"),
    ("slope", "imperial"): ("0.1", "0.05", "0.5"),
}


def snap_of(dimension: str, system: str) -> Snap:
    """The steps of a kind of value."""
    kind = "length" if dimension == "level" else dimension
    return Snap(*_STEPS[kind, system], dimension=kind)


def snapped(value: float, snap: Snap, *, fine: bool, low: float, high: float) -> float:
    """The nearest step within the limits."""
    size = snap.size(fine=fine)
    if snap.dimension != "slope":
        inside = min(max(value, low), high)
        step = round(inside / size) * size
        return step if low <= step <= high else inside
    flattest, steepest = math.radians(2.0), math.radians(80.0)
    along = 1.0 / math.tan(min(max(value, flattest), high, steepest))
    step = max(round(along / size) * size, size)
    found = math.atan(1.0 / step)
    return found if low <= found <= high else high


def written(value: float, dimension: str, system: str) -> str:
    """A value as a builder writes it, exact enough to be read back alike."""
    if dimension == "slope":
        return f"1:{_plain(1.0 / math.tan(value), 3)}"
    if dimension == "pressure":
        if system == "imperial":
            return f"{_plain(value / parse_exact('1 psf', 'pressure'), 1)} psf"
        return f"{_plain(1e-3 * value, 2)} kN/m2"
    if system == "imperial":
        return show(value, "m", system="imperial").replace("−", "-")
    if dimension == "thickness":
        return f"{_plain(1e3 * value, 1)} mm"
    return f"{_plain(value, 3)} m"


def _plain(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in {"-0", ""} else text
