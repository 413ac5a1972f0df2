"""Handles of the section: what may be dragged, where it stands, and what a place of the hand means."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.app.live.steps import Snap, snap_of, snapped, written
from bermwright.base.units import show
from bermwright.house import Vault
from bermwright.house.fields import Quantity, said_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from bermwright.form.shapes import CurveLine, VaultForm
    from bermwright.house import House, Stages
    from bermwright.house.checks import Key
    from bermwright.house.fields import Said

HAIR = 1e-6
"""What counts as nothing (m)."""
BAGS_WEIGH = 20e3
"""Ballast is drawn as high as loose soil of this weight would lie (N/m3): a scale, no check rests on it."""
ALONG_SHELL = (0.6, 0.66, 0.72, 0.78, 0.84, 0.9)
"""Where on the shell the handles of the layers stand, from the inside out (share of its length)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """One handle: a value of the file, its place in the section, and what moving it means."""

    name: str
    key: Key
    label: str
    x: float
    z: float
    along: tuple[float, float]
    """Direction in which the value grows (unit vector)."""
    per: float
    """Change of the value for a metre along it; 0 for the foot of a slope."""
    now: float | None
    """The value (SI)."""
    said: Said
    top: float = 0.0
    """Level and place from which a slope falls (m)."""
    edge: float = 0.0
    up: str = ""
    """Name of the handle that stands at the same place and moves up."""

    @property
    def kind(self) -> Quantity:
        """Its dimension and limits."""
        assert isinstance(self.said.kind, Quantity)  # noqa: S101  (made of quantities alone, see `_grip`)
        return self.said.kind

    @property
    def free(self) -> str:
        """In which directions it moves, in a word."""
        across, up = abs(self.along[0]), abs(self.along[1])
        return "across" if up < HAIR else "up" if across < HAIR else "along"

    def snap(self, system: str) -> Snap:
        """Its steps."""
        return snap_of(self.kind.dimension, system)

    def value_at(self, x: float, z: float, *, natural: float = 0.0) -> float:
        """The value when the hand is at a place of the section (not yet snapped)."""
        if self.per == 0.0:
            run = max(abs(x) - self.edge, 0.05)
            return math.atan2(max(self.top - natural, 0.02), run)
        moved = (x - self.x) * self.along[0] + (z - self.z) * self.along[1]
        return (self.now or 0.0) + self.per * moved


def grips_of(house: House, number: int, form: VaultForm) -> tuple[Grip, ...]:
    """Every handle of one vault."""
    vault = house.vaults[number]
    return (
        *_curve(vault, number, form),
        *_mound(vault, number, form),
        *_layers(vault, number, form),
        *_ballast(house.stages, form),
    )


def _grip(  # noqa: PLR0913  (a handle has many sides, all by name)
    name: str,
    key: Key,
    label: str,
    *,
    at: tuple[float, float],
    along: tuple[float, float],
    per: float,
    now: float | None,
    said: Said,
    top: float = 0.0,
    edge: float = 0.0,
    up: str = "",
) -> Grip:
    return Grip(
        name=name,
        key=key,
        label=label,
        x=at[0],
        z=at[1],
        along=along,
        per=per,
        now=now,
        said=said,
        top=top,
        edge=edge,
        up=up,
    )


def _curve(vault: Vault, number: int, form: VaultForm) -> Iterator[Grip]:
    """Crown, feet and springing."""
    said, here = said_of(Vault), ("vault", number)
    line = form.rib.centreline
    top = int(np.argmax(line.z))
    crown = (float(line.x[top]), float(line.z[top]))
    if vault.rise is not None:
        yield _grip(
            "crown",
            (*here, "rise"),
            "rise",
            at=crown,
            along=(0.0, 1.0),
            per=1.0,
            now=vault.rise,
            said=said["rise"],
        )
    for name, end, sign in (("left foot", 0, -1.0), ("right foot", -1, 1.0)):
        foot = (float(line.x[end]), float(line.z[end]))
        yield _grip(
            name,
            (*here, "span"),
            "span",
            at=foot,
            along=(sign, 0.0),
            per=2.0,
            now=vault.span,
            said=said["span"],
            up=f"springing {name.split()[0]}",
        )
        yield _grip(
            f"springing {name.split()[0]}",
            (*here, "springing"),
            "springing",
            at=foot,
            along=(0.0, 1.0),
            per=1.0,
            now=vault.springing,
            said=said["springing"],
        )


