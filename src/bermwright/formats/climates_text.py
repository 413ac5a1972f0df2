"""The list of packaged climates, one line a station: what to look at when choosing one."""

from __future__ import annotations

from bermwright.base.units import show
from bermwright.data.climates import PLACES, PREFIX, MonthlyNormals
from bermwright.handbook.weather import freezing_index

_COLUMNS = (
    "station",
    "country",
    "lat, lon (deg)",
    "height (m)",
    "coldest month (°C)",
    "warmest",
    "freezing index (K d)",
    "years",
    "kind",
)


def climates_text() -> str:
    """Every packaged station as an aligned table, and how to name one in a house file."""
    rows = [_COLUMNS, *(_row(place) for place in PLACES)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(_COLUMNS))]
    lines = ["  ".join(text.ljust(width) for text, width in zip(row, widths, strict=True)) for row in rows]
    return "\n".join(
        [
            *(line.rstrip() for line in lines),
            "",
            f'{len(PLACES)} stations. In the house file: climate = "{PREFIX}{PLACES[0].name}".',
            "Averaged: no official normals, but monthly reports of the years given, averaged here.",
            "The freezing index is that of an average year, below 0 °C in air; a cold winter has far more.",
        ]
    )


def _row(place: MonthlyNormals) -> tuple[str, ...]:
    index = freezing_index(place.mean, place.daily_spread)
    return (
        place.name,
        place.country,
        f"{place.latitude:.2f}, {place.longitude:.2f}".replace("-", "−"),
        f"{place.elevation:.0f}",
        f"{min(place.mean):.1f}".replace("-", "−"),
        f"{max(place.mean):.1f}",
        show(index.value, "K d", 0).removesuffix(" K d") + (" or more" if index.reads_low else ""),
        place.period,
        "memory" if place.cite.provenance.needs_review else place.kind.split()[0],
    )


def climate_rows() -> list[dict[str, object]]:
    """The same as plain data, with the source and the doubts of each station."""
    return [
        {
            "name": f"{PREFIX}{place.name}",
            "country": place.country,
            "latitude_deg": place.latitude,
            "longitude_deg": place.longitude,
            "elevation_m": place.elevation,
            "climate": place.climate,
            "period": place.period,
            "kind": place.kind,
            "mean_degC": list(place.mean),
            "source": str(place.cite),
            "provenance": place.cite.provenance.value,
            "doubts": [text for text in (place.note, *place.doubts) if text],
        }
        for place in PLACES
    ]
