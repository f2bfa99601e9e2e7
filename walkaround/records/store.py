"""Walks on disk, written: one TinyDB file per walk, and one for the settings.

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
from walkaround.disk.batch_write import write_together
from walkaround.disk.durable import (
    damaged_name,
    make_folder,
    read_file,
    remove_file,
    set_aside,
    write_durably,
    write_error,
)
from walkaround.disk.writer_lock import OneWriter
from walkaround.records.month_folders import remove_leftovers
from walkaround.records.overview import Overview
from walkaround.records.reader import (
    MAX_BYTES,
    Loaded,
    WalkReader,
    bytes_of,
    file_size,
    kept_before,
)
from walkaround.records.stored.storage import DurableStorage, database_at
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

Kept = Literal["contacts", "double"]
"""What is kept beside walks: checks of cables and sockets, and who signed for double checks."""
_TO_END_BYTES = 10_000
"""What the end of a walk takes in its file, and more."""


class WalkStore(WalkReader):
    """Walks of a data folder, for the one process that writes there; any of its threads may."""

    def __init__(self, data: Path) -> None:
        """Open the data folder.

        Raises:
            MachineError: another process writes there, or nothing can be written there.
        """
        super().__init__(data)
        self._settings = locations.settings(data)
        self._kept: Mapping[Kept, Path] = {
            "contacts": locations.contact_checks(data),
            "double": locations.double_checks(data),
        }
        self._open: dict[str, TinyDB] = {}
        self._unread: tuple[Message, ...] = ()
        self._lock = RLock()
        self._writer = OneWriter(data)
        try:
            make_folder(self.walks)
        except MachineError:
            self._writer.give_up()
            raise
        remove_leftovers(self.walks, locations.unused_index(data))

    def close(self) -> None:
        """Let another process write. No walk is left to be saved: every write was."""
        with self._lock:
            self._open.clear()
            if not self._list.passed_by:
                with suppress(MachineError):
                    self.overview()
            self._writer.give_up()

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
                exists = path.exists() or kept_before(path).exists()
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
            MachineError: they could not be saved; what was saved before still is.
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
            # What would make a file that nobody reads again is refused; but a walk can be ended.
            more = sum(len(json_text(row)) for row in rows if row["kind"] != "finished")
            if more and file_size(self.path(walk_id)) + more > MAX_BYTES - _TO_END_BYTES:
                raise MachineError(message("walk-is-full", walk=walk_id))
            with self._list.saving(walk_id):
                table.insert_multiple(Document(row, doc_id=row["seq"] + 1) for row in rows)
            if any(isinstance(event, Finished) for event in events):
                del self._open[walk_id]

    def take_in(self, walk_id: str, file: WalkFile) -> None:
        """Save a walk that was brought from elsewhere, in place of what is kept of it.

        A file of which nothing can be read is set aside.

        Raises:
            MachineError: it could not be saved; what was saved before still is.
        """
        path, data = self.path(walk_id), bytes_of(file)
        with self._lock:
            make_folder(path.parent)
            readable = not path.exists() or bool(self.read(walk_id).events)
            keep = kept_before(path) if readable else damaged_name(path)
            with self._list.saving(walk_id):
                write_durably(path, data, keep=keep)
            self._open.pop(walk_id, None)

    def remove(self, walk_id: str) -> None:
        """Take a walk out for good, what it was before its last change first."""
        with self._lock, self._list.saving(walk_id):
            self._open.pop(walk_id, None)
            remove_file(kept_before(self.path(walk_id)))
            remove_file(self.path(walk_id))

    def add(self, brought: Mapping[WalkLine, bytes]) -> None:
        """Save walks from elsewhere that are new here, all in one go.

        Raises:
            MachineError: they could not be saved; some may be, and whole.
        """
        files = {self.path(line.id): data for line, data in brought.items()}
        with self._lock:
            for folder in {path.parent for path in files}:
                make_folder(folder)
            write_together(files)
            self._list.brought(brought)

    def load(self, walk_id: str) -> Loaded:
        """Read a walk; a damaged file is set aside and what can be saved of it written anew."""
        with self._lock:
            file = self.read(walk_id)
            if file.sound or not file.events:
                return Loaded(file.events, file.damage)
            path = self.path(walk_id)
            aside, notice = damaged_name(path), file.damage
            if path.exists():
                notice = str(message("walk-file-kept-as", damage=notice, name=aside.name))
            _log.warning(notice)
            with self._list.saving(walk_id):
                write_durably(path, bytes_of(replace(file, damage=notice)), keep=aside)
            before = read_file(kept_before(path))
            if before is not None and read_sound(before) is None:
                set_aside(kept_before(path))
            self._open.pop(walk_id, None)
            return Loaded(file.events, notice)

    def refresh(self, walk: Walk) -> None:
        """Take note of what has become of a walk, for the list."""
        self._list.note(walk)

    def overview(self) -> Overview:
        """Show all walks at a glance, as any reader, and keep the list for the next start."""
        overview = self._list.overview()
        self._list.keep()
        for sentence in overview.unread:
            if sentence not in self._unread:
                _log.warning("%s", sentence)
        if self._unread and not overview.unread:
            _log.info("Every month of walks can be read again.")
        self._unread = overview.unread
        return overview

    def next_number(self) -> int:
        """Number a walk that begins now; MachineError if the folder of walks cannot be read."""
        return self._list.next_number()

    def load_settings(self) -> dict[str, Any]:
        """Read the saved settings; none if there are none. A damaged file is set aside."""
        with self._lock:
            data = read_file(self._settings)
            if data is not None and tables_in(data) is None:
                aside = damaged_name(self._settings)
                set_aside(self._settings)
                _log.warning("The settings were damaged; the file is kept as %s.", aside.name)
            saved = TinyDB(self._settings, storage=DurableStorage).table("settings").get(doc_id=1)
            values = saved.get("values") if isinstance(saved, Document) else None
            return values if isinstance(values, dict) else {}

    def change_settings(self, changes: Mapping[str, Any]) -> None:
        """Save these settings, a table's rows one by one; MachineError if that fails."""
        with self._lock:
            values = self.load_settings()
            for name, new in changes.items():
                old = values.get(name)
                rows = old if isinstance(old, dict) and isinstance(new, dict) else None
                values[name] = new if rows is None else {**rows, **new}
            row = Document({"schema": 1, "values": values}, doc_id=1)
            TinyDB(self._settings, storage=DurableStorage).table("settings").upsert(row)

    def kept(self, what: Kept) -> list[dict[str, Any]]:
        """Read what was kept of such checks, in the order in which it was."""
        with self._lock:
            return [dict(row) for row in database_at(self._kept[what]).table("checks").all()]

    def keep(self, what: Kept, row: Mapping[str, Any]) -> None:
        """Keep what came out of a check that is no walk; MachineError if it could not be saved."""
        with self._lock:
            database_at(self._kept[what]).table("checks").insert(row)
