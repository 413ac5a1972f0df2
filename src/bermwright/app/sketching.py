"""From a sketch to a curve: read it, fit it, and weigh it on a house's ground."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.adapt.sketch import advise_on_sketch
from bermwright.app.assessing import quiet, threads
from bermwright.app.opening import open_house, revision_of
from bermwright.app.outside.clock import day
from bermwright.app.outside.files import FileError, output, write_bytes
from bermwright.app.outside.kernels import while_preparing
from bermwright.base.units import show
from bermwright.book.pages.sketch import sketch_document
from bermwright.form.sketch import SketchError, arch_of
from bermwright.formats.documents import pdf
from bermwright.formats.sketches import known_length, read_sketch, to_size
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.adapt.sketch import SketchAdvice
    from bermwright.base.document import Document
    from bermwright.form.sketch import Levelled
    from bermwright.formats.house_file import Opened
    from bermwright.house import House, Vault


@dataclass(frozen=True, slots=True, kw_only=True)
class SketchWishes:
    """How a sketch is to be read."""

    known: tuple[str, ...] = ()
    """Lengths that are known on it, such as `span 4.8 m`."""
    line: str | None = None
    """Which line of a drawing is meant."""
    mirror: bool = False
    level: bool = False
    vault: str | None = None
    """Which vault of the house it is for."""
    out: str | None = None
    date: str | None = None
    system: str = "metric"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sketched:
    """What was said of a sketch, as data and as a document."""

    advice: SketchAdvice
    document: Document
    path: Path | None

    def write(self) -> Path | None:
        """Put the pages on disk, where that was asked for."""
        return (
            None if self.path is None else write_bytes(self.path, pdf(self.document, date=self.document.date))
        )


def sketch_file(
    sketch: str, house_file: str | None, wishes: SketchWishes, progress: Callable[[str], None] = quiet
) -> Sketched:
    """Fit a sketch; with a house file, weigh it on the ground of one of its vaults."""
    path = output(wishes.out, Path(f"{Path(sketch).stem}-sketch.pdf"), (".pdf",)) if wishes.out else None
    date = day(wishes.date)
    opened = open_house(house_file) if house_file else None
    arch, opened, drawn = _arch(sketch, opened, wishes)
    house = opened.house if opened else None
    vault = drawn or (_vault(house, wishes.vault) if house else None)
    with threads() as pool:
        advice = advise_on_sketch(arch, house, vault, progress=while_preparing(progress), share=pool.map)
    document = sketch_document(
        advice,
        title=Path(sketch).name,
        house=house.name if house else "no house",
        revision=revision_of(opened) if opened else "",
        date=date,
        system=wishes.system,
        measures=measures_of(advice),
    )
    return Sketched(advice=advice, document=document, path=path)


def _arch(
    sketch: str, opened: Opened | None, wishes: SketchWishes
) -> tuple[Levelled, Opened | None, Vault | None]:
    """The points, from a sketch or from the drawn vault of a house file."""
    if Path(sketch).suffix.lower() == ".toml":
        own = open_house(sketch)
        vault = _drawn_vault(own.house, wishes.vault)
        x, z = zip(*vault.points, strict=True)
        return (
            arch_of(x, z, mirror=wishes.mirror, level=wishes.level),
            opened or own,
            None if opened else vault,
        )
    drawn = read_sketch(sketch, _content(sketch), line=wishes.line)
    known = [known_length(text) for text in wishes.known]
    return to_size(drawn, known, mirror=wishes.mirror, level=wishes.level), opened, None


def _content(sketch: str) -> bytes:
    try:
        return Path(sketch).read_bytes()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise FileError(f"{sketch} cannot be read: {reason}.") from None


def _drawn_vault(house: House, name: str | None) -> Vault:
    """The vault whose points are the sketch."""
    drawn = [vault for vault in house.vaults if vault.curve is CurveKind.DRAWN and name in (None, vault.name)]
    if len(drawn) != 1:
        raise SketchError(
            f'{house.name} has {"more than one" if drawn else "no"} vault with the curve "drawn"'
            f"{': name one' if drawn else ''}. Points stand in its `points`, or in a CSV, DXF or SVG file."
        )
    return drawn[0]


def _vault(house: House, name: str | None) -> Vault:
    """The vault that the sketch is for: the named one, or the only one."""
    names = ", ".join(f'"{vault.name}"' for vault in house.vaults)
    found = [vault for vault in house.vaults if name in (None, vault.name)]
    if len(found) == 1:
        return found[0]
    if not found:
        raise SketchError(f'{house.name} has no vault "{name}". It has: {names or "none"}.')
    raise SketchError(f"{house.name} has several vaults: name one of {names}.")


def measures_of(advice: SketchAdvice) -> tuple[tuple[str, str], ...]:
    """The lines that a house file needs for the fitted curve."""
    best = advice.fits.best
    sized = {"span": best.span}
    if best.family != CurveKind.SEMICIRCLE:
        sized["rise"] = best.rise
    sized |= dict(best.details)
    lines = [("curve", f'"{best.family}"')]
    return (*lines, *((key, f'"{show(value, "m", 3)}"') for key, value in sized.items()))
