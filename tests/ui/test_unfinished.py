"""A page that lost its link comes back with what was half done on it, and with nothing else."""

from __future__ import annotations

import asyncio
from pathlib import Path

import flet as ft
import pytest
from support.app import App
from support.english import ENGLISH
from support.flet_harness import Screen, shown
from support.made_up_vehicles import SEMITRAILER
from support.walks import lamp_item, plan, step

from walkaround.airhold.gauge import Gauge
from walkaround.disk.delayed_write import DelayedFile
from walkaround.disk.locations import half_typed
from walkaround.rules.limits import Line
from walkaround.ui.page.unfinished import (
    KEPT_S,
    MOST_PAGES,
    PagePlace,
    Unfinished,
    UnfinishedPages,
    use_unfinished,
)
from walkaround.walk.events import MOST_NOTE_CHARS, Answered, GaugesTold, Revisited

LAMPS = step(
    "tails",
    "lamps",
    "lamp",
    title="Tails",
    items=(lamp_item("tail_left"), lamp_item("tail_right")),
    expect={"tail_left": "steady", "tail_right": "steady"},
)
GAUGES = step("gauges", "connect", "gauges")
VENT = step("vent", "finish", "act", title="Vent")


def _begin(depot: App) -> str:
    return depot.parts.open_walks.begin(plan((LAMPS, VENT)), "Kim")


async def _answered_elsewhere(depot: App, walk_id: str) -> None:
    async with depot.page(f"/walk/{walk_id}") as other:
        await other.click("ok")
        await other.until(lambda: "Vent" in other.texts())


async def _note_half_typed(screen: Screen, text: str = "Lens cra") -> None:
    await screen.click("note")
    await screen.fill("note_text", text)


async def test_a_note_half_typed_is_there_again_and_can_be_saved(depot: App) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await _note_half_typed(cut)
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        assert screen.find("note_text").value == "Lens cra"
        await screen.click("save_note")
        await screen.until(lambda: not screen.has("note_text"))
    assert depot.parts.open_walks.walk(walk_id).notes == {"tails": "Lens cra"}


async def test_it_comes_back_also_while_the_server_still_holds_the_old_page(depot: App) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as stale:
        await _note_half_typed(stale)
        async with depot.page(f"/walk/{walk_id}", back=stale) as screen:
            await screen.fill("note_text", "Lens cracked")
            assert stale.find("note_text").value == "Lens cra"
    async with depot.page(f"/walk/{walk_id}", back=screen) as again:
        assert again.find("note_text").value == "Lens cracked"


async def test_a_note_stays_at_its_step_when_another_phone_has_answered_that(depot: App) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await _note_half_typed(cut)
    await _answered_elsewhere(depot, walk_id)
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        await screen.click("save_note")
        await screen.until(lambda: "Vent" in screen.texts())
    assert depot.parts.open_walks.walk(walk_id).notes == {"tails": "Lens cra"}


async def test_lamps_already_told_of_are_there_again(depot: App) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await cut.click("defect")
        await cut.click("item_tail_left")
        await cut.click("seen_dark")
        await cut.click("item_tail_right")
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        await screen.click("seen_dim")
        await screen.click("record_fault")
        await screen.until(lambda: "Vent" in screen.texts())
    told = depot.parts.open_walks.walk(walk_id).answers["tails"]
    assert told.seen == {"tail_left": "dark", "tail_right": "dim"}


async def test_answers_to_a_step_that_another_phone_has_answered_are_not_asked_on(
    depot: App,
) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await cut.click("defect")
        await cut.click("item_tail_left")
    await _answered_elsewhere(depot, walk_id)
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        assert ENGLISH("answered-elsewhere") in screen.texts()
        assert "Vent" in screen.texts()
        assert screen.has("ok")


async def test_lamps_told_before_a_repair_are_not_told_at_its_recheck(depot: App) -> None:
    """One tap more would have recorded the old defect as what the recheck found."""
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await cut.click("defect")
        await cut.click("item_tail_left")
        await cut.click("seen_dark")
    told = {"step": "tails", "answer": "defect", "seen": {"tail_left": "dark"}}
    depot.parts.open_walks.do(
        walk_id, "Ana", (Answered, told), (Revisited, {"step": "tails", "purpose": "recheck"})
    )
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        assert ENGLISH("answered-elsewhere") in screen.texts()
        await screen.click("defect")
        assert not screen.has("record_fault")


async def test_a_step_looked_at_again_that_is_asked_again_meanwhile_is_asked(depot: App) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await cut.click("ok")
        await cut.until(lambda: "Vent" in cut.texts())
        await cut.click("back")
    again = {"step": "tails", "purpose": "change"}
    depot.parts.open_walks.do(walk_id, "Ana", (Revisited, again))
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        await screen.click("ok")
        await screen.until(lambda: "Vent" in screen.texts())


