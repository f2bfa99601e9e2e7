"""One writing process per data folder: a lock that the system takes back when its holder dies."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from filelock import FileLock, Timeout

from walkaround.base.errors import MachineError
from walkaround.base.message import Message, message
from walkaround.disk.durable import make_folder, write_error


class OneWriter:
    """The right to write in a data folder, from when this is made until it is given up."""

    def __init__(self, data: Path) -> None:
        """Take the right.

        Raises:
            MachineError: another process has it, or nothing can be written in the folder.
        """
        make_folder(data)
        # Whatever thread stops the app may give the lock up.
        self._lock = FileLock(data / "writer.lock", timeout=0, thread_local=False)
        # The number stands in a file of its own: taking a lock may empty the lock's file.
        holder = data / "writer.pid"
        try:
            self._lock.acquire()
        except Timeout:
            raise MachineError(_in_use(data, holder)) from None
        except OSError as error:
            raise write_error(error, data / "writer.lock") from error
        # The number is for people only. A full disk takes it away, not the right to write.
        with suppress(OSError):
            holder.write_text(str(os.getpid()), encoding="utf-8")

    def give_up(self) -> None:
        """Let another process write."""
        self._lock.release()


def _in_use(data: Path, holder: Path) -> Message:
    try:
        process = int(holder.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return message("disk-folder-in-use", folder=str(data))
    return message("disk-folder-in-use-by", folder=str(data), process=str(process))
