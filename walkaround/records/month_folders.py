"""The folders that walks lie in, one a month: which there are, what each is like, what is in it.

A folder can be there and yet not be read: a backup that root put back, a disk that fails. That is
told of the one month, and hides no other.
"""

from __future__ import annotations

import errno
import os
import re
from collections.abc import Collection, Iterable
from pathlib import Path
from typing import NamedTuple

from walkaround.base.errors import InputError
from walkaround.disk.durable import read_error
from walkaround.records.overview import Fault
from walkaround.records.walk_line import month_of

FILE = ".json"
"""How the name of a walk's file ends."""
BEFORE = ".prev"
"""What follows that where the file is kept as it was before its last change."""

_MONTH = re.compile(r"[0-9]{4}-[0-9]{2}")
_DENIED = (errno.EACCES, errno.EPERM)


class FolderState(NamedTuple):
    """What can be told of a folder without opening it; all 0 if nothing can.

    Attributes:
        changed_ns: when a name in it last changed, nanoseconds.
        touched_ns: when that, or who may read it, last changed, nanoseconds.
        mode: who may read it.
    """

    changed_ns: int = 0
    touched_ns: int = 0
    mode: int = 0


def folder_state(folder: Path) -> FolderState:
    """What the folder is like now."""
    try:
        found = folder.stat()
    except OSError:
        return FolderState()
    return FolderState(found.st_mtime_ns, found.st_ctime_ns, found.st_mode)


def months_in(walks: Path) -> list[str]:
    """Every month with a folder of walks, as in "2026-11", the latest first.

    Raises:
        MachineError: the folder of walks cannot be read.
    """
    try:
        with os.scandir(inside(walks)) as entries:
            names = [each.name for each in entries if _MONTH.fullmatch(each.name) and _holds(each)]
    except (FileNotFoundError, NotADirectoryError):
        return []
    except OSError as error:
        raise read_error(error, walks) from error
    return sorted(names, reverse=True)


def inside(folder: Path) -> str:
    """The folder by the name it has inside itself. It opens by that name only if its files can be
    reached too, not if no more than their names may be read."""
    return f"{folder}{os.sep}."


def sizes_in(
    entries: Iterable[os.DirEntry[str]], month: str, known: Collection[str]
) -> dict[str, int]:
    """The size in bytes of each walk's file, by the walk's id; 0 where only the one before its last
    change is left.

    What is `known` is the name of a walk of this month, and need not be looked into.
    """
    sizes: dict[str, int] = {}
    for entry in entries:
        id_ = entry.name.removesuffix(BEFORE).removesuffix(FILE)
        if id_ == entry.name or not (id_ in known or _is_in(id_, month)):
            continue
        if entry.name.endswith(FILE):
            sizes[id_] = _size(entry)
        else:
            sizes.setdefault(id_, 0)
    return sizes


def fault_of(error: OSError) -> Fault:
    """Why a folder could not be read, and how to mend it."""
    mend = "check the disk, or put {it} back from a backup"
    if error.errno in _DENIED:
        mend = "make {it} readable for this user"
    return Fault((error.strerror or "unknown fault").lower(), mend)


def _holds(entry: os.DirEntry[str]) -> bool:
    """Whether it is a folder; what the disk does not tell counts as one, to be missed aloud."""
    try:
        return entry.is_dir()
    except OSError:
        return True


def _size(entry: os.DirEntry[str]) -> int:
    """0 if it leads nowhere."""
    try:
        return entry.stat().st_size
    except OSError:
        return 0


def _is_in(name: str, month: str) -> bool:
    try:
        return month_of(name) == month
    except InputError:
        return False
