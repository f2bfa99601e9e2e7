"""Scripted walks, written by processes that are killed: each tells what is saved once it is.

Run as a program this forks a writer for each line that it reads, `FOLDER NUMBER`. The writer
prints `writer PID`, then what is saved, as it goes; once it is dead `ended` is printed.
"""

from __future__ import annotations

import os
import sys
from datetime import timedelta
from pathlib import Path
from typing import NoReturn

from support.walks import BEGAN, HOLD, FakeClock, plan

from walkaround.records.open_walks import Change, OpenWalks
from walkaround.records.store import WalkStore
from walkaround.walk.events import (
    Answered,
    Event,
    Finished,
    HoldBegan,
    HoldEnded,
    Noted,
    Paused,
    ReadingTaken,
    Resumed,
    Revisited,
)

Told = tuple[str, ...]
"""What is saved, word by word: a walk's id, then number and digest of an event."""


def _ok(step: str) -> Change:
    return Answered, {"step": step, "answer": "ok"}


def _read(at_s: float) -> Change:
    return ReadingTaken, {"step": HOLD, "gauge": "supply", "at_s": at_s, "psi": 110.0}


SCRIPT: tuple[tuple[Change, ...], ...] = (
    (_ok("chocks"),),
    ((Answered, {"step": "tail_rear", "answer": "defect", "seen": {"tail_left": "dim"}}),),
    ((Noted, {"step": "tail_rear", "text": "naß"}),),
    ((Paused, {}),),
    ((Resumed, {}),),
    ((Answered, {"step": "backup_rear", "answer": "not_fitted"}),),
    ((Revisited, {"step": "backup_rear", "purpose": "change"}),),
    (_ok("backup_rear"),),
    (_ok("reflectors_rear"),),
    ((HoldBegan, {"step": HOLD}), _read(0.0)),
    (_read(60.0), (HoldEnded, {"step": HOLD}), _ok(HOLD)),
    (_ok("leaks_axle_1"),),
    (_ok("vent"),),
    ((Finished, {}),),
)
"""What is done to a walk after a walk began, one write each; some write several events."""

KINDS = ("began", *(kind.model_fields["kind"].default for group in SCRIPT for kind, _ in group))
"""The events of a scripted walk in order."""

_ENDS = [1 + sum(len(group) for group in SCRIPT[:count]) for count in range(len(SCRIPT) + 1)]


def done(events: tuple[Event, ...]) -> int:
    """How many groups of the script these events are.

    Raises:
        ValueError: they are the script up to somewhere inside a group, or something else.
    """
    if tuple(event.kind for event in events) != KINDS[: len(events)]:
        raise ValueError("not the script")
    return _ENDS.index(len(events))


class Writer:
    """Writes scripted walks, going on where the one before it was killed."""

    def __init__(self, data: Path, number: int) -> None:
        self._number = number
        self._store = WalkStore(data)
        began = BEGAN + timedelta(hours=11 * number)
        self._walks = OpenWalks(self._store, FakeClock(began=began, step_s=0.25))

    def run(self) -> NoReturn:
        """Write until killed."""
        self._store.change_settings({"number": self._number})
        _tell("settings", str(self._number))
        unfinished = [line.id for line in self._store.overview().lines if line.phase != "finished"]
        for walk_id in unfinished:
            self._go_on(walk_id)
        while True:
            walk_id = self._walks.begin(plan(), "Ana")
            self._tell_new(walk_id, 0)
            self._go_on(walk_id)

    def _go_on(self, walk_id: str) -> None:
        for group in SCRIPT[done(self._walks.walk(walk_id).events) :]:
            before = len(self._walks.walk(walk_id).events)
            self._walks.do(walk_id, "Ana", *group)
            self._tell_new(walk_id, before)

    def _tell_new(self, walk_id: str, before: int) -> None:
        for event in self._walks.walk(walk_id).events[before:]:
            _tell(walk_id, str(event.seq), event.digest)


def _tell(*words: str) -> None:
    """One line by one call: a kill leaves it whole or leaves nothing of it."""
    os.write(sys.stdout.fileno(), (" ".join(words) + "\n").encode())


def _fork_writers() -> None:
    for line in sys.stdin:
        folder, _, number = line.rstrip("\n").rpartition(" ")
        pid = os.fork()
        if pid == 0:
            _tell("writer", str(os.getpid()))
            Writer(Path(folder), int(number)).run()
        os.waitpid(pid, 0)
        _tell("ended")


if __name__ == "__main__":
    _fork_writers()
