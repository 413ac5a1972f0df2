"""Starting and ending the server: its port, its keys, the browser, and nothing left behind."""

from __future__ import annotations

import signal
import socket
import webbrowser
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING

import uvicorn

from bermwright.app.desk import Desk
from bermwright.base.errors import BermwrightError
from bermwright.workbench.security import Door
from bermwright.workbench.server import LARGEST_MESSAGE, application
from bermwright.workbench.table import Table

if TYPE_CHECKING:
    from collections.abc import Callable

LOOPBACK = "127.0.0.1"
NOWHERE = ("192.0.2.1", 9)
"""An address that leads nowhere (RFC 5737): asking the way there sends nothing, and names our own address."""
GRACE = 2
"""How long open windows are waited for at the end (s)."""


class PortError(BermwrightError):
    """A port or a network that cannot be had."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenWishes:
    """How the workbench is wanted."""

    file: str | None = None
    """The house file; a start page where there is none."""
    port: int = 0
    """0: any that is free."""
    browser: bool = True
    share: bool = False
    """Whether phones and other machines in the same network may look."""
    share_edit: bool = False
    """Whether they may change the house too."""


class Ended(BaseException):
    """The process was told to end."""


def serve(wishes: OpenWishes, say: Callable[[str], None]) -> None:
    """Serve until Ctrl-C or a signal ends it; then port, windows and workers are gone."""
    desk = Desk(wishes.file) if wishes.file is not None else None
    table = Table(desk)
    lan = _own_address() if wishes.share or wishes.share_edit else None
    sockets = _listen(LOOPBACK, lan, wishes.port)
    port = sockets[0].getsockname()[1]
    door = Door(hosts=_hosts(port, lan))
    config = uvicorn.Config(
        application(table, door),
        log_level="warning",
        access_log=False,
        server_header=False,
        ws="websockets-sansio",
        ws_max_size=LARGEST_MESSAGE,
        # Packing a drawing takes longer than sending it on one machine.
        ws_per_message_deflate=lan is not None,
        timeout_graceful_shutdown=GRACE,
        lifespan="on",
    )
    address = f"http://{LOOPBACK}:{port}/?key={door.owner}"
    say(f"The workbench: {address}")
    if lan is not None:
        door.share(edits=wishes.share_edit, told=lambda key: _shared(lan, port, key, wishes, say))
    else:
        say("Nothing leaves this machine.")
    say("Ctrl-C ends it.")
    if wishes.browser:
        webbrowser.open(address)
    _run(uvicorn.Server(config), sockets)
    # What was on the desk at the end, which need not be what it was opened with.
    if table.desk is not None and not table.desk.kept:
        say(f"Not kept yet: what was changed comes back with `bermwright open {table.desk.path.name}`.")
    say("The workbench is closed.")


def _run(server: uvicorn.Server, sockets: list[socket.socket]) -> None:
    """Serve; a signal that ends it is no fault."""
    before = signal.signal(signal.SIGTERM, _end)
    try:
        with suppress(KeyboardInterrupt, Ended):
            server.run(sockets=sockets)
    finally:
        signal.signal(signal.SIGTERM, before)
        for one in sockets:
            one.close()


def _end(_number: int, _frame: object) -> None:
    raise Ended


def _hosts(port: int, lan: str | None) -> frozenset[str]:
    names = [LOOPBACK, "localhost", *([lan] if lan is not None else [])]
    return frozenset(f"{name}:{port}" for name in names)


def _own_address() -> str:
    """The address of this machine in its network. Nothing is sent to learn it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(NOWHERE)
        except OSError:
            raise PortError(
                "This machine is in no network, so that nothing can be shared. Leave --share out."
            ) from None
        found: str = asking.getsockname()[0]
    if found.startswith("127.") or found == "0.0.0.0":  # noqa: S104  (compared, not listened on)
        raise PortError("This machine is in no network, so that nothing can be shared. Leave --share out.")
    return found


def _listen(host: str, lan: str | None, port: int) -> list[socket.socket]:
    """Sockets on the wanted port, here and where it is shared; refused with a sentence where it is taken."""
    sockets: list[socket.socket] = []
    try:
        sockets.append(_bound(host, port))
        if lan is not None:
            sockets.append(_bound(lan, sockets[0].getsockname()[1]))
    except (OSError, OverflowError) as error:
        for one in sockets:
            one.close()
        why = error.strerror if isinstance(error, OSError) else "a port is a number up to 65535"
        raise PortError(
            f"Port {port} cannot be had: {why}. Give another with --port, or leave it out."
        ) from None
    return sockets


def _bound(host: str, port: int) -> socket.socket:
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((host, port))
        # Whoever comes before the server is ready waits, and is not turned away.
        listening.listen()
    except BaseException:
        listening.close()
        raise
    return listening


def _shared(lan: str, port: int, key: str, wishes: OpenWishes, say: Callable[[str], None]) -> None:
    """The address for one more phone, in words and as a picture for its camera."""
    import io

    import segno

    address = f"http://{lan}:{port}/?key={key}"
    drawn = io.StringIO()
    segno.make(address, error="m").terminal(out=drawn, compact=True)
    may = "look at this house and change it" if wishes.share_edit else "look at this house"
    say(f"Whoever opens this may {may}, once each: {address}")
    say(drawn.getvalue().rstrip("\n"))
    say("It goes over your own network unencrypted: share it only where you trust everybody.")
