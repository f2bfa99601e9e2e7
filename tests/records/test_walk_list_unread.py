"""A month whose folder cannot be read: the app starts, the other months are listed, it is said."""

from __future__ import annotations

import logging
import os
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.made_up_vehicles import SEMITRAILER
from support.shutfolders import bound_by_rights, failing, shut
from support.stores import forget_month, path_of
from support.voices import SilentVoice
from support.walks import FakeClock, Teller, new_ids, plan

from walkaround.base.errors import MachineError
from walkaround.bootstrap import build
from walkaround.disk import locations
from walkaround.plan.plan_walk import plan_walk
from walkaround.records import walk_list
from walkaround.records.open_walks import OpenWalks
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.records.walk_line import WalkLine, month_of
from walkaround.walk.events import Answered, Finished

MONTHS = ("2026-08", "2026-09", "2026-10")
BAD = MONTHS[1]
IDS = tuple(f"{month.replace('-', '')}15_081502_{n:06x}" for n, month in enumerate(MONTHS))


def told(teller: Teller, store: WalkStore) -> None:
    store.create(teller.first)
    if more := teller.walk.events[1:]:
        store.append(teller.walk.id, more)


def walk(walk_id: str, number: int, answer: str = "ok", *, finished: bool = True) -> Teller:
    """A walk in which the chocks are set and the tail lamps are like that."""
    teller = Teller(clock=FakeClock(mono_s=1000.0 * number, step_s=1.0))
    teller.begin(walk_id=walk_id, number=number)
    teller.ok("chocks")
    teller.found("tail_rear", answer)
    if finished:
        teller.tell(Finished)
    return teller


def filled(data: Path) -> tuple[WalkLine, ...]:
    """A folder with a walk in each month, the middle one under way with a defect."""
    store = WalkStore(data)
    for number, id_ in enumerate(IDS, start=1):
        bad = month_of(id_) == BAD
        told(walk(id_, number, "defect" if bad else "ok", finished=not bad), store)
    lines = store.overview().lines
    store.close()
    return lines


def folder_of(data: Path, month: str = BAD) -> Path:
    return locations.walks(data) / month


@pytest.fixture
def open_stores() -> Iterator[ExitStack]:
    with ExitStack() as stack:
        yield stack


def opened(data: Path, stack: ExitStack) -> WalkStore:
    store = WalkStore(data)
    stack.callback(store.close)
    return store


@pytest.mark.parametrize("mode", [0o000, 0o300, 0o444, 0o644], ids=oct)
def test_the_other_months_are_listed_the_shut_one_is_told_until_it_is_readable(
    tmp_path: Path, open_stores: ExitStack, mode: int
) -> None:
    lines = filled(tmp_path)
    forget_month(tmp_path, BAD)
    with shut(folder_of(tmp_path), mode) as open_again:
        store = opened(tmp_path, open_stores)
        found = store.overview()
        assert found.lines == tuple(line for line in lines if month_of(line.id) != BAD)
        assert [str(sentence) for sentence in found.unread] == [
            f"Walks may be missing or out of date here: {folder_of(tmp_path)} cannot be read "
            "(permission denied); make it readable for this user."
        ]
        assert WalkReader(tmp_path).overview() == found
        new = OpenWalks(store, FakeClock(), new_ids()).begin(plan(), "Ana")
        assert store.overview().lines[0].id == new
        open_again()
        assert store.overview().unread == ()
        assert set(store.overview().lines) > set(lines)


@settings(max_examples=20, deadline=None)
@given(st.sets(st.sampled_from(MONTHS)))
def test_whichever_months_are_shut_the_others_lines_are_just_those_without_them(
    bad: set[str],
) -> None:
    with TemporaryDirectory() as folder, ExitStack() as stack:
        data = Path(folder)
        lines = filled(data)
        for month in bad:
            forget_month(data, month)
            stack.enter_context(shut(folder_of(data, month)))
        store = opened(data, stack)
        found = store.overview()
        assert found.lines == tuple(line for line in lines if month_of(line.id) not in bad)
        assert len(found.unread) == bool(bad)
        assert all(str(folder_of(data, month)) in "".join(map(str, found.unread)) for month in bad)


