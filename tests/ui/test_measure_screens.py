"""Steps that take values, tell of gauges, or wait: real screens on a plan of the test's own."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from support.app import HURRIED, App, app
from support.flet_harness import Screen
from support.walks import plan, step

from walkaround.base.message import Quantity, message
from walkaround.plan.steps import Step
from walkaround.ui.kit.theme import SMALL_TOUCH
from walkaround.ui.page import sound
from walkaround.ui.step.keypad import KEY_TEXT
from walkaround.walk.state import Walk


def values(*ids: str, **more: Any) -> list[dict[str, Any]]:
    return [{"id": id_, "name": id_.replace("_", " "), **more} for id_ in ids]


def measured(id_: str, quantity: str, **measure: Any) -> Step:
    body = {"quantity": quantity, "limit": "invented", **measure}
    return step(id_, "reserve", "measure", short="Look.", measure=body)


WARNING = measured(
    "warning",
    "psi",
    start=60.0,
    values=[
        {"id": line, "name": line, "gauge": line, "at_least": 60.0}
        for line in ("primary", "secondary")
    ],
    limit=message("limit-at-least", least=Quantity(value=60, unit="psi"), source="invented"),
    also=(message("limit-at-least", least=Quantity(value=55, unit="psi"), source="another book"),),
)
REBUILD = measured(
    "rebuild", "s", values=values("time", at_most=45.0), begin="85 psi", end="100 psi"
)
UNKNOWN = measured("unknown", "in", known=False, values=values("stroke"))
GAUGES = step("gauges", "connect", "gauges")
VENT = step("vent_supply", "finish", "act")
WAIT = step(
    "breakaway", "finish", "wait", title="Breakaway: 15 minutes",
    wait={"after": "vent_supply", "seconds": 900},
)  # fmt: skip
LAST = step("off", "leave", "act")


def stroke(side: str) -> Step:
    item = {"id": f"axle_1_{side}", "name": f"axle 1, {side} end", "kind": "wheel_end"}
    return step(
        f"stroke_{side}",
        "strokes",
        "measure",
        spot=f"{side}_side",
        soft=True,
        items=(item,),
        measure={
            "quantity": "in",
            "values": values("stroke", at_most=2.0),
            "start": 2.0,
            "limit": message("limit-at-most", most=Quantity(value=2, unit="in"), source="invented"),
            "advice": "Find the cause.",
        },
    )


def begin(depot: App, *steps: Step, **more: Any) -> str:
    return depot.parts.open_walks.begin(plan((*steps, LAST)).model_copy(update=more), "Kim")


def walk_of(depot: App, walk_id: str) -> Walk:
    return depot.parts.open_walks.walk(walk_id)


async def tap(depot: App, screen: Screen, walk_id: str, *keys: str) -> None:
    """Tap one key after another, the last of which saves something."""
    before = len(walk_of(depot, walk_id).events)
    for key in keys:
        await screen.until(lambda key=key: screen.has(key))
        await screen.click(key)
    await screen.until(lambda: len(walk_of(depot, walk_id).events) > before)
    await screen.settle()


async def test_two_taps_a_value_then_all_within_is_ok(depot: App) -> None:
    walk_id = begin(depot, WARNING)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "Also published: at least 55 psi: another book." in screen.texts()
        assert not screen.has("ok")
        await tap(depot, screen, walk_id, "key_70", "key_74")
        assert depot.voice.said[-1] == "Now secondary."
        await tap(depot, screen, walk_id, "key_60", "key_60")
        assert "Within the limits" in screen.texts()
        read = walk_of(depot, walk_id).measured["warning"]
        assert {id_: (one.value, one.unit) for id_, one in read.items()} == {
            "primary": (74.0, "psi"),
            "secondary": (60.0, "psi"),
        }
        await tap(depot, screen, walk_id, "ok")
        assert walk_of(depot, walk_id).answers["warning"].answer == "ok"


async def test_a_value_outside_offers_a_defect_or_measuring_again_and_is_said(depot: App) -> None:
    walk_id = begin(depot, stroke("right"))
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "key_2", "key_2.25")
        assert "Over the limit" in screen.texts()
        assert "Find the cause." in screen.texts()
        assert not screen.has("ok")
        assert depot.voice.said[-1] == "2 1/4 in, at most 2 in: over. Find the cause."
        await screen.click("again_measure")
        await tap(depot, screen, walk_id, "key_1", "key_1.5")
        assert "Within limit: 1 1/2 in (max 2 in)" in screen.texts()
        assert screen.has("ok")
        await screen.click("value_stroke")
        await tap(depot, screen, walk_id, "key_2", "key_2.25")
        await tap(depot, screen, walk_id, "defect")
        assert "1 open defect" in screen.texts()
        await screen.click("defects")
        assert "2 1/4 in, at most 2 in: over." in screen.texts()


async def test_while_somebody_is_in_the_voice_is_lowered(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    softly: list[bool] = []
    say = sound.Sound.say

    async def noted(self: sound.Sound, text: str, *, soft: bool = False) -> float:
        softly.append(soft or self._near())
        return await say(self, text, soft=soft)

    monkeypatch.setattr(sound.Sound, "say", noted)
    walk_id = begin(depot, stroke("right"))
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "key_2", "key_2.25")
        await tap(depot, screen, walk_id, "defect")
    assert softly == [True, True, False]


async def test_ends_far_apart_are_called_out(depot: App) -> None:
    walk_id = begin(depot, stroke("right"), stroke("left"))
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "key_1", "key_1")
        await tap(depot, screen, walk_id, "ok")
        await tap(depot, screen, walk_id, "key_1", "key_1.5")
        assert any("1/2 in apart" in text for text in screen.texts())
        assert any("common practice, no source" in text for text in screen.texts())


async def test_values_are_entered_and_limits_shown_in_the_units_chosen(depot: App) -> None:
    walk_id = begin(depot, stroke("right"), WARNING)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("menu")
        await screen.click("mm")
        await screen.click("kPa")
        await screen.until(lambda: depot.parts.settings().pressure == "kPa")
        await screen.click("back")
        # 2 in are 50.8 mm.
        assert "Limit: at most 50.8 mm: invented." in screen.texts()
        await tap(depot, screen, walk_id, "key_50", "key_51")
        assert "51 mm, at most 50.8 mm: over" in screen.texts()
        await tap(depot, screen, walk_id, "defect")
        # The dial of the gauge is in psi, so that its limit is told in psi.
        assert "Limit: at least 60 psi: invented." in screen.texts()
        assert "Primary, psi" in screen.texts()


async def test_a_gauge_in_bar_has_keys_and_limits_in_bar(depot: App) -> None:
    walk_id = begin(depot, GAUGES, WARNING, gauges=("primary", "secondary"))
    async with depot.page(f"/walk/{walk_id}") as screen:
        for _ in range(2):
            await screen.click("unit_bar")
            await screen.click("mark_0.1")
        await tap(depot, screen, walk_id, "ok")
        # 60 psi are 4.137 bar.
        assert "Limit: at least 4.14 bar: invented." in screen.texts()
        await tap(depot, screen, walk_id, "key_4", "key_4.2")
        await tap(depot, screen, walk_id, "key_4", "key_4.1")
        assert "Primary: 4.2 bar, at least 4.14 bar: within" in screen.texts()
        assert "Secondary: 4.1 bar, at least 4.14 bar: under" in screen.texts()


async def test_every_key_is_large_and_its_word_has_room(depot: App) -> None:
    walk_id = begin(depot, stroke("right"), WARNING)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("key_1")
        for key in ("key_1", "key_1.0625", "key_1.9375"):
            control: Any = screen.target(key)
            assert control.height >= SMALL_TOUCH
            assert control.content.size == KEY_TEXT
        await screen.click("coarse")
        assert screen.has("key_3")


async def test_a_second_tap_within_the_dead_time_enters_nothing(patient: App) -> None:
    walk_id = begin(patient, WARNING)
    async with patient.page(f"/walk/{walk_id}") as screen:
        await screen.click("key_70")
        assert screen.has("key_150")
        patient.clock.wait(1)
        await screen.click("key_70")
        await screen.click("key_70")
        assert walk_of(patient, walk_id).measured == {}


async def test_a_stopwatch_runs_on_the_walks_own_clock_through_a_reload(depot: App) -> None:
    walk_id = begin(depot, REBUILD)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "85 psi" in screen.texts()
        await tap(depot, screen, walk_id, "start_time")
    depot.clock.wait(33)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.until(lambda: "33 s" in screen.texts())
        assert not screen.has("ok")
        await tap(depot, screen, walk_id, "stop_time")
        assert "33 s, at most 45 s: within" in screen.texts()
        assert walk_of(depot, walk_id).measured["rebuild"]["time"].value == 33.0
        await screen.click("value_time")
        await tap(depot, screen, walk_id, "key_50", "key_52")
        assert "Over the limit" in screen.texts()
        await tap(depot, screen, walk_id, "again_measure")
        assert screen.has("stop_time")


async def test_a_stopwatch_tapped_twice_by_mistake_runs_on(tmp_path: Path) -> None:
    async with app(tmp_path / "data", replace(HURRIED, twice_s=0.4)) as depot:
        walk_id = begin(depot, REBUILD)
        async with depot.page(f"/walk/{walk_id}") as screen:
            await tap(depot, screen, walk_id, "start_time")
            depot.clock.wait(0.2)
            await screen.click("stop_time")
            assert walk_of(depot, walk_id).measured == {}


async def test_a_time_that_a_restart_has_cut_off_is_started_again(depot: App) -> None:
    walk_id = begin(depot, REBUILD)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "start_time")
    depot.clock.boot = "boot_b"
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert any("restarted" in text for text in screen.texts())
        assert not screen.has("stop_time")
        await tap(depot, screen, walk_id, "start_time")
        assert screen.has("stop_time")


async def test_a_value_with_nothing_to_hold_it_against_is_written_down_not_ok(depot: App) -> None:
    walk_id = begin(depot, UNKNOWN)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "key_1", "key_1.5")
        assert not screen.has("ok")
        assert "1 1/2 in: written down" in screen.texts()
        await tap(depot, screen, walk_id, "not_checked")
        assert walk_of(depot, walk_id).answers["unknown"].answer == "not_checked"


async def test_a_value_looked_back_at_is_measured_again_only_by_going_back(depot: App) -> None:
    walk_id = begin(depot, WARNING, VENT)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "key_70", "key_70")
        await tap(depot, screen, walk_id, "key_70", "key_70")
        await tap(depot, screen, walk_id, "ok")
        await screen.click("back")
        await screen.until(lambda: screen.has("given"))
        assert not screen.has("key_70")
        await tap(depot, screen, walk_id, "reopen")
        await screen.click("value_primary")
        await tap(depot, screen, walk_id, "key_50", "key_55")
        assert "Below the limit" in screen.texts()
        await tap(depot, screen, walk_id, "defect")
        assert walk_of(depot, walk_id).answers["warning"].answer == "defect"


async def test_gauges_are_told_once_and_taken_over_with_one_tap(depot: App) -> None:
    more = {"gauges": ("supply", "service")}
    first = begin(depot, GAUGES, **more)
    async with depot.page(f"/walk/{first}") as screen:
        await screen.click("mark_1")
        await screen.click("unit_bar")
        await screen.click("mark_0.5")
        await screen.click("crossing")
        for _ in range(2):
            await screen.click("site_500")
        assert any("1000 ft" in text for text in screen.texts())
        await tap(depot, screen, first, "ok")
        told = walk_of(depot, first).told_gauges
        assert told is not None
        assert (told.altitude_m, told.at_zero) == (pytest.approx(304.8), True)
        assert told.gauges["service"].model_dump() == {
            "name": "service", "unit": "bar", "step": 0.5, "crossing": True,
        }  # fmt: skip
    second = begin(depot, GAUGES, **more)
    depot.parts.store.change_settings({"length": "mm"})
    async with depot.page(f"/walk/{second}") as screen:
        assert "Zero seen at 305 m, last time." in screen.texts()
        await screen.click("site_-100")
        await tap(depot, screen, second, "ok")
    # Seen at 1000 ft and not again: what was near enough stays where it was seen.
    known = depot.parts.settings().gauges["supply"]
    assert known.zero_at_m == pytest.approx(304.8)
    assert depot.parts.settings().altitude_m == pytest.approx(204.8)


async def test_far_from_where_it_was_seen_the_zero_is_asked_again(depot: App) -> None:
    more = {"gauges": ("supply",)}
    first = begin(depot, GAUGES, **more)
    async with depot.page(f"/walk/{first}") as screen:
        await screen.click("mark_2")
        await tap(depot, screen, first, "ok")
    second = begin(depot, GAUGES, **more)
    async with depot.page(f"/walk/{second}") as screen:
        assert "As last time" in screen.texts()
        for _ in range(3):
            await screen.click("site_500")
        assert "Gauges at zero" in screen.texts()
        assert any("Trapped air" in text for text in screen.texts())
        await tap(depot, screen, second, "defect")
        assert walk_of(depot, second).answers["gauges"].answer == "defect"
    assert depot.parts.settings().gauges["supply"].zero_at_m is None


async def test_a_gauge_told_anew_has_its_zero_looked_at(depot: App) -> None:
    more = {"gauges": ("supply",)}
    first = begin(depot, GAUGES, **more)
    async with depot.page(f"/walk/{first}") as screen:
        await screen.click("mark_2")
        await tap(depot, screen, first, "ok")
    second = begin(depot, GAUGES, **more)
    async with depot.page(f"/walk/{second}") as screen:
        await screen.click("gauge_supply")
        await screen.click("mark_5")
        await screen.click("by_number")
        assert "Gauges at zero" in screen.texts()


async def test_a_wait_is_ok_only_when_its_time_has_run(depot: App) -> None:
    walk_id = begin(depot, VENT, WAIT)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        depot.clock.wait(895)
        await screen.until(lambda: "0:05" in screen.texts())
        assert not screen.has("ok")
        depot.clock.wait(5)
        await screen.until(lambda: screen.has("ok"))
        await tap(depot, screen, walk_id, "ok")
        assert walk_of(depot, walk_id).answers["breakaway"].answer == "ok"


async def test_a_wait_that_runs_is_shown_on_every_other_step(depot: App) -> None:
    walk_id = begin(depot, VENT, WARNING, WAIT)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert not screen.has("strip")
        await tap(depot, screen, walk_id, "ok")
        await screen.until(lambda: "Breakaway: 15 min left" in screen.texts())
        depot.clock.wait(181)
        await screen.until(lambda: "Breakaway: 12 min left" in screen.texts())
        depot.clock.wait(700)
        await screen.until(lambda: "Breakaway: 19 s left" in screen.texts())
        depot.clock.wait(19)
        await screen.until(lambda: "Breakaway: the time is up" in screen.texts())


async def test_a_wait_can_be_left_unchecked(depot: App) -> None:
    walk_id = begin(depot, VENT, WAIT)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        await tap(depot, screen, walk_id, "not_now", "reason_no_time")
        assert walk_of(depot, walk_id).answers["breakaway"].answer == "not_checked"


async def test_measured_values_stand_in_the_summary(depot: App) -> None:
    walk_id = begin(depot, stroke("right"), stroke("left"))
    async with depot.page(f"/walk/{walk_id}") as screen:
        for keys in (("key_1", "key_1"), ("key_1", "key_1.5")):
            await tap(depot, screen, walk_id, *keys)
            await tap(depot, screen, walk_id, "ok")
        await tap(depot, screen, walk_id, "ok")
        assert "stroke_right: 1 in, at most 2 in: within." in screen.texts()
        assert any("1/2 in apart" in text for text in screen.texts())
