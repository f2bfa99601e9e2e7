"""What TinyDB writes through, and a file of tables that is written so."""

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
from walkaround.records.reader import kept_before
from walkaround.records.walk_file import Encoder, Tables, tables_in

_log = logging.getLogger(__name__)


class DurableStorage(Storage):
    """What TinyDB writes through: each write is whole and on the disk when it returns.

    What is on the disk is also kept in memory. Only one process writes (see `writer_lock.py`), so
    a write needs no reading, and the next one mends a file that was damaged or replaced meanwhile;
    what was put in its place is set aside.
    """

    def __init__(self, path: Path, keep: Path | None = None) -> None:
        self._path = path
        self._keep = keep
        self._encoder = Encoder()
        self._tables: Tables | None = None
        self._written: bytes | None = None
        self._left: FileState | None = None

    def read(self) -> Tables | None:
        """Read the tables; None if there are none, or none that can be read."""
        if self._tables is None:
            if self._written is None:
                self._left = file_state(self._path)
                data = read_file(self._path)
                self._written = data if data and tables_in(data) else None
            self._tables = tables_in(self._written) if self._written else None
        return self._tables

    def write(self, data: Tables) -> None:
        """Replace the tables.

        Raises:
            MachineError: they could not be written; the file holds what it held before.
        """
        # TinyDB has changed the tables in place already.
        self._tables = None
        encoded = self._encoder.encode(data)
        keep, now = self._keep, file_state(self._path)
        if now and self._left and now != self._left:
            keep = damaged_name(self._path)
            _log.warning("%s was changed by something else; that is kept as %s.", self._path, keep)
        write_durably(self._path, encoded, keep)
        self._tables, self._written = data, encoded
        self._left = file_state(self._path)


def database_at(path: Path) -> TinyDB:
    """Open a walk's file, or one that is kept like it."""
    return TinyDB(path, storage=DurableStorage, keep=kept_before(path))
