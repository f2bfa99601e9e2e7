"""The socket of a phone that is talked to: behind the gate, and by a ticket of its own."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
import websockets
from browser.serving import running
from support.scripted_recognition import Listening, ScriptedProcess
from support.voices import SilentVoice

from walkaround.access.admission import cookie_name, cookie_value
from walkaround.access.gate import DROPPED
from walkaround.access.pairing import Pairing
from walkaround.bootstrap import build
from walkaround.recognition.audio_streams import AudioStream, AudioStreams
from walkaround.recognition.frames import BYTES_A_SECOND
from walkaround.web.server import asgi
from walkaround.web.voice_socket import UNKNOWN

CHUNK = b"\1\0" * 640


@dataclass
class Served:
    """A running server with one line, and what is behind it."""

    address: str
    pairing: Pairing
    recognition: AudioStreams
    stream: AudioStream
    page: Listening
    process: ScriptedProcess

    def phone(self, ticket: str, cookie: str | None = None) -> websockets.connect:
        cookie = cookie_value(self.pairing.key) if cookie is None else cookie
        return websockets.connect(
            f"{self.address.replace('http', 'ws')}microphone/{ticket}",
            origin=websockets.Origin(self.address.rstrip("/")),
            additional_headers={"cookie": f"{cookie_name('http')}={cookie}"} if cookie else {},
        )


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    data = tmp_path / "data"
    page, process = Listening(), ScriptedProcess()
    recognition = AudioStreams(process, installed=True)
    parts = build(data, voice=SilentVoice(), recognition=recognition, open_at="http://127.0.0.1:1/")
    assert parts.pairing is not None
    try:
        with running(asgi(parts)) as address:
            yield Served(address, parts.pairing, recognition, recognition.open(page), page, process)
    finally:
        parts.close()


async def until(holds: Callable[[], bool]) -> None:
    """Wait for what the server does in its own thread."""
    async with asyncio.timeout(20):
        while not holds():
            await asyncio.sleep(0.01)


async def test_a_phone_is_heard_by_its_ticket_while_its_button_is_held(served: Served) -> None:
    async with served.phone(served.stream.ticket) as phone:
        await phone.send(json.dumps({"joined": True}))
        await phone.send(CHUNK)
        await phone.send(json.dumps({"held": True}))
        await phone.send(CHUNK)
        await phone.send(json.dumps({"held": False}))
        await until(lambda: "released" in served.page.told)
        assert served.page.told == ["joined", "pressed", "released"]
        assert served.process.done == ["begun", "released"]
        assert (served.process.before, served.process.sound_bytes) == (CHUNK, len(CHUNK))
        await phone.send(json.dumps({"trouble": "refused"}))
        await until(lambda: served.page.told[-1] == "refused")


async def test_nothing_is_heard_while_the_phone_says_that_it_plays(served: Served) -> None:
    async with served.phone(served.stream.ticket) as phone:
        await phone.send(json.dumps({"playing": True}))
        await phone.send(json.dumps({"held": True}))
        await phone.send(CHUNK)
        await phone.send(json.dumps({"joined": True}))
        await until(lambda: "joined" in served.page.told)
        assert served.process.done == []


@pytest.mark.parametrize("cookie", ["", "guessed"])
async def test_a_stranger_is_refused_even_with_a_ticket(served: Served, cookie: str) -> None:
    with pytest.raises(websockets.InvalidStatus) as refused:
        async with served.phone(served.stream.ticket, cookie):
            pass
    assert refused.value.response.status_code == 401
    assert served.page.told == []


async def test_a_ticket_that_nobody_gave_ends_the_socket(served: Served) -> None:
    async with served.phone("guessed") as phone:
        await phone.wait_closed()
        assert phone.close_code == UNKNOWN


async def test_a_new_key_ends_the_socket_and_what_is_being_said(served: Served) -> None:
    async with served.phone(served.stream.ticket) as phone:
        await phone.send(json.dumps({"held": True}))
        await phone.send(CHUNK)
        await until(lambda: served.process.done == ["begun"])
        served.pairing.renew()
        await phone.wait_closed()
        assert phone.close_code == DROPPED
        await until(lambda: served.process.done == ["begun", "dropped"])


@pytest.mark.parametrize(
    "sent",
    [
        "no json", '"joined"', '{"held": 1}', '{"trouble": "whatever"}', "[" * 200, "{}",
        b"\1", b"\0" * (BYTES_A_SECOND + 2),
    ],
)  # fmt: skip
async def test_what_makes_no_sense_ends_the_socket(served: Served, sent: str | bytes) -> None:
    async with served.phone(served.stream.ticket) as phone:
        await phone.send(sent)
        await phone.wait_closed()
        assert phone.close_code == UNKNOWN
    assert served.process.done == []


async def test_a_line_that_is_ended_ends_its_socket(served: Served) -> None:
    async with served.phone(served.stream.ticket) as phone:
        await phone.send(json.dumps({"joined": True}))
        await until(lambda: served.page.told == ["joined"])
        served.recognition.end(served.stream)
        await phone.send(CHUNK)
        await phone.wait_closed()
        assert phone.close_code == UNKNOWN
