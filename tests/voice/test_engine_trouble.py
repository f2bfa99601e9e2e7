"""Engines that hang, flood, tear, eat and refuse to die: each costs one prompt, none the walk."""

from __future__ import annotations

import asyncio
import json
import logging
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from walkaround.voice.clips import MOST_SPOKEN_CHARS, RenderedVoice

RENDERS = """
import json, os, signal, subprocess, sys, time, wave
def render(request, samples=200):
    with wave.open(request["path"], "wb") as wav:
        wav.setparams((1, 2, 22050, 0, "NONE", ""))
        wav.writeframes(bytes(samples))
def say(reply):
    print(reply, flush=True)
for line in sys.stdin:
    request = json.loads(line)
    if "bad" in request["text"]:
{trouble}
    render(request)
    say("{{}}")
"""
"""A worker that does what it should, but for texts with the word "bad" in them."""

HANGS = "time.sleep(60)"
FLOODS_ONE_LINE = "\nwhile True: sys.stdout.write('x' * 100_000)"
FLOODS_LINES = "\nwhile True: say('{}')"
ANSWERS_TWICE = "\nrender(request)\nsay('{}')\nsay('{}')\ncontinue"
TEARS_A_WAV = "\nrender(request)\nos.truncate(request['path'], 100)\nsay('{}')\ncontinue"
EXITS = "sys.exit(0)"
HANGS_FOR_GOOD = (
    "signal.signal(signal.SIGTERM, signal.SIG_IGN)\n"
    "subprocess.Popen([sys.executable, '-c', 'import time; time.sleep(10)'])\n"
    "time.sleep(60)"
)
"""It ignores SIGTERM, and once it is killed its child still holds the pipe."""
TROUBLES = {
    name.lower(): value
    for name, value in globals().items()
    if name.isupper() and isinstance(value, str) and name not in ("RENDERS", "HANGS")
}


def worker(trouble: str) -> list[str]:
    lines = trouble.strip().splitlines()
    body = "\n".join(f"        {line}" for line in lines)
    return [sys.executable, "-c", RENDERS.format(trouble=body)]


@dataclass
class Clock:
    now_s: float = 1000.0

    def __call__(self) -> float:
        return self.now_s


@dataclass
class Voices:
    """Makes voices on workers of the test's own, and closes them."""

    folder: Path
    clock: Clock = field(default_factory=Clock)
    made: list[RenderedVoice] = field(default_factory=list)

    def __call__(self, command: list[str], timeout_s: float = 2.0) -> RenderedVoice:
        voice = RenderedVoice(self.folder, timeout_s=timeout_s, worker=command, clock=self.clock)
        self.made.append(voice)
        return voice


@pytest.fixture
def voices(tmp_path: Path) -> Iterator[Voices]:
    made = Voices(tmp_path / "sounds")
    yield made
    for voice in made.made:
        voice.close()


async def heard(voice: RenderedVoice, text: str) -> bool:
    digest = await voice.render(text, 170)
    return digest is not None and voice.file(digest) is not None


@pytest.mark.parametrize("trouble", TROUBLES.values(), ids=TROUBLES.keys())
async def test_a_worker_in_trouble_costs_one_prompt_and_the_next_ones_sound(
    voices: Voices, trouble: str
) -> None:
    voice = voices(worker(trouble))
    assert await heard(voice, "Good one")
    bad = await heard(voice, "The bad one")
    assert bad == (trouble == ANSWERS_TWICE)  # it was rendered, and then said twice
    assert [await heard(voice, f"Good {n}") for n in range(3)].count(True) >= 2
    assert await heard(voice, "Good at last")
    assert voice.trouble is None


async def test_a_text_that_hung_is_tried_again_then_rests_a_minute_and_silences_no_other(
    voices: Voices, tmp_path: Path
) -> None:
    asked = tmp_path / "asked"
    hangs_twice = (
        f"open({str(asked)!r}, 'a').write('x')\n"
        f"if os.path.getsize({str(asked)!r}) < 3: time.sleep(60)"
    )
    voice = voices(worker(hangs_twice), timeout_s=1.5)
    assert [await heard(voice, "The bad one") for _ in range(4)] == [False] * 4
    assert asked.read_text() == "xx"
    voice.render_ahead(["The bad one"], 170)
    assert await heard(voice, "A good one")
    assert asked.read_text() == "xx"
    voices.clock.now_s += 61
    assert await heard(voice, "The bad one")


