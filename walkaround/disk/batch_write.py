"""Writing very many new files so that each is whole and on the disk, or not there at all.

To force each of them to the disk by itself takes longer than all the rest of the work. So all go to
temporary files, the disk takes them up at once, and only then they get their real names. A process
that is killed, or a power cut, leaves whole files and temporary ones, which nobody reads.
"""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Iterable, Mapping
from contextlib import suppress
from pathlib import Path

from walkaround.disk.durable import TEMPORARY, sync_file, sync_folder, write_error


def write_together(files: Mapping[Path, bytes]) -> None:
    """Write new files; when this returns, a power cut cannot take them back.

    Args:
        files: what each is to hold; none is there yet, their folders are.

    Raises:
        MachineError: they could not be written. Those that are there are whole.
    """
    fresh = {f"{path}{TEMPORARY}": (str(path), data) for path, data in files.items()}
    at = next(iter(files), Path())
    try:
        for temporary, (_, data) in fresh.items():
            _write(temporary, data)
        force_to_disk(fresh)
        for temporary, (name, _) in fresh.items():
            os.rename(temporary, name)  # noqa: PTH104 - a path object for each takes as long again
        for folder in {path.parent for path in files}:
            sync_folder(folder)
    except OSError as error:
        for temporary in fresh:
            with suppress(OSError):
                os.unlink(temporary)  # noqa: PTH108
        raise write_error(error, at) from error


def force_to_disk(paths: Iterable[str]) -> None:
    """Force these files, all on one disk, to it.

    Raises:
        OSError: the disk did not take one of them.
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
"""syncfs(2) is Linux's; since 5.8 it tells of what could not be written."""


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
