"""Writing a file so that it is whole and on the disk, or not changed at all.

A write goes to a temporary file beside the real one, is forced to the disk, takes the real name
in one step, and the folder is forced to the disk too. Where the old file is to be kept, it gets
a second name just before it loses its first, so that at no moment there is none.
"""

from __future__ import annotations

import errno
import os
import shutil
import stat
import sys
from contextlib import suppress
from itertools import count
from pathlib import Path
from typing import NamedTuple

from walkaround.base.errors import MachineError
from walkaround.base.message import Text, message

if sys.platform == "darwin":
    import fcntl

TEMPORARY = ".tmp"
"""How the name of a file ends while it is being written; such a file found later is of no use."""

MAX_BYTES = 200_000_000
"""No file that is read whole is larger."""

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
_DENIED = (errno.EACCES, errno.EPERM, errno.EROFS)
_NO_FOLDER = (errno.EEXIST, errno.ENOTDIR)
# Some file systems (network shares, some USB sticks) write the names in a folder by themselves and
# refuse to be told to.
_BY_ITSELF = (errno.EINVAL, errno.EBADF, errno.ENOTSUP)


class FileState(NamedTuple):
    """What changes when something else writes a file, so that it need not be read to notice."""

    inode: int
    size_bytes: int
    changed_ns: int


def file_state(path: Path) -> FileState | None:
    """Look at a file without reading it; None if there is no file, or it cannot be looked at."""
    try:
        status = path.stat()
    except OSError:
        return None
    return FileState(status.st_ino, status.st_size, status.st_mtime_ns)


def write_durably(path: Path, data: bytes, keep: Path | None = None) -> None:
    """Put `data` into the file; when this returns, a power cut cannot take it back.

    Args:
        path: the file, in a folder that is there.
        data: all that the file is to hold.
        keep: the name under which what the file held before stays.

    Raises:
        MachineError: it could not be written; the file holds what it held before (without
            `keep`, and where only the folder could not be forced to the disk, `data`).
    """
    fresh = _temporary(path)
    try:
        _write_through(fresh, data)
        backed_up = keep is not None and _keep(path, keep)
        fresh.replace(path)
    except OSError as error:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)
        raise write_error(error, path) from error
    try:
        sync_folder(path.parent)
    except OSError as error:
        with suppress(OSError):
            if backed_up and keep:
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


def remove_file(path: Path) -> None:
    """Take a file away for good; one that is gone already is no fault.

    Raises:
        MachineError: it is still there.
    """
    try:
        path.unlink(missing_ok=True)
        sync_folder(path.parent)
    except OSError as error:
        raise write_error(error, path) from error


def damaged_name(path: Path) -> Path:
    """Find the first name `FILE.damaged-N` that no file has."""
    names = (path.with_name(f"{path.name}.damaged-{number}") for number in count(1))
    return next(name for name in names if not os.path.lexists(name))


def read_file(path: Path) -> bytes | None:
    """Read a whole file; None if there is no such file.

    Raises:
        MachineError: it is there and cannot be read.
    """
    try:
        status = path.stat()
        # A pipe would keep the reader waiting, and a device may never end.
        if not stat.S_ISREG(status.st_mode):
            raise MachineError(message("disk-no-ordinary-file", path=str(path)))
        if status.st_size > MAX_BYTES:
            most = MAX_BYTES // 1_000_000
            raise MachineError(message("disk-file-too-large", path=str(path), mb=most))
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
    there = missing[-1].parent if missing else path
    try:
        # A process that was killed here may have made this one and not forced it to the disk.
        # A process that may not look into the folder above did not make it.
        with suppress(PermissionError):
            sync_folder(there.parent)
        for folder in reversed(missing):
            folder.mkdir(exist_ok=True)
            sync_folder(folder.parent)
        path.mkdir(exist_ok=True)
    except OSError as error:
        raise write_error(error, path) from error


def sync_folder(folder: Path) -> None:
    """Force the names in a folder to the disk; Windows keeps them without being asked."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        sync_file(handle)
    except OSError as error:
        if error.errno not in _BY_ITSELF:
            raise
    finally:
        os.close(handle)


def sweep(folder: Path) -> None:
    """Delete what a process left in this folder when it was killed while writing there.

    Raises:
        MachineError: it could not be taken away.
    """
    try:
        with os.scandir(folder) as entries:
            left = [entry for entry in entries if entry.name.endswith(TEMPORARY)]
        for entry in left:
            if not entry.is_dir(follow_symlinks=False):
                Path(entry).unlink(missing_ok=True)
    except OSError as error:
        raise write_error(error, folder) from error


def read_error(error: OSError, path: Path) -> MachineError:
    """Say that a file or folder could not be read, and how to mend it."""
    return MachineError(message("disk-cannot-be-read", path=str(path), reason=reason(error)))


def write_error(error: OSError, path: Path) -> MachineError:
    """Say that a file could not be written, and how to mend it."""
    kind = "failed"
    if error.errno in _FULL:
        kind = "full"
    elif error.errno in _DENIED:
        kind = "denied"
    elif error.errno in _NO_FOLDER:
        kind = "no-folder"
    elif error.errno == errno.ENOENT:
        kind = "gone"
    return MachineError(message(f"disk-write-{kind}", path=str(path), reason=reason(error)))


def reason(error: OSError) -> Text:
    """Say what the system says of an error, to stand in brackets."""
    return error.strerror.lower() if error.strerror else message("disk-unknown-fault")


def _temporary(path: Path) -> Path:
    return path.with_name(path.name + TEMPORARY)


def _write_through(path: Path, data: bytes) -> None:
    # A new file, never one that is there: after a power cut in the middle of renaming, some file
    # systems show one file under both names, and writing to one would cut off the other.
    path.unlink(missing_ok=True)
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        sync_file(file.fileno())


def sync_file(handle: int) -> None:
    """Force what is written to the disk itself, past its own memory.

    Only macOS has to be asked for the latter (fsync(2) and fcntl(2) there; from memory), and not
    every disk of its can.
    """
    if sys.platform == "darwin":
        with suppress(OSError):
            fcntl.fcntl(handle, fcntl.F_FULLFSYNC)
            return
    os.fsync(handle)


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
