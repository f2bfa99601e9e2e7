"""Writing a file so that it is complete and on the disk, or not changed at all.

The content is written to a temporary file in the same folder and forced to the disk. The file is
then renamed in one step, and the folder is forced to the disk too. If the old file is to be kept as
a backup, it gets a second name just before it loses its first, so that it always exists.
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
"""The ending of a file's name while it is being written; such a file found later is incomplete."""

MAX_BYTES = 200_000_000
"""The largest file that is read as a whole."""

_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
_DENIED = (errno.EACCES, errno.EPERM, errno.EROFS)
_NO_FOLDER = (errno.EEXIST, errno.ENOTDIR)
# Some file systems (network shares, some USB sticks) write the names in a folder by themselves and
# refuse to sync a folder.
_SYNC_UNSUPPORTED = (errno.EINVAL, errno.EBADF, errno.ENOTSUP)


class FileState(NamedTuple):
    """What changes when somebody writes a file, so that it need not be read to notice."""

    inode: int
    size_bytes: int
    changed_ns: int


def file_state(path: Path) -> FileState | None:
    """Return the state of a file without reading it; None if there is none, or no access to it."""
    try:
        status = path.stat()
    except OSError:
        return None
    return FileState(status.st_ino, status.st_size, status.st_mtime_ns)


def write_durably(path: Path, data: bytes, backup: Path | None = None) -> None:
    """Write a file; when this returns, a power cut cannot take it back.

    Args:
        path: the file, in an existing folder.
        data: the whole new content.
        backup: the path under which the old content stays, if any.

    Raises:
        MachineError: it could not be written; the file has its old content (without `backup`, and
            if only the folder could not be forced to the disk, `data`).
    """
    temporary = _temporary(path)
    try:
        _write_through(temporary, data)
        backed_up = backup is not None and _back_up(path, backup)
        temporary.replace(path)
    except OSError as error:
        with suppress(OSError):
            temporary.unlink(missing_ok=True)
        raise write_error(error, path) from error
    try:
        sync_folder(path.parent)
    except OSError as error:
        with suppress(OSError):
            if backed_up and backup:
                backup.replace(path)
            elif backup:
                path.unlink()
        raise write_error(error, path) from error


def rename_damaged(path: Path) -> None:
    """Rename a damaged file to a name under which nothing is written.

    Raises:
        MachineError: it could not be renamed.
    """
    try:
        path.rename(damaged_name(path))
        sync_folder(path.parent)
    except OSError as error:
        raise write_error(error, path) from error


def remove_file(path: Path) -> None:
    """Delete a file for good, if it exists.

    Raises:
        MachineError: it could not be deleted.
    """
    try:
        path.unlink(missing_ok=True)
        sync_folder(path.parent)
    except OSError as error:
        raise write_error(error, path) from error


def damaged_name(path: Path) -> Path:
    """Return the first path `FILE.damaged-N` that does not exist."""
    names = (path.with_name(f"{path.name}.damaged-{number}") for number in count(1))
    return next(name for name in names if not os.path.lexists(name))


def read_file(path: Path) -> bytes | None:
    """Read a whole file; return None if there is no such file.

    Raises:
        MachineError: it cannot be read, is too large or is no ordinary file.
    """
    try:
        status = path.stat()
        # Reading a pipe would block, and a device may never end.
        if not stat.S_ISREG(status.st_mode):
            raise MachineError(message("disk-no-ordinary-file", path=str(path)))
        if status.st_size > MAX_BYTES:
            limit_mb = MAX_BYTES // 1_000_000
            raise MachineError(message("disk-file-too-large", path=str(path), mb=limit_mb))
        return path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        raise read_error(error, path) from error


def make_folder(path: Path) -> None:
    """Make a folder and its parents, so that a power cut cannot take them back.

    Raises:
        MachineError: it could not be made.
    """
    missing = [folder for folder in (path, *path.parents) if not folder.exists()]
    existing = missing[-1].parent if missing else path
    try:
        # A process that was killed here may have made this one without forcing it to the disk.
        # If this process may not read the parent folder, it did not make it.
        with suppress(PermissionError):
            sync_folder(existing.parent)
        for folder in reversed(missing):
            folder.mkdir(exist_ok=True)
            sync_folder(folder.parent)
        path.mkdir(exist_ok=True)
    except OSError as error:
        raise write_error(error, path) from error


def sync_folder(folder: Path) -> None:
    """Force the names in a folder to the disk; Windows does so by itself."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        sync_file(handle)
    except OSError as error:
        if error.errno not in _SYNC_UNSUPPORTED:
            raise
    finally:
        os.close(handle)


def delete_temporary_files(folder: Path) -> None:
    """Delete the temporary files that a killed process left in a folder.

    Raises:
        MachineError: one could not be deleted.
    """
    try:
        with os.scandir(folder) as entries:
            leftovers = [entry for entry in entries if entry.name.endswith(TEMPORARY)]
        for entry in leftovers:
            if not entry.is_dir(follow_symlinks=False):
                Path(entry).unlink(missing_ok=True)
    except OSError as error:
        raise write_error(error, folder) from error


def read_error(error: OSError, path: Path) -> MachineError:
    """Return the error for a file or folder that could not be read; it says how to mend it."""
    return MachineError(message("disk-cannot-be-read", path=str(path), reason=reason(error)))


def write_error(error: OSError, path: Path) -> MachineError:
    """Return the error for a file that could not be written; it says how to mend it."""
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
    """Return the system's description of an error, as it is shown in parentheses."""
    return error.strerror.lower() if error.strerror else message("disk-unknown-fault")


def _temporary(path: Path) -> Path:
    return path.with_name(path.name + TEMPORARY)


def _write_through(path: Path, data: bytes) -> None:
    # A new file, never an existing one: after a power cut in the middle of renaming, some file
    # systems show one file under both names, and writing to one would truncate the other.
    path.unlink(missing_ok=True)
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        sync_file(file.fileno())


def sync_file(handle: int) -> None:
    """Force a file to the disk, past the disk's own cache.

    macOS needs a call of its own for that (fsync(2) and fcntl(2) there; from memory), and not every
    disk supports it.
    """
    if sys.platform == "darwin":
        with suppress(OSError):
            fcntl.fcntl(handle, fcntl.F_FULLFSYNC)
            return
    os.fsync(handle)


def _back_up(path: Path, backup: Path) -> bool:
    """Give a file the second name `backup`; return False if there is no file yet."""
    if not path.exists():
        return False
    temporary_backup = _temporary(backup)
    temporary_backup.unlink(missing_ok=True)
    try:
        _link_or_copy(path, temporary_backup)
        temporary_backup.replace(backup)
    finally:
        # Renaming one name of a file to another name of the same file does nothing at all.
        temporary_backup.unlink(missing_ok=True)
    return True


def _link_or_copy(path: Path, other: Path) -> None:
    try:
        os.link(path, other)
    except OSError:
        # Some phones and USB sticks have no hard links. The copy is not forced to the disk: if it
        # is incomplete, the file itself is still complete.
        shutil.copyfile(path, other)
