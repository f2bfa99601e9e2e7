"""In which order the voice renders, seen by an engine that renders when the test lets it."""

import asyncio
import sys
from collections.abc import AsyncIterator
from pathlib import Path

import pytest_asyncio

from walkaround.voice.clips import RenderedVoice

SLOW_ENGINE = """
import json, socket, sys, wave
for line in sys.stdin:
    request = json.loads(line)
    with socket.create_connection(("127.0.0.1", int(sys.argv[1]))) as test:
        test.sendall(request["text"].encode() + b"\\n")
        assert test.recv(1)
    with wave.open(request["path"], "wb") as wav:
        wav.setparams((1, 2, 22050, 0, "NONE", ""))
        wav.writeframes(bytes(200))
    print("{}", flush=True)
"""


class SlowEngine:
    """Tells which text is being rendered, and lets the engine go on."""

    def __init__(self) -> None:
        self._asked: asyncio.Queue[tuple[str, asyncio.StreamWriter]] = asyncio.Queue()

    async def heard(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        await self._asked.put(((await reader.readline()).decode().strip(), writer))

    async def begins(self) -> tuple[str, asyncio.StreamWriter]:
        return await self._asked.get()

    async def renders(self) -> str:
        text, writer = await self.begins()
        await self.ends(writer)
        return text

    async def ends(self, writer: asyncio.StreamWriter) -> None:
        writer.write(b".")
        writer.close()
        await writer.wait_closed()


@pytest_asyncio.fixture
async def slow(tmp_path: Path) -> AsyncIterator[tuple[SlowEngine, RenderedVoice]]:
    engine = SlowEngine()
    server = await asyncio.start_server(engine.heard, "127.0.0.1")
    port = server.sockets[0].getsockname()[1]
    voice = RenderedVoice(tmp_path, worker=[sys.executable, "-c", SLOW_ENGINE, str(port)])
    yield engine, voice
    voice.close()
    server.close()
    await server.wait_closed()


async def test_two_calls_for_one_text_render_it_once(
    slow: tuple[SlowEngine, RenderedVoice],
) -> None:
    engine, voice = slow
    calls = [asyncio.create_task(voice.render("one", 170)) for _ in range(2)]
    assert await engine.renders() == "one"
    assert await calls[0] == await calls[1] == voice.digest("one", 170)
    last = asyncio.create_task(voice.render("last", 170))
    assert await engine.renders() == "last"
    await last


async def test_what_is_wanted_now_goes_before_what_is_queued(
    slow: tuple[SlowEngine, RenderedVoice],
) -> None:
    engine, voice = slow
    voice.render_ahead(["one", "two", "three"], 170)
    _, first = await engine.begins()
    now = asyncio.create_task(voice.render("now", 170))
    three = asyncio.create_task(voice.render("three", 170))
    await asyncio.sleep(0)
    await engine.ends(first)
    assert [await engine.renders() for _ in range(3)] == ["now", "three", "two"]
    assert await now is not None
    assert await three is not None


async def test_a_text_under_way_is_not_rendered_again(
    slow: tuple[SlowEngine, RenderedVoice],
) -> None:
    engine, voice = slow
    voice.render_ahead(["one"], 170)
    _, first = await engine.begins()
    one = asyncio.create_task(voice.render("one", 170))
    await asyncio.sleep(0)
    await engine.ends(first)
    assert await one == voice.digest("one", 170)


async def test_a_new_queue_replaces_the_old(slow: tuple[SlowEngine, RenderedVoice]) -> None:
    engine, voice = slow
    voice.render_ahead(["one", "two"], 170)
    _, first = await engine.begins()
    voice.render_ahead(["three"], 170)
    await engine.ends(first)
    assert await engine.renders() == "three"


async def test_who_gives_up_waiting_takes_nobody_else_along(
    slow: tuple[SlowEngine, RenderedVoice],
) -> None:
    engine, voice = slow
    calls = [asyncio.create_task(voice.render("one", 170)) for _ in range(2)]
    _, writer = await engine.begins()
    calls[0].cancel()
    await engine.ends(writer)
    assert await calls[1] is not None
    assert calls[0].cancelled()


async def test_closing_ends_what_is_under_way(slow: tuple[SlowEngine, RenderedVoice]) -> None:
    engine, voice = slow
    calls = [asyncio.create_task(voice.render(text, 170)) for text in ("one", "two")]
    _, writer = await engine.begins()
    voice.close()
    assert await asyncio.gather(*calls) == [None, None]
    assert await voice.render("three", 170) is None
    voice.render_ahead(["four"], 170)
    writer.close()
