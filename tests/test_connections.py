"""Connections that only take room, on real sockets."""

from __future__ import annotations

import asyncio
import resource
import socket
import time
from collections.abc import Iterator, MutableMapping
from contextlib import suppress
from typing import Any
from urllib.parse import urlsplit

import pytest
import websockets
from browser.serving import running

from walkaround import connections
from walkaround.connections import take_all_files

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


@pytest.fixture
def port(monkeypatch: pytest.MonkeyPatch) -> Iterator[int]:
    monkeypatch.setattr(connections, "ASKS_WITHIN_S", SHORT_S)
    with running(_app) as address:
        yield urlsplit(address).port or 0


def _connected(port: int, source: str = "127.0.0.1") -> socket.socket:
    return socket.create_connection(("127.0.0.1", port), timeout=10, source_address=(source, 0))


def _is_ended(line: socket.socket) -> bool:
    """Wait for the other end's last word."""
    with suppress(ConnectionError):
        while line.recv(65536):
            pass
    return True


def _drip(line: socket.socket, text: bytes) -> None:
    """Send one byte at a time until the other end has had enough."""
    with suppress(OSError):
        for at in range(len(text)):
            line.sendall(text[at : at + 1])
            time.sleep(SHORT_S / 10)
        pytest.fail("It was listened to for ever.")


def test_who_asks_nothing_is_sent_away(port: int) -> None:
    with _connected(port) as line:
        assert _is_ended(line)


def test_who_asks_a_letter_at_a_time_is_sent_away(port: int) -> None:
    with _connected(port) as line:
        _drip(line, _HEAD + b"x" * 200)
        assert _is_ended(line)


def test_so_is_who_was_answered_before(port: int) -> None:
    with _connected(port) as line:
        line.sendall(_HEAD + b"\r\n")
        assert line.recv(65536).endswith(b"ok")
        _drip(line, _HEAD + b"x" * 200)
        assert _is_ended(line)


def test_who_waits_for_a_slow_answer_gets_it(port: int) -> None:
    with _connected(port) as line:
        line.sendall(_HEAD.replace(b"/", b"/slow", 1) + b"\r\n")
        assert line.recv(65536).endswith(b"ok")


def test_who_comes_back_with_another_question_is_answered(port: int) -> None:
    """The time of the first question is not counted on."""
    with _connected(port) as line:
        for _ in range(4):
            line.sendall(_HEAD + b"\r\n")
            assert line.recv(65536).endswith(b"ok")
            time.sleep(SHORT_S / 2)


async def test_an_open_page_may_be_silent(port: int) -> None:
    async with websockets.connect(f"ws://127.0.0.1:{port}/ws") as page:
        await asyncio.sleep(2 * SHORT_S)
        await page.send("still here")
        assert await page.recv() == "still here"


def _answered(line: socket.socket) -> bool:
    with suppress(OSError):
        line.sendall(_HEAD + b"\r\n")
        return line.recv(65536).endswith(b"ok")
    return False


def test_one_address_cannot_take_all_the_room(port: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """127.0.0.2 stands for another machine's address here; the others are this machine's own."""
    monkeypatch.setattr(connections, "ASKS_WITHIN_S", 60)
    monkeypatch.setattr(connections, "MOST_OF_ONE", 3)
    monkeypatch.setattr(connections, "guesser", lambda host: host.replace("127.0.0.2", "192.0.2.2"))
    greedy = [_connected(port, "127.0.0.2") for _ in range(4)]
    assert [_answered(line) for line in greedy] == [True, True, True, False]
    own = [_connected(port) for _ in range(6)]
    assert all(map(_answered, own))
    greedy.pop(0).close()
    # The server may hear of the new one before it hears of the end of the old one.
    for _ in range(100):
        with _connected(port, "127.0.0.2") as line:
            if _answered(line):
                break
    else:
        pytest.fail("The room that was given back was not given again.")
    for each in (*greedy, *own):
        each.close()


def test_this_process_may_open_as_many_files_as_the_system_allows() -> None:
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    try:
        resource.setrlimit(resource.RLIMIT_NOFILE, (hard // 2, hard))
        take_all_files()
        assert resource.getrlimit(resource.RLIMIT_NOFILE)[0] == hard
    finally:
        resource.setrlimit(resource.RLIMIT_NOFILE, (soft, hard))
