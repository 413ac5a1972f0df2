"""Levers on the ribs, their boards, their nails and their planks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.adapt.mend.levers.ladder import entries, ladder, sizes, word
from bermwright.adapt.mend.nouns import Amount, Lever
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.house import CoverKind, CurveKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.adapt.mend.nouns import Place, Written
    from bermwright.house import Cover, Vault
    from bermwright.house.checks import Key

STRONGER = frozenset(
    {
        "ribs-bend", "ribs-shear", "nails-carry-the-cut-layer", "nails-tie-the-bent-boards",
        "ribs-do-not-buckle", "ribs-do-not-tip", "ribs-keep-their-shape", "fill-keeps-to-its-stop-marks",
        "ribs-stand-near-the-ends", "trimmers-carry-for-the-cut-ribs", "ribs-stand-a-fire",
        "shell-stands-the-wind", "wheels-keep-off", "feet-bear", "pieces-can-be-lifted",
        "neighbours-carry-a-lost-rib", "ribs-stand-a-leak", "house-stands-an-earthquake",
    }
)  # fmt: skip
"""Rules that stronger or nearer ribs can help."""
NAILS = frozenset(
    {
        "nails-carry-the-cut-layer", "nails-tie-the-bent-boards", "nails-find-room", "ribs-do-not-buckle",
        "ribs-keep-their-shape", "fill-keeps-to-its-stop-marks", "pieces-can-be-lifted",
        "trimmers-carry-for-the-cut-ribs", "ribs-stand-near-the-ends", "nails-stand-a-fire",
    }
)  # fmt: skip
PLANKS = frozenset(
    {
        "planks-carry-the-soil", "planks-stand-a-fire", "house-does-not-lean-along",
        "a-lost-plank-lets-nothing-through", "storms-do-not-lean-it-along",
    }
)  # fmt: skip
WIDTHS = (95, 120, 145, 170, 195, 220, 245, 270, 295)
"""Planed and sawn widths that yards keep (mm)."""
THICK = (28, 32, 38, 45, 50, 63, 75)
NAIL_SIZES = (
    (2.8, 65), (3.1, 80), (3.4, 90), (3.8, 100), (4.0, 110), (4.2, 120), (4.6, 130), (5.0, 130), (5.0, 150),
    (5.5, 160), (6.0, 180), (6.0, 200), (7.0, 210), (8.0, 240),
)  # fmt: skip
"""Diameter and length of nails that are sold (mm)."""
RISES = (-0.1, 0.1, -0.2, 0.2, -0.4, 0.4)
"""By how much the rise is changed (m), the least first."""
DEEPER = 0.01
SAME = 1e-6
"""Boards no wider than this much more are the same (mm)."""


def _lagging(cover: Cover) -> bool:
    return cover.kind is CoverKind.LAGGING


def _vault(place: Place) -> Iterator[tuple[int, Vault]]:
    if place.vault is not None:
        yield place.vault, place.house.vaults[place.vault]


def _deeper(place: Place) -> tuple[Amount, ...]:
    """The rib cut deeper out of the same boards, by a centimetre at a time."""
    found = []
    for number, vault in _vault(place):
        step = 1
        while vault.depth is not None and vault.depth + step * DEEPER <= vault.board.width + 1e-9:
            depth = f"{1e3 * (vault.depth + step * DEEPER):g} mm"
            says = f"{depth} in place of {1e3 * vault.depth:g} mm"
            found.append(Amount(says=says, writes=((("vault", number, "depth"), depth),)))
            step += 1
    return tuple(found)


def _wider(place: Place) -> tuple[Amount, ...]:
    """Wider boards, and the rib deeper by as much."""
    found = []
    for number, vault in _vault(place):
        thickness = 1e3 * vault.board.thickness
        for width in WIDTHS:
            more = width - 1e3 * vault.board.width
            if more <= SAME:
                continue
            board = f"{thickness:g} x {width:g} mm"
            writes = [(("vault", number, "board"), board)]
            if vault.depth is not None:
                writes.append((("vault", number, "depth"), f"{1e3 * vault.depth + more:g} mm"))
            says = f"{board} in place of {thickness:g} x {1e3 * vault.board.width:g} mm"
            found.append(Amount(says=says, writes=tuple(writes)))
    return tuple(found)


def _thicker(place: Place) -> tuple[Amount, ...]:
    found = []
    for number, vault in _vault(place):
        width, now = 1e3 * vault.board.width, 1e3 * vault.board.thickness
        for thickness in (one for one in THICK if one > now + 1e-6):
            text = f"{thickness:g} x {width:g} mm"
            says = f"{text} in place of {now:g} x {width:g} mm"
            found.append(Amount(says=says, writes=((("vault", number, "board"), text),)))
    return tuple(found)


def _rise(place: Place) -> tuple[Amount, ...]:
    """A lower or higher crown on the same feet."""
    found = []
    for number, vault in _vault(place):
        if vault.rise is None or vault.curve in {CurveKind.SEMICIRCLE, CurveKind.DRAWN}:
            continue
        for step in RISES:
            text = f"{round(vault.rise + step, 2):g} m"
            says = f"{text} in place of {vault.rise:g} m"
            found.append(Amount(says=says, writes=((("vault", number, "rise"), text),)))
    return tuple(found)


def _nailed(place: Place) -> tuple[Amount, ...]:
    """Planks with their nails written down, where the file says nothing of them."""
    writes: list[tuple[Key, Written]] = []
    for entry in entries(place, "vault.cover"):
        if _lagging(entry.table) and entry.table.nail is None:
            writes += [((*entry.key, "nail"), "4.0 x 110 mm"), ((*entry.key, "nails"), 2)]
    return (Amount(says="two of 4.0 x 110 mm at every rib", writes=tuple(writes)),) if writes else ()


RIB_LEVERS = (
    Lever(
        name="more layers", does="Make every rib of more layers", helps=STRONGER | {"ribs-can-be-lifted"},
        amounts=ladder("vault", "layers", range(2, 9)),
    ),
    Lever(
        name="ribs nearer together", does="Set the ribs nearer together",
        helps=STRONGER | PLANKS - {"house-does-not-lean-along"} | {"feet-stay-on-their-supports"},
        amounts=ladder("vault", "spacing", (0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.8), "m", up=False),
    ),
    Lever(
        name="wider boards", does="Take wider boards and cut the ribs deeper by as much",
        helps=STRONGER - {"ribs-do-not-tip"}, amounts=_wider,
    ),
    Lever(
        name="thicker boards", does="Take thicker boards", helps=STRONGER, amounts=_thicker,
    ),
    Lever(
        name="deeper ribs", does="Cut the ribs deeper out of the same boards",
        helps=(STRONGER | {"nails-find-room"}) - {"ribs-do-not-tip"}, amounts=_deeper, monotone=False,
    ),
    Lever(
        name="better timber", does="Take rib boards of a better class",
        helps=STRONGER - {"ribs-keep-their-shape"},
        amounts=word("vault", "timber", tuple(TIMBER_CLASSES)), hours=1.0,
    ),
    Lever(
        name="longer rib pieces", does="Cut the ribs of longer pieces, so that fewer joints are weak",
        helps=NAILS | STRONGER, monotone=False, hours=1.0,
        amounts=ladder("vault", "board_length", (1.0, 1.2, 1.6, 2.0, 2.4, 3.0, 3.6, 4.2), "m"),
    ),
    Lever(
        name="more nails at the joints", does="Drive more nails on each side of a butt joint", helps=NAILS,
        amounts=ladder("vault", "nails_each_side", (4, 6, 8, 10, 12, 14, 16, 18, 20, 24)), monotone=False,
    ),
    Lever(
        name="fewer nails at the joints", does="Drive fewer nails on each side of a butt joint",
        helps=frozenset({"nails-find-room"}),
        amounts=ladder("vault", "nails_each_side", (4, 6, 8, 10, 12, 14, 16, 18, 20), up=False),
    ),
    Lever(
        name="thicker nails", does="Take thicker and longer nails", helps=NAILS, monotone=False, hours=2.0,
        amounts=sizes("vault", "nails", NAIL_SIZES),
    ),
    Lever(
        name="nails nearer together", does="Set the nails between the joints nearer together",
        helps=NAILS | STRONGER,
        amounts=ladder("vault", "nail_spacing", (25, 30, 40, 50, 60, 80, 100, 120, 150), "mm", up=False),
        monotone=False,
    ),
    Lever(
        name="nail holes drilled", does="Drill the nail holes first", helps=NAILS, hours=20.0,
        amounts=word("vault", "predrilled", ("no", "yes"), only=lambda vault: vault.predrilled is False),
    ),
    Lever(
        name="another rise", does="Draw the crown lower or higher on the same feet", monotone=False,
        hours=8.0,
        helps=(STRONGER | {"slopes-stay", "cover-stays-on-its-sheet"}) - {"ribs-stand-a-fire"}, amounts=_rise,
    ),
    Lever(
        name="thicker planks", does="Take thicker planks over the ribs", helps=PLANKS, hours=2.0,
        amounts=ladder("vault.cover", "thickness", (25, 28, 32, 38, 45, 50, 63), "mm", only=_lagging),
    ),
    Lever(
        name="better planks", does="Take planks of a better class", helps=PLANKS,
        amounts=word("vault.cover", "timber", tuple(TIMBER_CLASSES), only=_lagging), hours=1.0,
    ),
    Lever(
        name="nails of the planks", does="Nail every plank to every rib, and write it down",
        helps=frozenset({"house-does-not-lean-along", "storms-do-not-lean-it-along"}), amounts=_nailed,
        hours=2.0,
    ),
    Lever(
        name="thicker nails in the planks", does="Nail the planks with thicker and longer nails", hours=2.0,
        helps=frozenset({"house-does-not-lean-along", "storms-do-not-lean-it-along"}), monotone=False,
        amounts=sizes("vault.cover", "nail", NAIL_SIZES, only=_lagging),
    ),
    Lever(
        name="more nails in the planks", does="Drive more nails through every plank into every rib",
        hours=4.0,
        helps=frozenset({"house-does-not-lean-along", "storms-do-not-lean-it-along"}),
        amounts=ladder("vault.cover", "nails", (2, 4, 6), only=_lagging),
    ),
    Lever(
        name="longer shoes", does="Let the feet bear on longer plates", helps=frozenset({"feet-bear"}),
        amounts=ladder("vault.feet", "shoe_length", (100, 150, 200, 250, 300, 400), "mm"), hours=2.0,
    ),
)  # fmt: skip
