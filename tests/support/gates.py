"""A gate for tests, with raw requests at it: no web server, and no client that puts right."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Mapping, MutableMapping
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from starlette.types import ASGIApp, Message
from support.voices import SilentVoice

from walkaround.access.admission import cookie_value
from walkaround.access.gate import Gate
from walkaround.access.pairing import Pairing
from walkaround.bootstrap import Parts, build
from walkaround.web.server import ungated_app

HOST = "192.0.2.7:8765"
ORIGIN = f"http://{HOST}"


def scope(
    path: str = "/",
    *,
    kind: str = "http",
    method: str = "GET",
    query: str = "",
    headers: Mapping[str, str] | None = None,
    client: str = "192.0.2.9",
    scheme: str = "http",
) -> Message:
    """What a web server makes of a request."""
    told = {"host": HOST, **(headers or {})}
    made: MutableMapping[str, Any] = {
        "type": kind,
        "asgi": {"version": "3.0", "spec_version": "2.4"},
        "http_version": "1.1",
        "scheme": scheme.replace("http", "ws") if kind == "websocket" else scheme,
        "path": path,
        "raw_path": path.encode("utf-8", "surrogatepass"),
        "query_string": query.encode("latin-1"),
        "root_path": "",
        "headers": [(name.encode(), value.encode("latin-1")) for name, value in told.items()],
        "client": (client, 50000),
        "server": ("192.0.2.7", 8765),
        "extensions": {"websocket.http.response": {}},
    }
    return made | ({"subprotocols": []} if kind == "websocket" else {"method": method})


@dataclass
class Answer:
    """What came back."""

    sent: list[Message] = field(default_factory=list)

    @property
    def status(self) -> int:
        """The status; 101 for a WebSocket that was opened."""
        first = self.sent[0]
        return 101 if first["type"] == "websocket.accept" else int(first["status"])

    @property
    def headers(self) -> dict[str, str]:
        return {key.decode(): value.decode() for key, value in self.sent[0]["headers"]}

    @property
    def body(self) -> bytes:
        return b"".join(message.get("body", b"") for message in self.sent[1:])


async def asked(app: ASGIApp, request: Message, body: bytes = b"") -> Answer:
    """The answer to one request; a WebSocket is opened, if it may be, and ends."""
    answer = Answer()
    incoming = asyncio.Queue[Message]()
    if request["type"] == "websocket":
        incoming.put_nowait({"type": "websocket.connect"})
        incoming.put_nowait({"type": "websocket.disconnect", "code": 1001})
    else:
        incoming.put_nowait({"type": "http.request", "body": body, "more_body": False})

    async def send(message: Message) -> None:
        answer.sent.append(message)

    await asyncio.wait_for(app(request, incoming.get, send), 20)
    return answer


class Inner:
    """An app behind a gate that remembers what came through; it says back what it is sent."""

    def __init__(self) -> None:
        self.seen: list[Message] = []
        self.headers: list[tuple[bytes, bytes]] = []

    async def __call__(self, scope: Message, receive: object, send: object) -> None:
        assert callable(receive)
        assert callable(send)
        self.seen.append(scope)
        if scope["type"] == "websocket":
            await send({"type": "websocket.accept", "headers": []})
            while (message := await receive())["type"] != "websocket.disconnect":
                await send({"type": "websocket.send", "text": message.get("text", "hello")})
            self.seen.append(message)
            await send({"type": "websocket.send", "text": "too late"})
        elif scope["type"] == "http":
            await send({"type": "http.response.start", "status": 200, "headers": self.headers})
            await send({"type": "http.response.body", "body": b"inside"})


def paired(pairing: Pairing, more: Mapping[str, str] | None = None) -> dict[str, str]:
    """The headers of a paired device, and others."""
    return {"cookie": f"walkaround_pairing={cookie_value(pairing.key)}", **(more or {})}


@dataclass
class Open:
    """A WebSocket at a gate, held open."""

    task: asyncio.Task[None]
    incoming: asyncio.Queue[Message]
    outgoing: asyncio.Queue[Message]


def opened(app: ASGIApp, request: Message) -> Open:
    """Open a WebSocket and leave it so."""
    incoming, outgoing = asyncio.Queue[Message](), asyncio.Queue[Message]()
    incoming.put_nowait({"type": "websocket.connect"})
    task = asyncio.ensure_future(app(request, incoming.get, outgoing.put))
    return Open(task, incoming, outgoing)


@dataclass
class Guarded:
    """The whole app behind its gate."""

    gate: Gate
    parts: Parts
    pairing: Pairing


@asynccontextmanager
async def guarded(data: Path) -> AsyncIterator[Guarded]:
    """The real app on this data folder, open to the network `192.0.2.0/24`."""
    parts = build(data, voice=SilentVoice(), open_at=f"{ORIGIN}/")
    assert parts.pairing is not None
    app = ungated_app(parts)
    try:
        async with app.router.lifespan_context(app):
            yield Guarded(Gate(app, parts.pairing, clock=lambda: 0.0), parts, parts.pairing)
    finally:
        parts.close()
