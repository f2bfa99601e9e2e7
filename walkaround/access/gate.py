"""The gate around the whole app: pages, files, sound and WebSocket see a request only behind it.

Pure ASGI: what a web framework calls middleware does not see WebSockets. The open ones are kept
here, so that a new key ends them at once.
"""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any
from urllib.parse import quote

from walkaround.access.admission import Admission, Knock, Scheme, Verdict, cookie_name, cookie_value
from walkaround.access.pairing import Pairing
from walkaround.access.responses import Refusal, refusal
from walkaround.access.securityheaders import secured

log = logging.getLogger(__name__)

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Message, Receive, Send], Awaitable[None]]

MOST_SOCKETS = 200
"""So many pages may be open at once."""
MOST_BODY_BYTES = 2**18
"""No request may carry more."""
DROPPED = 4401
"""The WebSocket's close code when the key was changed; 4000 to 4999 are free (RFC 6455, 7.4.2)."""
_GONE: Message = {"type": "websocket.disconnect", "code": DROPPED, "reason": "key changed"}
_TO_END_S = 1.0
"""So long the app may take to end a page that is gone."""
_UNREAD_S = 20.0
"""An app that reads nothing for so long has given its page up, as Flet 1.0.5 does at a message that
it cannot understand before the page is drawn: the page would keep its room for good."""
_A_YEAR_S = 365 * 24 * 3600


