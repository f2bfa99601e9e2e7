"""Answers of unlike steps, and steps looked back at: real screens on plans of the test's own."""

from __future__ import annotations

from typing import Any

import pytest
from support.app import App
from support.flet_harness import Screen
from support.tapping import tap, walk_of
from support.walks import plan, step

from walkaround.plan.steps import Choice, Step
from walkaround.ui.kit.theme import TOUCH
from walkaround.walk.events import Answered, Finished

OWN, AID = "own_hand", "helper"
CHOICES = (Choice(id=OWN, text="Pedal propped"), Choice(id=AID, text="A helper on the pedal"))
APPLY = step("apply", "applied_hold", "act", must=True, title="Brakes on", choices=CHOICES)
CHOCKS = step(
    "chocks_seen",
    "secure",
    "look",
    must=True,
    title="Chocks tight",
    short="Look at both chocks.",
    caution="Keep out from under.",
)
VISIT = step(
    "visit",
    "axles",
    "look",
    title="Axle 1, left: look",
    short="Look at it all.",
    spot="left_side",
    items=tuple(
        {
            "id": f"axle_1_left_{id_}",
            "name": name,
            "kind": "wheel_end",
            "required": True,
            "mark": "axle_1_left",
        }
        for id_, name in (("hose", "brake hose"), ("lining", "lining"))
    ),
)
LAST = step("off", "leave", "act", short="Take it off.", long="Take it off.")


def begin(depot: App, *steps: Step) -> str:
    return depot.parts.open_walks.begin(plan((*steps, LAST)), "Kim")


async def test_a_step_with_choices_is_answered_by_one_of_them(depot: App) -> None:
    walk_id = begin(depot, APPLY)
    async with depot.page(f"/walk/{walk_id}") as screen:
        zones: list[Any] = [screen.target(f"choice_{id_}") for id_ in (OWN, AID)]
        assert {zone.height for zone in zones} == {TOUCH}
        # Neither looks like the right answer.
        assert len({zone.style.bgcolor for zone in zones}) == 1
        assert not {"ok", "defect", "other"} & {
            key for key in ("ok", "defect", "other") if screen.has(key)
        }
        await tap(depot, screen, walk_id, f"choice_{AID}")
        given = walk_of(depot, walk_id).answers["apply"]
        assert (given.answer, given.choice) == ("ok", AID)
        await screen.click("back")
        assert any("Answered: A helper on the pedal, " in text for text in screen.texts())
        await tap(depot, screen, walk_id, f"choice_{OWN}")
        assert walk_of(depot, walk_id).answers["apply"].choice == OWN
        await tap(depot, screen, walk_id, "ok")
    # How it was done is a finding: the record shows it.
    async with depot.page(f"/record/{walk_id}") as record:
        assert "Brakes on: Pedal propped" in record.texts()


@pytest.mark.parametrize("must", [True, False])
async def test_choices_of_a_step_that_may_find_a_defect_leave_room_for_it(
    depot: App, must: bool
) -> None:
    look = step("look", "secure", "look", must=must, choices=CHOICES)
    walk_id = begin(depot, look)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert screen.has(f"choice_{OWN}")
        assert screen.has("other") is not must
        await screen.click("defect")
        await tap(depot, screen, walk_id, "defect_yes")
    assert walk_of(depot, walk_id).answers["look"].answer == "defect"


async def test_a_must_that_looks_finds_a_defect_and_is_never_skipped(depot: App) -> None:
    walk_id = begin(depot, CHOCKS)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert screen.has("ok")
        # Behind it are "not checked" and "not fitted".
        assert not screen.has("other")
        await screen.click("defect")
        assert not screen.has("not_fitted")
        await tap(depot, screen, walk_id, "defect_yes")
    assert walk_of(depot, walk_id).answers["chocks_seen"].answer == "defect"


async def test_a_must_that_does_something_is_done_and_nothing_else(depot: App) -> None:
    walk_id = begin(depot, step("chocks", "secure", "act", must=True))
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert screen.has("ok")
        assert not screen.has("defect")
        assert not screen.has("other")


async def test_rows_at_one_place_have_no_numbers_and_a_defect_names_them(depot: App) -> None:
    walk_id = begin(depot, VISIT)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert "• brake hose" in screen.texts()
        assert "• lining" in screen.texts()
        await screen.click("defect")
        assert screen.has("Brake hose")
        await screen.click("item_axle_1_left_lining")
        assert "Lining" in screen.texts()
        await screen.click("seen_worn")
        await tap(depot, screen, walk_id, "record_fault")
        await screen.click("defects")
        assert any("lining thinner than its limit" in text for text in screen.texts())


