"""One data folder in which the file of a walk, or of the kept list, is damaged again and again."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from support.stores import path_of
from support.walks import WALK_ID, flipped, row_at, row_spans, small_events, some_events

from walkaround.disk import locations
from walkaround.records.reader import LoadedWalk, WalkReader
from walkaround.records.store import WalkStore
from walkaround.records.walk_file import Encoder, new_tables, rows_of, tables_in
from walkaround.records.walk_line import Stamp, WalkLine

SMALL = small_events()
NOW = Encoder().encode(new_tables(rows_of(SMALL)))
BEFORE = Encoder().encode(new_tables(rows_of(SMALL[:-1])))
ROWS = row_spans(NOW)
BITS = (0x01, 0x20, 0x80)
"""The bits flipped: one turns a digit or letter into its neighbour, one its case, one UTF-8."""


class Damage:
    """One data folder in which a walk's files are damaged again and again."""

    def __init__(self, data: Path) -> None:
        self.store = WalkStore(data)
        self.path = path_of(data)
        self.path.parent.mkdir()
        self.before = self.path.with_name(self.path.name + ".prev")

    def load(self, now: bytes | None, before: bytes | None) -> LoadedWalk:
        for file in self.path.parent.iterdir():
            file.unlink()
        for path, data in ((self.path, now), (self.before, before)):
            if data is not None:
                path.write_bytes(data)
        return self.store.load(WALK_ID)

    def check(self, loaded: LoadedWalk, kept: int, now: bytes) -> None:
        """So many events are kept, it is said once, and the damaged file is still there."""
        assert loaded.events == SMALL[:kept]
        assert loaded.notice.count(". ") == bool(kept)
        assert loaded.notice.endswith(".")
        aside = self.path.with_name(self.path.name + ".damaged-1")
        assert (aside if kept else self.path).read_bytes() == now
        # What was saved of it is a sound file now, and the damage stays on the record.
        if kept:
            assert tables_in(self.path.read_bytes())
            assert self.store.load(WALK_ID) == loaded
            assert aside.name in loaded.notice

    def cut_off(self, length: int) -> None:
        """The file ends after so many bytes; with and without the one before its last change."""
        whole, torn = sum(end <= length for _, end in ROWS), NOW[:length]
        self.check(self.load(torn, None), whole, torn)
        self.check(self.load(torn, BEFORE), max(whole, len(SMALL) - 1), torn)

    def flip(self, at: int, bit: int) -> None:
        """One bit is another; with and without the file before the last change."""
        torn, hit = flipped(NOW, at, bit), row_at(ROWS, at)
        self.check(self.load(torn, None), len(SMALL) if hit is None else hit, torn)
        kept = len(SMALL) - 1 if hit == len(SMALL) - 1 else len(SMALL)
        self.check(self.load(torn, BEFORE), kept, torn)


class KeptListDamage:
    """A data folder with three walks, whose kept list is damaged again and again."""

    def __init__(self, data: Path) -> None:
        self._data = data
        store = WalkStore(data)
        for number in range(3):
            walk_id = f"{WALK_ID[:-1]}{number}"
            path = path_of(data, walk_id)
            path.parent.mkdir(exist_ok=True)
            events = some_events(walk_id)[: 2 + number]
            path.write_bytes(Encoder().encode(new_tables(rows_of(events))))
        self.lines = store.overview().lines
        store.close()
        self._path = locations.walk_list(data)
        self.good = self._path.read_bytes()
        assert [line.answered for line in reversed(self.lines)] == [1, 2, 3]

    def mangled(self, lengths: range) -> Iterator[bytes]:
        """The file cut off at these lengths, and with bits flipped at these places."""
        for place in lengths:
            yield self.good[:place]
            yield from (flipped(self.good, place, bit) for bit in BITS)

    def check(self, damaged: bytes, reads: list[str]) -> None:
        """Who reads and who writes show the walks as they are; then the file is whole again.

        Args:
            damaged: what the file holds.
            reads: gets the walks whose files are read.
        """
        self._path.write_bytes(damaged)
        assert WalkReader(self._data).overview().lines == self.lines
        assert self._path.read_bytes() == damaged
        store = WalkStore(self._data)
        assert store.overview().lines == self.lines
        store.close()
        reads.clear()
        assert WalkReader(self._data).overview().lines == self.lines
        assert reads == []


@contextmanager
def read_walks(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[str]]:
    """The walks whose files are read for a list, told as they are."""
    told: list[str] = []
    read_line = WalkReader.read_line

    def tell(self: WalkReader, walk_id: str, stamp: Stamp) -> WalkLine:
        told.append(walk_id)
        return read_line(self, walk_id, stamp)

    with monkeypatch.context() as patch:
        patch.setattr(WalkReader, "read_line", tell)
        yield told
