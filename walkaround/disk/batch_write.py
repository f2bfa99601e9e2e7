"""Writing many new files so that each is complete and on the disk, or not there at all.

Forcing each file to the disk by itself takes longer than all the rest of the work. So all are
written to temporary files, forced to the disk at once, and only then renamed. A process that is
killed, or a power cut, leaves complete files and temporary ones, which nobody reads.
"""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from walkaround.disk.durable import TEMPORARY, sync_file, sync_folder, write_error


def write_batch(files: Mapping[Path, bytes]) -> None:
    """Write new files; when this returns, a power cut cannot take them back.

    Args:
        files: the content of each; none exists yet, but their folders do.

    Raises:
        MachineError: they could not be written. Those that exist then are complete.
    """
    names_and_data = {f"{path}{TEMPORARY}": (str(path), data) for path, data in files.items()}
    first_path = next(iter(files), Path())
    try:
        for temporary, (_, data) in names_and_data.items():
            _write(temporary, data)
        force_to_disk(names_and_data)
        for temporary, (name, _) in names_and_data.items():
            os.rename(temporary, name)  # noqa: PTH104 - a path object for each takes as long again
        for folder in {path.parent for path in files}:
            sync_folder(folder)
    except OSError as error:
        for temporary in names_and_data:
            with suppress(OSError):
                os.unlink(temporary)  # noqa: PTH108
        raise write_error(error, first_path) from error


def force_to_disk(paths: Iterable[str]) -> None:
    """Force these files, all on one disk, to the disk.

    Raises:
        OSError: one of them could not be written.
    """
    sync_disk = getattr(ctypes.CDLL(None, use_errno=True), "syncfs", None) if _LINUX else None
    for path in paths:
        handle = os.open(path, os.O_RDONLY if _LINUX else os.O_RDWR)
        try:
            if sync_disk is None:
                sync_file(handle)
            elif sync_disk(handle):
                raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()))
            else:
                return
        finally:
            os.close(handle)


_LINUX = sys.platform.startswith("linux")
"""Only Linux has syncfs(2); since 5.8 it reports what could not be written."""


def _write(path: str, data: bytes) -> None:
    with suppress(FileNotFoundError):
        os.unlink(path)  # noqa: PTH108
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    try:
        rest = memoryview(data)
        while rest:
            rest = rest[os.write(handle, rest) :]
    finally:
        os.close(handle)
