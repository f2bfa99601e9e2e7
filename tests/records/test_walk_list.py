"""The list of walks: newest first, always as the folders are, and kept for the next start."""

from __future__ import annotations

import os
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from support.stores import OTHER_ID, files_in, path_of, saved
from support.walks import WALK_ID, FakeClock, Teller, begun, new_ids, plan, some_events

from walkaround.base.errors import MachineError
from walkaround.disk import locations
from walkaround.records.open_walks import OpenWalks
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.records.walk_file import WalkFile
from walkaround.walk.events import Answered, Finished, Noted

OK_CHOCKS = (Answered, {"step": "chocks", "answer": "ok"})


@pytest.fixture
def store(tmp_path: Path) -> Iterator[WalkStore]:
    opened = WalkStore(tmp_path)
    yield opened
    opened.close()


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The walks whose files are read."""
    told: list[str] = []
    was = WalkReader.read

    def read(self: WalkReader, walk_id: str) -> WalkFile:
        told.append(walk_id)
        return was(self, walk_id)

    monkeypatch.setattr(WalkReader, "read", read)
    return told


def many(store: WalkStore, number: int) -> list[str]:
    """So many walks, begun over several months, oldest first."""
    ids = [f"2026{1 + n % 12:02}15_0815{n % 60:02}_{n:06x}" for n in range(number)]
    for id_ in ids:
        store.create(some_events(id_)[0])
    return sorted(ids)


def opened_again(data: Path) -> WalkStore:
    store = WalkStore(data)
    store.overview()
    return store


def test_a_walk_at_the_desk_is_never_read_for_the_list(
    store: WalkStore, reads: list[str], tmp_path: Path
) -> None:
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    assert [line.answered for line in store.overview().lines] == [0]
    reads.clear()
    open_walks.do(id_, "Ana", OK_CHOCKS)
    (line,) = store.overview().lines
    assert line.answered == 1
    assert reads == []
    assert WalkReader(tmp_path).overview().lines == (line,)


def test_closing_keeps_the_list_for_the_next_start(tmp_path: Path, reads: list[str]) -> None:
    store = WalkStore(tmp_path)
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    open_walks.do(id_, "Ana", OK_CHOCKS)
    lines = store.overview().lines
    store.close()
    reads.clear()
    assert WalkReader(tmp_path).overview().lines == lines
    assert reads == []


def test_a_killed_process_costs_the_next_one_only_the_walks_it_changed_since_a_list_was_shown(
    tmp_path: Path, reads: list[str]
) -> None:
    first = WalkStore(tmp_path)
    saved(first)
    saved(first, OTHER_ID)
    lines = first.overview().lines
    teller = begun(walk_id="20261127_081502_4f3a9c")
    first.create(teller.first)
    first._writer.release()
    reads.clear()
    second = opened_again(tmp_path)
    assert set(second.overview().lines) > set(lines)
    assert reads == [teller.walk.id]
    second.close()


def test_what_another_hand_did_to_the_folder_is_seen(store: WalkStore, tmp_path: Path) -> None:
    saved(store)
    assert len(store.overview().lines) == 1
    data = path_of(tmp_path).read_bytes()
    path_of(tmp_path).unlink()
    path_of(tmp_path).with_name(f"{WALK_ID}.json.prev").unlink()
    assert store.overview().lines == ()
    path_of(tmp_path).write_bytes(data)
    assert [line.id for line in store.overview().lines] == [WALK_ID]


def test_what_a_killed_process_left_half_written_is_taken_away(tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    saved(store)
    store.close()
    path_of(tmp_path).with_name(f"{WALK_ID}.json.tmp").write_bytes(b"half")
    opened_again(tmp_path).close()
    assert not any(name.endswith(".tmp") for name in files_in(tmp_path))


def test_a_file_under_the_name_of_another_walk_is_told_and_not_mixed_up(
    store: WalkStore, tmp_path: Path
) -> None:
    saved(store)
    path_of(tmp_path, OTHER_ID).write_bytes(path_of(tmp_path).read_bytes())
    first, second = store.overview().lines
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
    lines = {line.id[-1]: line for line in store.overview().lines}
    assert set(lines) == {"c", "1", "2", "3", "4"}
    assert all(lines[at].trouble for at in "1234")
    assert "larger than 4 MB" in lines["4"].trouble
    assert not lines["c"].trouble


def test_a_note_after_the_end_of_a_walk_is_in_the_list_too(store: WalkStore) -> None:
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    open_walks.do(id_, "Ana", (Finished, {}))
    before = store.overview().lines[0].stamp
    open_walks.do(id_, "Ana", (Noted, {"step": "vent", "text": "slow"}))
    assert store.overview().lines[0].stamp.size_bytes > before.size_bytes


def test_a_folder_that_goes_away_and_comes_back_costs_no_line(tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    store.overview()
    open_walks.do(id_, "Ana", OK_CHOCKS)
    walks = locations.walks(tmp_path)
    walks.rename(tmp_path / "away")
    assert store.overview().lines == ()
    (tmp_path / "away").rename(walks)
    assert [line.answered for line in store.overview().lines] == [1]
    walks.rename(tmp_path / "away")
    store.close()
    (tmp_path / "away").rename(walks)
    opened_again(tmp_path).close()


def test_the_line_of_a_walk_whose_file_was_mended_says_what_the_file_says(tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    open_walks.do(id_, "Ana", OK_CHOCKS)
    open_walks.do(id_, "Ana", (Finished, {}))
    store.overview()
    path = path_of(tmp_path, id_)
    path.write_bytes(path.read_bytes()[:-30])
    with pytest.raises(MachineError, match="holds 2 entries"):
        open_walks.do(id_, "Ana", (Noted, {"step": "chocks", "text": "slow"}))
    (line,) = store.overview().lines
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
    tap = threading.Thread(target=lambda: open_walks.do(id_, "Ana", OK_CHOCKS))
    tap.start()
    assert writing.wait(20)
    assert [line.answered for line in store.overview().lines] == [0]
    open_walks.watch(id_, lambda: None)()
    assert open_walks.walk(id_).answers == {}
    go_on.set()
    tap.join()
    assert [line.answered for line in store.overview().lines] == [1]


def test_a_walk_whose_file_could_not_be_read_once_is_read_at_the_next_start(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> WalkFile:
        raise MachineError("It cannot be read.")

    store = WalkStore(tmp_path)
    saved(store)
    with monkeypatch.context() as broken:
        broken.setattr(WalkReader, "read", fail)
        (line,) = store.overview().lines
        assert line.trouble
        store.close()
    again = opened_again(tmp_path)
    (line,) = again.overview().lines
    assert (line.trouble, line.answered) == ("", 3)
    again.close()


def test_a_line_made_while_an_answer_was_being_saved_is_not_believed_later(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The file is as after the answer, the walk in memory as before, and the app is killed."""
    store = WalkStore(tmp_path)
    open_walks = OpenWalks(store, FakeClock(), new_ids())
    id_ = open_walks.begin(plan(), "Ana")
    monkeypatch.setattr(store, "refresh", lambda _: store.overview())
    open_walks.do(id_, "Ana", OK_CHOCKS)
    store._writer.release()
    again = opened_again(tmp_path)
    assert [line.answered for line in again.overview().lines] == [1]
    again.close()


