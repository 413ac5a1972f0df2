"""Is a row of measured ordinates fair? Second differences show the one that is wrong."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

FEWEST = 5


class Fairing(NamedTuple):
    """Ordinates with their differences, and which one does not lie on a fair curve."""

    first: Array
    """First differences, one fewer than the ordinates (m)."""
    second: Array
    """Second differences, two fewer (m)."""
    unfair: tuple[int, ...]
    """Numbers of the ordinates that are out, counted from 0."""
    off: Array
    """How far each ordinate is from where its neighbours would have it (m); NaN for the two at each end."""


def fairing(ordinates: ArrayLike, *, least: float = 0.003) -> Fairing:
    """Differences of ordinates at even distances, and the ordinates that are not fair.

    e_i = Δ⁴y_i/6: what an ordinate must move for its fourth difference to vanish

    Parameters
    ----------
    ordinates : array
        Ordinates at even distances [m]; at least five.
    least : float
        Error that is never called unfair [m], above 0.

    Returns
    -------
    Fairing
        First and second differences, the errors [m], and the numbers of what is out.

    Notes
    -----
    An error e in one ordinate shows in its second differences as e, −2 e, e, and in the fourth as e, −4 e,
    6 e, −4 e, e. The largest is taken first and put right before the next is looked for. The second
    ordinate from an end can be told only by a slant, and the end itself not at all.

    References
    ----------
    [FAIRING] : differences of a table of offsets.

    Examples
    --------
    >>> fairing([0.0, 1.0, 4.0, 9.5, 16.0, 25.0, 36.0]).unfair
    (3,)
    """
    within("ordinates", ordinates, unit="m")
    within("least", least, 0.0, unit="m", open_low=True)
    y = np.array(ordinates, dtype=float)
    if y.size < FEWEST:
        raise OutOfRangeError(f"Fairing needs five ordinates at even distances; there are {y.size}.")
    found: list[int] = []
    fair = y.copy()
    for _ in range(y.size // 3):
        error = np.diff(fair, 4) / 6.0
        worst = int(np.argmax(np.abs(error)))
        if abs(error[worst]) <= least:
            break
        found.append(worst + 2)
        fair[worst + 2] -= error[worst]
    off = np.full(y.size, np.nan)
    off[2:-2] = (y - fair)[2:-2]
    return Fairing(first=np.diff(y), second=np.diff(y, 2), unfair=tuple(sorted(set(found))), off=off)
