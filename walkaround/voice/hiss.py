"""The hiss of leaking air, made here for practice: noise without a tone that fades in and out.

Air out of a small hole is heard from about 1 kHz up (common practice, no source), so lower
frequencies are removed by the difference of neighboring samples.
"""

from __future__ import annotations

import random
from array import array
from functools import cache

from walkaround.voice.earcons import PEAK, RATE_HZ, wav

HISS_S = 2.5
_FADE_S = 0.25
_SEED = 17
"""The same noise each time."""


@cache
def hiss_wav() -> bytes:
    """Return the hiss as a WAV file: one channel, 16 bits, RATE_HZ."""
    noise = random.Random(_SEED)
    count = round(HISS_S * RATE_HZ)
    white = [noise.uniform(-1, 1) for _ in range(count + 1)]
    samples = array("h")
    for at in range(count):
        swell = min(1.0, at / RATE_HZ / _FADE_S, (count - 1 - at) / RATE_HZ / _FADE_S)
        samples.append(round(PEAK * 32767 * swell * (white[at + 1] - white[at]) / 2))
    return wav(samples)
