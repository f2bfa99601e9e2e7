"""The worker process seen from outside: one request in, one answer out, or it is killed.

What goes over its pipes is told in `speech_worker`.
"""

from __future__ import annotations

import json
import subprocess
import threading
from collections.abc import Sequence
from contextlib import suppress

from walkaround.errors import MachineError


class SpeechProcess:
    """The worker: started when first asked, replaced after a crash, killed when it hangs."""

    def __init__(self, command: Sequence[str], timeout_s: float) -> None:
        self._command = command
        self._timeout_s = timeout_s
        self._process: subprocess.Popen[bytes] | None = None
        self._starting = threading.Lock()
        self._closed = False

    def ask(self, **request: object) -> None:
        """Have one request done; raise `MachineError` if it was not. For one thread only."""
        process = self._running()
        watchdog = threading.Timer(self._timeout_s, process.kill)
        watchdog.start()
        try:
            reply = self._exchange(process, json.dumps(request).encode() + b"\n")
        finally:
            watchdog.cancel()
            watchdog.join()
        if not reply.endswith(b"\n"):
            self.reap()
            raise MachineError("the speech engine stopped or did not answer")
        if error := _error_in(reply):
            raise MachineError(f"the speech engine failed ({error})")

    def _running(self) -> subprocess.Popen[bytes]:
        with self._starting:
            if self._closed:
                raise MachineError("the speech engine is closed")
            if self._process is not None and self._process.poll() is not None:
                self.reap()
            if self._process is None:
                self._process = self._start()
            return self._process

    def _start(self) -> subprocess.Popen[bytes]:
        try:
            return subprocess.Popen(
                self._command,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
            )
        except OSError as error:
            raise MachineError(f"the speech engine did not start ({error.strerror})") from error

    def _exchange(self, process: subprocess.Popen[bytes], request: bytes) -> bytes:
        assert process.stdin is not None
        assert process.stdout is not None
        try:
            process.stdin.write(request)
            process.stdin.flush()
            return process.stdout.readline()
        except OSError:  # it ended before it read
            return b""

    def reap(self) -> None:
        """End the process and free what it held; for the asking thread only."""
        process, self._process = self._process, None
        if process is not None:
            with suppress(OSError), process:  # leaving it closes the pipes and waits
                process.kill()

    def close(self) -> None:
        """End the process under way, from any thread, and start no other."""
        with self._starting:
            self._closed = True
            if (process := self._process) is not None:
                process.kill()


def _error_in(reply: bytes) -> str | None:
    try:
        error = json.loads(reply).get("error")
    except (ValueError, AttributeError):
        return "its answer is no answer"
    return None if error is None else str(error)
