"""Small files that a page hands over, each in a request of its own.

A file that a page sends through its socket comes in one frame of any size, before anybody can
refuse it. So the page is told the size first; a file that is small enough is then asked for with
a ticket, and what is longer than it said is cut off while it comes.
"""

from __future__ import annotations

import secrets
from collections.abc import AsyncIterable

from walkaround.library.own_vehicles import MAX_UPLOAD_BYTES

MOST_TICKETS = 64
"""Files asked for and not taken yet; the oldest are given up first."""


class Inbox:
    """What was asked for, and what of it has come."""

    def __init__(self) -> None:
        self._files: dict[str, bytes | None] = {}

    def ask(self) -> str:
        """A ticket for one file, good for `/received/TICKET`."""
        while len(self._files) >= MOST_TICKETS:
            del self._files[next(iter(self._files))]
        ticket = secrets.token_urlsafe(16)
        self._files[ticket] = None
        return ticket

    def take(self, ticket: str) -> bytes | None:
        """The file of a ticket, once; None if it has not come."""
        return self._files.pop(ticket, None)

    async def receive(self, ticket: str, body: AsyncIterable[bytes]) -> int:
        """Keep what comes as the file of its ticket: the HTTP status 204, or 404 or 413."""
        if self._files.get(ticket, b"") is not None:
            return 404
        data = bytearray()
        async for chunk in body:
            data += chunk
            if len(data) > MAX_UPLOAD_BYTES:
                return 413
        if ticket in self._files:
            self._files[ticket] = bytes(data)
        return 204
