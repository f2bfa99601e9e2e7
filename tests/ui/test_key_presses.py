"""Pedals and other keys on real screens: learnt by a press, answering what they may, echoed."""

from __future__ import annotations

from collections.abc import AsyncIterator, Mapping
from contextlib import asynccontextmanager

import flet as ft
import pytest
from support.app import App
from support.flet_harness import Screen
from support.tapping import walk_of
from support.walks import STEPS, plan

from walkaround.key_answers.key_presses import TAKE_BACK_S
from walkaround.key_answers.learned_keys import Action, LearnedKeys
from walkaround.plan.steps import Step
from walkaround.ui.page.device import Device
from walkaround.ui.page.keyboard import KEYS_KEY
from walkaround.walk.events import Answered, Revisited

PEDAL: Mapping[str, Action] = {"Page Down": "ok", "Page Up": "defect"}
ALL: Mapping[str, Action] = {**PEDAL, "1": "again", "2": "explain", "3": "back"}
FREE = tuple(each.model_copy(update={"hands_free": each.power}) for each in STEPS)
TAIL, BACKUP = FREE[1], FREE[2]
LAST = FREE[-1]


def begin(depot: App, *steps: Step) -> str:
    return depot.parts.open_walks.begin(plan((*steps, LAST)), "Kim")


def keeps(monkeypatch: pytest.MonkeyPatch, keys: Mapping[str, Action] = ALL) -> None:
    """The phone has learnt these."""
    text = LearnedKeys(keys=keys).model_dump_json()

    async def kept(_: Device, key: str) -> str:
        return text if key == KEYS_KEY else ""

    monkeypatch.setattr(Device, "_text_kept", kept)


@asynccontextmanager
async def pressing(
    depot: App,
    monkeypatch: pytest.MonkeyPatch,
    walk_id: str,
    keys: Mapping[str, Action] = ALL,
) -> AsyncIterator[Screen]:
    """A phone at this walk that knows its keys; it is asked for them as the page opens."""
    keeps(monkeypatch, keys)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.until(lambda: screen.has("key_line"))
        yield screen


def given(depot: App, walk_id: str) -> list[tuple[str, str, str]]:
    events = walk_of(depot, walk_id).events
    return [(e.step, e.answer, e.by) for e in events if isinstance(e, Answered)]


async def answered(depot: App, screen: Screen, walk_id: str, key: str) -> None:
    """Press a key that answers, and wait for what it does."""
    before = len(walk_of(depot, walk_id).events)
    await screen.press(key)
    await screen.until(lambda: len(walk_of(depot, walk_id).events) > before)
    await screen.settle()


async def test_a_key_is_learnt_by_one_press_and_kept_on_the_phone(patient: App) -> None:
    async with patient.page("/keys") as screen:
        assert "OK: no key" in screen.texts()
        await screen.press("Page Down")
        assert "OK: no key" in screen.texts()
        await screen.click("learn_ok")
        assert "OK: press its key now" in screen.texts()
        await screen.press("Page Down")
        # A bouncing pedal is learnt once, and is no key for the next action.
        await screen.click("learn_defect")
        await screen.press("Page Down")
        assert {"OK: Page Down", "Defect: press its key now"} <= set(screen.texts())
        patient.clock.wait(1)
        await screen.press(" ")
        assert {"OK: Page Down", "Defect: Space"} <= set(screen.texts())
        kept = [call.args["value"] for call in screen.invoked if call.method == "set"]
        assert LearnedKeys.from_json(kept[-1]).keys == {"Page Down": "ok", "Space": "defect"}
        await screen.click("forget_keys")
        assert "OK: no key" in screen.texts()


async def test_a_key_that_cannot_be_learnt_is_asked_for_again(depot: App) -> None:
    async with depot.page("/keys") as screen:
        await screen.click("learn_back")
        await screen.press("Tab")
        assert "That key cannot be learnt: press another." in screen.texts()
        await screen.press("Escape")
        assert "Back: Escape" in screen.texts()
        assert not screen.has("message")


async def test_a_pedal_answers_a_look_and_the_answer_is_said_felt_and_signed_so(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, TAIL, BACKUP)
    async with pressing(depot, monkeypatch, walk_id, PEDAL) as screen:
        assert "Page Down OK, Page Up Defect" in screen.texts()
        await answered(depot, screen, walk_id, "Page Down")
        assert given(depot, walk_id) == [("tail_rear", "ok", "key")]
        assert depot.voice.said[-2] == "OK."
        assert [call.control for call in screen.invoked if call.method == "vibrate"] == [
            "HapticFeedback"
        ]
        await screen.until(lambda: "2 of 3" in screen.texts())


