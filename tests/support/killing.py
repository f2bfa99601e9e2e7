"""Kills writers of scripted walks at random moments and looks at what they left."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from support import scripted
from support.scripted import Told, done

from walkaround.records.reader import LoadedWalk
from walkaround.records.store import WalkStore

START_S = 0.02
"""About as long as a writer takes until it has told its first line."""
LINES = 30
"""A writer is killed after at most so many."""


@dataclass
class Toll:
    """What was counted; all but the first two must stay 0.

    Attributes:
        kills: writers killed.
        told: events told to be saved.
        lost: of these, not found where they belong.
        doubled: walks in which an event is twice, or in another place than scripted.
        damaged: walks read with a word about damage, or not read at all.
        aside: files set aside as damaged.
    """

    kills: int = 0
    told: int = 0
    lost: int = 0
    doubled: int = 0
    damaged: int = 0
    aside: int = 0

    def __str__(self) -> str:
        return (
            f"{self.kills} kills, {self.told} answers acknowledged: {self.lost} lost, "
            f"{self.doubled} doubled, {self.damaged} damaged, {self.aside} files set aside"
        )


class Killer:
    """One data folder, written by one process after another, each killed."""

    def __init__(self, data: Path, server: subprocess.Popen[str], seed: int) -> None:
        self._data = data
        self._server = server
        self._random = random.Random(seed)
        self._events: dict[str, dict[int, str]] = {}
        self._settings = -1
        self.toll = Toll()

    def kill_one(self) -> None:
        """Start a writer, kill it somewhere, look at the walks it wrote."""
        told = self._killed()
        walks = {words[0] for words in told if words[0] != "settings"}
        for words in told:
            self._note(words)
        self._look(walks)

    def look_at_all(self) -> None:
        """Look at every walk told of so far."""
        self._look(set(self._events))

    def _killed(self) -> list[Told]:
        moments = self._random
        self._say(f"{self._data} {self.toll.kills}")
        word, pid = self._hear()
        assert word == "writer"
        told: list[Told] = []
        for _ in range(moments.choice([0, moments.randrange(LINES), moments.randrange(LINES)])):
            told.append(self._hear())
        time.sleep(moments.random() * (0.003 if told else START_S))
        os.kill(int(pid), signal.SIGKILL)
        self.toll.kills += 1
        while (words := self._hear()) != ("ended",):
            told.append(words)
        return told

    def _say(self, line: str) -> None:
        assert self._server.stdin is not None
        self._server.stdin.write(line + "\n")
        self._server.stdin.flush()

    def _hear(self) -> Told:
        assert self._server.stdout is not None
        words = tuple(self._server.stdout.readline().split())
        assert words, "The writers' parent has ended."
        return words

    def _note(self, words: Told) -> None:
        if words[0] == "settings":
            self._settings = int(words[1])
            return
        walk_id, seq, digest = words
        self._events.setdefault(walk_id, {})[int(seq)] = digest
        self.toll.told += 1

    def _look(self, walks: set[str]) -> None:
        """Open the store as the next process would: that alone shows that the lock is free."""
        store = WalkStore(self._data)
        lines = {line.id: line for line in store.overview().lines}
        begun = {id_ for id_, line in lines.items() if line.phase != "finished"}
        for walk_id in walks | begun:
            self._count(walk_id, store.load(walk_id))
        self.toll.damaged += sum(bool(line.trouble) for line in lines.values())
        self.toll.lost += len(set(self._events) - set(lines))
        saved = store.load_settings().get("number", -1)
        self.toll.lost += saved < self._settings
        self.toll.aside += sum("damaged" in file.name for file in self._data.rglob("*"))
        store.close()

    def _count(self, walk_id: str, loaded: LoadedWalk) -> None:
        events = loaded.events
        stored = {event.seq: event.digest for event in events}
        told = self._events.get(walk_id, {})
        self.toll.lost += sum(stored.get(seq) != digest for seq, digest in told.items())
        self.toll.damaged += bool(loaded.notice)
        again = max(Counter(event.id for event in events).values())
        try:
            done(events)
        except ValueError:
            again += 1
        self.toll.doubled += again > 1


@contextmanager
def killer(data: Path, seed: int) -> Iterator[Killer]:
    """A killer with the process that forks its writers; importing once makes a kill cheap."""
    with subprocess.Popen(
        [sys.executable, "-m", "support.scripted"],
        cwd=Path(scripted.__file__).parents[1],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as server:
        yield Killer(data, server, seed)
        assert server.stdin is not None
        server.stdin.close()
