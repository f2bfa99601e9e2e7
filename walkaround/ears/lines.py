"""The phones whose sound comes in: each with a line of its own to the one process that hears.

A line lets sound through only while its talk button is held, with what was heard just before; it
lets none through while the phone plays something itself, or it would answer its own question. The
phone says when it plays, and the page knows how long each clip is: either keeps the line shut.
"""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable, Sequence
from typing import Literal, NamedTuple, Protocol

from walkaround.ears.frames import BYTES_A_SECOND
from walkaround.ears.process import HearingProcess
from walkaround.spoken.hearing import HeardText

_BEFORE_BYTES = BYTES_A_SECOND // 2
"""People begin to speak as they press, or a moment before."""
_MOST_LINES = 500
"""A page that is gone for good does not say so: the oldest line is ended."""
_DIES_AWAY_S = 0.3
"""A room and a loudspeaker's own delay give back so much more of a clip."""

Trouble = Literal["refused", "not_secure", "no_microphone", "stopped"]
"""Why a phone cannot be heard: its owner said no; the page came over plain http; it has none; or
the process that hears ended by itself."""


class Asked(NamedTuple):
    """What can be said at a press: texts, and words of which any row can be said."""

    texts: Sequence[str]
    spelled: Sequence[str] = ()


class Page(Protocol):
    """Whose line it is. It is called in whatever thread and context the sound came in."""

    def pressed(self) -> Asked: ...
    def released(self) -> None: ...
    def heard(self, heard: HeardText) -> None: ...
    def joined(self) -> None: ...
    def failed(self, why: Trouble) -> None: ...


class Line:
    """The line of one phone.

    Attributes:
        ticket: names it to the phone; nobody else can guess it.
    """

    def __init__(self, process: HearingProcess, page: Page, now_s: Callable[[], float]) -> None:
        self.ticket = secrets.token_urlsafe(24)
        self._process = process
        self._page = page
        self._now_s = now_s
        self._before = bytearray()
        self._asked: Asked | None = None
        self._press: int | None = None
        self._playing = False
        self._shut_until_s = float("-inf")

    def joined(self) -> None:
        """The phone's microphone is open."""
        self._page.joined()

    def failed(self, why: Trouble) -> None:
        """The phone cannot be heard."""
        self._page.failed(why)

    def left(self) -> None:
        """The phone is gone: what it was saying counts no more."""
        self._drop()
        self._asked, self._playing = None, False
        self._before.clear()

    def sound(self, samples: bytes) -> None:
        """The phone heard this; 16 bits a sample, 16 kHz."""
        if self._playing or self._now_s() < self._shut_until_s:
            self._drop()
            self._before.clear()
            return
        self._begin()
        if self._press is not None:
            self._process.sound(self._press, samples)
        else:
            self._before += samples
            del self._before[:-_BEFORE_BYTES]

    def hold(self, on: bool) -> None:
        """The talk button is pressed, or let go."""
        if on:
            self._drop()
            self._asked = self._page.pressed()
            if not (self._playing or self._now_s() < self._shut_until_s):
                self._begin()
            return
        if self._press is not None:
            self._process.release(self._press)
        self._asked = None
        self._page.released()

    def playing(self, on: bool) -> None:
        """The phone says that it plays a clip, or that the clip is over."""
        if self._playing and not on:
            self._shut_until_s = self._now_s() + _DIES_AWAY_S
        self._playing = on

    def shut(self, seconds: float) -> None:
        """Hear nothing for as long as a clip sounds that begins now, and until it dies away."""
        self._shut_until_s = self._now_s() + seconds + (_DIES_AWAY_S if seconds else 0.0)

    def _begin(self) -> None:
        """Begin the press that waits, if one does."""
        if self._asked is None or self._press is not None:
            return
        texts, spelled = self._asked
        if texts:
            before, self._before = bytes(self._before), bytearray()
            self._press = self._process.begin(texts, spelled, before, self._says)
        self._asked = None

    def _says(self, likeliest: HeardText | None) -> None:
        self._press = None
        if likeliest is None:
            self._page.failed("stopped")
        else:
            self._page.heard(likeliest)

    def _drop(self) -> None:
        if self._press is not None:
            self._process.drop(self._press)
            self._press = None


class Ears:
    """All phones that may talk to this app.

    Attributes:
        installed: whether the extra `ears` is there; without it nothing is heard.
    """

    def __init__(
        self,
        process: HearingProcess,
        *,
        installed: bool,
        now_s: Callable[[], float] = time.monotonic,
    ) -> None:
        """Hear by this process; `now_s` tells seconds that are never set back."""
        self.installed = installed
        self._process = process
        self._now_s = now_s
        self._lines: dict[str, Line] = {}

    def open(self, page: Page) -> Line:
        """Give a page its line; the phone joins it by its ticket."""
        line = Line(self._process, page, self._now_s)
        self._lines[line.ticket] = line
        if len(self._lines) > _MOST_LINES:
            self.end(next(iter(self._lines.values())))
        return line

    def line(self, ticket: str) -> Line | None:
        """Return the line of this ticket, if it is open."""
        return self._lines.get(ticket)

    def end(self, line: Line) -> None:
        """Nothing is heard of this phone any more."""
        line.left()
        self._lines.pop(line.ticket, None)

    def close(self) -> None:
        """End the process."""
        self._lines.clear()
        self._process.close()
