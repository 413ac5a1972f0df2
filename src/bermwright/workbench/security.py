"""Who may speak to the workbench: the right host, the right page, and a key given out at the start."""

from __future__ import annotations

import hmac
import re
import secrets
from dataclasses import dataclass, field
from typing import TYPE_CHECKING
from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, RedirectResponse
from starlette.websockets import WebSocketClose

if TYPE_CHECKING:
    from collections.abc import Callable

    from starlette.types import ASGIApp, Message, Receive, Scope, Send

COOKIE = "bermwright"
POLICY = (
    "default-src 'self'; img-src 'self' data: blob:; style-src 'self'; script-src 'self'; "
    "connect-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
)
OPENERS = "cross-origin-opener-policy"
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    OPENERS: "same-origin",
    "cross-origin-resource-policy": "same-origin",
}
LOOPBACKS = ("127.0.0.1:", "localhost:")
FORBIDDEN, TOO_LARGE = 403, 413
POLICY_CLOSE = 1008
"""Close code of a WebSocket that breaks a rule (RFC 6455, 7.4.1)."""
CHANGES_NOTHING = re.compile(r"/compare/run|/sketch/(?:fit|read)|/lessons/[^/]+/reveal|/start/answer")
"""What is asked for with POST, because it brings much along or takes long, and is for guests too."""
MOST_KEYS = 200
"""Keys of windows that are remembered; older ones are let go."""


@dataclass(slots=True)
class Door:
    """Keys and names by which visitors are let in."""

    hosts: frozenset[str]
    """Names with port by which this server may be called, such as `127.0.0.1:8000`."""
    owner: str = field(default_factory=lambda: secrets.token_urlsafe(24))
    """One-time key of whoever started it; used up by the first visit."""
    guest: str | None = None
    """One-time key of a shared address; None where nothing is shared."""
    guests_edit: bool = False
    told: Callable[[str], None] | None = None
    """Who is told the key of the next guest."""
    sessions: dict[str, bool] = field(default_factory=dict)
    """What stands in the cookie of a window that was let in, and whether it may edit."""
    used: set[str] = field(default_factory=set)

    def share(self, *, edits: bool, told: Callable[[str], None]) -> None:
        """Let guests in, each with a key that opens once; `told` gets the first key, then the next ones."""
        self.guest, self.guests_edit, self.told = secrets.token_urlsafe(12), edits, told
        told(self.guest)

    def open(self, key: str) -> str | None:
        """The session for a one-time key; None where the key is wrong or used up."""
        if self.owner not in self.used and _same(key, self.owner):
            self.used.add(self.owner)
            return self._admitted(edits=True)
        if self.guest is not None and self.told is not None and _same(key, self.guest):
            session = self._admitted(edits=self.guests_edit)
            self.share(edits=self.guests_edit, told=self.told)
            return session
        return None

    def _admitted(self, *, edits: bool) -> str:
        session = secrets.token_urlsafe(24)
        self.sessions[session] = edits
        while len(self.sessions) > MOST_KEYS:
            del self.sessions[next(iter(self.sessions))]
        return session

    def may(self, cookies: str | None) -> bool | None:
        """Whether a visitor may edit; None where it may not even look."""
        for part in (cookies or "").split(";"):
            name, _, value = part.strip().partition("=")
            if name == COOKIE and value in self.sessions:
                return self.sessions[value]
        return None

    def knows(self, headers: Headers, *, needs_origin: bool) -> bool:
        """Whether the host is ours and whatever page asks comes from here."""
        host = headers.get("host", "")
        if host not in self.hosts:
            return False
        origin = headers.get("origin")
        if origin is None:
            return not needs_origin
        return origin in {f"http://{host}", f"https://{host}"}


def _same(key: str, known: str) -> bool:
    """Whether two keys are one, in the same time whatever they are."""
    return hmac.compare_digest(key.encode("utf-8"), known.encode("utf-8"))


