"""How long one prompt takes to render, against the `espeak-ng` command line on the same text.

Each of ours goes the whole way: asked for, said in words, rendered in the worker, checked, kept.
The command line starts anew for each text, as a program without a worker would.
"""

import shutil
import statistics
import subprocess
import time
from pathlib import Path

import pytest
from benchmarks.conftest import Rounds

from walkaround.voice.clips import RenderedVoice
from walkaround.words.pronunciation import pronounced

PROMPTS = [f"Axle {n}: charge the supply line to 110 psi and chock the wheels" for n in range(20)]
RATE_WPM = 170


def _espeak_s(text: str, path: Path) -> float:
    start = time.perf_counter()
    subprocess.run(
        ["espeak-ng", "-v", "en-us", "-s", str(RATE_WPM), "-w", str(path), pronounced(text)],
        check=True,
    )
    return time.perf_counter() - start


async def _ours_s(voice: RenderedVoice, text: str) -> float:
    start = time.perf_counter()
    assert await voice.render(pronounced(text), RATE_WPM) is not None
    return time.perf_counter() - start


@pytest.mark.skipif(shutil.which("espeak-ng") is None, reason="espeak-ng is not installed")
async def test_time_to_render_a_prompt(tmp_path: Path, rounds: Rounds) -> None:
    prompts = PROMPTS[: rounds(len(PROMPTS), 2)]
    voice = RenderedVoice(tmp_path / "sounds")
    first = await _ours_s(voice, "Begin")
    ours = [await _ours_s(voice, text) for text in prompts]
    again = [await _ours_s(voice, text) for text in prompts]
    voice.close()
    theirs = [_espeak_s(text, tmp_path / "theirs.wav") for text in prompts]
    ratio = statistics.median(ours) / statistics.median(theirs)
    print(
        f"\nrender a prompt: median {1e3 * statistics.median(ours):.1f} ms, "
        f"p95 {1e3 * statistics.quantiles(ours, n=20)[-1]:.1f} ms, "
        f"with the worker's start {1e3 * first:.0f} ms, "
        f"kept {1e3 * statistics.median(again):.2f} ms; "
        f"espeak-ng command line {1e3 * statistics.median(theirs):.1f} ms; ratio {ratio:.2f}"
    )
