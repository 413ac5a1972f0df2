"""Setting out: a sheet for each day, pegs, heights, dig; readings and ordinates that are typed in."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.app.handmade.nouns import Made, Shown, system_of, typed, words_of
from bermwright.app.making.settingout import SetOutWishes, set_out_file
from bermwright.app.opening import open_house
from bermwright.app.outside.points import points_beside
from bermwright.base.document import Heading
from bermwright.book.pages.setting_out.daily.rounds import round_pages
from bermwright.book.pages.setting_out.gathered import set_out_pages
from bermwright.form import vault_form

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.app.handmade.nouns import Options, Progress
    from bermwright.base.document import Block
    from bermwright.house import House, Vault

READINGS, ORDINATES = "readings of the water level", "measured ordinates"
"""What tables that were typed are called where they cannot be read."""


def wishes_of(folder: Path, out: str | None, options: Options) -> SetOutWishes:
    """What the fields ask for."""
    return SetOutWishes(
        out=out,
        system=system_of(options),
        vault=words_of(options, "vault"),
        levels=typed(folder, READINGS, words_of(options, "levels")),
        datum=words_of(options, "datum"),
        ordinates=typed(folder, ORDINATES, words_of(options, "ordinates")),
    )


def show(house_file: str, folder: Path, options: Options, progress: Progress) -> Shown:
    """What was typed in and what it says first; then the days, tables, curve and tools of every vault."""
    wishes = wishes_of(folder, None, options)
    made = set_out_file(house_file, wishes, progress)
    house = open_house(house_file).house
    vaults = [vault for vault in house.vaults if wishes.vault in {None, vault.name}]
    rounds = [block for one in made.rounds for block in round_pages(one, wishes.system)]
    typed_in = _typed(made.document.blocks, wishes)
    blocks = (*typed_in, *_pages(house, vaults, house_file, wishes, progress), *rounds)
    surveyed = house.survey.points if house.survey is not None else ""
    return Shown(
        document=replace(made.document, blocks=blocks),
        facts={"survey": surveyed},
        says=f"{house.name}: one sheet for each day of work. Take it out, tick it, sign it.",
    )


def _typed(blocks: tuple[Block, ...], wishes: SetOutWishes) -> tuple[Block, ...]:
    """What the readings and ordinates say: the last headings of the document."""
    wanted = (wishes.levels is not None) + (wishes.ordinates is not None)
    heads = [at for at, block in enumerate(blocks) if isinstance(block, Heading)]
    return blocks[heads[-wanted] :] if wanted else ()


def _pages(
    house: House, vaults: list[Vault], house_file: str, wishes: SetOutWishes, progress: Progress
) -> Iterator[Block]:
    points, _ = points_beside(house, Path(house_file).parent)
    for vault in vaults:
        progress(f"sheets of {vault.name}")
        pages = set_out_pages(house, vault, vault_form(house, vault), points=points, system=wishes.system)
        yield from (*pages.ground, *pages.curve, *pages.tools)


def make(house_file: str, folder: Path, out: str, options: Options, progress: Progress) -> Made:
    """The sheets, one a day and one a tool."""
    made = set_out_file(house_file, wishes_of(folder, out, options), progress)
    return Made(files=made.files, says=(f"{made.counted}, each marked as not reviewed.",))
