"""What later walks say of what one left open, told as the list of walks judges it."""

from __future__ import annotations

from itertools import product

import pytest
from records.test_overview import ALL_OK, BAD_TAIL, line_at

from walkaround.records.overview import by_vehicle, later_walks, open_by_vehicle, overview_of
from walkaround.records.walk_line import ELSEWHERE, WalkLine, copy_id


def told(line: WalkLine, *others: WalkLine) -> dict[str, list[tuple[str, str]]]:
    return {**later_walks(line, by_vehicle([line, *others])[line.vehicle])}


def test_the_last_look_tells_and_where_it_is_wrong_again_the_one_before() -> None:
    first, still = line_at(8, *BAD_TAIL), line_at(9, *BAD_TAIL)
    fine, again = line_at(10, *ALL_OK), line_at(11, *BAD_TAIL)
    assert told(first) == {}
    assert told(first, still) == {"tail_rear": [("open", still.id)]}
    assert told(first, still, fine) == {"tail_rear": [("cured", fine.id)]}
    wrong_again = [("cured", fine.id), ("again", again.id)]
    assert told(first, still, fine, again) == {"tail_rear": wrong_again}
    last = line_at(12, *ALL_OK)
    assert told(first, fine, again, last) == {"tail_rear": [("cured", last.id)]}


def test_a_walk_that_says_nothing_of_the_step_is_not_named() -> None:
    first = line_at(8, *BAD_TAIL)
    assert told(first, line_at(9)) == {}
    assert told(line_at(9, *ALL_OK), line_at(10, *BAD_TAIL)) == {}


def test_a_recheck_of_any_copy_counts_and_other_copies_do_not() -> None:
    first = line_at(8, *BAD_TAIL)
    copy = first._replace(id=copy_id(first.id, "ab" * 32), number=ELSEWHERE)
    recheck = line_at(9, *ALL_OK, recheck_of=first.id)
    for line in (first, copy):
        assert told(line, *{first, copy} - {line}, recheck) == {
            "tail_rear": [("cured", recheck.id)]
        }
    assert told(first, copy) == {}


def test_nothing_is_told_by_a_double_check_that_is_not_closed() -> None:
    first = line_at(8, *BAD_TAIL)
    other = line_at(9, *ALL_OK)._replace(double=True, phase="stepping")
    lines = overview_of([first, other]).lines
    assert later_walks(first, by_vehicle(lines)[first.vehicle]) == {}
    closed = overview_of([first, other._replace(phase="finished")]).lines
    assert later_walks(first, by_vehicle(closed)[first.vehicle])


def test_of_two_vehicles_of_one_id_a_walk_is_told_of_by_those_of_its_own() -> None:
    first = line_at(8, *BAD_TAIL)._replace(vin="one")
    other = line_at(9, *ALL_OK)._replace(vin="two", number=ELSEWHERE)
    assert told(first, other) == {}
    assert told(first, other._replace(vin="")) == {"tail_rear": [("cured", other.id)]}


@pytest.mark.parametrize("found", [*product((BAD_TAIL, ALL_OK, ()), repeat=3)])
def test_what_is_told_agrees_with_what_is_open(found: tuple[tuple[tuple[str, str], ...]]) -> None:
    """Of the last walk in which a step is wrong: cured exactly where the list says not open."""
    lines = [line_at(hour, *answers) for hour, answers in enumerate(found, start=8)]
    wrong = [line for line in lines if line.open_defects]
    if wrong:
        looks = told(wrong[-1], *(line for line in lines if line is not wrong[-1]))
        cured = looks.get("tail_rear", [("", "")])[-1][0] == "cured"
        assert cured == (open_by_vehicle(lines) == {})
