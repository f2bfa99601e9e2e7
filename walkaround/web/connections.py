"""Connections that ask for nothing: they are ended, and one address cannot take all the room.

A device that is not let in may still connect. Each connection takes one of the files that this
process may have open, so connections that only wait would keep everybody out in the end.
"""

from __future__ import annotations

import asyncio
import sys
from contextlib import suppress

from uvicorn.protocols.http.h11_impl import H11Protocol

from walkaround.access.admission import is_here

if sys.platform != "win32":
    import resource

ASKS_WITHIN_S = 10.0
"""Time for the head of a request to come: from its first byte on, or for the first request from
the beginning of the connection."""
MOST_OF_ONE = 300
"""The most connections of one address, open pages not counted: fifty phones behind one router with
six each."""
_FILES = (65536, 10240, 4096)
"""Limits of open files to ask the system for, the highest first; macOS grants the second at most
(from memory)."""

_OPEN: dict[asyncio.Transport, str] = {}
"""The address of each open connection, the oldest first. Ended ones are taken out when the next one
comes: uvloop's transports over TLS allow no weak references, and tell nobody when they become a
WebSocket's."""


def raise_file_limit() -> None:
    """Ask the system to let this process have many files open."""
    if sys.platform != "win32":
        soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
        for most in _FILES:
            if 0 <= soft < most:
                with suppress(OSError, ValueError):
                    resource.setrlimit(resource.RLIMIT_NOFILE, (most, hard))
                    return


class LimitedHttp(H11Protocol):
    """uvicorn's HTTP/1.1 with limits that it lacks (0.54)."""

    _late: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin a connection; if its address has too many, end the oldest."""
        super().connection_made(transport)
        for ended in [each for each in _OPEN if not _is_held(each)]:
            del _OPEN[ended]
        host = self.client[0] if self.client else ""
        _OPEN[transport] = host
        if host and not is_here(host):
            held = [each for each, whose in _OPEN.items() if whose == host]
            if len(held) > MOST_OF_ONE:
                held[0].abort()
        self._watch()

    def connection_lost(self, exc: Exception | None) -> None:
        """End the connection, whether the far end or this one closed it."""
        self._watch_no_more()
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        """Take what has come; the rest of a request's head must follow soon."""
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
        """Whether no request is being answered, nor has the connection become a WebSocket's."""
        answered = self.cycle is None or self.cycle.response_complete
        return answered and self.transport.get_protocol() is self


def _is_held(transport: asyncio.Transport) -> bool:
    """Whether it is open, and not that of an open page."""
    # A lost one over TLS may tell only that it has no far end.
    lost = transport.is_closing() or transport.get_extra_info("peername") is None
    return not lost and isinstance(transport.get_protocol(), LimitedHttp)
