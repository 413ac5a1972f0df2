"""Rings, laps, cuts through walls and sockets: equations worked out by hand."""

from __future__ import annotations

from bermwright.data.works.supports import EN1992, EN1996, HEYMAN1995
from bermwright.data.works.timber import EN1995
from bermwright.evidence.rows import Row
from bermwright.evidence.rows import worked_row as _row
from bermwright.handbook import holding


def _rings() -> list[Row]:
    bar = {"diameter": 0.012, "stress": 435e6, "bond": 2.7e6}
    thin = {"diameter": 0.008, "stress": 20e6, "bond": 2.7e6}
    thick = {"diameter": 0.016, "stress": 20e6, "bond": 2.7e6}
    return [
        _row("ring", HEYMAN1995, "T = H R", holding.ring_tension, {"thrust": 12e3, "radius": 2.5}, "30000"),
        _row("beam", HEYMAN1995, "q l²/8", holding.beam_moment, {"push": 8e3, "span": 2.5}, "6250"),
        _row("bars", EN1992, "area", holding.bar_area, {"diameter": 0.012, "count": 4.0}, "4.5239e-4"),
        _row("fctk", EN1992, "table 3.1", holding.concrete_tension, {"strength": 25e6}, "1.7955e6"),
        _row(
            "bond-good", EN1992, "8.4.2", holding.bond_strength, {"tension": 1.2e6, "good": True}, "2.700e6"
        ),
        _row(
            "bond-poor", EN1992, "8.4.2", holding.bond_strength, {"tension": 1.2e6, "good": False}, "1.890e6"
        ),
        _row("anchorage", EN1992, "8.4.3", holding.anchorage_length, bar, "0.48333"),
        _row("anchorage-thin", EN1992, "8.4.4", holding.anchorage_length, thin, "0.1000"),
        _row("anchorage-thick", EN1992, "8.4.4", holding.anchorage_length, thick, "0.1600"),
        _row("lap", EN1992, "8.7.3", holding.lap_length, bar, "0.72500"),
        _row("lap-thin", EN1992, "8.7.3", holding.lap_length, thin, "0.2000"),
        _row("lap-thick", EN1992, "8.7.3", holding.lap_length, thick, "0.2400"),
    ]


def _cuts() -> list[Row]:
    bars = {"area": 565e-6, "steel": 435e6, "depth": 0.34, "thickness": 0.4, "concrete": 10e6}
    slab = {"thickness": 0.1, "length": 4.0, "strength": 8e6, "eccentricity": 0.01}
    return [
        _row(
            "pressed", EN1996, "6.1.2", holding.pressed_moment,
            {"down": 30e3, "thickness": 0.4, "strength": 1.0e6}, "5550",
        ),
        _row(
            "crushed", EN1996, "6.1.2", holding.pressed_moment,
            {"down": 500e3, "thickness": 0.4, "strength": 1.0e6}, "0.0",
        ),
        _row(
            "uncracked", EN1992, "12.6", holding.uncracked_moment,
            {"thickness": 0.3, "strength": 0.8e6, "down": 20e3}, "13000",
        ),
        _row("bent", EN1992, "6.1", holding.reinforced_moment, bars, "80543"),
        _row("bent-pressed", EN1992, "6.1", holding.reinforced_moment, {**bars, "down": 50e3}, "89189"),
        _row("too-many-bars", EN1992, "6.1", holding.reinforced_moment, {**bars, "concrete": 1.4e6}, "0.0"),
        _row(
            "shear-least", EN1992, "6.2.2", holding.reinforced_shear,
            {"area": 565e-6, "depth": 0.34, "concrete": 20e6}, "1.24998e5",
        ),
        _row(
            "shear", EN1992, "6.2.2", holding.reinforced_shear,
            {"area": 3000e-6, "depth": 0.34, "concrete": 20e6}, "1.87692e5",
        ),
        _row(
            "shear-thin", EN1992, "6.2.2", holding.reinforced_shear,
            {"area": 4000e-6, "depth": 0.15, "concrete": 25e6}, "1.32625e5",
        ),
        _row(
            "courses", EN1996, "3.6.2", holding.course_shear,
            {"down": 20e3, "friction": 0.54, "grip": 50e3, "pressed": 0.3}, "26989",
        ),
        _row("slab", EN1992, "12.6.5.2", holding.pressed_strut, slab, "89600"),
        _row("slab-short", EN1992, "12.6.5.2", holding.pressed_strut, {**slab, "length": 0.3}, "640000"),
    ]  # fmt: skip


def _sockets() -> list[Row]:
    return [
        _row(
            "split", EN1995, "eq. 8.4", holding.split_capacity,
            {"width": 0.2, "kept": 0.06, "height": 0.2}, "25923",
        ),
        _row(
            "lip", EN1995, "6.1.7", holding.lip_shear, {"force": 4e3, "depth": 0.08, "kept": 0.06}, "6.250e5"
        ),
    ]  # fmt: skip


ROWS: tuple[Row, ...] = (*_rings(), *_cuts(), *_sockets())
