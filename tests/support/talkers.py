"""Voices that say phrases: three engines of Debian's, none of them the one that prompts are set in.

`espeak-ng`, `flite` and `festival` with `festvox-kdlpc16k` and `festvox-us-slt-hts`. The bounds of
`spoken.heard_text` were set on the voices of `SET_ON`; `OTHERS` are tried.
"""

from __future__ import annotations

import shutil
import subprocess
import wave
from functools import cache
from math import gcd
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

import numpy as np
from scipy.signal import resample_poly
from support.workshop import HZ


class Talker(NamedTuple):
    """One voice: its engine, its name there, its pace as that engine tells it, its pitch."""

    engine: str
    voice: str
    pace: float
    pitch: int = 50


SET_ON = (
    Talker("espeak-ng", "en-us+m3", 160),
    Talker("espeak-ng", "en-us+f2", 170, 55),
    Talker("espeak-ng", "en-gb+m1", 150, 45),
    Talker("espeak-ng", "en-us+f4", 150, 60),
    Talker("flite", "kal16", 1.0),
    Talker("flite", "slt", 1.0),
    Talker("flite", "rms", 0.9),
    Talker("festival", "kal_diphone", 1.0),
)
OTHERS = (
    Talker("festival", "ked_diphone", 1.0),
    Talker("festival", "ked_diphone", 1.2),
    Talker("festival", "cmu_us_slt_arctic_hts", 1.0),
    Talker("festival", "cmu_us_slt_arctic_hts", 0.85),
    Talker("flite", "awb", 1.0),
    Talker("flite", "awb", 1.15),
    Talker("flite", "rms", 1.15),
    Talker("flite", "kal", 1.0),
    Talker("espeak-ng", "en-us+m5", 145, 40),
    Talker("espeak-ng", "en-us+f3", 165, 70),
    Talker("espeak-ng", "en-029+m2", 150),
    Talker("espeak-ng", "en-gb-scotland+m7", 155),
    Talker("espeak-ng", "en-gb-x-rp+f5", 150, 60),
)
ENGINES = {"espeak-ng": "espeak-ng", "flite": "flite", "festival": "text2wave"}


def missing() -> list[str]:
    """The engines that this machine lacks."""
    return [name for name, program in ENGINES.items() if shutil.which(program) is None]


@cache
def says(talker: Talker, text: str) -> np.ndarray:
    """What this voice makes of a text: samples from -1 to 1, 16,000 a second, cut to the voice."""
    with TemporaryDirectory() as folder:
        clip = Path(folder) / "said.wav"
        command, typed = _command(talker, text, str(clip))
        subprocess.run(command, input=typed.encode(), capture_output=True, check=True)
        samples = read(clip)
    loud = np.flatnonzero(np.abs(samples) > 0.01 * np.abs(samples).max())
    return samples[max(0, loud[0] - 800) : loud[-1] + 800]


def read(path: Path) -> np.ndarray:
    """A clip, at the rate that phones are heard at."""
    with wave.open(str(path)) as clip:
        rate, sound = clip.getframerate(), np.frombuffer(clip.readframes(10**9), "<i2")
    shared = gcd(rate, HZ)
    samples = sound.astype(np.float32) / 32768.0
    return np.asarray(resample_poly(samples, HZ // shared, rate // shared), np.float32)


def _command(talker: Talker, text: str, clip: str) -> tuple[list[str], str]:
    match talker.engine:
        case "espeak-ng":
            tune = ["-s", f"{talker.pace:g}", "-p", str(talker.pitch)]
            return ["espeak-ng", "-v", talker.voice, *tune, "-w", clip, text], ""
        case "flite":
            pace = ["--setf", f"duration_stretch={talker.pace}"]
            return ["flite", "-voice", talker.voice, *pace, "-t", text, "-o", clip], ""
        case _:
            pace = ["-eval", f"(Parameter.set 'Duration_Stretch {talker.pace})"]
            return ["text2wave", "-eval", f"(voice_{talker.voice})", *pace, "-o", clip], text
