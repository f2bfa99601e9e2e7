"""A save that fails: seen and heard on every screen of a walk, and nothing entered is gone."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from support.app import App
from support.english import ENGLISH
from support.flet_harness import Screen
from support.screens_holding import at_the_hold, hold_of, read, start
from support.walks import hold_rule, lamp_item, plan, step

from walkaround.airhold.gauge import Gauge
from walkaround.plan.steps import Step

LAMPS = step(
    "tails",
    "lamps",
    "lamp",
    title="Tails",
    items=(lamp_item("tail_left"), lamp_item("tail_right")),
    expect={"tail_left": "steady", "tail_right": "steady"},
)
GAUGES = step("gauges", "connect", "gauges")
PRESSURE = step(
    "warning",
    "reserve",
    "measure",
    measure={
        "quantity": "psi",
        "start": 60.0,
        "values": [{"id": "primary", "name": "primary", "gauge": "primary", "at_least": 60.0}],
    },
)
TIMED = step(
    "rebuild",
    "reserve",
    "measure",
    measure={"quantity": "s", "values": [{"id": "time", "name": "time", "at_most": 45.0}]},
)
VENT = step("vent", "finish", "act", title="Vent")


@contextmanager
def full_disk(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """No file can be written."""

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as broken:
        broken.setattr("os.fsync", full)
        yield


def walk_on(depot: App, *steps: Step) -> str:
    return depot.parts.open_walks.begin(
        plan(steps).model_copy(update={"gauges": ("primary",)}), "Kim"
    )


async def refused(depot: App, screen: Screen, *keys: str) -> None:
    """Tap these on a full disk: it is seen, and said once for the last."""
    said = depot.voice.said.count(ENGLISH("page-not-saved-said"))
    for key in keys:
        await screen.click(key)
    await screen.until(lambda: screen.has("unsaved"))
    await screen.until(lambda: depot.voice.said.count(ENGLISH("page-not-saved-said")) > said)
    assert screen.text.count("Not saved. There is no room left") == 1


async def saved(depot: App, screen: Screen, walk_id: str, *keys: str) -> None:
    """Tap these with room again: it is saved, and the sentence is gone."""
    before = len(depot.parts.open_walks.walk(walk_id).events)
    for key in keys:
        await screen.click(key)
    await screen.until(lambda: len(depot.parts.open_walks.walk(walk_id).events) > before)
    await screen.until(lambda: not screen.has("unsaved"))


async def test_the_step_stays_and_the_sentence_stays_through_every_screen_of_the_walk(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = walk_on(depot, VENT, LAMPS)
    async with depot.page(f"/walk/{walk_id}") as screen:
        with full_disk(monkeypatch):
            await refused(depot, screen, "ok")
        assert "Vent" in screen.texts()
        for opened in ("menu", "steps"):
            await screen.click(opened)
            assert screen.has("unsaved")
        await screen.click("back")
        await screen.click("back")
        for panel in ("defect", "other", "note"):
            await screen.click(panel)
            assert screen.has("unsaved")
            await screen.click("back")
        await saved(depot, screen, walk_id, "ok")
        assert "Tails" in screen.texts()


async def test_it_is_rendered_ahead_so_that_a_full_disk_does_not_silence_it(depot: App) -> None:
    async with depot.page(f"/walk/{walk_on(depot, VENT, LAMPS)}"):
        assert ENGLISH("page-not-saved-said") in depot.voice.planned


async def test_without_a_voice_it_is_felt(depot: App, monkeypatch: pytest.MonkeyPatch) -> None:
    depot.voice.trouble = "No voice: there is no engine; the words are on the screen."
    async with depot.page(f"/walk/{walk_on(depot, VENT)}") as screen:
        with full_disk(monkeypatch):
            await screen.click("ok")
            await screen.until(lambda: screen.has("unsaved"))
            await screen.settle()
        assert "vibrate" in [call.method for call in screen.invoked]
        assert ENGLISH("page-not-saved-said") not in depot.voice.said


async def test_faults_chosen_stay_for_a_second_try(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = walk_on(depot, LAMPS)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("defect")
        await screen.click("item_tail_left")
        await screen.click("seen_dark")
        with full_disk(monkeypatch):
            await refused(depot, screen, "record_fault")
        assert "1  tail left: dark" in screen.names()
        await saved(depot, screen, walk_id, "record_fault")
    assert depot.parts.open_walks.walk(walk_id).answers["tails"].seen == {"tail_left": "dark"}


async def test_a_note_typed_stays_for_a_second_try(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = walk_on(depot, VENT)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("note")
        await screen.fill("note_text", "hose chafed")
        with full_disk(monkeypatch):
            await refused(depot, screen, "save_note")
        assert screen.find("note_text").value == "hose chafed"
        await saved(depot, screen, walk_id, "save_note")
    assert depot.parts.open_walks.walk(walk_id).notes["vent"] == "hose chafed"


async def test_a_value_half_entered_stays_for_a_second_try(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = walk_on(depot, PRESSURE)
    async with depot.page(f"/walk/{walk_id}") as screen:
        with full_disk(monkeypatch):
            await refused(depot, screen, "key_60", "key_65")
        await saved(depot, screen, walk_id, "key_65")
        with full_disk(monkeypatch):
            await refused(depot, screen, "value_primary", "key_70", "key_71")
        await saved(depot, screen, walk_id, "key_71")
    assert depot.parts.open_walks.walk(walk_id).measured["warning"]["primary"].value == 71.0


async def test_a_time_stopped_but_not_saved_is_the_one_that_the_next_tap_saves(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = walk_on(depot, TIMED)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await saved(depot, screen, walk_id, "start_time")
        depot.clock.wait(31)
        with full_disk(monkeypatch):
            await refused(depot, screen, "stop_time")
        depot.clock.wait(60)
        await saved(depot, screen, walk_id, "stop_time")
    assert depot.parts.open_walks.walk(walk_id).measured["rebuild"]["time"].value == 31.0


async def test_what_was_told_of_the_gauges_stays_for_a_second_try(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = walk_on(depot, GAUGES, VENT)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("mark_2")
        with full_disk(monkeypatch):
            await refused(depot, screen, "ok")
        assert "2 psi" in screen.texts()
        await saved(depot, screen, walk_id, "ok")
        await screen.until(lambda: "Vent" in screen.texts())


async def test_a_reading_is_asked_for_again_and_the_hold_goes_on(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = at_the_hold(depot, hold_rule(supply=110.0), {"supply": Gauge(name="supply")})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        with full_disk(monkeypatch):
            await refused(depot, screen, "read_110")
        assert not hold_of(depot, walk_id).readings
        await read(depot, screen, walk_id, 110)
        await screen.until(lambda: not screen.has("unsaved"))
        assert [each.at_s for each in hold_of(depot, walk_id).readings] == [0.0]


async def test_a_crossing_that_was_not_saved_keeps_its_moment(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    coarse = Gauge(name="supply", step=5.0, crossing=True)
    walk_id = at_the_hold(depot, hold_rule(supply=110.0), {"supply": coarse})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        depot.clock.wait(3)
        with full_disk(monkeypatch):
            await refused(depot, screen, "cross_supply_110")
        depot.clock.wait(4)
        await saved(depot, screen, walk_id, "cross_supply_110")
        assert [each.at_s for each in hold_of(depot, walk_id).readings] == [3.0]


async def test_a_hold_that_cannot_be_ended_says_so_once_and_ends_when_there_is_room(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    coarse = Gauge(name="supply", step=5.0, crossing=True)
    walk_id = at_the_hold(depot, hold_rule(supply=110.0), {"supply": coarse})
    async with depot.page(f"/walk/{walk_id}") as screen:
        await start(depot, screen, walk_id)
        await saved(depot, screen, walk_id, "cross_supply_110")
        with full_disk(monkeypatch):
            depot.clock.wait(300)
            await screen.until(lambda: screen.has("unsaved"))
            depot.clock.wait(1)
            await screen.until(lambda: screen.find("seconds_left").value == "301")
            assert depot.voice.said.count(ENGLISH("page-not-saved-said")) == 1
        depot.clock.wait(depot.parts.timing.save_again_s)
        await screen.until(lambda: not hold_of(depot, walk_id).running)
        await screen.until(lambda: not screen.has("unsaved"))
