"""The gate around the whole app: pages, files, sound and WebSockets see a request only behind it.

What is let through, in the order in which it is looked at (`admission` decides 1 to 4):

1. Host is well-formed and stands there once; without a key it names this machine. A page of
   another site may bear a name that leads here (DNS rebinding), but it asks in that name.
2. Origin is our own page's for a WebSocket and for whatever is no GET. Browsers open WebSockets
   and send forms across sites, but they say truly from which page.
3. The cookie of a paired device, where there is a key. It is looked at before anything that makes
   an address wait, so that whoever guesses beside a paired device does not hinder it.
4. The key in the address, which is answered with the cookie and the same address without the key.
   An address that has shown too many wrong ones waits, even with the right one.
5. There is room: a limit on open pages and on the size of a body. Only devices that are let in are
   told about it.

Every answer, a refusal or the app's own, then gets the headers of `responses`.

This is plain ASGI, tried against what there is ready-made: Starlette's TrustedHostMiddleware takes
the first of two Hosts and knows no Origin, `secure` writes no header on the answer to a WebSocket,
`limits` counts by the wall clock, each try of the same old cookie anew. Open WebSockets are kept
here, so that a new key ends them at once.
"""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Awaitable, Callable
from typing import Any
from urllib.parse import quote

from starlette.datastructures import Headers
from starlette.responses import RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from walkaround.access.admission import Admission, RequestHead, cookie_name, cookie_value
from walkaround.access.pairing import Pairing
from walkaround.access.responses import refusal_page, secured
from walkaround.base.message import Message as Said

log = logging.getLogger(__name__)

MOST_SOCKETS = 200
"""The number of pages that may be open at once."""
MOST_BODY_BYTES = 2**18
"""The most that one request may carry elsewhere than at `LARGE`."""
LARGE = "/large/"
"""Where record files and photos come in, each by a ticket that says how long it may be."""
MOST_LARGE_BYTES = 500_000_000
"""The most that a request there may carry."""
DROPPED = 4401
"""The WebSocket's close code when the key was changed; 4000 to 4999 are free (RFC 6455, 7.4.2)."""
_REASON = "key changed"
_TO_END_S = 1.0
"""The time that the app has to end a page that is gone."""
_UNREAD_S = 20.0
"""An app that reads nothing for this long has given its page up, as Flet 1.0.5 does at a message
that it cannot understand before the page is drawn: the page would keep its room for good."""
_A_YEAR_S = 365 * 24 * 3600


class Gate:
    """An ASGI app that lets through to another what may enter."""

    def __init__(
        self,
        app: ASGIApp,
        pairing: Pairing | None,
        clock: Callable[[], float] = time.monotonic,
        read: Callable[[Said], str] = str,
    ) -> None:
        """Guard an app.

        Args:
            app: what is guarded.
            pairing: the key; None to serve this machine only, without one.
            clock: seconds that are never set back.
            read: puts a message into words; into those of logs if not said.
        """
        self._app = app
        self._pairing = pairing
        self._clock = clock
        self._read = read
        self._admission = Admission()
        self._open: set[_Socket] = set()
        self._loop: asyncio.AbstractEventLoop | None = None
        if pairing is not None:
            pairing.watch(self._key_changed)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one connection; ASGI 3."""
        self._loop = asyncio.get_running_loop()
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        head = _head(scope)
        key = None if self._pairing is None else self._pairing.key
        decision = self._admission.decide(head, key, self._clock())
        host = "" if decision.act == "foreign" else head.hosts[0]

        async def answer(message: Message) -> None:
            if message["type"] in ("http.response.start", "websocket.http.response.start"):
                message = {**message, "headers": secured(message.get("headers", ()), host)}
            await send(message)

        is_socket = scope["type"] == "websocket"
        if decision.act != "enter" and decision.act != "pair":
            await refusal_page(decision.act, self._read, decision.wait_s)(scope, receive, answer)
        elif is_socket and len(self._open) >= MOST_SOCKETS:
            await refusal_page("full", self._read)(scope, receive, answer)
        elif not is_socket and _carries_too_much(scope):
            await refusal_page("large", self._read)(scope, receive, answer)
        elif decision.act == "pair" and key is not None:
            await _paired(scope["path"], key, head)(scope, receive, answer)
        elif is_socket:
            await self._hold_open(scope, receive, answer)
        else:
            await self._app(scope, receive, answer)

    async def _hold_open(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve a WebSocket until the app or the page ends it, or the app reads no more."""
        page = _Socket(receive, send)
        self._open.add(page)
        session = asyncio.ensure_future(self._app(scope, page.receive, page.send))
        either: set[asyncio.Future[Any]] = {session, page.ended}
        try:
            while not (session.done() or page.ended.done() or page.unread_s() > _UNREAD_S):
                await asyncio.wait(
                    either, timeout=_UNREAD_S / 4, return_when=asyncio.FIRST_COMPLETED
                )
            self._open.discard(page)
            # Flet 1.0.5 waits for ever for the end of a page that went before it was drawn.
            await asyncio.wait({session}, timeout=_TO_END_S)
            if session.done():
                session.result()
        finally:
            self._open.discard(page)
            session.cancel()

    def _key_changed(self) -> None:
        """Drop every open page; called in whatever thread changed the key."""
        if self._loop is not None:
            self._loop.call_soon_threadsafe(self._drop_all)

    def _drop_all(self) -> None:
        log.warning("the key was changed: %d pages dropped", len(self._open))
        for page in self._open:
            page.drop()


