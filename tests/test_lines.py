"""Lines about walks: what a list shows, and which defects are still open over several walks."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import pytest
from walks import BEGAN, STEPS, FakeClock, Teller, begun, plan, vehicle

from walkaround.errors import InputError
from walkaround.events import Answered, Finished
from walkaround.lines import WalkLine, line_of, line_without, month_of, open_by_vehicle, walk_id


def line_at(hour: int, *answers: tuple[str, str], recheck_of: str = "", **more: str) -> WalkLine:
    """A finished walk of `tail_rear` and `reflectors_rear`, begun at this hour."""
    steps = tuple(step for step in STEPS if step.id in ("tail_rear", "reflectors_rear"))
    began = datetime(2026, 11, 25, hour, tzinfo=UTC)
    teller = Teller(clock=FakeClock(began=began, step_s=60.0))
    a_plan = plan(steps, recheck_of=recheck_of, vehicle=vehicle(more.get("vehicle", "trailer_1")))
    teller.begin(a_plan, f"20261125_{hour:02}0000_00000{hour % 10}")
    for step, answer in answers:
        teller.tell(Answered, step=step, answer=answer)
    return line_of(teller.tell(Finished), 1)


BAD_TAIL = (("tail_rear", "defect"), ("reflectors_rear", "ok"))
ALL_OK = (("tail_rear", "ok"), ("reflectors_rear", "ok"))


def test_a_line_tells_how_far_the_walk_is_and_what_is_wrong() -> None:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dim")
    line = line_of(teller.walk, 1234)
    assert (line.vehicle, line.vehicle_name) == ("pump_trailer_3", "Pump trailer 3")
    assert (line.answered, line.steps, line.phase) == (2, len(STEPS), "stepping")
    assert (line.open_defects, line.cleared, line.ok) == (("tail_rear",), (), ())
    assert (line.began, line.finished, line.partial) == (BEGAN, None, False)
    assert WalkLine.model_validate(line.model_dump(mode="json")) == line


def test_a_rechecked_defect_is_cleared_and_a_withdrawn_one_never_was() -> None:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dim")
    teller.back("tail_rear", "recheck")
    teller.ok("tail_rear")
    teller.found("backup_rear")
    teller.back("backup_rear")
    teller.ok("backup_rear")
    line = line_of(teller.walk, 1)
    assert (line.open_defects, line.cleared) == ((), ("tail_rear",))
    assert line.ok == ("tail_rear", "backup_rear")


def test_an_unreadable_walk_keeps_its_place_in_the_list() -> None:
    line = line_without("20261125_081502_4f3a9c", 10, "Nothing can be read.")
    assert (line.began, line.trouble, line.steps) == (BEGAN, "Nothing can be read.", 0)


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
    still_going = first.model_copy(update={"last_answer": first.began + timedelta(hours=3)})
    assert open_by_vehicle([still_going, line_at(9, *ALL_OK)])
    assert not open_by_vehicle([still_going, line_at(9, *ALL_OK, recheck_of=first.id)])


def test_a_walk_id_is_the_utc_second_and_random_digits() -> None:
    local = datetime(2026, 11, 25, 1, 15, 2, tzinfo=timezone(timedelta(hours=-7)))
    assert walk_id(local, "4f3a9c" + "0" * 26) == "20261125_081502_4f3a9c"
    assert month_of("20261125_081502_4f3a9c") == "2026-11"


@pytest.mark.parametrize(
    "odd",
    [
        "",
        "..",
        "../../etc/passwd",
        "20261125_081502_4f3a9c/..",
        "20261125_081502_4F3A9C",
        "20261125_081502_4f3a9c\n",
        "20261325_081502_4f3a9c",
        "２０２６1125_081502_4f3a9c",
    ],
)
def test_nothing_but_a_walk_id_becomes_part_of_a_path(odd: str) -> None:
    with pytest.raises(InputError, match="is no walk id"):
        month_of(odd)