class Gate:
    """An ASGI app that lets through to another what may enter."""

    def __init__(
        self, app: App, pairing: Pairing | None, clock: Callable[[], float] = time.monotonic
    ) -> None:
        """Guard an app.

        Args:
            app: what is guarded.
            pairing: the key; None to serve this machine only, without one.
            clock: seconds that are never set back.
        """
        self._app = app
        self._pairing = pairing
        self._clock = clock
        self._admission = Admission()
        self._open: set[_Line] = set()
        self._loop: asyncio.AbstractEventLoop | None = None
        if pairing is not None:
            pairing.watch(self._key_changed)

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Serve one connection; ASGI 3."""
        self._loop = asyncio.get_running_loop()
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        knock = _knock(scope)
        key = None if self._pairing is None else self._pairing.key
        verdict = self._admission.judge(knock, key, self._clock())
        host = "" if verdict.act == "foreign" else knock.hosts[0]
        answer = _answering(send, host)
        refused = self._refused(scope, verdict)
        if refused is not None:
            await _refuse(scope, answer, refused)
        elif verdict.act == "pair" and key is not None:
            await _pair(scope, answer, key, knock.scheme)
        elif scope["type"] == "websocket":
            await self._talk(scope, receive, answer)
        else:
            await self._app(scope, receive, answer)

    def _refused(self, scope: Message, verdict: Verdict) -> Refusal | None:
        if verdict.act != "enter" and verdict.act != "pair":
            return refusal(verdict.act, verdict.wait_s)
        if scope["type"] == "websocket":
            return refusal("full") if len(self._open) >= MOST_SOCKETS else None
        return refusal("large") if _carries_too_much(scope) else None

    async def _talk(self, scope: Message, receive: Receive, send: Send) -> None:
        line = _Line(receive, send)
        self._open.add(line)
        talk = asyncio.ensure_future(self._app(scope, line.receive, line.send))
        either: set[asyncio.Future[Any]] = {talk, line.ended}
        try:
            while not (talk.done() or line.ended.done() or line.unread_s() > _UNREAD_S):
                await asyncio.wait(
                    either, timeout=_UNREAD_S / 4, return_when=asyncio.FIRST_COMPLETED
                )
            self._open.discard(line)
            # Flet 1.0.5 waits for ever for the end of a page that went before it was drawn.
            await asyncio.wait({talk}, timeout=_TO_END_S)
            if talk.done():
                talk.result()
        finally:
            self._open.discard(line)
            talk.cancel()

    def _key_changed(self) -> None:
        """Called in whatever thread changed it."""
        if self._loop is not None:
            self._loop.call_soon_threadsafe(self._drop_all)

    def _drop_all(self) -> None:
        log.warning("the key was changed: %d pages dropped", len(self._open))
        for line in self._open:
            line.drop()


class _Line:
    """One WebSocket, which can be ended from outside: the app and the browser both see it end."""

    def __init__(self, receive: Receive, send: Send) -> None:
        self._receive = receive
        self._send = send
        loop = asyncio.get_running_loop()
        self._dropped: asyncio.Future[None] = loop.create_future()
        self.ended: asyncio.Future[None] = loop.create_future()
        self._closing: asyncio.Task[None] | None = None
        self._loop = loop
        self._reading = False
        self._read_s = loop.time()

    def unread_s(self) -> float:
        """Seconds for which the app has not asked for a message; 0 while it waits for one."""
        return 0.0 if self._reading else self._loop.time() - self._read_s

    def drop(self) -> None:
        if not self._dropped.done():
            self._dropped.set_result(None)
            self._closing = asyncio.get_running_loop().create_task(self._close())

    async def receive(self) -> Message:
        incoming = asyncio.ensure_future(self._receive())
        either: set[asyncio.Future[Any]] = {incoming, self._dropped}
        self._reading = True
        try:
            await asyncio.wait(either, return_when=asyncio.FIRST_COMPLETED)
            message = _GONE if self._dropped.done() else incoming.result()
        finally:
            incoming.cancel()
            self._reading, self._read_s = False, self._loop.time()
        if message["type"] == "websocket.disconnect" and not self.ended.done():
            self.ended.set_result(None)
        return message

    async def send(self, message: Message) -> None:
        if self._dropped.done() or self.ended.done():
            return
        sending = asyncio.ensure_future(self._send(message))
        either: set[asyncio.Future[Any]] = {sending, self._dropped, self.ended}
        try:
            # Not to a page that takes nothing any more: the app could not end it.
            await asyncio.wait(either, return_when=asyncio.FIRST_COMPLETED)
            if sending.done():
                sending.result()
        finally:
            sending.cancel()

    async def _close(self) -> None:
        try:
            await self._send({"type": "websocket.close", "code": DROPPED, "reason": "key changed"})
        except Exception as gone:
            log.info("a dropped page had gone before: %r", gone)


def _knock(scope: Message) -> Knock:
    secure = scope["scheme"] in ("https", "wss")
    return Knock(
        client=scope["client"][0] if scope.get("client") else "",
        scheme="https" if secure else "http",
        method=scope.get("method", "GET"),
        socket=scope["type"] == "websocket",
        query=scope["query_string"].decode("latin-1"),
        hosts=_all(scope, b"host"),
        origins=_all(scope, b"origin"),
        cookies=_all(scope, b"cookie"),
    )


def _all(scope: Message, name: bytes) -> tuple[str, ...]:
    return tuple(value.decode("latin-1") for key, value in scope["headers"] if key == name)


def _carries_too_much(scope: Message) -> bool:
    """Whether the body is too long, or does not say beforehand how long it is."""
    lengths = _all(scope, b"content-length")
    too_long = any(not x.isdecimal() or int(x[:20]) > MOST_BODY_BYTES for x in lengths)
    return too_long or bool(_all(scope, b"transfer-encoding"))


def _answering(send: Send, host: str) -> Send:
    """The same `send`, with our headers on whatever answer goes through it."""

    async def answer(message: Message) -> None:
        if message["type"] in ("http.response.start", "websocket.http.response.start"):
            message = {**message, "headers": secured(message.get("headers", ()), host)}
        await send(message)

    return answer


async def _refuse(scope: Message, send: Send, refused: Refusal) -> None:
    head = scope.get("method") == "HEAD"
    await _answer(scope, send, refused.status, refused.headers, b"" if head else refused.page)


async def _pair(scope: Message, send: Send, key: str, scheme: Scheme) -> None:
    """Give the cookie, and lead to the same place without the key."""
    # From one slash on: `//elsewhere/` would lead to another host.
    place = "/" + quote(scope["path"].lstrip("/\\"), safe="/")
    parts = [f"{cookie_name(scheme)}={cookie_value(key)}", "Path=/", f"Max-Age={_A_YEAR_S}"]
    parts += ["HttpOnly", "SameSite=Lax", *(["Secure"] if scheme == "https" else [])]
    headers = (
        (b"location", place.encode("ascii")),
        (b"set-cookie", "; ".join(parts).encode("ascii")),
        (b"cache-control", b"no-store"),
        (b"content-length", b"0"),
    )
    await _answer(scope, send, 303, headers, b"")


async def _answer(
    scope: Message, send: Send, status: int, headers: tuple[tuple[bytes, bytes], ...], body: bytes
) -> None:
    prefix = "websocket.http" if scope["type"] == "websocket" else "http"
    if prefix == "websocket.http" and "websocket.http.response" not in (
        scope.get("extensions") or ()
    ):
        await send({"type": "websocket.close", "code": 1008})
        return
    await send({"type": f"{prefix}.response.start", "status": status, "headers": headers})
    await send({"type": f"{prefix}.response.body", "body": body})