async def test_a_tap_is_not_echoed_and_is_signed_as_a_tap(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, TAIL, BACKUP)
    async with pressing(depot, monkeypatch, walk_id) as screen:
        await screen.click("ok")
        await screen.until(lambda: bool(given(depot, walk_id)))
        assert given(depot, walk_id) == [("tail_rear", "ok", "tap")]
        assert "OK." not in depot.voice.said


async def test_a_defect_is_told_with_two_keys_and_echoed(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, TAIL, BACKUP)
    async with pressing(depot, monkeypatch, walk_id, PEDAL) as screen:
        for key, said in (
            ("Page Up", "tail left"),
            ("Page Up", "tail right"),
            ("Page Down", "Dark"),
            ("Page Up", "Dim"),
            ("Page Down", "Record it"),
        ):
            await screen.press(key)
            await screen.until(lambda said=said: depot.voice.said[-1] == said)
        assert given(depot, walk_id) == []
        await answered(depot, screen, walk_id, "Page Down")
        assert given(depot, walk_id) == [("tail_rear", "defect", "key")]
        assert walk_of(depot, walk_id).answers["tail_rear"].seen == {"tail_right": "dim"}
        assert "Defect: tail right dim." in depot.voice.said


async def test_the_way_back_is_the_last_of_what_two_keys_go_through(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, TAIL)
    async with pressing(depot, monkeypatch, walk_id, PEDAL) as screen:
        for _ in range(3):
            await screen.press("Page Up")
        assert depot.voice.said[-1] == "Back"
        await screen.press("Page Down")
        await screen.until(lambda: screen.has("key_line"))
        assert given(depot, walk_id) == []


async def test_keys_keep_or_drop_what_was_marked_as_the_question_says(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, TAIL)
    async with pressing(depot, monkeypatch, walk_id) as screen:
        for key, said in (
            ("Page Up", "tail left"),
            ("Page Down", "Dark"),
            ("Page Down", "Record it"),
            ("3", "Keep it"),
            ("Page Down", "Record it"),
            ("3", "Keep it"),
            ("3", "Record it"),
            ("3", "Keep it"),
            ("Page Up", "Drop it"),
        ):
            await screen.press(key)
            await screen.until(lambda said=said: depot.voice.said[-1] == said)
        await screen.press("Page Down")
        await screen.until(lambda: screen.has("key_line"))
        assert given(depot, walk_id) == []


async def test_a_press_on_defects_opened_by_a_tap_only_points(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, BACKUP)
    async with pressing(depot, monkeypatch, walk_id, PEDAL) as screen:
        await screen.click("defect")
        await screen.press("Page Down")
        assert depot.voice.said[-1] == "Dark"
        await answered(depot, screen, walk_id, "Page Down")
        assert walk_of(depot, walk_id).answers["backup_rear"].seen == {"backup_centre": "dark"}


