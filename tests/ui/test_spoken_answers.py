"""Spoken answers on real screens, by recognition that hears what the test says."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import date
from itertools import count
from pathlib import Path

import pytest
from support.app import App, app
from support.flet_harness import Screen
from support.keywalks import pedal_kept
from support.scripted_recognition import Talk, clear, scripted
from support.tapping import walk_of
from support.walks import HOLD, STEPS, plan, step

from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Step
from walkaround.plan.values import Measure, Value
from walkaround.rules.limits import WaitRule
from walkaround.spoken_answers.heard_text import HeardText
from walkaround.spoken_answers.phrases import PHRASES
from walkaround.ui.page.device import Device
from walkaround.ui.page.sound import Sound
from walkaround.ui.taps.microphone import TICKET_KEY
from walkaround.walk.events import Answered, HoldBegan, Measured, Revisited

FREE = tuple(
    each.model_copy(update={"hands_free": each.power, "spoken": "count" if each.hold else ""})
    for each in STEPS
)
CHOCKS, TAIL, BACKUP, REFLECTORS, AIR_HOLD, LISTEN, LAST = FREE
STROKE = step(
    "stroke",
    "strokes",
    "measure",
    spoken="value",
    soft=True,
    measure=Measure(quantity="in", values=(Value(id="stroke", name="stroke", at_most=2.0),)),
)
DRY = step("dry", "leave", "wait", wait=WaitRule(after=REFLECTORS.id, seconds=60.0))
NOT_CLEAR = HeardText(text=PHRASES["ok"], lead=2.0, gap=0.0, end=-0.1, seconds=1.0)


@asynccontextmanager
async def talking(
    data: Path, *steps: Step, talk: bool = True, repeat_s: int = 0
) -> AsyncIterator[Talk]:
    """A phone at a walk of these steps, whose microphone is open."""
    # Each look at its clock is long after the last clip.
    recognition, process = scripted(count(0.0, 100.0).__next__)
    async with app(data, recognition=recognition) as depot:
        depot.parts.store.change_settings({"who": "Kim", "talk": talk, "repeat_s": repeat_s})
        walk_id = depot.parts.open_walks.begin(plan((*steps, LAST)), "Kim")
        async with depot.page(f"/walk/{walk_id}") as screen:
            if talk:
                stream = recognition.stream(ticket(screen))
                assert stream is not None
                stream.joined()
                await screen.settle()
            yield Talk(depot, screen, process, walk_id)


def ticket(screen: Screen) -> str:
    """The ticket that the phone was told."""
    told = [c.args for c in screen.invoked if c.method == "set" and c.args["key"] == TICKET_KEY]
    return str(told[-1]["value"]) if told else ""


def given(talk: Talk) -> list[tuple[str, str, str]]:
    events = walk_of(talk.depot, talk.walk_id).events
    return [(e.step, e.answer, e.by) for e in events if isinstance(e, Answered)]


def shaken(talk: Talk) -> int:
    return sum(call.method == "vibrate" for call in talk.screen.invoked)


def here(talk: Talk) -> str:
    now = walk_of(talk.depot, talk.walk_id).here
    return now.id if now else ""


async def test_ok_is_said_signed_as_spoken_and_echoed(tmp_path: Path) -> None:
    async with talking(tmp_path, BACKUP, REFLECTORS) as talk:
        assert "All is well here / Something is wrong" in talk.screen.texts()
        await talk.answers("ok")
        assert given(talk) == [("backup_rear", "ok", "voice")]
        assert "OK." in talk.depot.voice.said
        assert [c.control for c in talk.screen.invoked if c.method == "vibrate"]
        assert here(talk) == "reflectors_rear"


async def test_it_is_taken_back_by_the_next_thing_said_and_both_entries_stay(
    tmp_path: Path,
) -> None:
    async with talking(tmp_path, BACKUP, REFLECTORS) as talk:
        await talk.answers("ok")
        await talk.answers("back")
        walk = walk_of(talk.depot, talk.walk_id)
        assert isinstance(walk.events[-1], Revisited)
        assert here(talk) == "backup_rear"
        assert given(talk) == [("backup_rear", "ok", "voice")]
        await talk.until(lambda: "Taken back." in talk.depot.voice.said)


async def test_it_is_taken_back_by_a_tap_too(tmp_path: Path) -> None:
    async with talking(tmp_path, BACKUP, REFLECTORS) as talk:
        await talk.answers("ok")
        await talk.screen.click("back")
        await talk.screen.click("defect")
        await talk.screen.click("seen_dark")
        await talk.until(lambda: len(given(talk)) == 2)
        assert given(talk)[1] == ("backup_rear", "defect", "tap")


async def test_a_defect_is_told_by_going_through_what_can_be_wrong(tmp_path: Path) -> None:
    async with talking(tmp_path, BACKUP, REFLECTORS) as talk:
        await talk.say(PHRASES["defect"])
        await talk.say(PHRASES["next"])
        assert talk.depot.voice.said[-1] == "Dim"
        await talk.answers("take")
        assert given(talk) == [("backup_rear", "defect", "voice")]
        last = walk_of(talk.depot, talk.walk_id).answers["backup_rear"]
        assert dict(last.seen) == {"backup_centre": "dim"}


async def test_what_could_not_be_checked_is_said_so(tmp_path: Path) -> None:
    async with talking(tmp_path, TAIL, REFLECTORS) as talk:
        await talk.answers("not_checked")
        assert given(talk) == [("tail_rear", "not_checked", "voice")]
        assert walk_of(talk.depot, talk.walk_id).answers["tail_rear"].reason == "other"


async def test_not_fitted_counts_only_with_a_yes(tmp_path: Path) -> None:
    async with talking(tmp_path, BACKUP, REFLECTORS) as talk:
        await talk.say(PHRASES["not_fitted"])
        assert talk.depot.voice.said[-1] == "Not fitted?"
        assert "Not fitted? “Yes that is right”" in talk.screen.texts()
        await talk.say(PHRASES["ok"])
        assert given(talk) == []
        await talk.answers("yes")
        assert given(talk) == [("backup_rear", "not_fitted", "voice")]


async def test_a_question_is_left_by_going_back_and_a_later_yes_means_nothing(
    tmp_path: Path,
) -> None:
    async with talking(tmp_path, BACKUP, REFLECTORS) as talk:
        await talk.say(PHRASES["not_fitted"])
        await talk.say(PHRASES["back"])
        assert talk.depot.voice.said[-1] == "Nothing changed."
        await talk.say(PHRASES["yes"])
        assert (given(talk), here(talk)) == ([], "backup_rear")


async def test_a_yes_that_comes_too_late_changes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("walkaround.ui.taps.spoken_answers.YES_S", -1.0)
    async with talking(tmp_path, BACKUP, REFLECTORS) as talk:
        await talk.say(PHRASES["not_fitted"])
        await talk.say(PHRASES["yes"])
        assert (given(talk), here(talk)) == ([], "backup_rear")


async def test_an_air_hold_begins_after_a_yes(tmp_path: Path) -> None:
    async with talking(tmp_path, AIR_HOLD) as talk:
        await talk.say(PHRASES["ok"])
        await talk.say(PHRASES["start"])
        events = walk_of(talk.depot, talk.walk_id).events
        assert not any(isinstance(event, HoldBegan) for event in events)
        await talk.answers("yes")
        assert isinstance(walk_of(talk.depot, talk.walk_id).events[-1], HoldBegan)
        assert walk_of(talk.depot, talk.walk_id).events[-1].step == HOLD


async def test_a_number_is_read_back_and_counts_after_a_yes(tmp_path: Path) -> None:
    async with talking(tmp_path, STROKE) as talk:
        await talk.say("one and three over four")
        assert "over" in talk.process.spelled
        assert talk.depot.voice.said[-1] == "Stroke, 1 3/4 in?"
        await talk.answers("yes")
        last = walk_of(talk.depot, talk.walk_id).events[-1]
        assert isinstance(last, Measured)
        assert (last.value, last.unit, last.by) == (1.75, "in", "voice")


@pytest.mark.parametrize("text", ["nine nine", "one over three", "one and"])
async def test_a_number_that_cannot_be_entered_is_moved_to_none_that_can(
    tmp_path: Path, text: str
) -> None:
    async with talking(tmp_path, STROKE) as talk:
        await talk.say(text)
        assert "Not understood. Say it again." in talk.screen.texts()
        await talk.say(PHRASES["yes"])
        assert not walk_of(talk.depot, talk.walk_id).measured


async def test_what_is_not_understood_changes_nothing_and_twice_asks_for_a_tap(
    tmp_path: Path,
) -> None:
    async with talking(tmp_path, BACKUP) as talk:
        await talk.say(NOT_CLEAR)
        assert "Not understood. Say it again." in talk.screen.texts()
        await talk.say(HeardText())
        assert "Not understood twice. Please tap." in talk.screen.texts()
        await talk.until(lambda: "Not understood twice. Please tap." in talk.depot.voice.said)
        assert given(talk) == []


async def test_a_step_that_takes_a_tap_says_so_and_takes_it(tmp_path: Path) -> None:
    async with talking(tmp_path, CHOCKS) as talk:
        await talk.say(PHRASES["ok"])
        assert talk.depot.voice.said[-1] == "Takes a tap: no key or voice answers it."
        assert given(talk) == []
        await talk.screen.click("ok")
        await talk.until(lambda: given(talk) == [("chocks", "ok", "tap")])


async def test_what_was_said_at_one_step_answers_no_other(tmp_path: Path) -> None:
    async with talking(tmp_path, BACKUP, REFLECTORS) as talk:
        await talk.press()
        on_heard = talk.process.on_heard
        assert on_heard is not None
        await talk.screen.click("ok")
        await talk.until(lambda: here(talk) == "reflectors_rear")
        on_heard(clear(PHRASES["ok"]))
        await talk.screen.settle()
        assert given(talk) == [("backup_rear", "ok", "tap")]


async def test_where_one_listens_for_air_nothing_can_be_said(tmp_path: Path) -> None:
    async with talking(tmp_path, LISTEN) as talk:
        assert not talk.screen.has("talk")


async def test_while_the_zone_is_held_that_is_seen_and_all_is_scored(
    tmp_path: Path,
) -> None:
    async with talking(tmp_path, BACKUP) as talk:
        await talk.press()
        assert "Listening…" in talk.screen.texts()
        assert set(PHRASES.values()) <= set(talk.process.texts)


def blown_out() -> list[Step]:
    """Each step of the app's own vehicles at which air blows out, once."""
    library = load_library(shipped(), today=date(2026, 11, 25))
    plans = [plan_walk(vehicle, library.rules) for vehicle in library.vehicles]
    return list({s.id: s for each in plans for s in each.steps if s.vents}.values())


