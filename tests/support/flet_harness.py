"""A Flet page without a browser: draw a component, read it, tap it, see what it became.

The one place in the tests that reaches into Flet's private parts (seen working with Flet 1.0.5,
whose minor version pyproject.toml caps). A `Screen` is what a client would be told: it plays the
client's side of the connection, answers every call of a client method, and turns what would
freeze or crash a real page into a failing test.

    async with shown(Counter, 3) as screen:
        await screen.click("more")              # by key, or by the words on it
        assert "4" in screen.texts()
        await screen.press("Page Down")         # a key, at page level
        await screen.until(lambda: "saved" in screen.text)   # work on other threads
"""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Awaitable, Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import asynccontextmanager
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from inspect import getattr_static, isawaitable
from typing import Any

import flet as ft
import msgpack
from flet.controls.base_control import BaseControl
from flet.controls.context import _context_page
from flet.controls.value_types import Prop
from flet.messaging.connection import Connection
from flet.messaging.protocol import Message, MessageAction, configure_encode_object_for_msgpack
from flet.messaging.session import Session
from flet.pubsub.pubsub_hub import PubSubHub

from walkaround.ui.page.flet_pages import quicken_flet

quicken_flet()  # as the app does

# Turns of the event loop without news after which nothing more is expected by itself.
_QUIET_TURNS = 5
_MOST_TURNS = 500
_TIMEOUT_S = 60.0  # long on a busy machine too

# Fields of controls that people read, and those that a screen reader says instead.
_READ = ("value", "text", "label", "content", "title", "subtitle", "hint_text", "helper", "error")
_SAID = ("label", "tooltip", "semantics_label")
_TAPS = ("click", "tap", "select")
# Most fields hold one of these, under which no control can be.
_PLAIN = frozenset({type(None), bool, int, float, str, bytes})


@dataclass(frozen=True, slots=True)
class Invoked:
    """A method of the client that was called: which control, which method, with what."""

    control: str
    method: str
    args: Any


class _Client(Connection):
    """The other end of the connection: hears all, and answers calls of its methods with None."""

    def __init__(self) -> None:
        super().__init__()  # type: ignore[no-untyped-call]
        self.news = asyncio.Event()
        self.crashes: list[str] = []
        self.invoked: list[Invoked] = []
        self.session: Any = None
        self.loop = asyncio.get_running_loop()
        self.executor = ThreadPoolExecutor(max_workers=2)
        self.pubsubhub = PubSubHub(self.loop, self.executor)

    def send_message(self, message: Message) -> None:
        self.news.set()
        encoded(message.body)
        match message.action:
            case MessageAction.SESSION_CRASHED:
                self.crashes.append(message.body.message)
            case MessageAction.INVOKE_METHOD:
                self.loop.call_soon(self._answer, message.body)

    def _answer(self, call: Any) -> None:
        control = self.session.index.get(call.control_id)
        self.invoked.append(Invoked(type(control).__name__, call.name, call.args))
        if control is not None:
            self.session.handle_invoke_method_results(call.control_id, call.call_id, None, None)

    def dispose(self) -> None:
        self.executor.shutdown(wait=False)


class Screen:
    """What is on a page now; made by `shown` and `running`."""

    def __init__(self, session: Session, client: _Client) -> None:
        # Any: private names, and methods that Flet leaves untyped.
        self._session: Any = session
        self._client = client

    @property
    def page(self) -> ft.Page:
        """The page itself."""
        page: ft.Page = self._session.page
        return page

    @property
    def session_id(self) -> str:
        """By which the client would ask for its session again."""
        session_id: str = self._session.id
        return session_id

    @property
    def invoked(self) -> list[Invoked]:
        """Every call of a client method so far, oldest first."""
        return self._client.invoked

    @property
    def text(self) -> str:
        """All that can be read, a line for each piece."""
        return "\n".join(self.texts())

    def texts(self) -> list[str]:
        """All that can be read, in the order of the tree."""
        return [text for control in self.controls() for text in _strings(control, _READ)]

    def names(self) -> list[str]:
        """All that a screen reader says in place of what is drawn."""
        return [name for control in self.controls() for name in _strings(control, _SAID, said=True)]

    def controls(self, kind: type[BaseControl] = BaseControl) -> list[Any]:
        """Every visible control of this kind, in the order of the tree."""
        page = self.page
        roots = [page.views[-1], page._overlay, page._dialogs]
        return [control for root in roots for control in _tree(root) if isinstance(control, kind)]

    def has(self, what: str) -> bool:
        """Whether a control with this key or with these words is there."""
        return bool(self._matches(what))

    def find(self, what: str) -> Any:
        """The one control with this key or else with exactly these words.

        Raises:
            LookupError: there is none, or more than one.
        """
        found = self._matches(what)
        if len(found) != 1:
            raise LookupError(f"{len(found)} controls are {what!r} in:\n{self.text}")
        return found[0]

    def _matches(self, what: str) -> list[BaseControl]:
        seen = self.controls()
        keyed = [control for control in seen if _key(control) == what]
        return keyed or [c for c in seen if what in [*_strings(c, _READ), *_strings(c, _SAID)]]

    async def click(self, what: str) -> None:
        """Tap that control, or the nearest one around it that takes a tap; then settle.

        Raises:
            LookupError: nothing there takes a tap, or it is disabled.
        """
        await self.tap(self.target(what))

    def target(self, what: str) -> BaseControl:
        """The control that a tap on `what` would reach; keep it to tap it once it is gone."""
        control: BaseControl | None = self.find(what)
        while control is not None and not _tap_of(control):
            control = control.parent
        if control is None:
            raise LookupError(f"{what!r} takes no tap")
        if getattr(control, "disabled", False):
            raise LookupError(f"{what!r} is disabled")
        return control

    async def tap(self, control: BaseControl) -> None:
        """Tap a control, perhaps one from an earlier drawing, as a slow network would."""
        await self.fire(control, _tap_of(control))

    async def fill(self, what: str, text: str) -> None:
        """Type into a field: its value and its change event."""
        field = self.find(what)
        self._session.apply_patch(field._i, {"value": text})
        await self.fire(field, "change", text)

    async def press(self, key: str) -> None:
        """Press a key, as page.on_keyboard_event is told it ("A", "Page Down", "Escape")."""
        held = dict.fromkeys(("shift", "ctrl", "alt", "meta"), False)
        await self.fire(self.page, "keyboard_event", {"key": key, **held})

    async def fire(self, control: BaseControl, event: str, data: Any = None) -> None:
        """Send any event, named without its "on_", and let everything that follows happen."""
        await self._session.dispatch_event(control._i, event, data)
        await self.settle()

    async def settle(self) -> None:
        """Let updates, effects and tasks run until nothing more comes by itself.

        Raises:
            AssertionError: the page crashed, or would have frozen.
        """
        quiet = 0
        for _ in range(_MOST_TURNS):
            self._client.news.clear()
            await asyncio.sleep(0)
            busy = self._client.news.is_set() or self._pending()
            quiet = 0 if busy else quiet + 1
            if quiet == _QUIET_TURNS:
                break
        self._well()

    async def until(self, holds: Callable[[], bool]) -> None:
        """Wait for news until something holds; for work on threads and timers.

        Raises:
            AssertionError: it still did not hold after a minute.
        """
        try:
            async with asyncio.timeout(_TIMEOUT_S):
                while not holds():
                    self._client.news.clear()
                    await self._client.news.wait()
                    await self.settle()
        except TimeoutError:
            raise AssertionError(f"still not so:\n{self.text}") from None

    def _pending(self) -> bool:
        session = self._session
        return bool(session._Session__pending_updates or session._Session__pending_effects)

    def _well(self) -> None:
        if self._client.crashes:
            raise AssertionError(f"the page crashed: {self._client.crashes[0]}")
        updates: asyncio.Task[None] | None = self._session._Session__updates_task
        if updates is not None and updates.done() and not updates.cancelled():
            error = updates.exception()
            raise AssertionError("the page froze: it could not be drawn again") from error


