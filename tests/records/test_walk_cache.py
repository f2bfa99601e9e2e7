"""The kept list of walks: believed only as far as it fits the walks' files, else made anew."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from support.shutfolders import shut
from support.stores import OTHER_ID, path_of, saved
from support.walks import FakeClock, Teller, begun, plan, vehicle

from walkaround.disk import locations
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.records.walk_cache import WalkCache
from walkaround.records.walk_file import WalkFile
from walkaround.records.walk_line import NO_STAMP, Stamp, WalkLine, line_of, unreadable_line
from walkaround.walk.events import Answered, Finished


def some_lines() -> dict[str, WalkLine]:
    """One under way with a defect, one finished, one that cannot be read."""
    going = begun()
    going.ok("chocks")
    going.found("tail_rear", tail_left="dim")
    done = Teller(clock=FakeClock(step_s=5.0))
    done.begin(plan(vehicle=vehicle("trailer_2")), OTHER_ID)
    done.tell(Answered, step="chocks", answer="ok")
    done.tell(Finished)
    lost = unreadable_line(
        "20261127_081502_4f3a9c", NO_STAMP, "It holds \N{SNOWMAN} and '\"; DROP."
    )
    lines = (line_of(going.walk, Stamp(800, 2**62)), line_of(done.walk, Stamp(900, 1)), lost)
    return {line.id: line for line in lines}


LINES = some_lines()


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    path = tmp_path / "kept list #1?.sqlite3"
    WalkCache(path).save(LINES, list)
    return path


def by_id(cache: WalkCache) -> dict[str, WalkLine]:
    return {line.id: line for line in cache.load()}


def rows(path: Path, query: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(path)) as database:
        return list(database.execute(query))


def changed(path: Path, statement: str) -> None:
    with closing(sqlite3.connect(path)) as database, database:
        database.execute(statement)


def test_what_was_kept_is_found_again(kept: Path) -> None:
    assert by_id(WalkCache(kept)) == LINES


def test_what_is_not_there_keeps_nothing_and_is_no_fault(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    assert WalkCache(tmp_path / "none").load() == []
    assert caplog.text == ""
    assert not (tmp_path / "none").exists()


def test_a_change_replaces_a_line_and_what_is_gone_goes(kept: Path) -> None:
    first, second, third = LINES.values()
    WalkCache(kept).save({first.id: first._replace(answered=3), second.id: None}, list)
    assert by_id(WalkCache(kept)) == {first.id: first._replace(answered=3), third.id: third}


def test_walks_with_the_same_steps_ok_share_one_list_of_them(kept: Path) -> None:
    copies = [LINES[OTHER_ID]._replace(id=f"20261126_081502_00000{n}") for n in range(9)]
    before = rows(kept, "SELECT * FROM ok_lists")
    WalkCache(kept).save({line.id: line for line in copies}, list)
    assert rows(kept, "SELECT * FROM ok_lists") == before
    loaded = by_id(WalkCache(kept))
    assert len({id(loaded[line.id].ok) for line in copies}) == 1


def test_a_path_that_is_no_text_costs_no_other_line(kept: Path) -> None:
    odd = unreadable_line("20261128_081502_4f3a9c", NO_STAMP, "/walks/\udc80 cannot be read.")
    WalkCache(kept).save({odd.id: odd}, list)
    loaded = by_id(WalkCache(kept))
    assert loaded.pop(odd.id).trouble == "/walks/? cannot be read."
    assert loaded == LINES


@pytest.mark.parametrize("column", ["line", "check_sum"])
@pytest.mark.parametrize("value", ["NULL", "7", "'[]'", "x'00'", "{column} || ' '"])
def test_a_row_in_which_anything_was_changed_is_not_believed(
    kept: Path, column: str, value: str
) -> None:
    new = value.format(column=column)
    changed(kept, f"UPDATE walks SET {column} = {new} WHERE id = '{OTHER_ID}'")
    cache = WalkCache(kept)
    loaded = by_id(cache)
    assert OTHER_ID not in loaded
    assert loaded.items() <= LINES.items()
    cache.save({}, LINES.values)
    assert by_id(WalkCache(kept)) == LINES


def test_a_list_of_steps_that_was_changed_is_not_believed(kept: Path) -> None:
    changed(kept, "UPDATE ok_lists SET steps = '[\"tail_rear\"]'")
    assert WalkCache(kept).load() == []


def test_what_another_version_kept_is_made_anew_and_not_called_damaged(
    kept: Path, caplog: pytest.LogCaptureFixture
) -> None:
    ((form,),) = rows(kept, "PRAGMA user_version")
    assert isinstance(form, int)
    changed(kept, f"PRAGMA user_version = {form - 1}")
    cache = WalkCache(kept)
    assert cache.load() == []
    assert "is of another version and made anew" in caplog.text
    assert "damaged" not in caplog.text
    cache.save({}, LINES.values)
    assert by_id(WalkCache(kept)) == LINES
    assert rows(kept, "PRAGMA user_version") == [(form,)]


def test_a_file_that_cannot_be_written_is_logged_once_and_let_be(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    cache = WalkCache(tmp_path / "gone" / "kept")
    for _ in range(3):
        cache.save(LINES, LINES.values)
    assert caplog.text.count("is not kept in") == 1


def test_a_list_that_can_no_longer_be_written_stays_as_it_was(
    kept: Path, caplog: pytest.LogCaptureFixture
) -> None:
    with shut(kept.parent, 0o555):
        cache = WalkCache(kept)
        cache.save({OTHER_ID: None}, LINES.values)
        assert "is not kept in" in caplog.text
    assert by_id(WalkCache(kept)) == LINES
    assert list(kept.parent.iterdir()) == [kept]


def test_a_writer_killed_in_the_middle_of_a_change_leaves_the_file_as_it_was(kept: Path) -> None:
    """SQLite's own promise (sqlite.org, "Atomic Commit In SQLite"), also for who only reads."""
    child = os.fork()
    if child == 0:
        try:
            database = sqlite3.connect(kept, isolation_level=None)
            database.execute("PRAGMA synchronous=OFF")
            database.execute("PRAGMA cache_size=1")
            database.execute("BEGIN IMMEDIATE")
            database.execute("UPDATE walks SET line = hex(randomblob(9000))")
        finally:
            os._exit(0)
    os.waitpid(child, 0)
    assert kept.with_name(f"{kept.name}-journal").stat().st_size > 0
    assert by_id(WalkCache(kept)) == LINES


