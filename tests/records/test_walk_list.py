"""The list of walks in memory: always as the folder is, and the index written now and then."""

from __future__ import annotations

import os
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import NoReturn

import pytest
from support.stores import OTHER_ID, files_in, path_of, saved
from support.walks import WALK_ID, FakeClock, begun, new_ids, plan, some_events

from walkaround.base.errors import MachineError
from walkaround.disk import locations
from walkaround.records.index_file import index_in
from walkaround.records.month_folders import FolderState
from walkaround.records.open_walks import OpenWalks
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.records.walk_file import WalkFile
from walkaround.records.walk_list import ENDS_AT_ONCE
from walkaround.walk.events import Answered, Finished, Noted

INDEX = "2026-11.json"
LONG_AGO_NS = 1_700_000_000_000_000_000


@pytest.fixture
def store(tmp_path: Path) -> Iterator[WalkStore]:
    opened = WalkStore(tmp_path)
    yield opened
    opened.close()


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The walks whose files are read."""
    told: list[str] = []
    was = WalkReader._read

    def read(self: WalkReader, walk_id: str) -> WalkFile:
        told.append(walk_id)
        return was(self, walk_id)

    monkeypatch.setattr(WalkReader, "_read", read)
    return told


def age(data: Path) -> None:
    """The folders of walks were last changed long ago."""
    for folder in locations.walks(data).iterdir():
        os.utime(folder, ns=(LONG_AGO_NS, LONG_AGO_NS))


def opened_again(data: Path) -> WalkStore:
    store = WalkStore(data)
    store.overview()
    return store


def test_a_walk_at_the_desk_is_never_read_for_the_list(
    store: WalkStore, reads: list[str], tmp_path: Path
) -> None:
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    assert [line.answered for line in store.lines()] == [0]
    reads.clear()
    open_walks.do(id_, "Ana", (Answered, {"step": "chocks", "answer": "ok"}))
    (line,) = store.lines()
    assert line.answered == 1
    assert reads == []
    assert WalkReader(tmp_path).lines() == (line,)


def test_the_index_is_written_once_for_many_walks_that_ended(
    store: WalkStore, tmp_path: Path
) -> None:
    store.overview()
    open_walks = OpenWalks(store, FakeClock(step_s=1.0), new_ids())
    index = locations.index(tmp_path) / INDEX
    for _ in range(ENDS_AT_ONCE):
        assert not index.exists() or len(index_in(index.read_bytes()).lines) <= 1
        open_walks.do(open_walks.begin(plan(), "Ana"), "Ana", (Finished, {}))
        store.overview()
    assert len(index_in(index.read_bytes()).lines) == ENDS_AT_ONCE


def test_closing_writes_the_index(tmp_path: Path, reads: list[str]) -> None:
    store = WalkStore(tmp_path)
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    open_walks.do(id_, "Ana", (Answered, {"step": "chocks", "answer": "ok"}))
    lines = store.lines()
    store.close()
    reads.clear()
    assert WalkReader(tmp_path).lines() == lines
    assert reads == []


def test_a_killed_process_costs_the_next_one_only_the_walks_it_changed(
    tmp_path: Path, reads: list[str]
) -> None:
    first = WalkStore(tmp_path)
    saved(first)
    saved(first, OTHER_ID)
    lines = first.lines()
    teller = begun(walk_id="20261127_081502_4f3a9c")
    first.create(teller.first)
    first._writer.give_up()
    reads.clear()
    second = opened_again(tmp_path)
    assert set(second.lines()) > set(lines)
    assert reads == [teller.walk.id]
    second.close()


def test_what_another_hand_did_to_the_folder_is_seen(store: WalkStore, tmp_path: Path) -> None:
    saved(store)
    assert len(store.lines()) == 1
    data = path_of(tmp_path).read_bytes()
    path_of(tmp_path).unlink()
    path_of(tmp_path).with_name(f"{WALK_ID}.json.prev").unlink()
    assert store.lines() == ()
    path_of(tmp_path).write_bytes(data)
    assert [line.id for line in store.lines()] == [WALK_ID]


def test_an_old_month_whose_folder_has_not_changed_is_believed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, reads: list[str]
) -> None:
    store = WalkStore(tmp_path)
    saved(store)
    lines = store.lines()
    store.close()
    index = locations.index(tmp_path) / INDEX
    assert index_in(index.read_bytes()).folder_ns == 0
    age(tmp_path)
    opened_again(tmp_path).close()
    assert index_in(index.read_bytes()).folder_ns == LONG_AGO_NS
    looked = "walkaround.records.reader.sizes_in"
    monkeypatch.setattr(looked, lambda *_: pytest.fail("the folder was looked at"))
    reads.clear()
    again = opened_again(tmp_path)
    assert again.lines() == lines
    assert reads == []
    again._writer.give_up()


def test_what_a_killed_process_left_half_written_is_taken_away(tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    saved(store)
    store.close()
    path_of(tmp_path).with_name(f"{WALK_ID}.json.tmp").write_bytes(b"half")
    age(tmp_path)
    opened_again(tmp_path).close()
    assert not any(name.endswith(".tmp") for name in files_in(tmp_path))


def test_a_file_under_the_name_of_another_walk_is_told_and_not_mixed_up(
    store: WalkStore, tmp_path: Path
) -> None:
    saved(store)
    path_of(tmp_path, OTHER_ID).write_bytes(path_of(tmp_path).read_bytes())
    first, second = store.lines()
    assert f"holds walk {WALK_ID}" in first.trouble + second.trouble
    assert {first.id, second.id} == {WALK_ID, OTHER_ID}


def test_what_stands_where_a_walk_should_and_is_none_is_told(
    store: WalkStore, tmp_path: Path
) -> None:
    saved(store)
    folder = path_of(tmp_path).parent
    (folder / "20261126_081502_000001.json").mkdir()
    (folder / "20261126_081502_000002.json").symlink_to(folder / "nowhere")
    (folder / "20261126_081502_000003.json").write_bytes(b"")
    with (folder / "20261126_081502_000004.json").open("wb") as large:
        large.truncate(5_000_000)
    lines = {line.id[-1]: line for line in store.lines()}
    assert set(lines) == {"c", "1", "2", "3", "4"}
    assert all(lines[at].trouble for at in "1234")
    assert "larger than 4 MB" in lines["4"].trouble
    assert not lines["c"].trouble


def test_a_walk_goes_on_although_the_list_cannot_be_read(
    store: WalkStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    first, *others = some_events()
    store.create(first)
    monkeypatch.setattr("walkaround.records.walk_list.folder_state", lambda _: FolderState())
    store.append(WALK_ID, others)
    assert [line.answered for line in store.lines()] == [3]


def test_a_note_after_the_end_of_a_walk_is_in_the_list_too(store: WalkStore) -> None:
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    open_walks.do(id_, "Ana", (Finished, {}))
    before = store.lines()[0].file_bytes
    open_walks.do(id_, "Ana", (Noted, {"step": "vent", "text": "slow"}))
    assert store.lines()[0].file_bytes > before


def test_a_walk_that_could_not_be_read_once_is_read_at_the_next_start(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = WalkStore(tmp_path)
    saved(store)
    lines = store.lines()
    age(tmp_path)
    with monkeypatch.context() as broken:
        broken.setattr(WalkReader, "_read", lambda *_: _raise(MachineError("It cannot be read.")))
        store.close()
        (locations.index(tmp_path) / INDEX).unlink()
        opened_again(tmp_path).close()
    (line,) = index_in((locations.index(tmp_path) / INDEX).read_bytes()).lines.values()
    assert line.trouble
    again = opened_again(tmp_path)
    assert again.lines() == lines
    again.close()


def test_a_folder_that_goes_away_and_comes_back_costs_no_line(tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    store.overview()
    open_walks.do(id_, "Ana", (Answered, {"step": "chocks", "answer": "ok"}))
    walks = locations.walks(tmp_path)
    walks.rename(tmp_path / "away")
    assert store.lines() == ()
    (tmp_path / "away").rename(walks)
    assert [line.answered for line in store.lines()] == [1]
    walks.rename(tmp_path / "away")
    store.close()
    (tmp_path / "away").rename(walks)
    opened_again(tmp_path).close()


def test_the_line_of_a_walk_whose_file_was_mended_says_what_the_file_says(tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    open_walks.do(id_, "Ana", (Answered, {"step": "chocks", "answer": "ok"}))
    open_walks.do(id_, "Ana", (Finished, {}))
    store.overview()
    path = path_of(tmp_path, id_)
    path.write_bytes(path.read_bytes()[:-30])
    with pytest.raises(MachineError, match="holds 2 entries"):
        open_walks.do(id_, "Ana", (Noted, {"step": "chocks", "text": "slow"}))
    (line,) = store.lines()
    assert (line.phase, line.answered) == ("stepping", 1)
    assert "damaged" in line.trouble
    store.close()


def test_nobody_waits_for_the_list_while_a_disk_is_slow(
    store: WalkStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Screens ask for the list in the thread that draws every page."""
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    store.overview()
    writing, go_on = threading.Event(), threading.Event()
    fsync = os.fsync

    def slow(handle: int) -> None:
        writing.set()
        assert go_on.wait(20)
        fsync(handle)

    monkeypatch.setattr(os, "fsync", slow)
    ok = (Answered, {"step": "chocks", "answer": "ok"})
    tap = threading.Thread(target=lambda: open_walks.do(id_, "Ana", ok))
    tap.start()
    assert writing.wait(20)
    assert [line.answered for line in store.lines()] == [0]
    open_walks.watch(id_, lambda: None)()
    assert open_walks.walk(id_).answers == {}
    go_on.set()
    tap.join()
    assert [line.answered for line in store.lines()] == [1]


def _raise(error: Exception) -> NoReturn:
    raise error
