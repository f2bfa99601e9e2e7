"""Flet's pages as a web app: sessions begin with their connection and end with it.

Of each change that `flet_pages` makes to Flet one test says that it works, and one, without it,
that it is still needed: where that one fails, the change can go.
"""

from __future__ import annotations

import asyncio
import subprocess
import sys
from collections.abc import AsyncIterator, Iterator, MutableMapping
from contextlib import asynccontextmanager
from typing import Any

import flet as ft
import msgpack
import pytest
from fastapi import FastAPI, WebSocketDisconnect
from flet.controls.base_control import BaseControl
from flet.controls.object_patch import DiffBuilder
from flet.messaging.protocol import Message
from flet_web.fastapi import app as unchanged_pages
from flet_web.fastapi import app_manager
from support.flet_harness import running

from walkaround.disk import locations
from walkaround.ui.page import flet_pages as flet_pages_module
from walkaround.ui.page.flet_pages import (
    SESSION_BEFORE,
    UnfailingConnection,
    flet_pages,
    tell_failures,
)

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


async def test_without_our_change_a_page_that_comes_back_gets_its_old_session(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    opened: asyncio.Queue[ft.Page] = asyncio.Queue()
    # It shadows the method of the class.
    monkeypatch.delitem(vars(app_manager), "get_session", raising=False)
    pages = unchanged_pages(
        opened.put, assets_dir=str(locations.assets()), session_timeout_seconds=60
    )
    async with _visit(pages) as first:
        page = await opened.get()
    async with _visit(pages, first.session_id) as again:
        assert again.session_id == first.session_id
        assert page.session.connection is not None
    assert opened.empty()


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


def test_without_our_change_the_first_control_of_every_process_has_the_same_number() -> None:
    command = [sys.executable, "-c", "import flet; print(flet.Text('first')._i)"]
    numbers = [subprocess.check_output(command, text=True) for _ in range(2)]
    assert numbers[0] == numbers[1]


async def test_no_message_is_written_out_for_a_log_that_is_off(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """And that it is not is why the message's words are taken from it."""
    pages, written = flet_pages(asyncio.Queue[ft.Page]().put), []
    message = Message(1, "the whole plan of a vehicle")  # type: ignore[arg-type]
    assert "plan" not in repr(message)
    monkeypatch.setattr(Message, "__repr__", lambda _: written.append("message") or "")
    async with _visit(pages):
        pass
    assert written


_PLAIN_VALUES = (None, True, 1, 1.5, "a", b"a")


def _held(of: DiffBuilder, control: ft.Control) -> list[str]:
    """What Flet finds in a new control, and in one that is gone."""
    found = [*of._configure_dataclass(control, None, False), *of._removed_controls(control, True)]
    return [type(each).__name__ for each in found]


def test_flet_finds_the_controls_in_a_control_and_passes_over_plain_values(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for name, search in flet_pages_module._SEARCHES.items():
        monkeypatch.setattr(DiffBuilder, name, search)
    builder = DiffBuilder(None, None, control_cls=BaseControl)
    row = ft.Row([ft.Text("a"), ft.Container(ft.Icon(ft.Icons.ADD))])
    before = _held(builder, row)
    assert sorted(before) == sorted(2 * ["Row", "Text", "Container", "Icon"])
    flet_pages(asyncio.Queue[ft.Page]().put)
    assert _held(builder, row) == before
    for value in _PLAIN_VALUES:
        assert [*builder._configure_dataclass(value, None, False)] == []
        assert [*builder._removed_controls(value, True)] == []


def test_without_our_change_flet_goes_into_plain_values_too(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    gone_into = list[Any]()
    search = flet_pages_module._SEARCHES["_configure_dataclass"]

    def noted(builder: DiffBuilder, item: Any, *args: Any) -> Iterator[Any]:
        gone_into.append(item)
        return search(builder, item, *args)

    monkeypatch.setattr(DiffBuilder, "_configure_dataclass", noted)
    builder = DiffBuilder(None, None, control_cls=BaseControl)
    assert len([*builder._configure_dataclass(ft.Text("a"), None, False)]) == 1
    assert sum(type(item) in flet_pages_module._PLAIN for item in gone_into) > 10


async def _vanishes(pages: FastAPI, opened: asyncio.Queue[ft.Page]) -> None:
    """A page is gone just as something is sent to it."""
    async with _visit(pages) as browser:
        page = await opened.get()
        browser.vanished = True
        browser.news.clear()
        page.title = "changed"
        page.update()
        await browser.news.wait()
        assert browser.missed == 1
        opened.put_nowait(page)


async def test_a_page_that_vanishes_while_something_is_sent_to_it_is_let_go() -> None:
    """Or it would be drawn for as long as the server runs."""
    opened: asyncio.Queue[ft.Page] = asyncio.Queue()
    await _vanishes(flet_pages(opened.put), opened)
    assert (await opened.get()).session.connection is None


async def test_without_our_change_a_page_that_vanishes_is_never_let_go() -> None:
    opened: asyncio.Queue[ft.Page] = asyncio.Queue()
    pages = flet_pages(opened.put)
    pages.user_middleware = [
        each for each in pages.user_middleware if each.cls is not UnfailingConnection
    ]
    with pytest.raises(WebSocketDisconnect):
        await _vanishes(pages, opened)
    assert (await opened.get()).session.connection is not None


@pytest.mark.parametrize("error", [OSError("gone"), RuntimeError("closing")])
async def test_what_a_page_cannot_be_told_any_more_is_dropped(error: Exception) -> None:
    """Under TLS a server that closes refuses with a RuntimeError what is sent meanwhile."""
    told = []

    async def app(_: Any, __: Any, send: Any) -> None:
        await send({"type": "websocket.send", "bytes": b""})
        told.append("and went on")

    async def gone(_: Any) -> None:
        raise error

    await UnfailingConnection(app)({"type": "websocket"}, asyncio.Queue().get, gone)
    assert told == ["and went on"]


async def test_only_what_goes_to_a_page_may_get_lost() -> None:
    async def app(_: Any, __: Any, send: Any) -> None:
        await send({"type": "http.response.start", "status": 200, "headers": []})

    async def gone(_: Any) -> None:
        raise OSError("gone")

    with pytest.raises(OSError, match="gone"):
        await UnfailingConnection(app)({"type": "http"}, asyncio.Queue().get, gone)


@pytest.mark.parametrize("changed", [True, False])
async def test_what_a_tap_raises_is_told_here_and_without_our_change_ends_the_page(
    changed: bool,
) -> None:
    heard: list[str] = []

    def main(page: ft.Page) -> None:
        def broken() -> None:
            raise ValueError("broken on purpose")

        if changed:
            tell_failures(page, heard.append)
        page.add(ft.Button("Break", on_click=broken))

    async with running(main) as screen:
        if changed:
            await screen.click("Break")
            assert "broken on purpose" in heard[0]
        else:
            with pytest.raises(AssertionError, match="the page crashed: broken on purpose"):
                await screen.click("Break")