async def test_a_prompt_waits_no_longer_than_its_time_whatever_is_queued(
    voices: Voices, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nine pages want nine texts at once of an engine that hangs for a minute."""
    voice = voices(worker(HANGS), timeout_s=60.0)
    monkeypatch.setattr(voice, "_patience_s", 0.5)
    async with asyncio.timeout(30.0):
        calls = [heard(voice, f"bad {n}") for n in range(9)]
        assert await asyncio.gather(*calls) == [False] * 9


@pytest.mark.parametrize("broken", ["use", "part"])
async def test_what_nobody_thought_of_leaves_the_voice_alive(
    voices: Voices, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture, broken: str
) -> None:
    voice = voices(worker(HANGS), timeout_s=5.0)
    sounds = voice._sounds

    def fail(*_: Any) -> bool:
        raise RuntimeError("out of the blue")

    with monkeypatch.context() as patch:
        if broken == "part":
            patch.setattr(sounds, "part", fail)
            assert await voice.render("Tail lamps", 170) is None
        else:
            in_thread = asyncio.get_running_loop()
            patch.setattr(sounds, "use", lambda _: _only_here(in_thread, fail))
            assert await voice.render("Tail lamps", 170) is None
    assert await heard(voice, "Stop lamps")
    assert voice.trouble is None
    assert "out of the blue" in caplog.text


def _only_here(loop: asyncio.AbstractEventLoop, fail: Callable[[], bool]) -> bool:
    """Fail in the voice's own thread, not where the page asks."""
    try:
        here = asyncio.get_running_loop()
    except RuntimeError:
        return fail()
    return here is not loop


async def test_each_trouble_is_logged_once_and_so_is_its_end(
    voices: Voices, caplog: pytest.LogCaptureFixture, tmp_path: Path
) -> None:
    """A folder that cannot be written: one notice while it lasts, and it goes on by itself."""
    blocked = tmp_path / "sounds"
    blocked.touch()
    voice = voices(worker(HANGS))
    with caplog.at_level(logging.INFO, "walkaround.voice.clips"):
        for n in range(8):
            assert not await heard(voice, f"Axle {n}")
        assert "cannot be written" in str(voice.trouble)
        blocked.unlink()
        assert not await heard(voice, "Axle 1")
        voices.clock.now_s += 61
        assert await heard(voice, "Axle 1")
    assert voice.trouble is None
    told = [record.getMessage() for record in caplog.records]
    assert len(told) == len(set(told)) == 3
    assert told[-1] == "There is a voice again"


async def test_a_strange_name_of_100_kb_cannot_stall_the_voice(voices: Voices) -> None:
    voice = voices([sys.executable, "-m", "walkaround.voice.worker"], timeout_s=8.0)
    for name in ("Pump " * 20_000, "9" * 100_000, "\ud800" * 100_000):
        await voice.render(name, 170)
        assert await heard(voice, f"Tail lamps {len(voices.made)}")
    assert voice.digest("a" * MOST_SPOKEN_CHARS, 170) == voice.digest("a" * 100_000, 170)


async def test_closing_does_not_wait_for_a_pipe_that_stays_open(voices: Voices) -> None:
    hangs = asyncio.Event()

    def told(_: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        writer.close()
        hangs.set()

    async with await asyncio.start_server(told, "127.0.0.1") as server:
        port = server.sockets[0].getsockname()[1]
        child, *_, sleep = HANGS_FOR_GOOD.splitlines()[1:]
        call = f"import socket; socket.create_connection(('127.0.0.1', {port})).close()"
        voice = voices(worker("\n".join([child, call, sleep])), timeout_s=60.0)
        waiting = asyncio.create_task(voice.render("The bad one", 170))
        await hangs.wait()
        await asyncio.to_thread(voice.close)
        assert await waiting is None
    assert any(thread.name == "speech replies" for thread in threading.enumerate())


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="Linux limits a process's memory")
def test_an_engine_that_eats_memory_is_told_that_there_is_no_more() -> None:
    eats = (
        "import walkaround.voice.worker as w\n"
        "class Eater:\n"
        "    def render(self, *_): bytearray(8 << 30)\n"
        "w.Renderer = Eater\n"
        "w.main()"
    )
    request = json.dumps({"text": "x", "rate_wpm": 170, "language": "en", "path": "/x"})
    done = subprocess.run(
        [sys.executable, "-c", eats], input=f"{request}\n{request}", capture_output=True, text=True
    )
    assert [json.loads(line) for line in done.stdout.splitlines()] == [{"error": "MemoryError"}] * 2


@pytest.mark.skipif(sys.platform == "win32", reason="there is no alarm on Windows")
def test_a_worker_whose_engine_hangs_ends_by_itself_when_nobody_kills_it() -> None:
    hangs = (
        "import time, walkaround.voice.worker as w\n"
        "class Hanger:\n"
        "    def render(self, *_): time.sleep(60)\n"
        "w.Renderer, w._LONGEST_S = Hanger, 1\n"
        "w.main()"
    )
    request = json.dumps({"text": "x", "rate_wpm": 170, "language": "en", "path": "/x"})
    done = subprocess.run([sys.executable, "-c", hangs], input=request, text=True, timeout=30)
    assert done.returncode < 0
