"""Prompts as sound files: each text is rendered once, kept under its digest, and served.

`Voice` is the port that screens and server use. `RenderedVoice` fulfils it with one worker
process (`speech_worker`), a thread that talks to it, and a folder of WAV files. A hung or crashed
engine costs one prompt, never the walk: every failure ends as "no sound" and, when it lasts, as
one plain sentence in `Voice.trouble`.
"""

from __future__ import annotations

import asyncio
import hashlib
import json
import re
import sys
import threading
import time
from collections import deque
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Future
from dataclasses import dataclass, field
from pathlib import Path
from typing import Protocol

from walkaround.errors import MachineError
from walkaround.saying import spoken
from walkaround.soundfolder import SoundFolder
from walkaround.speech_process import SpeechProcess

WORKER = (sys.executable, "-m", "walkaround.speech_worker")

# What a file sounds like depends on these and on text and rate: they go into its digest.
_FORMAT_VERSION = 1
_VOICE = "espeak-ng en-us" if sys.platform.startswith("linux") else f"{sys.platform} own voice"

_FAILURES_UNTIL_SILENT = 3
_SILENT_S = 60.0


class Voice(Protocol):
    """Turns texts of the screen into sound files that a page can play."""

    @property
    def trouble(self) -> str | None:
        """None while sound works, else one plain sentence for the screen."""

    def digest(self, text: str, rate_wpm: int) -> str:
        """Name the sound of this text at this rate (words per minute): 64 hex digits."""

    async def ready(self, text: str, rate_wpm: int) -> str | None:
        """Render if needed, ahead of all that is queued; return the digest, None if no sound."""

    def ahead(self, texts: Iterable[str], rate_wpm: int) -> None:
        """Render these when idle, in this order, instead of what was queued so before."""

    def file(self, digest: str) -> Path | None:
        """Return the whole WAV file of this digest, None if there is none."""

    def close(self) -> None:
        """Stop at once; calls that wait get None."""


class SilentVoice:
    """A voice without sound, for where none can be had."""

    def __init__(self, why: str) -> None:
        """`why` is a clause without a full stop, such as "switched off"."""
        self.trouble = _sentence(why)

    def digest(self, text: str, rate_wpm: int) -> str:
        return _digest(spoken(text), rate_wpm)

    async def ready(self, text: str, rate_wpm: int) -> str | None:  # noqa: ARG002
        return None

    def ahead(self, texts: Iterable[str], rate_wpm: int) -> None:
        pass

    def file(self, digest: str) -> Path | None:  # noqa: ARG002
        return None

    def close(self) -> None:
        pass


@dataclass
class _Job:
    """One text to render, and who waits for it."""

    digest: str
    said: str
    rate_wpm: int
    waiting: list[Future[bool]] = field(default_factory=list)

    @property
    def has_words(self) -> bool:
        return re.search(r"\w", self.said) is not None


class RenderedVoice:
    """A voice that renders with a worker process into a folder of sound files.

    After three failures in a row it is silent for a minute, then tries again at the next text.
    """

    def __init__(
        self,
        folder: Path,
        *,
        timeout_s: float = 8.0,
        worker: Sequence[str] = WORKER,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self.trouble: str | None = None
        self._sounds = SoundFolder(folder)
        self._worker = SpeechProcess(worker, timeout_s)
        self._clock = clock
        self._failures = 0
        self._silent_until = float("-inf")
        # The lock of `_changed` guards what follows.
        self._changed = threading.Condition()
        self._urgent: deque[_Job] = deque()
        self._later: deque[_Job] = deque()
        self._rendering: _Job | None = None
        self._closed = False
        self._thread: threading.Thread | None = None

    def digest(self, text: str, rate_wpm: int) -> str:
        return _digest(spoken(text), rate_wpm)

    async def ready(self, text: str, rate_wpm: int) -> str | None:
        job = _job(text, rate_wpm)
        if self._sounds.use(job.digest):
            return job.digest
        if not job.has_words or self._is_silent():
            return None
        return job.digest if await asyncio.wrap_future(self._queue_first(job)) else None

    def ahead(self, texts: Iterable[str], rate_wpm: int) -> None:
        jobs = (_job(text, rate_wpm) for text in texts)
        later = deque(job for job in jobs if job.has_words)
        with self._changed:
            self._later = later
            self._wake()

    def file(self, digest: str) -> Path | None:
        return self._sounds.file(digest)

    def close(self) -> None:
        with self._changed:
            self._closed = True
            self._later.clear()
            self._changed.notify_all()
        self._worker.close()
        if self._thread is not None:
            self._thread.join()

    def _is_silent(self) -> bool:
        return self._clock() < self._silent_until

    def _queue_first(self, job: _Job) -> Future[bool]:
        """Queue a job before all that may wait, or join the same job if one is under way."""
        future: Future[bool] = Future()
        with self._changed:
            under_way = [*self._urgent, *([self._rendering] if self._rendering else [])]
            same = next((other for other in under_way if other.digest == job.digest), None)
            if self._closed:
                future.set_result(False)
            elif same:
                same.waiting.append(future)
            else:
                job.waiting.append(future)
                self._urgent.append(job)
                self._wake()
        return future

    def _wake(self) -> None:
        """Have the thread look at the queues; it is started with the first text."""
        if self._thread is None and not self._closed:
            self._thread = threading.Thread(target=self._work, name="speech", daemon=True)
            self._thread.start()
        self._changed.notify_all()

    def _work(self) -> None:
        while job := self._next_job():
            has_sound = self._sounds.use(job.digest) or self._render(job)
            with self._changed:
                self._rendering = None
            for future in job.waiting:
                if future.set_running_or_notify_cancel():
                    future.set_result(has_sound)
        self._worker.reap()

    def _next_job(self) -> _Job | None:
        """Wait for the next job; None once closed and nobody waits any more."""
        with self._changed:
            while not (self._urgent or self._later or self._closed):
                self._changed.wait()
            queue = self._urgent or self._later
            self._rendering = queue.popleft() if queue else None
            return self._rendering

    def _render(self, job: _Job) -> bool:
        if self._closed or self._is_silent():
            return False
        try:
            with self._sounds.part(job.digest) as part:
                self._worker.ask(text=job.said, rate_wpm=job.rate_wpm, path=str(part))
        except MachineError as error:
            self._count_failure(str(error))
            return False
        self._failures = 0
        self.trouble = None
        return True

    def _count_failure(self, why: str) -> None:
        self._failures += 1
        if self._failures >= _FAILURES_UNTIL_SILENT:
            self._silent_until = self._clock() + _SILENT_S
            self.trouble = _sentence(why)


def _job(text: str, rate_wpm: int) -> _Job:
    said = spoken(text)
    return _Job(_digest(said, rate_wpm), said, rate_wpm)


def _digest(said: str, rate_wpm: int) -> str:
    key = json.dumps([_FORMAT_VERSION, _VOICE, rate_wpm, said])
    return hashlib.sha256(key.encode()).hexdigest()


def _sentence(why: str) -> str:
    return f"No voice: {why}; the words are on the screen."
