"""A workbench in this process: one house on the desk, windows that speak and hear, a full run made once."""

from __future__ import annotations

import shutil
from contextlib import contextmanager
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from bermwright.app.desk import Desk
from bermwright.app.live.full import full_run
from bermwright.formats.house_file import load
from bermwright.workbench import tasks
from bermwright.workbench.jobs import Workers
from bermwright.workbench.security import Door
from bermwright.workbench.server import application
from bermwright.workbench.table import Table

LARCH_BANK = Path(__file__).resolve().parents[3] / "examples" / "larch-bank.toml"
HOST = "testserver"
ORIGIN = {"origin": f"http://{HOST}"}


class Window:
    """One window of a browser: says, and hears what it waits for."""

    def __init__(self, socket) -> None:
        self.socket = socket
        self.heard = []

    def say(self, what, /, **more):
        self.socket.send_json({"say": what, **more})

    def hear(self, what, wanted=lambda _message: True):
        """The next message of a kind; whatever comes before it is noted."""
        while True:
            message = self.socket.receive_json()
            self.heard.append(message)
            if message["say"] == what and wanted(message):
                return message
            if message["say"] == "wrong" and what != "wrong":
                raise AssertionError(message)

    def ask(self, what, answer, /, **more):
        self.say(what, id="asked", **more)
        return self.hear(answer, lambda message: message.get("to") == "asked")


@pytest.fixture
def speaking():
    """A window on a socket."""
    return Window


@pytest.fixture(scope="session")
def found():
    """What a full run finds of the example; made once."""
    opened = load(LARCH_BANK)
    return full_run(opened.house, opened.not_read)[1]


@pytest.fixture
def file(tmp_path):
    return Path(shutil.copy(LARCH_BANK, tmp_path / "house.toml"))


class Bench:
    """A server with its client."""

    def __init__(self, client, table, door) -> None:
        self.client, self.table, self.door = client, table, door

    @contextmanager
    def window(self, **more):
        with self.client.websocket_connect("/live", headers=ORIGIN) as socket:
            window = Window(socket)
            window.say("hello", theme="day", units="metric", width=968, **more)
            window.hear("scene")
            window.hear("found")
            window.hear("scene", lambda scene: not scene["provisional"])
            yield window


@contextmanager
def served(file):
    door = Door(hosts=frozenset({HOST}))
    table = Table(None if file is None else Desk(file), workers=Workers(inline=True))
    with TestClient(application(table, door)) as client:
        yield Bench(client, table, door)


@pytest.fixture
def bench(file, found, monkeypatch):
    """A workbench whose owner has come in, and whose full run is ready at once."""
    monkeypatch.setattr(tasks, "full", lambda _number, _text, _name: found)
    with served(file) as running:
        running.client.get("/", params={"key": running.door.owner})
        yield running


@pytest.fixture
def serve(found, monkeypatch):
    """A workbench to which nobody has come yet; with no file where none is given."""
    monkeypatch.setattr(tasks, "full", lambda _number, _text, _name: found)
    return served
