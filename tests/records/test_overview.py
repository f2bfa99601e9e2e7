"""All walks at a glance: their order, and which defects are still open over several of them."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from support.walks import STEPS, FakeClock, Teller, plan, vehicle

from walkaround.records.overview import FolderFault, open_by_vehicle, overview_of, unread_messages
from walkaround.records.walk_line import WalkLine, line_of
from walkaround.walk.events import Answered, Finished


def line_at(
    hour: int, *answers: tuple[str, str], recheck_of: str = "", number: int = 0, **more: str
) -> WalkLine:
    """A finished walk of `tail_rear` and `reflectors_rear`, begun at this hour."""
    steps = tuple(step for step in STEPS if step.id in ("tail_rear", "reflectors_rear"))
    began = datetime(2026, 11, 25, hour, tzinfo=UTC)
    teller = Teller(
        clock=FakeClock(
            began=began - timedelta(hours=hour), step_s=60.0, boot=more.get("boot", "boot_a")
        )
    )
    teller.clock.wait(3600.0 * hour)
    a_plan = plan(steps, recheck_of=recheck_of, vehicle=vehicle(more.get("vehicle", "trailer_1")))
    teller.begin(a_plan, f"20261125_{hour:02}0000_00000{hour % 10}")
    for step, answer in answers:
        teller.tell(Answered, step=step, answer=answer)
    return line_of(teller.tell(Finished))._replace(number=number or hour)


BAD_TAIL = (("tail_rear", "defect"), ("reflectors_rear", "ok"))
ALL_OK = (("tail_rear", "ok"), ("reflectors_rear", "ok"))


def test_a_defect_is_open_until_a_later_walk_finds_its_step_ok() -> None:
    first, again = line_at(8, *BAD_TAIL), line_at(9, *BAD_TAIL)
    assert open_by_vehicle([first]) == {"trailer_1": {"tail_rear": first.id}}
    assert open_by_vehicle([again, first]) == {"trailer_1": {"tail_rear": again.id}}
    assert open_by_vehicle([first, again, line_at(10, *ALL_OK)]) == {}
    elsewhere = line_at(10, *ALL_OK, vehicle="trailer_2")
    assert open_by_vehicle([first, elsewhere]) == {"trailer_1": {"tail_rear": first.id}}


def test_a_walk_that_leaves_the_step_out_closes_nothing() -> None:
    first = line_at(8, *BAD_TAIL)
    assert open_by_vehicle([first, line_at(9)]) == {"trailer_1": {"tail_rear": first.id}}


def test_a_walk_at_the_same_time_closes_nothing_but_a_recheck_does() -> None:
    first = line_at(8, *BAD_TAIL)
    still_going = first._replace(last_s=first.last_s + 3 * 3600)
    assert open_by_vehicle([still_going, line_at(9, *ALL_OK)])
    assert not open_by_vehicle([still_going, line_at(9, *ALL_OK, recheck_of=first.id)])


def test_walks_stand_in_the_order_in_which_they_began_whatever_the_clock_said() -> None:
    early, late = line_at(9, *ALL_OK, number=1), line_at(8, *ALL_OK, number=2)
    assert overview_of([early, late]).lines == (late, early)


def test_a_walk_of_a_clock_far_ahead_closes_nothing_that_was_found_after_it() -> None:
    """The clock stood at the evening, was put right, and then the defect was found."""
    ahead = line_at(20, *ALL_OK, number=1, boot="boot_a")
    after = line_at(8, *BAD_TAIL, number=2, boot="boot_b")
    assert open_by_vehicle([ahead, after]) == {"trailer_1": {"tail_rear": after.id}}


def test_within_one_boot_the_computers_own_clock_decides_what_came_later() -> None:
    found = line_at(8, *BAD_TAIL, number=1)
    set_back = line_at(9, *ALL_OK, number=2)._replace(began=found.began - timedelta(days=400))
    assert open_by_vehicle([found, set_back]) == {}


def test_what_is_under_way_and_what_vehicles_there_are_is_told() -> None:
    done, other = line_at(8, *ALL_OK), line_at(9, *ALL_OK, vehicle="trailer_2")
    going = other._replace(phase="stepping")
    found = overview_of([done, going])
    assert found.going == (going,)
    assert found.vehicles == {"trailer_1", "trailer_2"}


def test_a_walk_answered_after_a_restart_was_so_after_all_that_began_before_it() -> None:
    """Without a clock that runs on, the restart set it back; the defect is not hidden by it."""
    found = line_at(8, *BAD_TAIL, number=1)
    ok = line_at(9, *ALL_OK, number=2)
    assert open_by_vehicle([found, ok]) == {}
    after_restart = found._replace(last_boot="boot_b", last_s=50.0)
    assert open_by_vehicle([after_restart, ok]) == {"trailer_1": {"tail_rear": found.id}}


@pytest.mark.parametrize("platform", ["win32", "darwin"])
def test_where_boots_cannot_be_told_apart_the_wall_clock_tells(platform: str) -> None:
    found = line_at(8, *BAD_TAIL, number=1)._replace(began_boot=platform, last_boot=platform)
    ok = line_at(11, *ALL_OK, number=2)._replace(began_boot=platform, last_boot=platform)
    restarted = ok._replace(began_s=1.0)
    assert open_by_vehicle([found, restarted]) == {}
    assert found.last_answer is not None
    later_still = found._replace(last_answer=found.last_answer + timedelta(hours=5), last_s=1.0)
    assert open_by_vehicle([later_still, ok]) == {"trailer_1": {"tail_rear": found.id}}


DENIED = FolderFault("permission denied", shut=True)
FAILING = FolderFault("input/output error", shut=False)


@pytest.mark.parametrize(
    ("months", "folders", "it"),
    [
        (("2024-03",), "/data/walks/2024-03", "it"),
        (("2024-05", "2024-03"), "/data/walks/2024-03 and /data/walks/2024-05", "them"),
        (
            ("2024-03", "2024-04", "2024-06"),
            "/data/walks/2024-03, /data/walks/2024-04, and /data/walks/2024-06",
            "them",
        ),
        (
            ("2024-03", "2024-04", "2024-06", "2023-12"),
            "4 folders in /data/walks, from 2023-12 to 2024-06,",
            "them",
        ),
    ],
)
def test_months_that_cannot_be_read_for_one_reason_are_one_sentence(
    months: tuple[str, ...], folders: str, it: str
) -> None:
    [sentence] = unread_messages("/data/walks", dict.fromkeys(months, DENIED))
    assert str(sentence) == (
        f"Walks may be missing or out of date here: {folders} cannot be read "
        f"(permission denied); make {it} readable for this user."
    )


def test_each_reason_is_a_sentence_and_no_month_none() -> None:
    first, second = unread_messages("/w", {"2024-05": DENIED, "2024-03": FAILING})
    assert "/w/2024-03 cannot be read (input/output error); check the disk" in str(first)
    assert "/w/2024-05 cannot be read (permission denied); make it readable" in str(second)
    assert unread_messages("/w", {}) == ()
