"""The worker process seen from outside: one request in, one answer out, or it is killed.

What goes over its pipes stands in `worker`. Nothing that a worker does can hold up who
asks it for longer than its time: its answers are read in a thread of their own, which is left
behind with a worker that cannot even be killed.
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
"""More than this is no answer."""
_END_S = 2.0
"""The time that a killed process is waited for."""


class SpeechProcess:
    """The worker: started when first asked, replaced after a crash, killed when it hangs."""

    def __init__(self, command: Sequence[str], timeout_s: float) -> None:
        self._command = command
        self._timeout_s = timeout_s
        self._process: subprocess.Popen[bytes] | None = None
        self._replies: queue.Queue[bytes] = queue.Queue()
        self._starting = threading.Lock()
        self._closed = False

    def ask(self, **request: object) -> None:
        """Have one request done; raise `MachineError` if it was not. For one thread only."""
        process = self._running()
        assert process.stdin is not None
        with suppress(OSError):  # it ended before it read: then its answers have ended too
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
            # An answer that was not asked for would be taken for the next one.
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
        """End the process and free what it held; for the asking thread only."""
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
        """End the process under way, from any thread, and start no other."""
        with self._starting:
            self._closed = True
            if (process := self._process) is not None:
                process.kill()
            # Who asks is told, even if the pipe stays open.
            with suppress(queue.Full):
                self._replies.put_nowait(b"")


def _read(process: subprocess.Popen[bytes], replies: queue.Queue[bytes]) -> None:
    """Pass its answers on until it ends; a worker that says more than it was asked is killed."""
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
