"""One writing process for each data folder: a lock that the system releases when it dies."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from filelock import FileLock, Timeout

from walkaround.base.errors import MachineError
from walkaround.base.message import Message, message
from walkaround.disk.durable import make_folder, write_error


class WriterLock:
    """The lock on writing in a data folder, from when this is made until it is released."""

    def __init__(self, data: Path) -> None:
        """Acquire the lock.

        Raises:
            MachineError: another process has it, or nothing can be written in the folder.
        """
        make_folder(data)
        # Any thread that stops the app may release the lock.
        self._lock = FileLock(data / "writer.lock", timeout=0, thread_local=False)
        # The process number has a file of its own: acquiring a lock may empty the lock's file.
        pid_path = data / "writer.pid"
        try:
            self._lock.acquire()
        except Timeout:
            raise MachineError(_in_use(data, pid_path)) from None
        except OSError as error:
            raise write_error(error, data / "writer.lock") from error
        # The number is for people only: a full disk prevents it, but not the lock.
        with suppress(OSError):
            pid_path.write_text(str(os.getpid()), encoding="utf-8")

    def release(self) -> None:
        """Release the lock: another process may write now."""
        self._lock.release()


def _in_use(data: Path, pid_path: Path) -> Message:
    try:
        process = int(pid_path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return message("disk-folder-in-use", folder=str(data))
    return message("disk-folder-in-use-by", folder=str(data), process=str(process))
