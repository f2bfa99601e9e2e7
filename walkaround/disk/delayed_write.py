"""A small file that follows what changes often: written a moment later, and not at each change."""

from __future__ import annotations

import logging
from pathlib import Path
from threading import Lock, Timer

from walkaround.base.errors import MachineError
from walkaround.disk.durable import read_file, write_durably

log = logging.getLogger(__name__)

SOON_S = 0.3
"""After this long what was to be kept is in the file."""


class KeptSoon:
    """What a file shall hold; a disk that fails is told in the log, and what is kept is lost."""

    def __init__(self, path: Path) -> None:
        """Keep it in this file."""
        self._path, self._due, self._written = path, b"", b""
        self._timer: Timer | None = None
        self._writing = Lock()

    def read(self) -> bytes:
        """Tell what the file holds; nothing if there is none, or it cannot be read."""
        try:
            return read_file(self._path) or b""
        except MachineError as unread:
            log.warning("%s is not read: %s", self._path.name, unread)
            return b""

    def keep(self, content: bytes) -> None:
        """Have this in the file soon; nothing waits for the disk."""
        self._due = content
        if content != self._written and not self._timer:
            self._timer = Timer(SOON_S, self._write)
            self._timer.daemon = True
            self._timer.start()

    def _write(self) -> None:
        with self._writing:
            self._timer, self._written = None, self._due
            try:
                write_durably(self._path, self._written)
            except MachineError as failed:
                log.warning("%s is not kept: %s", self._path.name, failed)
