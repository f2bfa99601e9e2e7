"""The board of a shop: which vehicles stand on it, in which order, with what."""

from __future__ import annotations

from datetime import timedelta

from support.shop import PUMP, TRACTOR, day, walks

from walkaround.board.rows import Board, age_days, board_of
from walkaround.records.overview import Overview, overview_of
from walkaround.records.walk_line import WalkLine, line_of

SEMITRAILER = "sandbag_semitrailer_7"


def overview(*more: WalkLine) -> Overview:
    return overview_of([*map(line_of, walks()), *more])


def board(*more: WalkLine) -> Board:
    return board_of(overview(*more))


def test_tagged_vehicles_come_first_then_those_with_older_defects() -> None:
    rows = board().vehicles
    assert [row.line.vehicle for row in rows] == [PUMP, SEMITRAILER]
    assert [row.tag is not None for row in rows] == [True, False]


def test_a_defect_is_as_old_as_the_first_walk_that_found_it() -> None:
    (row,) = [row for row in board().vehicles if row.line.vehicle == SEMITRAILER]
    (defect,) = [each for each in row.defects if each.step == "look_3_rear"]
    assert defect.since == day(10)
    assert defect.walk.startswith("20261103")
    assert age_days(defect.since, day(11)) == 31


def test_an_ok_in_between_makes_it_a_new_defect() -> None:
    lines = [line_of(walk) for walk in walks()]
    at = next(n for n, line in enumerate(lines) if line.began == day(11))
    between = lines[at]._replace(
        id="20261020_081502_4f3a9c", number=at, began=day(10, 20), open_defects=(), titles=(),
        ok=("look_3_rear",),
    )  # fmt: skip
    lines[at:] = [line._replace(number=line.number + 1) for line in lines[at:]]
    between = between._replace(number=at + 1)
    rows = board_of(overview_of([*lines, between])).vehicles
    (row,) = [row for row in rows if row.line.vehicle == SEMITRAILER]
    assert {each.step: each.since for each in row.defects}["look_3_rear"] == day(11)


def test_walks_under_way_are_those_of_the_overview() -> None:
    assert [line.vehicle for line in board().going] == [TRACTOR]


def test_a_tag_that_a_later_walk_lifted_hangs_no_more() -> None:
    last = next(line for line in overview().lines if line.vehicle == PUMP)
    later = last._replace(
        id="20261127_081502_4f3a9c", number=99, began=last.began + timedelta(days=7), tag="lifted"
    )
    assert all(row.tag is None for row in board(later).vehicles)


def test_no_age_is_below_zero_where_a_clock_was_set_back() -> None:
    assert age_days(day(11), day(10)) == 0
