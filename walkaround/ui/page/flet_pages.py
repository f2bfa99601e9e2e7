"""Flet's pages as a web app, in which each connection gets a session of its own.

The one module that changes Flet; DEVELOPERS.md lists what and why, and a test for each change fails
once Flet needs it no more.

Where a page is stands in its address and what was answered in the store; of its old session a page
that comes back needs only what was half done there (see `unfinished.py`). Nor could it use more: a
page of Flet 1.0.5 that takes its session up again shows the old screen for good, or takes no tap
for seconds (seen in Chromium).
"""

from __future__ import annotations

import secrets
from collections.abc import Awaitable, Callable, Iterator, MutableMapping
from contextlib import suppress
from contextvars import ContextVar
from typing import Any

import flet as ft
from fastapi import FastAPI
from flet.controls import base_control
from flet.controls.id_counter import IdCounter
from flet.controls.object_patch import DiffBuilder
from flet.messaging.protocol import Message
from flet_web.fastapi import app as flet_app  # type: ignore[import-untyped]
from flet_web.fastapi import app_manager

from walkaround.disk import locations

_Message = MutableMapping[str, Any]
_Receive = Callable[[], Awaitable[_Message]]
_Send = Callable[[_Message], Awaitable[None]]

_SOMEWHERE = 2**30
"""Numbers from here on to twice this take few bytes and are exact in a browser."""

_PLAIN = frozenset({type(None), bool, int, float, str, bytes})
"""Values in which there is no control."""
_SEARCHES = {
    name: search
    for name in ("_configure_dataclass", "_removed_controls")
    if (search := getattr(DiffBuilder, name, None))
}
"""No page depends on them: with a Flet that has them no more it is slower, and a test says so."""

SESSION_BEFORE: ContextVar[str] = ContextVar("SESSION_BEFORE", default="")
"""The id of the session that the page being opened had before its link was cut, or nothing."""


def flet_pages(main: Callable[[ft.Page], Awaitable[None]]) -> FastAPI:
    """Return the web app that calls `main` for each page that opens or comes back."""
    # The one question that Flet asks before it takes an old session up again.
    app_manager.get_session = _no_old_one
    # A page that outlives this process takes a control of the next one that has the same number
    # for the one it knew; its player would stay with what is gone, silent for good.
    start = _SOMEWHERE + secrets.randbelow(_SOMEWHERE)
    base_control.ControlId = IdCounter(start)  # type: ignore[attr-defined]
    quicken_flet()
    pages: FastAPI = flet_app(
        main, assets_dir=str(locations.assets()), no_cdn=True, session_timeout_seconds=0
    )
    pages.add_middleware(UnfailingConnection)
    return pages


def quicken_flet() -> None:
    """Spare Flet what it does in vain at each change of a page."""
    # It writes every message out in full for its log, before it knows whether that is on: a
    # twelfth of the time that a tap takes.
    Message.__repr__ = object.__repr__  # type: ignore[method-assign]
    # It looks for controls in every value of each new or removed one: a quarter of its time.
    for name, search in _SEARCHES.items():
        setattr(DiffBuilder, name, _past_plain_values(search))


def tell_failures(page: ft.Page, on_failure: Callable[[str], None]) -> None:
    """Tell here what a handler of the page raises; Flet would end it with a traceback on the phone.

    Args:
        page: one that has just opened.
        on_failure: gets the error's text.
    """
    page.session.error = on_failure  # type: ignore[method-assign, assignment]


def _past_plain_values(search: Callable[..., Iterator[Any]]) -> Callable[..., Iterator[Any]]:
    """Return a search for controls that finds at once that a plain value holds none."""

    def searched(builder: DiffBuilder, item: Any, *args: Any) -> Iterator[Any]:
        return iter(()) if type(item) in _PLAIN else search(builder, item, *args)

    return searched


async def _no_old_one(name: str) -> None:
    """Take note of the old session's id, which stands between the page's name and a checksum."""
    SESSION_BEFORE.set(name.rsplit("_", 2)[-2])


class UnfailingConnection:
    """A web app that drops what is sent to a page that is gone.

    Flet ends a session when it is told that the page has gone, but not if it was sending just
    then: such a session would be drawn for at each tap for as long as the server runs.
    """

    def __init__(self, app: Callable[[_Message, _Receive, _Send], Awaitable[None]]) -> None:
        self._app = app

    async def __call__(self, scope: _Message, receive: _Receive, send: _Send) -> None:
        async def send_if_there(message: _Message) -> None:
            with suppress(OSError, RuntimeError):
                await send(message)

        await self._app(scope, receive, send_if_there if scope["type"] == "websocket" else send)
