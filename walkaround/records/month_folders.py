"""The folders that walks lie in, one a month: which there are, what each is like, what is in it.

A folder can be there and yet not be read: a backup that root put back, a disk that fails. That is
told of the one month, and hides no other.
"""

from __future__ import annotations

import errno
import logging
import os
import re
from collections.abc import Container
from contextlib import suppress
from pathlib import Path

from walkaround.base.errors import MachineError
from walkaround.disk.durable import delete_temporary_files, read_error, reason
from walkaround.records.overview import FolderFault
from walkaround.records.walk_line import NO_STAMP, Stamp, is_walk_id, month_of

FILE = ".json"
"""How the name of a walk's file ends."""
BEFORE = ".prev"
"""What follows that where the file is kept as it was before its last change."""
PHOTOS = "photos"
"""The folder of a month's photos, inside the month's own."""

_log = logging.getLogger(__name__)

_MONTH = re.compile(r"[0-9]{4}-[0-9]{2}")


FolderState = tuple[int, ...]
"""What can be told of a folder without opening it: when a name in it last changed, when that or who
may read it did, in nanoseconds, and who may. Empty if nothing can."""


def folder_state(folder: Path) -> FolderState:
    """Tell what the folder is like now."""
    try:
        status = folder.stat()
    except OSError:
        return ()
    return status.st_mtime_ns, status.st_ctime_ns, status.st_mode


def months_in(walks: Path) -> list[str]:
    """List every month with a folder of walks, as in "2026-11", the latest first.

    Raises:
        MachineError: the folder of walks cannot be read.
    """
    try:
        with os.scandir(folder_inside(walks)) as entries:
            names = [each.name for each in entries if _MONTH.fullmatch(each.name) and _holds(each)]
    except (FileNotFoundError, NotADirectoryError):
        return []
    except OSError as error:
        raise read_error(error, walks) from error
    return sorted(names, reverse=True)


def folder_inside(folder: Path) -> str:
    """The folder by the name it has inside itself. It opens by that name only if its files can be
    reached too, not if no more than their names may be read."""
    return f"{folder}{os.sep}."


def stamps_in(folder: Path, walk_ids: Container[str]) -> dict[str, Stamp]:
    """Look at each walk's file in a month's folder; by the walk's id.

    Where only the file before its last change is left, that one is looked at.

    Args:
        folder: of the month.
        walk_ids: ids of walks of this month, whose names need not be looked into.

    Raises:
        OSError: the folder cannot be read.
    """
    stamps: dict[str, Stamp] = {}
    before: dict[str, os.DirEntry[str]] = {}
    with os.scandir(folder_inside(folder)) as entries:
        for entry in entries:
            walk_id, _, kind = entry.name.partition(".")
            if walk_id in walk_ids or (is_walk_id(walk_id) and month_of(walk_id) == folder.name):
                if f".{kind}" == FILE:
                    stamps[walk_id] = stamp_of(entry)
                elif f".{kind}" == FILE + BEFORE:
                    before[walk_id] = entry
    return {id_: stamp_of(entry) for id_, entry in before.items() if id_ not in stamps} | stamps


def walks_in(folder: Path) -> set[str]:
    """Name the walks of which there is something in a month's folder; none if there is no folder.

    Raises:
        MachineError: the folder cannot be read.
    """
    try:
        return set(stamps_in(folder, ()))
    except FileNotFoundError:
        return set()
    except OSError as error:
        raise read_error(error, folder) from error


def remove_leftovers(walks: Path, unused_index: Path) -> None:
    """Take away what a killed process left half written, and the list as an earlier version kept
    it; what stays does no harm."""
    with suppress(MachineError):
        for month in months_in(walks):
            try:
                delete_temporary_files(walks / month)
                # What may not be looked into is no folder to this.
                if os.path.isdir(photos := walks / month / PHOTOS):  # noqa: PTH112
                    delete_temporary_files(photos)
            except MachineError as error:
                _log.warning("What was half written in %s stays there: %s", month, error)
    with suppress(OSError):
        for file in unused_index.glob("[0-9][0-9][0-9][0-9]-[0-9][0-9].json*"):
            file.unlink()
        unused_index.rmdir()


def fault_of(error: OSError) -> FolderFault:
    """Tell why a folder could not be read."""
    return FolderFault(reason(error), shut=error.errno in (errno.EACCES, errno.EPERM))


def _holds(entry: os.DirEntry[str]) -> bool:
    """Whether it is a folder; what the disk does not tell counts as one, to be missed aloud."""
    try:
        return entry.is_dir()
    except OSError:
        return True


def stamp_of(entry: os.DirEntry[str] | Path) -> Stamp:
    """Look at a walk's file without reading it."""
    try:
        status = entry.stat()
    except OSError:
        return NO_STAMP
    return Stamp(status.st_size, status.st_mtime_ns)
