"""One page's microphone: opened and closed with the walk, held while one talks.

What comes of it comes from the socket or from the process that hears, on threads of theirs; here it
becomes work of the page.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable
from contextvars import copy_context
from functools import partial

from walkaround.recognition.audio_streams import AudioStream, Trouble, Vocabulary
from walkaround.spoken_answers.heard_text import HeardText
from walkaround.ui.page.step_keys import spoken_answers_on
from walkaround.ui.page.view import View

log = logging.getLogger(__name__)

TICKET_KEY = "walkaround.recognition"
"""The name of a phone's ticket on it; the script in the page opens the microphone for it."""

ScreenPlace = tuple[object, ...]


class Microphone:
    """The microphone of one page.

    Attributes:
        live: it is open.
        is_held: the talk button is held.
        trouble: why it cannot be heard; None while it can.
    """

    def __init__(
        self,
        view: View,
        asks: Callable[[], Vocabulary],
        takes: Callable[[HeardText | None, ScreenPlace], Awaitable[None]],
    ) -> None:
        """Make a microphone that is closed.

        Args:
            view: the page's.
            asks: tells what can be said now.
            takes: gets what was heard, and what was on the screen at the press; None where the
                process that hears has ended.
        """
        self._view = view
        self._asks = asks
        self._takes = takes
        self._loop, self._context = asyncio.get_running_loop(), copy_context()
        self._tasks: set[asyncio.Task[None]] = set()
        self._stream: AudioStream | None = None
        self._meant: ScreenPlace = ()
        self.live = self.is_held = False
        self.trouble: Trouble | None = None
        view.sound.on_play = self._plays

    @property
    def wanted(self) -> bool:
        """Whether this page is to listen: at a walk, where its owner switched that on."""
        return spoken_answers_on(self._view) and self._view.route.startswith("/walk/")

    @property
    def place(self) -> ScreenPlace:
        """What is on the screen; what is said there is meant for nothing else."""
        view = self._view
        return view.route, view.panel, view.peek, view.step, view.since

    async def follow(self) -> None:
        """Open the phone's microphone or close it, as is wanted now."""
        if self.wanted == (self._stream is not None):
            return
        self.end()
        self.live, self.is_held, self.trouble = False, False, None
        if self.wanted:
            self._stream = self._view.parts.recognition.open(self)
        await self._view.device.keep_ticket(TICKET_KEY, self._stream.ticket if self._stream else "")

    def end(self) -> None:
        """Stop listening: the page is gone, or its owner switched that off."""
        if self._stream is not None:
            self._view.parts.recognition.end(self._stream)
            self._stream = None

    async def hold(self, on: bool) -> None:
        """Handle a press of the talk zone, or its end."""
        if self._stream is not None:
            self._stream.hold(on)

    def pressed(self) -> Vocabulary:
        """Begin a press: stop what is said, and tell the listener what can be said now."""
        self._meant, self.is_held = self.place, True
        self._soon(self._begin)
        return self._asks()

    def released(self) -> None:
        """End a press; what was said may still be on its way."""
        self.is_held = False
        self._soon(self._drawn)

    def heard(self, likeliest: HeardText) -> None:
        """Handle what was heard."""
        self.is_held = False
        self._soon(partial(self._takes, likeliest, self._meant))

    def joined(self) -> None:
        """Take note that the phone's microphone is open."""
        self.live, self.trouble = True, None
        self._soon(self._drawn)

    def failed(self, why: Trouble) -> None:
        """Take note that the phone cannot be heard, and why; taps go on as before."""
        self.is_held = False
        if why == "stopped":
            self._soon(partial(self._takes, None, self._meant))
        else:
            self.live, self.trouble = False, why
            self._soon(self._drawn)

    def _soon(self, work: Callable[[], Awaitable[None]]) -> None:
        """Have this done on the page's own loop, and as part of that page."""

        async def run() -> None:
            try:
                await work()
            except Exception:
                log.exception("what was said failed")
                self._view.say_failure()

        def begin() -> None:
            task = self._loop.create_task(run(), context=self._context)
            self._tasks.add(task)
            task.add_done_callback(self._tasks.discard)

        self._loop.call_soon_threadsafe(begin)

    async def _begin(self) -> None:
        self._view.sound.give_way()
        self._view.redraw()

    async def _drawn(self) -> None:
        self._view.redraw()

    def _plays(self, seconds: float) -> None:
        if self._stream is not None:
            self._stream.shut(seconds)
