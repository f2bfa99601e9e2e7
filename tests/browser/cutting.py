"""The way between a phone and the app, which can be cut, go silent, or begin at a new address.

It stands for radio and routers: a TCP relay in a thread of its own. What it does to a connection
is what the two ends would notice of it, and no more.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Coroutine, Iterator
from contextlib import contextmanager, suppress
from threading import Thread
from typing import Any
from urllib.parse import urlsplit

OTHER_ADDRESS = "127.0.0.2"
"""Another address of this machine: as if the phone went from Wi-Fi to mobile data."""
_CHUNK_BYTES = 65536


class _Passage:
    """One connection: the phone's end and the server's."""

    def __init__(self, phone: asyncio.StreamWriter, server: asyncio.StreamWriter) -> None:
        self.phone = phone
        self.server = server
        self.lost = False

    def close(self) -> None:
        for end in (self.phone, self.server):
            end.transport.abort()


class Link:
    """What the phone's connections to the app go through; made by `linked`.

    Attributes:
        source: the address that connections made from now on seem to come from.
    """

    def __init__(self, address: str) -> None:
        parts = urlsplit(address)
        assert parts.hostname is not None
        assert parts.port is not None
        self._server = (parts.hostname, parts.port)
        self._passages: list[_Passage] = []
        self._loop = asyncio.new_event_loop()
        self._thread = Thread(target=self._loop.run_forever, name="link")
        self._passing = asyncio.Event()
        self._passing.set()
        self._refusing = False
        self._listening: asyncio.Server | None = None
        self.source = "127.0.0.1"
        self.address = ""

    def start(self, host: str) -> None:
        """Listen on a free port of this host."""
        self._thread.start()
        self._listening = self._run(asyncio.start_server(self._connected, host, 0))
        port = self._listening.sockets[0].getsockname()[1]
        self.address = f"http://{host}:{port}/"

    def stop(self) -> None:
        """Close everything."""
        self._run(self._ended())
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join()
        self._loop.close()

    def cut(self) -> None:
        """Both ends learn at once that the connection is gone; no new one can be made."""
        self._soon(self._cut)

    def strand(self) -> None:
        """The phone's ends are gone; the server hears nothing of it and keeps its own open.

        So it is when a phone leaves one network for another: nobody tells the server.
        """
        self._soon(self._strand)

    def silence(self) -> None:
        """Nothing passes and neither end is told: out of reach for a while."""
        self._soon(self._passing.clear)

    def mend(self) -> None:
        """All is well again; what was sent during a silence arrives now, if its ends are there."""
        self._soon(self._mend)

    def _cut(self) -> None:
        self._refusing = True
        for passage in self._passages:
            passage.close()

    def _strand(self) -> None:
        for passage in self._passages:
            passage.lost = True
            passage.phone.transport.abort()

    def _mend(self) -> None:
        self._refusing = False
        self._passing.set()

    async def _connected(self, reader: asyncio.StreamReader, phone: asyncio.StreamWriter) -> None:
        if self._refusing:
            phone.transport.abort()
            return
        try:
            answers, server = await asyncio.open_connection(
                *self._server, local_addr=(self.source, 0)
            )
        except OSError:
            phone.transport.abort()
            return
        passage = _Passage(phone, server)
        self._passages.append(passage)
        await asyncio.gather(
            self._pass_on(passage, reader, server), self._pass_on(passage, answers, phone)
        )
        if not passage.lost:
            passage.close()
            self._passages.remove(passage)

    async def _pass_on(
        self, passage: _Passage, source: asyncio.StreamReader, target: asyncio.StreamWriter
    ) -> None:
        with suppress(OSError):
            while data := await source.read(_CHUNK_BYTES):
                await self._passing.wait()
                if passage.lost:
                    continue
                target.write(data)
                await target.drain()
        # An end that closes during a silence is not heard of before it is over.
        await self._passing.wait()
        if not passage.lost:
            target.close()

    async def _ended(self) -> None:
        assert self._listening is not None
        self._listening.close()
        self._cut()
        self._passing.set()
        await asyncio.gather(*asyncio.all_tasks() - {asyncio.current_task()})

    def _run(self, work: Coroutine[Any, Any, Any]) -> Any:
        return asyncio.run_coroutine_threadsafe(work, self._loop).result(timeout=20)

    def _soon(self, call: Callable[[], None]) -> None:
        """Do this in the relay's thread; it is done on return."""

        async def do() -> None:
            call()

        self._run(do())


@contextmanager
def linked(address: str, host: str = "127.0.0.1") -> Iterator[Link]:
    """A link to the app at this address; the phone is to open `link.address`."""
    link = Link(address)
    link.start(host)
    try:
        yield link
    finally:
        link.stop()
