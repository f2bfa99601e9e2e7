"""The walks open in this process: the one place where a change asked for becomes a saved event.

What is seen is always what is saved: an event is checked, written to the disk, and only then
part of the live walk. Any thread may call; watchers are told in the thread that called, once
everything is done.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from threading import RLock
from typing import Any, Protocol, TypeVar
from uuid import uuid4

from pydantic import ValidationError

from walkaround.base.clock import Clock
from walkaround.base.errors import InputError, MachineError, NotNowError
from walkaround.base.message import message
from walkaround.base.toml_model import problems_of
from walkaround.plan.steps import Plan
from walkaround.records.reader import Loaded
from walkaround.records.walk_file import WalkFile
from walkaround.records.walk_line import walk_id
from walkaround.walk.advance import advance, fold
from walkaround.walk.events import Began, Event, HoldVoided
from walkaround.walk.seals import seal
from walkaround.walk.state import Walk

_log = logging.getLogger(__name__)

_E = TypeVar("_E", bound=Event)

Change = tuple[type[Event], Mapping[str, Any]]
"""What someone wants to happen: the event's class and its own fields."""

NOBODY = "walkaround"
"""Recorded as `who` for what the app does by itself, such as voiding an air hold."""


class Store(Protocol):
    """Where walks are saved; `WalkStore` is the real one."""

    def create(self, first: Began) -> None: ...
    def append(self, walk_id: str, events: Sequence[Event]) -> None: ...
    def load(self, walk_id: str) -> Loaded: ...
    def refresh(self, walk: Walk) -> None: ...
    def take_in(self, walk_id: str, file: WalkFile) -> None: ...
    def next_number(self) -> int: ...


class OpenWalks:
    """The open walks; each is read once, when it is first asked for."""

    def __init__(
        self, store: Store, clock: Clock, new_id: Callable[[], str] = lambda: uuid4().hex
    ) -> None:
        """Take the ports: where walks are saved, what time it is, 32 new hex digits."""
        self._store = store
        self._clock = clock
        self._new_id = new_id
        self._live: dict[str, Walk] = {}
        self._notices: dict[str, str] = {}
        self._watchers: dict[str, dict[object, Callable[[], None]]] = {}
        self._lock = RLock()
        # Of their own: a page that arrives must not wait for the disk.
        self._watching = RLock()

    def begin(self, plan: Plan, who: str) -> str:
        """Begin a walk, saved; return its id.

        Raises:
            InputError: `who` does not hold.
            MachineError: it could not be saved.
        """
        id_ = walk_id(self._clock().utc, self._new_id())
        with self._lock:
            body = {"walk": id_, "plan": plan, "number": self._store.next_number()}
            first = self._sealed(Began, None, who, body)
            walk = advance(Walk(), first)
            self._store.create(first)
            self._live[id_] = walk
            self._store.refresh(walk)
        _log.info("Walk %s begins", id_)
        return id_

    def walk(self, walk_id: str) -> Walk:
        """Give the walk as it is now.

        Raises:
            InputError: there is no such walk.
            MachineError: it cannot be read, or not understood.
        """
        live = self._live.get(walk_id)
        if live is not None:
            return live
        with self._lock:
            if walk_id not in self._live:
                loaded = self._store.load(walk_id)
                if not loaded.events:
                    raise MachineError(loaded.notice)
                try:
                    self._live[walk_id] = replace(fold(loaded.events), id=walk_id)
                except NotNowError as error:
                    raise MachineError(
                        message("walk-not-understood", walk=walk_id, why=error.text)
                    ) from error
                self._notices[walk_id] = loaded.notice
            return self._live[walk_id]

    def notice(self, walk_id: str) -> str:
        """Give one sentence about damage to the walk's file; empty if all is well."""
        self.walk(walk_id)
        return self._notices.get(walk_id, "")

    def do(self, walk_id: str, who: str, *changes: Change) -> Walk:
        """Let these things happen, all or none, in one write; return the walk after them.

        Raises:
            NotNowError: the walk does not allow one of them now.
            InputError: one of them says something that cannot be.
            MachineError: they could not be saved.
        """
        with self._lock:
            walk = self._saved(walk_id, who, changes)
        self._tell(walk_id)
        return walk

    @contextmanager
    def still(self) -> Iterator[None]:
        """Let nothing happen in any walk of this process until the end of the block."""
        with self._lock:
            yield

    def take_in(self, walk_id: str, file: WalkFile) -> None:
        """Go on with a walk as it was brought from elsewhere, saved.

        Args:
            walk_id: what it is kept under here: new, or of a walk that is a beginning of it.
            file: what it is to hold; its events lead to a walk.

        Raises:
            MachineError: it could not be saved; all is as it was before.
        """
        with self._lock:
            self._store.take_in(walk_id, file)
            if walk_id in self._live:
                self._live[walk_id] = replace(fold(file.events), id=walk_id)
        self._tell(walk_id)

    def forget(self, walk_id: str) -> None:
        """Know nothing more of a walk that was taken out for good."""
        with self._lock:
            self._live.pop(walk_id, None)
            self._notices.pop(walk_id, None)

    def mend_hold(self, walk_id: str) -> None:
        """Void the running air hold if its time cannot be trusted any more.

        Raises:
            MachineError: that could not be saved.
        """
        with self._lock:
            walk = self.walk(walk_id)
            hold = walk.holds.get(walk.here.id) if walk.here else None
            why = hold.time_trouble(self._clock()) if hold and walk.phase == "holding" else ""
            if not walk.here or not why:
                return
            self._saved(walk_id, NOBODY, [(HoldVoided, {"step": walk.here.id, "why": why})])
        self._tell(walk_id)

    def watch(self, walk_id: str, callback: Callable[[], None]) -> Callable[[], None]:
        """Have `callback` called after each change of the walk; call what is returned to stop."""
        token = object()
        with self._watching:
            self._watchers.setdefault(walk_id, {})[token] = callback

        def stop() -> None:
            with self._watching:
                self._watchers.get(walk_id, {}).pop(token, None)

        return stop

    def _saved(self, walk_id: str, who: str, changes: Sequence[Change]) -> Walk:
        before = self.walk(walk_id)
        walk = before
        for kind, body in changes:
            walk = advance(walk, self._sealed(kind, walk.events[-1], who, body))
        new = walk.events[len(before.events) :]
        self._store.append(walk_id, new)
        self._live[walk_id] = walk
        self._store.refresh(walk)
        if walk.phase == "finished" != before.phase:
            _log.info("Walk %s is finished", walk_id)
        return walk

    def _sealed(self, kind: type[_E], after: Event | None, who: str, body: Mapping[str, Any]) -> _E:
        try:
            return seal(kind, after, id=self._new_id(), at=self._clock(), who=who, **body)
        except ValidationError as error:
            raise InputError(problems_of(error, kind.__name__.lower())) from error

    def _tell(self, walk_id: str) -> None:
        """One watcher's failure is neither the other watchers' nor the mechanic's."""
        with self._watching:
            watchers = tuple(self._watchers.get(walk_id, {}).values())
        for callback in watchers:
            try:
                callback()
            except Exception:
                _log.exception("A watcher of walk %s failed", walk_id)