def test_more_than_a_hundred_walks_are_listed_newest_first(
    store: WalkStore, tmp_path: Path
) -> None:
    ids = many(store, 120)
    assert [line.id for line in store.overview().lines] == ids[::-1]
    assert [line.id for line in WalkReader(tmp_path).overview().lines] == ids[::-1]


def test_a_list_reads_no_walk_that_has_not_changed(store: WalkStore, reads: list[str]) -> None:
    ids = many(store, 20)
    lines = store.overview().lines
    reads.clear()
    assert store.overview().lines == lines
    assert reads == []
    store.append(ids[3], some_events(ids[3])[1:])
    reads.clear()
    assert {line.id: line.answered for line in store.overview().lines}[ids[3]] == 3
    assert reads == [ids[3]]


def test_a_change_that_leaves_a_file_as_large_as_it_was_is_seen(
    store: WalkStore, tmp_path: Path
) -> None:
    saved(store)
    (before,) = store.overview().lines
    path = path_of(tmp_path)
    data = path.read_bytes()
    path.unlink()
    path.write_bytes(data.replace(b'"dim"', b'"dam"'))
    (line,) = store.overview().lines
    assert line.stamp.size_bytes == before.stamp.size_bytes
    assert "damaged" in line.trouble


def test_an_answer_does_not_touch_the_kept_list(store: WalkStore, tmp_path: Path) -> None:
    first, *others = some_events()
    store.create(first)
    store.append(WALK_ID, others)
    assert not locations.walk_list(tmp_path).exists()


def test_a_walk_whose_file_was_taken_away_leaves_the_list(store: WalkStore, tmp_path: Path) -> None:
    saved(store)
    saved(store, OTHER_ID)
    assert len(store.overview().lines) == 2
    for file in path_of(tmp_path).parent.glob(f"{WALK_ID}*"):
        file.unlink()
    assert [line.id for line in store.overview().lines] == [OTHER_ID]


def test_files_that_are_no_walks_are_not_listed(store: WalkStore, tmp_path: Path) -> None:
    saved(store)
    folder = path_of(tmp_path).parent
    for name in ("notes.json", f"{OTHER_ID[:6]}.json", "20270101_081502_4f3a9c.json", "x.txt"):
        (folder / name).write_bytes(b"{}")
    (folder.parent / "old").mkdir()
    assert [line.id for line in store.overview().lines] == [WALK_ID]


def test_the_list_says_what_is_wrong_with_a_walk(store: WalkStore, tmp_path: Path) -> None:
    saved(store)
    data = path_of(tmp_path).read_bytes()
    path_of(tmp_path).write_bytes(data[:-20])
    (line,) = store.overview().lines
    assert "damaged" in line.trouble
    assert line.answered == 2
    assert path_of(tmp_path).read_bytes() == data[:-20]


def test_a_clock_that_was_set_back_does_not_matter_to_the_list(store: WalkStore) -> None:
    teller = Teller(clock=FakeClock(step_s=-60.0))
    teller.begin()
    teller.ok("chocks")
    store.create(teller.first)
    store.append(WALK_ID, teller.walk.events[1:])
    assert [line.answered for line in store.overview().lines] == [1]
