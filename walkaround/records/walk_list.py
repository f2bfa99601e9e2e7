"""The list of all walks, always as in their files.

A list must not take longer with more walks, and no tap may wait for it. So lines are stored in
memory, and between runs in a cache (see `walk_cache.py`). Each time the list is needed, they are
compared with the folders:

- A month is read again if its folder has changed, or a walk in it was saved by this process.
- A line is made again if the file of its walk has another size or time of change than when the line
  was made. These are read before the file: if it changes meanwhile, the line is stale.
- An open walk need not be read: its line is made from the walk in memory, except while it is being
  written, when memory and file may differ.

A month that cannot be read hides no other. What is known of its walks is shown; but if that may be
outdated, as in the cache, the OKs of a walk under way close no defect: one may be a defect now.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from threading import RLock

from walkaround.base.garbage_collection import garbage_collection_off
from walkaround.records.month_folders import (
    WALK_FILE,
    FolderState,
    folder_fault,
    folder_state,
    months_in,
    stamp_of,
    stamps_in,
)
from walkaround.records.overview import FolderFault, Overview, overview_of, unread_messages
from walkaround.records.walk_cache import WalkCache
from walkaround.records.walk_line import ELSEWHERE, NO_STAMP, Stamp, WalkLine, line_of, month_of
from walkaround.walk.events import Began
from walkaround.walk.state import Walk

RETRY_S = 60.0
"""How long until a folder that could not be read is tried again, unless it has changed: a failing
disk may take seconds, and a tap on the list waits for it."""
UNSEEN_WALKS = 1_000_000
"""More walks than one month has. If a month cannot be read, the numbers of its walks are not known:
walks begun meanwhile get numbers this much higher, so that the order stays right, and an OK closes
no defect that was found later."""


@dataclass(slots=True)
class _MonthLines:
    """The lines of one month.

    Attributes:
        lines: by the walk's id.
        folder: the state of the folder when it was read; None before that.
        fault: why it could not be read; then `lines` may be incomplete or outdated.
        tried_s: when it was read last, monotonic seconds.
    """

    lines: dict[str, WalkLine] = field(default_factory=dict)
    folder: FolderState | None = None
    fault: FolderFault | None = None
    tried_s: float = 0.0


class WalkList:
    """The list; any thread may use it, and none waits for another's write of a walk.

    Attributes:
        has_bypassed_lines: whether lines were added to the cache before the list was loaded.
    """

    def __init__(
        self, walks: Path, cache: WalkCache, read: Callable[[str, Stamp], WalkLine]
    ) -> None:
        """Use these.

        Args:
            walks: the folder of walks.
            cache: the cache of the list.
            read: makes a walk's line from its file, also if that is damaged.
        """
        self._walks = walks
        self._cache = cache
        self._read = read
        self._added: dict[str, WalkLine] = {}
        self.has_bypassed_lines = False
        self._loaded = False
        self._months: dict[str, _MonthLines] = {}
        self._open: dict[str, Walk] = {}
        self._saved_in: set[str] = set()
        self._uncached: set[str] = set()
        self._overview: Overview | None = None
        self._last_number = 0
        self._lock = RLock()

    def overview(self) -> Overview:
        """Return an overview of all walks.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        with self._lock, garbage_collection_off():
            months = months_in(self._walks)
            if not self._loaded:
                for line in self._cache.load():
                    # A walk that could not be read may have been mended since.
                    checked = line._replace(stamp=NO_STAMP) if line.trouble else line
                    month = f"{line.id[:4]}-{line.id[4:6]}"
                    self._months.setdefault(month, _MonthLines()).lines[line.id] = checked
                self._loaded, self.has_bypassed_lines = True, False
            for month in months:
                self._update_month(month)
            for missing in self._months.keys() - set(months):
                self._uncached |= self._months.pop(missing).lines.keys()
                self._overview = None
            if self._overview is None:
                faults = {name: each.fault for name, each in self._months.items() if each.fault}
                self._overview = overview_of(
                    self._lines(), unread_messages(str(self._walks), faults)
                )
            return self._overview

    def save_cache(self) -> None:
        """Save the changes of the list in the cache."""
        with self._lock:
            none = _MonthLines()
            changed = {
                walk_id: self._months.get(month_of(walk_id), none).lines.get(walk_id)
                for walk_id in self._uncached
            }
            self._cache.save(changed, self._lines)
            self._uncached.clear()

    def next_number(self) -> int:
        """Return the number of a walk that begins now, its place among those of this data folder.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        with self._lock:
            if not self._loaded:
                self.overview()
            return self._last_number + 1

    @contextmanager
    def saving(self, walk_id: str) -> Iterator[None]:
        """Mark a walk as being written: until `note`, the walk in memory may differ."""
        with self._lock:
            self._open.pop(walk_id, None)
        try:
            yield
        finally:
            with self._lock:
                # The resolution of the folder's time may be too low to show this write.
                self._saved_in.add(month_of(walk_id))

    def note(self, walk: Walk) -> None:
        """Note a walk as it was saved, so that it need not be read for its line."""
        with self._lock:
            self._open[walk.id] = walk
            self._overview = None
            if isinstance(first := walk.events[0], Began):
                self._last_number = max(self._last_number, first.number)

    def add_lines(self, lines: Iterable[WalkLine]) -> None:
        """Add the lines of new walks from elsewhere as saved, so that none is read again.

        Before the list is loaded, they are added to the cache only.
        """
        stamped = {}
        for line in lines:
            path = self._walks / month_of(line.id) / f"{line.id}{WALK_FILE}"
            stamped[line.id] = line._replace(stamp=stamp_of(path))
        with self._lock:
            if self._loaded:
                self._added |= stamped
                self._saved_in |= {month_of(walk_id) for walk_id in stamped}
            else:
                self._cache.add(stamped)
                self.has_bypassed_lines = True

    def _update_month(self, month: str) -> None:
        """Bring a month's lines up to date, unless its folder is unchanged."""
        folder, current = self._walks / month, self._months.setdefault(month, _MonthLines())
        # Before anything is read, so that a later change is noticed the next time.
        state = folder_state(folder)
        if current.folder == state:
            is_due = time.monotonic() - current.tried_s >= RETRY_S
            if not (is_due if current.fault else month in self._saved_in):
                return
        self._saved_in.discard(month)
        updated = _MonthLines({}, state, None, time.monotonic())
        try:
            for walk_id, stamp in stamps_in(folder, current.lines).items():
                line = current.lines.get(walk_id) or self._added.pop(walk_id, None)
                if line is not None and line.stamp == stamp and walk_id not in current.lines:
                    self._uncached.add(walk_id)
                if line is None or line.stamp != stamp or stamp == NO_STAMP:
                    line = self._make_line(walk_id, stamp, line)
                    self._uncached.add(walk_id)
                updated.lines[walk_id] = line
            self._uncached |= current.lines.keys() - updated.lines.keys()
        except OSError as error:
            updated.lines, updated.fault = current.lines, folder_fault(error)
            if current.folder is None:
                updated.lines = {
                    walk_id: _without_oks(line) for walk_id, line in current.lines.items()
                }
        self._months[month] = updated
        if current.folder is None or (current.lines, current.fault) != (
            updated.lines,
            updated.fault,
        ):
            self._overview = None
        numbers = (line.number for line in updated.lines.values())
        self._last_number = max(self._last_number, *numbers, 0)
        if current.folder is None and updated.fault:
            self._last_number += UNSEEN_WALKS

    def _make_line(self, walk_id: str, stamp: Stamp, line: WalkLine | None) -> WalkLine:
        walk = self._open.get(walk_id)
        # If a walk has no line yet, only its file says where it came from.
        if walk is None or (line is None and stamp != NO_STAMP):
            return self._read(walk_id, stamp)
        elsewhere = line is not None and line.number == ELSEWHERE
        return line_of(walk, stamp, line.trouble if line else "", elsewhere=elsewhere)

    def _lines(self) -> Iterator[WalkLine]:
        """Return every line; open walks are current also if their folder cannot be read."""
        for name, month in self._months.items():
            if month.fault:
                open_ids = (walk_id for walk_id in self._open if month_of(walk_id) == name)
                for walk_id in open_ids:
                    line = month.lines.get(walk_id)
                    month.lines[walk_id] = self._make_line(walk_id, NO_STAMP, line)
            yield from month.lines.values()


def _without_oks(line: WalkLine) -> WalkLine:
    """Return the line of a walk that may have changed since, which a finished walk has not."""
    return line if line.phase == "finished" else line._replace(ok=(), stamp=NO_STAMP)
