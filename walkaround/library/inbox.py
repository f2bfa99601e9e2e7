"""Files that a page hands over, each in a request of its own.

A file that a page sends through its socket comes in one frame of any size, before anybody can
refuse it. So the page is told the size first; a file that is small enough is then asked for with
a ticket, and what is longer than it may be is cut off while it comes.
"""

from __future__ import annotations

import logging
import secrets
from collections.abc import AsyncIterable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from walkaround.library.own_vehicles import MAX_UPLOAD_BYTES

MOST_TICKETS = 64
"""Files asked for and not taken yet; the oldest are given up first."""

_log = logging.getLogger(__name__)


@dataclass(slots=True)
class _Asked:
    """A file that was asked for: what it may hold, where it goes, and what has come of it."""

    most_bytes: int
    to: Path | None
    come: bool = False
    data: bytearray = field(default_factory=bytearray)


class Inbox:
    """What was asked for, and what of it has come."""

    def __init__(self) -> None:
        self._files: dict[str, _Asked] = {}

    def ask(self, most_bytes: int = MAX_UPLOAD_BYTES, to: Path | None = None) -> str:
        """A ticket for one file, good for `/received/TICKET`, or `/large/TICKET` if it is large.

        Args:
            most_bytes: how long it may be.
            to: where to put it, in a folder that is there; in memory if not said.
        """
        while len(self._files) >= MOST_TICKETS:
            _forget(self._files.pop(next(iter(self._files))))
        ticket = secrets.token_urlsafe(16)
        self._files[ticket] = _Asked(most_bytes, to)
        return ticket

    def take(self, ticket: str) -> bytes | None:
        """The file of a ticket, once; None if it has not come. Empty of one that went to disk."""
        upload = self._files.pop(ticket, None)
        if upload is None or not upload.come:
            if upload is not None:
                _forget(upload)
            return None
        return bytes(upload.data)

    async def receive(self, ticket: str, body: AsyncIterable[bytes]) -> int:
        """Keep what comes as the file of its ticket: the HTTP status 204, or 404, 413 or 507."""
        upload = self._files.get(ticket)
        if upload is None or upload.come:
            return 404
        try:
            status = await _received(upload, body)
        except OSError as error:
            _log.warning("a file that was handed over could not be kept: %s", error)
            status = 507
        if status != 204 or ticket not in self._files:
            _forget(upload)
        upload.come = status == 204
        return status


async def _received(upload: _Asked, body: AsyncIterable[bytes]) -> int:
    upload.data.clear()
    size = 0
    file = upload.to.open("wb") if upload.to else None
    try:
        async for chunk in body:
            size += len(chunk)
            if size > upload.most_bytes:
                return 413
            if file:
                file.write(chunk)
            else:
                upload.data += chunk
    finally:
        if file:
            file.close()
    return 204


def _forget(upload: _Asked) -> None:
    upload.data.clear()
    if upload.to:
        with suppress(OSError):
            upload.to.unlink(missing_ok=True)
