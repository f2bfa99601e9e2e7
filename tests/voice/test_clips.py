"""The voice: what is heard, what is kept, and what happens when the engine fails.

How long speech lasts is checked against its rate: words per minute, by definition.
"""

import asyncio
import sys
import wave
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from support.english import ENGLISH
from support.plans import shipped_plans

from walkaround.settings import RATES_WPM
from walkaround.voice.clips import RenderedVoice
from walkaround.words.prompts import prompt

PROMPT = "Chock both sides of one wheel"
HANGS = [sys.executable, "-c", "import time; time.sleep(60)"]
CRASHES = [sys.executable, "-c", "raise SystemExit(3)"]
HANGS_ONCE = """
import pathlib, runpy, sys, time
been_here = pathlib.Path(sys.argv[1])
if not been_here.exists():
    been_here.touch()
    time.sleep(60)
runpy.run_module("walkaround.voice.worker", run_name="__main__")
"""


@pytest.fixture
def voice(tmp_path: Path) -> Iterator[RenderedVoice]:
    rendered = RenderedVoice(tmp_path)
    yield rendered
    rendered.close()


async def _samples(voice: RenderedVoice, text: str, rate_wpm: int = 170) -> np.ndarray:
    digest = await voice.render(text, rate_wpm)
    assert digest is not None
    path = voice.file(digest)
    assert path is not None
    with wave.open(str(path)) as wav:
        assert (wav.getframerate(), wav.getnchannels(), wav.getsampwidth()) == (22050, 1, 2)
        return np.frombuffer(wav.readframes(wav.getnframes()), "<i2").astype(float)


async def test_a_prompt_can_be_heard_from_its_start(voice: RenderedVoice) -> None:
    samples = await _samples(voice, PROMPT)
    loud = np.flatnonzero(np.abs(samples) > 1000)
    assert loud.size > 1000
    assert loud[0] < 0.15 * 22050


@pytest.mark.parametrize("rate_wpm", [130, 170, 230])
async def test_a_prompt_lasts_as_long_as_its_words_take(
    voice: RenderedVoice, rate_wpm: int
) -> None:
    text = (
        "Stand at the rear of the trailer, look at both tail lamps and the plate lamp, and say "
        "whether each one of them is lit as bright as the one on the other side."
    )
    expected_s = len(text.split()) / rate_wpm * 60
    assert len(await _samples(voice, text, rate_wpm)) / 22050 == pytest.approx(expected_s, rel=0.35)


@pytest.mark.parametrize(
    ("vehicle_id", "together"), [("sandbag_semitrailer_7", True), ("pump_trailer_3", False)]
)
async def test_each_prompt_of_a_walk_sounds_as_long_as_its_words_take(
    voice: RenderedVoice, vehicle_id: str, together: bool
) -> None:
    """Half and double allow for long words and for pauses."""
    rate_wpm = max(RATES_WPM)
    plan = shipped_plans(together)[vehicle_id]
    for step in plan.steps:
        text = ENGLISH.spoken(prompt(step, plan.power, "short", ENGLISH).say)
        samples = await _samples(voice, text, rate_wpm)
        seconds, words_s = len(samples) / 22050, len(text.split()) / rate_wpm * 60
        assert 0.5 < seconds / words_s < 2.0, step.id
        assert np.sqrt(np.mean(np.square(samples))) > 500, step.id


async def test_a_long_text_is_whole_when_it_is_ready(voice: RenderedVoice) -> None:
    one = len(await _samples(voice, f"{PROMPT}."))
    forty = len(await _samples(voice, " ".join([f"{PROMPT}."] * 40)))
    assert forty > 35 * one - 40 * 22050 * 0.5  # pauses between sentences vary


async def test_sixty_prompts_in_a_row_all_sound(voice: RenderedVoice) -> None:
    lengths = [len(await _samples(voice, f"Axle {n}, left side")) for n in range(60)]
    assert min(lengths) > 22050
    assert voice.trouble is None


async def test_a_second_time_needs_no_engine(voice: RenderedVoice, tmp_path: Path) -> None:
    digest = await voice.render(PROMPT, 170)
    engineless = RenderedVoice(tmp_path, worker=["/no/such/program"])
    assert await engineless.render(PROMPT, 170) == digest
    engineless.close()


async def test_text_and_rate_name_the_sound(voice: RenderedVoice) -> None:
    digests = {
        voice.digest("Tail lamps", 170),
        voice.digest("Tail lamp", 170),
        voice.digest("Tail lamps", 171),
    }
    assert len(digests) == 3
    assert await voice.render("Tail lamps", 170) in digests


