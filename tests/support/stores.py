"""Stores for tests: a data folder's files, and a store in memory that fails when told to."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path

from support.walks import WALK_ID, some_events

from walkaround.base.errors import MachineError
from walkaround.disk import locations
from walkaround.records.reader import LoadedWalk
from walkaround.records.store import WalkStore
from walkaround.walk.events import Began, Event
from walkaround.walk.state import Walk

OTHER_ID = "20261126_081502_4f3a9c"


def path_of(data: Path, walk_id: str = WALK_ID) -> Path:
    return locations.walks(data) / f"{walk_id[:4]}-{walk_id[4:6]}" / f"{walk_id}.json"


def saved(store: WalkStore, walk_id: str = WALK_ID) -> tuple[Event, ...]:
    """A walk of four events, saved one by one."""
    first, *others = some_events(walk_id)
    store.create(first)
    for event in others:
        store.append(walk_id, [event])
    return (first, *others)


def forget_month(data: Path, month: str) -> None:
    """Take the lines of a month's walks, "2026-11", out of the list that is kept."""
    with closing(sqlite3.connect(locations.walk_list(data))) as kept, kept:
        kept.execute("DELETE FROM walks WHERE id LIKE ?", (f"{month.replace('-', '')}%",))


def files_in(data: Path) -> set[str]:
    return {file.name for file in data.rglob("*") if file.is_file()}


class MemoryStore:
    """A store that keeps nothing after the test, counts its writes, and fails when told to."""

    def __init__(self) -> None:
        self.walks: dict[str, tuple[Event, ...]] = {}
        self.writes = 0
        self.refreshed: list[str] = []
        self.broken = False
        self.notice = ""

    def create(self, first: Began) -> None:
        self._write(first.walk, (first,))

    def append(self, walk_id: str, events: Sequence[Event]) -> None:
        self._write(walk_id, (*self.walks[walk_id], *events))

    def load(self, walk_id: str) -> LoadedWalk:
        return LoadedWalk(self.walks[walk_id], self.notice)

    def refresh(self, walk: Walk) -> None:
        self.refreshed.append(walk.phase)

    def next_number(self) -> int:
        return len(self.walks) + 1

    def _write(self, walk_id: str, events: tuple[Event, ...]) -> None:
        if self.broken:
            raise MachineError("There is no room left.")
        self.writes += 1
        self.walks[walk_id] = events
