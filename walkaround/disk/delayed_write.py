"""A small file for content that changes often: it is written a moment later, not at each change."""

from __future__ import annotations

import logging
from pathlib import Path
from threading import Lock, Timer

from walkaround.base.errors import MachineError
from walkaround.disk.durable import read_file, write_durably

log = logging.getLogger(__name__)

DELAY_S = 0.3
"""How long after a change the file is written."""


class DelayedFile:
    """A file that is written with a delay; errors of the disk are only logged."""

    def __init__(self, path: Path) -> None:
        """Use the file at this path."""
        self._path, self._next, self._written = path, b"", b""
        self._timer: Timer | None = None
        self._write_lock = Lock()

    def read(self) -> bytes:
        """Return the content of the file; empty if there is none, or it cannot be read."""
        try:
            return read_file(self._path) or b""
        except MachineError as error:
            log.warning("%s is not read: %s", self._path.name, error)
            return b""

    def write(self, content: bytes) -> None:
        """Write this content after DELAY_S, unless it changes again; returns at once."""
        self._next = content
        if content != self._written and not self._timer:
            self._timer = Timer(DELAY_S, self._write)
            self._timer.daemon = True
            self._timer.start()

    def _write(self) -> None:
        with self._write_lock:
            self._timer, self._written = None, self._next
            try:
                write_durably(self._path, self._written)
            except MachineError as error:
                log.warning("%s is not kept: %s", self._path.name, error)
