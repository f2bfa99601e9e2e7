"""A data folder as the version before left it: listed, read, handed on, gone on with to the end.

`data/folder_before.tar.xz` was made by that version: a hundred walks of eight vehicles, with every
power source, in every phase: under way, paused, in the middle of an air hold, finished, ended
early, rechecked, one with a file that was damaged and mended. `walks.json` in it is what that
version's `walkaround walks --json` said of them.
"""

from __future__ import annotations

import csv
import io
import json
import tarfile
from contextlib import ExitStack
from datetime import date
from hashlib import sha256
from pathlib import Path
from random import Random
from typing import Any

import pytest
from support.english import ENGLISH
from support.strangewalk import answered
from support.voices import SilentVoice
from support.walks import FakeClock

from walkaround.bootstrap import build
from walkaround.cli_walks import walks_document
from walkaround.disk import locations
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import default_power, plan_walk
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.report.json_document import walk_json
from walkaround.report.tables import walk_csv
from walkaround.vehicle.model import POWER_UNITS
from walkaround.walk.advance import fold
from walkaround.walk.events import Answered, Finished, Resumed
from walkaround.walk.seals import event_json
from walkaround.walk.state import Walk

ARCHIVE = Path(__file__).parent / "data" / "folder_before.tar.xz"


def unpack(data: Path) -> None:
    with tarfile.open(ARCHIVE) as archive:
        archive.extractall(data, filter="data")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    data = tmp_path_factory.mktemp("before")
    unpack(data)
    return data


@pytest.fixture(scope="module")
def listed_before(folder: Path) -> list[dict[str, Any]]:
    """What the version before said of each walk, the one begun last first."""
    walks: list[dict[str, Any]] = json.loads((folder / "walks.json").read_text())["walks"]
    return walks


@pytest.fixture(scope="module")
def walks(folder: Path, listed_before: list[dict[str, Any]]) -> dict[str, Walk]:
    reader = WalkReader(folder)
    return {line["id"]: fold(reader.load(line["id"]).events) for line in listed_before}


def stored_events(folder: Path, walk_id: str) -> list[dict[str, Any]]:
    """The rows of a walk's file, as plain JSON."""
    (file,) = locations.walks(folder).glob(f"*/{walk_id}.json")
    return list(json.loads(file.read_text(encoding="utf-8"))["events"].values())


def test_there_are_a_hundred_walks_in_every_phase(listed_before: list[dict[str, Any]]) -> None:
    assert len(listed_before) == 100
    assert {walk["phase"] for walk in listed_before} == {
        *("stepping", "paused", "holding", "finished")
    }
    assert {walk["scope"] for walk in listed_before} == {"whole", "lamps", "brakes", "recheck"}
    assert any(walk["cleared"] for walk in listed_before)


def test_each_is_listed_as_the_version_before_listed_it(
    folder: Path, listed_before: list[dict[str, Any]]
) -> None:
    overview = WalkReader(folder).overview()
    assert overview.unread == ()
    listed = json.loads(json.dumps(walks_document(overview.lines)))["walks"]
    # What is told of each besides has come since.
    told_before = [
        {key: walk[key] for key in before}
        for walk, before in zip(listed, listed_before, strict=True)
    ]
    assert told_before == listed_before


def test_each_is_read_with_all_its_events_just_as_they_were_sealed(
    folder: Path, walks: dict[str, Walk]
) -> None:
    for walk in walks.values():
        rows = stored_events(folder, walk.id)
        assert [event_json(event) for event in walk.events] == rows
        chained = "0" * 64
        for row in rows:
            assert row["digest"] == digest(row, chained), (walk.id, row["seq"])
            chained = row["digest"]


