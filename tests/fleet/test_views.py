"""What the views of a fleet's database tell, held against what the walks themselves tell."""

from __future__ import annotations

from datetime import timedelta

import psycopg
from fleet.conftest import Publishing
from support.manywalks import VEHICLES, fill
from support.shop import LINE
from support.shops import Shop
from support.walks import BEGAN, FakeClock, Teller, plan

from walkaround.records.reader import WalkReader
from walkaround.records.walk_file import WalkFile, rows_of
from walkaround.walk.events import Answered, Signed


def test_open_defects_are_those_that_the_depot_itself_lists(
    north: Shop, published: Publishing, asked: psycopg.Connection
) -> None:
    fill(north.data, 2 * VEHICLES + 10, 33)
    published(north)
    rows = asked.execute("SELECT depot, vehicle_id, step, walk FROM walkaround.open_defects")
    expected = {
        ("Depot North", vehicle, step, walk)
        for vehicle, steps in WalkReader(north.data).overview().open_defects.items()
        for step, walk in steps.items()
    }
    latest: dict[tuple[str, str], tuple[str, str, str, str]] = {}
    for row in sorted(rows.fetchall(), key=lambda row: row[3]):
        latest[row[1], row[2]] = row
    assert set(latest.values()) == expected
    assert expected


def test_a_later_ok_of_another_depot_closes_a_defect(
    north: Shop, south: Shop, published: Publishing, asked: psycopg.Connection
) -> None:
    for shop, day, answer in ((north, 1, "defect"), (south, 2, "ok")):
        teller = Teller(clock=FakeClock(began=BEGAN + timedelta(days=day), step_s=60.0))
        walk = f"202611{day:02d}_081502_4f3a9c"
        teller.begin(plan(), walk, 1)
        teller.tell(Answered, step="chocks", answer="ok")
        events = teller.tell(Answered, step="tail_rear", answer=answer).events
        with shop.open() as (store, _):
            store.import_walk(walk, WalkFile(rows_of(events), events, True))
        published(shop)
        open_now = asked.execute("SELECT depot, step FROM walkaround.open_defects").fetchall()
        assert open_now == ([("Depot North", "tail_rear")] if day == 1 else [])


def test_a_vehicle_is_tagged_until_some_depot_lifts_the_tag(
    north: Shop, south: Shop, published: Publishing, asked: psycopg.Connection
) -> None:
    for shop, day, done in ((north, 1, "tag_placed"), (south, 2, ""), (south, 3, "tag_lifted")):
        teller = Teller(clock=FakeClock(began=BEGAN + timedelta(days=day), step_s=60.0))
        walk = f"202611{day:02d}_081502_4f3a9c"
        teller.begin(plan(), walk, 1)
        teller.tell(Answered, step="chocks", answer="ok")
        events = teller.tell(Answered, step="tail_rear", answer="defect").events
        if done:
            events = teller.tell(Signed, what=done, name="Bohdan Shevchuk", strokes=(LINE,)).events
        with shop.open() as (store, _):
            store.import_walk(walk, WalkFile(rows_of(events), events, True))
        published(shop)
        tagged = asked.execute("SELECT depot, vehicle_id FROM walkaround.tagged").fetchall()
        assert tagged == ([] if done == "tag_lifted" else [("Depot North", plan().vehicle.id)])


def test_leaks_and_strokes_stand_with_their_limits(
    north: Shop, published: Publishing, asked: psycopg.Connection
) -> None:
    north.keep(1, "a")
    published(north)
    columns = asked.execute("SELECT * FROM walkaround.leak_and_stroke").description or ()
    names = [column.name for column in columns]
    assert {"rate_psi_per_min", "at_most_psi_per_min", "value_in", "at_most_in"} <= set(names)