async def test_a_step_looked_back_at_is_not_ordered_again(depot: App) -> None:
    walk_id = begin(depot, CHOCKS)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert depot.voice.said[-1] == "Keep out from under. Look at both chocks."
        await tap(depot, screen, walk_id, "ok")
        at = f"{walk_of(depot, walk_id).answers['chocks_seen'].at.local():%H:%M}"
        heard = len(depot.voice.said)
        await screen.click("back")
        for key in ("again", "wording"):
            await screen.click(key)
        said = depot.voice.said[heard:]
        assert len(said) == 3
        assert set(said) == {f"Looking back: Chocks tight. Answered: OK, {at}."}
        shown = screen.texts()
        assert "Looking back: Chocks tight" in shown
        assert f"Answered: OK, {at}. Another answer changes it." in shown
        # The words stay, smaller, as what was asked.
        assert shown.index("What was asked") < shown.index("Keep out from under.")
        words: Any = screen.find("words")
        small = words.size
        await screen.click("forward")
        assert depot.voice.said[-1] == "Take it off."
        words = screen.find("words")
        assert small < words.size


CHARGE = step("charge", "charge", "act", title="Charge red", air=True)
HEARD = step("heard", "finish", "look", title="Brakes seen", air=True)
AWAY = step(
    "away",
    "leave",
    "act",
    must=True,
    title="Chocks, last of all",
    short="Chocks away?",
    choices=(Choice(id="away", text="Chocks away"), Choice(id="stay", text="Chocks left in")),
)


