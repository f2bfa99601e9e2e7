"""A phone without a screen: speaks Flet's protocol and keeps only what a thumb and an eye need.

Frames as `flet_web/fastapi/flet_app.py` (1.0.5) sends and takes them: a zero byte, then
MessagePack of the action's number and its body. Of each screen it keeps which control each
button is and which step is shown; it taps one, and waits for the next.
"""

from __future__ import annotations

import asyncio
import re
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import asynccontextmanager
from typing import Any

import msgpack
from websockets.asyncio.client import ClientConnection, connect
from websockets.exceptions import ConnectionClosed

_REGISTER, _PATCH, _EVENT, _INVOKE, _CRASHED = 1, 2, 3, 5, 6
_PAGE = 1
_PLACE = re.compile(r"^(\d+) of (\d+)$")
_ANSWERED = re.compile(r"^At the switches\. (\d+) of \d+ answered$")
_PATIENCE_S = 60.0


class FletClient:
    """One page of the app.

    Attributes:
        buttons: key of a button -> the number of its control, as last drawn.
        place: the step shown and how many there are; (0, 0) where none is shown.
        answered: in the cab, how many answers the walk has.
    """

    def __init__(self, socket: ClientConnection) -> None:
        self._socket = socket
        self._news = asyncio.Event()
        self._trouble = ""
        self.buttons: dict[str, int] = {}
        self.place = (0, 0)
        self.answered = 0
        self._listening = asyncio.create_task(self._listen())

    @classmethod
    @asynccontextmanager
    async def opened(cls, address: str, route: str) -> AsyncIterator[FletClient]:
        """A page that opens this address inside the app."""
        url = address.replace("http", "ws", 1) + "ws"
        origin: Any = address.rstrip("/")
        async with connect(url, origin=origin, max_size=None, open_timeout=_PATIENCE_S) as socket:
            client = cls(socket)
            page = {"route": route, "width": 412, "height": 915, "web": True}
            await client._send(_REGISTER, {"session_id": "", "page_name": "", "page": page})
            yield client
        await client._listening

    async def go(self, route: str) -> None:
        """Go to another screen, as the browser's address line does."""
        self.buttons.clear()
        await self._send(
            _EVENT, {"target": _PAGE, "name": "route_change", "data": {"route": route}}
        )

    async def tap(self, key: str) -> None:
        """Tap the button of this key; those of the present screen count as gone then."""
        target = self.buttons.pop(key)
        await self._send(_EVENT, {"target": target, "name": "click", "data": None})

    async def shows(self, *keys: str) -> None:
        """Wait until there is a button of one of these keys."""
        await self.until(lambda: any(key in self.buttons for key in keys))

    async def until(self, holds: Callable[[], bool]) -> None:
        """Wait for what the server sends until something holds.

        Raises:
            AssertionError: it still did not hold after a minute, or the page has ended.
        """
        try:
            async with asyncio.timeout(_PATIENCE_S):
                while not holds():
                    assert not self._trouble, self._trouble
                    self._news.clear()
                    await self._news.wait()
        except TimeoutError:
            raise AssertionError(f"still not so at {self.place}, {self.buttons}") from None

    async def _listen(self) -> None:
        try:
            async for frame in self._socket:
                assert isinstance(frame, bytes)
                action, body = msgpack.unpackb(
                    frame[1:], ext_hook=lambda _, data: data, strict_map_key=False
                )
                await self._take(action, body)
                self._news.set()
        except ConnectionClosed as closed:
            self._trouble = self._trouble or f"the server closed the page: {closed}"
        except Exception as error:
            self._trouble = f"not understood: {error!r}"
        self._news.set()

    async def _take(self, action: int, body: dict[str, Any]) -> None:
        if action == _INVOKE:
            answer = {"control_id": body["control_id"], "call_id": body["call_id"]}
            await self._send(_INVOKE, {**answer, "result": None, "error": None})
        elif action == _CRASHED:
            self._trouble = body["message"]
        else:
            for thing in _things(body["page_patch" if action == _REGISTER else "patch"]):
                self._note(thing)

    def _note(self, thing: dict[str, Any] | str) -> None:
        if isinstance(thing, dict):
            if isinstance(key := thing.get("key"), str) and thing.get("on_click"):
                self.buttons[key] = thing["_i"]
        elif found := _PLACE.match(thing):
            self.place = int(found[1]), int(found[2])
        elif found := _ANSWERED.match(thing):
            self.answered = int(found[1])

    async def _send(self, action: int, body: dict[str, Any]) -> None:
        await self._socket.send(b"\x00" + msgpack.packb([action, body]))


def _things(part: Any) -> Iterator[dict[str, Any] | str]:
    """Every control and every text in a part of a message."""
    if isinstance(part, str):
        yield part
    elif isinstance(part, dict):
        if "_c" in part:
            yield part
        part = list(part.values())
    if isinstance(part, list):
        for each in part:
            yield from _things(each)
