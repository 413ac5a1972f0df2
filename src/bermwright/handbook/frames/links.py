"""Props and ties, put onto the solved frame one by one (compiled).

A link of stiffness k along the vector a adds k a a^T to the frame's matrix; with few links the sum
is inverted through the frame's own factors (Sherman, Morrison and Woodbury).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.handbook.frames.band import clear_held, solve_band
from bermwright.handbook.frames.compiled import compiled

if TYPE_CHECKING:
    from bermwright.handbook.frames.nouns import Array
    from bermwright.handbook.frames.records import Bars, History, Links, Steps, Work

SLACK = 1e-12
"""Lengthening that is rounding and nothing else (m)."""


@compiled
def stretch(links: Links, link: int, move: Array) -> float:
    """How much a link has become longer under the movements `move` (m)."""
    i, j = 3 * links.start[link], 3 * links.end[link]
    longer = -float(links.cos[link] * move[i] + links.sin[link] * move[i + 1])
    if j >= 0:
        longer += links.cos[link] * move[j] + links.sin[link] * move[j + 1]
    return longer


@compiled
def pull(links: Links, link: int, force: float, right: Array) -> None:
    """Add the forces of a link under the tension `force` on the frame."""
    i, j = 3 * links.start[link], 3 * links.end[link]
    right[i] += force * links.cos[link]
    right[i + 1] += force * links.sin[link]
    if j >= 0:
        right[j] -= force * links.cos[link]
        right[j + 1] -= force * links.sin[link]


@compiled
def inherit_links(links: Links, steps: Steps, state: int, work: Work, history: History) -> None:
    """A link that is new in this state counts its length from the parent's shape."""
    parent = steps.parent[state]
    for link in range(links.start.size):
        work.link_on[link] = 1 if steps.member_on[state, link] else 0
        if parent >= 0 and steps.member_on[parent, link]:
            history.link_reference[state, link] = history.link_reference[parent, link]
        else:
            history.link_reference[state, link] = stretch(links, link, work.move)


@compiled
def set_links(links: Links, steps: Steps, state: int, work: Work, history: History) -> bool:
    """Decide which links carry; returns whether any has changed."""
    changed = False
    for link in range(links.start.size):
        longer = stretch(links, link, work.move) - history.link_reference[state, link]
        work.link_load[link] = links.stiffness[link] * history.link_reference[state, link]
        strained = links.sense[link] * longer
        carries = work.link_on[link]
        if strained < -SLACK:
            carries = 0
        elif strained > SLACK or links.sense[link] == 0:
            carries = 1
        if not steps.member_on[state, link]:
            carries = 0
        changed = changed or carries != work.link_on[link]
        work.link_on[link] = carries
    return changed


@compiled
def add_links(bars: Bars, links: Links, work: Work, joint_factor: float) -> int:
    """Correct the solution in `right` for the links that carry.

    Returns how many negative pivots of the bare frame they make good.
    """
    count = links.start.size
    size = work.move.size
    for a in range(count):
        if work.link_on[a]:
            carry = work.carry[a]
            carry[:] = 0.0
            pull(links, a, -1.0, carry)
            clear_held(bars, carry, joint_factor)
            solve_band(work.band, carry, size)
            # The length a link had when it was put in is a load on the frame.
            work.right[:size] -= -work.link_load[a] * carry[:size]
    return _correct(links, work) if count else 0


@compiled
def _correct(links: Links, work: Work) -> int:
    """Solve the small system of the links' forces and take their effect off the solution."""
    count = links.start.size
    small = work.link_small
    for a in range(count):
        for b in range(count):
            both = work.link_on[a] and work.link_on[b]
            small[a, b] = stretch(links, a, work.carry[b]) if both else 0.0
        small[a, a] += 1.0 / links.stiffness[a]
        small[a, count] = stretch(links, a, work.right) if work.link_on[a] else 0.0
    negative = _eliminate(small)
    size = work.move.size
    for a in range(count):
        if work.link_on[a]:
            work.right[:size] -= small[a, count] * work.carry[a, :size]
    return negative


@compiled
def _eliminate(small: Array) -> int:
    """Solve a small symmetric system in place; the answer is its last column."""
    count = small.shape[0]
    negative = 0
    for a in range(count):
        if small[a, a] < 0.0:
            negative += 1
        small[a] /= small[a, a]
        for b in range(count):
            if b != a:
                small[b] -= small[b, a] * small[a]
    return negative


@compiled
def link_force(links: Links, link: int, work: Work, reference: float) -> float:
    """Force of a link (N), + tension."""
    if not work.link_on[link]:
        return 0.0
    return float(links.stiffness[link]) * (stretch(links, link, work.move) - reference)