async def test_what_takes_a_tap_says_so_and_takes_no_key(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = depot.parts.open_walks.begin(plan(FREE), "Kim")
    async with pressing(depot, monkeypatch, walk_id) as screen:
        assert screen.find("key_line").value == "Takes a tap: no key or voice answers it."
        # The order is still to be heard: the refusal is felt, and said once it cuts nothing off.
        for key in ("Page Down", "Page Up"):
            await screen.press(key)
            assert depot.voice.said[-1] == "Takes a tap: no key or voice answers it."
        assert given(depot, walk_id) == []
        assert not screen.has("defect_yes")


async def test_an_answer_by_a_key_is_taken_back_by_the_next_and_both_stay_in_the_record(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, TAIL, BACKUP)
    async with pressing(depot, monkeypatch, walk_id) as screen:
        await answered(depot, screen, walk_id, "Page Down")
        await answered(depot, screen, walk_id, "3")
        walk = walk_of(depot, walk_id)
        assert walk.here is not None
        assert walk.here.id == "tail_rear"
        kinds = [type(event) for event in walk.events[1:]]
        assert kinds == [Answered, Revisited]
        assert "Taken back." in depot.voice.said
        await answered(depot, screen, walk_id, "Page Down")
        assert [step for step, _, _ in given(depot, walk_id)] == ["tail_rear", "tail_rear"]


async def test_a_defect_taken_back_is_cleared_by_a_tap_alone(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, BACKUP)
    async with pressing(depot, monkeypatch, walk_id) as screen:
        await screen.press("Page Up")
        await answered(depot, screen, walk_id, "Page Down")
        await answered(depot, screen, walk_id, "3")
        await screen.press("Page Down")
        assert walk_of(depot, walk_id).is_open("backup_rear")
        assert "A defect is open here: only" in screen.find("key_line").value
        await screen.click("ok")
        await screen.until(lambda: not walk_of(depot, walk_id).is_open("backup_rear"))


async def test_after_a_while_back_looks_back_and_ok_goes_on(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, TAIL, BACKUP)
    async with pressing(depot, monkeypatch, walk_id) as screen:
        await screen.press("3")
        assert "1 of 3" in screen.texts()
        await answered(depot, screen, walk_id, "Page Down")
        depot.clock.wait(TAKE_BACK_S + 1)
        await screen.press("3")
        assert "Looking back: tail_rear" in screen.texts()
        await screen.press("Page Down")
        assert "2 of 3" in screen.texts()
        assert len(given(depot, walk_id)) == 1


async def test_what_was_answered_by_a_tap_is_looked_back_at_and_not_taken_back(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, TAIL, BACKUP)
    async with pressing(depot, monkeypatch, walk_id) as screen:
        await screen.click("ok")
        await screen.until(lambda: "2 of 3" in screen.texts())
        await screen.press("3")
        assert "Looking back: tail_rear" in screen.texts()


async def test_a_key_in_a_steps_first_moment_does_nothing(
    patient: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(patient, TAIL, BACKUP)
    async with pressing(patient, monkeypatch, walk_id) as screen:
        await screen.press("Page Down")
        patient.clock.wait(1)
        await answered(patient, screen, walk_id, "Page Down")
        for _ in range(3):
            await screen.press("Page Down")
        assert [step for step, _, _ in given(patient, walk_id)] == ["tail_rear"]


@pytest.mark.parametrize("panel", ["note", "menu", "other", "keys"])
async def test_keys_do_nothing_where_a_field_or_anything_else_is_open(
    depot: App, monkeypatch: pytest.MonkeyPatch, panel: str
) -> None:
    walk_id = begin(depot, TAIL)
    async with pressing(depot, monkeypatch, walk_id) as screen:
        if panel == "keys":
            await screen.click("menu")
        await screen.click(panel)
        said = len(depot.voice.said)
        for key in ALL:
            await screen.press(key)
        assert given(depot, walk_id) == []
        assert not screen.has("key_line")
        assert len(depot.voice.said) == said


async def test_no_field_stands_where_keys_answer(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = depot.parts.open_walks.begin(plan(FREE), "Kim")
    async with pressing(depot, monkeypatch, walk_id) as screen:
        for each in FREE[1:5]:
            depot.parts.open_walks.do(walk_id, "Kim", (Answered, _ok(depot, walk_id)))
            await screen.until(lambda title=each.title: str(title) in screen.texts())
            assert not screen.controls(ft.TextField)


def _ok(depot: App, walk_id: str) -> dict[str, str]:
    here = walk_of(depot, walk_id).here
    assert here is not None
    return {"step": here.id, "answer": "ok"}


async def test_again_and_explain_are_said_at_any_step(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, TAIL)
    async with pressing(depot, monkeypatch, walk_id) as screen:
        said = len(depot.voice.said)
        await screen.press("1")
        assert len(depot.voice.said) == said + 1
        await screen.press("2")
        await screen.until(lambda: len(depot.voice.said) == said + 2)
        assert depot.parts.settings().wording == "long"


async def test_one_press_for_many_lamps_waits_until_it_was_said_which(
    patient: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    many = TAIL.model_copy(update={"circuits_on": ("tail", "stop")})
    walk_id = begin(patient, many)
    heard_s = 60.0
    monkeypatch.setattr(
        "walkaround.ui.taps.speaker.Speaker.unheard_s", lambda *_: heard_s, raising=True
    )
    async with pressing(patient, monkeypatch, walk_id) as screen:
        patient.clock.wait(5)
        assert screen.has("listen")
        await screen.press("Page Down")
        assert given(patient, walk_id) == []
        monkeypatch.setattr("walkaround.ui.taps.speaker.Speaker.unheard_s", lambda *_: 0.0)
        await screen.until(lambda: screen.has("ok"))
        patient.clock.wait(5)
        await answered(patient, screen, walk_id, "Page Down")
        assert given(patient, walk_id) == [("tail_rear", "ok", "key")]


async def test_a_key_that_was_not_learnt_does_nothing(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = begin(depot, TAIL)
    async with pressing(depot, monkeypatch, walk_id, PEDAL) as screen:
        for key in ("Enter", " ", "1", "F24"):
            await screen.press(key)
        assert given(depot, walk_id) == []
    async with depot.page("/") as home:
        await home.press("Page Down")


async def test_at_the_end_of_the_walk_keys_close_nothing(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = depot.parts.open_walks.begin(plan((TAIL,)), "Kim")
    async with pressing(depot, monkeypatch, walk_id) as screen:
        await answered(depot, screen, walk_id, "Page Down")
        depot.clock.wait(TAKE_BACK_S + 1)
        said = len(depot.voice.said)
        for key in ("Page Down", "Page Up", "2", "1"):
            await screen.press(key)
        assert walk_of(depot, walk_id).phase == "stepping"
        assert len(depot.voice.said) == said + 1
