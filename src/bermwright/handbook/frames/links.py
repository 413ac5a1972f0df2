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
    from bermwright.handbook.frames.records import Bars, Equations, History, Links, Steps, Ties

SLACK_TOLERANCE = 1e-12
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
def inherit_links(links: Links, steps: Steps, state: int, move: Array, history: History) -> None:
    """A link that is new in this state counts its length from the parent's shape."""
    parent = steps.parent[state]
    for link in range(links.start.size):
        if parent >= 0 and steps.member_on[parent, link]:
            history.link_reference[state, link] = history.link_reference[parent, link]
        else:
            history.link_reference[state, link] = stretch(links, link, move)


@compiled
def set_links(links: Links, stands: Array, reference: Array, move: Array, ties: Ties) -> bool:
    """Decide which links carry; returns whether any has changed."""
    changed = False
    for link in range(links.start.size):
        longer = stretch(links, link, move) - reference[link]
        ties.load[link] = links.stiffness[link] * reference[link]
        strained = links.sense[link] * longer
        carries = ties.on[link]
        if strained < -SLACK_TOLERANCE:
            carries = False
        elif strained > SLACK_TOLERANCE or links.sense[link] == 0:
            carries = True
        if not stands[link]:
            carries = False
        changed = changed or carries != ties.on[link]
        ties.on[link] = carries
    return changed


@compiled
def add_links(bars: Bars, links: Links, equations: Equations, ties: Ties, joint_factor: float) -> int:
    """Correct the solution in `right` for the links that carry.

    Returns how many negative pivots of the bare frame they make good.
    """
    count, size = links.start.size, equations.scale.size
    for a in range(count):
        if ties.on[a]:
            carry = ties.carry[a]
            for i in range(carry.size):
                carry[i] = 0.0
            pull(links, a, -1.0, carry)
            clear_held(bars, carry, joint_factor)
            solve_band(equations.band, carry, size)
            # The length a link had when it was put in is a load on the frame.
            for i in range(size):
                equations.right[i] += ties.load[a] * carry[i]
    return _correct(links, equations.right, ties) if count else 0


@compiled
def _correct(links: Links, right: Array, ties: Ties) -> int:
    """Solve the small system of the links' forces and take their effect off the solution."""
    count = links.start.size
    small = ties.small
    for a in range(count):
        for b in range(count):
            both = ties.on[a] and ties.on[b]
            small[a, b] = stretch(links, a, ties.carry[b]) if both else 0.0
        small[a, a] += 1.0 / links.stiffness[a]
        small[a, count] = stretch(links, a, right) if ties.on[a] else 0.0
    negative = _eliminate(small)
    for a in range(count):
        if ties.on[a]:
            for i in range(right.size):
                right[i] -= small[a, count] * ties.carry[a, i]
    return negative


@compiled
def _eliminate(small: Array) -> int:
    """Solve a small symmetric system in place; the answer is its last column."""
    count = small.shape[0]
    negative = 0
    for a in range(count):
        if small[a, a] < 0.0:
            negative += 1
        pivot = small[a, a]
        for c in range(count + 1):
            small[a, c] /= pivot
        for b in range(count):
            share = small[b, a] if b != a else 0.0
            for c in range(count + 1):
                small[b, c] -= share * small[a, c]
    return negative
