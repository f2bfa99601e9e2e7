"""What the long trials of spoken answers share: one press, and running them in parts.

They need the extra `recognition` and Debian's `espeak-ng`, `flite`, `festival`, `festvox-kdlpc16k`
and `festvox-us-slt-hts`. `SPOKEN_PART=2/4` runs the second quarter of the trials.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from typing import NamedTuple, TypeVar

import numpy as np
from support.workshop import HZ

from walkaround.recognition.scorer import Scorer
from walkaround.recognition.voice_detector import VoiceDetector
from walkaround.recognition.worker import Press
from walkaround.spoken_answers.heard_text import HeardText
from walkaround.spoken_answers.phrases import SCORED

CHUNK = HZ // 25
"""Samples that a phone sends at a time."""
_PART, _PARTS = map(int, os.environ.get("SPOKEN_PART", "1/1").split("/"))
Trial = TypeVar("Trial")


class Models(NamedTuple):
    """What hears: the model of speech, and the one that tells voices from noise."""

    scorer: Scorer
    voices: VoiceDetector


def heard(models: Models, sound: np.ndarray, spelled: tuple[str, ...] = ()) -> HeardText:
    """What comes of a press that begins half a second into this sound, and ends with it."""
    phone = Press(*models, SCORED, spelled)
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
            return HeardText.model_validate(found)
    return HeardText()


def of_part(each: Iterable[Trial]) -> Iterator[tuple[int, Trial]]:
    """The trials of the part that is run, each with its number among all, from 1."""
    return ((at, trial) for at, trial in enumerate(each, 1) if at % _PARTS == _PART % _PARTS)
