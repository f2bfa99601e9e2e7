"""What earlier walks of a vehicle left to do: told before a walk, at its steps, in the records."""

from __future__ import annotations

from support.app import App
from support.english import ENGLISH
from support.flet_harness import Screen
from support.screens_holding import walk_of
from support.walks import HOLD, at_the_hold

from walkaround.records.walk_line import copy_id
from walkaround.ui.walk.repair_panel import REPAIRED
from walkaround.walk.events import Answered, Finished, Noted, Revisited
from walkaround.web.files import record_file
from walkaround.words.measured_values import defect_words

SEMITRAILER = "sandbag_semitrailer_7"


def found_dark(depot: App, *, finished: bool = True) -> str:
    """A walk of the semitrailer in which a tail lamp was dark; its id."""
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    walk = walk_of(depot, walk_id)
    do = depot.parts.open_walks.do
    for step in walk.steps:
        dark = step.kind == "lamp" and step.spot == "rear" and not walk_of(depot, walk_id).defects
        if step.wait:
            depot.clock.wait(step.wait.seconds)
        body = {"step": step.id, "answer": "defect" if dark else "ok"}
        if dark:
            body["seen"] = {step.items[0].id: "dark"}
        elif step.choices:
            body["choice"] = step.choices[0].id
        do(walk_id, "Kim", (Answered, body))
    if finished:
        do(walk_id, "Kim", (Noted, {"step": faulty(depot, walk_id), "text": "wet plug"}))
        do(walk_id, "Kim", (Finished, {}))
    return walk_id


def faulty(depot: App, walk_id: str) -> str:
    return walk_of(depot, walk_id).open_defects[0].step


def dark_words(depot: App, walk_id: str) -> str:
    walk = walk_of(depot, walk_id)
    return defect_words(walk, walk.open_defects[0], ENGLISH)


async def test_what_is_still_open_is_told_by_name_before_the_next_walk(depot: App) -> None:
    walk_id = found_dark(depot)
    async with depot.page(f"/start/{SEMITRAILER}") as screen:
        assert "1 defect is still open from an earlier walk" in screen.texts()
        told = dark_words(depot, walk_id)
        assert "dark" in told
        assert any(text.endswith(f": {told}") for text in screen.texts())


async def test_its_step_says_what_was_found_last_time_until_it_is_found_again(depot: App) -> None:
    before = found_dark(depot)
    walk_id, step_id = depot.begin(SEMITRAILER, scope="lamps"), faulty(depot, before)
    told = f"Last time, {depot.clock().local_text()[:10]}: {dark_words(depot, before)}"
    async with depot.page(f"/walk/{walk_id}") as screen:
        while (here := walk_of(depot, walk_id).here) and here.id != step_id:
            assert told not in screen.texts()
            await screen.click("ok")
            await screen.settle()
        assert told in screen.texts()
        assert "wet plug" in screen.texts()
        await screen.click("ok")
        await screen.until(lambda: told not in screen.texts())


async def test_a_recheck_shows_what_was_wrong_and_both_records_lead_to_each_other(
    depot: App,
) -> None:
    before = found_dark(depot)
    day = walk_of(depot, before).events[0].at.local_text()
    async with depot.page(f"/record/{before}") as screen:
        assert not any(text.startswith("Rechecked on") for text in screen.texts())
        await screen.click("recheck")
        await screen.until(lambda: len(depot.parts.store.overview().lines) == 2)
    after = depot.parts.store.overview().lines[0].id
    async with depot.page(f"/walk/{after}") as screen:
        while (here := walk_of(depot, after).here) and here.id != faulty(depot, before):
            await screen.click("ok")
            await screen.settle()
        assert any(dark_words(depot, before) in text for text in screen.texts())
    async with depot.page(f"/record/{after}") as screen:
        assert f"Rechecks the record of {day}" in screen.texts()
        await screen.click(f"linked_{before}")
        await screen.until(lambda: any(t.startswith("Rechecked on ") for t in screen.texts()))
        assert screen.has(f"linked_{after}")


async def test_a_record_says_that_its_defect_was_rechecked_and_offers_no_recheck(
    depot: App,
) -> None:
    before = found_dark(depot)
    step_id, later = faulty(depot, before), depot.begin(SEMITRAILER, scope="lamps", who="Bo")
    depot.clock.wait(60.0)
    for step in walk_of(depot, later).steps:
        if step.wait:
            depot.clock.wait(step.wait.seconds)
        body: dict[str, object] = {"step": step.id, "answer": "ok"}
        if step.choices:
            body["choice"] = step.choices[0].id
        depot.parts.open_walks.do(later, "Bo", (Answered, body))
    said = f"in walk {later}."
    async with depot.page(f"/record/{before}") as screen:
        told = screen.texts()
        assert "1 defect left open in this walk; rechecked OK since" in told
        assert any(t.startswith("Rechecked OK since by Bo, ") and t.endswith(said) for t in told)
        assert screen.has(f"linked_{later}")
        assert not screen.has("recheck")
        assert not screen.has(f"{REPAIRED}{step_id}")
    for kind in ("html", "csv"):
        file = bytes(record_file(depot.parts, ENGLISH, f"{before}.{kind}").body).decode()
        assert later in file
    # The walk's own result stays as it was recorded.
    assert walk_of(depot, before).is_open(step_id)
    # Found wrong once more, it is open again.
    depot.parts.open_walks.do(
        later,
        "Bo",
        (Revisited, {"step": step_id, "purpose": "change"}),
        (Answered, {"step": step_id, "answer": "defect"}),
    )
    async with depot.page(f"/record/{before}") as screen:
        assert "1 open defect" in [text.lower() for text in screen.texts()]
        assert any(t.startswith("Still open: seen by Bo, ") for t in screen.texts())
        assert screen.has("recheck")


