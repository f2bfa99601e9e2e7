"""Open walks: a change asked for becomes a saved event, or nothing at all happens."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from support.stores import MemoryStore
from support.walks import STEPS, WALK_ID, FakeClock, begun, new_ids, plan

from walkaround.base.errors import InputError, MachineError, NotNowError
from walkaround.records.open_walks import NOBODY, OpenWalks
from walkaround.records.store import WalkStore
from walkaround.walk.events import (
    Answered,
    Began,
    Finished,
    HoldBegan,
    HoldVoided,
    Noted,
    Paused,
    ReadingTaken,
    Resumed,
)
from walkaround.walk.seals import event_json, good_events

OK_CHOCKS = (Answered, {"step": "chocks", "answer": "ok"})
HOLD = "supply_hold"


@pytest.fixture
def store() -> MemoryStore:
    return MemoryStore()


@pytest.fixture
def clock() -> FakeClock:
    return FakeClock()


@pytest.fixture
def open_walks(store: MemoryStore, clock: FakeClock) -> OpenWalks:
    return OpenWalks(store, clock, new_ids())


@pytest.fixture
def real_store(tmp_path: Path) -> Iterator[WalkStore]:
    opened = WalkStore(tmp_path)
    yield opened
    opened.close()


def test_a_walk_begins_saved_under_an_id_of_its_second(
    open_walks: OpenWalks, store: MemoryStore
) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    assert id_.startswith("20261125_081502_")
    (first,) = store.walks[id_]
    assert isinstance(first, Began)
    assert (first.who, first.walk, first.plan, first.number) == ("Ana", id_, plan(), 1)
    assert open_walks.walk(id_).here == STEPS[0]
    assert open_walks.notice(id_) == ""
    assert store.refreshed == ["stepping"]


def test_what_is_wished_is_sealed_with_the_moment_and_saved(
    open_walks: OpenWalks, store: MemoryStore, clock: FakeClock
) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    clock.wait(5)
    walk = open_walks.do(id_, "Ben", OK_CHOCKS)
    assert walk is open_walks.walk(id_)
    assert walk.events == store.walks[id_]
    event = walk.events[-1]
    assert (event.who, event.at.utc) == ("Ben", datetime(2026, 11, 25, 8, 15, 7, tzinfo=UTC))
    assert good_events(map(event_json, walk.events)) == walk.events


def test_several_wishes_are_one_write_and_one_telling(
    open_walks: OpenWalks, store: MemoryStore
) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    told: list[int] = []
    open_walks.watch(id_, lambda: told.append(len(store.walks[id_])))
    writes = store.writes
    open_walks.do(id_, "Ana", (Noted, {"step": "chocks", "text": "mud"}), OK_CHOCKS)
    assert store.writes == writes + 1
    assert told == [3]


def test_of_several_wishes_all_happen_or_none(open_walks: OpenWalks, store: MemoryStore) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    before = open_walks.walk(id_)
    with pytest.raises(NotNowError):
        open_walks.do(id_, "Ana", OK_CHOCKS, OK_CHOCKS)
    assert open_walks.walk(id_) is before
    assert store.walks[id_] == before.events


def test_the_same_answer_twice_is_stored_once(open_walks: OpenWalks, store: MemoryStore) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    open_walks.do(id_, "Ana", OK_CHOCKS)
    with pytest.raises(NotNowError, match="not the one being asked"):
        open_walks.do(id_, "Ana", OK_CHOCKS)
    assert [event.kind for event in store.walks[id_]] == ["began", "answered"]


def test_a_store_that_fails_changes_nothing_and_tells_nobody(
    open_walks: OpenWalks, store: MemoryStore
) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    before = open_walks.walk(id_)
    told: list[str] = []
    open_walks.watch(id_, lambda: told.append("changed"))
    store.broken = True
    with pytest.raises(MachineError):
        open_walks.do(id_, "Ana", OK_CHOCKS)
    with pytest.raises(MachineError):
        open_walks.begin(plan(), "Ana")
    assert open_walks.walk(id_) is before
    assert (told, list(store.walks)) == ([], [id_])
    store.broken = False
    assert len(open_walks.do(id_, "Ana", OK_CHOCKS).events) == 2
    assert told == ["changed"]


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        (Noted, {"step": "chocks", "text": "x" * 501}),
        (ReadingTaken, {"step": HOLD, "gauge": "supply", "at_s": 0.0, "psi": 400.0}),
        (Answered, {"step": "chocks", "answer": "fine"}),
    ],
)
def test_what_cannot_be_is_told_in_a_sentence(open_walks: OpenWalks, kind: Any, body: Any) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    with pytest.raises(InputError) as caught:
        open_walks.do(id_, "Ana", (kind, body))
    (problem,) = caught.value.problems
    assert problem.key in body
    assert len(open_walks.walk(id_).events) == 1


def test_the_list_of_walks_is_told_of_every_change(
    open_walks: OpenWalks, store: MemoryStore
) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    open_walks.do(id_, "Ana", OK_CHOCKS)
    for kind in (Paused, Resumed, Finished):
        open_walks.do(id_, "Ana", (kind, {}))
    assert store.refreshed == ["stepping", "stepping", "paused", "stepping", "finished"]


def test_walks_are_numbered_in_the_order_in_which_they_begin(
    open_walks: OpenWalks, clock: FakeClock
) -> None:
    """The wall clock may have been set back a year meanwhile."""
    first = open_walks.begin(plan(), "Ana")
    clock.began = clock.began.replace(year=2025)
    second = open_walks.begin(plan(), "Ana")
    assert first > second
    numbers = [walk.events[0].number for walk in map(open_walks.walk, (first, second))]
    assert numbers == [1, 2]


def test_watchers_are_told_until_they_stop(open_walks: OpenWalks) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    told: list[str] = []
    stop = [open_walks.watch(id_, partial(told.append, name)) for name in "ab"]
    open_walks.do(id_, "Ana", OK_CHOCKS)
    stop[0]()
    stop[0]()
    open_walks.do(id_, "Ana", (Noted, {"step": "chocks", "text": "mud"}))
    assert told == ["a", "b", "b"]


def test_a_watcher_may_call_the_desk_from_another_thread(open_walks: OpenWalks) -> None:
    """The lock is given back before watchers are told, or this would never end."""
    id_ = open_walks.begin(plan(), "Ana")

    def ask_elsewhere() -> None:
        asking = threading.Thread(target=lambda: open_walks.watch(id_, lambda: None)())
        asking.start()
        asking.join()

    open_walks.watch(id_, ask_elsewhere)
    open_walks.do(id_, "Ana", OK_CHOCKS)


def test_a_watcher_that_fails_is_nobody_elses_trouble(
    open_walks: OpenWalks, caplog: pytest.LogCaptureFixture
) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    told: list[str] = []
    open_walks.watch(id_, partial(next, iter(())))
    open_walks.watch(id_, lambda: told.append("b"))
    open_walks.do(id_, "Ana", OK_CHOCKS)
    assert told == ["b"]
    assert "StopIteration" in caplog.text


def test_another_desk_takes_the_walk_up_where_it_was(
    open_walks: OpenWalks, store: MemoryStore, clock: FakeClock
) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    open_walks.do(id_, "Ana", OK_CHOCKS)
    store.notice = "It was damaged."
    after_restart = OpenWalks(store, clock)
    assert after_restart.walk(id_) == open_walks.walk(id_)
    assert after_restart.walk(id_) is after_restart.walk(id_)
    assert after_restart.notice(id_) == "It was damaged."


def test_a_walk_of_which_nothing_is_left_is_told(open_walks: OpenWalks, store: MemoryStore) -> None:
    store.walks[WALK_ID] = ()
    store.notice = "Nothing can be read."
    with pytest.raises(MachineError, match="Nothing can be read"):
        open_walks.walk(WALK_ID)


def test_a_walk_with_an_entry_that_is_not_allowed_is_told(
    open_walks: OpenWalks, store: MemoryStore
) -> None:
    teller = begun()
    strange = teller.sealed(Answered, step="vent", answer="ok")
    store.walks[WALK_ID] = (*teller.walk.events, strange)
    with pytest.raises(MachineError, match="does not allow"):
        open_walks.walk(WALK_ID)


def holding(open_walks: OpenWalks) -> str:
    steps = tuple(step for step in STEPS if step.id == HOLD)
    id_ = open_walks.begin(plan(steps), "Ana")
    open_walks.do(id_, "Ana", (HoldBegan, {"step": HOLD}))
    return id_


@pytest.mark.parametrize(
    ("change", "why"), [({"boot": "boot_b"}, "restarted"), ({"asleep_s": 90.0}, "slept")]
)
def test_a_hold_whose_time_is_lost_is_voided_once(
    open_walks: OpenWalks, clock: FakeClock, change: dict[str, Any], why: str
) -> None:
    id_ = holding(open_walks)
    told: list[str] = []
    open_walks.watch(id_, lambda: told.append("changed"))
    open_walks.void_untrusted_hold(id_)
    assert told == []
    for name, value in change.items():
        setattr(clock, name, value)
    open_walks.void_untrusted_hold(id_)
    open_walks.void_untrusted_hold(id_)
    event = open_walks.walk(id_).events[-1]
    assert isinstance(event, HoldVoided)
    assert why in str(event.why)
    assert (event.who, open_walks.walk(id_).phase, told) == (NOBODY, "stepping", ["changed"])


def test_there_is_nothing_to_mend_without_a_hold(open_walks: OpenWalks, clock: FakeClock) -> None:
    id_ = open_walks.begin(plan(), "Ana")
    clock.boot = "boot_b"
    open_walks.void_untrusted_hold(id_)
    assert len(open_walks.walk(id_).events) == 1


def test_two_threads_that_answer_the_same_step_store_one_answer(real_store: WalkStore) -> None:
    open_walks = OpenWalks(real_store, FakeClock())
    steps = STEPS[2:4] + STEPS[5:]
    id_ = open_walks.begin(plan(steps), "Ana")
    together = threading.Barrier(2)
    refused: list[str] = []

    def answer_all(who: str) -> None:
        for step in steps:
            together.wait()
            try:
                open_walks.do(id_, who, (Answered, {"step": step.id, "answer": "ok"}))
            except NotNowError:
                refused.append(step.id)

    threads = [threading.Thread(target=answer_all, args=(who,)) for who in ("Ana", "Ben")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(refused) == sorted(step.id for step in steps)
    assert open_walks.walk(id_).here is None
    assert real_store.load(id_).events == open_walks.walk(id_).events


def test_two_threads_at_two_walks_lose_nothing(real_store: WalkStore) -> None:
    open_walks = OpenWalks(real_store, FakeClock())
    ids = [open_walks.begin(plan(), who) for who in ("Ana", "Ben")]

    def note(id_: str) -> None:
        for number in range(20):
            open_walks.do(id_, "Ana", (Noted, {"step": "vent", "text": str(number)}))

    threads = [threading.Thread(target=note, args=(id_,)) for id_ in ids]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    for id_ in ids:
        assert len(real_store.load(id_).events) == 21


def test_a_walk_is_found_again_after_a_restart(tmp_path: Path) -> None:
    store = WalkStore(tmp_path)
    open_walks = OpenWalks(store, FakeClock())
    id_ = open_walks.begin(plan(), "Ana")
    walk = open_walks.do(id_, "Ana", OK_CHOCKS)
    store.close()
    store = WalkStore(tmp_path)
    open_walks = OpenWalks(store, FakeClock(boot="boot_b"))
    assert open_walks.walk(id_) == walk
    assert open_walks.do(id_, "Ana", (Paused, {})).phase == "paused"
    assert [line.phase for line in store.overview().lines] == ["paused"]
    store.close()
