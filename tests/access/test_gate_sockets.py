"""WebSockets at the gate: through it unchanged, counted, and ended by a new key."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from pathlib import Path

import flet as ft
import msgpack
import pytest
from starlette.types import Message
from support.gates import ORIGIN, Inner, asked, opened, paired, scope

from walkaround.access.gate import DROPPED, MOST_SOCKETS, Gate
from walkaround.access.pairing import Pairing
from walkaround.ui.page.flet_pages import flet_pages


@pytest.fixture
def pairing(tmp_path: Path) -> Pairing:
    return Pairing(tmp_path / "pairing" / "key", f"{ORIGIN}/")


def socket(pairing: Pairing) -> Message:
    return scope("/ws", kind="websocket", headers=paired(pairing, {"origin": ORIGIN}))


async def test_a_new_key_ends_every_open_page_at_once_for_the_app_and_for_the_browser(
    pairing: Pairing,
) -> None:
    inner = Inner()
    gate = Gate(inner, pairing)
    pages = [opened(gate, socket(pairing)) for _ in range(5)]
    for page in pages:
        assert (await page.outgoing.get())["type"] == "websocket.accept"
    old = paired(pairing, {"origin": ORIGIN})
    # As the screen does: in another thread than the one that serves.
    await asyncio.to_thread(pairing.renew)
    for page in pages:
        await asyncio.wait_for(page.task, 20)
        sent = [page.outgoing.get_nowait() for _ in range(page.outgoing.qsize())]
        assert sent[-1] == {"type": "websocket.close", "code": DROPPED, "reason": "key changed"}
        assert "too late" not in str(sent)
    ends = [seen for seen in inner.seen if seen["type"] == "websocket.disconnect"]
    assert len(ends) == 5
    for request in (scope("/ws", kind="websocket", headers=old), scope(headers=old)):
        assert (await asked(gate, request)).status == 401
    assert (await asked(gate, socket(pairing))).status == 101


async def test_a_page_that_was_gone_already_hinders_no_new_key(pairing: Pairing) -> None:
    gate = Gate(Inner(), pairing)
    page = opened(gate, socket(pairing))
    await page.outgoing.get()
    page.incoming.put_nowait({"type": "websocket.disconnect", "code": 1001})
    await page.task
    await asyncio.to_thread(pairing.renew)
    assert (await asked(gate, socket(pairing))).status == 101


async def test_what_a_page_sends_and_gets_goes_through_unchanged(pairing: Pairing) -> None:
    page = opened(Gate(Inner(), pairing), socket(pairing))
    await page.outgoing.get()
    await page.outgoing.get()
    for text in ("one", "two", "three"):
        page.incoming.put_nowait({"type": "websocket.receive", "text": text})
        assert (await page.outgoing.get()) == {"type": "websocket.send", "text": text}
    page.incoming.put_nowait({"type": "websocket.disconnect", "code": 1001})
    await page.task


async def test_no_more_pages_are_open_than_there_is_room_for(pairing: Pairing) -> None:
    gate = Gate(Inner(), pairing)
    pages = [opened(gate, socket(pairing)) for _ in range(MOST_SOCKETS)]
    for page in pages:
        await page.outgoing.get()
    assert (await asked(gate, socket(pairing))).status == 503
    pages[0].incoming.put_nowait({"type": "websocket.disconnect", "code": 1001})
    await pages[0].task
    assert (await asked(gate, socket(pairing))).status == 101
    await asyncio.to_thread(pairing.renew)
    await asyncio.gather(*(page.task for page in pages))


class Stuck(Inner):
    """An app that never ends a page."""

    async def __call__(self, scope: Message, receive: object, send: object) -> None:
        await super().__call__(scope, receive, send)
        await asyncio.Event().wait()


async def test_a_page_that_is_gone_takes_no_room_even_if_the_app_never_ends_it(
    pairing: Pairing, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As Flet 1.0.5 does not, if the page goes before it was drawn."""
    monkeypatch.setattr("walkaround.access.gate._TO_END_S", 0.1)
    gate = Gate(Stuck(), pairing)
    for _ in range(2):
        pages = [opened(gate, socket(pairing)) for _ in range(MOST_SOCKETS)]
        for page in pages:
            assert (await page.outgoing.get())["type"] == "websocket.accept"
            page.incoming.put_nowait({"type": "websocket.disconnect", "code": 1001})
        await asyncio.wait_for(asyncio.gather(*(page.task for page in pages)), 20)


async def test_a_page_that_its_app_has_given_up_leaves_its_room(
    pairing: Pairing, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Flet 1.0.5 waits for ever after a first message that it cannot understand."""
    monkeypatch.setattr("walkaround.access.gate._UNREAD_S", 0.05)

    async def waits_for_ever(_: Message, receive: object, send: object) -> None:
        assert callable(receive)
        assert callable(send)
        await send({"type": "websocket.accept", "headers": []})
        await receive()
        await asyncio.Event().wait()

    monkeypatch.setattr("walkaround.access.gate.MOST_SOCKETS", 1)
    gate = Gate(waits_for_ever, pairing)
    page = opened(gate, socket(pairing))
    await page.outgoing.get()
    await asyncio.wait_for(page.task, 20)
    again = opened(gate, socket(pairing))
    assert (await again.outgoing.get())["type"] == "websocket.accept"
    await asyncio.wait_for(again.task, 20)


async def test_a_page_that_reads_little_is_not_given_up(
    pairing: Pairing, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("walkaround.access.gate._UNREAD_S", 0.02)
    page = opened(Gate(Inner(), pairing), socket(pairing))
    await page.outgoing.get()
    await asyncio.wait({page.task}, timeout=0.3)
    assert not page.task.done()
    page.incoming.put_nowait({"type": "websocket.disconnect", "code": 1001})
    await asyncio.wait_for(page.task, 20)


async def test_a_new_key_ends_the_session_of_a_phone_that_takes_nothing(pairing: Pairing) -> None:
    """Asleep, its buffer full: what is sent to it waits, and must not keep the session up."""
    pages = asyncio.Queue[ft.Page]()
    takes = asyncio.Event()
    takes.set()
    incoming = asyncio.Queue[Message]()
    hello = [1, {"session_id": "", "page_name": "", "page": {"route": "/"}}]
    incoming.put_nowait({"type": "websocket.connect"})
    incoming.put_nowait({"type": "websocket.receive", "bytes": b"\0" + msgpack.packb(hello)})

    async def send(_: Message) -> None:
        await takes.wait()

    gate = Gate(flet_pages(pages.put), pairing)
    line = asyncio.ensure_future(gate(socket(pairing), incoming.get, send))
    page = await asyncio.wait_for(pages.get(), 20)
    takes.clear()
    page.title = "walkaround"
    page.update()
    await asyncio.sleep(0)
    await asyncio.to_thread(pairing.renew)
    await asyncio.wait_for(asyncio.wait({line}), 20)
    await until(lambda: _ended(page))


def _ended(page: ft.Page) -> bool:
    """Whether Flet has let the page's session go."""
    try:
        return page.session is None or page.session.connection is None
    except RuntimeError:
        return True


async def until(true: Callable[[], bool]) -> None:
    """Wait for something that comes by itself."""
    async with asyncio.timeout(20):
        while not true():
            await asyncio.sleep(0.01)
