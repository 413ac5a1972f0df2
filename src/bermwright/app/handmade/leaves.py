"""The leaves of the page: which there are, and what each shows and makes."""

from __future__ import annotations

import io
import zipfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bermwright.app.handmade import boards, compass, forms, model, setout, templates
from bermwright.app.handmade.nouns import AskedWrongError, one_of
from bermwright.app.outside.files import write_bytes
from bermwright.formats.documents.page_data import page_data

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.app.handmade.nouns import Made, Options, Progress, Shown

DAY_OF_ZIP = (1980, 1, 1, 0, 0, 0)
"""The first day that an archive knows: the same files give the same bytes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """One leaf of the page."""

    name: str
    title: str
    lead: str
    endings: tuple[str, ...]
    """Kinds of files that it makes."""
    show: Callable[[str, Path, Options, Progress], Shown]
    make: Callable[[str, Path, str, Options, Progress], Made]


LEAVES = (
    Leaf(
        name="setout",
        title="Setting out",
        lead="From the drawing to the ground: pegs, boards, strings, heights, a sheet for each day.",
        endings=("pdf", "svg", "dxf"),
        show=setout.show,
        make=setout.make,
    ),
    Leaf(
        name="templates",
        title="Templates",
        lead="Pieces of the ribs at full size, on paper that your printer takes.",
        endings=("pdf", "svg", "dxf"),
        show=templates.show,
        make=templates.make,
    ),
    Leaf(
        name="boards",
        title="Boards and cuts",
        lead="Pieces laid into what lies in the yard: blade, ends and faults counted, offcuts kept.",
        endings=("pdf", "csv", "xlsx", "svg", "dxf"),
        show=boards.show,
        make=boards.make,
    ),
    Leaf(
        name="compass",
        title="Dome compass",
        lead="What to set for every course, and what the ring that was laid asks of the next.",
        endings=("pdf", "svg", "dxf"),
        show=compass.show,
        make=compass.make,
    ),
    Leaf(
        name="forms",
        title="Boxes and forms",
        lead="What is cut, bent and lapped after a pattern: boxes, arch forms, membranes, meeting lines.",
        endings=("pdf", "svg", "dxf"),
        show=forms.show,
        make=forms.make,
    ),
    Leaf(
        name="model",
        title="Models and lists",
        lead="The house for other programs: bodies, a building model, a site map, quantities.",
        endings=("glb", "ifc", "stl", "geojson", "csv", "xlsx"),
        show=model.show,
        make=model.make,
    ),
)
"""In the order in which they are needed on the site."""


def leaf_named(name: str) -> Leaf:
    """The leaf of that name. Raises `AskedWrongError` where there is none."""
    found = next((leaf for leaf in LEAVES if leaf.name == name), None)
    if found is None:
        raise AskedWrongError(f"There is no such leaf; there are {', '.join(leaf.name for leaf in LEAVES)}.")
    return found


def shown_of(
    name: str, house_file: str, folder: Path, options: Options, progress: Progress
) -> dict[str, Any]:
    """A leaf as plain data for the page."""
    shown = leaf_named(name).show(house_file, folder, options, progress)
    progress("drawing")
    return {
        **page_data(shown.document),
        "verdict": shown.verdict,
        "says": shown.says,
        "facts": dict(shown.facts),
    }


def made_of(name: str, house_file: str, folder: Path, options: Options, progress: Progress) -> dict[str, Any]:
    """Files of a leaf, written into the folder; their names, the one that holds all of them first."""
    leaf = leaf_named(name)
    ending = one_of(options, "ending", leaf.endings)
    out = str(folder / f"{Path(house_file).stem}-{name}.{ending}")
    made = leaf.make(house_file, folder, out, options, progress)
    progress("writing")
    names = [write_bytes(path, content).name for path, content in made.files]
    if len(names) > 1:
        together = folder / f"{Path(house_file).stem}-{name}-{ending}.zip"
        names.insert(0, write_bytes(together, _zipped(made)).name)
    return {"files": names, "says": list(made.says)}


def _zipped(made: Made) -> bytes:
    """Several files as one to take away."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        for path, content in made.files:
            archive.writestr(zipfile.ZipInfo(path.name, DAY_OF_ZIP), content, zipfile.ZIP_DEFLATED)
    return held.getvalue()
