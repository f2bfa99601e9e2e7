"""Writing walks on disk: one TinyDB file for each walk, and one for the settings.

A tap costs one durable write of its walk's own file, however many walks there are.
"""

from __future__ import annotations

import logging
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from threading import RLock
from typing import Any, Literal

from tinydb import TinyDB
from tinydb.table import Document

from walkaround.base.errors import MachineError
from walkaround.base.message import Message, message
from walkaround.disk import locations
from walkaround.disk.batch_write import write_batch
from walkaround.disk.durable import (
    damaged_name,
    make_folder,
    read_file,
    remove_file,
    rename_damaged,
    write_durably,
    write_error,
)
from walkaround.disk.writer_lock import WriterLock
from walkaround.records.database.storage import DurableStorage, database_at
from walkaround.records.month_folders import remove_leftovers
from walkaround.records.overview import Overview
from walkaround.records.reader import (
    MAX_BYTES,
    LoadedWalk,
    WalkReader,
    bytes_of,
    file_size,
    previous_path,
)
from walkaround.records.walk_file import (
    WalkFile,
    json_text,
    new_tables,
    read_sound,
    rows_of,
    tables_in,
)
from walkaround.records.walk_line import WalkLine
from walkaround.walk.events import Began, Event, Finished
from walkaround.walk.seals import event_json
from walkaround.walk.state import Walk

_log = logging.getLogger(__name__)

CheckKind = Literal["contacts", "double"]
"""Other stored checks: those of cables and sockets, and signatures of double checks."""
_END_BYTES = 10_000
"""More bytes than the end of a walk takes in its file."""


