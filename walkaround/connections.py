"""Connections that ask nothing: they are ended, and one address cannot take all the room.

Whoever is not let in may still connect. A connection takes one of the files that this process may
have open, so those that only wait would keep everybody out in the end.
"""

from __future__ import annotations

import asyncio
import sys
from contextlib import suppress
from ipaddress import ip_address

from uvicorn.protocols.http.h11_impl import H11Protocol

from walkaround.guesses import guesser

if sys.platform != "win32":
    import resource

ASKS_WITHIN_S = 10.0
"""The head of a request must have come within so long of its first byte; the first request's, of
the connection's beginning."""
MOST_OF_ONE = 300
"""So many connections one address may hold: fifty phones behind one router with six each."""

_OPEN: set[asyncio.Transport] = set()
"""Not weakly: those that uvloop makes for TLS cannot be referred to so."""


def take_all_files() -> None:
    """Let this process have as many files open as the system allows it at most."""
    if sys.platform != "win32":
        with suppress(OSError, ValueError):
            _, most = resource.getrlimit(resource.RLIMIT_NOFILE)
            resource.setrlimit(resource.RLIMIT_NOFILE, (most, most))


class ShortOfPatience(H11Protocol):
    """uvicorn's HTTP/1.1, which has no such limits of its own (0.54)."""

    _late: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin, unless there are too many of the same address."""
        super().connection_made(transport)
        _OPEN.difference_update([each for each in _OPEN if _is_gone(each)])
        _OPEN.add(transport)
        if self.client and _too_many(self.client[0]):
            transport.abort()
        else:
            self._watch()

    def connection_lost(self, exc: Exception | None) -> None:
        """End, whoever ended it."""
        self._watch_no_more()
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        """Take what has come; a part of a request's head must be followed by the rest soon."""
        super().data_received(data)
        if self._asks_nothing():
            self._watch()
        else:
            self._watch_no_more()

    def _watch(self) -> None:
        if self._late is None:
            self._late = self.loop.call_later(ASKS_WITHIN_S, self.transport.abort)

    def _watch_no_more(self) -> None:
        if self._late is not None:
            self._late.cancel()
            self._late = None

    def _asks_nothing(self) -> bool:
        """Neither is a request being answered nor has the connection become a WebSocket's."""
        answered = self.cycle is None or self.cycle.response_complete
        return answered and self.transport.get_protocol() is self


def _too_many(host: str) -> bool:
    who = guesser(host)
    if ip_address(who).is_loopback:
        return False
    held = [each for each in _OPEN if not _is_gone(each) and _holder(each) == who]
    return len(held) > MOST_OF_ONE


def _is_gone(transport: asyncio.Transport) -> bool:
    # One over TLS that was lost says that it is not closing, but of whom it was no longer.
    return transport.is_closing() or not _holder(transport)


def _holder(transport: asyncio.Transport) -> str:
    peer = transport.get_extra_info("peername")
    return guesser(peer[0]) if peer else ""
