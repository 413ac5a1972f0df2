"""A house as a model for other programs: one file, its kind told by its ending."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.app.assessing import quiet
from bermwright.app.opening import open_house
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import beside, output, write_bytes
from bermwright.base.errors import BermwrightError
from bermwright.form import vault_form
from bermwright.form.dome import dome_form
from bermwright.form.dome.bodies import dome_solids, shell_of
from bermwright.form.known import FormUnknownError
from bermwright.form.setout import SetOutError, setting_out
from bermwright.form.solids import house_solids, vault_solids
from bermwright.form.solids.printing import print_dome, print_parts
from bermwright.formats.exchange import (
    SiteVault,
    body_table,
    compared_lines,
    compared_table,
    glb,
    ifc,
    model_data,
    quantity_table,
    site_geojson,
    stl,
)
from bermwright.formats.exchange.standing import are_placed
from bermwright.formats.tables import table_csv, tables_xlsx
from bermwright.takeoff import vault_quantities
from bermwright.takeoff.bodies import compared
from bermwright.takeoff.domes import dome_compared, dome_quantities

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path
    from typing import Any

    from bermwright.form.dome import DomeForm
    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House, Vault
    from bermwright.takeoff import Quantities
    from bermwright.takeoff.bodies import Compared

ENDINGS = (".glb", ".ifc", ".stl", ".geojson", ".csv", ".xlsx")
SMALL = 20.0
"""Scale of the printed model: 1 to this."""
BESIDE_EACH_OTHER = (
    "The file does not say how its vaults and domes lie to each other: they stand side by side."
)
SCALES = (5.0, 500.0)
"""Models larger or smaller than this are none."""


class ModelError(BermwrightError, ValueError):
    """A model that cannot be made as it was asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelOrder:
    """Which file is wanted, and how."""

    out: str | None = None
    date: str | None = None
    system: str = "metric"
    scale: float = SMALL
    """Of the printed model."""
    metres: bool = False
    """GeoJSON in metres round the house instead of degrees."""


@dataclass(frozen=True, slots=True)
class _Vault:
    """A vault with its form and bodies."""

    vault: Vault
    form: VaultForm
    solids: VaultSolids


@dataclass(frozen=True, slots=True)
class _Dome:
    """A dome with its form and bodies."""

    form: DomeForm
    solids: VaultSolids


@dataclass(frozen=True, slots=True)
class _Work:
    """What every kind of file is made from."""

    house: House
    vaults: tuple[_Vault, ...]
    domes: tuple[_Dome, ...]
    order: ModelOrder
    date: str

    @property
    def solids(self) -> tuple[VaultSolids, ...]:
        """The bodies of all vaults and domes."""
        return (*(one.solids for one in self.vaults), *(one.solids for one in self.domes))

    def counted(self) -> list[Quantities]:
        """The take-off of every vault and dome."""
        vaults = [vault_quantities(self.house, one.vault, one.form) for one in self.vaults]
        return [*vaults, *(dome_quantities(one.form) for one in self.domes)]

    def compared(self) -> list[tuple[str, Compared]]:
        """Take-off and bodies side by side, each row with its vault or dome."""
        vaults = [
            (one.vault.name, row)
            for one in self.vaults
            for row in compared(self.house, one.vault, one.form, one.solids)
        ]
        return [
            *vaults,
            *((one.form.name, row) for one in self.domes for row in dome_compared(one.form, one.solids)),
        ]


@dataclass(frozen=True, slots=True, kw_only=True)
class Modelled:
    """A file that is ready but not written yet, and what is to be said of it."""

    path: Path
    content: bytes
    says: tuple[str, ...]
    work: _Work

    @property
    def data(self) -> dict[str, Any]:
        """Everything for JSON; the take-off is held against the bodies for it."""
        return model_data(self.work.house.name, self.work.solids, self.work.compared(), self.says)

    def write(self) -> Path:
        """Put it on disk, whole or not at all."""
        return write_bytes(self.path, self.content)


def model_glb(house: House) -> bytes:
    """The house as binary glTF. Raises `FormUnknownError` where the file says too little for a form."""
    domes = (dome_solids(house, dome_form(dome)) for dome in house.domes)
    return glb(house.name, (*house_solids(house), *domes))


