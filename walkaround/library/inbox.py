"""Files that a page uploads, each in a request of its own.

A file sent over a page's WebSocket is one frame of any size, and cannot be refused before it has
come. So the page first says how large it is; if it is small enough, it is uploaded with a ticket,
and the upload is aborted if it is larger than allowed.
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
"""The most open tickets; beyond this the oldest are dropped."""

_log = logging.getLogger(__name__)


@dataclass(slots=True)
class _Upload:
    """A file that a ticket was given for.

    Attributes:
        most_bytes: the size limit.
        path: where to store it; in memory if None.
        is_complete: whether all of it has been received.
        data: what has been received, if it is stored in memory.
    """

    most_bytes: int
    path: Path | None
    is_complete: bool = False
    data: bytearray = field(default_factory=bytearray)


class Inbox:
    """The files that are expected from pages, or have been received."""

    def __init__(self) -> None:
        self._files: dict[str, _Upload] = {}

    def new_ticket(self, most_bytes: int = MAX_UPLOAD_BYTES, path: Path | None = None) -> str:
        """Return a ticket for one file, for `/received/TICKET`, or `/large/TICKET` if it is large.

        Args:
            most_bytes: the size limit.
            path: where to store it, in an existing folder; in memory if None.
        """
        while len(self._files) >= MOST_TICKETS:
            _discard(self._files.pop(next(iter(self._files))))
        ticket = secrets.token_urlsafe(16)
        self._files[ticket] = _Upload(most_bytes, path)
        return ticket

    def take_file(self, ticket: str) -> bytes | None:
        """Return the file of a ticket, once; None if it was not received.

        The result is empty if the file was stored on disk.
        """
        upload = self._files.pop(ticket, None)
        if upload is None or not upload.is_complete:
            if upload is not None:
                _discard(upload)
            return None
        return bytes(upload.data)

    async def receive(self, ticket: str, body: AsyncIterable[bytes]) -> int:
        """Store the body of a request as the file of its ticket.

        Returns:
            The HTTP status: 204, or 404 without a ticket, 413 if too large, 507 if not stored.
        """
        upload = self._files.get(ticket)
        if upload is None or upload.is_complete:
            return 404
        try:
            status = await _store_body(upload, body)
        except OSError as error:
            _log.warning("a file that was handed over could not be kept: %s", error)
            status = 507
        if status != 204 or ticket not in self._files:
            _discard(upload)
        upload.is_complete = status == 204
        return status


async def _store_body(upload: _Upload, body: AsyncIterable[bytes]) -> int:
    upload.data.clear()
    size = 0
    file = upload.path.open("wb") if upload.path else None
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


def _discard(upload: _Upload) -> None:
    upload.data.clear()
    if upload.path:
        with suppress(OSError):
            upload.path.unlink(missing_ok=True)
