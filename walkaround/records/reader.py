"""Walks as they lie on disk, read and listed beside whoever writes there: no lock, no change.

The index is a list of lines kept so that a list of walks need not read each walk. Its lines tell
by the size of the walk's file whether they are stale, and stale ones are made anew from the
walk, so that a lost or late index costs time, never a walk. A month whose folder cannot be read
hides no other month.
"""

from __future__ import annotations

import logging
import os
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import chain
from pathlib import Path

from walkaround.base.errors import InputError, MachineError, NotNowError, Problem
from walkaround.disk import locations
from walkaround.disk.durable import read_file
from walkaround.records.index_file import Index, index_in
from walkaround.records.month_folders import (
    BEFORE,
    FILE,
    FolderState,
    fault_of,
    folder_state,
    inside,
    months_in,
    sizes_in,
)
from walkaround.records.overview import Fault, Overview, overview_of, unread_words
from walkaround.records.walk_file import WalkFile, read_damaged, read_sound
from walkaround.records.walk_line import WalkLine, line_of, line_without, month_of
from walkaround.walk.advance import fold
from walkaround.walk.events import Began, Event

_log = logging.getLogger(__name__)

MAX_BYTES = 4_000_000
"""Twelve thousand entries; those of a whole walk take a thirtieth of this."""


@dataclass(frozen=True, slots=True)
class Loaded:
    """A walk as read: its events, and one sentence about damage if its file suffered any."""

    events: tuple[Event, ...]
    notice: str = ""


@dataclass(frozen=True, slots=True)
class Month:
    """The walks of one month.

    Attributes:
        lines: by the walk's id.
        folder: what their folder was like as they were looked at.
        index: what the index held.
        fault: why the folder cannot be read, if so; then `lines` may lack some, or be late.
    """

    lines: dict[str, WalkLine]
    folder: FolderState
    index: Index
    fault: Fault | None = None


