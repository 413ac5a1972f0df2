"""The cut lists of a house: pieces wanted, laid into the boards of the yard.

In one dimension lengths are laid out, each blank in a board at least as wide as itself, with a certified
bound. In two dimensions more is tried: equal outlines beside each other in one wide blank, two unlike ones
of what is left, and narrow planks ripped from one wide board. The best plan is given; the bound is that of
its blanks.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.errors import BermwrightError
from bermwright.base.units import Money, show
from bermwright.handbook.boards import Stretch, Wanted, best_cutting
from bermwright.house import CoverKind
from bermwright.takeoff.cutting.nesting import nestings
from bermwright.takeoff.cutting.nouns import Blank, CutList, HousePlan, Missing, Part
from bermwright.takeoff.cutting.sawn import numbered, sawn_boards
from bermwright.takeoff.cutting.wanted import member_kinds, plank_kinds, rib_kinds
from bermwright.takeoff.cutting.yard import (
    LEAST_WIDTH,
    SAME,
    YardBoard,
    boards_of,
    log_yields,
    saw_words,
    stretches_of,
)
from bermwright.takeoff.members import trimmer_ribs, wooden_members

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.boards import CuttingPlan
    from bermwright.house import House, Vault
    from bermwright.takeoff.cutting.nouns import LogYield, PieceKind, SawnBoard, SawWords
    from bermwright.takeoff.cutting.yard import ClearStretch

    Progress = Callable[[str], None]
    Form = tuple[Vault, VaultForm]

HAIR = 1e-9
"""m; rounding of sums of lengths."""


class NothingFitsError(BermwrightError):
    """No board takes any piece."""


@dataclass(frozen=True, slots=True)
class Told:
    """How things are said: each step of the search, and the units of sentences."""

    progress: Progress
    system: str


def quiet(_step: str) -> None:
    """Nobody looks."""


def house_plan(
    house: House, forms: Sequence[Form], progress: Progress = quiet, system: str = "metric"
) -> HousePlan:
    """The cut lists of all vaults of a house, thickness by thickness.

    Raises `NothingFitsError` where no board takes any piece.
    """
    saw, logs = saw_words(house, system), log_yields(house)
    yard = list(boards_of(house, system))
    kinds = list(_wanted(house, forms, yard, (saw, system)))
    boards = yard or list(_any_number(house, forms, saw))
    lists = tuple(
        numbered(
            _cut_list(
                [kind for kind in kinds if abs(kind.thickness - thickness) < SAME],
                boards,
                saw,
                Told(progress, system),
            )
            for thickness in _thicknesses(kinds)
        )
    )
    if kinds and not any(one.boards for one in lists):
        raise NothingFitsError(_nothing(kinds, boards, saw, system))
    return HousePlan(
        house=house.name,
        saw=saw,
        lists=lists,
        logs=logs,
        remarks=(*_barren(logs, system), *_remarks(forms, boards, kinds, system), *_open(house, forms)),
        invented=not yard,
    )


def _thicknesses(kinds: list[PieceKind]) -> list[float]:
    found: list[float] = []
    for kind in kinds:
        if all(abs(kind.thickness - one) >= SAME for one in found):
            found.append(kind.thickness)
    return found


def _wanted(
    house: House, forms: Sequence[Form], yard: list[YardBoard], how: tuple[SawWords, str]
) -> Iterator[PieceKind]:
    saw, system = how
    for vault, form in forms:
        yield from rib_kinds(form, saw.kerf, trimmer_ribs(house, form))
        boards = yard or list(_any_number(house, ((vault, form),), saw))
        longest = {
            round(layer.thickness, 4): _longest(boards, layer.thickness, layer.width or 0.0, saw)
            for layer in vault.cover
            if layer.kind is CoverKind.LAGGING
        }
        yield from plank_kinds(form, vault, longest, saw.kerf, system)
        yield from member_kinds(house, form, saw.kerf)


def _longest(boards: list[YardBoard], thickness: float, width: float, saw: SawWords) -> float:
    """The longest clear stretch of the narrowest boards that are wide enough: planks are made for them."""
    fits = [
        stretch
        for stretch in stretches_of(boards, saw)
        if abs(stretch.board.thickness - thickness) < SAME and stretch.board.width >= width - HAIR
    ]
    narrowest = min((stretch.board.width for stretch in fits), default=0.0)
    return max((one.length for one in fits if one.board.width < narrowest + SAME), default=0.0)


def _any_number(house: House, forms: Sequence[Form], saw: SawWords) -> Iterator[YardBoard]:
    """Boards of the wanted length in any number, where the file lists none; other timber as it is needed."""
    for vault, form in forms:
        longest = max((piece.blank_length for piece in form.rib.pieces), default=0.0)
        yield YardBoard(
            name=f"board for {vault.name}",
            length=max(vault.board_length or 0.0, longest) + 2.0 * saw.trim,
            width=max(vault.board.width, max((piece.blank_width for piece in form.rib.pieces), default=0.0)),
            thickness=form.rib.board,
            count=None,
            faults=(),
            price=None,
        )
        for kind in member_kinds(house, form, saw.kerf):
            yield YardBoard(
                name=f"timber for {kind.name}",
                length=kind.length + 2.0 * saw.trim,
                width=kind.width,
                thickness=kind.thickness,
                count=None,
                faults=(),
                price=None,
            )


def _nothing(kinds: list[PieceKind], boards: list[YardBoard], saw: SawWords, system: str) -> str:
    least = min(kinds, key=lambda kind: kind.length)
    ways_out = "Write a shorter vault.board_length, or add boards to [[stock]]."
    longest = max(stretches_of(boards, saw), key=lambda one: one.length, default=None)
    if longest is None:
        return f"No board takes any piece: faults and trimmed ends leave no clear stretch. {ways_out}"
    wanted = (least.length, least.width, least.thickness)
    given = (longest.length, longest.board.width, longest.board.thickness)
    sizes = [" x ".join(show(side, "mm", 0, system) for side in sides) for sides in (wanted, given)]
    return (
        f"No board takes any piece. The shortest is {sizes[0]}; the longest clear stretch, on "
        f'"{longest.board.name}", is {sizes[1]}. {ways_out}'
    )


def _cut_list(kinds: list[PieceKind], boards: list[YardBoard], saw: SawWords, told: Told) -> CutList:
    thickness = kinds[0].thickness
    own = [board for board in boards if abs(board.thickness - thickness) < SAME]
    stretches = list(stretches_of(own, saw))
    single = [Blank(kind=kind, beside=1, count=kind.count) for kind in kinds]
    tried = [(single, _plan(single, stretches, saw, told.progress))]
    for stacked in nestings(kinds, stretches, saw):
        told.progress("two outlines in one blank")
        tried.append((stacked, _plan(stacked, stretches, saw, told.progress)))
    blanks, plan = min(tried, key=lambda one: (_missing(*one), one[1].used))
    sawn = sawn_boards(blanks, plan, stretches, saw)
    return CutList(
        thickness=thickness,
        kinds=tuple(kinds),
        boards=sawn,
        missing=tuple(_missing_kinds(blanks, plan, (own, saw), told.system)),
        used=plan.used,
        bound=plan.bound,
        found_by=plan.found_by,
        nested=sum(len(placed.labels) > 1 for board in sawn for placed in board.placed),
        left=tuple(_left(own, sawn)),
        remarks=tuple(_too_short(own, kinds, saw, told.system)),
        cost=_cost(own, sawn),
        unpriced=_unpriced(own, sawn),
    )


def _plan(
    blanks: list[Blank], stretches: list[ClearStretch], saw: SawWords, progress: Progress
) -> CuttingPlan:
    return best_cutting(
        [Wanted(length=blank.kind.length, count=blank.count, width=blank.width) for blank in blanks],
        [
            Stretch(length=stretch.length, count=stretch.board.count, width=stretch.board.width)
            for stretch in stretches
        ],
        kerf=saw.kerf,
        progress=progress,
    )


def _missing(blanks: list[Blank], plan: CuttingPlan) -> int:
    return sum(number * len(blank.kinds) for blank, number in zip(blanks, plan.missing, strict=True))


def _missing_kinds(
    blanks: list[Blank], plan: CuttingPlan, yard: tuple[list[YardBoard], SawWords], system: str
) -> Iterator[Missing]:
    short: Counter[int] = Counter()
    kinds = {id(kind): kind for blank in blanks for kind in blank.kinds}
    for blank, number in zip(blanks, plan.missing, strict=True):
        for kind in blank.kinds:
            short[id(kind)] += number
    for key, number in short.items():
        if number:
            kind = kinds[key]
            yield Missing(kind=kind, labels=kind.labels[-number:], why=_why(kind, *yard, system))


def _why(kind: PieceKind, boards: list[YardBoard], saw: SawWords, system: str) -> str:
    """Why a piece found no board."""
    if not boards:
        return f"no board in the yard is {show(kind.thickness, 'mm', 0, system)} thick"
    wide = [board for board in boards if board.width >= kind.width - HAIR]
    if not wide:
        return (
            f"it needs boards {show(kind.width, 'mm', 0, system)} wide; the widest is "
            f"{show(max(board.width for board in boards), 'mm', 0, system)}"
        )
    longest = max((stretch.length for stretch in stretches_of(wide, saw)), default=0.0)
    if longest < kind.length - HAIR:
        return (
            f"it needs {show(kind.length, 'm', 3, system)} of clear board; the longest clear stretch that is "
            f"wide enough has {show(longest, 'm', 3, system)}"
        )
    return f"the boards run out: about {show(kind.length, 'm', 2, system)} and a saw cut more for each"


def _left(boards: list[YardBoard], sawn: tuple[SawnBoard, ...]) -> Iterator[tuple[str, int]]:
    used = Counter(board.stock for board in sawn)
    for board in boards:
        if board.count is not None and board.count > used[board.name]:
            yield board.name, board.count - used[board.name]


def _too_short(boards: list[YardBoard], kinds: list[PieceKind], saw: SawWords, system: str) -> Iterator[str]:
    """Boards that no piece fits on."""
    for board in boards:
        clear = list(stretches_of([board], saw))
        if not any(
            kind.length <= stretch.length + HAIR and kind.width <= board.width + HAIR
            for kind in kinds
            for stretch in clear
        ):
            longest = max((stretch.length for stretch in clear), default=0.0)
            yield (
                f'No piece fits on "{board.name}": it is {show(board.width, "mm", 0, system)} wide, and its '
                f"longest clear stretch has {show(longest, 'm', 2, system)}."
            )


def _cost(boards: list[YardBoard], sawn: tuple[SawnBoard, ...]) -> tuple[Money, ...]:
    price = {board.name: board.price for board in boards}
    sums: dict[str, float] = {}
    for board in sawn:
        money = price[board.stock]
        if money is not None:
            sums[money.currency] = sums.get(money.currency, 0.0) + money.amount * board.length
    return tuple(Money(amount, currency) for currency, amount in sorted(sums.items()))


def _unpriced(boards: list[YardBoard], sawn: tuple[SawnBoard, ...]) -> int:
    without = {board.name for board in boards if board.price is None}
    return sum(board.stock in without for board in sawn)


def _barren(logs: Sequence[LogYield], system: str) -> Iterator[str]:
    """Logs that give no board."""
    for log in logs:
        if not log.widths:
            yield (
                f'"{log.name}" gives no board {show(log.thickness, "mm", 0, system)} thick: it is too thin '
                f"for one {show(LEAST_WIDTH, 'mm', 0, system)} wide."
            )


def _remarks(
    forms: Sequence[Form], boards: list[YardBoard], kinds: list[PieceKind], system: str
) -> Iterator[str]:
    for vault, form in forms:
        for layer in vault.cover:
            if layer.kind is not CoverKind.LAGGING:
                continue
            if layer.width is None:
                yield f"Planks of {layer.title} over {vault.name} are not laid out: cover.width is missing."
            elif not any(kind.part is Part.LAGGING and kind.vault == form.name for kind in kinds):
                yield (
                    f"Planks of {layer.title} over {vault.name} are not laid out: no board of "
                    f"{show(layer.thickness, 'mm', 0, system)} spans from rib to rib."
                )
    unused = sorted({round(board.thickness, 4) for board in boards})
    wanted = [kind.thickness for kind in kinds]
    for thickness in unused:
        if all(abs(thickness - one) >= SAME for one in wanted):
            yield f"Boards {show(thickness, 'mm', 0, system)} thick are not asked for by any piece."


def _open(house: House, forms: Sequence[Form]) -> Iterator[str]:
    """What is of timber and not laid out, as its size is not given."""
    for _, form in forms:
        for one in wooden_members(house, form):
            if one.missing:
                yield f"{one.name.capitalize()} of {form.name} are not laid out: missing {one.missing}."
        for number, prop in enumerate(house.stages.props, 1):
            if prop.section is None:
                yield f"Props, row {number}, are not laid out: stages.prop.section is not given."
