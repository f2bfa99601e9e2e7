"""Holds, strokes and defects of one vehicle over its walks."""

from __future__ import annotations

import pytest
from support.handed_over import Walker, planned
from support.shop import HOLDS, day, walks

from walkaround.board.history import series_of, step_histories
from walkaround.board.trend import trend_of
from walkaround.walk.state import Walk

SEMITRAILER = "sandbag_semitrailer_7"


@pytest.fixture(scope="module")
def own() -> list[Walk]:
    return [w for w in walks() if w.plan and w.plan.vehicle.id == SEMITRAILER]


def test_the_rates_of_a_hold_stand_in_the_order_of_the_walks(own: list[Walk]) -> None:
    holds = [each for each in series_of(own) if each.what == "hold" and each.line == "supply"]
    whole = next(each for each in holds if len(each.values) == len(HOLDS))
    assert [taken.value for taken in whole.values] == pytest.approx(HOLDS, abs=0.6)
    assert all(t.low < t.value < t.high for each in holds for t in each.values)


def test_strokes_of_one_wheel_end_are_a_row_with_its_limit(own: list[Walk]) -> None:
    rows = [each for each in series_of(own) if each.what == "stroke"]
    grown = tuple(1.5 + 0.125 * n for n in range(5))
    (row,) = [each for each in rows if tuple(t.value for t in each.values) == grown]
    assert row.limit is not None
    assert 1.5 < row.limit <= 3
    xs = [t.at.timestamp() for t in row.values]
    trend = trend_of(xs, [t.value for t in row.values])
    assert trend is not None
    assert trend.low[0] <= 1.5 <= trend.high[0]


def test_another_gauge_step_or_other_air_is_another_row(own: list[Walk]) -> None:
    plan = planned()
    coupled = plan.model_copy(update={"air": "coupled"})
    walk = Walker(coupled, began=day(12)).closed()
    both = [*own, walk]
    rows = [each for each in series_of(both) if each.what == "hold"]
    assert {each.air for each in rows} == {"shop", "coupled"}
    assert all(len(each.values) == 1 for each in rows if each.air == "coupled")


def test_a_defect_is_told_from_found_to_ok_to_come_back() -> None:
    dark = {"look_1_rear": {"rear_right": "dark"}}
    plan = planned(scope="lamps")
    made = [
        Walker(plan, bad=dark, began=day(5)).closed(),
        Walker(plan, began=day(6), who="Bohdan").closed(),
        Walker(plan, bad=dark, rechecked={"look_1_rear": "Cyra"}, began=day(7)).closed(),
    ]
    (story,) = step_histories(made)
    assert [(each.kind, each.who) for each in story.events] == [
        ("found", "Ana"), ("ok", "Bohdan"), ("back", "Ana"), ("ok", "Cyra"),
    ]  # fmt: skip
    assert [each.at.month for each in story.events] == [5, 6, 7, 7]


def test_a_vehicle_without_a_defect_has_no_story() -> None:
    assert not step_histories([Walker(planned(scope="lamps")).closed()])