async def test_while_air_blows_out_nothing_is_played_but_what_the_step_asks_and_the_phone_is_felt(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    played: list[str] = []

    async def play(_: Sound, address: str, *__: object, **___: object) -> bool:
        played.append(address)
        return True

    monkeypatch.setattr(Device, "_text_kept", pedal_kept)
    monkeypatch.setattr(Sound, "_play", play)
    monkeypatch.setattr(Sound, "silent_s", property(lambda _: 1e6))
    vents = blown_out()
    assert len(vents) >= 4
    async with talking(tmp_path, REFLECTORS, *vents, DRY, repeat_s=1) as talk:
        await talk.screen.click("ok")
        for at, vent in enumerate(vents):
            await talk.until(lambda vent=vent: here(talk) == vent.id)
            assert talk.screen.find("vents").value == "Air out"
            felt, prompt = shaken(talk), played[-1]
            talk.depot.clock.wait(61)
            if at == 0:
                await talk.until(lambda: talk.screen.find("strip").value.endswith("is up"))
            # What is not understood, twice; what takes a tap, told by voice and by key.
            await talk.say(NOT_CLEAR)
            await talk.say(HeardText())
            await talk.say(PHRASES["ok"])
            await talk.screen.press("Page Down")
            await talk.screen.settle()
            assert shaken(talk) >= felt + 4 + (at == 0)
            assert (played[-1], here(talk)) == (prompt, vent.id)
            await talk.screen.click("ok")


async def test_a_note_is_opened_to_be_typed(tmp_path: Path) -> None:
    async with talking(tmp_path, BACKUP) as talk:
        await talk.say(PHRASES["note"])
        assert talk.screen.has("note_text")


@pytest.mark.parametrize(
    ("why", "told"),
    [
        ("refused", "may not use the microphone"),
        ("not_secure", "--https"),
        ("no_microphone", "gives no microphone"),
    ],
)
async def test_a_phone_that_cannot_be_heard_says_why_in_a_sentence_and_takes_taps(
    tmp_path: Path, why: str, told: str
) -> None:
    async with talking(tmp_path, BACKUP) as talk:
        stream = talk.depot.parts.recognition.stream(ticket(talk.screen))
        assert stream is not None
        stream.failed(why)  # type: ignore[arg-type]
        await talk.screen.settle()
        assert not talk.screen.has("talk")
        assert any(told in text for text in talk.screen.texts())
        assert talk.screen.has("speech_trouble")
        await talk.screen.click("ok")
        await talk.until(lambda: given(talk) == [("backup_rear", "ok", "tap")])


async def test_a_recognizer_that_crashed_says_so_and_the_next_press_begins_anew(
    tmp_path: Path,
) -> None:
    async with talking(tmp_path, BACKUP, REFLECTORS) as talk:
        await talk.press()
        on_heard = talk.process.on_heard
        assert on_heard is not None
        on_heard(None)
        await talk.screen.settle()
        assert any("has stopped" in text for text in talk.screen.texts())
        await talk.answers("ok")
        assert given(talk) == [("backup_rear", "ok", "voice")]


async def test_a_phone_that_was_not_switched_on_is_not_listened_to(tmp_path: Path) -> None:
    async with talking(tmp_path, BACKUP, talk=False) as talk:
        assert not talk.screen.has("talk")
        assert ticket(talk.screen) == ""
        await talk.screen.click("menu")
        await talk.screen.click("keys")
        await talk.screen.click("talk_switch")
        assert talk.depot.parts.recognition.stream(ticket(talk.screen)) is not None
        assert "“All is well here”: OK" in talk.screen.texts()
        await talk.screen.click("talk_switch")
        assert ticket(talk.screen) == ""


async def test_without_the_extra_there_is_one_sentence(depot: App) -> None:
    depot.parts.recognition.installed = False
    async with depot.page("/keys") as screen:
        assert screen.has("speech_not_installed")
        assert not screen.has("talk_switch")
