"""Screens on a computer whose clock is wrong: each is drawn, and says what is so."""

from __future__ import annotations

from collections.abc import AsyncIterator
from datetime import UTC, datetime
from pathlib import Path
from typing import cast

import pytest
from support.app import HURRIED, App, RecordingVoice
from support.troubledclock import FIRST, LAST, TroubledClock
from support.walks import FakeClock, plan, step

from walkaround.bootstrap import build
from walkaround.walk.events import Answered, Finished

VEHICLE = "sandbag_semitrailer_7"
VENT = step("vent_supply", "finish", "act")
WAIT = step("held", "finish", "wait", wait={"after": "vent_supply", "seconds": 900})
TIMED = step(
    "rebuild",
    "reserve",
    "measure",
    measure={
        "quantity": "s",
        "limit": "invented",
        "values": [{"id": "time", "name": "time", "at_most": 45.0}],
    },
)


@pytest.fixture
def clock() -> TroubledClock:
    return TroubledClock()


@pytest.fixture
async def depot(tmp_path: Path, clock: TroubledClock) -> AsyncIterator[App]:
    voice = RecordingVoice()
    parts = build(tmp_path / "data", clock=clock, voice=voice, timing=HURRIED)
    yield App(parts, cast(FakeClock, clock), voice)
    parts.close()


@pytest.mark.parametrize("wall", [FIRST, datetime(2099, 5, 1, tzinfo=UTC), LAST])
async def test_every_screen_is_drawn_in_any_year(
    depot: App, clock: TroubledClock, wall: datetime
) -> None:
    walk_id = depot.begin(VEHICLE)
    clock.set_to(wall)
    other = depot.begin(VEHICLE)
    for each in (walk_id, other):
        step_id = depot.parts.open_walks.walk(each).steps[0].id
        depot.parts.open_walks.do(each, "Kim", (Answered, {"step": step_id, "answer": "ok"}))
    depot.parts.open_walks.do(walk_id, "Kim", (Finished, {}))
    places = (
        "/", "/records", "/settings", "/vehicles", f"/start/{VEHICLE}", f"/vehicle/{VEHICLE}",
        f"/walk/{other}", f"/record/{walk_id}",
    )  # fmt: skip
    for place in places:
        async with depot.page(place) as screen:
            assert screen.texts()
            assert "could not be drawn" not in screen.text
    assert any(note in screen.text for note in ("set back", "set forward"))


async def test_a_wait_says_that_the_time_off_does_not_count(
    depot: App, clock: TroubledClock
) -> None:
    walk_id = depot.parts.open_walks.begin(plan((VENT, WAIT)), "Kim")
    depot.parts.open_walks.do(walk_id, "Kim", (Answered, {"step": VENT.id, "answer": "ok"}))
    clock.wait(300)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "10:00" in screen.texts()
        assert "does not count" not in screen.text
    clock.reboot(off_s=2000, up_s=60)
    clock.set_to(LAST)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "The computer was restarted: the time it was off does not count." in screen.texts()
        assert "14:00" in screen.texts()
        assert not screen.has("ok")
        clock.wait(841)
        await screen.until(lambda: screen.has("ok"))


async def test_a_time_that_ran_while_the_computer_slept_is_lost_and_says_so(
    depot: App, clock: TroubledClock
) -> None:
    walk_id = depot.parts.open_walks.begin(plan((TIMED,)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("start_time")
        await screen.until(lambda: screen.has("stop_time"))
        clock.sleep(30)
        await screen.until(lambda: "lost" in screen.texts())
        await screen.click("stop_time")
        await screen.until(lambda: screen.has("start_time"))
        assert "slept while the time ran: start again" in screen.text
        assert depot.parts.open_walks.walk(walk_id).measured == {}


@pytest.mark.parametrize("wall", [FIRST, LAST])
async def test_there_are_vehicles_and_walks_in_any_year(tmp_path: Path, wall: datetime) -> None:
    """A computer without a battery starts in 1970, and no vehicle was made by then."""
    parts = build(tmp_path / "data", clock=TroubledClock(wall=wall), voice=RecordingVoice())
    try:
        assert parts.library.problems == ()
        assert VEHICLE in {vehicle.id for vehicle in parts.library.vehicles}
    finally:
        parts.close()