def test_who_reads_waits_for_nobody_for_long(kept: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("walkaround.records.walk_cache._BUSY_S", 0.05)
    with closing(sqlite3.connect(kept, isolation_level=None)) as writer:
        writer.execute("BEGIN EXCLUSIVE")
        assert WalkCache(kept).load() == []
    assert by_id(WalkCache(kept)) == LINES


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A folder with two walks and the kept list of them."""
    store = WalkStore(tmp_path)
    saved(store)
    saved(store, OTHER_ID)
    store.close()
    return tmp_path


def no_walk_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(_: WalkReader, walk_id: str) -> WalkFile:
        raise AssertionError(f"{walk_id} was read")

    monkeypatch.setattr(WalkReader, "read", fail)


def test_a_folder_in_which_nothing_may_be_written_is_listed_from_what_is_kept(
    data: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = WalkReader(data).overview().lines
    no_walk_is_read(monkeypatch)
    with shut(data, 0o555):
        assert WalkReader(data).overview().lines == lines


def test_a_list_that_nobody_may_read_is_made_from_the_walks(data: Path) -> None:
    lines = WalkReader(data).overview().lines
    with shut(locations.walk_list(data)):
        assert WalkReader(data).overview().lines == lines


def test_a_list_copied_from_another_folder_tells_nothing_of_these_walks(
    data: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    elsewhere = tmp_path_factory.mktemp("elsewhere")
    store = WalkStore(elsewhere)
    store.create(begun().first)
    store.close()
    locations.walk_list(elsewhere).replace(locations.walk_list(data))
    assert [line.answered for line in WalkReader(data).overview().lines] == [3, 3]
    store = WalkStore(data)
    assert [line.answered for line in store.overview().lines] == [3, 3]
    store.close()


def test_a_full_disk_keeps_no_list_and_shows_it(
    data: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    locations.walk_list(data).unlink()

    def full(*_: object, **__: object) -> sqlite3.Connection:
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr(sqlite3, "connect", full)
    store = WalkStore(data)
    assert len(store.overview().lines) == len(store.overview().lines) == 2
    store.close()
    assert caplog.text.count("database or disk is full") == 1


def test_the_index_of_the_version_before_is_taken_away_and_nothing_else(data: Path) -> None:
    index = locations.unused_index(data)
    index.mkdir()
    for name in ("2026-11.json", "2026-10.json.damaged-1", "2026-10.json.tmp"):
        (index / name).write_bytes(b"{}")
    WalkStore(data).close()
    assert not index.exists()
    index.mkdir()
    (index / "mine.txt").write_text("kept")
    WalkStore(data).close()
    assert (index / "mine.txt").read_text() == "kept"
    assert path_of(data).exists()
