"""A real browser in front of a real workbench: a Chromium for each file of tests, a server for each house."""

from __future__ import annotations

import re
import signal
import subprocess
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator

HERE = Path(__file__).parent
CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PATIENCE = 90.0
"""How long something may take on a busy machine (s)."""
TRIES = 20
"""How often something is tried that a drawing which comes just then can spoil."""
NOW = "window.workbench.store.now"


@dataclass
class Served:
    """One `bermwright open`."""

    process: subprocess.Popen[str]
    address: str
    file: Path

    def kill(self) -> None:
        """End it as a power cut would."""
        self.process.send_signal(signal.SIGKILL)
        self._gone()

    def stop(self) -> None:
        """End it as Ctrl-C would."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
        self._gone()

    def _gone(self) -> None:
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait(5)
        if self.process.stdout is not None:
            self.process.stdout.close()


def serve(file: Path, port: int = 0) -> Served:
    """Start the workbench on a file, and read its address."""
    process = subprocess.Popen(
        [sys.executable, "-m", "bermwright", "open", str(file), "--no-browser", "--port", str(port)],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    assert process.stdout is not None
    said = ""
    for line in process.stdout:
        said += line
        found = re.search(r"http://\S+", line)
        if found:
            return Served(process, found.group(0), file)
    process.stdout.close()
    raise AssertionError(f"The workbench did not start: {said}")


@dataclass
class Window:
    """One window of the workbench, with everything that went wrong in it."""

    page: Any
    address: str
    wrong: list[str] = field(default_factory=list)
    """Errors of the console and of the scripts."""
    outside: list[str] = field(default_factory=list)
    """Requests that left this machine."""

    def listen(self) -> None:
        """Note what goes wrong from now on."""
        self.page.on(
            "console", lambda one: one.type == "error" and self.wrong.append(f"{one.text} {one.location}")
        )
        self.page.on("pageerror", lambda error: self.wrong.append(str(error)))
        self.page.on("request", lambda one: self._inside(one.url) or self.outside.append(one.url))

    def _inside(self, url: str) -> bool:
        return url.startswith(("http://127.0.0.1:", "ws://127.0.0.1:", "data:", "blob:"))

    def until(self, truth: str, patience: float = PATIENCE) -> None:
        """Wait for a truth of the page; its own policy forbids that it evaluates one itself."""
        end = time.monotonic() + patience
        while not self.page.evaluate(f"Boolean({truth})"):
            assert time.monotonic() < end, f"waited in vain for {truth}"
            self.page.wait_for_timeout(40)

    def know(self, what: str) -> Any:
        """Something that the page knows."""
        return self.page.evaluate(f"{NOW}.{what}")

    def drawn(self) -> None:
        """Wait for the section and its handles."""
        self.until(f"window.workbench && {NOW}.scene && {NOW}.handles && document.querySelector('.handle')")

    def checked(self, *, at_least: int = 0) -> None:
        """Wait for the full run of the revision in hand."""
        self.until(
            f"{NOW}.found && {NOW}.found.revision === {NOW}.revision.number"
            f" && {NOW}.revision.number >= {at_least}"
        )

    def revised(self, number: int) -> None:
        """Wait for a revision, and for the drawing of it."""
        self.until(
            f"{NOW}.revision.number >= {number} && {NOW}.scene.revision >= {number}"
            f" && {NOW}.handles.revision >= {number} && !{NOW}.held"
        )

    def value(self, handle: str) -> str:
        """The value of a handle as it stands in the file in hand."""
        return self.page.evaluate(f"{NOW}.handles.list.find((one) => one.name === '{handle}').value")

    def undone(self) -> None:
        """Take everything back, so that the next test finds the house as it was."""
        while self.know("revision.undoes"):
            number = self.know("revision.number")
            self.page.evaluate("window.workbench.wire.send({ say: 'undo' })")
            self.revised(number + 1)

    def box(self, selector: str) -> dict[str, float]:
        """Where something stands on the screen; again while the drawing is just being laid anew."""
        one = self.page.locator(selector).first
        for _ in range(TRIES):
            box = one.bounding_box()
            if box is not None:
                return box
            self.page.wait_for_timeout(100)
        raise AssertionError(f"{selector} is not drawn")

    def middle(self, handle: str) -> tuple[float, float]:
        """Where a handle stands on the screen."""
        box = self.box(f'[data-handle="{handle}"] .handle-ring')
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def hold(self, handle: str) -> tuple[float, float]:
        """Press a handle, and give its place; again where the drawing moved between looking and pressing."""
        for _ in range(TRIES):
            x, y = self.middle(handle)
            self.page.mouse.move(x, y)
            self.page.mouse.down()
            if self.page.evaluate("window.workbench.section.handles.pressing === true") and self.middle(
                handle
            ) == (x, y):
                return x, y
            self.page.mouse.up()
            self.page.wait_for_timeout(200)
        raise AssertionError(f"{handle} cannot be held")

    def drag(self, handle: str, right: float, down: float, *, steps: int = 12) -> None:
        """Drag a handle by some pixels, and let go."""
        x, y = self.hold(handle)
        for step in range(1, steps + 1):
            self.page.mouse.move(x + right * step / steps, y + down * step / steps)
            self.page.wait_for_timeout(16)
        self.page.mouse.up()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Without the browser these tests say so; `.ci/run` installs it, so that there none is left out."""
    if CHROMIUM.exists():
        return
    left_out = pytest.mark.skip(reason=f"{CHROMIUM} is not there: `apt-get install chromium`")
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(left_out)


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    """One browser for the tests of a file; its event loop must not run on under the tests of others."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=str(CHROMIUM), args=ARGUMENTS)
        yield browser
        browser.close()


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory, repository: Path) -> Path:
    """The vault of the example that does not hold, with little else: quickly checked, to be changed."""
    whole = (repository / "examples/kettle-hill.toml").read_text()
    vault, _, _ = whole.partition("# Ends and openings")
    assert "[vault.mound]" in vault
    file = tmp_path_factory.mktemp("house") / "small-hill.toml"
    file.write_text(vault + '[stages]\nlift = "0.6 m"\nlead = "0.2 m"\n')
    return file


@pytest.fixture(scope="module")
def served(house: Path) -> Iterator[Served]:
    """The workbench on that example, for all tests of a module: each leaves the house as it found it."""
    one = serve(house)
    yield one
    one.stop()


@pytest.fixture(scope="module")
def room(chromium: Any) -> Iterator[Any]:
    """What the browser keeps for each start of the workbench: its cookie and its storage."""
    known: dict[str, Any] = {}

    def of(address: str) -> tuple[Any, str]:
        """The room, and the address to go to: the key opens it once."""
        if address in known:
            return known[address], address.partition("?")[0]
        known[address] = chromium.new_context()
        return known[address], address

    yield of
    for context in known.values():
        context.close()


@pytest.fixture
def opened(room: Any) -> Iterator[Any]:
    """Opens windows of one start of the workbench; they are closed after the test."""
    pages: list[Any] = []

    def window(
        one: Served,
        *,
        width: int = 1440,
        height: int = 900,
        light: str = "day",
        drawn: bool = True,
        model: bool = False,
    ) -> Window:
        context, address = room(one.address)
        page = context.new_page()
        pages.append(page)
        if not model:  # bodies without a graphics card are most of a page's work
            page.route("**/model.glb*", lambda asked: asked.fulfill(json={"wrong": "Left out here."}))
        page.set_viewport_size({"width": width, "height": height})
        page.emulate_media(color_scheme="dark" if light == "lamp" else "light", reduced_motion="reduce")
        seen = Window(page, address)
        seen.listen()
        page.goto(address)
        if drawn:
            seen.drawn()
        return seen

    yield window
    for page in pages:
        page.evaluate("localStorage.clear()")
        page.close()


@pytest.fixture
def again() -> Iterator[Any]:
    """Starts the workbench another time on a file."""
    started: list[Served] = []

    def start(file: Path, port: int = 0) -> Served:
        started.append(serve(file, port))
        return started[-1]

    yield start
    for one in started:
        one.stop()