async def test_a_step_that_was_looked_at_again_is_shown_again(depot: App) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await cut.click("ok")
        await cut.until(lambda: "Vent" in cut.texts())
        await cut.click("back")
        assert "Looking back: Tails" in cut.texts()
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        assert "Looking back: Tails" in screen.texts()
        assert "Answered: OK" in screen.text


async def test_gauges_told_so_far_are_there_again(depot: App) -> None:
    lines: tuple[Line, ...] = ("supply", "service")
    a_plan = plan((GAUGES, VENT)).model_copy(update={"gauges": lines})
    walk_id = depot.parts.open_walks.begin(a_plan, "Kim")
    async with depot.page(f"/walk/{walk_id}") as cut:
        assert "Supply gauge: its dial is in" in cut.texts()
        await cut.click("mark_1")
        assert "Service gauge: its dial is in" in cut.texts()
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        assert "Service gauge: its dial is in" in screen.texts()
        assert "1 psi" in screen.texts()


async def test_gauges_that_another_phone_told_meanwhile_are_shown_as_it_told_them(
    depot: App,
) -> None:
    lines: tuple[Line, ...] = ("supply", "service")
    a_plan = plan((GAUGES, VENT)).model_copy(update={"gauges": lines})
    walk_id = depot.parts.open_walks.begin(a_plan, "Kim")
    async with depot.page(f"/walk/{walk_id}") as cut:
        await cut.click("mark_2")
    told = {line: Gauge(name=line, unit="psi", step=1.0) for line in lines}
    body = {"step": "gauges", "gauges": told, "altitude_m": 0.0, "at_zero": True}
    depot.parts.open_walks.do(
        walk_id,
        "Ana",
        (GaugesTold, body),
        (Answered, {"step": "gauges", "answer": "ok"}),
        (Revisited, {"step": "gauges", "purpose": "change"}),
    )
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        assert "2 psi" not in screen.texts()
        await screen.click("ok")
        await screen.until(lambda: "Vent" in screen.texts())
    gauges = depot.parts.open_walks.walk(walk_id).told_gauges
    assert gauges is not None
    assert gauges.gauges == told


async def test_a_vehicle_half_filled_in_is_there_again_and_can_be_saved(depot: App) -> None:
    route = f"/vehicle/new/{SEMITRAILER.id}"
    async with depot.page(route) as cut:
        await cut.click("electrical.led_True")
        await cut.fill("plate", "FR 118")
        await cut.click("kind")
    async with depot.page(route, back=cut) as screen:
        await screen.click("option_full trailer")
        await screen.click("save")
        await screen.until(lambda: screen.has("edit"))
    [kept] = [each for each in depot.parts.library.vehicles if each.plate == "FR 118"]
    assert (kept.kind, kept.electrical.led) == ("full trailer", True)


async def test_what_was_chosen_before_a_walk_is_chosen_again(depot: App) -> None:
    route = f"/start/{SEMITRAILER.id}"
    async with depot.page(route) as cut:
        await cut.click("scope_lamps")
        await cut.click("looks_singly")
    async with depot.page(route, back=cut) as screen:
        await screen.click("begin")
        await screen.until(lambda: bool(depot.parts.store.overview().lines))
    [line] = depot.parts.store.overview().lines
    begun = depot.parts.open_walks.walk(line.id)
    assert begun.plan is not None
    assert (begun.plan.scope, begun.plan.together) == ("lamps", False)


async def test_what_was_given_up_or_done_does_not_come_back(depot: App) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await _note_half_typed(cut)
        await cut.click("back")
        await cut.click("note")
        assert cut.find("note_text").value == ""
        await cut.fill("note_text", "Rust")
        await cut.click("save_note")
        await cut.until(lambda: not cut.has("note_text"))
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        assert not screen.has("note_text")
        assert screen.has("ok")
        await screen.click("note")
        assert screen.find("note_text").value == "Rust"


async def test_a_note_too_long_is_cut_with_a_word_and_what_is_not_seen_counts_for_nothing(
    depot: App,
) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await _note_half_typed(screen, "\u200b" * 300 + "x" * 400)
        await screen.click("save_note")
        await screen.until(lambda: not screen.has("note_text"))
        assert ENGLISH("note-cut", most=MOST_NOTE_CHARS) not in screen.texts()
        assert depot.parts.open_walks.walk(walk_id).notes == {"tails": "x" * 400}
        await _note_half_typed(screen, "y" * 501)
        await screen.click("save_note")
        await screen.until(lambda: ENGLISH("note-cut", most=MOST_NOTE_CHARS) in screen.texts())
    assert depot.parts.open_walks.walk(walk_id).notes == {"tails": "y" * 500}


async def test_at_another_address_and_on_another_phone_nothing_is_half_done(depot: App) -> None:
    walk_id, other_id = _begin(depot), _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await _note_half_typed(cut)
    async with depot.page(f"/walk/{walk_id}") as stranger:
        assert not stranger.has("note_text")
    async with depot.page(f"/walk/{other_id}", back=cut) as screen:
        assert screen.has("ok")
        await screen.click("note")
        assert screen.find("note_text").value == ""


