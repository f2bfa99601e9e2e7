"""A whole walk by voice: real screens, the real process that hears, words from other engines.

What may be answered so is said into the line of a page, in a workshop at 20 dB; the rest is
answered on another page. Needs what `support/spoken_trials.py` names.
"""

from __future__ import annotations

import asyncio
import time
from itertools import count
from pathlib import Path

import pytest
from browser.seeds import answer
from support.app import App, app
from support.flet_harness import Screen
from support.talkers import OTHERS, missing, says
from support.workshop import HZ, spoken_in_noise

from walkaround.plan.steps import Step
from walkaround.recognition.audio_streams import AudioStream, AudioStreams
from walkaround.recognition.process import HearingProcess, is_installed
from walkaround.spoken_answers.phrases import PHRASES
from walkaround.ui.taps.microphone import TICKET_KEY
from walkaround.walk.events import Answered
from walkaround.walk.state import Walk

pytestmark = [
    pytest.mark.soak,
    pytest.mark.skipif(
        bool(missing()) or not is_installed(), reason=f"the extra `recognition`, or {missing()}"
    ),
]

CHUNK = HZ // 25
TRIES = 4


def walk_of(depot: App, walk_id: str) -> Walk:
    return depot.parts.open_walks.walk(walk_id)


async def say(stream: AudioStream, text: str, seed: int) -> None:
    """Hold the button, say this, let go; the sound comes as fast as it is taken."""
    talker = OTHERS[seed % len(OTHERS)]
    sound = (spoken_in_noise(says(talker, text), 20.0, seed) * 32767).astype("<i2").tobytes()
    stream.sound(sound[: HZ // 2])
    stream.hold(True)
    for at in range(HZ // 2, len(sound), 2 * CHUNK):
        stream.sound(sound[at : at + 2 * CHUNK])
        await asyncio.sleep(0)
    stream.hold(False)
    for _ in range(25):
        stream.sound(b"\0" * 2 * CHUNK)


async def told(
    depot: App, screen: Screen, walk_id: str, stream: AudioStream, step: Step, seed: int
) -> int:
    """Say that all is well until it is understood; gives how often it had to be said."""
    before = len(walk_of(depot, walk_id).events)
    for tries in range(1, TRIES + 1):
        await screen.until(lambda: screen.has("talk") and not screen.has("listen"))
        depot.clock.wait(1.0)
        await say(stream, PHRASES["ok"], seed * TRIES + tries)
        await screen.until(
            lambda: (
                len(walk_of(depot, walk_id).events) > before
                or any("Not understood" in text for text in screen.texts())
            )
        )
        await screen.settle()
        if len(walk_of(depot, walk_id).events) > before:
            return tries
    raise AssertionError(f"{step.id} was not understood")


async def test_a_whole_lamp_walk_is_spoken(tmp_path: Path) -> None:
    # Each look at its clock is long after the last clip.
    recognition = AudioStreams(HearingProcess(), installed=True, now_s=count(0.0, 100.0).__next__)
    spoken, said, tapped, began_s = 0, 0, 0, time.monotonic()
    async with app(tmp_path, recognition=recognition) as depot:
        depot.parts.store.change_settings({"who": "Kim", "talk": True})
        walk_id = depot.begin("sandbag_semitrailer_7", scope="lamps")
        async with depot.page(f"/walk/{walk_id}") as screen:
            sets = [call.args for call in screen.invoked if call.method == "set"]
            named = next(args["value"] for args in sets if args["key"] == TICKET_KEY)
            stream = recognition.stream(named)
            assert stream is not None
            stream.joined()
            while (step := walk_of(depot, walk_id).here) is not None:
                if not step.hands_free:
                    answer(depot.parts, walk_id, step)
                    tapped += 1
                    await screen.settle()
                    continue
                said += await told(depot, screen, walk_id, stream, step, spoken)
                last = walk_of(depot, walk_id).events[-1]
                assert isinstance(last, Answered)
                assert (last.step, last.answer, last.by) == (step.id, "ok", "voice")
                spoken += 1
    took_s = time.monotonic() - began_s
    print(f"\n{spoken} steps spoken, said {said} times, {tapped} tapped, {took_s:.0f} s")
    assert spoken > 5
    assert said <= 1.5 * spoken
