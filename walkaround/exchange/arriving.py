"""The walks of a record file, one after another, each checked, by several processes if it is large.

What takes time of a walk and needs nothing of the data folder is done here: it is parsed, its seals
and signatures are checked, and what would be saved of it if it is new is made. A process gets lines
and gives back no more than what is told and saved; to send events back would take as long as to
check them again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TypeAlias

from walkaround.base.errors import MachineError, NotNowError
from walkaround.base.garbage_collection import garbage_collection_off
from walkaround.base.message import Message, Text, message
from walkaround.exchange.checked import CheckedCopy, check_copy
from walkaround.exchange.opened import Opened, RecordFileError
from walkaround.exchange.processes import processes_at_hand, work_in_processes
from walkaround.exchange.record_file import photos_of
from walkaround.exchange.signatures import united
from walkaround.records.reader import bytes_of
from walkaround.records.walk_file import Origin, WalkFile, json_text, quick_text
from walkaround.records.walk_line import WalkLine, line_of
from walkaround.walk.advance import fold
from walkaround.walk.seals import GENESIS, fits_as_quickly_written

FEW_BYTES = 16_000_000
"""Walks that take no more than this are checked before another process would have started."""
_BATCH_BYTES = 1_000_000
"""To check this many takes about as long as to save a batch, so neither waits long."""

Batch: TypeAlias = tuple[int, list[bytes]]
"""Lines of a record file, and which line the first of them is, from 1."""


@dataclass(frozen=True, slots=True)
class New:
    """What is saved of a walk that is new in a data folder.

    Attributes:
        line: for the list.
        data: its file.
        refused: why it cannot be taken instead.
    """

    line: WalkLine | None = None
    data: bytes = b""
    refused: Text = ""


@dataclass(frozen=True, slots=True)
class Arriving:
    """What is told of one line of a record file.

    Attributes:
        walk_id: of the walk; empty if the line cannot be read.
        tip: the seal of its last event that is good; empty if none is.
        photos: digests of those that it took.
        faults: everything wrong with it; empty if it is as it was shared.
        new: what would be saved of it, if it has no fault and that was asked for.
    """

    walk_id: str
    tip: str
    photos: tuple[str, ...]
    faults: tuple[Message, ...]
    new: New | None = None


def arriving(file: Opened, *, saving: bool) -> Iterator[tuple[bytes, Arriving]]:
    """List each line of a record file's walks, and what is told of it.

    Args:
        file: the record file.
        saving: whether what would be saved is wanted as well.

    Raises:
        RecordFileError: they cannot be read on from here.
    """
    before, trouble = ("", ""), list[RecordFileError]()
    processes = processes_at_hand() if file.walks_bytes > FEW_BYTES else 1
    work = _to_save if saving else _to_tell
    for (_, lines), told in work_in_processes(work, _batches(file, trouble), processes):
        for line, arrival in zip(lines, told, strict=True):
            faults = [
                message("exchange-photo-swapped", walk=arrival.walk_id, photo=photo[:8])
                for photo in arrival.photos
                if file.photo(photo) is None
            ]
            if arrival.tip:
                now = (arrival.walk_id, arrival.tip)
                if now <= before:
                    faults.append(message("exchange-out-of-order", walk=arrival.walk_id))
                before = now
            yield line, replace(arrival, faults=(*arrival.faults, *faults)) if faults else arrival
    if trouble:
        raise trouble[0]


def _batches(file: Opened, trouble: list[RecordFileError]) -> Iterator[Batch]:
    """The lines, many at a time; why they end too soon comes after what came before it."""
    place, lines, size = 1, list[bytes](), 0
    try:
        for line in file.lines():
            lines.append(line)
            size += len(line)
            if size > _BATCH_BYTES:
                yield place, lines
                place, lines, size = place + len(lines), [], 0
    except RecordFileError as error:
        trouble.append(error)
    if lines:
        yield place, lines


def _to_tell(batch: Batch) -> list[Arriving]:
    return [_told(each) for each in _checked(batch)]


def _to_save(batch: Batch) -> list[Arriving]:
    return [
        told if (told := _told(each)).faults else replace(told, new=_new(each))
        for each in _checked(batch)
    ]


def _checked(batch: Batch) -> Iterable[CheckedCopy]:
    with garbage_collection_off():
        first, lines = batch
        for place, line in enumerate(lines, start=first):
            yield check_copy(line, place)


def _told(checked: CheckedCopy) -> Arriving:
    copy = checked.copy
    tip = copy.seals[-1] if copy.rows else ""
    return Arriving(copy.walk_id, tip, tuple(photos_of(copy.rows)), checked.faults)


def _new(checked: CheckedCopy) -> New:
    try:
        line = line_of(fold(checked.events), elsewhere=True)
    except NotNowError as error:
        why = message("walk-not-understood", walk=checked.copy.walk_id, why=error.text)
        return New(refused=why)
    origin = Origin(True, tuple(one.row() for one in united(checked.copy.signed)))
    file = WalkFile(checked.copy.rows, checked.events, sound=True, origin=origin)
    linked = zip(checked.copy.rows, (GENESIS, *checked.copy.seals), strict=False)
    quick = all(fits_as_quickly_written(row, link) for row, link in linked)
    try:
        return New(line, bytes_of(file, quick_text if quick else json_text))
    except MachineError as error:
        return New(refused=error.text)