async def _in_file(depot: App, text: str) -> None:
    file = half_typed(depot.parts.data)
    while not (file.exists() and text in file.read_text(encoding="utf-8")):
        await asyncio.sleep(0.02)


async def test_what_was_half_typed_is_there_after_the_server_was_killed(depot: App) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await _note_half_typed(cut)
        await _in_file(depot, "Lens cra")
    # A new process: it has the same folder, and nothing in memory.
    again = App(depot.parts, depot.clock, depot.voice)
    async with again.page(f"/walk/{walk_id}", back=cut) as screen:
        assert screen.find("note_text").value == "Lens cra"
        await screen.click("save_note")
        await screen.until(lambda: not screen.has("note_text"))
    once_more = App(depot.parts, depot.clock, depot.voice)
    async with once_more.page(f"/walk/{walk_id}", back=screen) as screen:
        assert screen.has("ok")
    assert depot.parts.open_walks.walk(walk_id).notes == {"tails": "Lens cra"}


async def test_a_vehicle_half_filled_in_is_there_after_the_server_was_killed(depot: App) -> None:
    route = f"/vehicle/new/{SEMITRAILER.id}"
    async with depot.page(route) as cut:
        await cut.fill("name", "Sandbag semitrailer 70")
        await _in_file(depot, "semitrailer 70")
    async with App(depot.parts, depot.clock, depot.voice).page(route, back=cut) as screen:
        assert screen.find("name").value == "Sandbag semitrailer 70"


@pytest.mark.parametrize("damaged", [b"", b"[1]", b'{"a": {}}', b'{"a": 1}', b"\xff", b'{"a'])
def test_a_damaged_file_of_what_was_typed_is_as_good_as_none(
    tmp_path: Path, damaged: bytes
) -> None:
    file = tmp_path / "half_typed.json"
    file.write_bytes(damaged)
    assert UnfinishedPages(lambda: 0.0, DelayedFile(file)).begin("new", "a").values == {}


async def test_a_walk_closed_meanwhile_shows_its_record(depot: App) -> None:
    walk_id = _begin(depot)
    async with depot.page(f"/walk/{walk_id}") as cut:
        await _note_half_typed(cut)
    await _answered_elsewhere(depot, walk_id)
    async with depot.page(f"/walk/{walk_id}") as other:
        await other.click("ok")
        await other.click("Close the record")
        await other.until(lambda: "Table (CSV)" in other.texts())
    async with depot.page(f"/walk/{walk_id}", back=cut) as screen:
        assert "Table (CSV)" in screen.text


@ft.component
def _Counter(unfinished: Unfinished) -> ft.Control:
    count, set_count = use_unfinished(unfinished, "count", 0)
    return ft.Column(
        [
            ft.Text(f"{count} so far"),
            ft.Button("Add", on_click=lambda: set_count(lambda now: now + 1)),
            ft.Button("Ten", on_click=lambda: set_count(10)),
        ]
    )


async def test_a_kept_value_is_a_state_that_outlives_its_component() -> None:
    unfinished = Unfinished(lambda: 0.0, PagePlace("/"))
    for start in (0, 12):
        async with shown(_Counter, unfinished) as screen:
            assert f"{start} so far" in screen.texts()
            await screen.click("Ten")
            await screen.click("Add")
            await screen.click("Add")
            assert "12 so far" in screen.texts()
    assert unfinished.values == {"count": 12}


def test_to_stand_elsewhere_is_to_give_up_what_is_half_done() -> None:
    unfinished = Unfinished(lambda: 0.0)
    for place in (
        PagePlace("/a"),
        PagePlace("/a", "note"),
        PagePlace("/a", "", "x"),
        PagePlace("/a", step="x"),
    ):
        unfinished.keep("text", "half")
        unfinished.at(unfinished.place)
        assert unfinished.values
        unfinished.at(place)
        assert not unfinished.values


def test_after_a_night_nothing_is_half_done_any_more() -> None:
    now_s = [1000.0]
    unfinished_pages = UnfinishedPages(lambda: now_s[0])
    unfinished_pages.begin("evening", "").keep("text", "half")
    now_s[0] += KEPT_S - 1.0
    assert unfinished_pages.begin("night", "evening").values == {"text": "half"}
    now_s[0] += 2.0
    assert unfinished_pages.begin("morning", "evening").values == {}
    assert unfinished_pages.begin("noon", "night").values == {}


def test_the_pages_that_opened_longest_ago_are_forgotten() -> None:
    unfinished_pages = UnfinishedPages(lambda: 0.0)
    unfinished_pages.begin("0", "").keep("text", "half")
    for at in range(1, MOST_PAGES):
        unfinished_pages.begin(str(at), "")
    assert unfinished_pages.begin("copy", "0").values == {"text": "half"}
    assert unfinished_pages.begin("late", "0").values == {}
    assert unfinished_pages.begin("later", "copy").values == {"text": "half"}
