"""The walks open in this process: the one place where a change becomes a saved event.

What is shown is always what is saved: an event is checked, written to the disk, and only then
part of the open walk. Any thread may call; watchers are called in the same thread, once everything
is done.
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
from walkaround.records.reader import LoadedWalk
from walkaround.records.walk_file import WalkFile
from walkaround.records.walk_line import walk_id
from walkaround.walk.advance import advance, fold
from walkaround.walk.events import Began, Event, HoldVoided
from walkaround.walk.seals import seal
from walkaround.walk.state import Walk

_log = logging.getLogger(__name__)

_E = TypeVar("_E", bound=Event)

Change = tuple[type[Event], Mapping[str, Any]]
"""A change to make: the class of the event and its own fields."""

NOBODY = "walkaround"
"""Recorded as `who` for what the app does by itself, such as voiding an air hold."""


class Store(Protocol):
    """Where walks are saved; `WalkStore` is the real one."""

    def create(self, first: Began) -> None: ...
    def append(self, walk_id: str, events: Sequence[Event]) -> None: ...
    def load(self, walk_id: str) -> LoadedWalk: ...
    def refresh(self, walk: Walk) -> None: ...
    def import_walk(self, walk_id: str, file: WalkFile) -> None: ...
    def next_number(self) -> int: ...


class OpenWalks:
    """The open walks; each is read once, when it is first needed."""

    def __init__(
        self, store: Store, clock: Clock, new_id: Callable[[], str] = lambda: uuid4().hex
    ) -> None:
        """Use these ports.

        Args:
            store: where walks are saved.
            clock: returns the present time.
            new_id: returns 32 new hex digits.
        """
        self._store = store
        self._clock = clock
        self._new_id = new_id
        self._live: dict[str, Walk] = {}
        self._notices: dict[str, str] = {}
        self._watchers: dict[str, dict[object, Callable[[], None]]] = {}
        self._lock = RLock()
        # A lock of their own: a page that opens must not wait for the disk.
        self._watchers_lock = RLock()

    def begin(self, plan: Plan, who: str) -> str:
        """Begin a walk and save it; return its id.

        Raises:
            InputError: `who` is not valid.
            MachineError: it could not be saved.
        """
        id_ = walk_id(self._clock().utc, self._new_id())
        with self._lock:
            body = {"walk": id_, "plan": plan, "number": self._store.next_number()}
            first = self._seal(Began, None, who, body)
            walk = advance(Walk(), first)
            self._store.create(first)
            self._live[id_] = walk
            self._store.refresh(walk)
        _log.info("Walk %s begins", id_)
        return id_

    def walk(self, walk_id: str) -> Walk:
        """Return the current state of a walk.

        Raises:
            InputError: there is no such walk.
            MachineError: it cannot be read, or not understood.
        """
        walk = self._live.get(walk_id)
        if walk is not None:
            return walk
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
        """Return one sentence about damage to the walk's file; empty if there is none."""
        self.walk(walk_id)
        return self._notices.get(walk_id, "")

    def do(self, walk_id: str, who: str, *changes: Change) -> Walk:
        """Make these changes, all or none, in one write; return the walk after them.

        Raises:
            NotNowError: the walk does not allow one of them now.
            InputError: one of them is not valid.
            MachineError: they could not be saved.
        """
        with self._lock:
            walk = self._save(walk_id, who, changes)
        self._notify(walk_id)
        return walk

    @contextmanager
    def paused(self) -> Iterator[None]:
        """Block all changes of walks in this process until the end of the block."""
        with self._lock:
            yield

    def import_walk(self, walk_id: str, file: WalkFile) -> None:
        """Save a walk that was brought from elsewhere, and use it from now on.

        Args:
            walk_id: the id to store it under: a new one, or of a walk that is its beginning.
            file: the walk; its events are valid.

        Raises:
            MachineError: it could not be saved; nothing has changed.
        """
        with self._lock:
            self._store.import_walk(walk_id, file)
            if walk_id in self._live:
                self._live[walk_id] = replace(fold(file.events), id=walk_id)
        self._notify(walk_id)

    def forget(self, walk_id: str) -> None:
        """Forget a walk that was deleted."""
        with self._lock:
            self._live.pop(walk_id, None)
            self._notices.pop(walk_id, None)

    def void_untrusted_hold(self, walk_id: str) -> None:
        """Void the running air hold if its time cannot be trusted any more.

        Raises:
            MachineError: this could not be saved.
        """
        with self._lock:
            walk = self.walk(walk_id)
            hold = walk.holds.get(walk.here.id) if walk.here else None
            why = hold.time_trouble(self._clock()) if hold and walk.phase == "holding" else ""
            if not walk.here or not why:
                return
            self._save(walk_id, NOBODY, [(HoldVoided, {"step": walk.here.id, "why": why})])
        self._notify(walk_id)

    def watch(self, walk_id: str, callback: Callable[[], None]) -> Callable[[], None]:
        """Call `callback` after each change of a walk; return a function that stops this."""
        token = object()
        with self._watchers_lock:
            self._watchers.setdefault(walk_id, {})[token] = callback

        def stop() -> None:
            with self._watchers_lock:
                self._watchers.get(walk_id, {}).pop(token, None)

        return stop

    def _save(self, walk_id: str, who: str, changes: Sequence[Change]) -> Walk:
        before = self.walk(walk_id)
        walk = before
        for kind, body in changes:
            walk = advance(walk, self._seal(kind, walk.events[-1], who, body))
        new = walk.events[len(before.events) :]
        self._store.append(walk_id, new)
        self._live[walk_id] = walk
        self._store.refresh(walk)
        if walk.phase == "finished" != before.phase:
            _log.info("Walk %s is finished", walk_id)
        return walk

    def _seal(
        self, kind: type[_E], previous: Event | None, who: str, body: Mapping[str, Any]
    ) -> _E:
        try:
            return seal(kind, previous, id=self._new_id(), at=self._clock(), who=who, **body)
        except ValidationError as error:
            raise InputError(problems_of(error, kind.__name__.lower())) from error

    def _notify(self, walk_id: str) -> None:
        """Call the watchers of a walk; an error of one affects nobody else."""
        with self._watchers_lock:
            watchers = tuple(self._watchers.get(walk_id, {}).values())
        for callback in watchers:
            try:
                callback()
            except Exception:
                _log.exception("A watcher of walk %s failed", walk_id)
