"""Connections that only take room, on real sockets."""

from __future__ import annotations

import asyncio
import resource
import socket
import ssl
import time
from collections.abc import Iterator, MutableMapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
import websockets
from browser.serving import running

from walkaround.access.certificate import stored_certificate
from walkaround.web import connections
from walkaround.web.connections import raise_file_limit

SHORT_S = 0.5
_HEAD = b"GET / HTTP/1.1\r\nHost: here\r\n"


async def _app(scope: MutableMapping[str, Any], receive: Any, send: Any) -> None:
    """Answers after twice the time that a connection may ask nothing; echoes on a WebSocket."""
    if scope["type"] == "websocket":
        await receive()
        await send({"type": "websocket.accept"})
        while (message := await receive())["type"] == "websocket.receive":
            await send({"type": "websocket.send", "text": message["text"]})
    elif scope["type"] == "http":
        await asyncio.sleep(2 * SHORT_S if scope["path"] == "/slow" else 0)
        headers = [(b"content-length", b"2")]
        await send({"type": "http.response.start", "status": 200, "headers": headers})
        await send({"type": "http.response.body", "body": b"ok"})


@dataclass(frozen=True)
class _Server:
    port: int
    tls: ssl.SSLContext | None

    def connected(self, source: str = "127.0.0.1") -> socket.socket:
        line = socket.create_connection(
            ("127.0.0.1", self.port), timeout=10, source_address=(source, 0)
        )
        return self.tls.wrap_socket(line) if self.tls else line

    def page(self, source: str = "127.0.0.1") -> websockets.connect:
        address = f"{'wss' if self.tls else 'ws'}://127.0.0.1:{self.port}/ws"
        return websockets.connect(address, ssl=self.tls, local_addr=(source, 0))


@pytest.fixture(params=["http", "https"])
def server(
    request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[_Server]:
    monkeypatch.setattr(connections, "ASKS_WITHIN_S", SHORT_S)
    certificate = tls = None
    if request.param == "https":
        certificate = stored_certificate(tmp_path, ("127.0.0.1",), datetime.now(UTC))
        tls = ssl.create_default_context(cafile=str(certificate.chain))
        tls.check_hostname = False
    with running(_app, certificate) as address:
        yield _Server(urlsplit(address).port or 0, tls)


def _is_ended(line: socket.socket) -> bool:
    """Wait for the other end's last word."""
    with suppress(ConnectionError):
        while line.recv(65536):
            pass
    return True


def _is_answered(line: socket.socket) -> bool:
    answer = b""
    while not answer.endswith(b"ok") and (more := line.recv(65536)):
        answer += more
    return answer.endswith(b"ok")


def _drip(line: socket.socket, text: bytes) -> None:
    """Send one byte at a time until the other end has had enough."""
    with suppress(OSError):
        for at in range(len(text)):
            line.sendall(text[at : at + 1])
            time.sleep(SHORT_S / 10)
        pytest.fail("It was listened to for ever.")


def test_who_asks_nothing_is_sent_away(server: _Server) -> None:
    with server.connected() as line:
        assert _is_ended(line)


def test_who_asks_a_letter_at_a_time_is_sent_away(server: _Server) -> None:
    with server.connected() as line:
        _drip(line, _HEAD + b"x" * 200)
        assert _is_ended(line)


def test_so_is_who_was_answered_before(server: _Server) -> None:
    with server.connected() as line:
        line.sendall(_HEAD + b"\r\n")
        assert _is_answered(line)
        _drip(line, _HEAD + b"x" * 200)
        assert _is_ended(line)


def test_who_waits_for_a_slow_answer_gets_it(server: _Server) -> None:
    with server.connected() as line:
        line.sendall(_HEAD.replace(b"/", b"/slow", 1) + b"\r\n")
        assert _is_answered(line)


def test_who_comes_back_with_another_question_is_answered(server: _Server) -> None:
    """The time of the first question is not counted on."""
    with server.connected() as line:
        for _ in range(4):
            line.sendall(_HEAD + b"\r\n")
            assert _is_answered(line)
            time.sleep(0.4 * SHORT_S)


async def test_an_open_page_may_be_silent(server: _Server) -> None:
    async with server.page() as page:
        await asyncio.sleep(2 * SHORT_S)
        await page.send("still here")
        assert await page.recv() == "still here"


def _answered(line: socket.socket) -> bool:
    with suppress(OSError):
        line.sendall(_HEAD + b"\r\n")
        return _is_answered(line)
    return False


async def test_one_address_cannot_take_all_the_room(
    server: _Server, monkeypatch: pytest.MonkeyPatch
) -> None:
    """127.0.0.2 stands for another machine here. Its oldest connection ends, but no page."""
    monkeypatch.setattr(connections, "ASKS_WITHIN_S", 60)
    monkeypatch.setattr(connections, "MOST_OF_ONE", 3)
    monkeypatch.setattr(connections, "is_loopback", lambda host: host != "127.0.0.2")

    def crowd() -> None:
        own = [server.connected() for _ in range(6)]
        greedy = [server.connected("127.0.0.2") for _ in range(5)]
        # By the answer of the last one the server has heard of all.
        assert _answered(greedy[-1])
        assert [_answered(line) for line in greedy] == [False, False, True, True, True]
        assert all(map(_answered, own))
        for each in (*greedy, *own):
            each.close()

    async with server.page("127.0.0.2") as page:
        await asyncio.to_thread(crowd)
        await page.send("still here")
        assert await page.recv() == "still here"


@pytest.mark.parametrize("host", ["127.0.0.1", "127.8.8.8", "::1", "::ffff:127.0.0.1"])
def test_this_machine_may_have_as_many_as_it_likes(host: str) -> None:
    assert connections.is_loopback(host)


@pytest.mark.parametrize("host", ["192.0.2.2", "fe80::1%eth0", "2001:db8::1", "elsewhere"])
def test_other_machines_may_not(host: str) -> None:
    assert not connections.is_loopback(host)


def test_this_process_may_open_many_files() -> None:
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    if 0 <= hard < 4096:
        pytest.skip("This system allows no more than a few files.")
    try:
        resource.setrlimit(resource.RLIMIT_NOFILE, (256, hard))
        raise_file_limit()
        raised = resource.getrlimit(resource.RLIMIT_NOFILE)[0]
        assert raised in (65536, 10240, 4096)
    finally:
        with suppress(OSError, ValueError):
            resource.setrlimit(resource.RLIMIT_NOFILE, (soft, hard))