def model_file(house_file: str, order: ModelOrder, progress: Callable[[str], None] = quiet) -> Modelled:
    """The wanted model. Raises `FormUnknownError` where the file leaves the form open."""
    path = output(order.out, beside(house_file, "model", ".glb"), ENDINGS)
    if not SCALES[0] <= order.scale <= SCALES[1]:
        raise ModelError(f"The scale 1:{order.scale:g} must lie between 1:{SCALES[0]:g} and 1:{SCALES[1]:g}.")
    date = day(order.date)
    house = open_house(house_file).house
    if not (house.vaults or house.domes):
        raise ModelError(f"{house_file} describes no vault and no dome: there is nothing to make a model of.")
    progress("form")
    vaults = tuple(_vault(house, vault, progress) for vault in house.vaults)
    domes = tuple(_dome(house, dome_form(dome), progress) for dome in house.domes)
    work = _Work(house, vaults, domes, order, date)
    progress(path.suffix[1:].upper())
    content, says = WRITERS[path.suffix.lower()](work)
    remarks = tuple(dict.fromkeys(remark for solids in work.solids for remark in solids.remarks))
    if len(work.solids) > 1 and not are_placed(work.solids) and path.suffix.lower() != ".csv":
        remarks = (BESIDE_EACH_OTHER, *remarks)
    return Modelled(path=path, content=content, says=(*says, *remarks), work=work)


def _vault(house: House, vault: Vault, progress: Callable[[str], None]) -> _Vault:
    form = vault_form(house, vault)
    progress(f"bodies of {vault.name}")
    return _Vault(vault, form, vault_solids(house, vault, form))


def _dome(house: House, form: DomeForm, progress: Callable[[str], None]) -> _Dome:
    progress(f"bodies of {form.name}")
    return _Dome(form, dome_solids(house, form))


def _glb(work: _Work) -> tuple[bytes, tuple[str, ...]]:
    return glb(work.house.name, work.solids), (_count(work),)


def _ifc(work: _Work) -> tuple[bytes, tuple[str, ...]]:
    says = tuple(compared_lines(work.compared(), work.order.system))
    return ifc(work.house, work.solids, date=work.date), (_count(work), *says)


def _stl(work: _Work) -> tuple[bytes, tuple[str, ...]]:
    parts = [part for one in work.vaults for part in print_parts(one.solids, one.form)]
    parts += [print_dome(one.form.name, shell_of(one.form), one.form.dome.thickness) for one in work.domes]
    scale = work.order.scale
    thin = min(parts, key=lambda part: part.thinnest)
    wide = max(parts, key=lambda part: float(part.size[:2].max()))
    size = " × ".join(_millimetres(float(one) / scale, work.order.system) for one in wide.size)
    where = thin.name if thin.what == thin.name else f"{thin.name}, {thin.what}"
    says = (
        f"Parts at 1:{scale:g}: {len(parts)}, each closed and lying on the bed, in millimetres.",
        f"Thinnest wall {_millimetres(thin.thinnest / scale, work.order.system)}: {where}.",
        f"Largest part {size}: {wide.name}.",
    )
    return stl(parts, scale=scale), says


def _millimetres(length: float, system: str) -> str:
    """A length of the model: its tenths count, which feet and inches of a house do not show."""
    return f"{1000.0 * length:.1f} mm" if system == "metric" else f"{length / 0.0254:.2f} in"


def _geojson(work: _Work) -> tuple[bytes, tuple[str, ...]]:
    vaults, says = [], []
    for one in work.vaults:
        try:
            pegs = setting_out(work.house, one.vault, one.form).plan.pegs
        except (SetOutError, FormUnknownError) as error:
            pegs = ()
            says.append(f"The pegs of {one.vault.name} are left out: {error}")
        vaults.append(SiteVault(solids=one.solids, pegs=pegs))
    vaults += [SiteVault(solids=one.solids) for one in work.domes]
    placed = "in metres round the house" if work.order.metres else "in degrees of WGS 84"
    content = site_geojson(work.house, vaults, metres=work.order.metres)
    return content, (f"Outlines and pegs {placed}.", *says)


def _csv(work: _Work) -> tuple[bytes, tuple[str, ...]]:
    table = quantity_table(work.counted(), work.order.system)
    return table_csv(table), (f"{len(table.rows)} quantities.",)


def _xlsx(work: _Work) -> tuple[bytes, tuple[str, ...]]:
    rows = work.compared()
    tables = (
        quantity_table(work.counted(), work.order.system),
        body_table(work.solids),
        compared_table(rows),
    )
    content = tables_xlsx(tables, title=f"Quantities: {work.house.name}", date=work.date)
    return content, tuple(compared_lines(rows, work.order.system))


def _count(work: _Work) -> str:
    layers = sum(len(solids.layers) for solids in work.solids)
    pieces = sum(len(solid.places) for solids in work.solids for solid in solids.solids)
    return f"{pieces} closed bodies in {layers} layers."


WRITERS: Mapping[str, Callable[[_Work], tuple[bytes, tuple[str, ...]]]] = {
    ".glb": _glb,
    ".ifc": _ifc,
    ".stl": _stl,
    ".geojson": _geojson,
    ".csv": _csv,
    ".xlsx": _xlsx,
}
