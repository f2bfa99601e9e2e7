"""Reading and listing walks on disk, also while another process writes: no lock, no change."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from walkaround.base.errors import InputError, MachineError, NotNowError, Problem
from walkaround.base.message import message
from walkaround.disk import locations
from walkaround.disk.durable import read_file
from walkaround.records.month_folders import PREVIOUS, WALK_FILE, months_in, walks_in
from walkaround.records.overview import Overview
from walkaround.records.walk_cache import WalkCache
from walkaround.records.walk_file import (
    Encoder,
    Row,
    WalkFile,
    json_text,
    new_tables,
    read_damaged,
    read_sound,
)
from walkaround.records.walk_line import (
    Stamp,
    WalkLine,
    line_of,
    month_of,
    original_id,
    unreadable_line,
)
from walkaround.records.walk_list import WalkList
from walkaround.walk.advance import fold
from walkaround.walk.events import Began, Event

MAX_BYTES = 4_000_000
"""The largest file of a walk: twelve thousand events; a usual walk takes a thirtieth of this."""


@dataclass(frozen=True, slots=True)
class LoadedWalk:
    """A walk as read: its events, and one sentence about damage to its file; empty if none."""

    events: tuple[Event, ...]
    notice: str = ""


class WalkReader:
    """Reads the walks of a data folder, also while another process writes: no lock, no change.

    Attributes:
        walks: the folder of the months' folders.
    """

    def __init__(self, data: Path) -> None:
        self.walks = locations.walks(data)
        # A practice walk is no record, also if its file is moved among the records.
        self._is_practice = data == locations.practice(data.parent)
        cache = WalkCache(locations.walk_list(data))
        self._list = WalkList(self.walks, cache, self.read_line)

    def load(self, walk_id: str) -> LoadedWalk:
        """Read a walk.

        Raises:
            InputError: there is no such walk.
            MachineError: its file cannot be opened, or a later version wrote it.
        """
        file = self.read(walk_id)
        return LoadedWalk(file.events, file.damage)

    def overview(self) -> Overview:
        """Return an overview of all walks.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        return self._list.overview()

    def ids(self) -> Iterator[str]:
        """List the ids that walks and their copies are stored under; the oldest walk first.

        They are read month by month, so that memory does not grow with the number of months.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        for month in reversed(months_in(self.walks)):
            try:
                ids = walks_in(self.walks / month)
            except MachineError:
                # The list has what is known of a month that cannot be read.
                ids = {line.id for line in self.overview().lines if month_of(line.id) == month}
            yield from sorted(ids)

    def read_line(self, walk_id: str, stamp: Stamp) -> WalkLine:
        """Make the line of a walk from its file, also if that is damaged."""
        try:
            file = self.read(walk_id)
            if not file.events:
                return unreadable_line(walk_id, stamp, file.damage)
            walk, elsewhere = replace(fold(file.events), id=walk_id), file.origin.elsewhere
            return line_of(walk, stamp, file.damage, elsewhere=elsewhere)
        except (MachineError, InputError, NotNowError) as error:
            return unreadable_line(walk_id, stamp, str(error))

    def path(self, walk_id: str) -> Path:
        """Return the path of a walk's file.

        Raises:
            InputError: this is no walk id.
        """
        return self.walks / month_of(walk_id) / f"{walk_id}{WALK_FILE}"

    def read(self, walk_id: str) -> WalkFile:
        """Read the valid part of a walk's file, with a sentence about damage.

        Raises:
            InputError: there is no such walk.
            MachineError: its file cannot be opened, a later version wrote it, or it is a practice
                walk among records.
        """
        path = self.path(walk_id)
        previous = previous_path(path)
        if (size := max(file_size(path), file_size(previous))) > MAX_BYTES:
            limit_mb = MAX_BYTES // 1_000_000
            raise MachineError(
                message("walk-file-too-large", path=str(path), mb=limit_mb, size=size)
            )
        data = read_file(path)
        file = read_sound(data) if data is not None else None
        if file is None:
            previous_data = read_file(previous)
            if data is None and previous_data is None:
                what, mend = message("trouble-no-such-walk"), message("problem-list-the-walks")
                raise InputError([Problem(message("problem-walk"), walk_id, what, mend)])
            file = read_damaged(data, previous_data)
            damage = message("walk-file-unreadable", walk=walk_id, path=str(path))
            if file.events:
                damage = message("walk-file-damaged", walk=walk_id, count=len(file.events))
            # It is stored in the file and in the list, in the current language.
            file = replace(file, damage=str(damage))
        first = file.events[0] if file.events else None
        if isinstance(first, Began) and first.walk != original_id(walk_id):
            raise MachineError(message("walk-file-of-another", path=str(path), walk=first.walk))
        if isinstance(first, Began) and (first.plan.practice is not None) != self._is_practice:
            raise MachineError(message("walk-file-practice", walk=walk_id))
        return file


def bytes_of(file: WalkFile, text: Callable[[Row], str] = json_text) -> bytes:
    """Return the content of a walk's file.

    Args:
        file: the walk.
        text: writes each event; its result must equal that of `json_text`.

    Raises:
        MachineError: it is too large to be read again.
    """
    data = Encoder(text).encode(new_tables(file.rows, file.damage, file.origin))
    if len(data) > MAX_BYTES:
        raise MachineError(message("walk-too-long", size=len(data)))
    return data


def previous_path(path: Path) -> Path:
    """Return the path of the backup of a walk's file, from before its last change."""
    return path.with_name(path.name + PREVIOUS)


def file_size(path: Path) -> int:
    """Return the size of a file in bytes; 0 if there is none."""
    try:
        return path.stat().st_size
    except OSError:
        return 0
