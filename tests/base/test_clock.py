"""What a moment is, up to the edges of what a clock can be set to."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import pytest
from pydantic import ValidationError
from support.troubledclock import TroubledClock

from walkaround.base.clock import Moment
from walkaround.bootstrap import system_clock


@pytest.fixture
def zone(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """This computer stands in another zone."""
    monkeypatch.setenv("TZ", request.param)
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.mark.skipif(not hasattr(time, "tzset"), reason="zones cannot be changed here")
@pytest.mark.parametrize("zone", ["EAST-14", "WEST+12", "UTC"], indirect=True)
@pytest.mark.usefixtures("zone")
@pytest.mark.parametrize("year", [1, 1970, 2026, 9999])
def test_a_day_and_a_time_can_be_told_in_every_year_and_zone(year: int) -> None:
    for month, day, hour in ((1, 1, 0), (12, 31, 23)):
        moment = Moment(utc=datetime(year, month, day, hour, tzinfo=UTC), mono_s=0.0, boot="b_1")
        assert moment.local_text()[-3:] == ":00"
        assert abs(moment.local() - moment.utc).total_seconds() == 0


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="Linux tells its boot")
def test_linux_tells_sleep_and_restart_apart_and_other_platforms_do_not() -> None:
    assert system_clock().tells_boot
    assert TroubledClock()().tells_boot
    for platform in ("win32", "darwin", "linux", "freebsd14", "cygwin"):
        assert not Moment(utc=datetime.now(UTC), mono_s=0.0, boot=platform).tells_boot


@pytest.mark.parametrize(
    "odd",
    [{"mono_s": float("nan")}, {"mono_s": 1e300}, {"asleep_s": float("inf")}, {"boot": "b" * 99}],
)
def test_a_moment_from_a_strange_file_is_one_that_can_be_counted_with(odd: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        Moment.model_validate({"utc": datetime.now(UTC), "mono_s": 0.0, "boot": "b_1", **odd})
