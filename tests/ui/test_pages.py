"""Flet's pages as a web app: sessions begin with their connection and end with it."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, MutableMapping
from contextlib import asynccontextmanager
from typing import Any

import flet as ft
import msgpack
import pytest
from fastapi import FastAPI

from walkaround.ui.page.flet_pages import SESSION_BEFORE, Unfailing, flet_pages

_SCOPE = {
    "type": "websocket",
    "asgi": {"version": "3.0"},
    "http_version": "1.1",
    "scheme": "ws",
    "path": "/ws",
    "root_path": "",
    "query_string": b"",
    "headers": [],
    "client": ("127.0.0.1", 50000),
    "server": ("127.0.0.1", 8765),
    "subprotocols": [],
}
_REGISTER = 1


class _Browser:
    """The other end of the socket, which may vanish."""

    def __init__(self) -> None:
        self.says: asyncio.Queue[MutableMapping[str, Any]] = asyncio.Queue()
        self.news = asyncio.Event()
        self.session_id = ""
        self.vanished = False
        self.missed = 0

    async def hears(self, message: MutableMapping[str, Any]) -> None:
        if self.vanished:
            self.missed += 1
            self.news.set()
            raise OSError("the connection is gone")
        if message["type"] == "websocket.send":
            action, body = msgpack.unpackb(message["bytes"][1:], strict_map_key=False)
            if action == _REGISTER:
                self.session_id = body["session_id"]
                self.news.set()

    def disconnects(self) -> None:
        self.says.put_nowait({"type": "websocket.disconnect", "code": 1006})


@asynccontextmanager
async def _visit(
    pages: FastAPI, session_id: str = "", address: str = "127.0.0.1"
) -> AsyncIterator[_Browser]:
    """A page opened, registered, and gone at the end."""
    browser = _Browser()
    page = {"session_id": session_id, "page_name": "", "page": {"route": "/"}}
    browser.says.put_nowait({"type": "websocket.connect"})
    frame = b"\x00" + msgpack.packb([_REGISTER, page])
    browser.says.put_nowait({"type": "websocket.receive", "bytes": frame})
    scope = {**_SCOPE, "client": (address, 50000)}
    served = asyncio.create_task(pages(scope, browser.says.get, browser.hears))
    await browser.news.wait()
    yield browser
    browser.disconnects()
    await served


async def test_a_page_that_comes_back_gets_a_session_of_its_own() -> None:
    seen: asyncio.Queue[ft.Page] = asyncio.Queue()
    pages = flet_pages(seen.put)
    async with _visit(pages) as first:
        before = await seen.get()
    async with _visit(pages, first.session_id) as again:
        assert again.session_id not in ("", first.session_id)
        after = await seen.get()
        assert after is not before
        assert before.session.connection is None


@pytest.mark.parametrize("address", ["127.0.0.1", "192.0.2.7"])
async def test_a_page_that_comes_back_is_known_by_its_session_before(address: str) -> None:
    """From another address, too."""
    known: asyncio.Queue[str] = asyncio.Queue()

    async def main(_: ft.Page) -> None:
        known.put_nowait(SESSION_BEFORE.get())

    pages = flet_pages(main)
    async with _visit(pages) as first:
        assert await known.get() == ""
    async with _visit(pages, first.session_id, address):
        assert await known.get() == first.session_id
    async with _visit(pages):
        assert await known.get() == ""


def test_the_controls_of_another_process_have_other_numbers() -> None:
    """Or a page that outlives its server takes one for the other."""
    firsts = set()
    for _ in range(3):
        flet_pages(asyncio.Queue[ft.Page]().put)
        firsts.add(ft.Text()._i)
    assert len(firsts) == 3
    assert all(2**30 <= first < 2**31 for first in firsts)


async def test_a_page_that_vanishes_while_something_is_sent_to_it_is_let_go() -> None:
    """Or it would be drawn for as long as the server runs."""
    seen: asyncio.Queue[ft.Page] = asyncio.Queue()
    pages = flet_pages(seen.put)
    async with _visit(pages) as browser:
        page = await seen.get()
        browser.vanished = True
        browser.news.clear()
        page.title = "changed"
        page.update()
        await browser.news.wait()
        assert browser.missed == 1
    assert page.session.connection is None


@pytest.mark.parametrize("error", [OSError("gone"), RuntimeError("closing")])
async def test_what_a_page_cannot_be_told_any_more_is_dropped(error: Exception) -> None:
    """Under TLS a server that closes refuses with a RuntimeError what is sent meanwhile."""
    told = []

    async def app(_: Any, __: Any, send: Any) -> None:
        await send({"type": "websocket.send", "bytes": b""})
        told.append("and went on")

    async def gone(_: Any) -> None:
        raise error

    await Unfailing(app)({"type": "websocket"}, asyncio.Queue().get, gone)
    assert told == ["and went on"]


async def test_only_what_goes_to_a_page_may_get_lost() -> None:
    async def app(_: Any, __: Any, send: Any) -> None:
        await send({"type": "http.response.start", "status": 200, "headers": []})

    async def gone(_: Any) -> None:
        raise OSError("gone")

    with pytest.raises(OSError, match="gone"):
        await Unfailing(app)({"type": "http"}, asyncio.Queue().get, gone)
