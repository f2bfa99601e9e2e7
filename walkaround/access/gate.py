"""The gate, ASGI middleware around the whole app: pages, files, sound and WebSockets.

What a request needs to pass, in the order of the checks (`admission` decides 1 to 4):

1. One well-formed Host; without a key it names this machine. A page of another site may have a name
   that resolves to this machine (DNS rebinding), but its requests have that name as their Host.
2. The Origin of our own page, for a WebSocket and for every method but GET and HEAD. Browsers open
   WebSockets and send forms across sites, but they name the true origin.
3. The cookie of a paired device, where there is a key. It is checked before the limit on wrong
   keys, so that somebody who guesses from the same address does not block a paired device.
4. The key in the address; the response sets the cookie and redirects to the address without the
   key. An address that has shown too many wrong keys must wait, even with the right one.
5. Room: there are limits on open pages and on the size of a body. Only devices that are let in are
   told about it.

Every response, a refusal or the app's own, then gets the headers of `responses`.

Existing middleware was tried and does not do this: Starlette's TrustedHostMiddleware accepts the
first of two Hosts and does not check Origin, `secure` sets no headers on the response to a
WebSocket, `limits` counts by the wall clock, and every try of the same old cookie again. The gate
holds the open WebSockets itself, so that a new key ends them at once.
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
from walkaround.access.responses import refusal_page, with_security_headers
from walkaround.base.message import Message as TextMessage

log = logging.getLogger(__name__)

MOST_SOCKETS = 200
"""The most pages that may be open at once."""
MOST_BODY_BYTES = 2**18
"""The largest body of a request, except at `LARGE`."""
LARGE = "/large/"
"""The address that receives record files and photos, each by a ticket with its size limit."""
MOST_LARGE_BYTES = 500_000_000
"""The largest body of a request at `LARGE`."""
DROPPED = 4401
"""The WebSocket's close code when the key was changed; 4000 to 4999 are free (RFC 6455, 7.4.2)."""
_REASON = "key changed"
_TO_END_S = 1.0
"""How long the app may take to end a page that is gone."""
_UNREAD_S = 20.0
"""An app that does not read for this long has abandoned the page, as Flet 1.0.5 does at a message
that it cannot parse before the page is drawn: the page would count as open forever."""
_A_YEAR_S = 365 * 24 * 3600


class Gate:
    """An ASGI app that lets through to another what may enter."""

    def __init__(
        self,
        app: ASGIApp,
        pairing: Pairing | None,
        clock: Callable[[], float] = time.monotonic,
        text_of: Callable[[TextMessage], str] = str,
    ) -> None:
        """Guard an app.

        Args:
            app: the app behind the gate.
            pairing: the key; None to serve this machine only, without a key.
            clock: returns monotonic seconds.
            text_of: translates a message; by default into the English of logs.
        """
        self._app = app
        self._pairing = pairing
        self._clock = clock
        self._text_of = text_of
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
        head = _request_head(scope)
        key = None if self._pairing is None else self._pairing.key
        decision = self._admission.decide(head, key, self._clock())
        host = "" if decision.act == "foreign" else head.hosts[0]

        async def answer(message: Message) -> None:
            if message["type"] in ("http.response.start", "websocket.http.response.start"):
                message = {
                    **message,
                    "headers": with_security_headers(message.get("headers", ()), host),
                }
            await send(message)

        is_socket = scope["type"] == "websocket"
        if decision.act != "enter" and decision.act != "pair":
            await refusal_page(decision.act, self._text_of, decision.wait_s)(scope, receive, answer)
        elif is_socket and len(self._open) >= MOST_SOCKETS:
            await refusal_page("full", self._text_of)(scope, receive, answer)
        elif not is_socket and _is_too_large(scope):
            await refusal_page("large", self._text_of)(scope, receive, answer)
        elif decision.act == "pair" and key is not None:
            await _pairing_response(scope["path"], key, head)(scope, receive, answer)
        elif is_socket:
            await self._serve_socket(scope, receive, answer)
        else:
            await self._app(scope, receive, answer)

    async def _serve_socket(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve a WebSocket until the app or the page ends it, or the app stops reading."""
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
            # Flet 1.0.5 waits forever for the end of a page that was gone before it was drawn.
            await asyncio.wait({session}, timeout=_TO_END_S)
            if session.done():
                session.result()
        finally:
            self._open.discard(page)
            session.cancel()

    def _key_changed(self) -> None:
        """Drop every open page; called in the thread that changed the key."""
        if self._loop is not None:
            self._loop.call_soon_threadsafe(self._drop_all)

    def _drop_all(self) -> None:
        log.warning("the key was changed: %d pages dropped", len(self._open))
        for page in self._open:
            page.drop()


class _Socket:
    """One WebSocket that can be dropped: the app and the browser both see it end."""

    def __init__(self, receive: Receive, send: Send) -> None:
        self._receive = receive
        self._send = send
        self._loop = asyncio.get_running_loop()
        self._dropped: asyncio.Future[None] = self._loop.create_future()
        self.ended: asyncio.Future[None] = self._loop.create_future()
        self._closing: asyncio.Task[None] | None = None
        self._is_reading = False
        self._last_read_s = self._loop.time()

    def unread_s(self) -> float:
        """Return for how many seconds the app has not read; 0 while it waits for a message."""
        return 0.0 if self._is_reading else self._loop.time() - self._last_read_s

    def drop(self) -> None:
        if not self._dropped.done():
            self._dropped.set_result(None)
            self._closing = self._loop.create_task(self._close())

    async def receive(self) -> Message:
        self._is_reading = True
        try:
            message: Message | None = await _wait_until(self._receive(), self._dropped)
        finally:
            self._is_reading, self._last_read_s = False, self._loop.time()
        if message is None or self._dropped.done():
            message = {"type": "websocket.disconnect", "code": DROPPED, "reason": _REASON}
        if message["type"] == "websocket.disconnect" and not self.ended.done():
            self.ended.set_result(None)
        return message

    async def send(self, message: Message) -> None:
        # Not to a page that is gone: the app would wait for it forever.
        if not (self._dropped.done() or self.ended.done()):
            await _wait_until(self._send(message), self._dropped, self.ended)

    async def _close(self) -> None:
        try:
            await self._send({"type": "websocket.close", "code": DROPPED, "reason": _REASON})
        except Exception as error:
            log.info("a dropped page had gone before: %r", error)


async def _wait_until(awaitable: Awaitable[Any], *ends: asyncio.Future[None]) -> Any:
    """Wait for a result, or for the first of these ends, which cancels it and returns None."""
    task = asyncio.ensure_future(awaitable)
    either: set[asyncio.Future[Any]] = {task, *ends}
    try:
        await asyncio.wait(either, return_when=asyncio.FIRST_COMPLETED)
        return task.result() if task.done() else None
    finally:
        task.cancel()


def _request_head(scope: Scope) -> RequestHead:
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


def _is_too_large(scope: Scope) -> bool:
    """Tell whether the body is too long, or its length is not announced."""
    headers = Headers(scope=scope)
    limit = MOST_LARGE_BYTES if scope["path"].startswith(LARGE) else MOST_BODY_BYTES
    lengths = headers.getlist("content-length")
    too_long = any(not x.isdecimal() or int(x[:20]) > limit for x in lengths)
    return too_long or "transfer-encoding" in headers


def _pairing_response(path: str, key: str, head: RequestHead) -> Response:
    """Set the cookie, and redirect to the same path without the key."""
    # With one slash: `//elsewhere/` would redirect to another host.
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
