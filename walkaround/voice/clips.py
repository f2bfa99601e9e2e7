"""Prompts as sound files: each text is rendered once, stored under its digest, and served.

`Voice` is the interface that screens and server use. `RenderedVoice` implements it with one worker
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
from walkaround.voice.engine_voices import voice_name
from walkaround.voice.process import SpeechProcess
from walkaround.voice.sound_folder import SoundFolder

WORKER = (sys.executable, "-m", "walkaround.voice.worker")

# The sound of a file depends on this, the text, the rate and the voice: its digest is of all four.
_FORMAT_VERSION = 1

MOST_SPOKEN_CHARS = 5000
"""The most characters of a text that are said, so that a very long name cannot stall the voice."""

_FAILURES_UNTIL_SILENT = 3
_SILENT_S = 60.0
_FAILURES_UNTIL_RESTING = 2  # of one text: an engine may hang on it that says others
_START_S = 4.0  # the time a worker may take to start, besides that of the text
_MOST_REMEMBERED = 200  # failed texts and logged errors; forgotten ones are tried or logged again

_log = logging.getLogger(__name__)


class Voice(Protocol):
    """Turns texts, written as they are said, into sound files that a page can play."""

    @property
    def trouble(self) -> Text | None:
        """Why there is no sound, as a sentence for the screen; None while sound works."""

    def digest(self, text: str, rate_wpm: int, language: str = "en") -> str:
        """Return the digest of a text's sound at this rate (words per minute): 64 hex digits."""

    async def render(self, text: str, rate_wpm: int, language: str = "en") -> str | None:
        """Render a text if needed, before all queued ones; return its digest, None if no sound.

        It never raises, and never waits longer than the time limit of the engine.
        """

    def render_ahead(self, texts: Iterable[str], rate_wpm: int, language: str = "en") -> None:
        """Render these when idle, in this order, instead of those queued before."""

    def file(self, digest: str) -> Path | None:
        """Return the path of the complete WAV file of this digest; None if there is none."""

    def close(self) -> None:
        """Stop at once; waiting calls return None."""


@dataclass
class _Job:
    """One text to render, and the calls that wait for it."""

    digest: str
    text: str
    rate_wpm: int
    language: str
    waiters: list[Future[bool]] = field(default_factory=list)

    @property
    def has_words(self) -> bool:
        return re.search(r"\w", self.text) is not None


class RenderedVoice:
    """A voice that renders with a worker process into a folder of sound files.

    After three failures in a row it is silent for a minute, then tries again with the next text. A
    text that failed twice is not tried for a minute, so that one text cannot silence all.
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
        """Return the digest of a sound, see `Voice`."""
        return _digest(text[:MOST_SPOKEN_CHARS], rate_wpm, language)

    async def render(self, text: str, rate_wpm: int, language: str = "en") -> str | None:
        """Render a text before all queued ones, see `Voice`."""
        job = _job(text, rate_wpm, language)
        if self._sounds.use(job.digest):
            return job.digest
        if not job.has_words or self._is_silent() or self._is_resting(job):
            return None
        result = asyncio.wrap_future(self._queue_first(job))
        try:
            return job.digest if await asyncio.wait_for(result, self._patience_s) else None
        except TimeoutError:
            self._log_once(message("voice-busy"))
            return None

    def render_ahead(self, texts: Iterable[str], rate_wpm: int, language: str = "en") -> None:
        """Queue texts to render when idle, see `Voice`."""
        jobs = (_job(text, rate_wpm, language) for text in texts)
        later = deque(job for job in jobs if job.has_words and not self._is_resting(job))
        with self._changed:
            self._later = later
            self._notify_thread()

    def file(self, digest: str) -> Path | None:
        """Return the path of a sound, see `Voice`."""
        return self._sounds.file(digest)

    def close(self) -> None:
        """Stop the worker, and the calls that wait for it, see `Voice`."""
        with self._changed:
            self._closed = True
            self._later.clear()
            self._changed.notify_all()
        self._worker.close()
        if self._thread is not None:
            self._thread.join(self._patience_s)

    def _is_silent(self) -> bool:
        return self._clock() < self._silent_until

    def _is_resting(self, job: _Job) -> bool:
        times, at_s = self._failed.get(job.digest, (0, 0.0))
        return times >= _FAILURES_UNTIL_RESTING and self._clock() < at_s + _SILENT_S

    def _queue_first(self, job: _Job) -> Future[bool]:
        """Queue a job before all others, or wait for the same job if it is under way."""
        future: Future[bool] = Future()
        with self._changed:
            under_way = [*self._urgent, *([self._rendering] if self._rendering else [])]
            same = next((other for other in under_way if other.digest == job.digest), None)
            if self._closed:
                future.set_result(False)
            elif same:
                same.waiters.append(future)
            else:
                job.waiters.append(future)
                self._urgent.append(job)
                self._notify_thread()
        return future

    def _notify_thread(self) -> None:
        """Notify the thread that the queues changed; start it with the first text."""
        if self._thread is None and not self._closed:
            thread = threading.Thread(target=self._work, name="speech", daemon=True)
            thread.start()
            self._thread = thread
        self._changed.notify_all()

    def _work(self) -> None:
        while job := self._next_job():
            try:
                has_sound = self._sounds.use(job.digest) or self._render_job(job)
            except Exception as error:
                # Whatever it was, this thread must go on, or no later prompt is rendered.
                _log.exception("A prompt was not rendered")
                self._worker.reap()
                reason = type(error).__name__
                self._count_failure(job, message("voice-failed", reason=reason))
                has_sound = False
            with self._changed:
                self._rendering = None
            for future in job.waiters:
                if future.set_running_or_notify_cancel():
                    future.set_result(has_sound)
        self._worker.reap()

    def _next_job(self) -> _Job | None:
        """Wait for the next job; return None once closed and nothing urgent is queued."""
        with self._changed:
            while not (self._urgent or self._later or self._closed):
                self._changed.wait()
            queue = self._urgent or self._later
            self._rendering = queue.popleft() if queue else None
            return self._rendering

    def _render_job(self, job: _Job) -> bool:
        if self._closed or self._is_silent():
            return False
        try:
            with self._sounds.part(job.digest) as part:
                self._worker.ask(
                    text=job.text, rate_wpm=job.rate_wpm, language=job.language, path=str(part)
                )
        except MachineError as error:
            # Whatever the worker still answers or writes belongs to this prompt, not to the next.
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
        self._log_once(why)
        self._failures += 1
        if self._failures >= _FAILURES_UNTIL_SILENT:
            self._silent_until = self._clock() + _SILENT_S
            self.trouble = message("voice-none", why=why)
            self._log_once(self.trouble)

    def _log_once(self, why: Text) -> None:
        """Log an error, each text once."""
        if why not in self._logged:
            self._logged[why] = None
            _forget_oldest(self._logged)
            _log.warning("Voice: %s", why)


def _job(text: str, rate_wpm: int, language: str) -> _Job:
    text_to_say = text[:MOST_SPOKEN_CHARS]
    return _Job(_digest(text_to_say, rate_wpm, language), text_to_say, rate_wpm, language)


def _forget_oldest(remembered: dict[Any, Any]) -> None:
    while len(remembered) > _MOST_REMEMBERED:
        remembered.pop(next(iter(remembered)), None)


def _digest(text: str, rate_wpm: int, language: str = "en") -> str:
    key = json.dumps([_FORMAT_VERSION, voice_name(language), rate_wpm, text])
    return hashlib.sha256(key.encode()).hexdigest()
