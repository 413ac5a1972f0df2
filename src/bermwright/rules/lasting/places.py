"""Where each timber of the house lies: on which side of the sheet, in soil or in the room."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.house import CoverKind, EndKind, EndSide, Timbers
from bermwright.house.parts.support_words import SocketKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import End, House, Vault, WoodPart

DRY, COVERED, WEATHER, GROUND = 1, 2, 3, 4
"""Use classes of EN 335."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberPlace:
    """Some timbers, and what they lie in."""

    timbers: Timbers
    part: str
    """As findings name it."""
    use_class: int | None
    """None where the file does not say what they lie in."""
    lies: str
    """In words."""
    service_class: int | None
    """With which their strength is reckoned."""
    design_life: float
    vault: str | None = None
    at: str | None = None
    named: str = ""
    """Its own name, for posts, beams and floors."""

    @property
    def title(self) -> str:
        """As a sentence begins with it."""
        words = self.named or (str(self.timbers) if self.at is None else f"{self.timbers}, {self.at}")
        return words[:1].upper() + words[1:]

    @property
    def stands(self) -> bool:
        """Whether it stands on something that it may drink from."""
        return self.timbers in {Timbers.PLATES, Timbers.SOCKETS}


def timber_places(house: House) -> tuple[TimberPlace, ...]:
    """All of them, vault by vault, then ends, then posts, beams and floors."""
    found = [place for vault in house.vaults for place in _of_vault(house, vault)]
    found += [place for end in house.ends for place in _of_end(house, end)]
    return (*found, *_of_frame(house))


def wood_of(house: House, place: TimberPlace) -> WoodPart | None:
    """The table that speaks of these timbers: the one that says most exactly which."""
    speaks = [
        one
        for one in house.wood_parts
        if one.part in {None, place.timbers}
        and one.vault in {None, place.vault}
        and one.at in {None, place.at}
    ]
    return max(
        speaks,
        key=lambda one: (one.part is not None, one.at is not None, one.vault is not None),
        default=None,
    )


def _of_vault(house: House, vault: Vault) -> Iterator[TimberPlace]:
    part = f'vault "{vault.name}"'
    kinds = [cover.kind for cover in vault.cover]
    sheet = kinds.index(CoverKind.MEMBRANE) if CoverKind.MEMBRANE in kinds else None
    inside = DRY if vault.service_class == DRY else COVERED
    ribs = None if not kinds else inside if sheet is not None else GROUND
    dry = "inside the sheet" if sheet is not None else "in soil, no sheet over it"
    log = any(one.vault == vault.name and one.kind is SocketKind.LOG for one in house.sockets)

    def place(timbers: Timbers, use_class: int | None, lies: str) -> TimberPlace:
        return TimberPlace(
            timbers=timbers, part=part, use_class=use_class, lies=lies,
            service_class=vault.service_class, design_life=vault.design_life, vault=vault.name,
        )  # fmt: skip

    yield place(Timbers.RIBS, ribs, dry)
    if CoverKind.LAGGING in kinds:
        under = sheet is not None and kinds.index(CoverKind.LAGGING) < sheet
        lies = "under the sheet" if under else "in soil, no sheet over it"
        yield place(Timbers.PLANKS, COVERED if under else GROUND, lies)
    foot = Timbers.SOCKETS if log else Timbers.PLATES
    if ribs is None:
        yield place(foot, None, "")
    elif sheet is None:
        yield place(foot, GROUND, "in soil, no sheet over it")
    else:
        yield place(foot, WEATHER if log else COVERED, "in a log" if log else "on the wall, inside the sheet")


def _of_end(house: House, end: End) -> Iterator[TimberPlace]:
    vault = next((one for one in house.vaults if one.name == end.vault), None)
    if vault is None or end.kind not in {EndKind.PLANKS, EndKind.LOGS}:
        return
    use_class, lies = _end_face(house, end)

    def place(timbers: Timbers, use: int | None, words: str) -> TimberPlace:
        return TimberPlace(
            timbers=timbers, part=f'end "{end.vault}", {end.at}', use_class=use, lies=words,
            service_class=end.service_class, design_life=vault.design_life, vault=end.vault, at=str(end.at),
        )  # fmt: skip

    yield place(Timbers.END_PLANKS, use_class, lies)
    if end.post_spacing is not None:
        buried = (end.post_depth or 0.0) > 0.0
        words = "in the ground" if buried else lies
        yield place(Timbers.END_POSTS, GROUND if buried else use_class, words)


def _end_face(house: House, end: End) -> tuple[int | None, str]:
    """What lies against the outside of an end."""
    if end.soil_to is None:
        return None, ""
    if end.soil_to > 0.0:
        return GROUND, "against soil"
    heat = house.heat
    insulated = None
    if heat is not None:
        insulated = heat.front_insulation if end.at is EndSide.FRONT else heat.back_insulation
    return (COVERED, "behind insulation") if insulated else (WEATHER, "in the weather")


def _of_frame(house: House) -> Iterator[TimberPlace]:
    """Posts, beams and floors stand in the room: how damp it is the file says of each."""
    life = max((vault.design_life for vault in house.vaults), default=0.0)
    groups = (
        (Timbers.POSTS, "post", house.posts),
        (Timbers.BEAMS, "beam", house.beams),
        (Timbers.FLOORS, "floor", house.floors),
    )
    for timbers, word, members in groups:
        for one in members:
            yield TimberPlace(
                timbers=timbers, part=f'{word} "{one.name}"', use_class=one.service_class,
                lies="in the room", service_class=one.service_class, design_life=life,
                vault=getattr(one, "vault", None), named=one.name,
            )  # fmt: skip