async def test_whoever_stops_with_air_in_the_lines_is_told_so_first(depot: App) -> None:
    walk_id = depot.parts.open_walks.begin(plan((CHARGE, HEARD, AWAY)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        await screen.click("menu")
        await screen.click("pause")
        assert any("Air is in the lines" in text for text in screen.texts())
        assert walk_of(depot, walk_id).phase == "stepping"
        await tap(depot, screen, walk_id, "leave_yes")
    assert walk_of(depot, walk_id).phase == "paused"


async def test_whoever_leaves_by_the_arrow_of_the_first_step_is_told_of_the_air_too(
    depot: App,
) -> None:
    walk_id = depot.parts.open_walks.begin(plan((CHARGE, HEARD, AWAY)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        await screen.click("back")
        await screen.click("back")
        assert any("Air is in the lines" in text for text in screen.texts())
        assert walk_of(depot, walk_id).phase == "stepping"
        await tap(depot, screen, walk_id, "leave_yes")
    assert walk_of(depot, walk_id).phase == "paused"


async def test_the_last_step_says_how_many_brake_defects_are_open(depot: App) -> None:
    walk_id = depot.parts.open_walks.begin(plan((CHARGE, HEARD, AWAY)), "Kim")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        await screen.click("defect")
        await tap(depot, screen, walk_id, "defect_yes")
        said = "One open brake defect. Leave the chocks in and tag the vehicle."
        assert depot.voice.said[-1] == said
        assert "One open brake defect." in screen.texts()
        assert "Chocks away?" not in screen.texts()
        assert screen.has("choice_away")
        await tap(depot, screen, walk_id, "choice_stay")


TAIL = step("tail", "lamps", "look", title="Tail lamp", short="Look at it.")


async def found_dark(depot: App, screen: Screen, walk_id: str) -> None:
    await screen.click("defect")
    await tap(depot, screen, walk_id, "defect_yes")
    await screen.click("back")


async def test_a_look_back_takes_no_defect_back_before_that_was_asked(depot: App) -> None:
    walk_id = begin(depot, TAIL)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await found_dark(depot, screen, walk_id)
        await screen.click("ok")
        assert "Take the defect back?" in screen.texts()
        assert walk_of(depot, walk_id).defects["tail"].state == "open"
        await screen.click("keep")
        await screen.click("other")
        await screen.click("reason_no_power")
        assert walk_of(depot, walk_id).defects["tail"].state == "open"
        await tap(depot, screen, walk_id, "withdraw")
    assert walk_of(depot, walk_id).defects["tail"].state == "withdrawn"
    assert walk_of(depot, walk_id).answers["tail"].reason == "no_power"


async def test_the_record_tells_what_was_taken_back_and_what_was_noted(depot: App) -> None:
    walk_id = begin(depot, TAIL)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await found_dark(depot, screen, walk_id)
        await screen.click("ok")
        await tap(depot, screen, walk_id, "withdraw")
        await screen.click("note")
        await screen.fill("note_text", "Mud on the lens")
        await tap(depot, screen, walk_id, "save_note")
        await tap(depot, screen, walk_id, "ok")
    at = walk_of(depot, walk_id).answers["tail"].at.local_text()
    async with depot.page(f"/record/{walk_id}") as record:
        assert f"Tail lamp: Defect, taken back by Kim, {at}" in record.texts()
        assert any(text.endswith("Mud on the lens") for text in record.texts())


async def test_a_record_ended_early_says_so_first(depot: App) -> None:
    walk_id = begin(depot, TAIL)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("menu")
        await screen.click("end")
        await tap(depot, screen, walk_id, "end_yes")
    async with depot.page(f"/record/{walk_id}") as record:
        told = record.texts()
        headline = told.index("Ended early. No open defect")
        assert headline < told.index("Partial: ended before its last step.")
        # Nothing but the vehicle's name stands above it.
        assert told[:headline] == [walk_of(depot, walk_id).plan.vehicle.name]


async def test_a_record_opens_every_step_with_its_answer_and_how_it_was_given(depot: App) -> None:
    walk_id = begin(depot, TAIL)
    known = {"notes": "Second gear sticks", "damage": ("Left fender bent",)}
    vehicle = walk_of(depot, walk_id).plan.vehicle.model_copy(update=known)
    plan_ = walk_of(depot, walk_id).plan.model_copy(update={"vehicle": vehicle})
    walk_id = depot.parts.open_walks.begin(plan_, "Kim")
    told = (Answered, {"step": "tail", "answer": "not_checked", "reason": "no_power", "by": "key"})
    depot.parts.open_walks.do(walk_id, "Kim", told)
    depot.parts.open_walks.do(walk_id, "Ann", (Answered, {"step": "off", "answer": "ok"}))
    depot.parts.open_walks.do(walk_id, "Ann", (Finished, {}))
    at = walk_of(depot, walk_id).answers["tail"].at.local_text()
    async with depot.page(f"/record/{walk_id}") as record:
        assert {"Second gear sticks", "Left fender bent"} < set(record.texts())
        assert "Answers: 1 by key and 1 tapped." in record.texts()
        await record.click("steps")
        assert {"no power", f"{at}, Kim, by key", f"{at}, Ann, tapped"} < set(record.texts())
        # What is closed is only read.
        with pytest.raises(LookupError, match="takes no tap"):
            record.target("step_tail")
        await record.click("back")
        assert record.has("file_pdf")


PLATE = step(
    "plate",
    "lamps",
    "lamp",
    title="Tail lamps, rear",
    short="Look at them.",
    items=(
        {"id": "tail_left", "name": "left tail lamp", "kind": "tail", "required": True},
        {"id": "licence_plate", "name": "plate lamp", "kind": "licence_plate", "required": True},
    ),
    expect={"tail_left": "steady", "licence_plate": "dark"},
)


async def test_a_plate_lamp_on_the_other_wire_is_asked_for_and_is_no_defect(depot: App) -> None:
    walk_id = begin(depot, PLATE)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("defect")
        await screen.click("item_licence_plate")
        await screen.click("seen_built_so")
        await tap(depot, screen, walk_id, "record_fault")
        assert not walk_of(depot, walk_id).open_defects
        await screen.click("back")
        assert any("plate lamp on another wire, as it was built" in text for text in screen.texts())
    given = walk_of(depot, walk_id).answers["plate"]
    assert (given.answer, given.seen) == ("ok", {"licence_plate": "built_so"})


async def test_what_was_seen_stays_with_the_answer_that_takes_a_defect_back(depot: App) -> None:
    walk_id = begin(depot, PLATE)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("defect")
        await screen.click("item_licence_plate")
        await screen.click("seen_wrong_lamp")
        await tap(depot, screen, walk_id, "record_fault")
        # One more look is asked for, which may be left out.
        await screen.click("Continue without it")
        await screen.click("back")
        await screen.click("defect")
        await screen.click("item_licence_plate")
        await screen.click("seen_built_so")
        await screen.click("record_fault")
        await tap(depot, screen, walk_id, "withdraw")
    given = walk_of(depot, walk_id).answers["plate"]
    assert (given.answer, given.seen) == ("ok", {"licence_plate": "built_so"})
