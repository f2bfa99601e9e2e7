"""Walks on disk, written: what is saved is found again, and a write that fails costs nothing."""

from __future__ import annotations

import errno
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from support.shutfolders import shut
from support.stores import OTHER_ID, files_in, path_of, saved
from support.walks import WALK_ID, FakeClock, begun, new_ids, plan, some_events, step

from walkaround.base.errors import InputError, MachineError
from walkaround.disk import locations
from walkaround.records.open_walks import OpenWalks
from walkaround.records.reader import LoadedWalk, WalkReader, previous_path
from walkaround.records.store import WalkStore
from walkaround.walk.events import Answered, Event, Finished, Noted
from walkaround.walk.seals import event_json


@pytest.fixture
def store(tmp_path: Path) -> Iterator[WalkStore]:
    opened = WalkStore(tmp_path)
    yield opened
    opened.close()


def test_what_was_saved_is_loaded_again(store: WalkStore, tmp_path: Path) -> None:
    events = saved(store)
    assert store.load(WALK_ID) == LoadedWalk(events)
    assert WalkReader(tmp_path).load(WALK_ID).events == events


def test_what_was_saved_is_loaded_by_the_next_process(tmp_path: Path) -> None:
    first = WalkStore(tmp_path)
    events = saved(first)
    first.close()
    second = WalkStore(tmp_path)
    assert second.load(WALK_ID).events == events
    second.close()


def test_several_events_are_saved_in_one_write(
    store: WalkStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    first, *others = some_events()
    store.create(first)
    replaced: list[Path] = []
    replace = os.replace

    def told_replace(old: Path, new: Path) -> None:
        replaced.append(Path(new))
        replace(old, new)

    monkeypatch.setattr(os, "replace", told_replace)
    store.append(WALK_ID, others)
    assert [path.suffix for path in replaced] == [".prev", ".json"]
    assert store.load(WALK_ID).events == (first, *others)


def test_an_append_reads_nothing(store: WalkStore, monkeypatch: pytest.MonkeyPatch) -> None:
    first, *others = some_events()
    store.create(first)
    monkeypatch.setattr(Path, "read_bytes", lambda _: pytest.fail("the file was read"))
    store.append(WALK_ID, others[:1])


def test_a_walk_goes_on_in_the_next_process(tmp_path: Path) -> None:
    teller = begun()
    first = WalkStore(tmp_path)
    first.create(teller.first)
    first.close()
    teller.ok("chocks")
    second = WalkStore(tmp_path)
    second.append(WALK_ID, teller.walk.events[1:])
    assert second.load(WALK_ID).events == teller.walk.events
    second.close()


def test_a_note_is_saved_after_a_walk_was_finished(store: WalkStore) -> None:
    teller = begun()
    store.create(teller.first)
    teller.tell(Finished)
    store.append(WALK_ID, teller.walk.events[1:])
    teller.tell(Noted, step="vent", text="slow")
    store.append(WALK_ID, teller.walk.events[2:])
    assert store.load(WALK_ID).events == teller.walk.events


def test_the_file_is_json_in_utf_8_with_one_event_on_a_line(
    store: WalkStore, tmp_path: Path
) -> None:
    teller = begun()
    store.create(teller.first)
    teller.tell(Noted, step="vent", text="dünn, 刹车")
    store.append(WALK_ID, teller.walk.events[1:])
    text = path_of(tmp_path).read_text(encoding="utf-8")
    assert "dünn, 刹车" in text
    tables = json.loads(text)
    assert tables["about"]["1"]["schema"] == 1
    assert list(tables["events"].values()) == [event_json(event) for event in teller.walk.events]
    assert len([line for line in text.splitlines() if '"seq"' in line]) == 2


def test_an_unknown_walk_is_told_in_one_sentence(store: WalkStore) -> None:
    with pytest.raises(InputError, match="there is no such walk"):
        store.load(OTHER_ID)
    with pytest.raises(InputError, match="there is no such walk"):
        store.append(OTHER_ID, [])


@pytest.mark.parametrize("odd", ["../settings", "20261125_081502_4f3a9c/../x", ""])
def test_what_is_no_walk_id_is_refused(store: WalkStore, odd: str) -> None:
    with pytest.raises(InputError, match="no walk id"):
        store.load(odd)


def test_a_walk_is_created_once(store: WalkStore) -> None:
    events = saved(store)
    with pytest.raises(MachineError, match="already"):
        store.create(some_events()[0])
    assert store.load(WALK_ID).events == events


def test_events_that_do_not_go_on_where_the_file_ends_are_refused(store: WalkStore) -> None:
    events = saved(store)
    for wrong in (events[-1:], events[:1]):
        with pytest.raises(MachineError, match="holds 4 entries"):
            store.append(WALK_ID, wrong)
    assert store.load(WALK_ID).events == events


def test_a_walk_in_a_shut_month_is_told_when_it_is_opened_and_a_new_one_when_it_begins(
    tmp_path: Path,
) -> None:
    first = WalkStore(tmp_path)
    going = OpenWalks(first, FakeClock(), new_ids()).begin(plan(), "Ana")
    first.close()
    folder = path_of(tmp_path, going).parent
    later = FakeClock()
    later.wait(60.0)
    with shut(folder) as open_again:
        store = WalkStore(tmp_path)
        open_walks = OpenWalks(store, later, new_ids())
        with pytest.raises(MachineError, match=r"\.json cannot be read \(permission denied\); "):
            open_walks.walk(going)
        with pytest.raises(MachineError, match=r"\.json cannot be written \(permission denied\); "):
            open_walks.begin(plan(), "Ana")
        open_again()
        assert len(list(folder.iterdir())) == 1
        assert open_walks.walk(going).answers == {}
        new = open_walks.begin(plan(), "Ana")
        assert [line.id for line in store.overview().lines] == [new, going]
        store.close()


@pytest.mark.parametrize("call", ["fsync", "replace"])
@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES])
def test_an_append_that_fails_leaves_disk_and_memory_as_they_were(
    store: WalkStore, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str, number: int
) -> None:
    events = saved(store)
    before = path_of(tmp_path).read_bytes()

    def fail(*_: object) -> None:
        raise OSError(number, os.strerror(number))

    follow = _following(events)
    with monkeypatch.context() as patch:
        patch.setattr(os, call, fail)
        with pytest.raises(MachineError):
            store.append(WALK_ID, [follow])
        with pytest.raises(MachineError):
            store.create(some_events(OTHER_ID)[0])
    assert path_of(tmp_path).read_bytes() == before
    assert not any(name.endswith(".tmp") for name in files_in(tmp_path))
    assert store.load(WALK_ID).events == events
    store.append(WALK_ID, [follow])
    store.create(some_events(OTHER_ID)[0])
    assert store.load(WALK_ID).events == (*events, follow)


