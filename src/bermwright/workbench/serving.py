"""Starting and ending the server: its port, its keys, the browser, and nothing left behind."""

from __future__ import annotations

import socket
import webbrowser
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
GRACE = 2
"""How long open windows are waited for at the end (s)."""


class PortError(BermwrightError):
    """A port that cannot be had."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenWishes:
    """How the workbench is wanted."""

    file: str | None = None
    port: int = 0
    """0: any that is free."""
    browser: bool = True
    share: bool = False
    share_edit: bool = False


def serve(wishes: OpenWishes, say: Callable[[str], None]) -> None:
    """Serve until Ctrl-C or a signal ends it; then port, windows and workers are gone."""
    desk = Desk(wishes.file) if wishes.file is not None else None
    listening = _listen(LOOPBACK, wishes.port)
    port = listening.getsockname()[1]
    door = Door(hosts=frozenset({f"{LOOPBACK}:{port}", f"localhost:{port}"}))
    app = application(Table(desk), door)
    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        ws="websockets-sansio",
        ws_max_size=LARGEST_MESSAGE,
        timeout_graceful_shutdown=GRACE,
        lifespan="on",
    )
    address = f"http://{LOOPBACK}:{port}/?key={door.owner}"
    say(f"The workbench: {address}")
    say("Ctrl-C ends it. Nothing leaves this machine.")
    if wishes.browser:
        webbrowser.open(address)
    uvicorn.Server(config).run(sockets=[listening])


def _listen(host: str, port: int) -> socket.socket:
    """A socket on the wanted port, refused with a sentence where it is taken."""
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((host, port))
        # Whoever comes before the server is ready waits, and is not turned away.
        listening.listen()
    except OSError as error:
        listening.close()
        raise PortError(
            f"Port {port} cannot be had: {error.strerror}. Give another with --port, or leave it out."
        ) from None
    return listening
