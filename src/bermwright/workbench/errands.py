"""What a window asks for that takes longer: remedies and jobs, with progress, an end, and what came of it."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Any

from bermwright.app.live.telling import mend_rows
from bermwright.base.errors import BermwrightError
from bermwright.formats.mends import mended_copy
from bermwright.workbench import tasks
from bermwright.workbench.seat import RefusedError, fault
from bermwright.workbench.table import Winter

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.adapt.mend.nouns import Mended, Proposal
    from bermwright.base.findings import Finding
    from bermwright.workbench.seat import Seat
    from bermwright.workbench.table import Page, Table

    Message = dict[str, Any]

LONGEST_RULE = 80
"""Letters of a rule's name."""
MOST_JOBS = 6
"""Jobs of one window that may wait or run at the same time."""


async def mends(seat: Seat, message: Message) -> None:
    """Look for the remedies of a finding, beside everything else."""
    number, finding, page = _finding(seat, message)
    job = _begin(seat)
    seat.table.background(_mends(seat, job, number, finding, page, message.get("id")))


async def _mends(seat: Seat, job: int, number: int, finding: Finding, page: Page, to: str | None) -> None:
    table = seat.table
    given = (page.text, page.path, finding.rule, finding.part)

    async def work() -> None:
        mended: Mended = await table.workers.do("job", job, _told(seat, job, "mends"), tasks.mends, *given)
        seat.remedies[number] = (page.number, mended.proposals)
        rows, says = mend_rows(mended, seat.look.system)
        await seat.send(
            {"say": "mends", "revision": page.number, "finding": number, "list": rows, "says": says}, to
        )

    await _watched(seat, job, "mends", work, to)


async def evidence(seat: Seat, message: Message) -> None:
    """What checks the equations behind a rule, beside everything else."""
    from bermwright.rules.registry import rule_named

    rule = rule_named(str(message.get("rule", ""))[:LONGEST_RULE]).name
    seat.table.background(_evidence(seat, rule, message.get("id")))


async def _evidence(seat: Seat, rule: str, to: str | None) -> None:
    from bermwright.app.showing.proving import proof_of

    try:
        proof = await asyncio.to_thread(proof_of, rule)
    except Exception as error:  # noqa: BLE001  (the window must learn that nothing will come)
        await seat.send(fault(error), to)
        return
    await seat.send({"say": "evidence", **proof}, to)


async def remedy(seat: Seat, message: Message) -> None:
    """Put one remedy into the file, as one edit."""
    seat.may_edit()
    desk = seat.desk()
    revision, proposals = seat.remedies.get(int(message.get("finding", -1)), (None, ()))
    wanted = int(message.get("number", 0))
    if revision is None or not 1 <= wanted <= len(proposals):
        raise RefusedError("Look for the remedies first; this one is not known.")
    if revision != desk.number:
        raise RefusedError("This remedy was found for another revision. Look for it again.")
    chosen = proposals[wanted - 1]
    label = " ".join(change.sentence() for change in chosen.changes)

    def put() -> int:
        return desk.change(lambda text: _with(text, chosen, desk.path.name), label, base=message.get("base"))

    await seat.table.by_hand(put)
    await seat.table.changed(label, (seat, message.get("id")))


def _with(text: str, chosen: Proposal, name: str) -> str:
    return mended_copy(text, chosen, name)


async def job(seat: Seat, message: Message) -> None:
    """Make something that takes longer, beside everything else."""
    what, options = str(message.get("what", "")), message.get("options") or {}
    if not isinstance(options, dict):
        raise RefusedError("The options of a job are a table.")
    page = seat.page()
    if what == "full":
        seat.table.follow()
        return
    if what not in tasks.JOBS:
        raise RefusedError(f"There is no job named {what[:40]}. There are: {', '.join(tasks.JOBS)}.")
    options = {"units": seat.look.system, **options}
    number = _begin(seat)
    seat.table.background(_job(seat, number, what, options, page, message.get("id")))


async def _job(seat: Seat, number: int, what: str, options: Message, page: Page, to: str | None) -> None:
    table = seat.table
    given = (what, page.text, page.path, str(table.made_for(number)), options)

    async def work() -> None:
        made = await table.workers.do("job", number, _told(seat, number, what), tasks.job, *given)
        name = made["name"]
        if what == "winter":
            said = {one["vault"]: one for one in made["data"]["vaults"]}
            table.remember(page.text, Winter(said=said, ground=made["ground"]))
        await seat.send(
            {
                "say": "done",
                "job": number,
                "what": what,
                "revision": page.number,
                "url": f"/made/{number}/{name}" if name else None,
                "name": name,
                "data": made["data"],
            },
            to,
        )
        if what == "winter":
            await _told_of_winter(table)

    await _watched(seat, number, what, work, to)


async def _told_of_winter(table: Table) -> None:
    """Every window learns that the year was reckoned; what shows the ground is drawn anew."""
    for seat in tuple(table.seats):
        await seat.axes()
        await seat.drawing()


async def stop(seat: Seat, message: Message) -> None:
    """End a job of this window, or the full run that follows the file."""
    number = message.get("job")
    if not isinstance(number, int):
        raise RefusedError("Which job is to end?")
    if number not in seat.jobs:
        seat.may_edit()  # a guest ends what a guest began, and nothing else
    seat.table.workers.stop(number)


def _begin(seat: Seat) -> int:
    if len(seat.jobs) >= MOST_JOBS:
        raise RefusedError("So many jobs are under way already. Wait for one, or stop one.")
    number = seat.table.workers.number()
    seat.jobs.add(number)
    return number


async def _watched(seat: Seat, number: int, what: str, work: Callable[[], Any], to: str | None) -> None:
    """Do the work; say how it ended."""
    try:
        await seat.send(
            {"say": "progress", "job": number, "what": what, "step": "waiting for its turn", "share": None}
        )
        await work()
    except tasks.Stopped:
        await seat.send({"say": "stopped", "job": number, "what": what}, to)
    except BermwrightError as error:
        await seat.send({"say": "wrong", "kind": "refused", "text": str(error), "job": number}, to)
    except Exception as error:  # noqa: BLE001  (the window must learn that nothing more will come)
        await seat.send(fault(error) | {"job": number}, to)
    finally:
        seat.jobs.discard(number)


def _told(seat: Seat, number: int, what: str) -> Callable[[str], None]:
    def told(step: str) -> None:
        line = {"say": "progress", "job": number, "what": what, "step": step, "share": None}
        seat.table.background(seat.send(line))

    return told


def _finding(seat: Seat, message: Message) -> tuple[int, Finding, Page]:
    """The finding that is meant, of a full run that speaks of the house in hand."""
    page, result, number = seat.page(), seat.table.result, message.get("finding")
    if result is None or result.number != page.number:
        raise RefusedError("The full run of this revision is still under way. Ask again once it is done.")
    if not isinstance(number, int) or not 0 <= number < len(result.found.findings):
        raise RefusedError("There is no such finding.")
    return number, result.found.findings[number], page
