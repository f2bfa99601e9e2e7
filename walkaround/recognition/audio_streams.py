"""The audio streams of phones to the one hearing process.

A stream passes sound on only while the talk button is held, with the moment before it. It passes
none on while the phone plays a clip, or the app would answer its own question. The phone says when
it plays, and the page knows how long each clip is: either of them mutes the stream.
"""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable, Sequence
from typing import Literal, NamedTuple, Protocol

from walkaround.recognition.frames import BYTES_A_SECOND
from walkaround.recognition.process import HearingProcess
from walkaround.spoken_answers.heard_text import HeardText

_BEFORE_BYTES = BYTES_A_SECOND // 2
"""Sound from before a press that is passed on: people begin to speak as they press, or before."""
_MOST_STREAMS = 500
"""A page that is gone for good does not say so: beyond this many, the oldest stream is ended."""
_ECHO_S = 0.3
"""How long a clip is still heard after its end, by the room and the loudspeaker's own delay."""

Trouble = Literal["refused", "not_secure", "no_microphone", "stopped"]
"""Why a phone cannot be heard: its owner refused; the page came over plain http; it has no
microphone; or the hearing process ended by itself."""


class Vocabulary(NamedTuple):
    """What can be said during a press.

    Attributes:
        texts: whole phrases.
        spelled: words that can be said in any sequence, such as digits; empty if none can.
    """

    texts: Sequence[str]
    spelled: Sequence[str] = ()


class Page(Protocol):
    """The page that owns a stream; called in whatever thread and context the sound came in."""

    def pressed(self) -> Vocabulary: ...
    def released(self) -> None: ...
    def heard(self, heard: HeardText) -> None: ...
    def joined(self) -> None: ...
    def failed(self, why: Trouble) -> None: ...


class AudioStream:
    """The audio stream of one phone.

    Attributes:
        ticket: the secret by which the phone connects to it.
    """

    def __init__(self, process: HearingProcess, page: Page, now_s: Callable[[], float]) -> None:
        self.ticket = secrets.token_urlsafe(24)
        self._process = process
        self._page = page
        self._now_s = now_s
        self._sound_before = bytearray()
        self._vocabulary: Vocabulary | None = None
        self._press: int | None = None
        self._playing = False
        self._shut_until_s = float("-inf")

    def joined(self) -> None:
        """Note that the phone's microphone is open."""
        self._page.joined()

    def failed(self, why: Trouble) -> None:
        """Note why the phone cannot be heard."""
        self._page.failed(why)

    def left(self) -> None:
        """Note that the phone is gone, and drop what was being said."""
        self._drop()
        self._vocabulary, self._playing = None, False
        self._sound_before.clear()

    def sound(self, samples: bytes) -> None:
        """Take sound of the phone; 16 bits a sample, 16 kHz."""
        if self._playing or self._now_s() < self._shut_until_s:
            self._drop()
            self._sound_before.clear()
            return
        self._begin()
        if self._press is not None:
            self._process.sound(self._press, samples)
        else:
            self._sound_before += samples
            del self._sound_before[:-_BEFORE_BYTES]

    def hold(self, on: bool) -> None:
        """Note that the talk button was pressed, or released."""
        if on:
            self._drop()
            self._vocabulary = self._page.pressed()
            if not (self._playing or self._now_s() < self._shut_until_s):
                self._begin()
            return
        if self._press is not None:
            self._process.release(self._press)
        self._vocabulary = None
        self._page.released()

    def playing(self, on: bool) -> None:
        """Note that the phone says it plays a clip, or that the clip is over."""
        if self._playing and not on:
            self._shut_until_s = self._now_s() + _ECHO_S
        self._playing = on

    def shut(self, seconds: float) -> None:
        """Hear nothing while a clip of this length, which begins now, and its echo last."""
        self._shut_until_s = self._now_s() + seconds + (_ECHO_S if seconds else 0.0)

    def _begin(self) -> None:
        """Begin the press that is waiting, if there is one."""
        if self._vocabulary is None or self._press is not None:
            return
        texts, spelled = self._vocabulary
        if texts:
            before, self._sound_before = bytes(self._sound_before), bytearray()
            self._press = self._process.begin(texts, spelled, before, self._on_heard)
        self._vocabulary = None

    def _on_heard(self, likeliest: HeardText | None) -> None:
        self._press = None
        if likeliest is None:
            self._page.failed("stopped")
        else:
            self._page.heard(likeliest)

    def _drop(self) -> None:
        if self._press is not None:
            self._process.drop(self._press)
            self._press = None


class AudioStreams:
    """The audio streams of all phones that may talk to this app.

    Attributes:
        installed: whether the extra `recognition` is installed; without it nothing is heard.
    """

    def __init__(
        self,
        process: HearingProcess,
        *,
        installed: bool,
        now_s: Callable[[], float] = time.monotonic,
    ) -> None:
        """Use this hearing process; `now_s` returns monotonic seconds."""
        self.installed = installed
        self._process = process
        self._now_s = now_s
        self._streams: dict[str, AudioStream] = {}

    def open(self, page: Page) -> AudioStream:
        """Open a stream for a page; the phone connects to it by its ticket."""
        stream = AudioStream(self._process, page, self._now_s)
        self._streams[stream.ticket] = stream
        if len(self._streams) > _MOST_STREAMS:
            self.end(next(iter(self._streams.values())))
        return stream

    def stream(self, ticket: str) -> AudioStream | None:
        """Return the stream of this ticket; None if it is not open."""
        return self._streams.get(ticket)

    def end(self, stream: AudioStream) -> None:
        """End a stream: nothing more is heard of its phone."""
        stream.left()
        self._streams.pop(stream.ticket, None)

    def close(self) -> None:
        """End the hearing process."""
        self._streams.clear()
        self._process.close()
