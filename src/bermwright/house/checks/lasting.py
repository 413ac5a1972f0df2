"""What does not fit together of the wood and the pipes that have to last."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.house.checks.common import Check, Contradiction, Key, bound, clash, each, names_once
from bermwright.house.parts.lasting import PipeKind, Timbers

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.model import House
    from bermwright.house.parts.lasting import Pipe, WoodPart

IN_ENDS = frozenset({Timbers.END_PLANKS, Timbers.END_POSTS})
ONLY_DRAINS = ("fall", "filter", "outlet", "rinsed")


def lasting_checks(house: House) -> Iterator[Check]:
    """The checks of [[wood_part]] and [[pipe]]."""
    parts = house.wood_parts
    told = each(("wood_part",), parts, "part", "vault", "at")
    yield Check(("wood_part",), (), bound(_told_twice, parts), told)
    named = each(("vault",), house.vaults, "name")
    for count, part in enumerate(parts):
        here: Key = ("wood_part", count)
        yield Check(here, ("part", "at"), bound(_at_no_end, here, part))
        yield Check(here, ("vault",), bound(_of_no_vault, here, part, house), named)
        yield Check(here, ("treated_for", "treated_years"), bound(_years_of_nothing, here, part))
        yield Check(here, ("looked_at", "renewed_every"), bound(_renewed_unseen, here, part))
    pipes = house.pipes
    yield names_once(("pipe",), pipes)
    for count, pipe in enumerate(pipes):
        inner: Key = ("pipe", count)
        yield Check(inner, ("kind", *ONLY_DRAINS), bound(_no_drain, inner, pipe))


def _told_twice(parts: tuple[WoodPart, ...]) -> Iterator[Contradiction]:
    seen: dict[tuple[object, ...], int] = {}
    for count, part in enumerate(parts):
        what = (part.part, part.vault, part.at)
        first = seen.setdefault(what, count)
        if first < count:
            yield clash(
                ("wood_part", count), "part", f'"{part.part}"' if part.part else "nothing",
                f"is told of already in number {first + 1}.",
                "Write one table for the same timbers, or say of which vault or end they are.",
            )  # fmt: skip


def _at_no_end(here: Key, part: WoodPart) -> Iterator[Contradiction]:
    if part.at is not None and part.part not in IN_ENDS:
        yield clash(
            here, "at", f'"{part.at}"', 'is an end, which only "end planks" and "end posts" have.',
            "Take it out, or say of which timbers it is.",
        )  # fmt: skip


def _of_no_vault(here: Key, part: WoodPart, house: House) -> Iterator[Contradiction]:
    names = [vault.name for vault in house.vaults]
    if part.vault is not None and part.vault not in names:
        yield clash(
            here, "vault", f'"{part.vault}"',
            f"is not the name of a vault; there is: {', '.join(names) or 'none'}.",
            "Write one of these names.",
        )  # fmt: skip


def _years_of_nothing(here: Key, part: WoodPart) -> Iterator[Contradiction]:
    if part.treated_years is not None and part.treated_for is None:
        yield clash(
            here, "treated_years", "an age", "is given, but nothing says for which use class it is treated.",
            "Write treated_for as on the certificate, or take the years out.",
        )  # fmt: skip


def _renewed_unseen(here: Key, part: WoodPart) -> Iterator[Contradiction]:
    if part.renewed_every is not None and not part.looked_at:
        yield clash(
            here, "renewed_every", "a plan to renew it",
            "is given, but nothing says where one gets at it: looked_at.",
            "Say where it can be reached, or take the plan out.",
        )  # fmt: skip


def _no_drain(here: Key, pipe: Pipe) -> Iterator[Contradiction]:
    for name in ONLY_DRAINS:
        if (
            pipe.kind not in {PipeKind.DRAIN, PipeKind.WASTE, PipeKind.AIR}
            and getattr(pipe, name) is not None
        ):
            yield clash(
                here, name, "a value", f'is said of drains only, and this pipe is "{pipe.kind}".',
                "Take it out, or say that it is a drain.",
            )  # fmt: skip