@asynccontextmanager
async def shown(component: Callable[..., Any], *args: Any, **kwargs: Any) -> AsyncIterator[Screen]:
    """A page that shows one component with these arguments."""

    def main(page: ft.Page) -> None:
        page.render(component, *args, **kwargs)

    async with running(main) as screen:
        yield screen


@asynccontextmanager
async def running(main: Callable[[ft.Page], Awaitable[None] | None]) -> AsyncIterator[Screen]:
    """A page made by an app's own `main`; its tasks end with it."""
    others = asyncio.all_tasks()
    client = _Client()
    session: Any = Session(client)
    client.session = session
    token = _context_page.set(session.page)
    screen = Screen(session, client)
    try:
        # What a client asks for before `main` runs; it fills the index of events.
        encoded(session.get_page_patch())
        started = main(session.page)
        if isawaitable(started):
            await started
        await screen.settle()
        yield screen
    finally:
        session.close()
        left = asyncio.all_tasks() - others
        await asyncio.sleep(0)
        for task in left:
            task.cancel()
        await asyncio.gather(*left, return_exceptions=True)
        client.dispose()
        _context_page.reset(token)


def encoded(body: Any) -> bytes:
    """The body as it goes to a client; Flet notes what was sent while it packs it."""
    packed: bytes = msgpack.packb(body, default=configure_encode_object_for_msgpack(BaseControl))
    return packed


def _tree(root: Any) -> list[BaseControl]:
    """Every visible control in and under a control, list or value, parents first."""
    found: list[BaseControl] = []
    to_see = [root]
    while to_see:
        thing = to_see.pop()
        if isinstance(thing, BaseControl):
            if getattr(thing, "visible", True) is False or getattr(thing, "open", True) is False:
                continue
            found.append(thing)
        parts = thing if isinstance(thing, list | tuple) else _parts(thing)
        to_see += [part for part in reversed(parts) if type(part) not in _PLAIN]
    return found


def _parts(thing: Any) -> list[Any]:
    """What the fields of a control or value hold; Flet stores only what is not the default."""
    stored = getattr(thing, "_values", {})
    return [
        stored.get(name) if is_stored else getattr(thing, name, None)
        for name, is_stored in _fields_of(type(thing))
    ]


@cache
def _fields_of(kind: type[Any]) -> tuple[tuple[str, bool], ...]:
    """The fields that may hold what is drawn: asked of each class once, as there are many."""
    if not is_dataclass(kind):
        return ()
    return tuple(
        (field.name, isinstance(getattr_static(kind, field.name, None), Prop))
        for field in fields(kind)
        if not field.metadata.get("skip") and field.name not in ("_parent", "data")
    )


def _strings(control: BaseControl, names: tuple[str, ...], *, said: bool = False) -> list[str]:
    """The words in these fields; the label of a Semantics is said, not read."""
    is_semantics = isinstance(control, ft.Semantics)
    if is_semantics and names is _READ:
        return []
    if said and not is_semantics:
        names = tuple(name for name in names if name != "label")
    values = [getattr(control, name, None) for name in names]
    return [value for value in values if isinstance(value, str) and value]


def _key(control: BaseControl) -> str:
    key = control.key
    return "" if key is None else str(getattr(key, "value", key))


def _tap_of(control: BaseControl) -> str:
    """The event that a tap on this control fires; empty when it takes none."""
    return next((tap for tap in _TAPS if getattr(control, f"on_{tap}", None)), "")