@pytest.mark.parametrize("damage", [b"", b"RIFF", bytes(60_000)])
async def test_a_damaged_file_is_rendered_again(voice: RenderedVoice, damage: bytes) -> None:
    whole = len(await _samples(voice, PROMPT))
    path = voice.file(voice.digest(PROMPT, 170))
    assert path is not None
    path.write_bytes(damage)
    assert voice.file(path.stem) is None
    assert len(await _samples(voice, PROMPT)) == pytest.approx(whole, rel=0.01)


async def test_a_file_cut_short_is_not_served(voice: RenderedVoice) -> None:
    await voice.render(PROMPT, 170)
    path = voice.file(voice.digest(PROMPT, 170))
    assert path is not None
    path.write_bytes(path.read_bytes()[:-2])
    assert voice.file(path.stem) is None


@pytest.mark.parametrize(
    "digest", ["../x", "", "a" * 63, "A" * 64, "a" * 64 + "\n", f"../{'a' * 61}", "/etc/passwd"]
)
def test_only_a_digest_names_a_file(voice: RenderedVoice, digest: str) -> None:
    assert voice.file(digest) is None


@pytest.mark.parametrize("text", ["", "   ", "...", "\x00"])
async def test_a_text_without_words_has_no_sound_and_no_trouble(
    voice: RenderedVoice, text: str
) -> None:
    voice.render_ahead([text], 170)
    assert await voice.render(text, 170) is None
    assert await voice.render(PROMPT, 170) is not None
    assert voice.trouble is None


def test_one_voice_serves_one_event_loop_after_another(voice: RenderedVoice) -> None:
    first = asyncio.run(voice.render("Tail lamps", 170))
    second = asyncio.run(voice.render("Stop lamps", 170))
    assert first is not None
    assert second is not None


# Failures


def _answering(reply: str) -> list[str]:
    script = "import sys\nfor line in sys.stdin: print(sys.argv[1], flush=True)"
    return [sys.executable, "-c", script, reply]


async def test_a_hung_worker_costs_one_prompt_and_is_replaced(tmp_path: Path) -> None:
    worker = [sys.executable, "-c", HANGS_ONCE, str(tmp_path / "been_here")]
    voice = RenderedVoice(tmp_path / "sounds", timeout_s=3.0, worker=worker)
    assert await voice.render(PROMPT, 170) is None
    assert voice.trouble is None
    assert await voice.render(PROMPT, 170) is not None
    voice.close()


@pytest.mark.parametrize(
    ("worker", "why"),
    [
        (HANGS, "did not answer"),
        (CRASHES, "stopped"),
        (["/no/such/program"], "No such file"),
        (_answering("hello"), "no answer"),
        (_answering("{}"), "no sound"),
        (_answering('{"error": "no voice"}'), "no voice"),
    ],
)
async def test_an_engine_that_never_works_is_told_in_one_sentence(
    tmp_path: Path, worker: list[str], why: str
) -> None:
    timeout_s = 0.3 if worker is HANGS else 30.0
    voice = RenderedVoice(tmp_path, timeout_s=timeout_s, worker=worker, clock=lambda: 0.0)
    assert [await voice.render(f"Axle {n}", 170) for n in range(3)] == [None] * 3
    assert voice.trouble is not None
    assert str(voice.trouble).startswith("No voice: ")
    assert why in str(voice.trouble)
    assert str(voice.trouble).endswith("; the words are on the screen.")
    assert list(tmp_path.glob("*")) == []
    voice.close()


async def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    voice = RenderedVoice(tmp_path / "file" / "sounds")
    for n in range(3):
        assert await voice.render(f"Axle {n}", 170) is None
    assert "cannot be written" in str(voice.trouble)
    voice.close()


async def test_after_three_failures_it_rests_for_a_minute(tmp_path: Path) -> None:
    now = 1000.0
    starts = tmp_path / "starts"
    script = "import sys; open(sys.argv[1], 'a').write('x')"
    worker = [sys.executable, "-c", script, str(starts)]
    voice = RenderedVoice(tmp_path / "sounds", worker=worker, clock=lambda: now)
    for n in range(6):
        assert await voice.render(f"Axle {n}", 170) is None
    assert starts.read_text() == "xxx"
    now += 61
    for n in range(6):
        assert await voice.render(f"Axle {n}", 170) is None
    assert starts.read_text() == "xxxx"
    voice.close()