def test_what_was_kept_of_a_shut_month_stays_in_sight(
    tmp_path: Path, open_stores: ExitStack
) -> None:
    lines = filled(tmp_path)
    with shut(folder_of(tmp_path)):
        found = opened(tmp_path, open_stores).overview()
    assert [line.id for line in found.lines] == [line.id for line in lines]
    assert [line.id for line in found.going] == [IDS[1]]
    assert len(found.unread) == 1


def test_a_kept_line_of_a_walk_under_way_closes_no_defect_while_its_month_is_shut(
    tmp_path: Path, open_stores: ExitStack
) -> None:
    """Since the line was kept its OK may have become a defect."""
    defects = []
    for finished in (True, False):
        data = tmp_path / str(finished)
        store = WalkStore(data)
        told(walk(IDS[0], 1, "defect"), store)
        told(walk(IDS[1], 2, finished=finished), store)
        assert store.overview().open_defects == {}
        store.close()
        with shut(folder_of(data)) as open_again:
            again = opened(data, open_stores)
            defects.append(again.overview().open_defects)
            open_again()
            assert again.overview().open_defects == {}
    assert defects == [{}, {"pump_trailer_3": {"tail_rear": IDS[0]}}]


def test_what_is_kept_of_a_shut_month_outlives_a_start_without_it(tmp_path: Path) -> None:
    lines = filled(tmp_path)
    with shut(folder_of(tmp_path)):
        for _ in range(2):
            store = WalkStore(tmp_path)
            assert [line.id for line in store.overview().lines] == [line.id for line in lines]
            store.close()
    assert WalkReader(tmp_path).overview().lines == lines


def test_a_month_shut_in_mid_run_is_told_and_loses_nothing(
    tmp_path: Path, open_stores: ExitStack
) -> None:
    store = opened(tmp_path, open_stores)
    teller = walk(IDS[1], 1, "defect", finished=False)
    told(teller, store)
    assert len(store.overview().lines) == 1
    store.append(IDS[1], teller.tell(Finished).events[-1:])
    lines = store.overview().lines
    assert lines[0].phase == "finished"
    with shut(folder_of(tmp_path)) as open_again:
        assert len(store.overview().unread) == 1
        assert store.overview().lines == lines
        store.close()
        open_again()
        again = opened(tmp_path, open_stores)
        assert again.overview().unread == ()
        assert again.overview().lines == lines


def test_no_number_is_given_out_twice_if_a_kept_line_has_it(
    tmp_path: Path, open_stores: ExitStack
) -> None:
    filled(tmp_path)
    for month in (BAD, MONTHS[2]):
        open_stores.enter_context(shut(folder_of(tmp_path, month)))
    store = opened(tmp_path, open_stores)
    assert store.next_number() > len(IDS)


@pytest.mark.parametrize("mode", [0o000, 0o444], ids=oct)
def test_a_folder_of_walks_that_is_shut_as_a_whole_is_one_sentence_and_no_list(
    tmp_path: Path, open_stores: ExitStack, mode: int
) -> None:
    filled(tmp_path)
    store = opened(tmp_path, open_stores)
    walks = locations.walks(tmp_path)
    with shut(walks, mode):
        for ask in (store.overview, store.next_number, WalkReader(tmp_path).overview):
            with pytest.raises(MachineError) as caught:
                ask()
            assert str(caught.value) == (
                f"{walks} cannot be read (permission denied); make it readable for this user."
            )
    assert len(store.overview().lines) == len(IDS)


def test_a_disk_that_fails_is_logged_once_and_not_asked_again_at_every_tap(
    tmp_path: Path,
    open_stores: ExitStack,
    monkeypatch: pytest.MonkeyPatch,
    caplog: pytest.LogCaptureFixture,
) -> None:
    lines = filled(tmp_path)
    caplog.set_level(logging.INFO)
    with failing(monkeypatch, folder_of(tmp_path)) as asked:
        store = opened(tmp_path, open_stores)
        asked.clear()
        caplog.clear()
        for _ in range(5):
            (sentence,) = store.overview().unread
        assert str(sentence).endswith(
            f"{folder_of(tmp_path)} cannot be read (input/output error); check the disk, or put "
            "it back from a backup."
        )
        assert len(asked) == 1
        monkeypatch.setattr(walk_list, "RETRY_S", 0.0)
        store.overview()
        store.overview()
        assert len(asked) == 3
    assert store.overview().unread == ()
    assert store.overview().lines == lines
    assert caplog.messages == [str(sentence), "Every month of walks can be read again."]


