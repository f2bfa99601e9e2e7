"""Practice on screen: what is shown of a fault, what came of it, and that no record is made."""

from __future__ import annotations

from pathlib import Path

import flet as ft
import pytest
from fastapi.responses import FileResponse
from support.app import App
from support.flet_harness import Screen
from support.lampcases import LIBRARY
from support.practicing import rightly

from walkaround.airhold.gauge import Gauge
from walkaround.base.errors import InputError, MachineError
from walkaround.disk import locations
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Practice
from walkaround.practice.plan import practice_plan
from walkaround.practice.reasons import fault_words
from walkaround.practice.vehicle import PracticeVehicle
from walkaround.rules.limits import Line
from walkaround.ui.practice_vehicles import practice_vehicle_of
from walkaround.walk.events import Answered, HoldBegan
from walkaround.web.files import plan_response, record_file, shared_file, table_file
from walkaround.words.language import capital

STRIP = "Practice: touch nothing real."
VEHICLE = "tool_trailer_12"


def begin(depot: App, level: str = "dead_lamp", vehicle: str = VEHICLE) -> tuple[str, str]:
    """A practice begun without a page: its id and its address."""
    about = next(each for each in LIBRARY.vehicles if each.id == vehicle)
    practice = Practice.model_validate({"level": level, "seed": 2})
    plan = practice_plan(plan_walk(about, LIBRARY.rules), practice)
    walk_id = depot.parts.practice.open_walks.begin(plan, "Kim")
    return walk_id, f"/practice/walk/{walk_id}"


def vehicle_of(depot: App, walk_id: str) -> PracticeVehicle:
    """What stands on the screen."""
    made = practice_vehicle_of(depot.parts.practice.open_walks.walk(walk_id), LIBRARY)
    assert made is not None
    return made


def answer_all(depot: App, walk_id: str, vehicle: PracticeVehicle, *, rightly_: bool) -> None:
    """Answer every step, rightly or with OK."""
    right = rightly(vehicle)
    for step in vehicle.plan.steps:
        given = right[step.id] if rightly_ else None
        body = {"step": step.id, "answer": given.answer if given else "ok"}
        body |= {"seen": dict(given.seen)} if given else {}
        body |= {"choice": step.choices[0].id} if step.choices else {}
        depot.parts.practice.open_walks.do(walk_id, "Kim", (Answered, body))


async def level_of(screen: Screen) -> None:
    """From the first screen to the first step of a practice."""
    await screen.click("practice")
    await screen.click(f"practice_{VEHICLE}")
    assert STRIP in screen.texts()
    await screen.click("level_dead_lamp")
    await screen.until(lambda: screen.has("menu"))


async def test_practice_begins_from_the_first_screen_and_says_so_on_each(depot: App) -> None:
    async with depot.page() as screen:
        assert STRIP not in screen.texts()
        await level_of(screen)
        assert STRIP in screen.texts()
        assert any(text.startswith("Practice: touch nothing real. Keep") for text in screen.texts())
        await screen.click("menu")
        assert STRIP in screen.texts()
        assert not screen.has("cab")
    assert any(text.startswith("Practice: touch nothing real.") for text in _sentences(depot))


def _sentences(depot: App) -> list[str]:
    return [text[text.index("Practice:") :] for text in depot.voice.said if "Practice:" in text]


async def test_practice_is_in_no_list_and_in_no_file(depot: App) -> None:
    walk_id, _ = begin(depot)
    parts = depot.parts
    assert not parts.store.overview().lines
    for ending in ("pdf", "html", "csv", "ndjson", "json"):
        assert record_file(parts, parts.words, f"{walk_id}.{ending}").status_code == 404
    assert shared_file(parts, parts.words, f"{walk_id}.zip").status_code == 404
    assert (
        plan_response(parts, parts.words, walk_id, "chocks_on", "396x300_light").status_code == 404
    )
    table = table_file(parts, parts.words, "walks.csv")
    assert isinstance(table, FileResponse)
    assert walk_id not in Path(table.path).read_text(encoding="utf-8")
    with pytest.raises(InputError):
        parts.open_walks.walk(walk_id)
    async with depot.page("/records") as screen:
        assert not any("Tool trailer" in text for text in screen.texts())


async def test_a_file_of_practice_put_among_records_is_refused(depot: App) -> None:
    walk_id, _ = begin(depot)
    file = next(locations.walks(locations.practice(depot.parts.data)).rglob(f"{walk_id}*"))
    there = locations.walks(depot.parts.data) / file.parent.name / file.name
    there.parent.mkdir(parents=True, exist_ok=True)
    there.write_bytes(file.read_bytes())
    with pytest.raises(MachineError, match="practice lies apart"):
        depot.parts.store.load(walk_id)
    assert record_file(depot.parts, depot.parts.words, f"{walk_id}.csv").status_code == 404


