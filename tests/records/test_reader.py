"""Lists of walks and their index: newest first, never stale, made anew when damaged."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from support.stores import OTHER_ID, path_of, saved
from support.walks import (
    WALK_ID,
    FakeClock,
    Teller,
    some_events,
)

from walkaround.disk import locations
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.records.walk_file import WalkFile


@pytest.fixture
def store(tmp_path: Path) -> Iterator[WalkStore]:
    opened = WalkStore(tmp_path)
    yield opened
    opened.close()


def many(store: WalkStore, number: int) -> list[str]:
    """So many walks, begun over several months, oldest first."""
    ids = [f"2026{1 + n % 12:02}15_0815{n % 60:02}_{n:06x}" for n in range(number)]
    for id_ in ids:
        store.create(some_events(id_)[0])
    return sorted(ids)


def test_more_than_a_hundred_walks_are_listed_newest_first(
    store: WalkStore, tmp_path: Path
) -> None:
    ids = many(store, 120)
    assert [line.id for line in store.lines()] == ids[::-1]
    assert [line.id for line in WalkReader(tmp_path).lines()] == ids[::-1]


def test_a_list_reads_no_walk_that_has_not_changed(
    store: WalkStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    ids = many(store, 20)
    lines = store.lines()
    read: list[str] = []
    was = WalkStore._read

    def told_read(self: WalkStore, walk_id: str) -> WalkFile:
        read.append(walk_id)
        return was(self, walk_id)

    monkeypatch.setattr(WalkStore, "_read", told_read)
    assert store.lines() == lines
    assert read == []
    store.append(ids[3], some_events(ids[3])[1:])
    read.clear()
    assert {line.id: line.answered for line in store.lines()}[ids[3]] == 3
    assert read == [ids[3]]


def test_an_append_never_writes_the_index(store: WalkStore, tmp_path: Path) -> None:
    first, *others = some_events()
    store.create(first)
    store.append(WALK_ID, others)
    assert list(locations.index(tmp_path).iterdir()) == []


@pytest.mark.parametrize(
    "junk", [b"", b"{", b"[]", b'{"walks":{"1":{"id":3}}}', b'{"walks":[1]}', b"\xff\xfe"]
)
def test_a_damaged_index_is_made_anew_with_a_word(
    store: WalkStore, tmp_path: Path, junk: bytes, caplog: pytest.LogCaptureFixture
) -> None:
    saved(store)
    lines = store.lines()
    index = locations.index(tmp_path) / "2026-11.json"
    was = index.read_bytes()
    index.write_bytes(junk)
    assert WalkReader(tmp_path).lines() == lines
    assert index.read_bytes() == junk
    assert "2026-11.json was damaged" in caplog.text
    store.close()
    again = WalkStore(tmp_path)
    assert again.lines() == lines
    assert index.read_bytes() == was
    assert index.with_name(f"{index.name}.damaged-1").read_bytes() == junk
    again.close()


def test_a_walk_whose_file_was_taken_away_leaves_the_list(store: WalkStore, tmp_path: Path) -> None:
    saved(store)
    saved(store, OTHER_ID)
    assert len(store.lines()) == 2
    for file in path_of(tmp_path).parent.glob(f"{WALK_ID}*"):
        file.unlink()
    assert [line.id for line in store.lines()] == [OTHER_ID]


def test_files_that_are_no_walks_are_not_listed(store: WalkStore, tmp_path: Path) -> None:
    saved(store)
    folder = path_of(tmp_path).parent
    for name in ("notes.json", f"{OTHER_ID[:6]}.json", "20270101_081502_4f3a9c.json", "x.txt"):
        (folder / name).write_bytes(b"{}")
    (folder.parent / "old").mkdir()
    assert [line.id for line in store.lines()] == [WALK_ID]


def test_a_list_is_shown_even_if_its_index_cannot_be_written(
    store: WalkStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    saved(store)

    def fail(*_: object) -> None:
        raise OSError(errno.ENOSPC, "full")

    monkeypatch.setattr(os, "fsync", fail)
    assert [line.id for line in store.lines()] == [WALK_ID]


def test_the_list_says_what_is_wrong_with_a_walk(store: WalkStore, tmp_path: Path) -> None:
    saved(store)
    data = path_of(tmp_path).read_bytes()
    path_of(tmp_path).write_bytes(data[:-20])
    (line,) = store.lines()
    assert "damaged" in line.trouble
    assert line.answered == 2
    assert path_of(tmp_path).read_bytes() == data[:-20]


def test_a_clock_that_was_set_back_does_not_matter_to_the_list(store: WalkStore) -> None:
    teller = Teller(clock=FakeClock(step_s=-60.0))
    teller.begin()
    teller.ok("chocks")
    store.create(teller.first)
    store.append(WALK_ID, teller.walk.events[1:])
    assert [line.answered for line in store.lines()] == [1]
