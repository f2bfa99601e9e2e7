"""The folders of walks, one for each month: their names, states and contents.

A folder may exist and not be readable: a backup restored by root, a failing disk. That is reported
for the one month, and hides no other.
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

WALK_FILE = ".json"
"""The ending of a walk's file name."""
PREVIOUS = ".prev"
"""The ending after that of the backup, the file before its last change."""
PHOTOS = "photos"
"""The folder of a month's photos, in the folder of the month."""

_log = logging.getLogger(__name__)

_MONTH = re.compile(r"[0-9]{4}-[0-9]{2}")


FolderState = tuple[int, ...]
"""The state of a folder without opening it: the time of the last change of a name in it and of its
metadata, in nanoseconds, and its mode. Empty if it is not known."""


def folder_state(folder: Path) -> FolderState:
    """Return the state of a folder."""
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
        with os.scandir(openable_path(walks)) as entries:
            names = [
                each.name for each in entries if _MONTH.fullmatch(each.name) and _is_folder(each)
            ]
    except (FileNotFoundError, NotADirectoryError):
        return []
    except OSError as error:
        raise read_error(error, walks) from error
    return sorted(names, reverse=True)


def openable_path(folder: Path) -> str:
    """Return the path `FOLDER/.`, which opens only if the files in the folder can be opened too,
    not if only their names can be read."""
    return f"{folder}{os.sep}."


def stamps_in(folder: Path, walk_ids: Container[str]) -> dict[str, Stamp]:
    """Return the stamp of each walk's file in a month's folder, by the walk's id.

    If only the backup of a file is left, its stamp is returned.

    Args:
        folder: the folder of the month.
        walk_ids: known ids of walks of this month, which need not be checked.

    Raises:
        OSError: the folder cannot be read.
    """
    stamps: dict[str, Stamp] = {}
    previous: dict[str, os.DirEntry[str]] = {}
    with os.scandir(openable_path(folder)) as entries:
        for entry in entries:
            walk_id, _, kind = entry.name.partition(".")
            if walk_id in walk_ids or (is_walk_id(walk_id) and month_of(walk_id) == folder.name):
                if f".{kind}" == WALK_FILE:
                    stamps[walk_id] = stamp_of(entry)
                elif f".{kind}" == WALK_FILE + PREVIOUS:
                    previous[walk_id] = entry
    return {id_: stamp_of(entry) for id_, entry in previous.items() if id_ not in stamps} | stamps


def walks_in(folder: Path) -> set[str]:
    """Return the ids of the walks in a month's folder; none if there is no folder.

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
    """Delete temporary files that a killed process left, and the list of an earlier version;
    what cannot be deleted does no harm."""
    with suppress(MachineError):
        for month in months_in(walks):
            try:
                delete_temporary_files(walks / month)
                # A folder without access does not count as one here.
                if os.path.isdir(photos := walks / month / PHOTOS):  # noqa: PTH112
                    delete_temporary_files(photos)
            except MachineError as error:
                _log.warning("What was half written in %s stays there: %s", month, error)
    with suppress(OSError):
        for file in unused_index.glob("[0-9][0-9][0-9][0-9]-[0-9][0-9].json*"):
            file.unlink()
        unused_index.rmdir()


def folder_fault(error: OSError) -> FolderFault:
    """Return why a folder could not be read."""
    return FolderFault(reason(error), shut=error.errno in (errno.EACCES, errno.EPERM))


def _is_folder(entry: os.DirEntry[str]) -> bool:
    """Tell whether an entry is a folder; one that cannot be read counts, so that it is reported."""
    try:
        return entry.is_dir()
    except OSError:
        return True


def stamp_of(entry: os.DirEntry[str] | Path) -> Stamp:
    """Return the stamp of a walk's file, without reading the file."""
    try:
        status = entry.stat()
    except OSError:
        return NO_STAMP
    return Stamp(status.st_size, status.st_mtime_ns)
