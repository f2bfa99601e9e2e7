"""Noise of a workshop, made by arithmetic, and speech in it at a ratio that is set.

A compressor that hums and rumbles, air that hisses in bursts, hammer blows that ring, an impact
gun. Ratios are of the power between 300 and 4,000 Hz while somebody speaks, as ITU-T P.56 takes the
active part of speech.

On the mean of many seeds no octave from 63 to 4,000 Hz has 5 dB less or 3 dB more than that around
1,000 Hz. That is nearly pink noise, equal in every octave, which 40 CFR 211 subpart B takes for the
noise at a place of work that nobody measured (from memory). Octaves measured in a workshop were not
found; its treble, air and tools, is on the loud side rather than on the soft.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from scipy.signal import butter, fftconvolve, sosfilt

HZ = 16_000
_SPEECH = butter(4, [300, 4000], "bandpass", fs=HZ, output="sos")
_RUMBLE = butter(4, [60, 1500], "bandpass", fs=HZ, output="sos")
_HISS = butter(3, 1500, "highpass", fs=HZ, output="sos")


def noise(seconds: float, seed: int) -> np.ndarray:
    """So much of a workshop, another one for each seed; of power 1 in the band of speech."""
    chance = np.random.default_rng(seed)
    count = round(seconds * HZ)
    shares = chance.dirichlet([2.0, 2.0, 2.0, 1.0])
    parts: tuple[Callable[[int, np.random.Generator], np.ndarray], ...]
    parts = _compressor, _air, _blows, _gun
    mixed = sum(share * part(count, chance) for share, part in zip(shares, parts, strict=True))
    return np.asarray(mixed / np.sqrt(np.mean(sosfilt(_SPEECH, mixed) ** 2)), np.float32)


def spoken_in_noise(speech: np.ndarray, ratio_db: float, seed: int) -> np.ndarray:
    """Speech with silence before and after it, in a workshop that is so much softer."""
    quiet = np.zeros(HZ, np.float32)
    sound = np.concatenate([quiet, speech, quiet])
    frames = sosfilt(_SPEECH, sound)[: len(sound) // 320 * 320].reshape(-1, 320)
    power = (frames**2).mean(1)
    active = float(power[power > power.max() * 1e-3].mean())
    level = np.sqrt(active / 10 ** (ratio_db / 10))
    heard = sound + noise(len(sound) / HZ, seed)[: len(sound)] * level
    return np.asarray(heard / np.abs(heard).max() * 0.7, np.float32)


def _even(sound: np.ndarray) -> np.ndarray:
    return sound / (float(np.std(sound)) + 1e-9)


def _compressor(count: int, chance: np.random.Generator) -> np.ndarray:
    time = np.arange(count) / HZ
    hz = chance.uniform(28, 31)
    hum = np.zeros(count)
    for harmonic in range(1, 24):
        phase, loud = chance.uniform(0, 6.3), chance.uniform(0.3, 1.0) / harmonic**0.7
        hum += loud * np.sin(2 * np.pi * hz * harmonic * time + phase)
    strokes = 1 + 0.6 * np.sin(np.pi * hz * time)
    return _even(hum) + 0.9 * _even(sosfilt(_RUMBLE, chance.standard_normal(count)) * strokes)


def _air(count: int, chance: np.random.Generator) -> np.ndarray:
    loud, at = np.full(count, 0.3), 0
    while at < count:
        at += int(chance.exponential(2.5) * HZ)
        end = at + int(chance.uniform(0.2, 2.0) * HZ)
        loud[at:end], at = 1.5, end
    return _even(sosfilt(_HISS, chance.standard_normal(count))) * loud


def _blows(count: int, chance: np.random.Generator) -> np.ndarray:
    sound, at = np.zeros(count + HZ), int(chance.exponential(0.6) * HZ)
    time = np.arange(HZ // 4) / HZ
    while at < count:
        ring = chance.standard_normal(len(time)) * np.exp(-200 * time) * 2
        for hz in chance.uniform(400, 5000, 5):
            fades = np.exp(-time * chance.uniform(15, 60))
            ring += chance.uniform(0.3, 1.0) * np.sin(2 * np.pi * hz * time) * fades
        sound[at : at + len(time)] += ring * chance.uniform(0.4, 2.0)
        at += int(chance.exponential(0.6) * HZ) + 1
    return _even(sound[:count])


def _gun(count: int, chance: np.random.Generator) -> np.ndarray:
    clicks, at = np.zeros(count), int(chance.exponential(2.0) * HZ)
    while at < count:
        end = min(count, at + int(chance.uniform(0.4, 2.0) * HZ))
        hits = np.arange(at, end, int(HZ / chance.uniform(18, 28)))
        clicks[hits] = chance.uniform(0.7, 1.3, len(hits))
        at = end + int(chance.exponential(4.0) * HZ)
    time = np.arange(int(0.04 * HZ)) / HZ
    rings = np.sin(2 * np.pi * 900 * time) + np.sin(2 * np.pi * 2300 * time)
    rings += 0.7 * chance.standard_normal(len(time))
    return _even(fftconvolve(clicks, rings * np.exp(-90 * time))[:count])
