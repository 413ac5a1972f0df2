"""Salvaged windows and doors: what goes where and why, how bare panes are set, a door for the cold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Points, Table, plain
from bermwright.base.units import show
from bermwright.book.sheets.cutting.glazing import door_sheet, fit_sheet, rebate_sheet
from bermwright.book.sheets.paper import Figures
from bermwright.data.openings import DOOR_BESIDE, LOW_GLASS
from bermwright.house import OpeningKind
from bermwright.takeoff.light import door_leaves, safety_asked, settings_of, wind_checks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import House
    from bermwright.takeoff.light import DoorLeaf, Fitting, Match, Pair, PaneSetting, WindCheck

GLASS = (
    (
        "*Ordinary glass breaks into blades.* In doors and within {beside} of one, overhead, and below {low} "
        "above the floor put toughened or laminated glass; a stamp in the corner tells it. Toughened glass "
        "is never cut."
    ),
    (
        "Two people, gloves, sleeves and goggles for every pane; carry it on edge, set it down on wood. Old "
        "putty and paint may hold lead, old cords asbestos: ask before scraping. Local rules come first."
    ),
)
SETTING = (
    (
        "The pane stands on two blocks of hard rubber (70 to 90 Shore A) or hardwood soaked in oil, a "
        "quarter of its width in from each end, and touches wood nowhere."
    ),
    "Blocks are as wide as the glass and leave water a way past; both panes of a sealed unit stand on them.",
    (
        "The floor of the rebate slopes out; two drains or more of {drain}, or slots of {slot}, lead out "
        "from its lowest place and let air in."
    ),
    "No vinegar-smelling silicone near a sealed edge or a laminated one: it loosens them.",
    "Fog between sealed panes means a broken seal: single glass with a storm pane serves better there.",
)
DOOR = (
    "The inner boarding is tight: sheet with taped joints on the warm side of the core, open boards outside.",
    (
        "Stepped edge with two seals, both pressed without a gap on all four sides; the threshold is of "
        "wood, cut through by a strip of insulation so that it carries no frost in."
    ),
    (
        "A porch or curtain in front of it keeps the wind off, and snow off the seals; it opens inwards "
        "where snow drifts against it, unless local rules ask otherwise."
    ),
)


def window_pages(house: House, fitting: Fitting | None, system: str) -> Iterator[Block]:
    """The list in hand, then how it is set, then a door leaf."""
    if fitting is None and house.salvaged:
        yield Heading(text="Windows and doors from the list", level=2)
        yield Para(
            "None of them is put anywhere: the file has no window, rooflight or door ([[opening]] or "
            "[[dome.opening]])."
        )
    if fitting is not None:
        yield Heading(text="Windows and doors from the list", level=2)
        yield Figure(sheet=fit_sheet(fitting.matches, system=system))
        yield _assignment(fitting, system)
        yield Points(items=tuple(_why(match) for match in fitting.matches))
        yield from _left(fitting)
        yield from _wind(wind_checks(house, fitting), system)
        yield from _safety(house, fitting)
        yield Notice(kind="caution", lines=_glass(system))
        for setting in settings_of(fitting):
            yield from _setting(setting, system)
    for leaves in door_leaves(house):
        yield from _door(leaves, system)


def _assignment(fitting: Fitting, system: str) -> Table:
    heat = ("sun, kWh", "loss, kWh") if fitting.sun_counted else ("sun", f"loss, {_leak(system)}")
    return Table(
        head=("hole", "gets", "hole", "outside", "U", *heat),
        rows=tuple(_row(match, system, counted=fitting.sun_counted) for match in fitting.matches),
        align="llrrrrr",
        widths=(0.9, 1, 1.1, 1.1, 0.9, 0.5, 0.5),
    )


def _leak(system: str) -> str:
    """The unit of heat that is lost for each degree."""
    return show(1.0, "W/K", 0, system).split(" ", 1)[1]


def _row(match: Match, system: str, *, counted: bool) -> tuple[str, ...]:
    hole, pair = match.opening, match.pair
    figures = Figures(system=system)
    size = " × ".join(figures.length(side) for side in (hole.width, hole.height))
    if pair is None:
        return plain(hole.name), "nothing", size, "", "", "", ""
    own = " × ".join(figures.length(side) for side in (pair.width, pair.height))
    u_value = show(pair.u, "W/m2K", 2, system) if pair.known else "not known"
    return plain(hole.name), plain(pair.item.name), size, own, u_value, *_heat(pair, system, counted=counted)


def _heat(pair: Pair, system: str, *, counted: bool) -> tuple[str, str]:
    """Sun and loss of a year; without a climate the loss for each degree, and no sun."""
    if not pair.known:
        return "not known", "not known"
    if not counted:
        return "not known", show(pair.loss, "W/K", 1, system).split(" ", 1)[0]
    return f"{pair.gain:.0f}", f"{pair.loss:.0f}"


def _why(match: Match) -> str:
    return f"*{plain(match.opening.name)}:* {plain(' '.join(match.reasons))}"


def _left(fitting: Fitting) -> Iterator[Block]:
    if fitting.left:
        yield Para(f"*Not used:* {plain(', '.join(fitting.left))}.")
    yield Para(
        "Best assignment of all: as many holes as can be filled, then the most sun less loss in the days "
        "that need heat; the strip that is packed beside a frame counts with its own loss. All sun of such "
        "a day counts as useful; salvaged glass counts without its gas and a little dull.",
        small=True,
    )
    for remark in fitting.remarks:
        yield Para(plain(remark))


def _wind(checks: tuple[WindCheck, ...], system: str) -> Iterator[Block]:
    if not checks:
        return
    yield Table(
        head=("pane of", "wind, design", "needs", "has", "goes out", "may", "takes it"),
        rows=tuple(_wind_row(check, system) for check in checks),
        align="lrrrrrl",
        caption="The outer pane alone, held along four edges; stress and deflection of a thin plate.",
    )
    overhead = [plain(one.pair.item.name) for one in checks if one.pair.opening.kind is OpeningKind.ROOFLIGHT]
    if overhead:
        yield Para(
            f"*Overhead* snow, soil and its own weight lie on the glass and are not reckoned here: whoever "
            f"answers for the roof decides on {', '.join(overhead)}."
        )
    if any(check.holds is False for check in checks):
        yield Para(
            "What the wind is too much for wants thicker glass, or a bar across that makes two panes of it."
        )


def _wind_row(check: WindCheck, system: str) -> tuple[str, ...]:
    def length(value: float | None, digits: int = 1) -> str:
        return "not known" if value is None else show(value, "mm", digits, system)

    verdict = {True: "yes", False: "no", None: "not known"}[check.holds]
    pressure = "not known" if check.pressure is None else show(check.pressure, "kN/m2", 2, system)
    return (
        plain(check.pair.item.name),
        pressure,
        length(check.needed),
        length(check.given),
        length(check.deflection),
        length(check.limit),
        verdict,
    )


def _glass(system: str) -> tuple[str, ...]:
    beside, low = show(DOOR_BESIDE.value, "m", 2, system), show(LOW_GLASS.value, "m", 2, system)
    return tuple(line.format(beside=beside, low=low) for line in GLASS)


def _safety(house: House, fitting: Fitting) -> Iterator[Block]:
    for match in fitting.matches:
        if match.pair is None:
            continue
        why = safety_asked(house, match.opening, match.pair.item.line)
        if why:
            yield Para(
                f"*{plain(match.opening.name)}* wants toughened or laminated glass: {why}. "
                f"{plain(match.pair.item.name)} has neither."
            )


def _setting(setting: PaneSetting, system: str) -> Iterator[Block]:
    yield Heading(text=f"Setting {plain(setting.pair.item.name)} without a frame", level=2)
    yield Figure(sheet=rebate_sheet(setting, system=system))
    rebate = setting.rebate
    sizes = [show(size, "mm", 0, system) for size in (rebate.depth, rebate.width, rebate.cover, rebate.gap)]
    yield Para(
        f"Rebate {sizes[0]} deep and {sizes[1]} wide; glass covered {sizes[2]}, free {sizes[3]} all round. "
        f"The pane weighs about {show(setting.mass, 'kg', 0, system)}."
    )
    drain = show(0.007, "mm", 0, system)
    slot = " × ".join(show(side, "mm", 0, system) for side in (0.005, 0.009))
    yield Points(items=tuple(line.format(drain=drain, slot=slot) for line in SETTING))


def _door(leaves: tuple[DoorLeaf, ...], system: str) -> Iterator[Block]:
    middle = leaves[len(leaves) // 2]
    yield Heading(text=f"An insulated leaf for {plain(middle.opening)}", level=2)
    yield Figure(sheet=door_sheet(middle, system=system))
    yield Table(
        head=("layer, from the room", "thickness", "material", "conductivity"),
        rows=tuple(
            (
                layer.name,
                show(layer.thickness, "mm", 0, system),
                layer.material,
                show(layer.conductivity, "W/mK", 3, system),
            )
            for layer in middle.layers
        ),
        align="lrlr",
    )
    yield Table(
        head=("core", "leaf", "U of the leaf", "weight", "pull on the upper hinge"),
        rows=tuple(
            (
                show(leaf.layers[1].thickness, "mm", 0, system),
                show(leaf.thickness, "mm", 0, system),
                f"{show(leaf.u, 'W/m2K', 2, system)} ±{leaf.error:.0%}",
                show(leaf.mass, "kg", 0, system),
                show(leaf.pull, "kN", 2, system),
            )
            for leaf in leaves
        ),
        align="rrrrr",
        caption=f"Stiles and rails take {middle.timber:.0%} of the face; frame and gaps come on top.",
    )
    yield Points(items=DOOR)
