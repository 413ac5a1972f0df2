"""Where the rows sent by the national services stand in the collected messages."""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.climate import DWDCLIMAT


def sent(station: str, period: str) -> Cite:
    """The service's own normals, as it sends them with each monthly message."""
    return _section(2, station, f"normals {period}, the value most often sent for each month")


def averaged(station: str, *, years: int) -> Cite:
    """Monthly means of single years, averaged here: no official normals."""
    return _section(1, station, f"monthly means 2003-2021, averaged here over at least {years} years a month")


def spread(station: str, *, years: int) -> Cite:
    """Standard deviations of the daily means, averaged here."""
    return _section(1, station, f"2003-2021, averaged here over at least {years} years a month")


def snow(station: str, *, years: int) -> Cite:
    """Days with snow on the ground, averaged here."""
    return _section(
        3, station, f"days with snow 2003-2021, averaged here over at least {years} years a month"
    )


def _section(number: int, station: str, says: str) -> Cite:
    return Cite(
        work=DWDCLIMAT, place=f"section {number}, station {station}: {says}", provenance=Provenance.READ
    )
