"""Speech recognition that hears what a test says, for screens without a microphone."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from support.app import App
from support.flet_harness import Screen
from support.tapping import walk_of

from walkaround.recognition.audio_streams import AudioStreams, Trouble, Vocabulary
from walkaround.recognition.process import HearingProcess, OnHeard
from walkaround.spoken_answers.heard_text import HeardText
from walkaround.spoken_answers.phrases import PHRASES, Meaning


@dataclass
class ScriptedProcess(HearingProcess):
    """Takes the place of the process that hears: each press waits for what the test says.

    Attributes:
        texts, spelled: what could be said at the last press.
        done: what became of the presses, in order: begun, released, dropped.
    """

    texts: Sequence[str] = ()
    spelled: Sequence[str] = ()
    done: list[str] = field(default_factory=list)
    sound_bytes: int = 0
    before: bytes = b""
    on_heard: OnHeard | None = None

    def begin(
        self, texts: Sequence[str], spelled: Sequence[str], before: bytes, on_heard: OnHeard
    ) -> int:
        self.texts, self.spelled, self.before, self.on_heard = texts, spelled, before, on_heard
        self.done.append("begun")
        return len(self.done)

    def sound(self, number: int, samples: bytes) -> None:  # noqa: ARG002
        self.sound_bytes += len(samples)

    def release(self, number: int) -> None:  # noqa: ARG002
        self.done.append("released")

    def drop(self, number: int) -> None:  # noqa: ARG002
        self.done.append("dropped")
        self.on_heard = None

    def close(self) -> None:
        self.on_heard = None


def clear(text: str) -> HeardText:
    """A phrase that was understood beyond doubt."""
    return HeardText(text=text, lead=15.0, gap=0.0, end=-0.1, seconds=1.0)


@dataclass
class Talk:
    """A phone that is talked to, at this walk."""

    depot: App
    screen: Screen
    process: ScriptedProcess
    walk_id: str

    async def press(self) -> None:
        """Begin to hold the zone, a moment after whatever was before."""
        self.depot.clock.wait(1.0)
        touched = {"l": {"x": 9, "y": 9}, "g": {"x": 9, "y": 9}}
        await self.screen.fire(self.screen.find("talk"), "pan_down", touched)

    async def say(self, heard: str | HeardText) -> None:
        """Hold the zone and say something; let everything that follows happen."""
        await self.press()
        on_heard = self.process.on_heard
        assert on_heard is not None, "nothing can be said now"
        on_heard(clear(heard) if isinstance(heard, str) else heard)
        await self.until(lambda: "Listening…" not in self.screen.texts())

    async def answers(self, meaning: Meaning) -> None:
        """Say what makes an event of the walk, and wait for it."""
        before = len(walk_of(self.depot, self.walk_id).events)
        await self.say(PHRASES[meaning])
        await self.until(lambda: len(walk_of(self.depot, self.walk_id).events) > before)

    async def until(self, holds: Callable[[], bool]) -> None:
        """Wait for something that is done on another thread, and for what follows."""
        await self.screen.until(holds)
        for _ in range(5):
            await asyncio.sleep(0.005)
            await self.screen.settle()


def scripted(now_s: Callable[[], float]) -> tuple[AudioStreams, ScriptedProcess]:
    """Speech recognition that is installed, and the process behind them."""
    process = ScriptedProcess()
    return AudioStreams(process, installed=True, now_s=now_s), process


@dataclass
class Listening:
    """A page that remembers what its line told it."""

    told: list[object] = field(default_factory=list)
    vocabulary: Vocabulary = field(default_factory=lambda: Vocabulary(("Something is wrong",)))

    def pressed(self) -> Vocabulary:
        self.told.append("pressed")
        return self.vocabulary

    def released(self) -> None:
        self.told.append("released")

    def heard(self, heard: HeardText) -> None:
        self.told.append(heard.text)

    def joined(self) -> None:
        self.told.append("joined")

    def failed(self, why: Trouble) -> None:
        self.told.append(why)
