"""Sounds of our own are told apart by rhythm and by pitch; measured in the files themselves.

Loudness is taken from the samples, pitch from their spectrum (numpy's FFT).
"""

from __future__ import annotations

import io
import wave
from itertools import combinations

import numpy as np
import pytest
from numpy.typing import NDArray

from walkaround.voice.earcons import EARCONS, NOTES, RATE_HZ, Earcon, earcon_s, earcon_wav

FRAME_S = 0.01
each_earcon = pytest.mark.parametrize("earcon", EARCONS)


def samples(earcon: Earcon) -> NDArray[np.float64]:
    with wave.open(io.BytesIO(earcon_wav(earcon))) as clip:
        assert (clip.getnchannels(), clip.getsampwidth(), clip.getframerate()) == (1, 2, RATE_HZ)
        return np.frombuffer(clip.readframes(clip.getnframes()), "<i2") / 32768


def rhythm(earcon: Earcon) -> list[tuple[int, int]]:
    """When sound begins and ends, in hundredths of a second."""
    frame = round(FRAME_S * RATE_HZ)
    heard = samples(earcon)
    frames = heard[: len(heard) // frame * frame].reshape(-1, frame)
    on = np.concatenate([[0], (np.abs(frames).max(axis=1) > 0.02).astype(int), [0]])
    turns = np.flatnonzero(np.diff(on)).tolist()
    return list(zip(turns[::2], turns[1::2], strict=True))


def pitches(earcon: Earcon) -> list[float]:
    """The strongest frequency of each stretch of sound, Hz."""
    heard, frame, found = samples(earcon), round(FRAME_S * RATE_HZ), []
    for begins, ends in rhythm(earcon):
        note = heard[begins * frame : ends * frame]
        spectrum = np.abs(np.fft.rfft(note * np.hanning(len(note)), 2**16))
        found.append(float(spectrum.argmax()) * RATE_HZ / 2**16)
    return found


@each_earcon
def test_a_sound_is_short_as_loud_as_speech_and_does_not_click(earcon: Earcon) -> None:
    heard = samples(earcon)
    assert len(heard) / RATE_HZ == pytest.approx(earcon_s(earcon), abs=0.001)
    assert 0.1 <= earcon_s(earcon) <= 0.6
    assert np.abs(heard).max() == pytest.approx(0.5, abs=0.001)
    assert abs(heard[0]) < 0.001
    assert abs(heard[-1]) < 0.001
    # From one sample to the next no more than the highest overtone needs.
    assert np.abs(np.diff(heard)).max() < 0.5 * 2 * np.pi * 2 * 1000 / RATE_HZ


@each_earcon
def test_a_sound_has_the_notes_that_are_written(earcon: Earcon) -> None:
    written = [note.hz for note in NOTES[earcon] if note.hz]
    assert pitches(earcon) == pytest.approx(written, rel=0.04)
    assert min(written) >= 400


@pytest.mark.parametrize(("one", "other"), [*combinations(EARCONS, 2)])
def test_two_sounds_differ_in_rhythm_and_in_pitch(one: Earcon, other: Earcon) -> None:
    """By the number of their notes, or how long the longest is; by half a tone or more."""
    longest = [max(ends - begins for begins, ends in rhythm(each)) for each in (one, other)]
    count = [len(rhythm(each)) for each in (one, other)]
    assert count[0] != count[1] or abs(longest[0] - longest[1]) >= 5
    first, second = (pitches(each)[0] for each in (one, other))
    assert abs(np.log2(first / second)) > 1 / 12
