"""Every screen and every phase of a walk: real parts but for clock and voice, no browser."""

from __future__ import annotations

from pathlib import Path

import pytest
from browser.seeds import answer
from support.app import App, app
from support.flet_harness import Screen
from support.screens_holding import hold

from walkaround.plan.steps import Step
from walkaround.rules.checklist import Wording
from walkaround.ui.taps.speaker import AHEAD
from walkaround.walk.events import Answered
from walkaround.walk.state import Walk
from walkaround.words.language import Words
from walkaround.words.measured_values import reading_order
from walkaround.words.prompts import Prompt, prompt

SEMITRAILER = "sandbag_semitrailer_7"
BLACKOUT_TRAILER = "pump_trailer_3"
TRACTOR = "depot_tractor_2"


def walk_of(depot: App, walk_id: str) -> Walk:
    return depot.parts.open_walks.walk(walk_id)


def title(depot: App, walk_id: str, at: int = 0) -> str:
    """What the step with this number, from 0, is called."""
    return str(walk_of(depot, walk_id).steps[at].title)


def answered(depot: App, walk_id: str) -> int:
    return len(walk_of(depot, walk_id).answers)


async def save(depot: App, screen: Screen, walk_id: str, *keys: str) -> None:
    """Tap one key after another and wait until what they tell is saved."""
    before = len(walk_of(depot, walk_id).events)
    for key in keys:
        await screen.click(key)
    await screen.until(lambda: len(walk_of(depot, walk_id).events) > before)
    await screen.settle()


async def make_ready(depot: App, screen: Screen, walk_id: str) -> None:
    """Do what the step asks before it can be OK: tell of gauges, measure, wait."""
    step = walk_of(depot, walk_id).here
    assert step is not None
    if step.kind == "gauges":
        while screen.has("mark_1"):
            await screen.click("mark_1")
    if step.wait:
        depot.clock.wait(step.wait.seconds)
    if step.measure is None:
        return
    for value in reading_order(step.measure):
        if step.measure.quantity == "s":
            await save(depot, screen, walk_id, "start_time")
            depot.clock.wait(20)
            await save(depot, screen, walk_id, "stop_time")
        elif step.measure.quantity == "in":
            await save(depot, screen, walk_id, "key_1", "key_1")
        else:
            least, most = value.at_least, value.at_most
            psi = most if most and not value.before else least or 100.0
            await save(depot, screen, walk_id, f"key_{psi // 10 * 10:g}", f"key_{psi:g}")


async def answer_ok(depot: App, screen: Screen, walk_id: str) -> None:
    """Tap the first answer and wait for the next step."""
    await make_ready(depot, screen, walk_id)
    before = answered(depot, walk_id)
    here = walk_of(depot, walk_id).here
    key = f"choice_{here.choices[0].id}" if here and here.choices else "ok"
    await screen.until(lambda: screen.has(key))
    await screen.click(key)
    await screen.until(lambda: answered(depot, walk_id) == before + 1)
    await screen.settle()


def walk_to(depot: App, walk_id: str, step_id: str) -> Step | None:
    """Have every step before this one answered by another page; the step that is then asked."""
    while (here := walk_of(depot, walk_id).here) is not None and here.id != step_id:
        answer(depot.parts, walk_id, here)
    return here


async def follow_to(depot: App, screen: Screen, walk_id: str, step_id: str) -> None:
    """The same while this page is open, which follows."""
    here = walk_to(depot, walk_id, step_id)
    shown = "finish" if here is None else str(here.title)
    await screen.until(lambda: screen.has(shown))


async def test_the_first_screen_offers_every_vehicle_and_names_each_problem_file(
    tmp_path: Path,
) -> None:
    own = tmp_path / "data" / "checklists"
    own.mkdir(parents=True)
    (own / "mine.toml").write_text('id = "mine"\nnonsense = 1\n', encoding="utf-8")
    async with app(tmp_path / "data") as depot, depot.page() as screen:
        assert "Sandbag semitrailer 7" in screen.texts()
        assert "Pump trailer 3" in screen.texts()
        assert any("mine.toml" in text and "nonsense" in text for text in screen.texts())


