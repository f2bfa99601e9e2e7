"""Prompts as sound files: each text is rendered once, kept under its digest, and served.

`Voice` is the port that screens and server use. `RenderedVoice` fulfils it with one worker
process (`worker`), a thread that talks to it, and a folder of WAV files. A hung or crashed
engine costs one prompt, never the walk: every failure ends as "no sound" and, when it lasts, as
one plain sentence in `Voice.trouble`.
"""

from __future__ import annotations

import asyncio
import hashlib
import json
import logging
import re
import sys
import threading
import time
from collections import deque
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import Future
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Protocol

from walkaround.base.errors import MachineError
from walkaround.base.message import Text, message
from walkaround.voice.process import SpeechProcess
from walkaround.voice.sound_folder import SoundFolder
from walkaround.voice.speakers import speaker

WORKER = (sys.executable, "-m", "walkaround.voice.worker")

# What a file sounds like depends on this, on text, rate and speaker: they go into its digest.
_FORMAT_VERSION = 1

SAID_MOST = 5000
"""How many characters of a long text are said: a strange name cannot stall the voice."""

_FAILURES_UNTIL_SILENT = 3
_SILENT_S = 60.0
_FAILURES_UNTIL_REST = 2  # of one text, on which an engine hangs that says others
_START_S = 4.0  # what a worker may take to start, besides what the text takes
_REMEMBERED = 200  # texts and troubles; what is forgotten is tried, or told, again

_log = logging.getLogger(__name__)


class Voice(Protocol):
    """Turns texts, written as they are said, into sound files that a page can play."""

    @property
    def trouble(self) -> Text | None:
        """None while sound works, else one plain sentence for the screen."""

    def digest(self, text: str, rate_wpm: int, language: str = "en") -> str:
        """Name the sound of this text at this rate (words per minute): 64 hex digits."""

    async def ready(self, text: str, rate_wpm: int, language: str = "en") -> str | None:
        """Render if needed, ahead of all that is queued; return the digest, None if no sound.

        It never raises, and never waits longer than an engine that hangs is waited for.
        """

    def ahead(self, texts: Iterable[str], rate_wpm: int, language: str = "en") -> None:
        """Render these when idle, in this order, instead of what was queued so before."""

    def file(self, digest: str) -> Path | None:
        """Return the whole WAV file of this digest, None if there is none."""

    def close(self) -> None:
        """Stop at once; calls that wait get None."""


@dataclass
class _Job:
    """One text to render, and who waits for it."""

    digest: str
    said: str
    rate_wpm: int
    language: str
    waiting: list[Future[bool]] = field(default_factory=list)

    @property
    def has_words(self) -> bool:
        return re.search(r"\w", self.said) is not None


