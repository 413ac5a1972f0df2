"""What is said of a sketch as plain data for JSON; unknown numbers are null, lengths are metres."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED
from bermwright.formats.assessment_json import FORMAT, number

if TYPE_CHECKING:
    from bermwright.adapt.shape.envelope import Envelope
    from bermwright.adapt.sketch import ArcChoice, SketchAdvice
    from bermwright.handbook.fitting import Fit


def sketch_data(advice: SketchAdvice) -> dict[str, Any]:
    """Everything that `sketch` says."""
    better = advice.better
    return {
        "format": FORMAT,
        "mark": NOT_REVIEWED,
        "points": advice.fits.arch.x.size,
        "remarks": list(advice.fits.arch.says),
        "outliers": list(advice.fits.outliers),
        "fits": [_fit(fit, weight) for fit, weight in zip(advice.fits.fits, advice.fits.likely, strict=True)],
        "not_fitted": list(advice.fits.left_out),
        "bending": None if advice.own is None else _envelope(advice.own),
        "bending_not_known": advice.silent,
        "better": None
        if better is None
        else {
            "curve": str(better.vault.curve),
            "bending": _envelope(better.envelope),
            "stage": better.stage,
            "times": number(better.times, ""),
            "outward": number(better.outward, "m"),
        },
        "arcs": [_chain(choice) for choice in advice.arcs],
    }


def _fit(fit: Fit, weight: float) -> dict[str, Any]:
    return {
        "family": fit.family,
        "span": number(fit.span, "m"),
        "rise": number(fit.rise, "m"),
        "details": {name: number(value, "m") for name, value in fit.details.items()},
        "mean_distance": number(fit.spread, "m"),
        "largest_distance": number(fit.largest, "m"),
        "half_interval_95": {name: number(value, "m") for name, value in fit.errors.items()},
        "likely": weight,
        "residuals": [number(float(value), "m") for value in fit.residuals],
    }


def _envelope(envelope: Envelope) -> dict[str, Any]:
    return {
        "moment_per_metre": number(envelope.bending, "kN m/m"),
        "unit": "kN m/m",
        "stage": envelope.stage,
        "case": envelope.case,
        "place": envelope.place,
        "soil_run": envelope.run,
    }


def _chain(choice: ArcChoice) -> dict[str, Any]:
    return {
        "deviation": number(choice.chain.deviation, "m"),
        "moment_per_metre": None if choice.bending is None else number(choice.bending, "kN m/m"),
        "arcs": [
            {"centre": [arc.x, arc.z], "radius": arc.radius, "start": arc.start, "end": arc.end}
            for arc in choice.chain.arcs
        ],
    }
