"""The log: one file in the data folder, turned over when it grows, and standard error.

Of walkaround itself it holds everything from INFO on, of the libraries only what is wrong. It never
holds a key or a pairing cookie, and a full disk stops the log alone.
"""

from __future__ import annotations

import logging
import logging.handlers
import platform
import re
import sys
import threading
import time
from contextlib import suppress
from importlib.metadata import PackageNotFoundError, version
from io import TextIOWrapper
from pathlib import Path
from typing import Any

from walkaround.base.message import message
from walkaround.disk import locations

NAME = "walkaround.log"
MOST_LOG_BYTES = 1_000_000
OLDER_FILES = 4
"""Files kept besides the one that is written: five of them hold months."""

_QUIET = ("flet", "flet_web", "uvicorn")
"""Libraries that tell every message they send."""
_SECRET = re.compile(r"(?i)\b(key(?:=|%3d)|walkaround_pairing=)['\"]?[^\s&;,'\"<>)\]}]+")
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069]")
_FORMAT = "%(asctime)s.%(msecs)03dZ %(levelname)s %(name)s: %(message)s"

_log = logging.getLogger(__name__)


def keep_log(data: Path, *, verbose: bool) -> None:
    """Write the log of this process from now on; called once, by the process that serves.

    Args:
        data: the data folder; the log is in its folder `log`.
        verbose: whether standard error gets INFO too, not only what is wrong.
    """
    logging.raiseExceptions = False  # a message that cannot be written is no reason for another
    logging.captureWarnings(True)
    level = logging.INFO if verbose else logging.WARNING
    terminal = logging.StreamHandler()
    terminal.setLevel(level)
    root = logging.getLogger()
    # What the command line made for its own messages would tell everything twice.
    for handler in list(root.handlers):
        if type(handler) in (logging.StreamHandler, _LogFile):
            root.removeHandler(handler)
            handler.close()
    for handler in (terminal, _LogFile(locations.log_folder(data) / NAME)):
        handler.setFormatter(_Line())
        root.addHandler(handler)
    root.setLevel(level)
    logging.getLogger("walkaround").setLevel(logging.INFO)
    for name in _QUIET:
        logging.getLogger(name).setLevel(logging.WARNING)
    threading.excepthook = _thread_failed
    python = f"Python {platform.python_version()} on {platform.system()}"
    _log.info("walkaround %s starts, %s, data in %s", _version(), python, data)


def blanked(text: str) -> str:
    """Take keys and pairing cookies out of a text."""
    return _SECRET.sub(r"\1***", text)


class _Line(logging.Formatter):
    """Time in UTC, level, logger, message: one line, and what follows it of an exception."""

    converter = staticmethod(time.gmtime)

    def __init__(self) -> None:
        super().__init__(_FORMAT, "%Y-%m-%dT%H:%M:%S")

    def formatMessage(self, record: logging.LogRecord) -> str:
        """Return the line; what would begin another, or hide in it, is written as its code."""
        record.message = _coded(record.message)
        return super().formatMessage(record)

    def formatException(self, ei: Any) -> str:
        """The lines that tell of an exception, set in, so that none of them looks like an entry."""
        lines = super().formatException(ei).splitlines()
        return "\n".join(f"  {_coded(line)}" for line in lines)

    def format(self, record: logging.LogRecord) -> str:
        # Another handler may have left its own rendering.
        record.exc_text = None
        return blanked(super().format(record))


class _LogFile(logging.handlers.RotatingFileHandler):
    """The file; while it cannot be written the messages are dropped, and it is tried again."""

    def __init__(self, path: Path) -> None:
        super().__init__(
            path,
            maxBytes=MOST_LOG_BYTES,
            backupCount=OLDER_FILES,
            encoding="utf-8",
            errors="backslashreplace",
            delay=True,
        )
        self._folder = path.parent
        self._said_so = False
        self.addFilter(_is_for_the_file)

    def _open(self) -> TextIOWrapper:
        self._folder.mkdir(parents=True, exist_ok=True)
        return super()._open()

    def handleError(self, record: logging.LogRecord) -> None:  # noqa: ARG002
        """Say it once; forget what could not be written, or it would be tried at each message."""
        error = sys.exc_info()[1]
        if not isinstance(error, OSError):
            return  # the message itself was at fault
        stream, self.stream = self.stream, None
        if stream is not None:
            with suppress(OSError, ValueError):
                stream.close()
        if self._said_so or sys.stderr is None:
            return
        self._said_so = True
        why = error.strerror or type(error).__name__
        with suppress(OSError, ValueError):
            told = message("disk-log-cannot-be-written", folder=str(self._folder), reason=why)
            print(told, file=sys.stderr, flush=True)


def _coded(text: str) -> str:
    return _CONTROL.sub(lambda control: f"\\x{ord(control[0]):02x}", text)


def _is_for_the_file(record: logging.LogRecord) -> bool:
    ours = record.name == "walkaround" or record.name.startswith("walkaround.")
    return ours or record.levelno >= logging.WARNING


def _version() -> str:
    try:
        return version("walkaround")
    except PackageNotFoundError:
        return "of a working copy"


def _thread_failed(failed: threading.ExceptHookArgs) -> None:
    name = failed.thread.name if failed.thread else "of nobody"
    _log.error("Thread %s failed", name, exc_info=failed.exc_value)