class RenderedVoice:
    """A voice that renders with a worker process into a folder of sound files.

    After three failures in a row it is silent for a minute, then tries again at the next text. A
    text that failed twice rests for a minute too, so that one text cannot silence all.
    """

    def __init__(
        self,
        folder: Path,
        *,
        timeout_s: float = 8.0,
        worker: Sequence[str] = WORKER,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self.trouble: Text | None = None
        self._sounds = SoundFolder(folder)
        self._worker = SpeechProcess(worker, timeout_s)
        self._patience_s = timeout_s + _START_S
        self._clock = clock
        self._failures = 0
        self._silent_until = float("-inf")
        self._failed: dict[str, tuple[int, float]] = {}  # digest: how often, when last
        self._logged: dict[Text, None] = {}
        # The lock of `_changed` guards what follows.
        self._changed = threading.Condition()
        self._urgent: deque[_Job] = deque()
        self._later: deque[_Job] = deque()
        self._rendering: _Job | None = None
        self._closed = False
        self._thread: threading.Thread | None = None

    def digest(self, text: str, rate_wpm: int, language: str = "en") -> str:
        """Name a sound, as `Voice` says."""
        return _digest(text[:SAID_MOST], rate_wpm, language)

    async def ready(self, text: str, rate_wpm: int, language: str = "en") -> str | None:
        """Render a text first, as `Voice` says."""
        job = _job(text, rate_wpm, language)
        if self._sounds.use(job.digest):
            return job.digest
        if not job.has_words or self._is_silent() or self._rests(job):
            return None
        waited = asyncio.wrap_future(self._queue_first(job))
        try:
            return job.digest if await asyncio.wait_for(waited, self._patience_s) else None
        except TimeoutError:
            self._tell(message("voice-busy"))
            return None

    def ahead(self, texts: Iterable[str], rate_wpm: int, language: str = "en") -> None:
        """Queue texts for an idle time, as `Voice` says."""
        jobs = (_job(text, rate_wpm, language) for text in texts)
        later = deque(job for job in jobs if job.has_words and not self._rests(job))
        with self._changed:
            self._later = later
            self._wake()

    def file(self, digest: str) -> Path | None:
        """Find a sound's file, as `Voice` says."""
        return self._sounds.file(digest)

    def close(self) -> None:
        """Stop the worker, and release those who wait for it, as `Voice` says."""
        with self._changed:
            self._closed = True
            self._later.clear()
            self._changed.notify_all()
        self._worker.close()
        if self._thread is not None:
            self._thread.join(self._patience_s)

    def _is_silent(self) -> bool:
        return self._clock() < self._silent_until

    def _rests(self, job: _Job) -> bool:
        times, at_s = self._failed.get(job.digest, (0, 0.0))
        return times >= _FAILURES_UNTIL_REST and self._clock() < at_s + _SILENT_S

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
            thread = threading.Thread(target=self._work, name="speech", daemon=True)
            thread.start()
            self._thread = thread
        self._changed.notify_all()

    def _work(self) -> None:
        while job := self._next_job():
            try:
                has_sound = self._sounds.use(job.digest) or self._render(job)
            except Exception as error:
                # Whatever it was, this thread must go on, or every later prompt waits in vain.
                _log.exception("A prompt was not rendered")
                self._worker.reap()
                reason = type(error).__name__
                self._count_failure(job, message("voice-failed", reason=reason))
                has_sound = False
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
                self._worker.ask(
                    text=job.said, rate_wpm=job.rate_wpm, language=job.language, path=str(part)
                )
        except MachineError as error:
            # Whatever it still says or writes belongs to this prompt, not to the next.
            self._worker.reap()
            if not self._closed:
                self._count_failure(job, error.text)
            return False
        if self.trouble is not None:
            _log.info("There is a voice again")
        self._failures = 0
        self._failed.pop(job.digest, None)
        self.trouble = None
        return True

    def _count_failure(self, job: _Job, why: Text) -> None:
        times, _ = self._failed.pop(job.digest, (0, 0.0))
        self._failed[job.digest] = (times + 1, self._clock())
        _forget_oldest(self._failed)
        self._tell(why)
        self._failures += 1
        if self._failures >= _FAILURES_UNTIL_SILENT:
            self._silent_until = self._clock() + _SILENT_S
            self.trouble = message("voice-none", why=why)
            self._tell(self.trouble)

    def _tell(self, why: Text) -> None:
        """Log a trouble, each once."""
        if why not in self._logged:
            self._logged[why] = None
            _forget_oldest(self._logged)
            _log.warning("Voice: %s", why)


def _job(text: str, rate_wpm: int, language: str) -> _Job:
    said = text[:SAID_MOST]
    return _Job(_digest(said, rate_wpm, language), said, rate_wpm, language)


def _forget_oldest(remembered: dict[Any, Any]) -> None:
    while len(remembered) > _REMEMBERED:
        remembered.pop(next(iter(remembered)), None)


def _digest(text: str, rate_wpm: int, language: str = "en") -> str:
    key = json.dumps([_FORMAT_VERSION, speaker(language), rate_wpm, text])
    return hashlib.sha256(key.encode()).hexdigest()
