"""How long walks are kept, against 49 CFR 396.3(c).

Read in the electronic Code of Federal Regulations: "The records required by this section shall be
retained where the vehicle is either housed or maintained for a period of 1 year and for 6 months
after the motor vehicle leaves the motor carrier's control." Months by pandas.
"""

from __future__ import annotations

from datetime import date, timedelta

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.handed_over import Walker, planned
from support.shop import PUMP, day, walks

from walkaround.board.retention import deletable_walks, months_after
from walkaround.records.overview import Overview, overview_of
from walkaround.records.walk_line import line_of

SEMITRAILER = "sandbag_semitrailer_7"
FINE = line_of(Walker(planned(scope="lamps"), began=day(1, 10, 2024)).closed())


def of(*lines: object) -> Overview:
    return overview_of(lines)  # type: ignore[arg-type]


@given(st.dates(date(1990, 1, 1), date(2090, 1, 1)), st.sampled_from([6, 12]))
def test_months_are_counted_as_dateutil_counts_them(start: date, months: int) -> None:
    later = pd.Timestamp(start) + pd.DateOffset(months=months)
    assert months_after(start, months) == later.date()


@pytest.mark.parametrize(
    ("left", "last_day"),
    [(date(2024, 2, 1), date(2025, 1, 10)), (date(2024, 12, 31), date(2025, 6, 30))],
)
def test_a_walk_is_kept_a_year_and_half_a_year_after_its_vehicle_left(
    left: date, last_day: date
) -> None:
    gone = {SEMITRAILER: left}
    assert deletable_walks(of(FINE), gone, last_day) == ()
    assert deletable_walks(of(FINE), gone, last_day + timedelta(days=1)) == (FINE,)


def test_none_of_a_vehicle_that_is_here_goes_however_old() -> None:
    assert deletable_walks(of(FINE), {}, date(2060, 1, 1)) == ()


def test_no_walk_of_a_vehicle_with_an_open_defect_ever_goes() -> None:
    lines = [line_of(walk) for walk in walks() if walk.plan and walk.plan.vehicle.id == PUMP]
    assert all(line.phase == "finished" for line in lines)
    assert deletable_walks(of(*lines), {PUMP: date(2027, 1, 1)}, date(2060, 1, 1)) == ()


def test_none_goes_while_a_walk_is_under_way_or_cannot_be_read() -> None:
    left, later = {SEMITRAILER: date(2024, 2, 1)}, date(2060, 1, 1)
    assert deletable_walks(of(FINE._replace(phase="paused")), left, later) == ()
    other = FINE._replace(id="20240111_081502_4f3a9c", trouble="damaged")
    assert deletable_walks(of(FINE, other), left, later) == ()
