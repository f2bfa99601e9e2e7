"""The walks of a record file, each checked, by several processes if the file is large.

The work on a walk that takes time and does not need the data folder is done here: it is parsed, its
seals and signatures are checked, and the file to save it as, if it is new, is made. A process gets
lines and returns no more than is reported and saved; returning the events would take as long as
checking them again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TypeAlias

from walkaround.base.errors import MachineError, NotNowError
from walkaround.base.garbage_collection import garbage_collection_off
from walkaround.base.message import Message, Text, message
from walkaround.exchange.copy_check import CheckedCopy, check_copy
from walkaround.exchange.processes import usable_processes, work_in_processes
from walkaround.exchange.record_file import photos_of
from walkaround.exchange.record_file_reader import RecordFile, RecordFileError
from walkaround.exchange.signatures import merge_signatures
from walkaround.records.reader import bytes_of
from walkaround.records.walk_file import Origin, WalkFile, json_text, quick_text
from walkaround.records.walk_line import WalkLine, line_of
from walkaround.walk.advance import fold
from walkaround.walk.seals import GENESIS, fits_as_quickly_written

FEW_BYTES = 16_000_000
"""Walks of no more than this are checked before another process would have started."""
_BATCH_BYTES = 1_000_000
"""Checking this many takes about as long as saving a batch, so neither waits long."""

Batch: TypeAlias = tuple[int, list[bytes]]
"""The number of the first line in the record file, from 1, and the lines."""


@dataclass(frozen=True, slots=True)
class NewWalk:
    """What is saved of a walk that is new in a data folder.

    Attributes:
        line: its line of the walk list; None if it is refused.
        data: the bytes of its file.
        refused: why it cannot be saved; empty if it can.
    """

    line: WalkLine | None = None
    data: bytes = b""
    refused: Text = ""


@dataclass(frozen=True, slots=True)
class FileWalk:
    """A walk of a record file, checked.

    Attributes:
        walk_id: its id; empty if the line cannot be read.
        tip: the seal of its last valid event; empty if there is none.
        photos: digests of its photos.
        faults: everything wrong with it; empty if it is as it was shared.
        new: what to save of it if it is new; None if it has a fault, or that was not asked for.
    """

    walk_id: str
    tip: str
    photos: tuple[str, ...]
    faults: tuple[Message, ...]
    new: NewWalk | None = None


def read_walks(file: RecordFile, *, saving: bool) -> Iterator[tuple[bytes, FileWalk]]:
    """Read the walks of a record file: each line, and the walk in it.

    Args:
        file: the record file.
        saving: whether to set `FileWalk.new`.

    Raises:
        RecordFileError: the file cannot be read any further.
    """
    key_before, errors = ("", ""), list[RecordFileError]()
    process_count = usable_processes() if file.walks_bytes > FEW_BYTES else 1
    check = _check_batch_to_save if saving else _check_batch
    for (_, lines), file_walks in work_in_processes(check, _batches(file, errors), process_count):
        for line, file_walk in zip(lines, file_walks, strict=True):
            faults = [
                message("exchange-photo-swapped", walk=file_walk.walk_id, photo=photo[:8])
                for photo in file_walk.photos
                if file.photo(photo) is None
            ]
            if file_walk.tip:
                key = (file_walk.walk_id, file_walk.tip)
                if key <= key_before:
                    faults.append(message("exchange-out-of-order", walk=file_walk.walk_id))
                key_before = key
            yield (
                line,
                replace(file_walk, faults=(*file_walk.faults, *faults)) if faults else file_walk,
            )
    if errors:
        raise errors[0]


def _batches(file: RecordFile, errors: list[RecordFileError]) -> Iterator[Batch]:
    """Read the lines in batches; an error ends them, and is added to `errors`."""
    first_place, lines, size = 1, list[bytes](), 0
    try:
        for line in file.lines():
            lines.append(line)
            size += len(line)
            if size > _BATCH_BYTES:
                yield first_place, lines
                first_place, lines, size = first_place + len(lines), [], 0
    except RecordFileError as error:
        errors.append(error)
    if lines:
        yield first_place, lines


def _check_batch(batch: Batch) -> list[FileWalk]:
    return [_file_walk(each) for each in _checked_copies(batch)]


def _check_batch_to_save(batch: Batch) -> list[FileWalk]:
    return [
        file_walk
        if (file_walk := _file_walk(each)).faults
        else replace(file_walk, new=_new_walk(each))
        for each in _checked_copies(batch)
    ]


def _checked_copies(batch: Batch) -> Iterable[CheckedCopy]:
    with garbage_collection_off():
        first, lines = batch
        for place, line in enumerate(lines, start=first):
            yield check_copy(line, place)


def _file_walk(checked: CheckedCopy) -> FileWalk:
    copy = checked.copy
    tip = copy.seals[-1] if copy.rows else ""
    return FileWalk(copy.walk_id, tip, tuple(photos_of(copy.rows)), checked.faults)


def _new_walk(checked: CheckedCopy) -> NewWalk:
    try:
        line = line_of(fold(checked.events), elsewhere=True)
    except NotNowError as error:
        why = message("walk-not-understood", walk=checked.copy.walk_id, why=error.text)
        return NewWalk(refused=why)
    origin = Origin(True, tuple(one.row() for one in merge_signatures(checked.copy.signed)))
    file = WalkFile(checked.copy.rows, checked.events, sound=True, origin=origin)
    rows_and_links = zip(checked.copy.rows, (GENESIS, *checked.copy.seals), strict=False)
    is_quick = all(fits_as_quickly_written(row, link) for row, link in rows_and_links)
    try:
        return NewWalk(line, bytes_of(file, quick_text if is_quick else json_text))
    except MachineError as error:
        return NewWalk(refused=error.text)
