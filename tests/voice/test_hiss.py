"""The hiss of practice, measured in its file: length, loudness, and that it has no tone."""

from __future__ import annotations

import io
import wave

import numpy as np

from walkaround.voice.earcons import RATE_HZ
from walkaround.voice.hiss import HISS_S, hiss_wav


def test_the_hiss_is_heard_is_not_clipped_and_is_no_tone() -> None:
    with wave.open(io.BytesIO(hiss_wav())) as clip:
        assert (clip.getnchannels(), clip.getsampwidth(), clip.getframerate()) == (1, 2, RATE_HZ)
        heard = np.frombuffer(clip.readframes(clip.getnframes()), "<i2") / 32768
    assert len(heard) / RATE_HZ == HISS_S
    assert 0.3 < np.abs(heard).max() <= 0.51
    middle = heard[RATE_HZ // 2 : 3 * RATE_HZ // 2]
    assert 0.1 < np.sqrt((middle**2).mean()) < 0.3
    assert np.abs(heard[:20]).max() < 0.01
    assert np.abs(heard[-20:]).max() < 0.01
    power = np.abs(np.fft.rfft(middle)) ** 2
    assert power.max() / power.sum() < 0.01
    hz = np.fft.rfftfreq(len(middle), 1 / RATE_HZ)
    assert power[hz > 2000].sum() > 0.8 * power.sum()
