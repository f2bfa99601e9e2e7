"""Writing a file so that it is whole and on the disk, or not changed at all.

A write goes to a temporary file beside the real one, is forced to the disk, takes the real name
in one step, and the folder is forced to the disk too. Where the old file is to be kept, it gets
a second name just before it loses its first, so that at no moment there is none.
"""

from __future__ import annotations

import errno
import os
import shutil
from contextlib import suppress
from itertools import count
from pathlib import Path

from walkaround.errors import MachineError

TEMPORARY = ".tmp"
"""How the name of a file ends while it is being written; one found later is of no use."""

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
_DENIED = (errno.EACCES, errno.EPERM, errno.EROFS)


def write_durably(path: Path, data: bytes, keep: Path | None = None) -> None:
    """Put `data` into the file; when this returns, a power cut cannot take it back.

    Args:
        path: the file, in a folder that is there.
        data: all that the file is to hold.
        keep: the name under which what the file held before stays.

    Raises:
        MachineError: it could not be written; the file holds what it held before.
    """
    fresh = _temporary(path)
    try:
        _write_through(fresh, data)
        kept = keep is not None and _keep(path, keep)
        fresh.replace(path)
    except OSError as error:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)
        raise write_error(error, path) from error
    try:
        sync_folder(path.parent)
    except OSError as error:
        with suppress(OSError):
            if kept and keep:
                keep.replace(path)
            elif keep:
                path.unlink()
        raise write_error(error, path) from error


def set_aside(path: Path) -> None:
    """Give a damaged file a name under which nothing writes.

    Raises:
        MachineError: it could not be renamed.
    """
    try:
        path.rename(damaged_name(path))
        sync_folder(path.parent)
    except OSError as error:
        raise write_error(error, path) from error


def damaged_name(path: Path) -> Path:
    """The first name `FILE.damaged-N` that no file has."""
    names = (path.with_name(f"{path.name}.damaged-{number}") for number in count(1))
    return next(name for name in names if not name.exists())


def read_file(path: Path) -> bytes | None:
    """What the file holds, None if there is no such file.

    Raises:
        MachineError: it is there and cannot be read.
    """
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        raise read_error(error, path) from error


def make_folder(path: Path) -> None:
    """Make the folder, and those above it, so that a power cut cannot take them back.

    Raises:
        MachineError: it could not be made.
    """
    missing = [folder for folder in (path, *path.parents) if not folder.exists()]
    try:
        path.mkdir(parents=True, exist_ok=True)
        for folder in missing:
            sync_folder(folder.parent)
    except OSError as error:
        raise write_error(error, path) from error


def sync_folder(folder: Path) -> None:
    """Force the names in a folder to the disk; Windows keeps them without being asked."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def sweep(folder: Path) -> None:
    """Take away what a process left when it was killed while writing in or below this folder.

    Raises:
        MachineError: it could not be taken away.
    """
    try:
        for file in folder.rglob(f"*{TEMPORARY}"):
            file.unlink(missing_ok=True)
    except OSError as error:
        raise write_error(error, folder) from error


def read_error(error: OSError, path: Path) -> MachineError:
    """What to tell people when a file or folder could not be read."""
    return MachineError(
        f"{path} cannot be read ({_reason(error)}); make it readable for this user."
    )


def write_error(error: OSError, path: Path) -> MachineError:
    """What to tell people when a file could not be written."""
    if error.errno in _FULL:
        mend = "free some space and do the last thing again"
        return MachineError(f"There is no room left to save {path}; {mend}.")
    if error.errno in _DENIED:
        mend = "make its folder writable for this user or choose another with --data"
        return MachineError(f"{path} cannot be written ({_reason(error)}); {mend}.")
    mend = "check the disk, or choose another folder with --data"
    return MachineError(f"{path} could not be written ({_reason(error)}); {mend}.")


def _reason(error: OSError) -> str:
    return (error.strerror or "unknown fault").lower()


def _temporary(path: Path) -> Path:
    return path.with_name(path.name + TEMPORARY)


def _write_through(path: Path, data: bytes) -> None:
    with path.open("wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _keep(path: Path, keep: Path) -> bool:
    """Give the file the second name `keep`; False if there is no file yet."""
    if not path.exists():
        return False
    spare = _temporary(keep)
    spare.unlink(missing_ok=True)
    try:
        _second_name(path, spare)
        spare.replace(keep)
    finally:
        # Renaming one name of a file to another name of the same file does nothing at all.
        spare.unlink(missing_ok=True)
    return True


def _second_name(path: Path, other: Path) -> None:
    try:
        os.link(path, other)
    except OSError:
        # Some phones and USB sticks have no second names. The copy is not forced to the disk:
        # should it be torn, the file itself is still whole.
        shutil.copyfile(path, other)