@pytest.mark.parametrize("damaged", [b"", b"garbage", None])
@pytest.mark.parametrize("failed", [False, True])
def test_a_file_damaged_while_its_walk_goes_on_is_whole_again_after_the_next_answer(
    store: WalkStore,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    damaged: bytes | None,
    failed: bool,
) -> None:
    """Its copy of before its last change, too; also if an answer could not be saved meanwhile."""
    events = saved(store)
    follow = _following(events)
    if failed:
        with monkeypatch.context() as patch:
            patch.setattr(os, "fsync", lambda _: (_ for _ in ()).throw(OSError(errno.EIO, "EIO")))
            with pytest.raises(MachineError):
                store.append(WALK_ID, [follow])
    for path in (path_of(tmp_path), previous_path(path_of(tmp_path))):
        path.unlink()
        if damaged is not None:
            path.write_bytes(damaged)
    store.append(WALK_ID, [follow])
    assert store.load(WALK_ID) == LoadedWalk((*events, follow))
    aside = path_of(tmp_path).with_name(f"{path_of(tmp_path).name}.damaged-1")
    assert (aside.read_bytes() if aside.exists() else None) == damaged


def test_a_file_that_something_else_put_there_is_set_aside_with_a_word(
    store: WalkStore, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    """A backup put back under a running app, say; what the app knows stands."""
    events = saved(store)
    path = path_of(tmp_path)
    foreign = path.read_bytes().replace(b"tail_rear", b"tail_side")
    path.unlink()
    path.write_bytes(foreign)
    follow = _following(events)
    store.append(WALK_ID, [follow])
    assert store.load(WALK_ID) == LoadedWalk((*events, follow))
    aside = path.with_name(f"{path.name}.damaged-1")
    assert aside.read_bytes() == foreign
    assert f"was changed by something else; that is kept as {aside}" in caplog.text


def _following(events: tuple[Event, ...]) -> Event:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dim")
    teller.tell(Answered, step="backup_rear", answer="not_fitted")
    assert teller.walk.events == events
    teller.ok("reflectors_rear")
    return teller.walk.events[-1]


SMALL_DISK = """
import resource, sys
from pathlib import Path
sys.path[:0] = [sys.argv[2]]
import support.english
from support.walks import WALK_ID, begun
from walkaround.base.errors import MachineError
from walkaround.walk.events import Noted
from walkaround.records.store import WalkStore
store = WalkStore(Path(sys.argv[1]))
teller = begun()
store.create(teller.first)
resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))
try:
    while True:
        before = teller.walk
        teller.tell(Noted, step="chocks", text="x" * 500)
        store.append(WALK_ID, teller.walk.events[-1:])
except MachineError as error:
    print(error)
assert store.load(WALK_ID).events == before.events
assert len(before.events) > 5
"""


def test_a_real_limit_of_the_system_is_told_and_costs_nothing(tmp_path: Path) -> None:
    code = [sys.executable, "-c", SMALL_DISK, str(tmp_path), str(Path(__file__).parents[1])]
    done = subprocess.run(code, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("There is no room left to save")
    assert done.stdout.count("\n") == 1
    assert not any(name.endswith(".tmp") for name in files_in(tmp_path))


def test_settings_are_saved_in_place_of_those_of_the_same_names(
    store: WalkStore, tmp_path: Path
) -> None:
    assert store.load_settings() == {}
    store.change_settings({"wording": "long", "voice": False})
    store.change_settings({"wording": "short", "gauges": {"supply": 1, "service": 2}})
    assert store.load_settings()["wording"] == "short"
    assert store.load_settings()["voice"] is False
    store.change_settings({"gauges": {"supply": 3}})
    assert store.load_settings()["gauges"] == {"supply": 3, "service": 2}
    saved_in = json.loads(locations.settings(tmp_path).read_bytes())
    assert saved_in["settings"]["1"]["schema"] == 1


@pytest.mark.parametrize("junk", [b"", b"{", b"[]", b'{"settings": 3}'])
def test_damaged_settings_are_set_aside_with_a_word(
    store: WalkStore, tmp_path: Path, junk: bytes, caplog: pytest.LogCaptureFixture
) -> None:
    path = locations.settings(tmp_path)
    path.write_bytes(junk)
    assert store.load_settings() == {}
    assert "settings.json.damaged-1" in caplog.text
    assert path.with_name("settings.json.damaged-1").read_bytes() == junk
    store.change_settings({"voice": True})
    assert store.load_settings() == {"voice": True}


def test_a_walk_that_grew_as_large_as_can_be_read_can_still_be_ended(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("walkaround.records.store.MAX_BYTES", 40_000)
    store, teller = WalkStore(tmp_path), begun()
    store.create(teller.first)
    saved_notes = []

    def fill() -> None:
        for number in range(100):
            teller.tell(Noted, step="chocks", text="x" * 500)
            store.append(WALK_ID, teller.walk.events[-1:])
            saved_notes.append(number)

    with pytest.raises(MachineError, match="holds all that a walk can; end it"):
        fill()
    ended = begun()
    for _ in saved_notes:
        ended.tell(Noted, step="chocks", text="x" * 500)
    assert store.load(WALK_ID).events == ended.walk.events
    ended.tell(Finished)
    store.append(WALK_ID, ended.walk.events[-1:])
    store.close()
    assert path_of(tmp_path).stat().st_size < 40_000
    assert WalkReader(tmp_path).load(WALK_ID).events == ended.walk.events


def test_a_walk_that_could_not_be_read_again_is_not_begun(tmp_path: Path) -> None:
    """One of 24 axles and a hundred long steps was written, and refused after a restart."""
    steps = tuple(step(f"look_{n}", "seen", "look", long="x" * 2000) for n in range(1000))
    store = WalkStore(tmp_path)
    with pytest.raises(MachineError, match="shorten the checklists"):
        store.create(begun(plan(steps)).first)
    assert not store.overview().lines
    store.close()