async def test_a_copy_of_a_record_leads_to_the_recheck_too(depot: App) -> None:
    before = found_dark(depot)
    async with depot.page(f"/record/{before}") as screen:
        await screen.click("recheck")
        await screen.until(lambda: len(depot.parts.store.overview().lines) == 2)
    after = depot.parts.store.overview().lines[0].id
    copy = copy_id(before, "ab" * 32)
    depot.parts.open_walks.import_walk(copy, depot.parts.store.read(before))
    async with depot.page(f"/record/{copy}") as screen:
        assert screen.has(f"linked_{after}")
    async with depot.page(f"/record/{after}") as screen:
        assert screen.has(f"linked_{before}")
        assert screen.has(f"linked_{copy}")


async def test_a_second_walk_of_a_vehicle_asks_and_the_first_may_be_gone_on_with(
    depot: App,
) -> None:
    walk_id = depot.begin(SEMITRAILER)
    steps = len(walk_of(depot, walk_id).steps)
    async with depot.page() as screen:
        assert any(
            text.startswith(f"Unfinished, at step 1 of {steps}, begun") for text in screen.texts()
        )
    async with depot.page(f"/start/{SEMITRAILER}") as screen:
        await screen.click("begin")
        assert "One walk of this vehicle is not finished. Start another?" in screen.texts()
        assert len(depot.parts.store.overview().lines) == 1
        await screen.click("second")
        await screen.until(lambda: len(depot.parts.store.overview().lines) == 2)
    async with depot.page(f"/start/{SEMITRAILER}") as screen:
        await screen.click("begin")
        await screen.click("go_on_asked")
        await screen.until(lambda: screen.has("menu"))
        assert len(depot.parts.store.overview().lines) == 2


async def test_a_phone_that_knows_no_name_asks_for_it_before_the_first_answer(depot: App) -> None:
    depot.parts.store.change_settings({"who": ""})
    async with depot.page(f"/start/{SEMITRAILER}") as screen:
        await screen.click("begin")
        assert "What is your name?" in screen.texts()
        await screen.fill("who", "Noor")
        await screen.fire(screen.find("who"), "blur")
        await screen.until(lambda: depot.parts.settings().who == "Noor")
        assert "What is your name?" in screen.texts()
        await screen.click("begin_named")
        await screen.until(lambda: len(depot.parts.store.overview().lines) == 1)
    [line] = depot.parts.store.overview().lines
    assert walk_of(depot, line.id).events[0].who == "Noor"


def test_a_defect_of_an_air_hold_says_its_figures_and_not_those_of_a_later_hold() -> None:
    teller = at_the_hold("stepping")
    teller.hold(end_psi=100.0)
    walk = teller.found(HOLD)
    told = defect_words(walk, walk.open_defects[0], ENGLISH)
    assert "lost 10 psi/min" in told
    assert "limit of 2 psi/min" in told
    teller.back(HOLD, "recheck")
    teller.hold(end_psi=110.0)
    assert defect_words(teller.walk, teller.walk.defects[HOLD], ENGLISH) == told


def test_what_closed_a_defect_is_kept_though_its_step_is_answered_again() -> None:
    teller = at_the_hold("stepping")
    teller.hold(end_psi=100.0)
    teller.found(HOLD)
    teller.back(HOLD, "recheck")
    teller.hold(end_psi=110.0)
    closing = teller.ok(HOLD).answers[HOLD]
    teller.back(HOLD)
    later = teller.ok(HOLD).answers[HOLD]
    assert later.id != closing.id
    assert teller.walk.defects[HOLD].closed == closing


async def type_odometer(screen: Screen, text: str) -> None:
    await screen.fill("odometer", text)
    await screen.fire(screen.find("odometer"), "blur")


async def test_an_odometer_may_be_typed_and_nothing_asks_for_it(depot: App) -> None:
    walk_id = found_dark(depot)
    async with depot.page(f"/record/{walk_id}") as screen:
        await type_odometer(screen, "")
        assert walk_of(depot, walk_id).odometer is None
        await type_odometer(screen, "48213")
        await screen.until(lambda: "Odometer 48213 mi" in screen.texts())
        entries = len(walk_of(depot, walk_id).events)
        # Left as it is, it is not kept once more.
        await type_odometer(screen, "48213")
        assert len(walk_of(depot, walk_id).events) == entries
    depot.parts.store.change_settings({"length": "mm"})
    async with depot.page(f"/record/{walk_id}") as screen:
        assert "Odometer 48213 mi" in screen.texts()
        await type_odometer(screen, "77592")
        await screen.until(lambda: "Odometer 77592 km" in screen.texts())
