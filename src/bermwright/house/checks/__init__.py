"""What does not fit together although each value alone is allowed.

Each check names the keys it reads, so that a file with mistakes elsewhere still gets all of the rest.
A module for each kind of part; `SUBJECTS` lists what is walked.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.house.checks.air import air_checks
from bermwright.house.checks.common import Check, Contradiction, Key, beginnings
from bermwright.house.checks.fire import fire_checks
from bermwright.house.checks.ground_heat import ground_heat_checks
from bermwright.house.checks.heat import heat_checks
from bermwright.house.checks.lasting import lasting_checks
from bermwright.house.checks.made.dome import dome_checks
from bermwright.house.checks.made.slip import slip_checks
from bermwright.house.checks.openings import opening_checks
from bermwright.house.checks.site import site_checks
from bermwright.house.checks.stages import stage_checks
from bermwright.house.checks.stock import stock_checks
from bermwright.house.checks.supports import support_checks
from bermwright.house.checks.vault import vault_checks

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from bermwright.house.model import House

__all__ = ["Contradiction", "Key", "contradictions"]

SUBJECTS: tuple[Callable[[House], Iterator[Check]], ...] = (
    site_checks,
    vault_checks,
    stage_checks,
    opening_checks,
    dome_checks,
    slip_checks,
    support_checks,
    heat_checks,
    ground_heat_checks,
    fire_checks,
    air_checks,
    stock_checks,
    lasting_checks,
)


def contradictions(house: House, doubtful: frozenset[Key] = frozenset()) -> tuple[Contradiction, ...]:
    """Everything that does not fit together; values under `doubtful` keys are not looked at."""
    checks = [check for subject in SUBJECTS for check in subject(house)]
    above = frozenset(beginning for key in doubtful for beginning in beginnings(key))
    return tuple(clash for check in checks if check.can_run(doubtful, above) for clash in check.clashes())
