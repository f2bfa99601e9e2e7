"""Limits on connections: idle ones are ended, and one address cannot open too many.

A device that is not let in may still connect. Each connection takes one of the files that this
process may have open, so idle connections could keep everybody out in the end.
"""

from __future__ import annotations

import asyncio
import sys
from contextlib import suppress

from uvicorn.protocols.http.h11_impl import H11Protocol

from walkaround.access.admission import is_loopback

if sys.platform != "win32":
    import resource

ASKS_WITHIN_S = 10.0
"""How long the head of a request may take: from its first byte, or for the first request from the
beginning of the connection."""
MOST_OF_ONE = 300
"""The most connections of one address, open pages not counted: fifty phones behind one router with
six each."""
_FILES = (65536, 10240, 4096)
"""Limits of open files to try, the highest first; macOS allows the second at most (from memory)."""

_OPEN: dict[asyncio.Transport, str] = {}
"""The address of each open connection, the oldest first. Ended ones are removed at the next
connection: uvloop's transports over TLS allow no weak references, and give no notice when they
become those of a WebSocket."""


def raise_file_limit() -> None:
    """Raise the limit on open files of this process, as far as the system allows."""
    if sys.platform != "win32":
        soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
        for limit in _FILES:
            if 0 <= soft < limit:
                with suppress(OSError, ValueError):
                    resource.setrlimit(resource.RLIMIT_NOFILE, (limit, hard))
                    return


class LimitedHttp(H11Protocol):
    """HTTP/1.1 of uvicorn (0.54), with the limits that it lacks."""

    _timeout: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin a connection; if its address has too many, end the oldest."""
        super().connection_made(transport)
        for transport_ended in [each for each in _OPEN if not _is_waiting(each)]:
            del _OPEN[transport_ended]
        host = self.client[0] if self.client else ""
        _OPEN[transport] = host
        if host and not is_loopback(host):
            of_host = [each for each, owner in _OPEN.items() if owner == host]
            if len(of_host) > MOST_OF_ONE:
                of_host[0].abort()
        self._start_timeout()

    def connection_lost(self, exc: Exception | None) -> None:
        """End the connection, whether the far end or this one closed it."""
        self._stop_timeout()
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        """Handle received data; the rest of a request's head must follow soon."""
        super().data_received(data)
        if self._is_idle():
            self._start_timeout()
        else:
            self._stop_timeout()

    def _start_timeout(self) -> None:
        if self._timeout is None:
            self._timeout = self.loop.call_later(ASKS_WITHIN_S, self.transport.abort)

    def _stop_timeout(self) -> None:
        if self._timeout is not None:
            self._timeout.cancel()
            self._timeout = None

    def _is_idle(self) -> bool:
        """Tell whether no request is being answered and this is not a WebSocket's connection."""
        answered = self.cycle is None or self.cycle.response_complete
        return answered and self.transport.get_protocol() is self


def _is_waiting(transport: asyncio.Transport) -> bool:
    """Tell whether a connection is open, and not that of a WebSocket."""
    # All that a lost connection over TLS may show is that it has no peer name.
    is_lost = transport.is_closing() or transport.get_extra_info("peername") is None
    return not is_lost and isinstance(transport.get_protocol(), LimitedHttp)