class WalkReader:
    """Walks of a data folder, read beside whoever writes there: no lock, no change.

    Attributes:
        walks: the folder that the months' folders lie in.
    """

    def __init__(self, data: Path) -> None:
        self.walks = locations.walks(data)
        self._index = locations.index(data)

    def load(self, walk_id: str) -> Loaded:
        """Read a walk.

        Raises:
            InputError: there is no such walk.
            MachineError: its file cannot be opened, or a later version wrote it.
        """
        return self._loaded(walk_id, self._read(walk_id))

    def lines(self) -> tuple[WalkLine, ...]:
        """The lines of the overview: one for each walk, the one begun last first.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        return self.overview().lines

    def overview(self) -> Overview:
        """All walks at a glance.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        found: dict[str, Month] = {}
        for month in months_in(self.walks):
            try:
                found[month] = self.month(month)
            except OSError as error:
                found[month] = self.remembered(month, fault_of(error))
        return self.overview_of(found)

    def overview_of(self, months: Mapping[str, Month]) -> Overview:
        """The walks of these months at a glance, and what of them cannot be read."""
        lines = chain.from_iterable(month.lines.values() for month in months.values())
        faults = {name: month.fault for name, month in months.items() if month.fault}
        return overview_of(lines, unread_words(str(self.walks), faults))

    def month(self, month: str, *, trusting: bool = False) -> Month:
        """The lines of a month's walks: those of its index that are not stale, the others anew.

        Args:
            month: as in "2026-11".
            trusting: believe the index if the folder has not changed since, and look at no walk.

        Raises:
            OSError: the month's folder cannot be read.
        """
        # First, so that a change after it is seen the next time.
        folder = folder_state(self.folder(month))
        # Opened even if the index will do: that the folder cannot be read must not go unsaid.
        with os.scandir(inside(self.folder(month))) as entries:
            index = self._indexed(month)
            troubled = any(line.trouble for line in index.lines.values())
            if trusting and is_of(index, folder) and not troubled:
                return Month(index.lines, folder, index)
            sizes = sizes_in(entries, month, index.lines)
        lines = {id_: self._line(id_, size, index.lines) for id_, size in sizes.items()}
        return Month(lines, folder, index)

    def remembered(self, month: str, fault: Fault) -> Month:
        """What the index tells of a month whose folder cannot be read.

        Its lines are shown: a defect known to be open must not leave the list with the folder,
        and the numbers of its walks are taken. Each has a check sum, so that it is what was
        written once; but it may be late. Nothing that matters changes in a finished walk. In one
        that was under way an OK may have become a defect since, so its OKs close nothing, unless
        the folder has not changed since the index was written.
        """
        folder, index = folder_state(self.folder(month)), self._indexed(month)
        lines = dict(index.lines)
        if not is_of(index, folder):
            for id_, line in lines.items():
                if line.phase != "finished":
                    lines[id_] = line._replace(ok=())
        return Month(lines, folder, index, fault)

    def _indexed(self, month: str) -> Index:
        """What the index holds; a line that cannot be trusted is left to be made anew."""
        path = self._index_path(month)
        try:
            data = read_file(path)
        except MachineError as error:
            _log.warning("%s The walks are read instead.", error)
            return Index()
        if data is None:
            return Index()
        index = index_in(data)
        if not index.sound:
            _log.warning("%s was damaged; what is missing is read from the walks.", path)
        return index

    def _line(self, walk_id: str, size: int, known: Mapping[str, WalkLine]) -> WalkLine:
        """The known line, unless the walk's file has grown since or something was wrong with it."""
        line = known.get(walk_id)
        fresh = line and line.file_bytes == size and not line.trouble
        return line if line and fresh else self.new_line(walk_id, size)

    def new_line(self, walk_id: str, size: int) -> WalkLine:
        """The line of a walk from its file, whatever state that is in."""
        try:
            loaded = self._loaded(walk_id, self._read(walk_id))
            if not loaded.events:
                return line_without(walk_id, size, loaded.notice)
            return line_of(fold(loaded.events), size, loaded.notice)
        except (MachineError, InputError, NotNowError) as error:
            return line_without(walk_id, size, str(error))

    def folder(self, month: str) -> Path:
        """Where a month's walks lie."""
        return self.walks / month

    def path(self, walk_id: str) -> Path:
        """Where a walk lies; raises InputError if this is no walk id."""
        return self.folder(month_of(walk_id)) / f"{walk_id}{FILE}"

    def _index_path(self, month: str) -> Path:
        return self._index / f"{month}.json"

    def _read(self, walk_id: str) -> WalkFile:
        path = self.path(walk_id)
        if (size := max(map(file_bytes, (path, kept_before(path))))) > MAX_BYTES:
            raise MachineError(
                f"{path} is larger than {MAX_BYTES // 1_000_000} MB, which no walk is "
                f"({size} bytes); take it out of the folder."
            )
        now = read_file(path)
        found = read_sound(now) if now is not None else None
        if found is None:
            before = read_file(kept_before(path))
            if now is None and before is None:
                what, mend = "there is no such walk", "list the walks"
                raise InputError([Problem("walk", walk_id, what, mend)])
            found = read_damaged(now, before)
        first = found.events[0] if found.events else None
        if isinstance(first, Began) and first.walk != walk_id:
            raise MachineError(
                f"{path} holds walk {first.walk}; give the file the name of its walk, or take it "
                "out of the folder."
            )
        return found

    def _loaded(self, walk_id: str, found: WalkFile) -> Loaded:
        notice = found.damage
        if not found.events:
            notice = (
                f"Nothing of walk {walk_id} can be read; its file is left as it is, "
                f"at {self.path(walk_id)}."
            )
        elif not found.sound:
            notice = f"{damage(walk_id, found)}."
        return Loaded(found.events, notice)


def kept_before(path: Path) -> Path:
    """Where a walk's file as it was before its last change is kept."""
    return path.with_name(path.name + BEFORE)


def damage(walk_id: str, found: WalkFile) -> str:
    """What to tell people of a damaged file, as a sentence without its full stop."""
    return (
        f"The file of walk {walk_id} was damaged: its first {len(found.events)} entries fit "
        "together and are kept, anything after them is lost"
    )


def file_bytes(path: Path) -> int:
    """The size of a file, 0 if there is none."""
    try:
        return path.stat().st_size
    except OSError:
        return 0


def is_of(index: Index, folder: FolderState) -> bool:
    """Whether the folder has not changed since the index was written."""
    return folder.changed_ns != 0 and index.folder_ns == folder.changed_ns
