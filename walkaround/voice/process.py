"""The worker process, as the app drives it: one request in, one reply out, or it is killed.

The module `worker` describes what goes over its pipes. No worker can block its caller for longer
than the time limit: replies are read in a thread of their own, which is abandoned with a worker
that cannot even be killed.
"""

from __future__ import annotations

import json
import queue
import subprocess
import threading
from collections.abc import Sequence
from contextlib import suppress
from typing import IO

from walkaround.base.errors import MachineError
from walkaround.base.message import message

REPLY_BYTES = 10_000
"""The longest reply."""
_END_S = 2.0
"""How long to wait for a killed process to end."""


class SpeechProcess:
    """The worker process: started at the first request, replaced after a crash or when it hangs."""

    def __init__(self, command: Sequence[str], timeout_s: float) -> None:
        self._command = command
        self._timeout_s = timeout_s
        self._process: subprocess.Popen[bytes] | None = None
        self._replies: queue.Queue[bytes] = queue.Queue()
        self._starting = threading.Lock()
        self._closed = False

    def ask(self, **request: object) -> None:
        """Send one request and wait until it is done; for one thread only.

        Raises:
            MachineError: it was not done.
        """
        process = self._running()
        assert process.stdin is not None
        with suppress(OSError):  # if it ended before it read this, its replies have ended too
            process.stdin.write(json.dumps(request).encode() + b"\n")
            process.stdin.flush()
        try:
            reply = self._replies.get(timeout=self._timeout_s)
        except queue.Empty:
            self.reap()
            raise MachineError(message("voice-no-answer")) from None
        if not reply.endswith(b"\n"):
            self.reap()
            raise MachineError(message("voice-stopped"))
        try:
            error = json.loads(reply).get("error")
        except (ValueError, AttributeError):
            raise MachineError(message("voice-bad-answer")) from None
        if error is not None:
            raise MachineError(message("voice-failed", reason=str(error)))

    def _running(self) -> subprocess.Popen[bytes]:
        with self._starting:
            if self._closed:
                raise MachineError(message("voice-closed"))
            # A reply without a request would be taken for the next one.
            spoke_unasked = not self._replies.empty()
            if self._process is not None and (spoke_unasked or self._process.poll() is not None):
                self.reap()
            if self._process is None:
                self._process = self._start()
            return self._process

    def _start(self) -> subprocess.Popen[bytes]:
        pipe, nowhere = subprocess.PIPE, subprocess.DEVNULL
        try:
            process = subprocess.Popen(self._command, stdin=pipe, stdout=pipe, stderr=nowhere)
        except OSError as error:
            reason = str(error.strerror)
            raise MachineError(message("voice-no-start", reason=reason)) from error
        self._replies = queue.Queue(maxsize=1)
        threading.Thread(
            target=_read, args=(process, self._replies), name="speech replies", daemon=True
        ).start()
        return process

    def reap(self) -> None:
        """End the process and free its resources; for the thread that calls `ask` only."""
        process, self._process = self._process, None
        if process is None:
            return
        process.kill()
        assert process.stdin is not None
        with suppress(OSError):
            process.stdin.close()
        with suppress(subprocess.TimeoutExpired):
            process.wait(_END_S)

    def close(self) -> None:
        """End the process and start no other; may be called from any thread."""
        with self._starting:
            self._closed = True
            if (process := self._process) is not None:
                process.kill()
            # Wakes a caller of `ask`, even if the pipe stays open.
            with suppress(queue.Full):
                self._replies.put_nowait(b"")


def _read(process: subprocess.Popen[bytes], replies: queue.Queue[bytes]) -> None:
    """Queue the replies until the process ends; kill a worker that replies without a request."""
    assert process.stdout is not None
    stdout: IO[bytes] = process.stdout
    with stdout:
        while True:
            line = stdout.readline(REPLY_BYTES)
            try:
                replies.put_nowait(line)
            except queue.Full:
                line = b""
            if not line.endswith(b"\n"):
                process.kill()
                return
