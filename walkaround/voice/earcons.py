"""Earcons: short sounds that signal an event, made here note by note.

They differ in rhythm as well as in pitch, since a running engine may mask a pitch and some people
cannot hear high ones. No note is lower than a phone's loudspeaker can play, about 400 Hz (from
memory). Each note fades in and out, so that none begins or ends with a click.
"""

from __future__ import annotations

import io
import math
import wave
from array import array
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Literal, NamedTuple, get_args

Earcon = Literal["ok", "defect", "time", "saved", "not_saved", "unclear"]
EARCONS: tuple[Earcon, ...] = get_args(Earcon)

RATE_HZ = 22050
PEAK = 0.5
"""The loudest sample, as a share of the largest possible: as loud as speech."""
_FADE_S = 0.012
"""How long a note fades in, and how long it fades out."""
_OVERTONE = 0.3
"""The amplitude of the octave above each note, for small loudspeakers, as a share of the note's."""


class Note(NamedTuple):
    """One note; a rest if `hz` is 0."""

    hz: float
    seconds: float


def _rest(seconds: float) -> Note:
    return Note(0.0, seconds)


# One note; a long and a longer one, falling; three equal ones; a short and a longer one, rising;
# four quick ones up and down; two short ones far apart.
NOTES: Mapping[Earcon, tuple[Note, ...]] = {
    "ok": (Note(740.0, 0.11),),
    "defect": (Note(622.0, 0.16), _rest(0.05), Note(440.0, 0.3)),
    "time": (
        Note(988.0, 0.09), _rest(0.09), Note(988.0, 0.09), _rest(0.09), Note(988.0, 0.09),
    ),
    "saved": (Note(587.0, 0.06), _rest(0.03), Note(784.0, 0.18)),
    "not_saved": (
        Note(494.0, 0.06), _rest(0.04), Note(415.0, 0.06), _rest(0.04), Note(494.0, 0.06),
        _rest(0.04), Note(415.0, 0.06),
    ),
    "unclear": (Note(466.0, 0.05), _rest(0.12), Note(466.0, 0.05)),
}  # fmt: skip


def earcon_s(earcon: Earcon) -> float:
    """Return the length of this sound in seconds."""
    return sum(note.seconds for note in NOTES[earcon])


@cache
def earcon_wav(earcon: Earcon) -> bytes:
    """Return this sound as a WAV file: one channel, 16 bits, RATE_HZ."""
    samples = [sample for note in NOTES[earcon] for sample in _samples(note)]
    loudest = max(map(abs, samples))
    scaled = array("h", (round(PEAK * 32767 * sample / loudest) for sample in samples))
    return wav(scaled)


def wav(samples: array[int]) -> bytes:
    """Return samples of 16 bits as a WAV file: one channel, RATE_HZ."""
    clip = io.BytesIO()
    with wave.open(clip, "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(RATE_HZ)
        out.writeframes(samples.tobytes())
    return clip.getvalue()


def _samples(note: Note) -> Iterator[float]:
    count = round(note.seconds * RATE_HZ)
    for at in range(count):
        swell = min(1.0, at / RATE_HZ / _FADE_S, (count - 1 - at) / RATE_HZ / _FADE_S)
        turn = math.tau * note.hz * at / RATE_HZ
        yield swell * (math.sin(turn) + _OVERTONE * math.sin(2 * turn))
