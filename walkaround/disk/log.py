"""The log: rotating files in the data folder, and standard error.

It has the messages of walkaround itself from INFO on, of the libraries only warnings and errors. It
never has a key or a pairing cookie, and a full disk stops only the log.
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
"""The number of older files: five files hold months."""

_NOISY_LIBRARIES = ("flet", "flet_web", "uvicorn")
"""Libraries that log every message they send."""
_SECRET = re.compile(r"(?i)\b(key(?:=|%3d)|walkaround_pairing=)['\"]?[^\s&;,'\"<>)\]}]+")
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069]")
_FORMAT = "%(asctime)s.%(msecs)03dZ %(levelname)s %(name)s: %(message)s"

_log = logging.getLogger(__name__)


def start_log(data: Path, *, verbose: bool) -> None:
    """Start the log of this process; called once, by the process that serves.

    Args:
        data: the data folder; the log is in its folder `log`.
        verbose: whether standard error gets INFO too, not only warnings and errors.
    """
    logging.raiseExceptions = False  # a message that cannot be written is no reason for another
    logging.captureWarnings(True)
    level = logging.INFO if verbose else logging.WARNING
    terminal = logging.StreamHandler()
    terminal.setLevel(level)
    root = logging.getLogger()
    # The command line's handlers for its own messages would log everything twice.
    for handler in list(root.handlers):
        if type(handler) in (logging.StreamHandler, _LogFile):
            root.removeHandler(handler)
            handler.close()
    for handler in (terminal, _LogFile(locations.log_folder(data) / NAME)):
        handler.setFormatter(_LineFormatter())
        root.addHandler(handler)
    root.setLevel(level)
    logging.getLogger("walkaround").setLevel(logging.INFO)
    for name in _NOISY_LIBRARIES:
        logging.getLogger(name).setLevel(logging.WARNING)
    threading.excepthook = _log_thread_error
    python = f"Python {platform.python_version()} on {platform.system()}"
    _log.info("walkaround %s starts, %s, data in %s", _version(), python, data)


def redacted(text: str) -> str:
    """Replace keys and pairing cookies in a text by `***`."""
    return _SECRET.sub(r"\1***", text)


class _LineFormatter(logging.Formatter):
    """Formats a message as one line: time in UTC, level, logger, message; then any exception."""

    converter = staticmethod(time.gmtime)

    def __init__(self) -> None:
        super().__init__(_FORMAT, "%Y-%m-%dT%H:%M:%S")

    def formatMessage(self, record: logging.LogRecord) -> str:
        """Return the line, with control characters escaped."""
        record.message = _escaped(record.message)
        return super().formatMessage(record)

    def formatException(self, ei: Any) -> str:
        """Return the lines of an exception, indented, so that none looks like a message."""
        lines = super().formatException(ei).splitlines()
        return "\n".join(f"  {_escaped(line)}" for line in lines)

    def format(self, record: logging.LogRecord) -> str:
        # Another handler may have left its own rendering.
        record.exc_text = None
        return redacted(super().format(record))


class _LogFile(logging.handlers.RotatingFileHandler):
    """The log file; messages are dropped while it cannot be written, and each is a new try."""

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
        self._reported = False
        self.addFilter(_belongs_in_file)

    def _open(self) -> TextIOWrapper:
        self._folder.mkdir(parents=True, exist_ok=True)
        return super()._open()

    def handleError(self, record: logging.LogRecord) -> None:  # noqa: ARG002
        """Report the error once; drop the stream, or its rest would be tried at each message."""
        error = sys.exc_info()[1]
        if not isinstance(error, OSError):
            return  # the message itself was wrong
        stream, self.stream = self.stream, None
        if stream is not None:
            with suppress(OSError, ValueError):
                stream.close()
        if self._reported or sys.stderr is None:
            return
        self._reported = True
        why = error.strerror or type(error).__name__
        with suppress(OSError, ValueError):
            warning = message("disk-log-cannot-be-written", folder=str(self._folder), reason=why)
            print(warning, file=sys.stderr, flush=True)


def _escaped(text: str) -> str:
    return _CONTROL.sub(lambda control: f"\\x{ord(control[0]):02x}", text)


def _belongs_in_file(record: logging.LogRecord) -> bool:
    ours = record.name == "walkaround" or record.name.startswith("walkaround.")
    return ours or record.levelno >= logging.WARNING


def _version() -> str:
    try:
        return version("walkaround")
    except PackageNotFoundError:
        return "of a working copy"


def _log_thread_error(args: threading.ExceptHookArgs) -> None:
    name = args.thread.name if args.thread else "of nobody"
    _log.error("Thread %s failed", name, exc_info=args.exc_value)