@pytest.mark.parametrize("vehicle", [SEMITRAILER, BLACKOUT_TRAILER, TRACTOR])
async def test_a_whole_walk_from_the_first_screen_to_the_closed_record(
    depot: App, vehicle: str
) -> None:
    async with depot.page() as screen:
        await screen.click(f"vehicle_{vehicle}")
        await screen.click("begin")
        await screen.until(lambda: bool(depot.parts.store.overview().lines))
        walk_id = depot.parts.store.overview().lines[0].id
        await screen.until(lambda: title(depot, walk_id) in screen.texts())
        steps = walk_of(depot, walk_id).steps
        for step in steps:
            assert str(step.title) in screen.texts()
            if step.hold:
                await hold(depot, screen, walk_id)
                assert any(text.startswith("Within limit: ") for text in screen.texts())
            await answer_ok(depot, screen, walk_id)
        assert "No open defect" in screen.texts()
        await screen.click("finish")
        await screen.until(lambda: screen.has("file_csv"))
        assert any("Not a periodic inspection" in text for text in screen.texts())
    assert walk_of(depot, walk_id).phase == "finished"
    assert not walk_of(depot, walk_id).partial


async def test_each_step_is_spoken_once_and_the_next_ones_are_rendered_ahead(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await answer_ok(depot, screen, walk_id)
        steps = walk_of(depot, walk_id).steps
        assert len(depot.voice.said) == 2
        assert str(steps[1].short) in depot.voice.said[1]
        assert str(steps[2].short) in depot.voice.planned[0]
        await screen.click("again")
        assert depot.voice.said[2] == depot.voice.said[1]
        await screen.click("wording")
        assert str(steps[1].long) in depot.voice.said[-1]
        assert str(steps[1].long) in screen.text


async def test_each_step_is_put_into_words_once_for_screen_voice_and_what_comes_next(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It was six times a tap, which the next screen had to wait for."""
    worded: list[str] = []

    def counted(step: Step, power: str, wording: Wording, words: Words, *, anew: bool) -> Prompt:
        worded.append(step.id)
        return prompt(step, power, wording, words, anew=anew)

    monkeypatch.setattr("walkaround.ui.step_prompt.prompt", counted)
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:
        for _ in range(3):
            await answer_ok(depot, screen, walk_id)
    asked_and_next = [step.id for step in walk_of(depot, walk_id).steps[: 3 + 1 + AHEAD]]
    assert sorted(worded) == sorted(asked_and_next)


async def test_who_asks_for_a_lamp_to_be_explained_hears_what_was_explained_before(
    depot: App,
) -> None:
    """A part is explained aloud once a walk; a tap on Explain or Again explains it once more."""
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await follow_to(depot, screen, walk_id, "marker_left_side")
        step = walk_of(depot, walk_id).here
        assert step is not None
        explained = str(step.items[0].what)
        assert step.items[0].taught
        await screen.click("wording")
        assert explained in depot.voice.said[-1]
        assert explained in screen.text


async def test_without_a_voice_the_walk_goes_on_with_one_plain_notice(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    depot.voice.trouble = "No voice: there is no engine; the words are on the screen."
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert screen.texts().count(depot.voice.trouble) == 1
        await answer_ok(depot, screen, walk_id)


async def test_a_silent_walk_says_nothing(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("menu")
        await screen.click("voice_False")
        await screen.until(lambda: not depot.parts.settings().voice)
        said = len(depot.voice.said)
        await screen.click("back")
        await answer_ok(depot, screen, walk_id)
        assert len(depot.voice.said) == said


async def test_chocks_cannot_be_skipped(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await follow_to(depot, screen, walk_id, "chocks_on")
        assert not screen.has("defect")
        assert not screen.has("other")


async def test_a_dark_lamp_is_a_defect_until_its_own_step_is_repeated_and_ok(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await follow_to(depot, screen, walk_id, "tail_rear")
        await screen.click("defect")
        await screen.click("item_rear_left")
        await screen.click("seen_dark")
        await screen.click("record_fault")
        await screen.until(lambda: "1 open defect" in screen.texts())
        await screen.click("defects")
        assert any("left tail lamp dark" in text for text in screen.texts())
        await screen.click("repaired_tail_rear")
        await screen.click("recheck_tail_rear")
        await screen.until(lambda: "Tail lamps, rear" in screen.texts())
        await screen.click("ok")
        await screen.until(lambda: "1 open defect" not in screen.texts())
        assert walk_of(depot, walk_id).defects["tail_rear"].state == "rechecked"


async def test_many_lamps_are_answered_at_once_when_they_have_been_named(patient: App) -> None:
    walk_id = patient.begin(SEMITRAILER, scope="lamps", together=True)
    patient.clock.step_s = 1.0
    walk_to(patient, walk_id, "look_1_rear")
    async with patient.page(f"/walk/{walk_id}") as screen:
        assert screen.has("listen")
        assert not screen.has("ok")
        step = walk_of(patient, walk_id).here
        assert step is not None
        assert set(step.expect.values()) == {"steady", "flashing", "dark"}
        await screen.until(lambda: screen.has("ok"))
        dark = next(item for item in step.items if step.expect[item.id] == "dark")
        await screen.click("defect")
        await screen.click(f"item_{dark.id}")
        assert not screen.has("seen_dark")
        await screen.click("seen_wrong_lamp")
        await screen.click("record_fault")
        await screen.until(lambda: "1 open defect" in screen.texts())
        await screen.click("defects")
        assert any("lit, should be dark" in text for text in screen.texts())


async def test_a_required_lamp_that_is_not_there_is_missing_never_unfitted(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await follow_to(depot, screen, walk_id, "stop_rear")
        await screen.click("other")
        assert not screen.has("not_fitted")
        await screen.click("back")
        step = walk_of(depot, walk_id).here
        assert step is not None
        await screen.click("defect")
        await screen.click(f"item_{step.items[0].id}")
        await screen.click("seen_missing")
        await screen.click("record_fault")
        await screen.until(lambda: "stop_rear" in walk_of(depot, walk_id).answers)
        assert walk_of(depot, walk_id).answers["stop_rear"].answer == "missing"


async def test_what_nobody_requires_can_be_answered_not_fitted(depot: App) -> None:
    walk_id = depot.begin(BLACKOUT_TRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await follow_to(depot, screen, walk_id, "blackout_marker_rear")
        await screen.click("other")
        await screen.click("not_fitted")
        await screen.until(lambda: "blackout_marker_rear" in walk_of(depot, walk_id).answers)
        assert walk_of(depot, walk_id).answers["blackout_marker_rear"].answer == "not_fitted"


async def test_not_checked_takes_one_tap_for_its_reason_and_a_note_can_be_added(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await follow_to(depot, screen, walk_id, "water_drained")
        await screen.click("note")
        await screen.fill("note_text", "seal worn")
        await screen.click("save_note")
        await screen.until(lambda: "Note: seal worn" in screen.texts())
        await screen.click("other")
        await screen.click("reason_no_air")
        await screen.until(lambda: "water_drained" in walk_of(depot, walk_id).answers)
        assert walk_of(depot, walk_id).answers["water_drained"].reason == "no_air"


async def test_going_back_shows_the_answer_and_another_answer_changes_it(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await follow_to(depot, screen, walk_id, "gauges")
        await screen.click("back")
        await screen.until(lambda: screen.has("given"))
        assert any("Answered: Done" in text for text in screen.texts())
        await screen.click("other")
        await screen.click("reason_in_the_way")
        await screen.until(lambda: not screen.has("given"))
        assert walk_of(depot, walk_id).answers["water_drained"].answer == "not_checked"
        here = walk_of(depot, walk_id).here
        assert here is not None
        assert here.id == "gauges"


async def test_looking_back_and_going_on_changes_nothing(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await follow_to(depot, screen, walk_id, "gauges")
        events = len(walk_of(depot, walk_id).events)
        await screen.click("back")
        await screen.click("forward")
        assert len(walk_of(depot, walk_id).events) == events
        assert "Gauges: marks and zero" in screen.texts()


async def test_a_tap_on_a_step_already_left_answers_nothing(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:
        stale = screen.target("ok")
        await answer_ok(depot, screen, walk_id)
        await screen.tap(stale)
        assert answered(depot, walk_id) == 1


async def test_a_second_tap_within_the_dead_time_answers_nothing(patient: App) -> None:
    walk_id = patient.begin(SEMITRAILER)
    async with patient.page(f"/walk/{walk_id}") as screen:
        patient.clock.wait(1)
        await answer_ok(patient, screen, walk_id)
        await screen.click("ok")
        assert answered(patient, walk_id) == 1


async def test_two_pages_at_one_walk_show_each_others_answers(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as cab, depot.page(f"/walk/{walk_id}") as rear:
        await answer_ok(depot, rear, walk_id)
        await cab.until(lambda: title(depot, walk_id, 1) in cab.texts())


async def test_a_walk_left_for_later_waits_on_the_first_screen_and_goes_on(depot: App) -> None:
    first, second = depot.begin(SEMITRAILER), depot.begin(BLACKOUT_TRAILER)
    async with depot.page(f"/walk/{first}") as screen:
        await answer_ok(depot, screen, first)
        await screen.click("menu")
        await screen.click("pause")
        await screen.until(lambda: screen.has(f"go_on_{first}"))
        assert walk_of(depot, first).phase == "paused"
        assert screen.has(f"go_on_{second}")
        await screen.click(f"go_on_{first}")
        await screen.until(lambda: title(depot, first, 1) in screen.texts())
        assert walk_of(depot, first).phase == "stepping"


async def test_a_walk_ended_early_is_partial_and_says_what_was_not_reached(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await answer_ok(depot, screen, walk_id)
        await screen.click("menu")
        await screen.click("end")
        assert any("chocks in" in text for text in screen.texts())
        await screen.click("end_yes")
        await screen.until(lambda: screen.has("file_json"))
        assert "Partial: ended before its last step." in screen.texts()
        assert any("not reached" in text for text in screen.texts())


async def test_a_defect_of_a_closed_walk_is_rechecked_in_a_walk_of_its_own(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await follow_to(depot, screen, walk_id, "tail_rear")
        step = walk_of(depot, walk_id).here
        assert step is not None
        seen = {step.items[0].id: "dim"}
        body = {"step": step.id, "answer": "defect", "seen": seen}
        depot.parts.open_walks.do(walk_id, "Kim", (Answered, body))
        await screen.settle()
        await follow_to(depot, screen, walk_id, "")
        await screen.click("finish")
        await screen.until(lambda: screen.has("recheck"))
        depot.clock.wait(60)
        await screen.click("recheck")
        # The recheck's, which has the same first step.
        await screen.until(lambda: title(depot, walk_id) in screen.texts())
        lines = depot.parts.store.overview().lines
        again = next(line.id for line in lines if line.recheck_of == walk_id)
        await follow_to(depot, screen, again, "")
        await screen.click("finish")
        await screen.until(
            lambda: "Partial: the recheck of earlier defects only." in screen.texts()
        )
    async with depot.page() as screen:
        assert not any("open defect" in text for text in screen.texts())


async def test_records_and_settings_are_drawn_by_day_and_by_night(depot: App) -> None:
    depot.begin(SEMITRAILER)
    for dark in (False, True):
        async with depot.page("/records", dark=dark) as screen:
            assert "Sandbag semitrailer 7" in screen.texts()
        async with depot.page("/settings", dark=dark) as screen:
            await screen.click("faster")
            await screen.until(lambda: depot.voice.said != [])
    assert depot.parts.settings().rate_wpm > 160


async def test_an_address_of_no_walk_says_so_and_leads_home(depot: App) -> None:
    async with depot.page("/walk/20000101_000000_000000") as screen:
        assert "This walk cannot be opened" in screen.texts()
        await screen.click("back")
        assert "Start a walk" in screen.texts()


async def test_a_screen_that_fails_to_draw_says_so_and_leads_home(
    depot: App, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:

        def broken(*_: object) -> None:
            raise RuntimeError("broken on purpose")

        monkeypatch.setattr("walkaround.ui.step.step.prompt_of", broken)
        await screen.click("wording")
        assert "This screen could not be drawn." in screen.texts()
        assert "broken on purpose" in caplog.text
        monkeypatch.undo()
        await screen.click("home")
        assert "Start a walk" in screen.texts()


async def test_what_cannot_be_saved_is_said_and_the_step_stays(
    depot: App, monkeypatch: pytest.MonkeyPatch
) -> None:
    walk_id = depot.begin(SEMITRAILER)

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    async with depot.page(f"/walk/{walk_id}") as screen:
        with monkeypatch.context() as broken:
            broken.setattr("os.fsync", full)
            await screen.click("ok")
            await screen.until(lambda: "no room left" in screen.text)
        assert answered(depot, walk_id) == 0
        assert title(depot, walk_id) in screen.texts()
        await answer_ok(depot, screen, walk_id)
        assert "no room left" not in screen.text