def test_a_walk_goes_on_in_a_month_whose_names_cannot_be_read(
    tmp_path: Path, open_stores: ExitStack, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = opened(tmp_path, open_stores)
    open_walks = OpenWalks(store, FakeClock(step_s=1.0), new_ids())
    going = open_walks.begin(plan(), "Ana")
    store.overview()
    with failing(monkeypatch, path_of(tmp_path, going).parent):
        open_walks.do(going, "Ana", (Answered, {"step": "chocks", "answer": "ok"}))
        os.utime(path_of(tmp_path, going).parent)
        assert len(store.overview().unread) == 1
        new = open_walks.begin(plan(), "Ana")
        assert {line.id: line.answered for line in store.overview().lines} == {going: 1, new: 0}


def test_what_is_half_written_and_may_not_be_taken_away_stops_nothing(
    tmp_path: Path, open_stores: ExitStack, caplog: pytest.LogCaptureFixture
) -> None:
    lines = filled(tmp_path)
    (folder_of(tmp_path) / f"{IDS[1]}.json.tmp").write_bytes(b"half")
    with shut(folder_of(tmp_path), 0o555):
        assert opened(tmp_path, open_stores).overview().lines == lines
    assert "What was half written in" in caplog.text


def test_a_month_that_leads_to_itself_is_told(tmp_path: Path, open_stores: ExitStack) -> None:
    lines = filled(tmp_path)
    circle = folder_of(tmp_path, "2026-07")
    circle.symlink_to(circle)
    found = opened(tmp_path, open_stores).overview()
    assert found.lines == lines
    assert f"{circle} cannot be read (too many levels" in "".join(map(str, found.unread))
    with bound_by_rights():
        assert found == WalkReader(tmp_path).overview()


def test_a_defect_found_while_older_walks_were_out_of_sight_stays_open(tmp_path: Path) -> None:
    """Those were OK where it is not now; with no line kept nobody knows their numbers."""
    store = WalkStore(tmp_path)
    for number in (1, 2, 3):
        told(walk(f"20261015_08150{number}_{number:06x}", number), store)
    store.close()
    forget_month(tmp_path, "2026-10")
    with shut(folder_of(tmp_path, "2026-10")) as open_again:
        store = WalkStore(tmp_path)
        late = walk("20261110_081501_00000a", store.next_number(), "defect")
        told(late, store)
        assert store.overview().open_defects
        open_again()
        assert store.overview().open_defects
        store.close()
    with ExitStack() as stack:
        store = opened(tmp_path, stack)
        assert store.overview().open_defects
        assert store.overview().lines[0].id == late.walk.id


def test_no_vehicle_takes_another_id_while_nobody_knows_which_have_walks(tmp_path: Path) -> None:
    """Renamed under a new id it would have lost its walks and their open defects."""
    parts = build(tmp_path, clock=FakeClock(), voice=SilentVoice())
    own_vehicles = parts.own_vehicles
    own = own_vehicles.save(SEMITRAILER.model_copy(update={"name": "Barge trailer 4"}))
    vehicle = own_vehicles.vehicle(own)
    assert vehicle is not None
    walked = parts.open_walks.begin(plan_walk(vehicle, own_vehicles.library.rules), "Ana")
    parts.close()
    forget_month(tmp_path, month_of(walked))
    renamed = vehicle.model_copy(update={"name": "Barge trailer 5"})
    with shut(folder_of(tmp_path, month_of(walked))) as open_again:
        parts = build(tmp_path, clock=FakeClock(), voice=SilentVoice())
        own_vehicles = parts.own_vehicles
        with pytest.raises(MachineError, match="Which vehicles have walks cannot be told now"):
            own_vehicles.save(renamed, own)
        assert (
            own_vehicles.save(vehicle.model_copy(update={"notes": "Left mudguard bent."}), own)
            == own
        )
        open_again()
        assert own_vehicles.save(renamed, own) == own
        parts.close()
