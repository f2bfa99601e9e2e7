"""Taps that come late: from a page that was cut off, for a hold or a value that is another now."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Mapping
from itertools import count
from typing import Any

import pytest
from support.app import App
from support.english import ENGLISH
from support.flet_harness import Screen
from support.screens_holding import at_the_hold, hold_of, read, start, tap, walk_of
from support.walks import HOLD, hold_rule, lamp_item, plan, step

from walkaround.airhold.gauge import Gauge
from walkaround.plan.steps import Step
from walkaround.records.open_walks import OpenWalks
from walkaround.rules.limits import Line
from walkaround.ui.page.device import NAME_KEY, SETTINGS_KEY
from walkaround.ui.page.view import View
from walkaround.walk.events import Answered, HoldEnded, HoldVoided, Noted, Paused
from walkaround.walk.state import Walk

PSI: Mapping[Line, Gauge] = {"supply": Gauge(name="supply")}
COARSE: Mapping[Line, Gauge] = {"supply": Gauge(name="supply", step=5.0, crossing=True)}
ONE = hold_rule(supply=110.0)
LOOK = step("look", "connect", "look", title="Look", short="Look at it.")
VENT = step("vent", "finish", "act", title="Vent", short="Vent it.")


def measured(quantity: str, value_id: str) -> Step:
    values = [{"id": value_id, "name": value_id, "at_most": 45.0}]
    return step("one", "reserve", "measure", measure={"quantity": quantity, "values": values})


async def shows(page: Screen, seconds: str) -> None:
    """Wait until the running hold shows these seconds."""
    await page.until(lambda: page.find("seconds_left").value == seconds)


async def has(page: Screen, key: str) -> None:
    """Wait until this can be tapped."""
    await page.until(lambda: page.has(key))


async def timed(depot: App, page: Screen, seconds: float) -> None:
    """Start the stopwatch and let it run so long."""
    await page.click("start_time")
    await has(page, "stop_time")
    depot.clock.wait(seconds)


def events(depot: App, walk_id: str) -> int:
    return len(walk_of(depot, walk_id).events)


@pytest.mark.parametrize("key", ["start_hold", "stop_hold", "read_110", "cross_supply_110"])
async def test_taps_on_a_hold_that_come_as_the_page_comes_back_do_nothing(
    patient: App, key: str
) -> None:
    walk_id = at_the_hold(patient, ONE, COARSE if key.startswith("cross") else PSI)
    async with patient.page(f"/walk/{walk_id}") as screen:
        patient.clock.wait(1)
        if key != "start_hold":
            await start(patient, screen, walk_id)
        if key == "stop_hold":
            patient.clock.wait(1)
            await read(patient, screen, walk_id, 110)
            patient.clock.wait(1)
        before = events(patient, walk_id)
        async with patient.page(f"/walk/{walk_id}") as back:
            await back.click(key)
        assert events(patient, walk_id) == before


async def test_values_and_stopwatches_tapped_as_the_page_comes_back_do_nothing(
    patient: App,
) -> None:
    for steps, key in (((measured("s", "time"),), "start_time"), ((LOOK,), "ok")):
        walk_id = patient.parts.open_walks.begin(plan((*steps, VENT)), "Kim")
        async with patient.page(f"/walk/{walk_id}") as screen:
            await screen.click(key)
        assert events(patient, walk_id) == 1


async def test_the_record_is_not_closed_nor_a_walk_begun_as_the_page_comes_back(
    patient: App,
) -> None:
    walk_id = patient.parts.open_walks.begin(plan((LOOK,)), "Kim")
    patient.parts.open_walks.do(walk_id, "Kim", (Answered, {"step": "look", "answer": "ok"}))
    async with patient.page(f"/walk/{walk_id}") as screen:
        await screen.click("finish")
    async with patient.page("/start/pump_trailer_3") as screen:
        await screen.click("begin")
    assert walk_of(patient, walk_id).phase == "stepping"
    assert len(patient.parts.store.overview().lines) == 1


async def test_a_stop_meant_for_an_earlier_hold_leaves_the_new_one_alone(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, PSI)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        read_early = screen.target("read_110")
        await read(depot, screen, walk_id, 110)
        stale = screen.target("stop_hold")
        await tap(depot, screen, walk_id, "stop_hold")
        depot.clock.wait(5)
        again = screen.target("start_hold")
        await start(depot, screen, walk_id)
        began = hold_of(depot, walk_id).began
        before = events(depot, walk_id)
        for late in (stale, read_early, again):
            await screen.tap(late)
        assert events(depot, walk_id) == before
        assert hold_of(depot, walk_id).began == began
        assert not screen.has("message")


async def test_a_value_tapped_late_does_not_overwrite_a_newer_one(depot: App) -> None:
    walk_id = depot.parts.open_walks.begin(plan((measured("in", "stroke"), VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("key_1")
        stale = screen.target("key_1.5")
        await tap(depot, screen, walk_id, "key_1")
        await screen.tap(stale)
        assert walk_of(depot, walk_id).measured["one"]["stroke"].value == 1.0


async def test_a_late_start_or_stop_leaves_the_running_stopwatch_alone(depot: App) -> None:
    walk_id = depot.parts.open_walks.begin(plan((measured("s", "time"), VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        begin = screen.target("start_time")
        await tap(depot, screen, walk_id, "start_time")
        depot.clock.wait(50)
        await screen.tap(begin)
        stop = screen.target("stop_time")
        await tap(depot, screen, walk_id, "stop_time")
        assert walk_of(depot, walk_id).measured["one"]["time"].value == 50.0
        await tap(depot, screen, walk_id, "again_measure")
        depot.clock.wait(7)
        before = events(depot, walk_id)
        await screen.tap(stop)
        assert events(depot, walk_id) == before


async def test_buttons_that_change_by_another_pages_answer_are_dead_for_a_moment(
    patient: App,
) -> None:
    walk_id = patient.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    async with patient.page(f"/walk/{walk_id}") as screen:
        patient.clock.wait(1)
        patient.parts.open_walks.do(walk_id, "Kim", (Answered, {"step": "look", "answer": "ok"}))
        await screen.until(lambda: "Vent" in screen.texts())
        await screen.click("ok")
        assert len(walk_of(patient, walk_id).answers) == 1


async def test_a_hold_on_two_pages_shows_the_same_seconds_and_ends_once(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, COARSE)
    async with depot.page(f"/walk/{walk_id}") as one, depot.page(f"/walk/{walk_id}") as two:
        await start(depot, one, walk_id)
        await tap(depot, two, walk_id, "cross_supply_110")
        depot.clock.wait(20)
        for page in (one, two):
            await shows(page, "40")
        depot.clock.wait(280)
        await one.until(lambda: not hold_of(depot, walk_id).running)
        for page in (one, two):
            await has(page, "ok")
            assert not page.has("message")
    ended = [each for each in walk_of(depot, walk_id).events if isinstance(each, HoldEnded)]
    assert len(ended) == 1


async def test_the_marks_of_a_hold_are_said_once_on_each_page(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, PSI)
    async with depot.page(f"/walk/{walk_id}") as one, depot.page(f"/walk/{walk_id}") as two:
        await start(depot, one, walk_id)
        await two.until(lambda: two.has("read_110"))
        await read(depot, one, walk_id, 110)
        said = len(depot.voice.said)
        depot.clock.wait(30)
        for page in (one, two):
            await shows(page, "30")
        # Each page says it by itself, and tells the other nothing.
        async with asyncio.timeout(60):
            while len(depot.voice.said) < said + 2:
                await asyncio.sleep(0.01)
        depot.clock.wait(1)
        for page in (one, two):
            await shows(page, "29")
        assert depot.voice.said[said:] == ["30 seconds. Read the supply gauge."] * 2


async def test_a_hold_whose_time_is_lost_is_voided_once_with_two_pages_at_it(depot: App) -> None:
    walk_id = at_the_hold(depot, ONE, PSI)
    async with depot.page(f"/walk/{walk_id}") as one, depot.page(f"/walk/{walk_id}") as two:
        await start(depot, one, walk_id)
        await two.until(lambda: two.has("read_110"))
        depot.clock.asleep_s += 60
        await one.until(lambda: walk_of(depot, walk_id).holds[HOLD].void != "")
        for page in (one, two):
            await has(page, "start_hold")
            assert not page.has("message")
    voided = [each for each in walk_of(depot, walk_id).events if isinstance(each, HoldVoided)]
    assert len(voided) == 1


async def test_a_panel_does_not_land_on_the_next_step_when_another_phone_answers(
    depot: App,
) -> None:
    walk_id = depot.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("defect")
        assert screen.has("defect_yes")
        depot.parts.open_walks.do(walk_id, "Ben", (Answered, {"step": "look", "answer": "ok"}))
        await screen.until(lambda: "Vent" in screen.texts())
        assert not screen.has("defect_yes")
        assert ENGLISH("answered-elsewhere") in screen.texts()


async def test_a_defect_that_another_phone_called_ok_a_moment_before_is_not_dropped_unsaid(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = depot.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    # The news of the other phone's answer does not come.
    monkeypatch.setattr(View, "_from_elsewhere", lambda _: None)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("defect")
        depot.parts.open_walks.do(walk_id, "Ben", (Answered, {"step": "look", "answer": "ok"}))
        await screen.click("defect_yes")
        await screen.until(lambda: ENGLISH("answered-elsewhere") in screen.texts())
    assert walk_of(depot, walk_id).answers["look"].answer == "ok"


async def test_a_stop_that_is_dropped_does_not_set_the_time_that_the_next_one_saves(
    patient: App,
) -> None:
    walk_id = patient.parts.open_walks.begin(plan((measured("s", "time"), VENT)), "Kim")
    async with patient.page(f"/walk/{walk_id}") as screen:
        patient.clock.wait(1)
        await timed(patient, screen, 20)
    async with patient.page(f"/walk/{walk_id}") as screen:
        await screen.click("stop_time")
        assert walk_of(patient, walk_id).measured == {}
        patient.clock.wait(40)
        await screen.click("stop_time")
        await screen.until(lambda: "time" in walk_of(patient, walk_id).measured.get("one", {}))
    assert walk_of(patient, walk_id).measured["one"]["time"].value == 60.0


async def test_the_second_half_of_a_double_tap_on_stop_answers_nothing(patient: App) -> None:
    walk_id = patient.parts.open_walks.begin(plan((measured("s", "time"), VENT)), "Kim")
    async with patient.page(f"/walk/{walk_id}") as screen:
        patient.clock.wait(1)
        await timed(patient, screen, 20)
        await screen.click("stop_time")
        await has(screen, "ok")
        await screen.click("ok")
    walk = walk_of(patient, walk_id)
    assert walk.measured["one"]["time"].value == 20.0
    assert walk.answers == {}


async def test_the_second_half_of_a_double_tap_on_defect_records_no_fault(patient: App) -> None:
    lamp = step("tail", "lamps", "lamp", items=(lamp_item("tail_left"),), title="Tail")
    walk_id = patient.parts.open_walks.begin(plan((lamp, VENT)), "Kim")
    async with patient.page(f"/walk/{walk_id}") as screen:
        patient.clock.wait(1)
        await screen.click("defect")
        await screen.click("seen_dark")
        assert walk_of(patient, walk_id).answers == {}
        patient.clock.wait(1)
        await screen.click("seen_dark")
    assert walk_of(patient, walk_id).answers["tail"].seen == {"tail_left": "dark"}


async def test_two_taps_on_start_begin_one_walk(depot: App) -> None:
    async with depot.page("/start/pump_trailer_3") as screen:
        begin = screen.find("begin")
        await asyncio.gather(screen.tap(begin), screen.tap(begin))
        await screen.until(lambda: bool(depot.parts.store.overview().lines))
    assert len(depot.parts.store.overview().lines) == 1


async def test_a_note_stays_at_its_step_while_another_phone_moves_on(depot: App) -> None:
    walk_id = depot.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("note")
        await screen.fill("note_text", "cracked lens")
        depot.parts.open_walks.do(walk_id, "Ben", (Noted, {"step": "look", "text": "mud"}))
        depot.parts.open_walks.do(walk_id, "Ben", (Answered, {"step": "look", "answer": "ok"}))
        await asyncio.sleep(0.05)
        assert screen.has("save_note")
        await screen.click("save_note")
        await screen.until(lambda: "Vent" in screen.texts())
        assert ENGLISH("answered-elsewhere") not in screen.texts()
    assert dict(walk_of(depot, walk_id).notes) == {"look": "cracked lens"}


async def test_a_walk_that_was_left_goes_on_only_when_somebody_says_so(depot: App) -> None:
    walk_id = depot.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    depot.parts.open_walks.do(walk_id, "Kim", (Paused, {}))
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "Left for now" in screen.texts()
        assert walk_of(depot, walk_id).phase == "paused"
        await screen.click("resume")
        await screen.until(lambda: screen.has("ok"))
    depot.parts.open_walks.do(walk_id, "Kim", (Paused, {}))
    async with depot.page("/") as screen:
        await screen.click(f"go_on_{walk_id}")
        await screen.until(lambda: screen.has("ok"))
    assert walk_of(depot, walk_id).phase == "stepping"


async def test_what_another_page_set_meanwhile_stays_set(depot: App) -> None:
    async with depot.page("/settings") as one, depot.page("/settings") as other:
        await other.click("mm")
        await one.click("long")
    saved = depot.parts.settings()
    assert (saved.length, saved.wording) == ("mm", "long")


async def test_a_phone_keeps_the_name_of_its_owner(depot: App) -> None:
    depot.parts.store.change_settings({"who": "Ben"})
    async with depot.page("/start/pump_trailer_3") as screen:
        await screen.fill("who", "Ana")
        await screen.fire(screen.find("who"), "blur")
        await screen.until(lambda: depot.parts.settings().who == "Ana")
        kept = [call for call in screen.invoked if call.control == "SharedPreferences"]
        kept = [call for call in kept if call.args["key"] in (SETTINGS_KEY, NAME_KEY)]
        assert [call.method for call in kept] == ["get", "get", "set"]
        assert kept[-1].args == {"key": SETTINGS_KEY, "value": '{"who": "Ana"}'}


async def test_a_tap_refused_late_does_not_make_the_next_one_too_soon(
    patient: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of two taps on OK the second may be refused when the next step has long been there."""
    walk_id = patient.parts.open_walks.begin(plan((LOOK, VENT)), "Kim")
    release, calls, do = threading.Event(), count(), OpenWalks.do

    def held_up(*args: Any) -> Walk:
        if next(calls) == 1:
            release.wait(10)
        return do(*args)

    monkeypatch.setattr(OpenWalks, "do", held_up)
    async with patient.page(f"/walk/{walk_id}") as screen:
        patient.clock.wait(1)
        ok = screen.target("ok")
        both = [asyncio.create_task(screen.tap(ok)) for _ in range(2)]
        await screen.until(lambda: "Vent" in screen.texts())
        patient.clock.wait(1)
        release.set()
        await asyncio.gather(*both)
        await screen.click("ok")
        await has(screen, "finish")
    assert set(walk_of(patient, walk_id).answers) == {"look", "vent"}