async def test_the_end_tells_full_marks_and_the_cause(depot: App) -> None:
    walk_id, route = begin(depot)
    vehicle = vehicle_of(depot, walk_id)
    answer_all(depot, walk_id, vehicle, rightly_=True)
    async with depot.page(route) as screen:
        texts = screen.texts()
        due = sum(len(vehicle.due(step)) for step in vehicle.plan.steps)
        assert f"{due} of {due}" in texts
        assert "Missed" not in texts
        assert {capital(str(text)) for text in fault_words(vehicle)} <= set(texts)
        assert STRIP in texts
        assert not any("record" in name.lower() for name in screen.names())


async def test_who_says_ok_to_everything_is_told_what_was_missed(depot: App) -> None:
    walk_id, route = begin(depot, "bad_ground")
    answer_all(depot, walk_id, vehicle_of(depot, walk_id), rightly_=False)
    async with depot.page(route) as screen:
        assert any(text.startswith("0 of ") for text in screen.texts())
        assert "Missed" in screen.texts()
        await screen.click("again")
        await screen.until(lambda: screen.has("back") and "Missed" not in screen.texts())


async def test_what_is_seen_of_a_lamp_is_in_the_picture_and_in_its_words(depot: App) -> None:
    walk_id, route = begin(depot)
    vehicle = vehicle_of(depot, walk_id)
    at = next(n for n, step in enumerate(vehicle.plan.steps) if vehicle.due(step))
    for step in vehicle.plan.steps[:at]:
        body = {"step": step.id, "answer": "ok"}
        depot.parts.practice.open_walks.do(walk_id, "Kim", (Answered, body))
    step = vehicle.plan.steps[at]
    shown = vehicle.lamp_looks(step)
    odd = next(item for item in step.items if item.id in vehicle.due(step))
    async with depot.page(route) as screen:
        said = next(name for name in screen.names() if "as you see it" in name)
        number = step.items.index(odd) + 1
        assert f"{number}: {odd.name}, {shown[odd.id].replace('_', ' ')}" in said


async def test_air_is_heard_where_it_leaks_and_not_before(depot: App) -> None:
    walk_id, route = begin(depot, "leak", "dolly_4")
    vehicle = vehicle_of(depot, walk_id)
    heard = [step.id for step in vehicle.plan.steps if vehicle.hiss(step)]
    assert len(heard) == 1
    async with depot.page(route) as screen:
        assert not screen.has("practice_listen")
    assert heard[0].startswith("stroke_1_")


async def test_the_long_wording_shows_the_picture_large(depot: App) -> None:
    walk_id = depot.begin(VEHICLE)
    async with depot.page(f"/walk/{walk_id}") as screen:
        assert not screen.has("large")
        await screen.click("wording")
        await screen.click("large")
        assert not screen.has("ok")
        assert max(image.width for image in screen.controls(ft.Image)) > 380
        await screen.click("back")
        assert screen.has("large")


async def test_the_needle_of_a_hold_falls_as_the_leak_has_it_and_is_told_to_ears(
    depot: App,
) -> None:
    about = next(each for each in LIBRARY.vehicles if each.id == "dolly_4")
    gauges: dict[Line, Gauge] = {line: Gauge(name=line) for line in ("supply", "service")}
    plan = practice_plan(
        plan_walk(about, LIBRARY.rules, gauges=gauges), Practice(level="leak", seed=3)
    )
    held = next(step for step in plan.steps if step.part == "applied_hold" and step.hold)
    walks = depot.parts.practice.open_walks
    walk_id = walks.begin(plan.model_copy(update={"steps": (held,)}), "Kim")
    vehicle = vehicle_of(depot, walk_id)
    assert held.hold
    async with depot.page(f"/practice/walk/{walk_id}") as screen:
        walks.do(walk_id, "Kim", (HoldBegan, {"step": held.id}))
        depot.clock.wait(40)
        await screen.until(lambda: sum("needle at" in name for name in screen.names()) == 2)
        for line in held.hold.gauges:
            psi = round(2 * vehicle.psi(held, line, 40)) / 2
            await screen.until(
                lambda psi=psi: any(f"needle at {psi:g} psi" in name for name in screen.names())
            )
        lost = [held.hold.set_psi[g] - vehicle.psi(held, g, 60) for g in held.hold.gauges]
        assert max(lost) > held.hold.limit_psi_per_min
