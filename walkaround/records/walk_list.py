"""The lines of all walks, kept in memory for the one process that writes, and their index.

Lists must not take longer the more walks there are, and no tap may pay for them. So each month's
lines are read once, those of walks that change are made anew when a list is asked for, and the
index is written for several walks together. A process that is killed before that costs the next
one the reading of a few walks.
"""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from threading import RLock

from walkaround.base.errors import MachineError
from walkaround.disk.durable import sweep
from walkaround.records.index_file import index_tables
from walkaround.records.month_folders import fault_of, folder_state, months_in
from walkaround.records.overview import Overview
from walkaround.records.reader import Month, WalkReader, file_bytes, is_of
from walkaround.records.walk_file import Tables
from walkaround.records.walk_line import WalkLine, line_of, month_of
from walkaround.walk.events import Began
from walkaround.walk.state import Walk

_log = logging.getLogger(__name__)

ENDS_AT_ONCE = 20
"""After how many walks that ended the index is written."""
QUIET_NS = 2_000_000_000
"""A folder that has not changed for so long, nanoseconds, has not changed unseen since: clocks of
file systems go in steps, at worst of two seconds."""
AGAIN_S = 60.0
"""A folder that cannot be read is tried again at once when it has been touched, else after so long:
a failing disk may take seconds to say no, and whoever taps a list waits for it."""


UNSEEN = 1_000_000
"""More walks than lie in one month that cannot be read."""


class WalkList:
    """The list of walks; any thread may ask for it, and none waits for another's disk write."""

    def __init__(self, reader: WalkReader, write: Callable[[str, Tables], None]) -> None:
        """Take who reads walks, and what writes the index of a month or logs why it cannot."""
        self._reader = reader
        self._write = write
        self._months: dict[str, Month] = {}
        self._live: dict[str, Walk] = {}
        self._stale: set[str] = set()
        self._unwritten: dict[str, int] = {}
        self._overview: Overview | None = None
        self._tried_s: dict[str, float] = {}
        self._unread: tuple[str, ...] = ()
        self._number = 0
        self._swept = False
        self._lock = RLock()

    def overview(self) -> Overview:
        """All walks at a glance; kept until one of them changes, here or in the folder.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        with self._lock:
            months = months_in(self._reader.walks)
            for month in months:
                self._look(month)
            self._swept = True
            for gone in self._months.keys() - set(months):
                del self._months[gone]
                self._overview = None
            for walk_id in self._stale:
                # A month whose folder is gone has no lines; they are read when it is back.
                if known := self._months.get(month_of(walk_id)):
                    known.lines[walk_id] = self._line(walk_id)
            self._stale.clear()
            if self._overview is None:
                self._overview = self._reader.overview_of(self._months)
                self._log_unread(self._overview.unread)
            return self._overview

    def next_number(self) -> int:
        """The place of a walk that begins now in the order of this data folder's walks.

        Of a month that cannot be read the index tells which are taken. It may be late or lost, so a
        wide gap is left for walks that nobody saw: an OK of theirs must not come after a defect
        found since, and close it.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        with self._lock:
            if not self._months:
                self.overview()
            return self._number + 1

    @contextmanager
    def saving(self, walk_id: str) -> Iterator[None]:
        """Around each write of a walk's file, so that it is known who changed the folder."""
        month = month_of(walk_id)
        folder = self._reader.folder(month)
        with self._lock:
            known = self._months.get(month)
            nothing_else = known is not None and known.folder == folder_state(folder)
        yield
        with self._lock:
            self._stale.add(walk_id)
            self._overview = None
            if known and nothing_else and self._months.get(month) is known:
                self._months[month] = replace(known, folder=folder_state(folder))

    def now(self, walk: Walk) -> None:
        """What a walk has become, so that its line needs no reading."""
        with self._lock:
            self._live[walk.id] = walk
            if isinstance(first := walk.events[0], Began):
                self._number = max(self._number, first.number)
            if walk.phase == "finished":
                month = month_of(walk.id)
                self._unwritten[month] = self._unwritten.get(month, 0) + 1
                if self._unwritten[month] >= ENDS_AT_ONCE:
                    self.flush()

    def forget(self, walk_id: str) -> None:
        """What is known of a walk no longer stands in its file: its line is read from there."""
        with self._lock:
            self._live.pop(walk_id, None)

    def flush(self) -> None:
        """Write the index of each month in which a walk has changed."""
        with self._lock:
            self.overview()
            for month in self._unwritten.keys() & self._months.keys():
                # From a folder that cannot be read there is nothing to write; when it can, that
                # its index is late will be seen.
                if not self._months[month].fault:
                    self._write_month(month)
            self._unwritten.clear()

    def _look(self, month: str) -> None:
        """Read a month's lines, unless its folder is as this process left it."""
        known, folder = self._months.get(month), self._reader.folder(month)
        state = folder_state(folder)
        if known and known.folder == state and not self._is_due(month, known):
            return
        try:
            found = self._reader.month(month, trusting=known is None)
        except OSError as error:
            # What is known of a walk stands, as far as it can still be looked at.
            fault, seen = fault_of(error), known
            known = known or self._reader.remembered(month, fault)
            self._tried_s[month] = time.monotonic()
            self._take(month, replace(known, folder=state, fault=fault))
            if seen is None and not is_of(known.index, state):
                self._number += UNSEEN
            return
        self._take(month, found)
        self._stale -= found.lines.keys()
        if found.index.folder_ns == found.folder.changed_ns:
            return
        if not self._swept:
            # Later, what is half written may be in the middle of being written.
            _sweep(folder)
        late = found.lines != found.index.lines or not found.index.sound
        if late or _quiet(found):
            self._write_month(month)

    def _take(self, month: str, found: Month) -> None:
        self._months[month] = found
        self._overview = None
        self._number = max([self._number, *(line.number for line in found.lines.values())])

    def _is_due(self, month: str, known: Month) -> bool:
        """Whether a folder that could not be read is to be tried again."""
        return known.fault is not None and time.monotonic() - self._tried_s[month] >= AGAIN_S

    def _log_unread(self, unread: tuple[str, ...]) -> None:
        for sentence in unread:
            if sentence not in self._unread:
                _log.warning("%s", sentence)
        if self._unread and not unread:
            _log.info("Every month of walks can be read again.")
        self._unread = unread

    def _line(self, walk_id: str) -> WalkLine:
        self._unwritten.setdefault(month_of(walk_id), 0)
        walk = self._live.get(walk_id)
        size = file_bytes(self._reader.path(walk_id))
        if walk is None:
            return self._reader.new_line(walk_id, size)
        before = self._months[month_of(walk_id)].lines.get(walk_id)
        return line_of(walk, size, before.trouble if before else "")

    def _write_month(self, month: str) -> None:
        known = self._months[month]
        folder_ns = known.folder.changed_ns if _quiet(known) else 0
        self._write(month, index_tables(known.lines.values(), folder_ns))


def _quiet(month: Month) -> bool:
    return time.time_ns() - month.folder.changed_ns > QUIET_NS


def _sweep(folder: Path) -> None:
    """Take away what is half written; where that is not allowed it does no harm."""
    try:
        sweep(folder)
    except MachineError as error:
        _log.warning("What was half written in %s stays there: %s", folder, error)