def _mound(vault: Vault, number: int, form: VaultForm) -> Iterator[Grip]:
    """Crown cover, the edge of the level top, and the toe of each slope."""
    mound = vault.mound
    if mound is None or mound.line:
        return
    said, here = said_of(type(mound)), ("vault", number, "mound")
    finished, natural = form.ground.finished, form.ground.natural
    top = float(finished.level(0.0))
    if mound.crown is not None:
        yield _grip(
            "crown cover",
            (*here, "crown"),
            "soil over the crown",
            at=(0.0, top),
            along=(0.0, 1.0),
            per=1.0,
            now=mound.crown,
            said=said["crown"],
        )
    edge = (mound.flat, float(finished.level(mound.flat)))
    yield _grip(
        "level top",
        (*here, "flat"),
        "half the level top",
        at=edge,
        along=(1.0, 0.0),
        per=1.0,
        now=mound.flat,
        said=said["flat"],
    )
    for name, sign, slope in (("left", -1.0, mound.left), ("right", 1.0, mound.right)):
        toe = _toe(form, sign)
        if slope is None or toe is None:
            continue
        yield _grip(
            f"{name} slope",
            (*here, name),
            f"{name} slope",
            at=(toe, float(natural.level(toe))),
            along=(sign, 0.0),
            per=0.0,
            now=slope,
            said=said[name],
            top=top,
            edge=mound.flat,
        )


def _toe(form: VaultForm, sign: float) -> float | None:
    """Where the slope meets the natural ground on one side (m); None where it does not."""
    finished, natural = form.ground.finished, form.ground.natural
    places = np.unique(np.concatenate([finished.x, natural.x]))
    side = places[sign * places > 0.0]
    if not side.size:
        return None
    apart = np.abs(finished.level(side) - natural.level(side)) > HAIR
    if not apart.any() or apart.all():
        return None
    outer = side[apart]
    far = float(outer[np.argmax(sign * outer)])
    beyond = side[sign * side > sign * far]
    return float(beyond[np.argmin(sign * beyond)]) if beyond.size else None


def _layers(vault: Vault, number: int, form: VaultForm) -> Iterator[Grip]:
    """The outside of every layer, square to the shell."""
    for place, (layer, band) in enumerate(zip(vault.cover, form.bands, strict=True)):
        share = ALONG_SHELL[place % len(ALONG_SHELL)]
        at, out = _outward(band.outer, share)
        yield _grip(
            f"layer {place + 1}",
            ("vault", number, "cover", place, "thickness"),
            f"thickness of the {layer.title}",
            at=at,
            along=out,
            per=1.0,
            now=layer.thickness,
            said=said_of(type(layer))["thickness"],
        )


def _ballast(stages: Stages, form: VaultForm) -> Iterator[Grip]:
    """Weight and width of what lies on the crown while the sides are filled, left of the middle."""
    bags = stages.ballast
    if bags is None:
        return
    said, here = said_of(type(bags)), ("stages", "ballast")
    high = drawn_height(bags.weight)
    for name, label, x, along, per, now in (
        ("ballast", "ballast", -0.25 * bags.width, (0.0, 1.0), BAGS_WEIGH, bags.weight),
        ("ballast width", "width of the ballast", -0.5 * bags.width, (-1.0, 0.0), 2.0, bags.width),
    ):
        key = "weight" if name == "ballast" else "width"
        z = float(np.interp(x, *_upper(form))) + (high if key == "weight" else 0.5 * high)
        yield _grip(name, (*here, key), label, at=(x, z), along=along, per=per, now=now, said=said[key])


def drawn_height(weight: float) -> float:
    """How high a weight on the crown (Pa) is drawn (m)."""
    return weight / BAGS_WEIGH


def _upper(form: VaultForm) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The upper half of the soil's face, left to right."""
    face = form.soil_face
    upper = face.z > float(np.median(face.z))
    return face.x[upper], face.z[upper]


def _outward(line: CurveLine, share: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """A place on a curve and the direction square to it, outward."""
    x, z, angle = (float(value) for value in line.at(share * line.length))
    return (x, z), (-math.sin(angle), math.cos(angle))


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """What a hand's place means for the file."""

    key: Key
    value: str
    """As it goes into the file."""
    text: str
    """As it is read in the chosen units."""


def moved(grip: Grip, form: VaultForm, at: tuple[float, float], *, system: str, fine: bool = False) -> Moved:
    """The value of a handle at a place of the section, snapped and within its limits."""
    natural = float(form.ground.natural.level(at[0]))
    raw = grip.value_at(*at, natural=natural)
    low, high = grip.kind.bounds
    value = snapped(raw, grip.snap(system), fine=fine, low=low, high=high)
    return Moved(
        key=grip.key,
        value=written(value, grip.kind.dimension, system),
        text=read_out(value, grip.kind, system),
    )


def read_out(value: float | None, kind: Quantity, system: str) -> str:
    """A value as people read it."""
    if value is None:
        return "not given"
    match kind.dimension:
        case "slope":
            return show(value, "slope", 2, system)
        case "thickness":
            return show(value, "mm", 0, system)
        case "pressure":
            return show(value, "kPa", 2, system)
        case "level":
            return show(value, "level", 2, system)
        case _:
            return show(value, "m", 2, system)


def text_in(document: Mapping[str, Any], key: Key) -> str | None:
    """A value as it stands in the file; None where it does not."""
    here: Any = document
    for part in key:
        try:
            here = here[part]
        except (KeyError, IndexError, TypeError):
            return None
    return str(here)
