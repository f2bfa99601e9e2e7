"""A pool of processes for work on many batches.

Each process has one batch at a time and gets the next when it is done, so there are never more
batches in memory than processes. Threads that would read further ahead were slower: each of their
reads waits for the thread that saves.
"""

from __future__ import annotations

import os
import pickle
import signal
import subprocess
import sys
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Generic, TypeVar

MOST_PROCESSES = 4
"""One process saves what they make; more of them would only wait for it."""
_B = TypeVar("_B")
_R = TypeVar("_R")


def usable_processes() -> int:
    """Return how many processes can be used; 1 if no other one can be started.

    Each is started by Python's own command. An app that has Python inside itself, as on a phone,
    has no such command: starting it would open the app a second time.
    """
    command = Path(sys.executable or "").stem
    if getattr(sys, "frozen", False) or not command.startswith("python"):
        return 1
    usable = getattr(os, "sched_getaffinity", None)
    return min(MOST_PROCESSES, len(usable(0)) if usable else os.cpu_count() or 1)


def work_in_processes(
    work: Callable[[_B], _R], batches: Iterable[_B], processes: int
) -> Iterator[tuple[_B, _R]]:
    """Call a function for each batch; yield each batch with its result, in order.

    Where a process cannot be started, or ends by itself, this process does its work.

    Args:
        work: a module-level function.
        batches: its arguments; the next is taken when there is a process for it.
        processes: how many to start; with less than two, this process does all the work.
    """
    if processes < 2:
        for batch in batches:
            yield batch, work(batch)
        return
    workers = [_Worker(work) for _ in range(processes)]
    under_way: deque[tuple[_Worker[_B, _R], _B]] = deque()
    try:
        for number, batch in enumerate(batches):
            if number < processes:
                workers[number].begin(batch)
                under_way.append((workers[number], batch))
                continue
            worker, before = under_way.popleft()
            result = worker.result(before)
            # Before the result is used, so that the process need not wait meanwhile.
            worker.begin(batch)
            under_way.append((worker, batch))
            yield before, result
        for worker, batch in under_way:
            yield batch, worker.result(batch)
    finally:
        for worker in workers:
            worker.end()


class _Worker(Generic[_B, _R]):
    """A process that calls a function for one batch after another."""

    def __init__(self, work: Callable[[_B], _R]) -> None:
        self._work = work
        self._process: subprocess.Popen[bytes] | None = None
        # The same modules as here, and never those of the current folder.
        serve = f"import sys; sys.path[:] = {sys.path!r}; {_SERVE}"
        pipe, nowhere = subprocess.PIPE, subprocess.DEVNULL
        with suppress(OSError):
            command = [sys.executable, "-P", "-c", serve]
            self._process = subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=nowhere)
            self._put(work)

    def begin(self, batch: _B) -> None:
        """Send it a batch; it must have none."""
        # If that fails, `result` does the work here.
        with suppress(OSError):
            self._put(batch)

    def result(self, batch: _B) -> _R:
        """Wait for the result of the batch that was sent."""
        if self._process and self._process.stdout:
            with suppress(OSError, EOFError, pickle.UnpicklingError):
                result: _R = pickle.load(self._process.stdout)
                return result
        self.end()
        return self._work(batch)

    def _put(self, what: object) -> None:
        if self._process and self._process.stdin:
            pickle.dump(what, self._process.stdin, pickle.HIGHEST_PROTOCOL)
            self._process.stdin.flush()

    def end(self) -> None:
        """End the process, whatever it is doing."""
        if self._process:
            self._process.kill()
            with suppress(OSError):
                self._process.communicate()
            self._process = None


_SERVE = "from walkaround.exchange.processes import serve; serve()"


def serve() -> None:
    """Work on batches from standard input until it ends; it ends with the parent process."""
    # Ctrl+C is for the parent process, which then ends this one.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    requests, out = sys.stdin.buffer, sys.stdout.buffer
    sys.stdout = sys.stderr
    with suppress(EOFError, OSError):
        work = pickle.load(requests)
        while True:
            pickle.dump(work(pickle.load(requests)), out, pickle.HIGHEST_PROTOCOL)
            out.flush()
