"""A durable storage for TinyDB, and the database that uses it."""

from __future__ import annotations

import logging
from pathlib import Path

from tinydb import TinyDB
from tinydb.storages import Storage

from walkaround.disk.durable import (
    FileState,
    damaged_name,
    file_state,
    read_file,
    write_durably,
)
from walkaround.records.reader import previous_path
from walkaround.records.walk_file import Encoder, Tables, tables_in

_log = logging.getLogger(__name__)


class DurableStorage(Storage):
    """A TinyDB storage: each write is complete and on the disk when it returns.

    The content of the file is also in memory. Only one process writes (see `writer_lock.py`), so a
    write need not read, and the next write restores a file that was damaged or replaced meanwhile;
    the foreign file is renamed and kept.
    """

    def __init__(self, path: Path, backup: Path | None = None) -> None:
        self._path = path
        self._backup = backup
        self._encoder = Encoder()
        self._tables: Tables | None = None
        self._written: bytes | None = None
        self._state_after_write: FileState | None = None

    def read(self) -> Tables | None:
        """Read the tables; return None if there are none, or they cannot be read."""
        if self._tables is None:
            if self._written is None:
                self._state_after_write = file_state(self._path)
                data = read_file(self._path)
                self._written = data if data and tables_in(data) else None
            self._tables = tables_in(self._written) if self._written else None
        return self._tables

    def write(self, data: Tables) -> None:
        """Replace the tables.

        Raises:
            MachineError: they could not be written; the file is unchanged.
        """
        # TinyDB has changed the tables in place already.
        self._tables = None
        encoded = self._encoder.encode(data)
        backup, state = self._backup, file_state(self._path)
        if state and self._state_after_write and state != self._state_after_write:
            backup = damaged_name(self._path)
            _log.warning(
                "%s was changed by something else; that is kept as %s.", self._path, backup
            )
        write_durably(self._path, encoded, backup)
        self._tables, self._written = data, encoded
        self._state_after_write = file_state(self._path)


def database_at(path: Path) -> TinyDB:
    """Open the file of a walk, or another with the same structure."""
    return TinyDB(path, storage=DurableStorage, backup=previous_path(path))
