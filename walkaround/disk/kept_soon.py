"""A small file that follows what is in memory, a moment behind it: of what changes at each key."""

from __future__ import annotations

import logging
from pathlib import Path
from threading import Lock, Timer

from walkaround.base.errors import MachineError
from walkaround.disk.durable import read_file, write_durably

log = logging.getLogger(__name__)
_SOON_S = 0.3


class KeptSoon:
    """A file that is written in a thread of its own, at most every `_SOON_S` seconds.

    What cannot be read or written is logged, and as good as not there: for what may be lost.
    """

    def __init__(self, path: Path) -> None:
        """Take the file's name; the file need not be there."""
        self._path = path
        self._due = self._written = b""
        self._timer: Timer | None = None
        self._writing = Lock()

    def read(self) -> bytes:
        """Read what it holds; nothing if it is not there."""
        try:
            return read_file(self._path) or b""
        except MachineError as unread:
            log.warning("not read: %s", unread)
            return b""

    def write(self, data: bytes) -> None:
        """Have it hold this soon."""
        self._due = data
        if self._due != self._written and self._timer is None:
            self._timer = Timer(_SOON_S, self._write)
            self._timer.daemon = True
            self._timer.start()

    def _write(self) -> None:
        with self._writing:
            self._timer, self._written = None, self._due
            try:
                write_durably(self._path, self._written)
            except MachineError as failed:
                log.warning("not kept: %s", failed)
