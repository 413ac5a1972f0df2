"""Levers on openings, ends, floors, fire, ways out, stoves, air and raising the ribs."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.adapt.mend.levers.ladder import entries, fixed, ladder, sizes, word
from bermwright.adapt.mend.nouns import Amount, Lever
from bermwright.house import OpeningKind, OpeningSide

if TYPE_CHECKING:
    from bermwright.adapt.mend.nouns import Place, Writes

HEADERS = (
    (45, 145), (60, 120), (60, 150), (60, 190), (75, 200), (100, 200), (120, 200), (120, 240), (140, 150),
    (140, 200), (140, 240), (160, 240), (160, 300), (200, 300),
)  # fmt: skip
"""Sawn beams that yards keep (mm)."""
POSTS = ((80, 160), (100, 120), (100, 160), (100, 200), (120, 200), (120, 240), (140, 240), (160, 300))
JOISTS = ((45, 195), (45, 220), (60, 170), (60, 200), (60, 220), (75, 220), (75, 250), (100, 250))
HUNG = frozenset({"headers-carry-the-cut-ribs"})
HEADER = HUNG | {"lintels-carry-the-wall"}
PLANK = frozenset({"end-planks-carry-the-soil"})
POST = frozenset({"end-posts-hold-the-soil"})
END = PLANK | POST | {"end-walls-stand", "house-does-not-lean-along"}
BURNS = frozenset({"ribs-stand-a-fire", "planks-stand-a-fire", "nails-stand-a-fire"})
OUT = frozenset({"every-bed-has-two-ways-out", "the-way-out-is-short"})
DAMP = frozenset(
    {"air-is-fresh", "corners-stay-free-of-mould", "layers-dry-out", "buried-ribs-stay-dry-enough"}
)
BARE = frozenset({"bare-ribs-stand-until-lagged"})
FLOOR = frozenset({"floors-carry", "floors-are-firm"})
WAY_OUT = (0.75, 0.75)
"""Clear width and height that let a person out (m)."""


def _lined(place: Place) -> tuple[Amount, ...]:
    """Gypsum board, closed, thicker and thicker."""
    fire = place.house.fire
    if fire is None:
        return ()
    now = fire.lining_thickness if str(fire.lining) == "gypsum board" and fire.lining_thickness else 0.0
    return tuple(
        Amount(
            says=f"{thick:g} mm, joints closed",
            writes=(
                (("fire", "lining"), "gypsum board"), (("fire", "lining_thickness"), f"{thick:g} mm"),
                (("fire", "lining_gaps"), "no"),
            ),
        )
        for thick in (12.5, 15, 18, 25, 30)
        if thick > 1e3 * now + 1e-6 or fire.lining_gaps
    )  # fmt: skip


def _opens(place: Place) -> tuple[Amount, ...]:
    """Every window that does not open, opening so far that a person gets through."""
    found = []
    for number, one in enumerate(place.house.openings):
        if one.kind is not OpeningKind.WINDOW or one.side is OpeningSide.CROWN:
            continue
        wide, high = (f"{side:g} m" for side in WAY_OUT)
        room = one.width >= WAY_OUT[0] + 0.1 and one.height >= WAY_OUT[1] + 0.1
        size = [] if room else [
            (("opening", number, "width"), f"{max(one.width, 0.9):g} m"),
            (("opening", number, "height"), f"{max(one.height, 0.9):g} m"),
        ]  # fmt: skip
        writes = (
            *size, (("opening", number, "opens"), "yes"), (("opening", number, "clear_width"), wide),
            (("opening", number, "clear_height"), high),
        )  # fmt: skip
        found.append(Amount(says=f'"{one.name}" clear {wide} x {high}', writes=writes))
    return tuple(found)


def _alarms(place: Place) -> Writes:
    """One smoke alarm a bedroom and one a vault; one for carbon monoxide a vault with a stove."""
    if place.house.fire is None:
        return ()
    smoke = len(place.house.bedrooms) + len(place.house.vaults)
    gas = len({stove.vault for stove in place.house.stoves})
    return ((("fire", "smoke_alarms"), smoke), (("fire", "co_alarms"), gas))


def _shield(place: Place) -> Writes:
    return tuple(
        write
        for entry in entries(place, "stove")
        for write in (((*entry.key, "shield"), "yes"), ((*entry.key, "shield_gap"), "30 mm"))
        if not entry.table.shield
    )


def _narrower(place: Place) -> tuple[Amount, ...]:
    found = []
    for entry in entries(place, "opening"):
        one = entry.table
        for width in (0.9, 0.8, 0.7, 0.6, 0.5, 0.4):
            if width < one.width - 1e-6:
                clear = one.clear_width
                writes = [((*entry.key, "width"), f"{width:g} m")]
                if clear is not None and clear > width - 0.1:
                    writes.append(((*entry.key, "clear_width"), f"{round(width - 0.1, 2):g} m"))
                found.append(Amount(says=f"{width:g} m in place of {one.width:g} m", writes=tuple(writes)))
    return tuple(found)


def _more_air(place: Place) -> tuple[Amount, ...]:
    air = place.house.air
    if air is None or air.flow is None:
        return ()
    now = 3600.0 * air.flow
    first = 10 * math.ceil((now + 1.0) / 10.0)
    flows = range(first, int(2.5 * now) + 1, 10)
    return tuple(
        Amount(says=f"{flow} m3/h in place of {now:g} m3/h", writes=((("air", "flow"), f"{flow} m3/h"),))
        for flow in flows
    )


LIVING_LEVERS = (
    Lever(
        name="stronger header", does="Take a stronger header", helps=HEADER, monotone=False, hours=1.0,
        amounts=sizes("opening", "header", HEADERS),
    ),
    Lever(
        name="more header boards", does="Make the header of more boards", helps=HEADER, hours=1.0,
        amounts=ladder("opening", "header_boards", (2, 3, 4)),
    ),
    Lever(
        name="more nails in the header", does="Drive more nails into the ends of the header", helps=HUNG,
        hours=1.0, amounts=ladder("opening", "header_nails", (8, 10, 12, 16, 20, 24)),
    ),
    Lever(
        name="hangers", does="Hang the header in steel hangers, by the maker's sheet", helps=HUNG, hours=2.0,
        amounts=ladder("opening", "hanger", (5, 10, 15, 20, 30, 40, 60, 80), "kN", begin=0.0),
    ),
    Lever(
        name="more ribs beside the hole", does="Set more ribs side by side beside the hole", hours=8.0,
        helps=frozenset({"trimmers-carry-for-the-cut-ribs"}), monotone=False,
        amounts=ladder("opening", "doubled", (1, 2, 3)),
    ),
    Lever(
        name="narrower hole", does="Make the hole narrower, so that it cuts fewer ribs", hours=1.0,
        helps=HUNG
        | {"trimmers-carry-for-the-cut-ribs", "openings-fit-under-the-ribs", "lintels-carry-the-wall"},
        amounts=_narrower, monotone=False,
    ),
    Lever(
        name="longer bearing", does="Let the lintel rest on a longer bearing", hours=1.0,
        helps=frozenset({"lintels-carry-the-wall"}),
        amounts=ladder("opening", "bearing", (60, 80, 100, 120, 150, 200), "mm"),
    ),
    Lever(
        name="higher collar", does="Make the collar higher", hours=2.0,
        helps=frozenset({"collars-stand-out-of-the-ground"}),
        amounts=ladder("opening", "collar", (0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.2, 1.5), "m", begin=0.0),
    ),
    Lever(
        name="higher sill", does="Raise the sill over the soil", hours=1.0,
        helps=frozenset({"openings-fit-under-the-ribs", "ends-are-closed"}), monotone=False,
        amounts=ladder("opening", "sill", (0.2, 0.4, 0.6, 0.8, 0.9, 1.0, 1.1, 1.2), "m"),
    ),
    Lever(
        name="thicker end wall", does="Make the end wall thicker", helps=PLANK | {"end-walls-stand"},
        hours=8.0,
        amounts=ladder("end", "thickness", (0.05, 0.06, 0.075, 0.1, 0.45, 0.6, 0.8, 1.0, 1.2, 1.5, 1.8), "m"),
    ),
    Lever(
        name="less soil against the end", does="Lay less soil against the end", helps=END, hours=2.0,
        amounts=ladder("end", "soil_to", (0.0, 0.2, 0.4, 0.6, 0.8, 1.0, 1.2, 1.4, 1.6), "m", up=False),
    ),
    Lever(
        name="more soil against the end", does="Let the mound end higher at the end wall", hours=6.0,
        helps=frozenset({"ribs-stand-near-the-ends"}), monotone=False,
        amounts=ladder("end", "soil_to", (0.4, 0.8, 1.2, 1.6, 2.0), "m"),
    ),
    Lever(
        name="end posts nearer together", does="Set the posts of the end nearer together", helps=PLANK | POST,
        hours=4.0, amounts=ladder("end", "post_spacing", (0.4, 0.5, 0.6, 0.8, 1.0, 1.2), "m", up=False),
    ),
    Lever(
        name="stronger end posts", does="Take stronger posts at the end", helps=POST, hours=2.0,
        monotone=False,
        amounts=sizes("end", "post", POSTS),
    ),
    Lever(
        name="end posts held at the head", does="Hold the heads of the end posts better", helps=POST,
        hours=4.0,
        amounts=ladder("end", "head_holds", (2, 4, 6, 8, 10, 15, 20), "kN", begin=0.0),
    ),
    Lever(
        name="end posts deeper", does="Let the end posts deeper into the ground", helps=POST, hours=6.0,
        amounts=ladder("end", "post_depth", (0.6, 0.8, 1.0, 1.2, 1.5), "m"),
    ),
    Lever(
        name="drain behind the end", does="Lay a drain behind the end wall", helps=END, hours=10.0,
        amounts=word("end", "drained", ("no", "yes")),
    ),
    Lever(
        name="deeper joists", does="Take deeper joists", helps=FLOOR, hours=1.0, monotone=False,
        amounts=sizes("floor", "joist", JOISTS),
    ),
    Lever(
        name="joists nearer together", does="Set the joists nearer together", helps=FLOOR, hours=4.0,
        amounts=ladder("floor", "spacing", (0.3, 0.35, 0.4, 0.45, 0.5, 0.6), "m", up=False),
    ),
    Lever(
        name="thicker floor boards", does="Lay thicker floor boards", helps=FLOOR, hours=1.0,
        amounts=ladder("floor", "boards", (22, 25, 28, 32, 38, 45), "mm"),
    ),
    Lever(
        name="stronger beam", does="Take a stronger beam", helps=frozenset({"beams-carry"}), hours=2.0,
        amounts=sizes("beam", "section", HEADERS), monotone=False,
    ),
    Lever(
        name="thicker log beam", does="Take a thicker log as a beam", helps=frozenset({"beams-carry"}),
        hours=2.0,
        amounts=ladder("beam", "diameter", (160, 180, 200, 220, 240, 260, 280, 300, 350), "mm"),
    ),
    Lever(
        name="stronger post", does="Take a stronger post", helps=frozenset({"posts-carry"}), hours=1.0,
        amounts=sizes("post", "section", ((100, 100), (120, 120), (140, 140), (160, 160), (200, 200))),
        monotone=False,
    ),
    Lever(
        name="thicker log post", does="Take a thicker log as a post", helps=frozenset({"posts-carry"}),
        hours=1.0,
        amounts=ladder("post", "diameter", (140, 160, 180, 200, 220, 240, 280), "mm"),
    ),
    Lever(
        name="lining for fire", does="Line ribs and planks with gypsum board", helps=BURNS, hours=30.0,
        amounts=_lined,
    ),
    Lever(
        name="window to get out by", does="Let a window open so far that a person gets out", helps=OUT,
        amounts=_opens, monotone=False, hours=4.0,
    ),
    Lever(
        name="more alarms", does="Put up alarms for smoke and carbon monoxide", hours=1.0,
        helps=frozenset({"alarms-wake-everybody"}),
        amounts=fixed(_alarms, "one in every bedroom, one in every vault, one with every stove"),
    ),
    Lever(
        name="stove further from wood", does="Set the stove and its pipe further from the wood", hours=1.0,
        helps=frozenset({"stove-keeps-off-the-wood"}),
        amounts=ladder("stove", "lagging_distance", (0.3, 0.35, 0.4, 0.45, 0.5, 0.6, 0.8, 1.0), "m"),
    ),
    Lever(
        name="heat shield", does="Set a shield that cannot burn, with an open gap behind it", hours=3.0,
        helps=frozenset({"stove-keeps-off-the-wood"}), amounts=fixed(_shield, "gap of 30 mm"),
    ),
    Lever(
        name="higher flue", does="Let the flue end higher over the turf, and brace it", hours=2.0,
        helps=frozenset({"flue-ends-over-the-snow"}),
        amounts=ladder(
            "stove", "terminal_height", (0.8, 1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 2.2, 2.5, 3.0), "m", begin=0.0
        ),
    ),
    Lever(
        name="wider way for the flue", does="Widen the hole that the flue goes through", hours=1.0,
        helps=frozenset({"flue-goes-through-with-room"}), monotone=False,
        amounts=ladder("opening", "width", (0.25, 0.3, 0.35, 0.4, 0.5, 0.6, 0.8), "m"),
    ),
    Lever(
        name="deeper hearth", does="Lay a larger hearth of stone, tiles or steel", hours=2.0,
        helps=frozenset({"hearth-catches-embers"}),
        amounts=ladder("stove", "hearth_depth", (0.3, 0.35, 0.4, 0.45, 0.5, 0.6), "m", begin=0.0),
    ),
    Lever(
        name="more fresh air", does="Bring in more fresh air", helps=DAMP, amounts=_more_air, hours=1.0,
    ),
    Lever(
        name="more braces", does="Nail more boards across the bare ribs", helps=BARE, hours=6.0,
        amounts=ladder("erection.brace", "count", (4, 6, 8, 10, 12, 14, 16, 20)),
    ),
    Lever(
        name="more nails in the braces", does="Drive more nails into each end of a brace", helps=BARE,
        hours=2.0,
        amounts=ladder("erection.brace", "nails", (2, 3, 4, 5, 6)),
    ),
    Lever(
        name="more guys", does="Set more guys", helps=BARE, hours=4.0,
        amounts=ladder("erection.guy", "count", (2, 4, 6, 8)),
    ),
    Lever(
        name="stop in less wind", does="Stop raising ribs in less wind", helps=BARE, hours=4.0,
        amounts=ladder("erection", "wind_limit", (4, 5, 6, 8, 10), "m/s", up=False),
    ),
    Lever(
        name="ribs raised in halves", does="Raise the ribs in halves and join them from a scaffold",
        hours=10.0,
        helps=frozenset({"ribs-can-be-lifted"}), amounts=word("erection", "raised", ("whole", "halves")),
    ),
    Lever(
        name="something that lifts", does="Lift the ribs with more than hands", monotone=False, hours=10.0,
        helps=frozenset({"ribs-can-be-lifted"}),
        amounts=word("erection", "lifted", ("hands", "gin pole", "hoist", "crane")),
    ),
)  # fmt: skip
