"""The real app without a browser: real screens and store, a clock and a voice of the test."""

from __future__ import annotations

from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path

import flet as ft
from support.flet_harness import Screen, running
from support.walks import FakeClock

from walkaround.base.message import Text
from walkaround.bootstrap import Parts, build
from walkaround.library.inbox import Inbox
from walkaround.library.languages import message_files
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Scope
from walkaround.recognition.audio_streams import AudioStreams
from walkaround.timing import Timing
from walkaround.ui.app import page_main
from walkaround.ui.page.flet_pages import SESSION_BEFORE
from walkaround.words.language import Words

HURRIED = Timing(
    dead_s=0.0,
    twice_s=0.0,
    hold_beat_s=0.04,
    stopwatch_beat_s=0.02,
    wait_beat_s=0.02,
    ahead_s=0.0,
)
"""Tests tap faster than people, and what beats beats fast, yet slower than a busy machine draws."""
PATIENT = replace(HURRIED, dead_s=Timing().dead_s, twice_s=Timing().twice_s)
"""A tap too soon after the last counts for nothing, as with people: the clock stands still, so a
tap that is meant needs a wait on it before."""


class _AsShown(Words):
    """English that is said as it is shown, so that tests read what they hear."""

    def spoken(self, text: str) -> str:
        return text


@dataclass
class RecordingVoice:
    """Remembers what was said; its clips are only names."""

    trouble: Text | None = None
    said: list[str] = field(default_factory=list)
    planned: list[str] = field(default_factory=list)
    spoken_in: str = ""

    def digest(self, text: str, rate_wpm: int, language: str = "en") -> str:
        return f"{hash((text, rate_wpm, language)) & 0xFFFFFFFF:064x}"

    async def render(self, text: str, rate_wpm: int, language: str = "en") -> str | None:
        self.said.append(text)
        self.spoken_in = language
        return None if self.trouble else self.digest(text, rate_wpm, language)

    def render_ahead(self, texts: Iterable[str], rate_wpm: int, language: str = "en") -> None:  # noqa: ARG002
        self.planned = list(texts)

    def file(self, digest: str) -> Path | None:  # noqa: ARG002
        return None

    def close(self) -> None:
        pass


@dataclass
class App:
    """One app, and the pages opened on it."""

    parts: Parts
    clock: FakeClock
    voice: RecordingVoice
    inbox: Inbox = field(default_factory=Inbox)

    def __post_init__(self) -> None:
        self._main = page_main(self.parts, self.inbox)

    @asynccontextmanager
    async def page(
        self, route: str = "/", *, dark: bool = False, back: Screen | None = None
    ) -> AsyncIterator[Screen]:
        """A phone that opens this address, or comes `back` there after its link was cut."""

        async def main(page: ft.Page) -> None:
            page.route = route
            page.width, page.height = 412, 915
            if dark:
                page.platform_brightness = ft.Brightness.DARK
            SESSION_BEFORE.set(back.session_id if back else "")
            await self._main(page)

        async with running(main) as screen:
            yield screen

    def begin(
        self,
        vehicle: str,
        *,
        scope: Scope = "whole",
        together: bool = False,
        power: str = "",
        who: str = "Kim",
    ) -> str:
        """A walk begun without a page."""
        library = self.parts.library
        known = {each.id: each for each in library.vehicles}
        plan = plan_walk(known[vehicle], library.rules, scope=scope, together=together, power=power)
        return self.parts.open_walks.begin(plan, who)


@asynccontextmanager
async def app(
    data: Path,
    timing: Timing = HURRIED,
    words: Words | None = None,
    recognition: AudioStreams | None = None,
) -> AsyncIterator[App]:
    """An app on this data folder, in English if no language is given."""
    clock, voice = FakeClock(), RecordingVoice()
    timing = replace(timing, now_s=lambda: clock().mono_s)
    words = words or _AsShown("en", message_files("en"))
    parts = build(
        data, clock=clock, voice=voice, recognition=recognition, words=words, timing=timing
    )
    try:
        yield App(parts, clock, voice)
    finally:
        parts.close()
