"""Lines about walks: what a list shows of each."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone

import pytest
from support.walks import BEGAN, STEPS, begun

from walkaround.base.errors import InputError
from walkaround.records.walk_line import (
    NO_STAMP,
    Stamp,
    line_of,
    month_of,
    unreadable_line,
    walk_id,
)


def test_a_line_tells_how_far_the_walk_is_and_what_is_wrong() -> None:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dim")
    line = line_of(teller.walk, Stamp(1234, 5))
    assert (line.vehicle, line.vehicle_name) == ("pump_trailer_3", "Pump trailer 3")
    assert (line.answered, line.steps, line.phase) == (2, len(STEPS), "stepping")
    assert (line.open_defects, line.cleared, line.ok) == (("tail_rear",), (), ())
    assert (line.began, line.finished, line.partial) == (BEGAN, None, False)
    assert line.stamp == (1234, 5)


def test_a_rechecked_defect_is_cleared_and_a_withdrawn_one_never_was() -> None:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dim")
    teller.back("tail_rear", "recheck")
    teller.ok("tail_rear")
    teller.found("backup_rear")
    teller.back("backup_rear")
    teller.ok("backup_rear")
    line = line_of(teller.walk)
    assert (line.open_defects, line.cleared) == ((), ("tail_rear",))
    assert line.ok == ("tail_rear", "backup_rear")


def test_an_unreadable_walk_keeps_its_place_in_the_list() -> None:
    line = unreadable_line("20261125_081502_4f3a9c", NO_STAMP, "Nothing can be read.")
    assert (line.began, line.trouble, line.steps) == (BEGAN, "Nothing can be read.", 0)


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