class _Socket:
    """One WebSocket, which can be ended from outside: the app and the browser both see it end."""

    def __init__(self, receive: Receive, send: Send) -> None:
        self._receive = receive
        self._send = send
        self._loop = asyncio.get_running_loop()
        self._dropped: asyncio.Future[None] = self._loop.create_future()
        self.ended: asyncio.Future[None] = self._loop.create_future()
        self._closing: asyncio.Task[None] | None = None
        self._reading = False
        self._read_s = self._loop.time()

    def unread_s(self) -> float:
        """Seconds for which the app has not asked for a message; 0 while it waits for one."""
        return 0.0 if self._reading else self._loop.time() - self._read_s

    def drop(self) -> None:
        if not self._dropped.done():
            self._dropped.set_result(None)
            self._closing = self._loop.create_task(self._close())

    async def receive(self) -> Message:
        self._reading = True
        try:
            message: Message | None = await _unless(self._receive(), self._dropped)
        finally:
            self._reading, self._read_s = False, self._loop.time()
        if message is None or self._dropped.done():
            message = {"type": "websocket.disconnect", "code": DROPPED, "reason": _REASON}
        if message["type"] == "websocket.disconnect" and not self.ended.done():
            self.ended.set_result(None)
        return message

    async def send(self, message: Message) -> None:
        # Not to a page that takes nothing any more: the app could not end it.
        if not (self._dropped.done() or self.ended.done()):
            await _unless(self._send(message), self._dropped, self.ended)

    async def _close(self) -> None:
        try:
            await self._send({"type": "websocket.close", "code": DROPPED, "reason": _REASON})
        except Exception as gone:
            log.info("a dropped page had gone before: %r", gone)


async def _unless(doing: Awaitable[Any], *ends: asyncio.Future[None]) -> Any:
    """Wait for what is being done, or for the first of these ends, at which it is given up."""
    task = asyncio.ensure_future(doing)
    either: set[asyncio.Future[Any]] = {task, *ends}
    try:
        await asyncio.wait(either, return_when=asyncio.FIRST_COMPLETED)
        return task.result() if task.done() else None
    finally:
        task.cancel()


def _head(scope: Scope) -> RequestHead:
    headers = Headers(scope=scope)
    return RequestHead(
        client=scope["client"][0] if scope.get("client") else "",
        scheme="https" if scope["scheme"] in ("https", "wss") else "http",
        method=scope.get("method", "GET"),
        socket=scope["type"] == "websocket",
        query=scope["query_string"].decode("latin-1"),
        hosts=tuple(headers.getlist("host")),
        origins=tuple(headers.getlist("origin")),
        cookies=tuple(headers.getlist("cookie")),
    )


def _carries_too_much(scope: Scope) -> bool:
    """Whether the body is too long, or does not say beforehand how long it is."""
    headers = Headers(scope=scope)
    most = MOST_LARGE_BYTES if scope["path"].startswith(LARGE) else MOST_BODY_BYTES
    lengths = headers.getlist("content-length")
    too_long = any(not x.isdecimal() or int(x[:20]) > most for x in lengths)
    return too_long or "transfer-encoding" in headers


def _paired(path: str, key: str, head: RequestHead) -> Response:
    """Give the cookie, and lead to the same place without the key."""
    # From one slash on: `//elsewhere/` would lead to another host.
    place = "/" + quote(path.lstrip("/\\"), safe="/")
    response = RedirectResponse(place, 303, {"cache-control": "no-store"})
    response.set_cookie(
        cookie_name(head.scheme),
        cookie_value(key),
        max_age=_A_YEAR_S,
        httponly=True,
        secure=head.scheme == "https",
    )
    return response
