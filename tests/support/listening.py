"""A speech recogniser's ears: sound files as it takes them."""

from __future__ import annotations

import wave
from pathlib import Path

import numpy as np
from pocketsphinx import Decoder

LISTENS_AT_HZ = 16_000


def _samples(path: Path) -> bytes:
    """Resample to the listener's rate, with a little noise: it trips over digital silence."""
    with wave.open(str(path)) as wav:
        rate_hz = wav.getframerate()
        samples = np.frombuffer(wav.readframes(wav.getnframes()), "<i2")
    seconds = len(samples) / rate_hz
    wanted = round(seconds * LISTENS_AT_HZ)
    spectrum = np.fft.rfft(samples)[: wanted // 2 + 1]
    resampled = np.fft.irfft(spectrum, wanted) * wanted / len(samples)
    padded = np.pad(resampled, LISTENS_AT_HZ // 4)
    noise = np.random.default_rng(1).normal(0.0, 8.0, padded.size)
    return np.clip(padded + noise, -32768, 32767).astype("<i2").tobytes()


def heard(listener: Decoder, sound: Path) -> str:
    """What a recogniser with a grammar makes of a sound file."""
    listener.start_utt()
    listener.process_raw(_samples(sound), full_utt=True)
    listener.end_utt()
    hypothesis = listener.hyp()
    return hypothesis.hypstr if hypothesis else ""
