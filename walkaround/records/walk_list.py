"""The list of all walks, always as the files in the folders are.

Lists must not take longer the more walks there are, and no tap may pay for them. So lines are kept
in memory, and from one run to the next in a cache (see `walk_cache.py`). What is kept is held
against the folders each time a list is asked for:

- A month is looked through if its folder has changed since, or a walk in it was saved here.
- A line is made anew if the file of its walk has another size or time of change than when the line
  was made. The file's are looked at before it is read: if it changes meanwhile, the line is stale.
- A walk that is open here need not be read: its line is made from what is in memory, unless a write
  is under way, when memory and file may differ.

A month that cannot be read hides no other. What is known of its walks is shown; but where that may
be late, as in the cache, the OKs of a walk under way close no defect: one may be a defect by now.
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
    FILE,
    FolderState,
    fault_of,
    folder_state,
    months_in,
    stamp_of,
    stamps_in,
)
from walkaround.records.overview import FolderFault, Overview, overview_of, unread_words
from walkaround.records.walk_cache import WalkCache
from walkaround.records.walk_line import ELSEWHERE, NO_STAMP, Stamp, WalkLine, line_of, month_of
from walkaround.walk.events import Began
from walkaround.walk.state import Walk

AGAIN_S = 60.0
"""A folder that cannot be read is tried again at once when it has been touched, else after so long:
a failing disk may take seconds to answer, and a tap on the list waits for it."""
UNSEEN = 1_000_000
"""More walks than lie in one month that cannot be read. So far on are numbered those begun while
nobody knows which numbers that month's have: an OK of theirs must not come after a defect that was
found since, and close it."""


@dataclass(slots=True)
class _Month:
    """What is known of one month.

    Attributes:
        lines: by the walk's id.
        folder: what the folder was like as it was looked through; None before that.
        fault: why it could not be, if so; then `lines` may lack some, or be late.
        tried_s: when that was tried, by the clock of AGAIN_S.
    """

    lines: dict[str, WalkLine] = field(default_factory=dict)
    folder: FolderState | None = None
    fault: FolderFault | None = None
    tried_s: float = 0.0


class WalkList:
    """The list; any thread may ask for it, and none waits for another's write of a walk.

    Attributes:
        passed_by: lines went past it into the cache, and nobody has asked for it yet.
    """

    def __init__(
        self, walks: Path, cache: WalkCache, read: Callable[[str, Stamp], WalkLine]
    ) -> None:
        """Take the folder of walks, what kept the list, and what makes a walk's line from its file,
        whatever state that is in."""
        self._walks = walks
        self._cache = cache
        self._read = read
        self._brought: dict[str, WalkLine] = {}
        self.passed_by = False
        self._loaded = False
        self._months: dict[str, _Month] = {}
        self._open: dict[str, Walk] = {}
        self._saved_in: set[str] = set()
        self._uncached: set[str] = set()
        self._overview: Overview | None = None
        self._last_number = 0
        self._lock = RLock()

    def overview(self) -> Overview:
        """Show all walks at a glance.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        with self._lock, garbage_collection_off():
            months = months_in(self._walks)
            if not self._loaded:
                for line in self._cache.load():
                    # What was wrong with a walk may have been put right since.
                    kept = line._replace(stamp=NO_STAMP) if line.trouble else line
                    month = f"{line.id[:4]}-{line.id[4:6]}"
                    self._months.setdefault(month, _Month()).lines[line.id] = kept
                self._loaded, self.passed_by = True, False
            for month in months:
                self._look(month)
            for gone in self._months.keys() - set(months):
                self._uncached |= self._months.pop(gone).lines.keys()
                self._overview = None
            if self._overview is None:
                faults = {name: each.fault for name, each in self._months.items() if each.fault}
                self._overview = overview_of(self._lines(), unread_words(str(self._walks), faults))
            return self._overview

    def keep(self) -> None:
        """Put what has changed in the list into the cache."""
        with self._lock:
            none = _Month()
            changed = {
                walk_id: self._months.get(month_of(walk_id), none).lines.get(walk_id)
                for walk_id in self._uncached
            }
            self._cache.save(changed, self._lines)
            self._uncached.clear()

    def next_number(self) -> int:
        """Give the place of a walk that begins now in the order of this data folder's walks.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        with self._lock:
            if not self._loaded:
                self.overview()
            return self._last_number + 1

    @contextmanager
    def saving(self, walk_id: str) -> Iterator[None]:
        """Surround each write of a walk's file: until `note` what is in memory may differ."""
        with self._lock:
            self._open.pop(walk_id, None)
        try:
            yield
        finally:
            with self._lock:
                # The folder's own time may go in steps too long to show this write.
                self._saved_in.add(month_of(walk_id))

    def note(self, walk: Walk) -> None:
        """Take the walk as its file is now, so that its line needs no reading."""
        with self._lock:
            self._open[walk.id] = walk
            self._overview = None
            if isinstance(first := walk.events[0], Began):
                self._last_number = max(self._last_number, first.number)

    def brought(self, lines: Iterable[WalkLine]) -> None:
        """Take note of new walks from elsewhere as they were saved, so that none is read again.

        Before the list is asked for, their lines go past it into the cache.
        """
        stamped = {}
        for line in lines:
            path = self._walks / month_of(line.id) / f"{line.id}{FILE}"
            stamped[line.id] = line._replace(stamp=stamp_of(path))
        with self._lock:
            if self._loaded:
                self._brought |= stamped
                self._saved_in |= {month_of(walk_id) for walk_id in stamped}
            else:
                self._cache.add(stamped)
                self.passed_by = True

    def _look(self, month: str) -> None:
        """Bring a month's lines up to date, unless its folder is as it was."""
        folder, listed = self._walks / month, self._months.setdefault(month, _Month())
        # Before anything is read, so that a change after it is seen the next time.
        state = folder_state(folder)
        if listed.folder == state:
            again = time.monotonic() - listed.tried_s >= AGAIN_S
            if not (again if listed.fault else month in self._saved_in):
                return
        self._saved_in.discard(month)
        now = _Month({}, state, None, time.monotonic())
        try:
            for walk_id, stamp in stamps_in(folder, listed.lines).items():
                line = listed.lines.get(walk_id) or self._brought.pop(walk_id, None)
                if line is not None and line.stamp == stamp and walk_id not in listed.lines:
                    self._uncached.add(walk_id)
                if line is None or line.stamp != stamp or stamp == NO_STAMP:
                    line = self._made(walk_id, stamp, line)
                    self._uncached.add(walk_id)
                now.lines[walk_id] = line
            self._uncached |= listed.lines.keys() - now.lines.keys()
        except OSError as error:
            now.lines, now.fault = listed.lines, fault_of(error)
            if listed.folder is None:
                now.lines = {walk_id: _late(line) for walk_id, line in listed.lines.items()}
        self._months[month] = now
        if listed.folder is None or (listed.lines, listed.fault) != (now.lines, now.fault):
            self._overview = None
        numbers = (line.number for line in now.lines.values())
        self._last_number = max(self._last_number, *numbers, 0)
        if listed.folder is None and now.fault:
            self._last_number += UNSEEN

    def _made(self, walk_id: str, stamp: Stamp, before: WalkLine | None) -> WalkLine:
        walk = self._open.get(walk_id)
        # Only its file tells where a walk came from of which there is no line yet.
        if walk is None or (before is None and stamp != NO_STAMP):
            return self._read(walk_id, stamp)
        elsewhere = before is not None and before.number == ELSEWHERE
        return line_of(walk, stamp, before.trouble if before else "", elsewhere=elsewhere)

    def _lines(self) -> Iterator[WalkLine]:
        """Every line; in a folder that cannot be read, walks that are open here go on."""
        for name, month in self._months.items():
            if month.fault:
                here = (walk_id for walk_id in self._open if month_of(walk_id) == name)
                for walk_id in here:
                    before = month.lines.get(walk_id)
                    month.lines[walk_id] = self._made(walk_id, NO_STAMP, before)
            yield from month.lines.values()


def _late(line: WalkLine) -> WalkLine:
    """The line of a walk that may have gone on since; nothing that matters does after its end."""
    return line if line.phase == "finished" else line._replace(ok=(), stamp=NO_STAMP)