class Guard:
    """Stands before the whole application, HTTP and WebSocket alike."""

    def __init__(self, app: ASGIApp, door: Door, largest: int) -> None:
        self.app = app
        self.door = door
        self.largest = largest

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let in, or turn away."""
        if scope["type"] == "http":
            await self._http(scope, receive, send)
        elif scope["type"] == "websocket":
            await self._socket(scope, receive, send)
        else:
            await self.app(scope, receive, send)

    async def _http(self, scope: Scope, receive: Receive, send: Send) -> None:
        headers = Headers(scope=scope)
        sealed = _sealed(send, here=headers.get("host", "").startswith(LOOPBACKS))
        writes = scope["method"] not in {"GET", "HEAD"}
        if not self.door.knows(headers, needs_origin=writes):
            await _refused("This address is not served here.")(scope, receive, sealed)
            return
        key = parse_qs(scope.get("query_string", b"").decode("latin-1")).get("key")
        if key and not writes:
            await self._with_key(key[0], scope, receive, sealed)
            return
        edits = self.door.may(headers.get("cookie"))
        if edits is None:
            await _refused(
                "Open the address that `bermwright open` printed: it holds the key for this start."
            )(scope, receive, sealed)
            return
        if writes and not edits and not CHANGES_NOTHING.fullmatch(scope["path"]):
            await _refused("This house was shared to look at only. Nothing was changed.")(
                scope, receive, sealed
            )
            return
        if not _fits(headers, self.largest):
            await PlainTextResponse("What was sent is too large.", TOO_LARGE)(scope, receive, sealed)
            return
        scope.setdefault("state", {})["edits"] = edits
        await self.app(scope, _counted(receive, self.largest), sealed)

    async def _with_key(self, key: str, scope: Scope, receive: Receive, send: Send) -> None:
        """Swap a one-time key for a cookie, and take it out of the address."""
        session = self.door.open(key)
        if session is None and self.door.may(Headers(scope=scope).get("cookie")) is None:
            await _refused("This key was used already, or belongs to another start. Start `open` again.")(
                scope, receive, send
            )
            return
        answer = RedirectResponse(scope["path"] or "/", status_code=303)
        if session is not None:
            answer.set_cookie(COOKIE, session, httponly=True, samesite="strict", path="/")
        await answer(scope, receive, send)

    async def _socket(self, scope: Scope, receive: Receive, send: Send) -> None:
        headers = Headers(scope=scope)
        edits = self.door.may(headers.get("cookie"))
        if edits is None or not self.door.knows(headers, needs_origin=True):
            await WebSocketClose(POLICY_CLOSE)(scope, receive, send)
            return
        scope.setdefault("state", {})["edits"] = edits
        await self.app(scope, receive, send)


def _refused(text: str) -> PlainTextResponse:
    return PlainTextResponse(text, FORBIDDEN)


def _fits(headers: Headers, largest: int) -> bool:
    """Whether the size that is announced may be sent at all."""
    size = headers.get("content-length", "0")
    return size.isdigit() and int(size) <= largest


class TooLargeError(Exception):
    """More was sent than announced."""


def _counted(receive: Receive, largest: int) -> Receive:
    """The same stream, ended where more comes than may."""
    got = 0

    async def counted() -> Message:
        nonlocal got
        message = await receive()
        got += len(message.get("body", b""))
        if got > largest:
            raise TooLargeError
        return message

    return counted


def _sealed(send: Send, *, here: bool) -> Send:
    """Every answer with the headers that keep a page to itself.

    The one against other openers counts on this machine alone: over a network without encryption browsers
    ignore it and complain.
    """
    wanted = {name: value for name, value in HEADERS.items() if here or name != OPENERS}

    async def sealed(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in wanted.items():
                headers[name] = value
            if not headers.get("cache-control"):
                headers["cache-control"] = "no-store"
        await send(message)

    return sealed