def digest(row: dict[str, Any], before: str) -> str:
    """The digest of an event as every version so far computed it, written down here once more."""
    body = {key: value for key, value in row.items() if key != "digest"}
    text = json.dumps(body, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return sha256(f"{before}\n{text}".encode()).hexdigest()


def test_each_can_be_handed_on(folder: Path, walks: dict[str, Walk]) -> None:
    for walk in walks.values():
        record = json.loads(walk_json(walk, ENGLISH))
        assert record["events"] == stored_events(folder, walk.id)
        answers = [event for event in walk.events if isinstance(event, Answered)]
        table = csv.DictReader(io.StringIO(walk_csv(walk, ENGLISH), newline=""))
        rows = [row for row in table if row["fact"] == "answer"]
        assert [row["step"] for row in rows][: len(answers)] == [each.step for each in answers]
        assert len(record["answers"]) == len(rows)
        assert record["counts"]["steps"] == len(walk.steps)


def test_each_that_is_under_way_is_gone_on_with_and_finished(
    tmp_path: Path, walks: dict[str, Walk]
) -> None:
    unpack(tmp_path)
    clock, chance = FakeClock(step_s=1.0), Random(10)
    parts = build(tmp_path, clock=clock, voice=SilentVoice("not needed"))
    under_way = [walk for walk in walks.values() if walk.phase != "finished"]
    assert {line.id for line in parts.store.overview().going} == {walk.id for walk in under_way}
    for walk in under_way:
        last = walk.events[-1].at
        clock.mono_s, clock.boot, clock.began = last.mono_s + 60.0, last.boot, last.utc
        clock.asleep_s = last.asleep_s
        if walk.phase == "paused":
            parts.open_walks.do(walk.id, "Ana", (Resumed, {}))
        if step := walk.here:
            answered(chance, parts, walk.id, "Ana", step)
        parts.open_walks.do(walk.id, "Ana", (Finished, {}))
    assert parts.store.overview().going == ()
    parts.close()
    for walk in under_way:
        events = WalkReader(tmp_path).load(walk.id).events
        assert events[: len(walk.events)] == walk.events
        assert events[-1].kind == "finished"
        assert isinstance(events[-2], Answered) or walk.here is None


def test_what_it_kept_of_its_list_is_taken_away(tmp_path: Path) -> None:
    unpack(tmp_path)
    before = {path for path in tmp_path.rglob("*") if "index" not in path.parts}
    WalkStore(tmp_path).close()
    assert not locations.unused_index(tmp_path).exists()
    assert before <= set(tmp_path.rglob("*"))


def test_vehicles_and_settings_of_its_own_are_there(folder: Path) -> None:
    with ExitStack() as stack:
        parts = build(folder, clock=FakeClock(), voice=SilentVoice("not needed"))
        stack.callback(parts.close)
        vehicle = parts.own_vehicles.vehicle("barge_trailer_4")
        assert vehicle is not None
        assert vehicle.name == "Barge trailer 4"
        assert not parts.library.problems
        settings = parts.settings()
        assert (settings.who, settings.wording, settings.pressure) == ("Ana", "long", "kPa")


def test_every_lamp_defect_of_a_walk_of_before_can_be_rechecked(walks: dict[str, Walk]) -> None:
    """From the source it was found with, or the vehicle's own where that is no longer had."""
    library = load_library(locations.shipped(), today=date(2026, 11, 26))
    for walk in walks.values():
        plan = walk.plan
        assert plan is not None
        wrong = [step for step in plan.steps if step.part == "lamps" and step.items]
        power_unit = plan.vehicle.kind in POWER_UNITS
        power = default_power(plan.vehicle) if power_unit else plan.power
        again = plan_walk(
            plan.vehicle,
            library.rules,
            scope="recheck",
            power=power,
            together=plan.together,
            only=[step.id for step in wrong],
            former=plan,
        )
        seen = {lamp for step in again.steps for item in step.items for lamp in item.lamps}
        for step in wrong:
            known = {lamp for item in step.items for lamp in item.lamps}
            assert again.step(step.id) is not None or known <= seen, (walk.id, step.id)
