"""Walks on disk, read and listed while another process may write them: no lock, no change."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from walkaround.base.errors import InputError, MachineError, NotNowError, Problem
from walkaround.base.message import message
from walkaround.disk import locations
from walkaround.disk.durable import read_file
from walkaround.records.month_folders import BEFORE, FILE, months_in, walks_in
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
    line_without,
    month_of,
    original_id,
)
from walkaround.records.walk_list import WalkList
from walkaround.walk.advance import fold
from walkaround.walk.events import Began, Event

MAX_BYTES = 4_000_000
"""Twelve thousand entries; those of a whole walk take a thirtieth of this."""


@dataclass(frozen=True, slots=True)
class Loaded:
    """A walk as read: its events, and one sentence about damage if its file suffered any."""

    events: tuple[Event, ...]
    notice: str = ""


class WalkReader:
    """Walks of a data folder, read while another process may write them: no lock, no change.

    Attributes:
        walks: the folder that the months' folders lie in.
    """

    def __init__(self, data: Path) -> None:
        self.walks = locations.walks(data)
        # What was practice is no record wherever its file is put, and no record is practice.
        self._of_practice = data == locations.practice(data.parent)
        cache = WalkCache(locations.walk_list(data))
        self._list = WalkList(self.walks, cache, self.read_line)

    def load(self, walk_id: str) -> Loaded:
        """Read a walk.

        Raises:
            InputError: there is no such walk.
            MachineError: its file cannot be opened, or a later version wrote it.
        """
        file = self.read(walk_id)
        return Loaded(file.events, file.damage)

    def overview(self) -> Overview:
        """Show all walks at a glance.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        return self._list.overview()

    def ids(self) -> Iterator[str]:
        """Give what every walk, and every copy of one, is kept under; the oldest walk first.

        They are named a month at a time, so that it takes no more room the more months there are.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        for month in reversed(months_in(self.walks)):
            try:
                there = walks_in(self.walks / month)
            except MachineError:
                # What is known of a month that cannot be read is in the list.
                there = {line.id for line in self.overview().lines if month_of(line.id) == month}
            yield from sorted(there)

    def read_line(self, walk_id: str, stamp: Stamp) -> WalkLine:
        """Make the line of a walk from its file, whatever state that is in."""
        try:
            file = self.read(walk_id)
            if not file.events:
                return line_without(walk_id, stamp, file.damage)
            walk, elsewhere = replace(fold(file.events), id=walk_id), file.origin.elsewhere
            return line_of(walk, stamp, file.damage, elsewhere=elsewhere)
        except (MachineError, InputError, NotNowError) as error:
            return line_without(walk_id, stamp, str(error))

    def path(self, walk_id: str) -> Path:
        """Tell where a walk lies; raises InputError if this is no walk id."""
        return self.walks / month_of(walk_id) / f"{walk_id}{FILE}"

    def read(self, walk_id: str) -> WalkFile:
        """Read what is sound of a walk's file, with a sentence about what is not.

        Raises:
            InputError: there is no such walk.
            MachineError: its file cannot be opened, a later version wrote it, or it is of practice
                among records.
        """
        path = self.path(walk_id)
        before = kept_before(path)
        if (size := max(file_size(path), file_size(before))) > MAX_BYTES:
            most = MAX_BYTES // 1_000_000
            raise MachineError(message("walk-file-too-large", path=str(path), mb=most, size=size))
        data = read_file(path)
        file = read_sound(data) if data is not None else None
        if file is None:
            data_before = read_file(before)
            if data is None and data_before is None:
                what, mend = message("trouble-no-such-walk"), message("problem-list-the-walks")
                raise InputError([Problem(message("problem-walk"), walk_id, what, mend)])
            file = read_damaged(data, data_before)
            damage = message("walk-file-unreadable", walk=walk_id, path=str(path))
            if file.events:
                damage = message("walk-file-damaged", walk=walk_id, count=len(file.events))
            # It is kept in the file and in the list, in the language that is there now.
            file = replace(file, damage=str(damage))
        first = file.events[0] if file.events else None
        if isinstance(first, Began) and first.walk != original_id(walk_id):
            raise MachineError(message("walk-file-of-another", path=str(path), walk=first.walk))
        if isinstance(first, Began) and (first.plan.practice is not None) != self._of_practice:
            raise MachineError(message("walk-file-practice", walk=walk_id))
        return file


def bytes_of(file: WalkFile, text: Callable[[Row], str] = json_text) -> bytes:
    """Write a walk as its file holds it; MachineError if nobody would read one that large.

    Args:
        file: the walk.
        text: writes each event; whatever does must write what `json_text` does.
    """
    data = Encoder(text).encode(new_tables(file.rows, file.damage, file.origin))
    if len(data) > MAX_BYTES:
        raise MachineError(message("walk-too-long", size=len(data)))
    return data


def kept_before(path: Path) -> Path:
    """Tell where a walk's file as it was before its last change is kept."""
    return path.with_name(path.name + BEFORE)


def file_size(path: Path) -> int:
    """Tell the size of a file, 0 if there is none."""
    try:
        return path.stat().st_size
    except OSError:
        return 0