class WalkStore(WalkReader):
    """Writes the walks of a data folder, for one process; any of its threads may use it."""

    def __init__(self, data: Path) -> None:
        """Open the data folder.

        Raises:
            MachineError: another process writes there, or nothing can be written there.
        """
        super().__init__(data)
        self._settings = locations.settings(data)
        self._check_files: Mapping[CheckKind, Path] = {
            "contacts": locations.contact_checks(data),
            "double": locations.double_checks(data),
        }
        self._open: dict[str, TinyDB] = {}
        self._unread: tuple[Message, ...] = ()
        self._lock = RLock()
        self._writer = WriterLock(data)
        try:
            make_folder(self.walks)
        except MachineError:
            self._writer.release()
            raise
        remove_leftovers(self.walks, locations.unused_index(data))

    def close(self) -> None:
        """Let another process write. Nothing is left to be saved: every change was."""
        with self._lock:
            self._open.clear()
            if not self._list.has_bypassed_lines:
                with suppress(MachineError):
                    self.overview()
            self._writer.release()

    def create(self, first: Began) -> None:
        """Save a walk that begins.

        Raises:
            MachineError: it could not be saved, or its id is taken.
        """
        path = self.path(first.walk)
        if (size := len(json_text(event_json(first)).encode())) > MAX_BYTES // 2:
            raise MachineError(message("walk-too-long", size=size))
        with self._lock:
            try:
                exists = path.exists() or previous_path(path).exists()
                make_folder(path.parent)
            except OSError as error:
                raise write_error(error, path) from error
            if exists:
                raise MachineError(message("walk-is-there", walk=first.walk))
            database = database_at(path)
            with self._list.saving(first.walk):
                database.storage.write(new_tables(rows_of([first])))
            self._open[first.walk] = database

    def append(self, walk_id: str, events: Sequence[Event]) -> None:
        """Save the next events of a walk in one write; they are on the disk when it returns.

        Raises:
            InputError: there is no such walk.
            MachineError: they could not be saved; earlier events still are.
        """
        with self._lock:
            if walk_id not in self._open:
                loaded = self.load(walk_id)
                if not loaded.events:
                    raise MachineError(loaded.notice)
                self._open[walk_id] = database_at(self.path(walk_id))
            table = self._open[walk_id].table("events")
            if [event.seq for event in events] != [len(table) + n for n in range(len(events))]:
                count = len(table)
                raise MachineError(message("walk-file-not-in-step", walk=walk_id, count=count))
            rows = rows_of(events)
            # Events that make the file too large to read are refused; but a walk can be ended.
            new_bytes = sum(len(json_text(row)) for row in rows if row["kind"] != "finished")
            if new_bytes and file_size(self.path(walk_id)) + new_bytes > MAX_BYTES - _END_BYTES:
                raise MachineError(message("walk-is-full", walk=walk_id))
            with self._list.saving(walk_id):
                table.insert_multiple(Document(row, doc_id=row["seq"] + 1) for row in rows)
            if any(isinstance(event, Finished) for event in events):
                del self._open[walk_id]

    def import_walk(self, walk_id: str, file: WalkFile) -> None:
        """Save a walk that was brought from elsewhere, in place of the stored one.

        A file that cannot be read at all is renamed and kept.

        Raises:
            MachineError: it could not be saved; the stored file is unchanged.
        """
        path, data = self.path(walk_id), bytes_of(file)
        with self._lock:
            make_folder(path.parent)
            readable = not path.exists() or bool(self.read(walk_id).events)
            backup = previous_path(path) if readable else damaged_name(path)
            with self._list.saving(walk_id):
                write_durably(path, data, backup=backup)
            self._open.pop(walk_id, None)

    def remove(self, walk_id: str) -> None:
        """Delete a walk for good, its backup first.

        Raises:
            MachineError: it could not be deleted.
        """
        with self._lock, self._list.saving(walk_id):
            self._open.pop(walk_id, None)
            remove_file(previous_path(self.path(walk_id)))
            remove_file(self.path(walk_id))

    def add(self, data_by_line: Mapping[WalkLine, bytes]) -> None:
        """Save walks from elsewhere that are new here, all at once.

        Args:
            data_by_line: the content of each file, by the line of its walk.

        Raises:
            MachineError: they could not be saved; some may be, and are complete.
        """
        files = {self.path(line.id): data for line, data in data_by_line.items()}
        with self._lock:
            for folder in {path.parent for path in files}:
                make_folder(folder)
            write_batch(files)
            self._list.add_lines(data_by_line)

    def load(self, walk_id: str) -> LoadedWalk:
        """Read a walk; a damaged file is renamed, and its valid part is saved in a new one.

        Raises:
            InputError: there is no such walk.
            MachineError: its file cannot be opened, or a later version wrote it.
        """
        with self._lock:
            file = self.read(walk_id)
            if file.sound or not file.events:
                return LoadedWalk(file.events, file.damage)
            path = self.path(walk_id)
            damaged_path, notice = damaged_name(path), file.damage
            if path.exists():
                notice = str(message("walk-file-kept-as", damage=notice, name=damaged_path.name))
            _log.warning(notice)
            with self._list.saving(walk_id):
                write_durably(path, bytes_of(replace(file, damage=notice)), backup=damaged_path)
            previous_data = read_file(previous_path(path))
            if previous_data is not None and read_sound(previous_data) is None:
                rename_damaged(previous_path(path))
            self._open.pop(walk_id, None)
            return LoadedWalk(file.events, notice)

    def refresh(self, walk: Walk) -> None:
        """Update the line of a walk in the list."""
        self._list.note(walk)

    def overview(self) -> Overview:
        """Return an overview of all walks, like any reader, and save the list's cache."""
        overview = self._list.overview()
        self._list.save_cache()
        for problem in overview.unread:
            if problem not in self._unread:
                _log.warning("%s", problem)
        if self._unread and not overview.unread:
            _log.info("Every month of walks can be read again.")
        self._unread = overview.unread
        return overview

    def next_number(self) -> int:
        """Return the number of a walk that begins now.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        return self._list.next_number()

    def load_settings(self) -> dict[str, Any]:
        """Read the saved settings; empty if there are none. A damaged file is renamed and kept."""
        with self._lock:
            data = read_file(self._settings)
            if data is not None and tables_in(data) is None:
                damaged_path = damaged_name(self._settings)
                rename_damaged(self._settings)
                _log.warning(
                    "The settings were damaged; the file is kept as %s.", damaged_path.name
                )
            saved = TinyDB(self._settings, storage=DurableStorage).table("settings").get(doc_id=1)
            values = saved.get("values") if isinstance(saved, Document) else None
            return values if isinstance(values, dict) else {}

    def change_settings(self, changes: Mapping[str, Any]) -> None:
        """Save these settings; of a setting that is a table, only the given rows.

        Raises:
            MachineError: they could not be saved.
        """
        with self._lock:
            values = self.load_settings()
            for name, new in changes.items():
                old = values.get(name)
                rows = old if isinstance(old, dict) and isinstance(new, dict) else None
                values[name] = new if rows is None else {**rows, **new}
            row = Document({"schema": 1, "values": values}, doc_id=1)
            TinyDB(self._settings, storage=DurableStorage).table("settings").upsert(row)

    def saved_checks(self, kind: CheckKind) -> list[dict[str, Any]]:
        """Read the stored checks of this kind, the oldest first."""
        with self._lock:
            return [dict(row) for row in database_at(self._check_files[kind]).table("checks").all()]

    def save_check(self, kind: CheckKind, row: Mapping[str, Any]) -> None:
        """Save the result of a check that is not a walk.

        Raises:
            MachineError: it could not be saved.
        """
        with self._lock:
            database_at(self._check_files[kind]).table("checks").insert(row)
