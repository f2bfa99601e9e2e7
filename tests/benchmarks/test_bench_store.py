"""One tap, from the change asked for to the disk, beside the least that any durable write costs.

Prints medians in milliseconds and ratios. The floor is the same bytes written to a temporary
file, fsync, rename, fsync of the folder; beside it one row in SQLite with synchronous=FULL, which
writes a few pages whatever the walk holds, and TinyDB's own JSONStorage, which forces nothing to
the disk at all.
"""

from __future__ import annotations

import json
import os
import sqlite3
from collections.abc import Callable
from contextlib import ExitStack, closing
from datetime import date
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter

from benchmarks.conftest import Rounds
from support.walks import FakeClock
from tinydb import TinyDB

from walkaround.disk import locations
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan
from walkaround.records.open_walks import OpenWalks
from walkaround.records.store import WalkStore
from walkaround.walk.events import Answered, Noted, Revisited
from walkaround.walk.seals import event_json

EVENTS = 60
# Each tap measured adds two events: the median tap meets a walk of 100.


def real_plan() -> Plan:
    library = load_library(locations.shipped(), today=date(2026, 11, 25))
    vehicle = max(library.vehicles, key=lambda v: v.length_mm)
    return plan_walk(vehicle, library.rules)


def test_a_tap_costs_little_more_than_its_durable_write(tmp_path: Path, rounds: Rounds) -> None:
    store = WalkStore(tmp_path / "data")
    open_walks = OpenWalks(store, FakeClock(step_s=1.0))
    walk_id = open_walks.begin(real_plan(), "Ana")
    first = open_walks.walk(walk_id).steps[0].id
    open_walks.do(walk_id, "Ana", (Answered, {"step": first, "answer": "ok"}))
    for number in range(EVENTS - 2):
        open_walks.do(walk_id, "Ana", (Noted, {"step": first, "text": str(number)}))
    back = (Revisited, {"step": first, "purpose": "change"})
    answer = (Answered, {"step": first, "answer": "ok"})
    file = next(locations.walks(tmp_path / "data").rglob("*.json"))
    row = json.dumps(event_json(open_walks.walk(walk_id).events[-1]))

    costs: dict[str, list[float]] = {}
    with ExitStack() as open_:
        floor, lite = _floor(tmp_path), _sqlite(tmp_path, row, open_)
        tiny = _tinydb(tmp_path, file, row, open_)
        for _ in range(rounds(40, 3)):
            # The step back is not measured. Each round measures all four, so that a busy disk
            # is busy for each.
            open_walks.do(walk_id, "Ana", back)
            data = file.read_bytes()
            _measure(costs, "tap", lambda: open_walks.do(walk_id, "Ana", answer))
            _measure(costs, "floor", partial(floor, data))
            _measure(costs, "sqlite", lite)
            _measure(costs, "tinydb", tiny)
    store.close()

    ms = {name: median(times) * 1000 for name, times in costs.items()}
    size_kb = file.stat().st_size / 1024
    print(f"\nwalk file {size_kb:.0f} kB after {len(open_walks.walk(walk_id).events)} events")
    print(f"  tap     {ms['tap']:7.2f} ms")
    for name in ("floor", "sqlite", "tinydb"):
        print(f"  {name:7} {ms[name]:7.2f} ms   tap / {name} = {ms['tap'] / ms[name]:.2f}")


def _measure(costs: dict[str, list[float]], name: str, work: Callable[[], object]) -> None:
    began = perf_counter()
    work()
    costs.setdefault(name, []).append(perf_counter() - began)


def _floor(folder: Path) -> Callable[[bytes], None]:
    path = folder / "floor.json"

    def write(data: bytes) -> None:
        fresh = path.with_suffix(".tmp")
        with fresh.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        fresh.replace(path)
        handle = os.open(folder, os.O_RDONLY)
        os.fsync(handle)
        os.close(handle)

    return write


def _sqlite(folder: Path, row: str, open_: ExitStack) -> Callable[[], None]:
    database = open_.enter_context(closing(sqlite3.connect(folder / "walk.sqlite")))
    database.execute("PRAGMA synchronous=FULL")
    database.execute("CREATE TABLE events (seq INTEGER PRIMARY KEY, row TEXT)")

    def insert() -> None:
        with database:
            database.execute("INSERT INTO events (row) VALUES (?)", (row,))

    return insert


def _tinydb(folder: Path, export_walk: Path, row: str, open_: ExitStack) -> Callable[[], None]:
    path = folder / "plain.json"
    path.write_bytes(export_walk.read_bytes())
    table = open_.enter_context(TinyDB(path, encoding="utf-8")).table("events")

    def insert() -> None:
        table.insert(json.loads(row))

    return insert
